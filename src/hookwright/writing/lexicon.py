"""The words of one set of terms: stitch ids and nouns in, what a maker is told out."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Literal

from ..trade.terms import abbr, name, say
from .style import HOUSE, Style

_WHOLE = {
    "st": "stitch",
    "sp": "space",
    "ch": "chain",
    "rep": "repeat",
    "sl st": "slip stitch",
    "inc": "increase",
    "dec": "decrease",
    "BLO": "back loop only",
    "FLO": "front loop only",
    "Rnd": "Round",
    "RS": "right side",
    "WS": "wrong side",
    "cl": "cluster",
}
"""The writer's own abbreviations in whole words."""


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
        if kind in self.own:
            return kind
        return self.word(kind) if self.style.spoken else abbr(kind, self.terms)

    def word(self, short: str) -> str:
        """An abbreviation of the writer's, or a stitch, as it is said in this style.

        >>> Lexicon().word("st"), Lexicon(style=Style(spoken=True)).word("st"), Lexicon(style=Style(spoken=True), terms="UK").word("FPdc")
        ('st', 'stitch', 'front post treble')
        """
        if not self.style.spoken:
            return short
        return _WHOLE.get(short) or name(short, self.terms)

    def noun(self, what: str) -> str:
        """The name of a place: stitch ids in it are put in these terms, everything else stays.

        >>> Lexicon(terms="UK").noun("dc"), Lexicon(terms="UK").noun("ch-2 sp"), Lexicon(terms="UK").noun("top of dc")
        ('tr', 'ch-2 sp', 'top of tr')
        """
        if what in self.own:
            return what
        if what == "any":
            return f"{self.word('st')} and {self.word('sp')}"
        if self.style.spoken:
            return " ".join(self._part(part) for part in what.split(" "))
        if what in ("st", "sp", "ch"):
            return what
        whole = self.stitch(what)
        return whole if whole != what else " ".join(self.stitch(word) for word in what.split(" "))

    def _part(self, part: str) -> str:
        """One word of a place, whole: "ch-2" → "chain-2"."""
        return f"chain-{part[3:]}" if part.startswith("ch-") else self.word(part)
