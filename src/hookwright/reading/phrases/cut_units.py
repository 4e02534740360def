"""A unit told again up to a sign inside it: "rep from * to **", "rep from * twice more, then rep from * to ** once"."""

from __future__ import annotations

from ...pattern import Repeat
from .cursor import Cursor, Frame, Mark

EXAMPLES = (
    ("*ch 2, skip 2, ** sc, rep from * to **", "[ch2, skip2, sc]×rest cut 2"),
    ("*ch 2, skip 2, ** sc, rep from * twice more, rep from * to ** once more, hdc", "[ch2, skip2, sc]×3, [ch2, skip2]×1, hdc"),
    ("*ch 2, skip 2, ** sc, rep from * to last st, stop at ** on last repeat", "[ch2, skip2, sc]×to last 1 cut 2"),
    ("*ch 2, skip 2, ** sc, rep from * across (you will finish at **), hdc", "[ch2, skip2, sc]×rest cut 2, hdc"),
)


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
