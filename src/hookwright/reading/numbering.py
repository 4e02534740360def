"""Rows told by parity: "All even rows", "Row 2 and all even rows", "Every other row"."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ..pattern import Row, Span
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
