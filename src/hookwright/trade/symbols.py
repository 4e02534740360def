"""Chart symbols, described in words. Drawings of them are made in `drawing/`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from ._load import records


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """One symbol: the stitch id it stands for ("" for a rule of drawing), what it looks like, and how sure that is."""

    id: str
    stitch: str
    glyph: str
    sure: Literal["yes", "likely", "unsure"]
    source: str


@lru_cache(maxsize=1)
def symbols() -> dict[str, Symbol]:
    """Every symbol, by its own id.

    >>> symbols()["dc"].glyph
    'a barred stem with one slanting stroke'
    """
    return {
        r["id"]: Symbol(id=r["id"], stitch=r.get("stitch", ""), glyph=r["glyph"], sure=r["sure"], source=r["source"])
        for r in records("symbols", "symbol")
    }
