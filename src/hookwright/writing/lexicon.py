"""The words of one set of terms: stitch ids and nouns in, what a maker is told out."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Literal

from ..trade.terms import abbr, say
from .style import HOUSE, Style


@dataclass(frozen=True, slots=True, kw_only=True)
class Lexicon:
    """`terms` "US" or "UK"; `own` the names the pattern defines, which are nobody's abbreviations and stay as they are."""

    terms: Literal["US", "UK"] = "US"
    style: Style = HOUSE
    own: Collection[str] = field(default_factory=frozenset)

    @property
    def space(self) -> str:
        return self.style.space

    @property
    def skip(self) -> str:
        return say("skip", self.terms)

    @property
    def centre(self) -> str:
        return say("center", self.terms)

    def stitch(self, kind: str) -> str:
        """The abbreviation of a stitch id.

        >>> Lexicon(terms="UK").stitch("FPdc"), Lexicon(terms="UK").stitch("dc2tog"), Lexicon().stitch("dc")
        ('FPtr', 'tr2tog', 'dc')
        """
        return kind if kind in self.own else abbr(kind, self.terms)

    def noun(self, what: str) -> str:
        """The name of a place: stitch ids in it are put in these terms, everything else stays.

        >>> Lexicon(terms="UK").noun("dc"), Lexicon(terms="UK").noun("ch-2 sp"), Lexicon(terms="UK").noun("top of dc")
        ('tr', 'ch-2 sp', 'top of tr')
        """
        if what in self.own or what in ("st", "sp", "ch"):
            return what
        whole = self.stitch(what)
        return whole if whole != what else " ".join(self.stitch(word) for word in what.split(" "))
