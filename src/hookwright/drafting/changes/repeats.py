"""Wider and longer by whole repeats: the words stay, the numbers that hang on the width or the length change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...pattern import Chain, Count, Make, Part, Pattern, Refer, Repeat, Row, Sized, Skip, Step, Together
from ...trade.kinds import closes
from ...working import Fabric, work
from ...writing import settled, with_counts
from ..asks import Refused
from ..outline import box
from ..result import Draft, Obtained, View
from ..telling import label
from .extract import custom_told, gauge_told


def by_repeats(pattern: Pattern, *, wider: int = 0, longer: int = 0) -> Draft:
    """The pattern `wider` repeats wider and `longer` row repeats longer (below nothing: narrower, shorter).

    Refuses a pattern whose rows do not all stretch by the same repeat, and names the row.
    """
    if len(pattern.parts) != 1:
        raise Refused(
            f"The pattern has {len(pattern.parts)} parts, and only one piece is widened at a time.",
            "Keep the part you mean in a file of its own.",
        )
    fabric = work(pattern)
    stitches, repeat, rows, group = widths_of(pattern, fabric)
    changed = settled(pattern, [fabric])
    if wider:
        changed = _widened(changed, fabric, wider, repeat)
    if longer:
        changed = _lengthened(changed, longer * group)
    changed = replace(changed, facts=replace(changed.facts, finished=()))
    again = work(_uncounted(changed))
    for row in again.parts[0].rows:
        if row.worked not in ("yes", "two-readings") or (row.offered is not None and row.used != row.offered):
            raise Refused(f"{row.label} does not stretch by a repeat of {repeat} stitches.", "Widen it by hand, row by row.")
    changed = with_counts(changed, [again])
    gauge = gauge_told(pattern)
    custom = custom_told(pattern, fabric, gauge)
    now = (stitches + wider * repeat, rows + longer * group)
    h = gauge.height_cm or gauge.width_cm
    sizes = (
        Obtained("width", stitches * gauge.width_cm, now[0] * gauge.width_cm, repeat * gauge.width_cm, "repeat", f"{now[0]} sts"),
        Obtained("length", rows * h, now[1] * h, group * h, "row repeat", f"{now[1]} rows"),
    )
    stitch, row_word = ("stitches" if repeat > 1 else "stitch"), ("rows" if group > 1 else "row")
    note = f"A repeat is {repeat} {stitch} wide and {group} {row_word} long; “asked” is the size before."
    views = (View(pattern.parts[0].name, box(sizes[0].asked_cm, sizes[1].asked_cm), box(sizes[0].cm, sizes[1].cm)),)
    return Draft(family="from", pattern=changed, custom=custom, sizes=sizes, views=views, notes=(note,))


def widths_of(pattern: Pattern, fabric: Fabric | None = None) -> tuple[int, int, int, int]:
    """(stitches of the widest row, stitches in a repeat, rows, rows in a row repeat)."""
    fabric = fabric or work(pattern)
    part = pattern.parts[0]
    worked = [row for row in fabric.parts[0].rows if not row.foundation]
    repeat = next((size for row in part.rows[:3] if (size := _repeat_of(row.steps))), 1)
    wide = max((row.counted.total for row in worked), default=0)
    return _on_the_chain(part) or wide, repeat, len(worked), _row_repeat(part)


def _on_the_chain(part: Part) -> int:
    """Stitches that the foundation chain is wide: its chains less those skipped, one more where they count. 0 where that is not told."""
    chains = next((s.number.at(0) or 0 for row in part.rows for s in row.steps if isinstance(s, Chain) and s.foundation), 0)
    first = next((s.at.nth or 0 for row in part.rows for s in row.steps if isinstance(s, Make) and s.at.where == "from_hook"), 0)
    made = [step for row in part.rows for step in row.steps if isinstance(step, Make)]
    grows = any(step.at.where in ("first", "last", "same") and (step.each.at(0) or 0) > 1 for step in made)
    grows = grows and not _repeat_of(part.rows[-1].steps)
    return 0 if not chains or not first or grows else chains - first + 1


def _repeat_of(steps: Sequence[Step]) -> int:
    """How many places the row's main repeat takes; 0 where it has none."""
    return max((_takes(step.body) for step in steps if isinstance(step, Repeat)), default=0)


def _takes(steps: Sequence[Step]) -> int:
    """Places that a repeat's steps take, told by their words."""
    total = 0
    for step in steps:
        if isinstance(step, Make) and step.at.where == "next" and step.places != "rest":
            total += (step.places.at(0) or 0) * max(step.closes, closes(step.stitch))
        elif isinstance(step, Together) and step.at.where == "next":
            total += 1
        elif isinstance(step, Skip):
            total += step.number.at(0) or 0
        elif isinstance(step, Repeat):
            total += _takes(step.body) * (step.times.number.at(0) or 1)
    return total


def _row_repeat(part: Part) -> int:
    """Rows in the group that the pattern says to repeat; one where it repeats a single row."""
    group = 1
    for row in part.rows:
        for step in row.steps:
            if isinstance(step, Refer):
                group = max(group, len(step.rows) or step.last or 1)
    return group


def _widened(pattern: Pattern, fabric: Fabric, wider: int, repeat: int) -> Pattern:
    """Every number that hangs on the width, `wider` repeats on: the foundation, plain runs, counted repeats."""
    part = pattern.parts[0]
    goes = _times_worked(fabric)
    rows = tuple(replace(row, steps=_wider_steps(row.steps, wider, repeat, goes, row)) for row in part.rows)
    return replace(pattern, parts=(replace(part, rows=rows),))


def _times_worked(fabric: Fabric) -> int:
    """How often the first row with a repeat goes through it."""
    for row in fabric.parts[0].rows:
        if any(isinstance(step, Repeat) for step in row.written.steps):
            return max(row.stitches.repeat, default=0)
    return 0


def _wider_steps(steps: tuple[Step, ...], wider: int, repeat: int, goes: int, row: Row) -> tuple[Step, ...]:
    """The steps of one row on a piece `wider` repeats wider. `goes`: how often the pattern goes through its repeat now."""
    out = list(steps)
    for k, step in enumerate(steps):
        if isinstance(step, Chain) and step.foundation:
            out[k] = replace(step, number=_plus(step.number, wider * repeat))
            return tuple(out)
    if any(_runs_to_the_end(step) for step in steps):
        return steps
    counted = [(step.times.number.at(0) or 0, k) for k, step in enumerate(steps) if isinstance(step, Repeat) and step.times.kind == "n"]
    if counted and goes and round(max(counted)[0] / goes) >= 1:
        times, k = max(counted)
        step = steps[k]
        assert isinstance(step, Repeat)
        out[k] = replace(step, times=replace(step.times, number=_plus(step.times.number, wider * round(times / goes))))
        return tuple(out)
    runs = [
        (step.places.at(0) or 0, k) for k, step in enumerate(steps) if isinstance(step, Make) and step.places != "rest" and _along(step)
    ]
    if runs:
        k = max(runs)[1]
        run = steps[k]
        assert isinstance(run, Make) and run.places != "rest"
        out[k] = replace(run, places=_plus(run.places, wider * repeat))
        return tuple(out)
    if any(isinstance(step, (Make, Together, Repeat)) for step in steps):
        raise Refused(f"{row.label or 'A row'} has nothing in it that could be made wider.", "Widen it by hand.")
    return steps


def _along(step: Make) -> bool:
    return step.at.where == "next" and step.closes == 1


def _runs_to_the_end(step: Step) -> bool:
    if isinstance(step, (Make, Together)):
        return step.places == "rest"
    return (isinstance(step, Repeat) and step.times.kind in ("rest", "to_last")) or type(step).__name__ in ("Refer", "Even")


def _plus(number: Sized[int], more: int) -> Sized[int]:
    values = tuple(None if value is None else value + more for value in number.values)
    if any(value is not None and value < 1 for value in values):
        raise Refused("The piece would be narrower than one repeat.", "Take fewer repeats away.")
    return Sized(values)


def _lengthened(pattern: Pattern, more: int) -> Pattern:
    """The longest run of repeated rows, `more` rows longer; the rows after it take later numbers."""
    part = pattern.parts[0]
    lengths = [len(row.numbers_at(0)) for row in part.rows]
    k = max(range(len(lengths)), key=lambda k: lengths[k], default=0)
    if not lengths or lengths[k] + more < 1 or (lengths[k] < 2 and more < 0):
        raise Refused("The piece has no run of rows that long to take away.", "Take fewer row repeats away.")
    rows: list[Row] = []
    for at, row in enumerate(part.rows):
        numbers = row.numbers_at(0)
        if at == k:
            numbers = tuple(range(numbers[0], numbers[-1] + more + 1))
        elif at > k:
            numbers = tuple(n + more for n in numbers)
        steps = tuple(_later(step, part.rows[k].numbers_at(0), more) for step in row.steps)
        rows.append(replace(row, numbers=(numbers,), label=label(row.noun, numbers), steps=steps) if numbers else row)
    return replace(pattern, parts=(replace(part, rows=tuple(rows)),))


def _later(step: Step, run: tuple[int, ...], more: int) -> Step:
    if isinstance(step, Refer) and step.rows and run:
        return replace(step, rows=tuple(n + more if n > run[-1] else n for n in step.rows))
    return step


def _uncounted(pattern: Pattern) -> Pattern:
    """The pattern with no stated counts, so that the words alone decide."""
    none: tuple[Count, ...] = ()
    parts = tuple(replace(part, rows=tuple(replace(row, stated=none) for row in part.rows)) for part in pattern.parts)
    return replace(pattern, parts=parts)
