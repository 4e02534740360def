"""The yarn and the place a round opens with, no verb said: "Green in any ch-2 space.", "Next color, any corner.", "New colour:"."""

from __future__ import annotations

from ...pattern import Aside, Colour, Place, Step
from .colours import NAMES, name
from .cursor import Cursor
from .places import spot

EXAMPLES = (
    ("Green in any ch-2 space. Ch 3, 2 dc in same space", "+Green:, ch3, 2dc@same sp"),
    ("Next color, any corner. Ch 3, 2 dc in same corner", "+next color:, ch3, 2dc@same corner"),
    ("In a new color, start in any ch-1 sp. Ch 3, dc in same sp", "+new:, ch3, dc@same sp"),
    ("Starting with C in any corner space, ch 3, dc in same space", "+C:, ch3, dc@same sp"),
    ("Pick any ch-2 space and join B, ch 3, dc in same sp", "+B:, ch3, dc@same sp"),
    ("Insert hook in any ch-1 sp, pull up a loop of B, ch 3, dc in same sp", "+B:, ch3, dc@same sp"),
)

_NAMING = frozenset(("w", "next", "other", "o", "color", "idle"))
_STOPS = frozenset((".", ",", ":", ";", "-"))
_LONGEST = 4


def opened_in(c: Cursor) -> list[Step] | None:
    """A row's first words, where they are a yarn and the place it is joined in; None with the cursor unmoved.

    A word that nothing knows as a colour is one where "any" place is told behind it: nothing but yarn is joined so.
    """
    start = c.i
    if len(c.frames) > 1 or any(not isinstance(step, Aside) for step in c.out):
        return None
    c.take("with", "in")
    c.drop("a", "the")
    begin = c.i
    while c.kind in _NAMING and c.i - begin < _LONGEST:
        c.i += 1
    words = c.t[begin : c.i]
    shade = any(word.kind == "color" for word in words)
    named = bool(words) and (shade or (words[0].kind == "w" and words[0].text[:1].isupper()))
    if not named:
        c.i = start
        return None
    known = shade or words[-1].text.lower() in NAMES or words[-1].text.lower() in c.ctx.colours
    at = _place(c)
    closed = c.kind in _STOPS
    if not closed or (at is None and not (shade and c.kind in (".", ":"))) or not (known or at is not None):
        c.i = start
        return None
    if c.kind in (",", ":", "-"):
        c.i += 1
    letter = len(words[-1].text) == 1
    told = words[-1].text if letter else " ".join(word.text.lower() if shade else word.text for word in words)
    return [Colour(id=c.id(), span=c.span(start), yarn=told, join_in=at is not None, at=at)]


def begun_in_any(c: Cursor) -> list[Step] | None:
    """ "(In a new color,) start in any ch-1 sp", "pick any corner and join B", "insert hook in any sp, pull up a loop of B": the yarn is
    joined there, with that told of the yarn before it; None with the cursor unmoved."""
    start = c.i
    if c.kind not in _LEADS or len(c.frames) > 1 or not all(isinstance(step, (Aside, Colour)) for step in c.out):
        return None
    inserted = c.kind == "insert"
    picked = c.kind == "w"
    if picked and c.t[c.i].text.lower() not in _PICKS:
        return None
    c.i += 1
    c.take("hook") if inserted else c.take("work")
    yarn = name(c, loose=True) if not inserted and not picked and c.take("with", "by") else None
    c.take("at", "in")
    found = spot(c, bare=True) if c.kind == "any" else None
    if found is None:
        c.i = start
        return None
    if inserted:
        yarn = _loop_drawn(c)
    elif picked and c.t[c.i].kind in ("and", ",") and c.look().kind in ("join", "attach"):
        c.i += 2
        yarn = name(c, loose=True)
        c.take("in") and c.take("it", "there")
    elif yarn is None and c.kind == "with" and c.look().kind not in ("n", "st", "ch"):
        c.i += 1
        yarn = name(c, loose=True)
    if c.kind == "with" and (c.look().kind == "ch" or (c.look().kind == "n" and c.look(2).kind == "ch")):
        c.i += 1  # "in any corner with 3 ch"
    elif c.kind not in _CLOSED or (inserted and yarn is None):
        c.i = start
        return None
    if c.kind in (",", ":", "-"):
        c.i += 1
    before = c.out.pop() if c.out and isinstance(c.out[-1], Colour) else None
    told = before.yarn if isinstance(before, Colour) else "same"
    return [Colour(id=c.id(), span=c.span(start), yarn=yarn or told, join_in=True, at=found.at)]


def _loop_drawn(c: Cursor) -> str | None:
    """Past ", pull up a loop of B" behind the place where the hook is put in; the yarn."""
    c.take(",")
    c.take("and")
    if not c.take("pull"):
        return None
    c.drop("a", "the", "over", "idle")
    if not c.take("lp") or not c.take("of", "with", "in"):
        return "same" if c.kind in _CLOSED else None
    return name(c, loose=True)


_LEADS = frozenset(("beg", "insert", "w"))
_PICKS = frozenset(("pick", "choose", "find", "select"))
_CLOSED = frozenset((".", ",", ":", ";", "-", "(", "[", "*"))


def _place(c: Cursor) -> Place | None:
    """ "in any ch-2 space", ", any corner"; None, unmoved, where "any" is not said."""
    begin = c.i
    c.take(",")
    c.take("in", "at")
    if c.kind == "any" and (found := spot(c, bare=True)) is not None:
        return found.at
    c.i = begin
    return None
