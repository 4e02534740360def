"""Rows that a row's steps name besides the one it stands on: short rows taken up again ("sc in next 5 unworked sts of Row 3")."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..pattern import Colour, Make, Repeat, Skip, Step, Together
from .fabric import RowWork
from .plan import Due


def stands_on_named(steps: Sequence[Step]) -> bool | None:
    """Whether the first step that finds a place names the row it lies in; None where no step finds one."""
    for step in steps:
        if isinstance(step, Skip):
            return bool(step.row)
        if isinstance(step, (Make, Together)):
            return bool(step.at.row)
        if isinstance(step, Colour) and step.at is not None:
            return bool(step.at.row)
        if isinstance(step, Repeat) and (inner := stands_on_named(step.body)) is not None:
            return inner
    return None


def rows_besides(steps: Sequence[Step]) -> tuple[str, ...]:
    """The rows named by a row whose own first step names none, in order."""
    if stands_on_named(steps) is not False:
        return ()
    return tuple(dict.fromkeys(step.at.row for step in steps if isinstance(step, Make) and step.at.row and not step.at.below))


def row_meant(name: str, due: Due, rows: Sequence[RowWork]) -> RowWork | None:
    """The worked row that a name means in row `due`; where that row repeats another, the row as far back as it was there."""
    number = _number(name)
    if number is None:
        return None
    told = _number(due.from_row) if due.from_row else None
    if told is not None and told != due.number:
        back = told - number
        return rows[-back] if 0 < back <= len(rows) else None
    return next((row for row in reversed(rows) if row.number == number), None)


def _number(name: str) -> int | None:
    found = re.search(r"\d+", name)
    return int(found[0]) if found else None
