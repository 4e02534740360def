"""Places that are left by saying that they stay so: "remaining sts are left free", "6 sts remain unworked", "these 8 sts being left for the
neck"; or that a run goes into all but them: "sc in each sc but the last"."""

from __future__ import annotations

from ...pattern import Aside, Chain, Colour, FastenOff, Join, Leave, Make, Repeat, Step, Turn
from ...trade.kinds import base
from .cursor import Cursor
from .nouns import noun
from .numbers import number

EXAMPLES = (
    ("sc in first 6 sts, turn; the remaining 4 sts are left free", "sc×6@first st, turn, leave 4"),
    ("dc in next 5 dc, turn (6 sts remain unworked)", "dc×5@next dc, turn, leave 6"),
    ("sc in each sc but the last 2, turn", "sc×rest−2@next sc, leave 2, turn"),
    ("leaving 4 sts free for the thumb, dc in next 5 dc", "dc×5@next dc, leave 4"),
    ("dc in next 5 dc, turn. 3 V-sts will remain free at the other end", "dc×5@next dc, turn, leave"),
)

_WHICH = ("rem", "other", "last")
_VERBS = frozenset("are is be being will then now stay stays were".split())  # noqa: SIM905
_STOPS = (",", ";", ".", "", "(", ")", "]", "turn", "*")
_FREE = ("free", "unworked")
REACH = 9
"""Words, at most, up to the one that says that they are free."""


def stays_free(c: Cursor) -> list[Step] | None:
    """The places as left; None with the cursor unmoved."""
    start = c.i
    if not any(token.kind in _FREE or token.text.lower() == "being" for token in c.t[start : start + REACH]):
        return None
    these = c.t[c.i].text.lower() in ("these", "those")
    c.i += these or c.kind == "the"
    which = these or c.kind in _WHICH
    c.drop(*_WHICH)
    told = number(c)
    c.drop(*_WHICH)
    kind = c.kind
    named = kind not in _FREE and noun(c) is not None
    begin = c.i
    while c.t[c.i].text.lower() in _VERBS:
        c.i += 1
    being = any(token.text.lower() == "being" for token in c.t[begin : c.i])
    left = c.take("rem") is not None
    free = c.take(*_FREE) is not None
    said = (free and (which or left)) or (being and (left or free) and (these or which or c.t[start].kind == "the"))
    if not said or not (named or (which and not these)) or (told is None and not which):
        c.i = start
        return None
    if not (c.kind in _STOPS or c.kind in ("for", "at", "on", "in")) or (c.kind == "in" and c.look().kind in ("next", "each")):
        c.i = start
        return None
    while c.kind not in _STOPS:
        c.i += 1
    return [Leave(id=c.id(), span=c.span(start), number=told if kind in ("st", "noun") else None)]


def in_bracket(c: Cursor, close: int) -> list[Step] | None:
    """The same in a bracket of its own; None with the cursor unmoved."""
    start = c.i
    c.i += 1
    left = stays_free(c)
    if left is None or c.i != close:
        c.i = start
        return None
    c.i = close + 1
    return left


def excepted_left(c: Cursor) -> list[Step]:
    """The row's steps; the last places that its last run leaves by an exception are left, and not forgotten."""
    steps = c.frames[0].out
    at = next((k for k in range(len(steps) - 1, -1, -1) if not isinstance(steps[k], (Aside, Turn, Chain, Colour, FastenOff))), None)
    run = steps[at] if at is not None else None
    if at is None or not isinstance(run, Make) or run.places != "rest" or run.upto or not run.span.start < c.excepted <= run.span.end:
        return steps
    number = None if run.at.what.endswith("sp") else run.but
    return [*steps[: at + 1], Leave(id=c.id(), span=run.span, number=number), *steps[at + 1 :]]


def left_told_first(c: Cursor) -> list[Step]:
    """The row's steps; places told to be left before any work ("Leaving 10 s c unworked for neck, d c in next 30 s c") are those at its
    end, except where the words say "first" or "next" or the yarn is joined beyond them (common practice, no source)."""
    steps = c.frames[0].out
    at = next((k for k, step in enumerate(steps) if not isinstance(step, (Aside, Turn, Chain))), None)
    left = steps[at] if at is not None else None
    if at is None or not isinstance(left, Leave) or left.number is None:
        return steps
    if any(token.kind in ("o", "next") for token in c.t if left.span.start <= token.start < left.span.end):
        return steps
    behind = steps[at + 1 :]
    if not any(isinstance(step, (Make, Repeat)) for step in behind) or any(isinstance(step, (Colour, Join, Leave)) for step in behind):
        return steps
    if isinstance(behind[0], Make) and base(behind[0].stitch) == "sl st":
        return steps
    last = next(k for k in range(len(behind), 0, -1) if not isinstance(behind[k - 1], (Aside, Turn, Chain, FastenOff)))
    return [*steps[:at], *behind[:last], left, *behind[last:]]
