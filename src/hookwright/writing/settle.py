"""Questions answered: what the fabric took is written, so that no reader has to choose again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from ..pattern import Choice, Part, Pattern, Repeat, Row, Sized, Step, Times
from ..pattern.walking import inside
from ..working.fabric import Fabric, RowWork


def settled(pattern: Pattern, fabrics: Sequence[Fabric]) -> Pattern:
    """The pattern with every open question written as it was worked, one fabric a size (in order).

    "Repeat from * n times", which may mean n more or n in all, becomes a counted repeat; of a choice the answer taken is kept.
    """
    worked = [_by_row(fabric) for fabric in fabrics]
    return replace(pattern, parts=tuple(_part(part, worked) for part in pattern.parts))


def _by_row(fabric: Fabric) -> dict[int, RowWork]:
    """The first row worked from each written instruction, by the instruction's id."""
    found: dict[int, RowWork] = {}
    for part in fabric.parts:
        for row in part.rows:
            found.setdefault(row.written.id, row)
    return found


def _part(part: Part, worked: Sequence[Mapping[int, RowWork]]) -> Part:
    return replace(part, rows=tuple(_row(row, [rows.get(row.id) for rows in worked]) for row in part.rows))


def _row(row: Row, worked: Sequence[RowWork | None]) -> Row:
    if not any(isinstance(step, Choice) or (isinstance(step, Repeat) and step.times.kind == "more") for step in inside(row.steps)):
        return row
    return replace(row, steps=tuple(_settle(row.steps, worked)))


def _settle(steps: Sequence[Step], worked: Sequence[RowWork | None]) -> Iterator[Step]:
    for step in steps:
        if isinstance(step, Choice):
            yield from _settle(max(step.answers, key=lambda answer: _made(answer, worked)), worked)
        elif isinstance(step, Repeat):
            body = tuple(_settle(step.body, worked))
            yield replace(step, body=body, times=_times(step, worked))
        else:
            yield step


def _made(answer: Sequence[Step], worked: Sequence[RowWork | None]) -> int:
    """How many stitches came from the steps of an answer; of equals the first stands, which is custom."""
    ids = {step.id for step in inside(answer)}
    return sum(step in ids for row in worked if row is not None for step in row.stitches.step)


def _times(repeat: Repeat, worked: Sequence[RowWork | None]) -> Times:
    if repeat.times.kind != "more":
        return repeat.times
    counts = [_worked_times(repeat, row) if row is not None else None for row in worked]
    if not any(counts):
        return repeat.times
    same = len(set(counts)) == 1
    return Times(kind="n", number=Sized(tuple(counts[:1] if same else counts)))


def _worked_times(repeat: Repeat, row: RowWork) -> int | None:
    """How often the body was worked: the last turn (from 1) in which one of its own steps made something."""
    own = {step.id for outer in repeat.body if not isinstance(outer, Repeat) for step in inside((outer,))}
    st = row.stitches
    done = [st.repeat[i] for i in range(len(st)) if st.step[i] in own]
    return max(done, default=0) or None
