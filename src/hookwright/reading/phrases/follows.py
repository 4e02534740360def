"""A group told where it is first made: "1 popcorn as follows: 4 dc in next st, take out hook, …", "make a shell thus: …"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Make, Place, Special, Step, Together
from ...trade.kinds import GROUPS_AS_ONE
from .cursor import Cursor, Frame
from .places import spot
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("1 popcorn as follows: 4 dc in next st, drop loop from hook, draw it through first dc. Sc in next st", "popcorn, sc"),
    ("shell as follows: 2 dc in next sp, ch 2, 2 dc in same sp", "shell{2dc@same st, ch2, 2dc@same st}@next sp"),
)

_SAID = frozenset("follows follow below thus way so this manner".split())  # noqa: SIM905


def as_follows(c: Cursor, start: int, name: str, placed: Spot | None = None) -> list[Step] | None:
    """After a group's name (and its place, if told): "as follows: …" up to where the group is made; the cursor then stands behind it."""
    begin = c.i
    apart = c.kind == "," and c.look().val in ("as", "thus", "in", *_SAID)  # "…, thus:"
    c.i += apart
    ahead = [c.look(k) for k in range(5)]
    colon = next((k for k, t in enumerate(ahead) if t.kind == ":" or (t.kind in ("-", ",") and t.val in ("loose", ","))), None)
    if not colon or not all(str(t.val) in _SAID or t.kind in ("as", "in", "the", "idle", "next") for t in ahead[:colon]):
        c.i = begin
        return None
    if ahead[colon].kind == "," and not any(t.kind == "as" for t in ahead[:colon]):
        c.i = begin
        return None
    c.i += colon + 1
    end = _sentence(c)
    if name in GROUPS_AS_ONE:
        at = _made(c, end)
        return [make(c, start, name, found=placed or Spot(at))]
    body = _steps(c, end)
    first = next((step for step in body if isinstance(step, (Make, Together))), None)
    if first is None or len(body) < 2 or (placed is not None and not all(_in_it(step) for step in body)):
        c.i = begin
        return None
    here = tuple(replace(step, at=Place(where="same")) if isinstance(step, Make) else step for step in body)
    c.defined.setdefault(name, Special(name=name, steps=here, counts=0, span=c.span(start)))
    found = placed or Spot(first.at)
    return [Together(id=c.id(), span=c.span(start), body=here, at=found.at, places=found.places, but=found.but, name=name, upto=found.upto)]


def _in_it(step: Step) -> bool:
    """Whether a step goes where the group has been told to go: it names no place along the row."""
    return not isinstance(step, (Make, Together)) or (step.at.where in ("next", "same") and step.places != "rest")


def _made(c: Cursor, end: int) -> Place:
    """The place of the one group told up to `end`; the cursor then stands behind it: at the first step that makes it, or at the end."""
    from .one_phrase import one
    from .shapes import GLUE

    begin = c.i
    c.frames.append(Frame())
    try:
        while c.i < end:
            if c.kind in GLUE:
                c.i += 1
                continue
            got = one(c)
            if got is None:
                break
            c.out.extend(got)
            last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
            if isinstance(last, Make) and (last.stitch in GROUPS_AS_ONE or last.stitch.endswith("tog")) and len(c.out) == 1:
                return last.at
    finally:
        c.frames.pop()
    c.i = begin
    at = _first_place(c, end)
    c.i = end
    return at


def to_make(c: Cursor) -> list[Step] | None:
    """ "Pc st in next dc-for a pc st, 4 dc in one place, loop off the hook …-dc in next 3 dc": how the group just named is
    made, up to the dash that closes the telling, or its full stop."""
    start = c.i
    if c.look().kind != "work" or c.t[start - 1].kind not in ("-", "(", ".", ";", ",", ":"):
        return None
    c.i += 2
    c.drop("a", "the", "o", "each")
    if c.kind != "grp" or not c.out:
        c.i = start
        return None
    name = str(c.t[c.i].val)
    c.i += 1
    c.drop("noun", ",", ":", "-")
    dashed = c.t[start - 1].kind == "-"
    end = c.i
    while c.t[end].kind not in (".", "") and not (dashed and c.t[end].kind == "-" and c.t[end + 1].kind not in ("n", "ch")):
        end = max(end + 1, c.close.get(end, end) + 1) if c.t[end].kind in ("(", "[") else end + 1
    if name not in GROUPS_AS_ONE:
        body = tuple(replace(step, at=Place(where="same")) if isinstance(step, Make) else step for step in _steps(c, end))
        if body and name not in c.specials:
            c.defined.setdefault(name, Special(name=name, steps=body, counts=0, span=c.span(start)))
    c.i = end + (dashed and c.t[end].kind == "-")
    return [Aside(id=c.id(), span=c.span(start), kind="define")]


def _sentence(c: Cursor) -> int:
    """The full stop, semicolon or row's end that closes the telling."""
    k = c.i
    while c.t[k].kind not in (".", ";", "", ")", "]", "}", "*"):
        k = max(k + 1, c.close.get(k, k) + 1) if c.t[k].kind in ("(", "[") else k + 1
    return k


def _first_place(c: Cursor, end: int) -> Place:
    while c.i < end:
        if c.kind in ("in", "over") and c.look().kind in ("next", "same", "each", "o", "the", "st", "noun", "sp", "lp", "ring"):
            found = spot(c)
            if found is not None:
                return found.at
        c.i += 1
    return Place()


def _steps(c: Cursor, end: int) -> list[Step]:
    from .sentences import steps

    c.frames.append(Frame())
    try:
        steps(c, end)
        found = c.frames[-1].out
    finally:
        c.frames.pop()
    if not all(isinstance(step, (Make, Chain, Together)) for step in found):
        return []
    return found
