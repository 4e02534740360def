"""A numbered row all of whose words were set aside: it asks for nothing, so they are rather an instruction that was not understood."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from ..pattern import Aside, Chain, Colour, Join, Skip, Step, Turn, Unread

if TYPE_CHECKING:
    from .rows import RowReading

_TURNING_CHAIN = 6
"""More chains than these are not a turning chain alone: they may be the row."""
_IDLE = (Colour, Join, Skip, Turn)


def not_understood(reading: RowReading) -> RowReading:
    """ "Row 2: Ch 3, froble across the gusset, turn." works nothing: its remark stands as unread. Any other row as it is."""
    asks = any(not _idle(step) for step in reading.steps)
    if asks or reading.counts or reading.told or reading.defined or not any(map(_remark, reading.steps)):
        return reading
    steps = tuple(Unread(id=step.id, span=step.span) if _remark(step) else step for step in reading.steps)
    return replace(reading, steps=steps, unread=True)


def _remark(step: Step) -> bool:
    return isinstance(step, Aside) and step.kind == "note"


def _idle(step: Step) -> bool:
    if isinstance(step, Chain):
        return not step.foundation and (step.number.values[0] or 0) <= _TURNING_CHAIN
    return isinstance(step, _IDLE) or _remark(step)
