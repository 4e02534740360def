"""From rows one by one to rows as a maker writes them: ranges, repeats of rows told before, counts where they change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from itertools import pairwise
from typing import Any, Literal, TypeVar

from ..pattern import FLAT, Count, MadeIn, Part, Pattern, Refer, Row, Sized, Step

T = TypeVar("T")

_PERIOD = 16
_RANGE = 3
"""Rows told together at least, for what each gains to be told beside what the last ends with."""
_BACK = 80


@dataclass(frozen=True, slots=True)
class Told:
    """One row to be told: its steps, the stitches it ends with, and the kind they are counted in ("dc", "st", "shell")."""

    steps: tuple[Step, ...]
    count: int | None
    kind: str = "st"
    extra: tuple[tuple[int, str], ...] = ()
    """Further counts of the row: (number, kind)."""


def tell(
    rows: Sequence[Told],
    *,
    made_in: MadeIn = "rows",
    first: int = 1,
    side: Literal["RS", "WS"] | None = "RS",
    before: int | None = None,
) -> tuple[Row, ...]:
    """The rows as instructions. `first` is the number of the first; `side` its side; `before` the count already told before it."""
    noun: Literal["row", "round"] = "row" if made_in in FLAT else "round"
    alike = _alike(rows)
    instructions: list[Row] = []
    direct: list[int | None] = []
    at, in_full = 0, 0
    stated: tuple[object, ...] = (before,)
    while at < len(rows):
        run = _run(alike, at)
        back, period, length = _again(rows, alike, at, direct) if at >= in_full else (0, 0, 0)
        if length and at >= in_full and (group := _worth_telling(alike, at, length)):
            in_full, length = at + group, 0
        if length > run and (length > 1 or _long(rows[at].steps)):
            steps: tuple[Step, ...] = (Refer(rows=tuple(first + k for k in range(back, back + period))),)
            direct += [None] * length
        else:
            length, steps = run, rows[at].steps
            direct += [at] * length
        last = rows[at + length - 1]
        now = (last.count, *last.extra)
        counts = () if last.count is None or now == stated else (*_change(rows[max(0, at - 1) : at + length], steps), *_counts(last))
        stated = stated if last.count is None else now
        numbers = tuple(range(first + at, first + at + length))
        instructions.append(
            Row(
                id=0, label=label(noun, numbers), numbers=(numbers,), made_in=made_in, noun=noun,
                side=side if at == 0 else None, steps=steps, stated=counts,
            )
        )  # fmt: skip
        at += length
    return tuple(instructions)


def label(noun: Literal["row", "round"], numbers: Sequence[int]) -> str:
    """The label of an instruction.

    >>> label("row", [4]), label("round", [4, 5]), label("row", [4, 5, 6])
    ('Row 4', 'Rnds 4 and 5', 'Rows 4-6')
    """
    word = "Rnd" if noun == "round" else "Row"
    if len(numbers) == 1:
        return f"{word} {numbers[0]}"
    return f"{word}s {numbers[0]} and {numbers[1]}" if len(numbers) == 2 else f"{word}s {numbers[0]}-{numbers[-1]}"


def _counts(row: Told) -> tuple[Count, ...]:
    assert row.count is not None
    return (Count(number=Sized.of(row.count), kind=row.kind), *(Count(number=Sized.of(n), kind=kind) for n, kind in row.extra))


def _change(rows: Sequence[Told], steps: Sequence[Step]) -> tuple[Count, ...]:
    """What each of several rows told in the same words gains or loses, where it is the same; the first of `rows` is the one before."""
    counts = [row.count for row in rows if row.count is not None and not row.extra]
    changes = {b - a for a, b in pairwise(counts)}
    if len(rows) < _RANGE + 1 or len(counts) < len(rows) or len(changes) != 1 or isinstance(steps[0], Refer):
        return ()
    return (Count(number=Sized.of(changes.pop()), kind="st", change=True),)


def _alike(rows: Sequence[Told]) -> list[int]:
    """A number for each row, the same where the words are the same."""
    words: dict[tuple[Step, ...], int] = {}
    return [words.setdefault(row.steps, len(words)) for row in rows]


def _run(alike: Sequence[int], at: int) -> int:
    """How many rows from `at` on are worked in the same words."""
    end = at + 1
    while end < len(alike) and alike[end] == alike[at]:
        end += 1
    return end - at


def _long(steps: Sequence[Step]) -> bool:
    """A row worth a reference even when it comes again only once."""
    return sum(1 + len(getattr(step, "body", ())) for step in steps) >= 8


def _worth_telling(alike: Sequence[int], at: int, covered: int) -> int:
    """The rows of a group from `at` on that should be told in full because it comes again and again, much further than `covered`."""
    best, group = covered, 0
    for period in range(2, _PERIOD + 1):
        k = at + period
        while k < len(alike) and alike[k] == alike[k - period]:
            k += 1
        whole = (k - at) - (k - at) % period
        if whole >= 3 * period and whole > 2 * best:
            best, group = whole, period
    return group


def _again(rows: Sequence[Told], alike: Sequence[int], at: int, direct: Sequence[int | None]) -> tuple[int, int, int]:
    """(first row, rows in the group, rows covered) of rows told before that come again from `at` on; only whole groups, told in full."""
    best = (0, 0, 0)
    for period in range(1, min(_PERIOD, at) + 1):
        for back in range(at - period, max(-1, at - period - _BACK), -1):
            if alike[back] != alike[at] or None in direct[back : back + period] or _torn(direct, back, back + period) > 1:
                continue
            k = 0
            while at + k < len(alike) and alike[at + k] == alike[back + k % period]:
                k += 1
            k -= k % period
            if k > best[2] and (period > 1 or k > 2 or _long(rows[at].steps)):
                best = (back, period, k)
    return best


def _torn(direct: Sequence[int | None], back: int, end: int) -> int:
    """How many rows a group takes out of a range that it does not hold whole: "Rep Rows 18-29" where 2-28 are told as one reads badly."""
    group = direct[back:end]
    head = group.count(direct[back]) if direct[back] != back else 0
    tail = group.count(direct[end - 1]) if direct[end : end + 1] == [direct[end - 1]] else 0
    return max(head, tail)


def numbered(pattern: Pattern) -> Pattern:
    """The pattern with ids in reading order on its rows and steps."""
    count = iter(range(1, 10_000_000))

    def renumber(value: Any) -> Any:
        if isinstance(value, tuple):
            return tuple(renumber(item) for item in value)
        if is_dataclass(value) and not isinstance(value, type) and any(f.name == "id" for f in fields(value)):
            own = next(count)
            changed = {
                f.name: renumber(getattr(value, f.name))
                for f in fields(value)
                if f.name in ("steps", "body", "last", "answers", "changes", "closing")
            }
            return replace(value, id=own, **changed)
        return value

    return replace(pattern, parts=tuple(replace(part, rows=tuple(renumber(row) for row in part.rows)) for part in pattern.parts))


def rows_of(part: Part) -> int:
    """How many rows a part is told to have."""
    return sum(len(row.numbers_at(0)) for row in part.rows)
