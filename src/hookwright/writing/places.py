"""Where to work, in words: "in next st", "around each of next 3 dc", "in 4th ch from hook"."""

from __future__ import annotations

from typing import Literal

from ..pattern import Place, Sized
from .lexicon import Lexicon
from .numbers import number, one, ordinal, plural

_LOOPS = {
    "both": "",
    "front": "FLO of ",
    "back": "BLO of ",
    "third": "third loop of ",
    "free_front": "free front loop of ",
    "free_back": "free back loop of ",
}


def place_words(
    at: Place,
    places: Sized[int] | Literal["rest"],
    but: Sized[int],
    lexicon: Lexicon,
    *,
    over: str = "across",
    post: bool = False,
) -> str:
    """The place with its preposition. `over` is how a whole row is told ("across", "around"); `post` for a post stitch."""
    loop = _LOOPS[at.loop]
    if at.where in _ALONE:
        return f"in {loop}{_ALONE[at.where]}"
    if at.where == "from_hook":
        return f"in {loop}{ordinal(at.nth or 1)}{lexicon.space}ch from hook"
    noun = _noun(at, lexicon)
    if at.between:
        return f"between {_many(at, places, but, noun, lexicon, over)}{_tail(at, lexicon)}"
    preposition = "around" if post or at.post else "in"
    return f"{preposition} {loop}{_many(at, places, but, noun, lexicon, over)}{_tail(at, lexicon)}"


_ALONE = {"ring": "ring"}


def _noun(at: Place, lexicon: Lexicon) -> str:
    noun = "row end" if at.where == "row_end" and at.what == "st" else lexicon.noun(at.what)
    if at.nth is None or at.where == "named":
        return noun
    if at.nth == 0:
        return f"{lexicon.centre} {noun}"
    return f"{ordinal(at.nth)} {noun}"


def _many(at: Place, places: Sized[int] | Literal["rest"], but: Sized[int], noun: str, lexicon: Lexicon, over: str) -> str:
    if at.where == "same":
        return f"same {noun}"
    if at.where == "named":
        return _named(at, noun, lexicon)
    if places == "rest":
        return f"each {noun} {_rest(but, lexicon, over)}"
    which = {"first": "first", "last": "last", "marked": "marked", "skipped": "skipped"}.get(at.where, "next")
    if one(places):
        return f"{which} {noun}"
    each = "" if at.between else "each of "
    return f"{each}{which} {number(places)}{lexicon.space}{plural(noun)}"


def _named(at: Place, noun: str, lexicon: Lexicon) -> str:
    if at.nth is None:
        return f"top of {noun}" if noun.startswith("ch-") and noun[3:].isdigit() else noun
    if at.nth == 0:
        return f"{lexicon.centre} st of {noun}"
    return f"{ordinal(at.nth)}{lexicon.space}ch of {noun}" if noun.startswith("ch-") else f"{ordinal(at.nth)} st of {noun}"


def _rest(but: Sized[int], lexicon: Lexicon, over: str) -> str:
    if set(but.values) == {0}:
        return over
    noun = "st" if one(but) else "sts"
    return f"{over} to last {noun}" if one(but) else f"{over} to last {number(but)}{lexicon.space}{noun}"


def _tail(at: Place, lexicon: Lexicon) -> str:
    if at.where == "under":
        return " along other side of foundation ch"
    if at.row is not None:
        return f" of {at.row}"
    if at.below:
        return f" {at.below + 1}{lexicon.space}rows below"
    return ""
