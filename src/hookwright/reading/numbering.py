"""The numbers of rows told without them: by parity, as others again, so many, up to one ("All even rows", "until you have 56 rows")."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from ..pattern import LIMITS, Refer, Row, Sized, Span, Step
from .lining.labels import Label


def every_second(rows: list[Row], labels: Mapping[Span, Label | None]) -> list[Row]:
    """The rows, those told by parity with the numbers that no other row has, up to the last number told."""
    asked = [k for k, row in enumerate(rows) if (label := labels.get(row.label_span)) is not None and label.also]
    if not asked:
        return rows
    told = {number for k, row in enumerate(rows) for numbers in row.numbers for number in numbers if k not in asked}
    out = list(rows)
    for k in asked:
        label = labels[rows[k].label_span]
        assert label is not None
        first = rows[k].numbers[0] if rows[k].numbers else ()
        last = label.count[0] if label.count and label.kind == "every" else max(told | set(first), default=0)
        parity = 1 if label.also == "odd" else 0 if label.also == "even" else (first[0] % 2 if first else (1 if 2 in told else 0))
        more = tuple(n for n in range(1, last + 1) if n % 2 == parity and n not in told and n not in first and n > min(first, default=0))
        if first or more:
            out[k] = replace(rows[k], numbers=((*first, *more),))
    return out


def rows_repeated(steps: Sequence[Step]) -> Sized[int] | None:
    """As many rows as are told again by number, where nothing else says how many; None for one or none."""
    refer = next((step for step in steps if isinstance(step, Refer)), None)
    if refer is None or len(refer.rows) < 2 or refer.part is not None or refer.rest:
        return None
    return Sized((len(refer.rows),))


def rows_more(wanted: object, last: int) -> Sized[int] | None:
    """ "Until you have 56 (60, 64) rows in all": how many that is after the last one numbered; None when none is left to work."""
    values = wanted.values if isinstance(wanted, Sized) else (wanted,)
    more = [min(n - last, LIMITS.rows) for n in values if isinstance(n, int) and n > last]
    return Sized(tuple(more)) if last and len(more) == len(values) else None


def through(numbers: tuple[tuple[int, ...], ...], upto: object) -> tuple[tuple[int, ...], ...]:
    """ "Rnd 7: Repeat in this manner … Work through Rnd 14.": the rows up to the one told are this instruction's too."""
    if not isinstance(upto, int) or len(numbers) != 1 or len(numbers[0]) != 1 or not 0 < upto - numbers[0][0] <= 500:
        return numbers
    return (tuple(range(numbers[0][0], upto + 1)),)


def so_many(numbers: tuple[tuple[int, ...], ...], rows: Sized[int]) -> tuple[tuple[int, ...], ...]:
    """The numbers of a first row that nobody labelled and that is told for so many rows: "Ch 9 and work in sc for 6 rows"."""
    told = rows.values[0] if not rows.many else None
    if len(numbers) != 1 or len(numbers[0]) != 1 or told is None or not 1 < told <= MOST_TOLD:
        return numbers
    first = numbers[0][0]
    return (tuple(range(first, first + told)),)


MOST_TOLD = 2_000
"""Rows of one sentence that are numbered one by one."""


def to_the_last(steps: tuple[Step, ...], last: int) -> tuple[Step, ...]:
    """ "Repeat from 2d row": from that row to the last one told."""
    return tuple(
        replace(step, rows=tuple(range(step.rows[0], last + 1)))
        if isinstance(step, Refer) and len(step.rows) == 1 <= step.rows[0] < last
        else step
        for step in steps
    )
