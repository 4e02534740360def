"""Longer and shorter by whole row repeats: the longest run of rows grows, or rows that come again come once more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...pattern import Chain, FastenOff, Part, Pattern, Refer, Row, Step
from ...pattern.collapse import bare
from ..asks import Refused
from ..telling import label

_PERIOD = 40


def row_repeat(part: Part) -> int:
    """Rows in the group that the pattern repeats: as it says, or as its rows come again; one where it repeats a single row."""
    group = 1
    for row in part.rows:
        for step in row.steps:
            if isinstance(step, Refer):
                group = max(group, len(step.rows) or step.last or 1)
    if group > 1 or any(len(row.numbers_at(0)) > 1 for row in part.rows):
        return group
    found = _comes_again(part.rows)
    return found[1] if found else 1


def row_word(part: Part) -> str:
    """What the part calls its rows: "row", or "round" where most of it goes round."""
    nouns = [row.noun for row in part.rows if row.numbers_at(0)]
    return "round" if 2 * nouns.count("round") > len(nouns) else "row"


def lengthened(pattern: Pattern, more: int, group: int) -> Pattern:
    """The pattern `more` rows longer, its row repeat being `group` rows; the rows after it take later numbers.

    Refuses one that has no run of rows and none that come again, and a part of a repeat where rows are told one by one.
    """
    part = pattern.parts[0]
    lengths = [len(row.numbers_at(0)) for row in part.rows]
    k = max(range(len(lengths)), key=lambda k: lengths[k], default=0)
    if lengths and lengths[k] > 1:
        rows = _run_longer(part.rows, k, more)
    elif more % group:
        raise Refused(f"Rows told one by one grow by their whole repeat of {group} rows.", f"Make it {group} rows longer.")
    else:
        rows = _said_again(part.rows, more // group)
    return replace(pattern, parts=(replace(part, rows=tuple(rows)), *pattern.parts[1:]))


def cut_apart(part: Part) -> Part:
    """The part with "fasten off" told after its last row, not in it: a row told for several, or again, does not end the piece each time."""
    rows: list[Row] = []
    for row in part.rows:
        if len(row.steps) > 1 and isinstance(row.steps[-1], FastenOff):
            cut = Row(id=row.id + 500_000, label="Fasten off", noun=row.noun, made_in=row.made_in, steps=row.steps[-1:])
            rows += [replace(row, steps=row.steps[:-1]), cut]
        else:
            rows.append(row)
    return replace(part, rows=tuple(rows))


def _run_longer(rows: Sequence[Row], k: int, more: int) -> list[Row]:
    """Run k, `more` rows longer in every size."""
    run = rows[k].numbers
    if any(numbers and len(numbers) + more < 1 for numbers in run):
        raise Refused("The piece has no run of rows that long to take away.", "Take fewer row repeats away.")
    grown = tuple(tuple(range(n[0], n[-1] + more + 1)) if n else n for n in run)
    return [*rows[:k], _numbered(rows[k], grown, run, more), *(_numbered(row, _later(row, more), run, more) for row in rows[k + 1 :])]


def _later(row: Row, more: int) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(n + more for n in numbers) for numbers in row.numbers)


def _numbered(row: Row, numbers: tuple[tuple[int, ...], ...], run: tuple[tuple[int, ...], ...], more: int) -> Row:
    """The row with its numbers, and those it refers to, moved on."""
    after = run[0][-1] if run and run[0] else 0
    steps = tuple(_refers(step, after, more) for step in row.steps)
    if not any(numbers):
        return replace(row, steps=steps)
    one = next(n for n in numbers if n)
    named = label(row.noun, one) if len(numbers) == 1 else row.label
    return replace(row, numbers=numbers, label=named, steps=steps)


def _refers(step: Step, after: int, more: int) -> Step:
    if isinstance(step, Refer) and step.rows and after:
        return replace(step, rows=tuple(n + more if n > after else n for n in step.rows))
    return step


def _comes_again(rows: Sequence[Row]) -> tuple[int, int] | None:
    """(first row, rows) of the shortest group of rows told one by one that is followed by its own first row again."""
    told = [k for k, row in enumerate(rows) if len(row.numbers_at(0)) == 1 and not any(_founds(step) for step in row.steps)]
    words = {k: bare(rows[k].steps) for k in told}
    for period in range(1, min(_PERIOD, len(told)) + 1):
        for at, k in enumerate(told[: len(told) - period]):
            if told[at : at + period + 1] == list(range(k, k + period + 1)) and words[k] == words[k + period]:
                return k, period
    return None


def _founds(step: Step) -> bool:
    return isinstance(step, Chain) and step.foundation


def _said_again(rows: Sequence[Row], repeats: int) -> list[Row]:
    """A group of rows that comes again, so many times more ("Rows 4-7: Rep Rows 2 and 3"), told after its first time."""
    found = _comes_again(rows)
    if found is None or repeats < 0:
        raise Refused("The piece has no rows that repeat.", "Write which rows repeat, such as “Rows 4-20: Rep Rows 2 and 3”.")
    k, period = found
    group = tuple(rows[k + j].numbers_at(0)[0] for j in range(period))
    more = repeats * period
    last = rows[k + period - 1]
    words = [bare(row.steps) for row in rows]
    told = k + period
    while told < len(rows) and len(rows[told].numbers_at(0)) == 1 and words[told] == words[told - period]:
        told += 1
    told -= (told - k) % period
    end = rows[told - 1].numbers_at(0)[0] if told > k + period else group[-1]
    fresh = tuple(range(group[-1] + 1, end + 1 + more))
    again = replace(
        last, id=max(row.id for row in rows) + 1, label=label(last.noun, fresh), numbers=(fresh,), side=None,
        steps=(Refer(id=1_000_000 + last.id, rows=group),) if period > 1 else last.steps, stated=(),
    )  # fmt: skip
    later = [_numbered(row, _later(row, more), ((end,),), more) for row in rows[told:]]
    return [*rows[: k + period], again, *later]


__all__ = ["lengthened", "row_repeat", "row_word"]
