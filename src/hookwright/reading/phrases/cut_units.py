"""A unit told again up to a sign inside it: "rep from * to **", "rep from * twice more, then rep from * to ** once"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Repeat, Step, Times
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
    """ "(… rep from * twice more,) last edge the same without the corner", "the last side as the others, omitting the corner": the unit up
    to its corner, after those that were counted; of one told to go all round, the last ends so."""
    unit = c.out[-1] if c.out else None
    k = 1 + (c.kind == "the")
    if c.look(k - 1).kind != "last" or c.look(k).kind != "side" or not isinstance(unit, Repeat) or unit.cut is not None or unit.last:
        return None
    same = False
    while c.look(k).kind in _ALIKE or c.look(k).text.lower() in _OTHERS:
        same = same or c.look(k).kind in ("same", "as") or c.look(k).text.lower() in _OTHERS
        k += 1
    at = corner_of(unit.body)
    if not same or at is None or not (c.look(k).kind == "without" or c.look(k).text.lower() in ("omit", "omitting")):
        return None
    k += 1
    while c.look(k).kind in ("the", "last", "a") or c.look(k).text.lower() in ("its", "any"):
        k += 1
    if c.look(k).kind != "corner" or unit.times.kind not in ("n", "more", "rest"):
        return None
    start, c.i = c.i, c.i + k + 1
    c.drop("group", "grp", "sp")
    if unit.times.kind == "rest":
        c.out[-1] = replace(unit, cut=at)
        return []
    return [Repeat(id=c.id(), span=c.span(start), body=unit.body[:at], times=Times(kind="n"))]


_OTHERS = frozenset(("others", "rest", "alike", "again"))
_ALIKE = frozenset(("side", "the", "same", "as", "idle", "but", "and", ",", "work", "other"))


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
