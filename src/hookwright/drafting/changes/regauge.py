"""To another gauge: the same size in other counts, or the same counts in another size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from ...pattern import FLAT, FinishedSize, Gauge, Part, Pattern, Row
from ...trade import units
from ...trade.terms import abbr
from ...working import work
from ...writing import settled
from ..asks import Custom, Refused, gauge_of
from ..compiling import ended, flat_part
from ..fit import misfit
from ..flat import plan_flat, row_count
from ..flatdraft import flat_sizes, limit_notes
from ..obtained import outline_of
from ..optimise import best_counts
from ..outline import Outline, box, placed
from ..result import Draft, Obtained, View
from ..rounds import Run, chain_ring, plan_rounds, ring_steps, round_steps
from ..telling import Told, tell
from .extract import Plain, called, custom_told, gauge_told, plain_parts
from .lengthen import cut_apart
from .sizes import gathered, in_sizes, size_names


def regauged(pattern: Pattern, gauge: str | Gauge, *, keep: Literal["size", "counts"] = "size", turning_chain: str | None = None) -> Draft:
    """The pattern at another gauge. `keep` "size": new counts for the same outline; "counts": the same rows, and the size they come to.

    A piece in a stitch pattern keeps its size by whole repeats. Refuses a pattern without a gauge, or one shaped inside its rows.
    """
    new = gauge_of(gauge, terms=pattern.terms) if isinstance(gauge, str) else gauge
    old = gauge_told(pattern)
    if new.stitch != old.stitch:
        here, there = abbr(old.stitch, pattern.terms), abbr(new.stitch, pattern.terms)
        raise Refused(f"The pattern's gauge is in {here}, the new one in {there}.", f"Swatch in {here}.")
    if new.rows is None:
        ratio = (old.height_cm or old.width_cm) / old.width_cm
        new = replace(new, rows=round(new.over_cm / (new.width_cm * ratio), 2))
    if keep == "counts":
        return _same_counts(pattern, old, new)
    try:
        sizes = [plain_parts(pattern, size) for size in range(pattern.sizes)]
    except Refused:
        return _by_repeats(pattern, old, new)
    before, after = (custom_told(pattern, sizes[0][0], gauge, turning_chain) for gauge in (old, new))
    made = [[reworked(part, before, after) for part in parts] for _, parts in sizes]
    if pattern.sizes == 1:
        return gathered(pattern, "to another gauge", made[0], after, ())
    return in_sizes(pattern, "to another gauge", made, size_names(pattern), after, ())


def outline_at(part: Plain, custom: Custom) -> Outline:
    """The outline of a flat part at a gauge, in cm."""
    start = part.foundation if part.foundation > 1 or part.rows[0].count == 1 else part.rows[0].count
    rows = part.rows if part.foundation > 1 else (replace(part.rows[0], a=0, b=0), *part.rows[1:])
    return placed(outline_of(rows, start, 0.0, custom))


def reworked(
    part: Plain, before: Custom, after: Custom, *, across: float = 1.0, along: float = 1.0
) -> tuple[Part, View, tuple[Obtained, ...], tuple[str, ...]]:
    """A part planned anew at another gauge, or scaled: the part, its picture, its sizes, its notes."""
    if part.counts:
        return _rounds(part, before, after, across, along)
    outline = tuple((x * across, y * along) for x, y in outline_at(part, before))
    plan = plan_flat(outline, after)
    view = View(part.name, plan.asked, plan.obtained)
    notes = limit_notes(plan, misfit(view, after, 0.5, 0.5))
    if part.inside:
        notes = (*notes, "Shaping that stood a stitch or two in from the edge is told at the edge: move it in again as you like it.")
    return flat_part(plan, after, part.name), view, flat_sizes(plan, after), notes


def _rounds(
    part: Plain, before: Custom, after: Custom, across: float, along: float
) -> tuple[Part, View, tuple[Obtained, ...], tuple[str, ...]]:
    """Rounds planned anew: each new round has the girth the old piece has at the same place up its side."""
    import numpy as np

    old = np.asarray(part.counts, float) * before.width_cm * across
    length = len(old) * before.height_cm * along
    rounds = row_count(length, after)
    places = (np.arange(rounds) + 0.5) / rounds * len(old) - 0.5
    girths = np.interp(places, np.arange(len(old)), old)
    wanted = [max(0.5, float(g) / after.width_cm) for g in girths]
    bands = [(w - 0.75, w + 0.75) for w in wanted]
    first = () if part.ring else (max(3, round(wanted[0])),)
    counts = best_counts(wanted, first=first, least=3, bands=bands).counts
    plans = plan_rounds(counts, stacked=after.stacked, plain_first=after.turning.counts)
    begin = ring_steps(counts[0], after) if part.ring else round_steps((Run(times=counts[0]),), after, in_chain=True)
    told = [Told(begin, counts[0], after.stitch), *(Told(round_steps(p.runs, after), p.count, after.stitch) for p in plans[1:])]
    rows = tell(told, made_in=after.rounds, side=None)
    start = () if part.ring else (Row(id=0, label="Foundation", steps=chain_ring(counts[0])),)
    widest, got = float(old.max()), max(counts) * after.width_cm
    sizes = (
        Obtained("girth", widest, got, after.width_cm, after.stitch, f"{max(counts)} {after.stitch}"),
        Obtained("up the side", length, rounds * after.height_cm, after.height_cm, "round", f"{rounds} rounds"),
    )
    return (
        Part(name=part.name, rows=(*start, *ended(rows))),
        _unrolled(part.name, [float(g) for g in old], length, counts, after),
        sizes,
        (),
    )


def _unrolled(name: str, girths: Sequence[float], length: float, counts: Sequence[int], custom: Custom) -> View:
    """Both pieces cut open and laid out: half the girth either side of the middle, round by round."""

    def shape(widths: Sequence[float], height: float) -> Outline:
        right = [(float(g) / 2, (k + 0.5) * height / len(widths)) for k, g in enumerate(widths)]
        right = [(right[0][0], 0.0), *right, (right[-1][0], height)]
        return tuple(right + [(-x, y) for x, y in reversed(right)])

    return View(name, shape(girths, length), shape([n * custom.width_cm for n in counts], len(counts) * custom.height_cm))


def _same_counts(pattern: Pattern, old: Gauge, new: Gauge) -> Draft:
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    facts = replace(pattern.facts, gauge=(new,), finished=(), title=f"{pattern.facts.title or 'Piece'}, same counts at another gauge")
    settled_ = settled(pattern, fabrics)
    changed = replace(settled_, facts=facts, parts=tuple(cut_apart(part) for part in settled_.parts))
    custom = custom_told(pattern, fabrics[0], new)
    sizes: list[Obtained] = []
    views: list[View] = []
    for part in fabrics[0].parts:
        shown = called(part)
        wide = max((row.counted.total for row in part.rows if not row.foundation), default=0)
        rows = sum(1 for row in part.rows if not row.foundation)
        before = (wide * old.width_cm, rows * (old.height_cm or old.width_cm))
        after = (wide * new.width_cm, rows * (new.height_cm or new.width_cm))
        views.append(View(part.name, box(*before), box(*after)))
        noun = "round" if any(row.made_in not in FLAT for row in part.rows if not row.foundation) else "row"
        sizes.append(Obtained(f"{shown}, along its longest {noun}", before[0], after[0], new.width_cm, new.stitch, f"{wide} {new.stitch}"))
        height = new.height_cm or new.width_cm
        sizes.append(Obtained(f"{shown}, across its {noun}s", before[1], after[1], height, noun, f"{rows} {noun}s"))
    if not sizes:
        raise Refused("The pattern has no rows.")
    times = new.width_cm / old.width_cm
    note = f"Every stitch is {units.decimal(times, 2)} × as wide; “asked” is the size at the pattern's own gauge."
    return Draft(family="from", pattern=changed, custom=custom, sizes=tuple(sizes), views=tuple(views), notes=(note,))


def _by_repeats(pattern: Pattern, old: Gauge, new: Gauge) -> Draft:
    """A piece in a stitch pattern keeps its size by the whole repeats that come nearest."""
    from .repeats import sizes_of, widths_of
    from .stretch import stretched

    made = stretched(pattern, old.width_cm / new.width_cm, (old.height_cm or 1) / (new.height_cm or 1))
    facts = replace(made.pattern.facts, gauge=(new,), title=f"{pattern.facts.title or 'Piece'}, to another gauge")
    changed = replace(made.pattern, facts=facts)
    stitches, repeat, rows, group = widths_of(changed)
    sizes = sizes_of((work(pattern), old), (work(changed), new), (repeat, group), (stitches, rows))
    _kept(sizes, repeat / stitches, group / rows)
    shown = FinishedSize(what="width", cm=(round(sizes[0].cm, 1),))
    views = (View(pattern.parts[0].name, box(sizes[0].asked_cm, sizes[1].asked_cm), box(sizes[0].cm, sizes[1].cm)),)
    changed = replace(changed, facts=replace(facts, finished=(shown,) if pattern.sizes == 1 else ()))
    return replace(made, pattern=changed, sizes=sizes, views=views)


def _kept(sizes: tuple[Obtained, Obtained], repeat: float, group: float) -> None:
    """Refuses what its repeats cannot keep at its size: off by more than half a repeat, or by half a row repeat where rows widen it.

    `repeat`, `group`: a repeat's part of the width, a row repeat's part of the length.
    """
    wide, long = (size.cm / size.asked_cm for size in sizes)
    grows = abs(wide - long) < 0.05
    for size, other in zip(sizes, (group, repeat), strict=True):
        if abs(size.off_steps) > 0.6 and not (grows and abs(size.cm / size.asked_cm - 1) <= 0.6 * other):
            raise Refused(
                f"At this gauge the piece comes out {size.cm:.1f} cm in {size.what}, not {size.asked_cm:.1f} cm, and nothing in its rows "
                "can be repeated more or less often to take that up.",
                "Keep its counts (--keep counts), or draft it anew at that size.",
            )
