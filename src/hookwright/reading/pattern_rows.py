"""Rows meant by "the last 3 pattern rounds" behind a row that shapes: those that were repeated before, not the shaping row."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Refer, Row, Step


def of_pattern(steps: tuple[Step, ...], done: Sequence[Row]) -> tuple[Step, ...]:
    """The steps, a repeat of so many last rows of the pattern pointed at the numbers of those that were last repeated, where a row of
    other work stands between; as they are where none were."""
    out: list[Step] = []
    for step in steps:
        rows = _repeated(done, step.last) if isinstance(step, Refer) and step.last and not step.rows and step.part is None else ()
        out.append(replace(step, last=0, rows=rows) if rows and isinstance(step, Refer) else step)
    return tuple(out)


def _repeated(done: Sequence[Row], many: int) -> tuple[int, ...]:
    """The numbers of the `many` rows that were repeated last, where the row just told is none of them."""
    for k in range(len(done) - 1, -1, -1):
        for step in done[k].steps:
            if not isinstance(step, Refer) or step.part is not None:
                continue
            if k == len(done) - 1:
                return ()  # the repeat itself comes last: its rows are those meant
            if len(step.rows) == many:
                return step.rows
            if step.last == many:
                numbers = [number for row in done[max(0, k - many) : k] for number in row.numbers_at(0)]
                return tuple(numbers) if len(numbers) == many else ()
    return ()
