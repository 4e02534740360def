"""Where to work, in words: "in next st", "around each of next 3 dc", "in 4th ch from hook"."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Literal

from ..pattern import RUN, THESE, Place, Sized
from .lexicon import Lexicon
from .numbers import number, one, ordinal, plural

_LOOPS = {
    "both": "",
    "front": "{FLO} of ",
    "back": "{BLO} of ",
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
    upto: str = "",
) -> str:
    """The place with its preposition. `over` is how a whole row is told ("across", "around"); `post` for a post stitch; `upto`: the kind of
    place a run ends at."""
    loop = loop_words(at.loop, lexicon)
    if at.where in _ALONE:
        return f"in {loop}{_ALONE[at.where]}"
    if at.where == "from_hook":
        return f"in {loop}{ordinal(at.nth or 1)}{lexicon.space}{lexicon.word('ch')} from hook"
    noun = _noun(at, lexicon)
    if at.of == RUN:
        return f"on the {noun}"
    if at.of == THESE and places != "rest":
        return f"on these {number(places)}{lexicon.space}{plural(_noun(replace(at, of=''), lexicon))}"
    if upto and places == "rest":
        over, but = upto_words(upto, but, lexicon, over=over), Sized((0,))
    if at.between:
        return f"between {_many(at, places, but, noun, lexicon, over)}{_tail(at, lexicon)}"
    preposition = "around" if post or at.post else "in"
    return f"{preposition} {loop}{_many(at, places, but, noun, lexicon, over)}{_tail(at, lexicon)}"


_ALONE = {"ring": "ring"}


def loop_words(loop: str, lexicon: Lexicon) -> str:
    """ "BLO of ", or "" for both loops."""
    return _LOOPS[loop].format(FLO=lexicon.word("FLO"), BLO=lexicon.word("BLO"))


def _noun(at: Place, lexicon: Lexicon) -> str:
    noun = "row end" if at.where == "row_end" and at.what == "st" else lexicon.noun(at.what)
    if at.nth is None or at.where == "named":
        return noun
    if at.nth == 0:
        return f"{lexicon.centre} {noun}"
    return f"{ordinal(at.nth)} {noun}"


def _many(at: Place, places: Sized[int] | Literal["rest"], but: Sized[int], noun: str, lexicon: Lexicon, over: str) -> str:
    if at.where == "same":
        return f"same {lexicon.word('st')} as join" if at.what == "join" else f"same {noun}"
    if at.where == "named":
        return _named(at, noun, lexicon)
    if places == "rest":
        return f"each {noun}" if at.of else f"each {noun} {_rest(but, noun if at.what.endswith('sp') else '', lexicon, over)}"
    if at.what == "piece" and lexicon.style.spoken:
        return f"each of next {number(places)}{lexicon.space}{plural(lexicon.word('st'))} of the piece"
    which = {"first": "first", "last": "last", "marked": "marked", "skipped": "skipped"}.get(at.where, "next")
    if one(places):
        return noun if at.nth == 0 and at.what == "st" and which == "next" and over == "across" else f"{which} {noun}"
    each = "" if at.between else "each of "
    if at.where in ("skipped", "marked"):
        return f"{each}{number(places)}{lexicon.space}{which} {plural(noun)}"
    return f"{each}{which} {number(places)}{lexicon.space}{plural(noun)}"


def _named(at: Place, noun: str, lexicon: Lexicon) -> str:
    if at.nth is None:
        return f"top of {noun}" if _CHAIN.fullmatch(at.what) else noun
    if at.nth == 0:
        return f"{lexicon.centre} {lexicon.word('st')} of {noun}"
    inside = lexicon.word("ch" if at.what.startswith("ch-") else "st")
    return f"{ordinal(at.nth)}{lexicon.space}{inside} of {noun}"


_CHAIN = re.compile(r"ch-\d+")


def upto_words(upto: str, but: Sized[int], lexicon: Lexicon, *, over: str) -> str:
    """How far a run goes that ends at a place: "to next corner", "to 2 sts before center st of corner"; a row has one centre."""
    if upto.startswith("last "):
        last = lexicon.noun(upto.removeprefix("last "))
        return f"to last {last}" if one(but) else f"to last {number(but)}{lexicon.space}{plural(last)}"
    st = lexicon.word("st")
    centre = f"{lexicon.centre} {st}" if over == "across" else f"{lexicon.centre} {st} of corner"
    middle = upto.startswith("center ")
    named = f"{lexicon.centre} {lexicon.noun(upto.removeprefix('center '))}" if middle else f"next {lexicon.noun(upto)}"
    where = centre if upto == "center" else named
    before = "" if set(but.values) == {0} else f"{number(but)}{lexicon.space}{st if one(but) else plural(st)} before "
    return f"to {before}{where}"


def _rest(but: Sized[int], noun: str, lexicon: Lexicon, over: str) -> str:
    if set(but.values) == {0}:
        return over
    stitch = noun or lexicon.word("st")
    return f"{over} to last {stitch}" if one(but) else f"{over} to last {number(but)}{lexicon.space}{plural(stitch)}"


def _tail(at: Place, lexicon: Lexicon) -> str:
    if at.where == "under":
        return f" along other side of foundation {lexicon.word('ch')}"
    if at.row is not None:
        return f" of {at.row}"
    if at.of == "layers":
        return " through both layers"
    if at.of:
        return f" of {'last' if at.where == 'last' else 'next'} {lexicon.noun(at.of)}"
    if at.below:
        return f" {at.below + 1}{lexicon.space}rows below"
    return ""
