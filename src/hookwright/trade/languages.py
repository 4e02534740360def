"""Words of the craft in other languages: the concept, the full words, the abbreviations, and how sure the source makes them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ._load import records


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One concept in one language. `words` holds alternatives, customary first; `short` the abbreviations in use."""

    language: str
    concept: str
    words: tuple[str, ...]
    short: tuple[str, ...]
    sure: str
    source: str


@lru_cache(maxsize=1)
def languages() -> dict[str, str]:
    """Language code → its English name.

    >>> languages()["de"]
    'German'
    """
    return {r["code"]: r["name"] for r in records("languages", "language")}


@lru_cache(maxsize=32)
def terms_of(language: str) -> dict[str, Term]:
    """Every concept of a language; empty for a language that is not listed.

    >>> terms_of("de")["dc"].short[0], terms_of("xx")
    ('Stb', {})
    """
    return {
        r["concept"]: Term(
            language=language,
            concept=r["concept"],
            words=tuple(word.strip() for word in r["word"].split(" / ")),
            short=tuple(r.get("short", ())),
            sure=r.get("sure", ""),
            source=r["source"],
        )
        for r in records("languages", "term")
        if r["language"] == language
    }
