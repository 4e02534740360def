"""A row told as the one before, with a number in the place of another: "Same way, with 11 dc in place of 7"."""

from __future__ import annotations

from ...pattern import Aside, Colour, Make, Refer, Step
from .changed_rows import changes_told
from .cursor import Cursor

EXAMPLES = (("Same way, with 11 dc in place of 7", "as last 1 but dc×11@next run#7"),)


def same_way_changed(c: Cursor) -> list[Step] | None:
    """ "Row 4: Same way, with 11 dc in place of 7.", "Work in the same way, but with ch 7 instead of ch 5.": as the row before, but."""
    start = c.i
    if any(not isinstance(step, (Aside, Colour)) for step in c.out):
        return None
    if c.kind in ("with", "but", "having") and any(c.t[c.i - k].val == "same-way" for k in (1, 2) if c.i >= k):
        changes = changes_told(c)
        if _of_numbers(changes):
            return [Refer(id=c.id(), span=c.span(0), last=1, changes=changes)]
        c.i = start
        return None
    c.drop("work", "in", "the", "as")
    way = c.kind == "idle" and c.t[c.i].val == "same-way"
    if way or (c.kind == "same" and c.look().text.lower() in ("way", "manner", "fashion")):
        c.i += 1 if way else 2
        changes = changes_told(c)
        if _of_numbers(changes):
            return [Refer(id=c.id(), span=c.span(start), last=1, changes=changes)]
    c.i = start
    return None


def _of_numbers(changes: tuple[Step, ...]) -> bool:
    """Whether all that is told as different are numbers that stand in the place of others."""
    return bool(changes) and all(isinstance(step, Make) and step.at.what == "run" for step in changes)
