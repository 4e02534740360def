"""Picots told stitch by stitch in the middle of a group: "in next sp make 2 dc, ch 3, sl st in top of last dc (picot), 2 dc"."""

from __future__ import annotations

from collections.abc import Sequence

from ...pattern import Chain, Make, Place, Step, is_picot
from .cursor import Cursor

_NAMED = 4
"""Words, at most, that a picot's name is told in: "(picot made)", "for a picot"."""


def closes_picot(got: Sequence[Step], body: Sequence[Step]) -> bool:
    """Whether what was just read closes a loop on the stitch before it: it has a place, and yet ends no group."""
    closing = got[0] if len(got) == 1 else None
    on_it = isinstance(closing, Make) and closing.stitch in ("sl st", "sc") and _on_stitch_or_chain(closing.at)
    return on_it and len(body) > 1 and isinstance(body[-1], Chain)


def on_other_piece(got: Sequence[Step], body: Sequence[Step]) -> bool:
    """Whether what was just read catches the loop being made to another piece."""
    step = got[0] if len(got) == 1 else None
    return isinstance(step, Make) and step.at.where == "marked" and step.at.what == "piece" and bool(body) and isinstance(body[-1], Chain)


def _on_stitch_or_chain(at: Place) -> bool:
    return at.where in ("last", "from_hook") or at.what == "made"


def pass_name(c: Cursor, body: Sequence[Step]) -> None:
    """Past "(picot)", "for a picot", "(picot made)" behind the picot that it names."""
    if len(body) < 2 or not (closes_picot(body[-1:], body[:-1]) or is_picot(body[-1])):
        return
    close = c.close.get(c.i)
    if c.kind == "(" and close is not None and close - c.i <= _NAMED and any(t.val == "picot" for t in c.t[c.i : close]):
        c.i = close + 1
        return
    begin = c.i
    c.drop(",")
    if c.kind in ("for", "as") and "picot" in (c.look().val, c.look(2).val):
        c.i += 2 if c.look().val == "picot" else 3
        c.drop("noun")
        return
    c.i = begin
