"""A row that ends as another does: "repeat, and end as in the 5th row", "ending like the previous round"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Aside, Join, Repeat, Row, Step


def ended_alike(steps: tuple[Step, ...], done: Sequence[Row], told: object) -> tuple[Step, ...]:
    """The steps with the ending of the row named by its number, else of the row before: what its last repeat ends with, and its join."""
    numbered = [row for row in done if row.numbers and row.numbers[0] and told in row.numbers[0]] if isinstance(told, int) else []
    model = numbered[-1] if numbered else done[-1]
    at = next((k for k in range(len(steps) - 1, -1, -1) if not isinstance(steps[k], Aside)), None)
    unit = steps[at] if at is not None else None
    theirs = next((step for step in reversed(model.steps) if isinstance(step, Repeat) and step.times.kind == "rest"), None)
    if at is not None and theirs is not None and isinstance(unit, Repeat) and unit.times.kind == "rest" and not unit.last:
        cut = None if theirs.cut is None or len(theirs.body) != len(unit.body) else theirs.cut
        steps = (*steps[:at], replace(unit, last=theirs.last, cut=cut), *steps[at + 1 :])
    return (*steps, *(step for step in model.steps[-4:] if isinstance(step, Join)))
