"""A count told before the row is over: "(24 lps). Ch 12 for hanger, sl st in same place" is of what stands before it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Count, Step
from ..pattern.walking import walk
from .counting import Comparison, compare, count
from .fabric import Stitches


def told_midway(found: Sequence[Comparison], steps: Sequence[Step], stitches: Stitches, size: int) -> tuple[Comparison, ...]:
    """The comparisons; a count that differs is held against the stitches before it, where the row goes on behind its words."""
    return tuple(_so_far(one, steps, stitches, size) if one.differs and not one.count.change else one for one in found)


def _so_far(told: Comparison, steps: Sequence[Step], stitches: Stitches, size: int) -> Comparison:
    end = told.count.span.end
    behind = {step.id for step in walk(steps) if end and step.span.start >= end}
    at = next((k for k, step in enumerate(stitches.step) if step in behind), len(stitches))
    if at == len(stitches) or not at or any(step not in behind for step in stitches.step[at:]):
        return told
    stated: tuple[Count, ...] = (told.count,)
    again = compare(count(_first(stitches, at), slip_stitches=True), stated, size, before=None, chains_count=False)
    return replace(told, worked=told.stated) if again and not again[0].differs and again[0].worked is not None else told


def _first(stitches: Stitches, number: int) -> Stitches:
    """So many elements of the row, from its beginning."""
    feet = stitches.feet[: number + 1]
    return replace(
        stitches, kind=stitches.kind[:number], role=stitches.role[:number], step=stitches.step[:number], repeat=stitches.repeat[:number],
        feet=feet, foot_back=stitches.foot_back[: feet[-1]], foot_at=stitches.foot_at[: feet[-1]], foot_how=stitches.foot_how[: feet[-1]],
        colour=stitches.colour[:number], stands={k: name for k, name in stitches.stands.items() if k < number},
        groups={k: group for k, group in stitches.groups.items() if k + group[0] <= number},
    )  # fmt: skip
