"""Which terms a speaker uses: the pattern's, or the other ones throughout. Said once, not at every stitch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...trade.terms import System
from .findings import Heard
from .said import heard_in
from .tokens import Token
from .units import Unit

FEWEST, SHARE = 5, 0.75


@dataclass(frozen=True, slots=True)
class Speaking:
    """The terms of a narration; `alarm` where they are not the pattern's and the speaker does not say so."""

    terms: System
    own: System
    alarm: Heard | None = None


def speakings_of(tokens: list[Token], units: Sequence[Unit], own: System) -> tuple[Speaking, ...]:
    """The terms a narration may be in: the likelier first, and the other ones too where the speaker says that she uses them."""
    other: System = "UK" if own == "US" else "US"
    likely = _likely(tokens, units, own)
    return (likely, Speaking(other, own)) if likely.terms == own and _declared(tokens, other) else (likely,)


def _likely(tokens: list[Token], units: Sequence[Unit], own: System) -> Speaking:
    """The terms a narration is in, by the stitches named against those the pattern has at all."""
    kinds = frozenset().union(*(unit.kinds for unit in units)) if units else frozenset()
    other: System = "UK" if own == "US" else "US"
    mine, theirs = [], []
    for heard in heard_in(tokens, 0, len(tokens), own):
        if not heard.item.what or heard.item.kind not in ("st", "inc", "dec") or heard.clear < 0.7:
            continue
        if heard.other is None:
            mine += [heard] if heard.item.plain in kinds else []
            continue
        if heard.item.plain in kinds and heard.other.plain not in kinds:
            mine.append(heard)
        elif heard.item.plain not in kinds and heard.other.plain in kinds:
            theirs.append(heard)
    share = len(theirs) >= SHARE * (len(mine) + len(theirs))
    if share and len(theirs) >= 2 and _declared(tokens, other):
        return Speaking(other, own)
    if share and len(theirs) >= FEWEST:
        first = theirs[0]
        message = f"the whole narration is in {other} terms and the pattern in {own} terms: say so at the beginning, or say the other names"
        return Speaking(other, own, Heard(kind="dialect", at=first.at, words=first.words, row="", message=message, sure=0.9))
    return Speaking(own, own)


def _declared(tokens: list[Token], other: System) -> bool:
    """Whether the speaker says that she uses these terms."""
    names = ("uk", "british", "english") if other == "UK" else ("us", "american")
    for k, token in enumerate(tokens):
        if token.text in ("i'll", "i'd", "i") and k + 2 < len(tokens) and tokens[k + 1].text in ("say", "call") and _names(tokens, k + 2):
            return True  # "so I'll say single"
        if token.text == "our" and any(t.text in ("terms", "names", "words", "way") for t in tokens[k + 1 : k + 4]):
            return True
        if token.text in names and k and tokens[k - 1].text in ("in", "an") and not tokens[k - 1].stop:
            return True  # "I say it in British"
        if token.text in names and any(t.text in ("terms", "term", "terminology", "names", "abbreviations") for t in tokens[k + 1 : k + 4]):
            return True
    return False


def _names(tokens: Sequence[Token], k: int) -> bool:
    """Whether a stitch, or the half of its name, follows at once."""
    return any(t.kind == "st" or t.text in ("single", "double", "treble") for t in tokens[k : k + 3])
