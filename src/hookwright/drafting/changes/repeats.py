"""Wider and longer by whole repeats: the words stay, the numbers that hang on the width or the length change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...measuring import PartMeasures, measure
from ...pattern import Chain, Count, Gauge, Make, Part, Pattern, Repeat, Row, Sized, Skip, Step, Together, Trim
from ...trade.kinds import closes
from ...working import Fabric, work
from ...writing import settled, with_counts
from ..asks import Refused
from ..outline import box
from ..result import Draft, Obtained, View
from .extract import custom_told, gauge_told
from .lengthen import cut_apart, lengthened, row_repeat, row_word

_ANEW = "Draft it anew at that size (hookwright draft circle, square, hexagon …)."
_NEAR = 4
"""Row repeats to either side of the number asked that are tried when it does not work out."""


def by_repeats(pattern: Pattern, *, wider: int = 0, longer: int = 0) -> Draft:
    """The pattern `wider` repeats wider and `longer` row repeats longer (below nothing: narrower, shorter), in every size it has.

    Refuses a pattern whose rows do not all stretch by the same repeat, and names the row; and a flat piece in rounds that would not lie
    flat any more.
    """
    if len(pattern.parts) != 1:
        raise Refused(
            f"The pattern has {len(pattern.parts)} parts, and only one piece is widened at a time.",
            "Keep the part you mean in a file of its own.",
        )
    group = row_repeat(pattern.parts[0])
    try:
        return by_rows(pattern, longer * group, wider=wider)
    except Refused as refusal:
        if wider and longer:
            raise
        nearest = _workable(pattern, longer or (1 if wider > 0 else -1), group)
        if nearest is None and any(part.rounds is not None and part.lies == "flat" for part in measure(work(pattern)).parts):
            raise Refused(refusal.sentence, _ANEW) from None
        if nearest is None:
            raise
        offer = f"The nearest that works out is --longer {nearest}." if longer else f"It can be made longer instead: --longer {nearest}."
        raise Refused(refusal.sentence, offer) from None


def _workable(pattern: Pattern, longer: int, group: int) -> int | None:
    """The number of row repeats nearest to `longer` by which the piece works out; None where none near it does."""
    for n in sorted(range(longer - _NEAR, longer + _NEAR + 1), key=lambda n: (abs(n - longer), -n)):
        if n:
            try:
                by_rows(pattern, n * group)
            except Refused:
                continue
            return n
    return None


def stretches(pattern: Pattern) -> None:
    """Refuses a pattern that no whole repeat makes wider or longer."""
    try:
        by_rows(pattern, 0, wider=1)
    except Refused as refusal:
        if _workable(pattern, 1, row_repeat(pattern.parts[0])) is None:
            raise refusal from None


def by_rows(pattern: Pattern, more: int, *, wider: int = 0) -> Draft:
    """The pattern `more` rows longer, which may end inside a row repeat, and `wider` repeats wider, in every size it has."""
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    fabric = fabrics[0]
    _, repeat, rows, group = widths_of(pattern, fabric)
    changed = settled(pattern, fabrics)
    changed = replace(changed, parts=tuple(cut_apart(part) for part in changed.parts))
    if wider:
        changed = _widened(changed, fabric, wider, repeat)
    if more:
        changed = lengthened(changed, more, group)
    changed = replace(changed, facts=replace(changed.facts, finished=()))
    again = [work(_uncounted(changed), size=size) for size in range(pattern.sizes)]
    for before, after in zip(fabrics, again, strict=True):
        _still_works(before, after, repeat)
    changed = with_counts(changed, again)
    changed = replace(changed, facts=replace(changed.facts, trims=_trims(with_counts(settled(pattern, fabrics), fabrics), changed)))
    gauge = gauge_told(pattern)
    custom = custom_told(pattern, fabric, gauge)
    shown = work(changed)
    sizes = sizes_of((fabric, gauge), (shown, gauge), (repeat, group), (widths_of(changed, shown)[0], rows + more))
    stitch, row = ("stitches" if repeat > 1 else "stitch"), row_word(pattern.parts[0])
    notes = [f"A repeat is {repeat} {stitch} wide and {group} {row}{'s' if group > 1 else ''} long; “asked” is the size before."]
    if changed.facts.trims != pattern.facts.trims:
        notes.append("Its trims are as many more or fewer as the places they hang in.")
    views = (View(pattern.parts[0].name, box(sizes[0].asked_cm, sizes[1].asked_cm), box(sizes[0].cm, sizes[1].cm)),)
    return Draft(family="from", pattern=changed, custom=custom, sizes=sizes, views=views, notes=tuple(notes))


def _trims(before: Pattern, after: Pattern) -> tuple[Trim, ...]:
    """The trims: one that there is for every stitch or space of some kind in the last row keeps one for each."""
    old, new = (_last_counts(pattern) for pattern in (before, after))
    changed = []
    for trim in before.facts.trims:
        kind = next((kind for kind, number in old.items() if number == trim.number > 1), None)
        changed.append(replace(trim, number=new.get(kind, trim.number)) if kind else trim)
    return tuple(changed)


def _last_counts(pattern: Pattern) -> dict[str, int]:
    """Stitches and spaces that the last row with a count tells, by kind."""
    told = [row.stated for row in pattern.parts[0].rows if row.stated]
    return {count.kind: count.number.at(0) or 0 for count in told[-1]} if told else {}


def sizes_of(
    before: tuple[Fabric, Gauge], after: tuple[Fabric, Gauge], repeat: tuple[int, int], counts: tuple[int, int]
) -> tuple[Obtained, Obtained]:
    """Width (of what goes round: girth) and length after a change beside those before it, as measured, in steps of one repeat."""
    old, new = (measure(fabric).parts[0] for fabric, _ in (before, after))
    what, (asked, got) = ("girth", (2 * old.width_cm, 2 * new.width_cm)) if goes_around(new) else ("width", (old.width_cm, new.width_cm))
    across, along = after[1].width_cm, after[1].height_cm or after[1].width_cm
    row = row_word(after[0].pattern.parts[0])
    wide, high = ("repeat" if repeat[0] > 1 else "st"), (f"{row} repeat" if repeat[1] > 1 else row)
    return (
        Obtained(what, asked, got, repeat[0] * across, wide, f"{counts[0]} sts" if counts[0] > 1 else ""),
        Obtained("length", old.length_cm, new.length_cm, repeat[1] * along, high, f"{counts[1]} {row}s"),
    )


def goes_around(part: PartMeasures) -> bool:
    """Whether a part is a tube or a bowl, which is measured round it and lies half as wide."""
    return part.rounds is not None and part.lies not in ("flat", "ruffles")


def _still_works(before: Fabric, after: Fabric, repeat: int) -> None:
    """Refuses a change after which a row uses more or fewer places than it is offered, where it did not before."""
    loose = {(row.written.id, (row.offered or 0) - (row.used or 0)) for row in before.parts[0].rows}
    loose_ids = {at for at, left in loose if left}
    for row in after.parts[0].rows:
        fits = row.offered is None or row.used == row.offered or row.written.id in loose_ids
        if row.worked not in ("yes", "two-readings") or not fits:
            of = f"{repeat} stitches" if repeat > 1 else "one stitch"
            raise Refused(f"{row.label} does not stretch by a repeat of {of}.", "Change it by hand, row by row.")
    flat = [measure(fabric).parts for fabric in (before, after)]
    for old, new in zip(*flat, strict=False):
        if old.rounds is not None and new.rounds is not None and old.rounds.lies == "flat" != new.rounds.lies:
            raise Refused(
                "A flat piece in rounds grows in every round, and none of its rounds says how the next would go on.",
                _ANEW,
            )


def widths_of(pattern: Pattern, fabric: Fabric | None = None) -> tuple[int, int, int, int]:
    """(stitches of the widest row, stitches in a repeat, rows, rows in a row repeat)."""
    fabric = fabric or work(pattern)
    part = pattern.parts[0]
    worked = [row for row in fabric.parts[0].rows if not row.foundation]
    repeat = next((size for row in part.rows[:3] if (size := _repeat_of(row.steps))), 1)
    wide = max((row.counted.total for row in worked), default=0)
    return _on_the_chain(part) or wide, repeat, len(worked), row_repeat(part)


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


def _uncounted(pattern: Pattern) -> Pattern:
    """The pattern with no stated counts, so that the words alone decide."""
    none: tuple[Count, ...] = ()
    parts = tuple(replace(part, rows=tuple(replace(row, stated=none) for row in part.rows)) for part in pattern.parts)
    return replace(pattern, parts=parts)
