"""Edges of a relaxed part as rows of nodes: what a seam joins, and what a border stands on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

import numpy as np

from ..measuring import outer_run
from .cloth import Floats, Ints
from .piece import PartShape

A_CORNER: Final = np.radians(35.0)
"""A turn of the edge sharper than this between two sides is a corner that a border goes round."""


@dataclass(frozen=True, slots=True, eq=False)
class Rim:
    """Nodes along an edge in order, `along` their places (cm), and how far they lie inside the edge itself (`inset`, cm)."""

    nodes: Ints
    along: Floats
    inset: float
    closed: bool = False

    def shifted(self, by: int) -> Rim:
        return replace(self, nodes=self.nodes + by)

    def turned(self) -> Rim:
        """From its other end."""
        return Rim(self.nodes[::-1], float(self.along[-1] if len(self.along) else 0.0) - self.along[::-1], self.inset, self.closed)

    def part(self, low: float, high: float) -> Rim:
        """The nodes whose places lie between two shares of its length."""
        share = self.along / max(float(self.along[-1]), 1e-9)
        kept = (share >= low - 1e-9) & (share <= high + 1e-9)
        return Rim(self.nodes[kept], self.along[kept], self.inset)


def row_rim(part: PartShape, r: int, inset: float = 0.0) -> Rim:
    """A row from its low end to its high end (from edge A to edge B), or a round as it was worked."""
    first, last = int(part.cloth.first[r]), int(part.cloth.first[r + 1])
    nodes, along = np.arange(first, last), np.asarray(part.cloth.rows[r].centre)
    if part.cloth.closed[r]:
        return Rim(nodes, along, inset, closed=True)
    if part.measures.placed[r].direction < 0:
        nodes, along = nodes[::-1], float(part.cloth.rows[r].total) - along[::-1]
    return Rim(nodes, along, inset)


def first_rim(part: PartShape) -> Rim:
    """The edge that a part begins with: its foundation chain, or the feet of its first row."""
    filled = [r for r, sheet in enumerate(part.cloth.rows) if len(sheet.element)]
    r = filled[0]
    inset = 0.0 if part.measures.part.rows[r].foundation else part.measures.laid[r].height_cm
    return row_rim(part, r, inset)


def last_rim(part: PartShape) -> Rim:
    """The edge that a part ends with."""
    return row_rim(part, [r for r, sheet in enumerate(part.cloth.rows) if len(sheet.element)][-1])


def side_rim(part: PartShape, *, high: bool) -> Rim:
    """Edge A (low) or B (`high`) of a part worked flat, from its first row upward."""
    it = part.measures
    inside = _ends_inside(part, high=high)
    filled = [
        row for row in it.placed if len(part.cloth.rows[row.index].element) and row.index not in it.edging and row.index not in inside
    ]
    standing = (
        [row for row in filled if row.top != row.bottom]
        if inside
        else outer_run([row for row in filled if row.top != row.bottom], high=high)
    )
    below = [row for row in filled if row.top == row.bottom][:1]
    nodes: list[int] = []
    along: list[float] = []
    for row in [*below, *standing]:
        begins = (row.direction > 0) != high
        first, last = int(part.cloth.first[row.index]), int(part.cloth.first[row.index + 1])
        nodes.append(first if begins else last - 1)
        along.append(row.top)
    return Rim(np.array(nodes, dtype=np.int64), np.array(along), part.measures.scale.unit_cm / 2)


def _ends_inside(part: PartShape, *, high: bool) -> frozenset[int]:
    """The rows whose ends on this side a later row covers: short rows, over whose steps it goes on."""
    found: set[int] = set()
    for r, ground in part.cloth.grounds.items():
        steps = np.searchsorted(part.cloth.first, ground, side="right") - 1
        main = int(np.flatnonzero(steps == part.cloth.base[r])[0]) if (steps == part.cloth.base[r]).any() else 0
        towards_end = (part.measures.placed[r].direction > 0) == high
        beyond = steps[main:] if towards_end else steps[: main + 1]
        lower = [int(k) for k in beyond if k != part.cloth.base[r]]
        if lower:
            found.update(range(min(lower) + 1, r))
    return frozenset(found)


def edge_rim(part: PartShape, edge: str) -> Rim:
    """An edge by its name ("A", "B", "first row", "last row"), the cloth at the left of the way along it."""
    if edge in ("A", "B"):
        rim = side_rim(part, high=edge == "B")
        return rim if edge == "B" else rim.turned()
    return first_rim(part) if edge == "first row" else last_rim(part).turned()


def round_the_start(part: PartShape) -> Rim:
    """Edge A downward and edge B upward as one: the upper edge of a piece worked out from the middle of it."""
    down, up = edge_rim(part, "A"), edge_rim(part, "B")
    gap = float(np.linalg.norm(part.at[up.nodes[0]] - part.at[down.nodes[-1]]))
    return Rim(np.concatenate([down.nodes, up.nodes]), np.concatenate([down.along, float(down.along[-1]) + gap + up.along]), up.inset)


def sides_of_motif(part: PartShape, corners: int) -> list[Rim]:
    """The sides of a flat motif, against the clock: its edges worked flat, or its last round cut at its corners (a circle: in eight)."""
    if not part.measures.in_rounds:
        left, right = side_rim(part, high=False), side_rim(part, high=True)
        around = [first_rim(part), right, last_rim(part).turned(), left.turned()]
        return around if _facing(part.at, around) > 0 else [rim.turned() for rim in reversed(around)]
    whole = last_rim(part)
    at = part.at[whole.nodes]
    n = len(whole.nodes)
    if _area(at) < 0:
        whole = Rim(whole.nodes[::-1], float(part.cloth.rows[-1].total) - whole.along[::-1], whole.inset, closed=True)
        at = at[::-1]
    many = corners if corners >= 3 else 8
    first = _first_corner(at, many)
    cuts = [round(first + k * n / many) for k in range(many + 1)]
    made = []
    for a, b in pairwise(cuts):
        mine = np.arange(a, b + 1) % n
        steps = np.linalg.norm(np.diff(part.at[whole.nodes[mine]], axis=0), axis=1)
        made.append(Rim(whole.nodes[mine], np.concatenate([[0.0], np.cumsum(steps)]), whole.inset))
    return made


def _first_corner(at: Floats, many: int) -> int:
    """The node of a closed round from which corners stand evenly: where it reaches furthest from its middle, all corners together."""
    n = len(at)
    reach = np.linalg.norm(at - at.mean(axis=0), axis=1)
    tries = range(max(1, n // many))
    return max(tries, key=lambda k: float(sum(reach[round(k + i * n / many) % n] for i in range(many))))


def _facing(at: Floats, rims: Sequence[Rim]) -> float:
    return _area(at[np.concatenate([rim.nodes for rim in rims])])


def _area(at: Floats) -> float:
    x, y = at[:, 0], at[:, 1]
    return float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1))) / 2


def chained(at: Floats, free: Sequence[Rim]) -> Rim:
    """Sides that no seam holds, end to end as one closed rim: each is followed by the one that begins nearest to where it ends."""
    left = list(free)
    found = [left.pop(0)]
    while left:
        end = at[found[-1].nodes[-1]]
        k = min(range(len(left)), key=lambda k: float(np.linalg.norm(at[left[k].nodes[0]] - end)))
        found.append(left.pop(k))
    nodes = np.concatenate([rim.nodes for rim in found])
    nodes = nodes[np.concatenate([[True], nodes[1:] != nodes[:-1]])]
    steps = np.linalg.norm(np.diff(at[nodes], axis=0), axis=1)
    return Rim(nodes, np.concatenate([[0.0], np.cumsum(steps)]), found[0].inset, closed=True)


@dataclass(frozen=True, slots=True, eq=False)
class Feet:
    """Where stitches along a rim stand: between rim nodes `a` and `b`, `share` towards `b`; `out` the direction away from the cloth."""

    a: Ints
    b: Ints
    share: Floats
    place: Floats
    out: Floats


def feet_along(at: Floats, rim: Rim, share: Floats, height: float) -> Feet:
    """Feet of stitches spread along a rim at shares of its length in the plane, those at a sharp corner fanned out round it.

    Stitches are spread over the line that their tops lie on, `height` outside the rim: a corner takes as many as go round it there.
    """
    line = at[rim.nodes][:, :2]
    n = len(line)
    ends = np.arange(n) if rim.closed else np.arange(n - 1)
    step = line[(ends + 1) % n] - line[ends]
    length = np.maximum(np.linalg.norm(step, axis=1), 1e-9)
    turn_of = np.arctan2(step[:, 1], step[:, 0])
    side = 1.0 if not rim.closed or _area(line) >= 0 else -1.0
    turn = np.zeros(len(ends))
    following = np.roll(turn_of, -1) - turn_of
    turn[:] = side * np.angle(np.exp(1j * following))
    if not rim.closed:
        turn[-1] = 0.0
    around = np.where(turn > A_CORNER, turn * height, 0.0)
    starts = np.concatenate([[0.0], np.cumsum(length + around)])
    place = np.clip(share, 0.0, 1.0) * starts[-1]
    k = np.clip(np.searchsorted(starts, place, side="right") - 1, 0, len(ends) - 1)
    into = place - starts[k]
    on = np.minimum(into / length[k], 1.0)
    past = np.maximum(into - length[k], 0.0)
    angle = turn_of[k] - side * np.pi / 2 + side * past / max(height, 1e-9)
    out = np.column_stack([np.cos(angle), np.sin(angle), np.zeros(len(k))])
    a, b = rim.nodes[ends[k]], rim.nodes[(ends[k] + 1) % n]
    foot = (1 - on)[:, None] * at[a] + on[:, None] * at[b]
    return Feet(a, b, on, foot + height * out, out)
