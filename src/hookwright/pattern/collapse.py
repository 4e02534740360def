"""Rows that are told alike become one instruction: "Rows 4-26", "Rows 5-20: rep Rows 3 and 4"."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import fields, is_dataclass, replace
from functools import singledispatch
from typing import TypeVar

from .model import Row
from .nodes import Refer
from .sizes import Sized
from .spans import NOWHERE, Span

T = TypeVar("T")

_IDENTITY = ("id", "span", "label_span")
_LABEL = ("label", "numbers", "rows_count", *_IDENTITY)


@singledispatch
def bare(value: object) -> object:
    """The value without what tells one node from its twin: ids and spans. Two steps say the same when their bare forms are equal."""
    if is_dataclass(value) and not isinstance(value, type):
        names = [field.name for field in fields(value) if field.name not in _IDENTITY]
        return (type(value).__name__, *(bare(getattr(value, name)) for name in names))
    return value


@bare.register
def _(value: Span) -> object:
    return NOWHERE


@bare.register
def _(value: tuple) -> object:  # type: ignore[type-arg]
    return tuple(bare(item) for item in value)


@bare.register
def _(value: Sized) -> object:  # type: ignore[type-arg]
    return value.values


def told_alike(one: Row, other: Row) -> bool:
    """Whether two rows are told in the same words: steps, counts, side and way of working, whatever their numbers."""
    return _told(one) == _told(other)


def _told(row: Row) -> object:
    return tuple(bare(getattr(row, field.name)) for field in fields(row) if field.name not in _LABEL)


def collapse(rows: Iterable[Row], *, period: int = 4) -> tuple[Row, ...]:
    """The rows with equal neighbours gathered: a run of one row becomes a range, a run of a group of rows becomes "rep Rows a and b".

    Only rows with one number, the same in every size and following on, are gathered; a group holds at most `period` rows and is gathered
    only where it comes round whole at least twice more, so that no row is left over and no special row is drawn into the repeat.
    """
    listed = tuple(rows)
    told = [_told(row) for row in listed]
    gathered: list[Row] = []
    at = 0
    while at < len(listed):
        span, times = _longest(listed, told, at, period)
        gathered += _gathered(listed[at : at + span * times], span, times)
        at += span * times
    return tuple(gathered)


def _longest(rows: Sequence[Row], told: Sequence[object], at: int, period: int) -> tuple[int, int]:
    """(rows in the group, times it comes) from `at` on: the shortest group that comes round; (1, 1) where nothing repeats."""
    for span in range(1, period + 1):
        times = 1
        while _follows(rows, told, at, span, times):
            times += 1
        if times >= (2 if span == 1 else 3):
            return span, times
    return 1, 1


def _follows(rows: Sequence[Row], told: Sequence[object], at: int, span: int, times: int) -> bool:
    start = at + span * times
    if start + span > len(rows):
        return False
    for k in range(start, start + span):
        number, before = _number(rows[k]), _number(rows[k - 1])
        if told[k] != told[k - span] or number is None or before is None or number != before + 1:
            return False
    return True


def _number(row: Row) -> int | None:
    """The row's number when it is a single one, the same in every size."""
    if len(set(row.numbers)) == 1 and len(row.numbers[0]) == 1:
        return row.numbers[0][0]
    return None


def _gathered(rows: Sequence[Row], span: int, times: int) -> list[Row]:
    if times == 1:
        return list(rows)
    numbers = [number for row in rows if (number := _number(row)) is not None]
    if span == 1:
        return [_ranged(rows[0], numbers)]
    first = list(rows[:span])
    again = tuple(numbers[:span])
    rest = replace(
        _ranged(rows[span], numbers[span:]),
        steps=(Refer(id=rows[span].steps[0].id if rows[span].steps else 0, rows=again),),
        side=None,
        stated=first[-1].stated if len({bare(row.stated) for row in first}) == 1 else (),
    )
    return [*first, rest]


def _ranged(row: Row, numbers: Sequence[int]) -> Row:
    noun = "Rnd" if row.noun == "round" else "Row"
    label = f"{noun}s {numbers[0]}-{numbers[-1]}" if len(numbers) > 2 else f"{noun}s {numbers[0]} and {numbers[-1]}"
    return replace(row, label=label, numbers=(tuple(numbers),))
