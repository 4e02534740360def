"""A unit told again up to a sign inside it: "rep from * to **", "rep from * twice more, then rep from * to ** once"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from ...pattern import Aside, Chain, Make, Repeat, Step, Times, Together
from .cursor import Cursor, Frame, Mark
from .omitting import corner_of

EXAMPLES = (
    ("*ch 2, skip 2, ** sc, rep from * to **", "[ch2, skip2, sc]×rest cut 2"),
    ("*ch 2, skip 2, ** sc, rep from * twice more, rep from * to ** once more, hdc", "[ch2, skip2, sc]×3, [ch2, skip2]×1, hdc"),
    ("*ch 2, skip 2, ** sc, rep from * to last st, stop at ** on last repeat", "[ch2, skip2, sc]×to last 1 cut 2"),
    ("*ch 2, skip 2, ** sc, rep from * across (you will finish at **), hdc", "[ch2, skip2, sc]×rest cut 2, hdc"),
    (
        "*ch 1, dc in next sp, (dc, ch 2, dc) in next sp; rep from * twice more, last side the same without the corner",
        "[ch1, dc@next sp, {dc, ch2, dc}@next sp]×3, [ch1, dc@next sp]×1",
    ),
)


def last_side(c: Cursor) -> list[Step] | None:
    """ "(… rep from * twice more,) last edge the same without the corner", "work along the last side to correspond": the unit up to its
    corner, after those that were counted, or the whole of it where no corner was made before them; of one told to go all round, the last
    ends so ("2 shells on 4th side to match")."""
    before = [step for step in c.out if not isinstance(step, Aside)]
    unit = before[-1] if before else None
    side = next((k for k in range(c.i, min(c.i + _FURTHEST, len(c.t))) if c.t[k].kind == "side"), None)
    if side is None or not isinstance(unit, Repeat) or unit.cut is not None or unit.last or unit.times.kind not in ("n", "more", "rest"):
        return None
    lead = c.t[c.i : side - 1]
    if c.t[side - 1].kind not in ("last", "rem", "o") or not all(t.kind in _LEADS or t.text.lower() in _FINISHING for t in lead):
        return None
    start, k = c.i, side + 1
    same = False
    while c.t[k].kind in _ALIKE or c.t[k].text.lower() in _OTHERS | _MANNER:
        same = same or c.t[k].kind in ("same", "as") or c.t[k].text.lower() in _OTHERS
        k += 1
    at = corner_of(unit.body)
    if not same or at is None:
        return None
    omitted = c.t[k].kind == "without" or c.t[k].text.lower() in ("omit", "omitting")
    if omitted:
        k += 1
        while c.t[k].kind in ("the", "last", "a") or c.t[k].text.lower() in ("its", "any"):
            k += 1
        if c.t[k].kind != "corner":
            return None
        c.i = k + 1
        c.drop("group", "grp", "sp")
    elif c.t[k].kind not in (",", ";", ".", "", "join", "("):
        return None
    else:
        c.i = k
    if unit.times.kind == "rest":
        if not omitted:
            c.i = start
            return None
        c.out[max(k for k, step in enumerate(c.out) if step is unit)] = replace(unit, cut=at)
        return [Aside(id=c.id(), span=c.span(start))]
    body = unit.body[:at] if omitted or _corner_begun(before[:-1]) else unit.body
    return [Repeat(id=c.id(), span=c.span(start), body=body, times=Times(kind="n"))]


def _corner_begun(steps: Sequence[Step]) -> bool:
    """Whether a corner was made before the star: a group with a chain amid, or stitches on both sides of a chain in the same place."""
    if corner_of((Aside(), *steps)) is not None:
        return True
    return any(isinstance(a, Chain) and isinstance(b, (Make, Together)) and b.at.where == "same" for a, b in pairwise(steps[1:]))


_FURTHEST = 9
_LEADS = frozenset(("work", "cont", "n", "st", "grp", "noun", "along", "on", "over", "across", "in", "at", "the", "and", "for"))
_FINISHING = frozenset(("complete", "finish", "completing", "finishing", "make", "end", "on"))
_OTHERS = frozenset(("others", "rest", "alike", "again", "correspond", "match", "conform", "likewise", "accordingly"))
_ALIKE = frozenset(("side", "the", "same", "as", "idle", "but", "and", "work", "other", "to", "in"))
_MANNER = frozenset(("manner", "way", "fashion", "it"))


def cut_at(c: Cursor, frame: Frame, sign: str) -> Mark | None:
    """The unit meant, the cursor past the second sign: the last time it ends there; or, where it has been repeated before, a unit of its
    own, which holds only what stands before that sign. None where no unit of the first sign is known."""
    other = str(c.look().val)
    c.i += 2
    mark = next((one for one in reversed(frame.marks) if one.sign == sign and not one.used), None)
    if mark is None:
        return _first_part(frame, sign, other)
    cut = next((one for one in reversed(frame.marks) if one.sign == other), None)
    if cut is not None:
        c.told["cut"] = cut.index - mark.index
    return mark


def _first_part(frame: Frame, sign: str, other: str) -> Mark | None:
    """The unit repeated last, up to the other sign."""
    mark = next((one for one in reversed(frame.marks) if one.sign == sign), None)
    told = frame.out[mark.index] if mark is not None and mark.index < len(frame.out) else None
    stop = mark.stops.get(other, 0) if mark is not None else 0
    if mark is None or not isinstance(told, Repeat) or not 0 < stop < len(told.body):
        return None
    return Mark(sign, mark.index, mark.token, used=True, closed=mark.index + 1, body=told.body[:stop])
