"""The other side of a pair. A plain piece: every shaping at the other edge of its row. A piece in a stitch pattern: the same words, each
row's other side facing, because the wrong side of a piece is its mirror image (post stitches and loops with it, so that the same texture
shows on the right side)."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from ...pattern import Chain, Make, Part, Pattern, Place, Repeat, Step, Together
from ...working import work
from ...writing import settled
from ..asks import Custom, Refused
from ..compiling import flat_part
from ..flat import FlatPlan
from ..flatdraft import flat_sizes
from ..obtained import FlatRow
from ..outline import mirrored
from ..result import Draft, View
from .extract import Plain, called, custom_told, gauge_told, plain_parts
from .lengthen import cut_apart
from .regauge import outline_at
from .sizes import Made, gathered, in_sizes, size_names


def mirrored_pattern(pattern: Pattern) -> Draft:
    """The mirror image of a plain flat pattern: the same counts row for row, edge A's shaping at B and B's at A.

    A piece that is more than plain shaping is worked in the same words with its sides exchanged. Refuses what is worked round without
    turning in more than plain shaping: only a left-hander's piece is its mirror.
    """
    try:
        sizes = [plain_parts(pattern, size) for size in range(pattern.sizes)]
    except Refused as refusal:
        return _other_side_out(pattern, refusal)
    every = [part for _, parts in sizes for part in parts]
    if any(part.inside for part in every) and not any(part.counts for part in every):
        return _other_side_out(pattern, Refused("This piece has no mirror."))  # her stitches outside the shaping stay where they are
    custom = custom_told(pattern, sizes[0][0], gauge_told(pattern))
    made = [[_reversed(part, pattern, custom) for part in parts] for _, parts in sizes]
    note = ("Every row has the count of the same row of the first piece; right side out, the two are a pair.",)
    if pattern.sizes == 1:
        draft = gathered(pattern, "reversed", made[0], custom, note)
    else:
        draft = in_sizes(pattern, "reversed", made, size_names(pattern), custom, note)
    return replace(draft, views=tuple(view for view in draft.views if view.asked))


def _reversed(part: Plain, pattern: Pattern, custom: Custom) -> Made:
    if part.counts:
        return _same(pattern, part.name), View(part.name, (), ()), (), ("Rounds are their own mirror and stay as they are.",)
    turned = replace(part, rows=tuple(swapped(row) for row in part.rows))
    plan = FlatPlan(
        foundation=turned.foundation,
        rows=turned.rows,
        asked=mirrored(outline_at(part, custom)),
        obtained=outline_at(turned, custom),
        rows_asked=len(part.rows),
    )
    return flat_part(plan, custom, part.name), View(part.name, plan.asked, plan.obtained), flat_sizes(plan, custom), ()


def _other_side_out(pattern: Pattern, refusal: Refused) -> Draft:
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    fabric = fabrics[0]
    for part in fabric.parts:
        for row in part.rows:
            if row.worked not in ("yes", "two-readings") or row.state == "differs":
                raise refusal
            if row.made_in not in ("rows", "joined-turned") and not row.foundation:
                raise Refused(
                    f"{called(part)}, {row.label} is worked round without turning, which leaves it no other side to work from.",
                    "Its mirror is the same pattern worked left-handed.",
                )
    gauge = gauge_told(pattern)
    changed = settled(pattern, fabrics)
    parts = tuple(_sides_exchanged(cut_apart(part)) for part in changed.parts)
    facts = replace(changed.facts, title=f"{pattern.facts.title or 'Piece'}, reversed")
    note = (
        "The same words, with the other side of every row facing: Row 1 is now a wrong-side row, so that seen from the right side the "
        "piece is the mirror of the first."
    )
    posts = any(step != _exchanged(step) for part in changed.parts for row in part.rows for step in row.steps)
    told = ("Front and back post stitches, and front and back loops, are exchanged with it.",) if posts else ()
    custom = custom_told(pattern, fabric, gauge)
    return Draft(family="from", pattern=replace(changed, facts=facts, parts=parts), custom=custom, sizes=(), views=(), notes=(note, *told))


def _sides_exchanged(part: Part) -> Part:
    rows = []
    begun = False
    for row in part.rows:
        side: Literal["RS", "WS"] | None = None if row.side is None else "WS" if row.side == "RS" else "RS"
        if not begun and row.numbers_at(0) and not any(isinstance(s, Chain) and s.foundation for s in row.steps):
            begun, side = True, side or "WS"
        rows.append(replace(row, side=side, steps=tuple(_exchanged(step) for step in row.steps)))
    return replace(part, rows=tuple(rows))


_LOOPS = {"front": "back", "back": "front", "free_front": "free_back", "free_back": "free_front"}


def _exchanged(step: Step) -> Step:
    """The step as the other side shows it: posts and loops, front for back."""
    if isinstance(step, Repeat):
        return replace(step, body=tuple(map(_exchanged, step.body)), last=tuple(map(_exchanged, step.last)))
    if isinstance(step, Together):
        return replace(step, body=tuple(map(_exchanged, step.body)), at=_loops(step.at))
    if isinstance(step, Make):
        name = {"FP": "BP", "BP": "FP"}.get(step.stitch[:2], step.stitch[:2]) + step.stitch[2:]
        return replace(step, stitch=name, at=_loops(step.at))
    return step


def _loops(place: Place) -> Place:
    what = {"FP": "BP", "BP": "FP"}.get(place.what[:2], place.what[:2]) + place.what[2:]
    post = {"front": "back", "back": "front", "": ""}[place.post]
    return replace(place, what=what, loop=_LOOPS.get(place.loop, place.loop), post=post)  # type: ignore[arg-type]


def swapped(row: FlatRow) -> FlatRow:
    """The row with its two edges exchanged."""
    return FlatRow(row.count, row.b, row.a, row.square_b, row.square_a)


def _same(pattern: Pattern, name: str) -> Part:
    return next(part for part in pattern.parts if part.name == name)


__all__ = ["mirrored_pattern", "swapped"]
