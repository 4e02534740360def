"""Figures that a maker counts and no step makes by that name: petals, shells, fans, as groups of stitches in one place each."""

from __future__ import annotations

from collections.abc import Sequence

from .counting import Comparison
from .fabric import How, Role, Stitches

FIGURES = {"petal": 3, "shell": 3, "fan": 3, "point": 3, "tentacle": 3, "group": 2}
"""What is counted so, and how many stitches in one place are the least that may be called one (common practice, no source)."""


def groups_alike(stitches: Stitches, least: int) -> tuple[int, int]:
    """(groups, stitches in each) of the groups of `least` or more stitches that share their place; (0, 0) where they are not all alike."""
    places: dict[tuple[int, int], list[str]] = {}
    for i in stitches.counted():
        feet = tuple(stitches.feet_of(i))
        if len(feet) == 1 and feet[0][2] != How.RING and stitches.role[i] in (Role.STITCH, Role.START_TOP):
            places.setdefault((feet[0][0], feet[0][1]), []).append(stitches.name(i))
    groups = [sorted(names) for names in places.values() if len(names) > 1]
    if not groups or any(group != groups[0] for group in groups) or len(groups[0]) < least:
        return 0, 0
    return len(groups), len(groups[0])


def held_against(told: Sequence[Comparison], stitches: Stitches) -> bool:
    """Whether any of a row's stated counts could be held against what it makes; of figures, whether it makes so many groups."""
    return any(one.worked is not None or _so_many(one, stitches) for one in told)


def _so_many(told: Comparison, stitches: Stitches) -> bool:
    least = FIGURES.get(told.count.kind)
    return least is not None and told.stated > 1 and groups_alike(stitches, least)[0] == told.stated
