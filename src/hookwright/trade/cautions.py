"""The usual cautions where work can hurt someone. They name what is customarily cited and leave the judging to those who may judge."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from ._load import records

DEFER = "Check your local rules, and ask an accredited laboratory before you sell: this is not legal advice."
"""The sentence that goes with every caution."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution: what it is `about` (plain words), where it holds, the standards customarily cited, the sentence for the maker."""

    id: str
    about: tuple[str, ...]
    where: str
    standards: tuple[str, ...]
    text: str
    sure: str
    source: str


@lru_cache(maxsize=1)
def cautions() -> tuple[Caution, ...]:
    """Every caution, in the data file's order."""
    return tuple(
        Caution(
            id=r["id"],
            about=tuple(r["about"]),
            where=r["where"],
            standards=tuple(r.get("standards", ())),
            text=r["text"],
            sure=r["sure"],
            source=r["source"],
        )
        for r in records("cautions", "caution")
    )


def cautions_about(subjects: Iterable[str]) -> tuple[Caution, ...]:
    """The cautions about any of these subjects ("tassel", "hat", "toy", "blanket" …), each once.

    >>> [c.id for c in cautions_about(["pompom", "eyes"])]
    ['small-parts', 'loose-fibres']
    """
    wanted = {subject.lower() for subject in subjects}
    return tuple(caution for caution in cautions() if wanted & set(caution.about))
