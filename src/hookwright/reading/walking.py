"""Walk the steps of a row, also those inside repeats and groups."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..pattern import Choice, Join, Refer, Repeat, Step, Together


def walk(steps: Iterable[Step]) -> Iterator[Step]:
    """Every step, outer before inner."""
    for step in steps:
        yield step
        if isinstance(step, Repeat):
            yield from walk(step.body)
            yield from walk(step.last)
        elif isinstance(step, Together):
            yield from walk(step.body)
        elif isinstance(step, Refer):
            yield from walk(step.changes)
        elif isinstance(step, Join):
            yield from walk(step.closing)
        elif isinstance(step, Choice):
            for answer in step.answers:
                yield from walk(answer)
