"""Names of a pattern's own for steps just told, given in a bracket: "ch 5, sc in 2nd ch from hook, …, sl st in same sc (leg)", and those
steps asked for by that name: "work a leg", "work cross sts across row to last st"."""

from __future__ import annotations

from collections.abc import Sequence

from ...pattern import Aside, Chain, Make, Repeat, Sized, Skip, Special, Step, Times, slips
from ..wording.token import Token
from .crossings import crosses
from .cursor import Cursor
from .limits import limit
from .numbers import number
from .places import spot
from .specials import anew
from .spots import ZERO

EXAMPLES: tuple[tuple[str, str], ...] = ()
_OWN = frozenset(("w", "group", "piece", "top", "side", "across", "grp"))
"""Kinds of words that may be such a name: no word of a stitch; "across", for "cross" is taken for it."""


def name_given(c: Cursor, start: int, close: int) -> list[Step] | None:
    """ "(leg)", "(cross st)", "(1 leg made)" behind a stalk worked back along its chain, or behind stitches crossed over each other: named
    so from here on. None with the cursor unmoved, where the steps told are neither."""
    inner = [t for t in c.t[start + 1 : close] if t.kind not in ("n", "a") and t.val not in ("made", "completed", "complete", "done")]
    name = _name(inner)
    body = _body(c) if name else ()
    if not body:
        return None
    c.i = close + 1
    c.defined.setdefault(name, Special(name=name, steps=body, counts=0, span=c.span(start)))
    return [Aside(id=c.id(), span=c.span(start), kind="define")]


def named_again(c: Cursor) -> list[Step] | None:
    """ "Work a leg", "leg in next sc", "work 3 cross sts", "cross sts across to last 5 sts": so often those steps. None, unmoved, where
    the word is no name given before, in this row or another."""
    start = c.i
    told = number(c) if c.kind == "n" else None
    if told is None:
        c.drop("a")
    many = 2 if c.look().kind == "noun" else 1
    own = _known(c, _name(c.t[c.i : c.i + many]))
    if own is None:
        c.i = start
        return None
    c.i += many
    if c.kind in ("across", "around", "to", "over") and told is None and (left := limit(c)) is not None:
        times = Times(kind="rest") if left == ZERO else Times(kind="to_last", number=left)
        return [Repeat(id=c.id(), span=c.span(start), body=anew(c, own.steps, c.span(start)), times=times)]
    if c.kind == "over" and crosses(own.steps) and (found := spot(c)) is not None and isinstance(found.places, Sized):
        told = Sized(tuple((n or 0) // 2 for n in found.places.values))  # "cross st over next 2 sts"
    if c.kind not in (",", ";", ".", "", ")", "]", "*", "and", "(", "turn", "join"):
        c.i = start
        return None
    steps = anew(c, _untold(c, own.steps), c.span(start))
    if told is None or told == Sized((1,)):
        return list(steps)
    return [Repeat(id=c.id(), span=c.span(start), body=steps, times=Times(kind="n", number=told))]


def _name(words: list[Token]) -> str:
    """The name that these words are, in the singular; empty where they are none."""
    if not words or len(words) > 2 or words[0].kind not in _OWN or (len(words) == 2 and words[1].kind != "noun"):
        return ""
    first = words[0].text.lower()
    if len(first) < 3 or first in ("all", "both", "each", "next") or (words[0].kind == "across" and "cross" not in first):
        return ""
    return f"{first} st" if len(words) == 2 else first.removesuffix("s")


def _known(c: Cursor, name: str) -> Special | None:
    own = (c.defined.get(name) or c.specials.get(name)) if name else None
    return own if own is not None and (_stalk(own.steps) or crosses(own.steps)) else None


def _untold(c: Cursor, steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps less those told beside the name: "ch 6, work a petal, sl st in same sc"."""
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if isinstance(before, Chain) and isinstance(steps[0], Chain) and before.number == steps[0].number:
        steps = steps[1:]
        if c.kind == "," and c.look().val == "sl st" and "same" in (c.look(2).kind, c.look(3).kind):
            steps = steps[:-1]
    return steps


def _stalk(steps: Sequence[Step]) -> bool:
    """Whether they are a chain, stitches worked back along it, and the slip stitch that ends them."""
    if len(steps) < 3 or not isinstance(steps[0], Chain):
        return False
    first, last = steps[1], steps[-1]
    back = isinstance(first, Make) and first.at.where == "from_hook"
    return back and isinstance(last, Make) and slips(last) and last.at.where == "same"


def _body(c: Cursor) -> tuple[Step, ...]:
    """A chain, what is worked back along it and the slip stitch that ends it; or the stitches from the last skip on, where one goes back
    to what was skipped. Nothing where the last steps are neither."""
    told = [step for step in c.out if not isinstance(step, Aside)]
    floor = max((mark.index for mark in c.frames[-1].marks if not mark.used), default=0)
    out = [step for step in c.out[floor:] if not isinstance(step, Aside)] or told
    for k in range(len(out) - 1, max(-1, len(out) - 13), -1):
        step = out[k]
        if isinstance(step, Skip) and crosses(out[k:]):
            return tuple(out[k:])
        if isinstance(step, Chain):
            return tuple(out[k:]) if _stalk(out[k:]) else ()
    return ()
