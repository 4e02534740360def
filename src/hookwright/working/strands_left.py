"""Strands that a row worked in one loop has left free ("join Red in any free front loop"), where the words name no row."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import Colour, Make, Place, Repeat, Step, Together
from .fabric import How, RowWork

_STANDS_IN = {"free_front": How.BACK_LOOP, "free_back": How.FRONT_LOOP}
"""In which loop the row above stands, where this one is free."""


def strands_asked(steps: Sequence[Step]) -> str:
    """The free loop that the first step which finds a place asks for, no row being named ("free_front"); "" where it does not."""
    for step in steps:
        if isinstance(step, Repeat):
            return strands_asked(step.body)
        if isinstance(step, (Make, Together, Colour)) and isinstance(step.at, Place):
            return step.at.loop if step.at.loop in _STANDS_IN and not step.at.row else ""
    return ""


def row_with_strands(loop: str, rows: Sequence[RowWork]) -> RowWork | None:
    """The last of the rows that has this loop free because the row on it went into the other one; None where no row has."""
    how = _STANDS_IN[loop]
    for k in range(len(rows) - 1, 0, -1):
        stands = [h for h, back in zip(rows[k].stitches.foot_how, rows[k].stitches.foot_back, strict=True) if back == 1]
        if stands and sum(h == how for h in stands) * 2 > len(stands):
            return rows[k - 1]
    return None
