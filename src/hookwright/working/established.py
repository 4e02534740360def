"""Rows that go on "as established": the last rows again, each number moved on by as much as it moved from the rows before them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from difflib import SequenceMatcher

from ..pattern import NEXT, ONE, Make, Repeat, Sized, Skip, Span, Step, Together

_MOST = 8
"""By how much a number changes from one row to its successor, at most."""
_UNTOLD = frozenset(("id", "span"))


def as_established(before: Sequence[Step], last: Sequence[Step], times: int) -> tuple[Step, ...] | None:
    """The steps of `last` with every number moved on `times` times; None where the rows are not alike in all but numbers, or where no
    number moves. A run that comes to nothing falls away.

    >>> from ..reading import read
    >>> rows = read("Ch 31. Row 1: Sc 10, sc2tog, sc 9.\\nRow 2: Sc 10, sc2tog, sc 8.\\n").parts[0].rows[-2:]
    >>> as_established(rows[0].steps, rows[1].steps, 3)[-1].places.values
    (5,)
    """
    if len(before) != len(last):
        return None
    pairs = list(zip(before, last, strict=True))
    if not all(_alike(one, other) for one, other in pairs) or not any(_moves(one, other) for one, other in pairs):
        return None
    steps = [_moved(one, other, times) for one, other in pairs]
    return tuple(step for step in steps if not _nothing(step)) if all(step is not None for step in steps) else None  # type: ignore[misc]


def put_in_again(before: Sequence[Step], last: Sequence[Step], times: int) -> tuple[Step, ...] | None:
    """The steps of `last` with what it has more than `before` put in as often again, at the same places: "every row having one group more
    on each side of the point". None where it is not simply `before` with something put in."""
    kinds: list[Step] = []
    first, second = ([_kind(step, kinds) for step in steps] for steps in (before, last))
    out: list[Step] = []
    put_in = False
    for what, _, _, start, end in SequenceMatcher(None, first, second, autojunk=False).get_opcodes():
        if what not in ("equal", "insert"):
            return None
        put_in = put_in or what == "insert"
        out += [*last[start:end]] * (1 if what == "equal" else times + 1)
    return tuple(out) if put_in else None


def _kind(step: Step, known: list[Step]) -> int:
    """The number of the first step met that says the same."""
    told = _plainly(step)
    for k, other in enumerate(known):
        if _same(told, other):
            return k
    known.append(told)
    return len(known) - 1


def _plainly(step: Step) -> Step:
    """A group with its stitches told one way: "3 dc in same place" as well as "3 dc"."""
    if not isinstance(step, Together):
        return step
    body = tuple(
        replace(one, each=one.places, places=ONE, at=NEXT)
        if isinstance(one, Make) and one.each == ONE and isinstance(one.places, Sized) and one.at.where == "next"
        else replace(one, at=NEXT)
        if isinstance(one, Make) and one.at.where == "same"
        else one
        for one in step.body
    )
    return replace(step, body=body)


def _numbers(step: Step) -> Sized[int] | None:
    """The number of a step that may move from row to row."""
    if isinstance(step, Make):
        return step.places if isinstance(step.places, Sized) else None
    if isinstance(step, Skip):
        return step.number
    return step.times.number if isinstance(step, Repeat) and step.times.kind == "n" else None


def _alike(one: Step, other: Step) -> bool:
    """The same step but for its number."""
    if type(one) is not type(other):
        return False
    inner = _bodies(one, other)
    if inner is None or not all(_alike(a, b) for a, b in inner):
        return False
    numbered = _numbers(one) is not None and _numbers(other) is not None
    moving = ("places", "number", "times", "body", "last") if numbered else ("body", "last")
    return all(
        _same(getattr(one, field.name), getattr(other, field.name))
        for field in fields(one)
        if field.name not in _UNTOLD and field.name not in moving
    )


def _bodies(one: Step, other: Step) -> list[tuple[Step, Step]] | None:
    """The steps inside, in pairs; none where nothing is inside, None where they are not as many."""
    if not isinstance(one, (Repeat, Together)) or not isinstance(other, (Repeat, Together)):
        return []
    return list(zip(one.body, other.body, strict=True)) if len(one.body) == len(other.body) else None


def _same(one: object, other: object) -> bool:
    """Equal but for where in the text it was told."""
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_same, one, other))
    if is_dataclass(one) and is_dataclass(other) and type(one) is type(other):
        return all(
            _same(getattr(one, field.name), getattr(other, field.name))
            for field in fields(one)
            if not isinstance(getattr(one, field.name), Span) and field.name != "id"
        )
    return one == other


def _step_on(one: Step, other: Step) -> tuple[int, ...] | None:
    """By how much the number moves, in every size; None where it is told for other sizes, or moves too far."""
    a, b = _numbers(one), _numbers(other)
    if a is None or b is None or len(a.values) != len(b.values) or None in a.values or None in b.values:
        return None
    moved = tuple((y or 0) - (x or 0) for x, y in zip(a.values, b.values, strict=True))
    return moved if all(abs(by) <= _MOST for by in moved) else None


def _moves(one: Step, other: Step) -> bool:
    by = _step_on(one, other)
    return (by is not None and any(by)) or any(_moves(a, b) for a, b in _bodies(one, other) or ())


def _moved(one: Step, other: Step, times: int) -> Step | None:
    if isinstance(one, (Repeat, Together)) and isinstance(other, (Repeat, Together)):
        body = [_moved(a, b, times) for a, b in zip(one.body, other.body, strict=True)]
        if any(step is None for step in body):
            return None
        other = replace(other, body=tuple(step for step in body if step is not None and not _nothing(step)))
    by = _step_on(one, other)
    if by is None:
        return other if _numbers(one) is None and _numbers(other) is None else None
    if not any(by):
        return other
    told = _numbers(other)
    assert told is not None
    values = tuple((value or 0) + step * times for value, step in zip(told.values, by, strict=True))
    if min(values) < 0:
        return None
    if isinstance(other, Make):
        return replace(other, places=Sized(values))
    if isinstance(other, Skip):
        return replace(other, number=Sized(values))
    return replace(other, times=replace(other.times, number=Sized(values))) if isinstance(other, Repeat) else other


def _nothing(step: Step | None) -> bool:
    told = None if step is None else _numbers(step)
    return told is not None and set(told.values) == {0}
