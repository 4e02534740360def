"""Rows told without their numbers: by parity ("All even rows", "Every other row"), or as others again ("Join yarn and repeat Rows 6-9")."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from ..pattern import Refer, Row, Sized, Span, Step
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
