"""Where rows worked flat turn a corner: increases that stand one over the other from row to row (the spine of a shawl, the peaks of a
ripple), or places passed over one over the other (its valleys).

Rows lie straight on both sides of a corner and meet in a mitre: a stitch in the mitre stands on the corner of the row below, by so much
longer than a straight one as the mitre is than the rows are high (geometry). Increases that stand alone are spread over their neighbours
instead (`cloth`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, TypeAlias

import numpy as np
import numpy.typing as npt

Floats: TypeAlias = npt.NDArray[np.float64]
Ints: TypeAlias = npt.NDArray[np.int64]
Bools: TypeAlias = npt.NDArray[np.bool_]

PLAIN: Final = 3
"""Stitches straight over their feet that must stand between two corners: fans nearer to each other are one pattern (shells), no corners."""
GROWS: Final = 1.5
"""What a row must gain or lose at a place, in stitches, to turn a sharp corner there: one stitch is taken up by its neighbours."""
NEAR: Final = 2.2
"""Within so many stitches of a corner of the row below a corner stands on it."""
CARRIED: Final = 3
"""Plain rows through which a corner is followed."""


@dataclass(frozen=True, slots=True)
class Turn:
    """A place where a row gains (`grows` > 0) or loses length over the row below, in cm: between the plain runs that end at node `before`
    and begin at node `after`. `at` is its middle along the row, `foot` along the row below."""

    before: int
    after: int
    grows: float
    at: float
    foot: float


def turns_of(feet: Floats, stands: Bools, solo: Bools, centre: Floats, unit: float) -> tuple[list[Turn], float]:
    """Every place where a row gains or loses, and which way its feet run (+1 or -1). All arrays by node; lengths in cm."""
    way = float(np.sign(np.sign(np.diff(feet[stands])).sum()) or 1.0)
    runs = _plain_runs(feet - way * centre, stands & solo, unit)
    found: list[Turn] = []
    for (_, a, left), (b, _, right) in pairwise(runs):
        grows = -way * (right - left)
        inside = np.arange(a + 1, b)
        inside = inside[stands[inside]]
        if abs(grows) < GROWS * unit:
            continue
        ends = (left + way * centre[a], right + way * centre[b])
        foot = float(feet[inside].mean()) if len(inside) and grows > 0 else sum(ends) / 2
        found.append(Turn(a, b, grows, float(centre[a] + centre[b]) / 2, foot))
    return found, way


def _plain_runs(off: Floats, plain: Bools, unit: float) -> list[tuple[int, int, float]]:
    """(first, last, offset) of every run of plain stitches with feet straight below them."""
    nodes = np.flatnonzero(plain)
    if not len(nodes):
        return []
    cuts = np.flatnonzero((np.diff(nodes) > 1) | (np.abs(np.diff(off[nodes])) > 0.3 * unit))
    groups = np.split(nodes, cuts + 1)
    kept = [group for k, group in enumerate(groups) if len(group) >= (PLAIN if 0 < k < len(groups) - 1 else PLAIN - 1)]
    return [(int(group[0]), int(group[-1]), float(np.median(off[group]))) for group in kept]


def stacked(rows: Sequence[tuple[int, Sequence[Turn]]], unit: float) -> list[list[tuple[Turn, float]]]:
    """For every row (index of the row below or -1, its turns) the turns that stand one over another, each with the corner it
    stands on along the row below."""
    corners: list[list[tuple[Turn, float]]] = [[] for _ in rows]
    standing: list[list[tuple[float, float, int, Turn, int]]] = []  # (place, sign, row, turn, plain rows since)
    for r, (base, turns) in enumerate(rows):
        here: list[tuple[float, float, int, Turn, int]] = []
        below = standing[base] if 0 <= base < r else []
        met: set[int] = set()
        for turn in turns:
            near = [k for k, each in enumerate(below) if each[1] == np.sign(turn.grows) and abs(each[0] - turn.foot) <= NEAR * unit]
            if near:
                k = min(near, key=lambda k: abs(below[k][0] - turn.foot))
                met.add(k)
                place, _, row, first, since = below[k]
                corners[r].append((turn, place if since == 0 else turn.foot))
                if since == 0 and all(each is not first for each, _ in corners[row]):
                    corners[row].append((first, first.foot))
            here.append((turn.at, float(np.sign(turn.grows)), r, turn, 0))
        # plain rows carry the corners of the row below to where they stand over them: unchanged places do, measured from the nearer end
        if not turns and 0 <= base < r:
            here += [(place, sign, row, turn, since + 1) for place, sign, row, turn, since in below if since < CARRIED]
        standing.append(here)
    return corners


def mitred(along: Floats, centre: Floats, corners: Sequence[tuple[Turn, float]], way: float) -> Floats:
    """Feet of a row with its corners mitred. `along`: the feet, evened between corners; `corners`: turns, each with the corner under it."""
    along = along.copy()
    for turn, q in corners:
        mine = np.arange(turn.before + 1, turn.after)
        by_left, by_right = _sides(turn, along, centre, mine, way)
        past, short = way * (by_left - q), way * (q - by_right)  # how far beyond the corner each side's straight feet would lie
        # a corner outward: what lies beyond both straight sides is the mitre; a valley: what stands on the mitre line itself
        on_left, on_right = (past <= 1e-9, short <= 1e-9) if turn.grows > 0 else (past < short - 1e-9, short < past - 1e-9)
        along[mine] = np.where(on_left, by_left, np.where(on_right, by_right, q))
    return along


def _sides(turn: Turn, along: Floats, centre: Floats, nodes: Ints, way: float) -> tuple[Floats, Floats]:
    """Where the feet of nodes would lie if the run before a corner, or the run after it, went straight on."""
    return (
        along[turn.before] + way * (centre[nodes] - centre[turn.before]), along[turn.after] + way * (centre[nodes] - centre[turn.after])
    )  # fmt: skip


def lengths_at(
    corners: Sequence[tuple[Turn, float]],
    way: float,
    along: Floats,
    height: Floats,
    centre: Floats,
    base: Floats,
    foot: Ints,
    share: Floats,
) -> tuple[Floats, Floats, Bools]:
    """Height of every node over its foot and its distance to the next node, at corners as they lie in the mitre; and the nodes after which
    the row turns. `base`: places of the base row's nodes, `foot` and `share` where each foot lies between two of them."""
    height, step = height.copy(), np.append(np.diff(centre), 0.0)
    bent = np.zeros(len(along), dtype=bool)
    for turn, q in corners:
        nodes = np.arange(max(turn.before - 1, 0), min(turn.after + 2, len(along)))
        high = float(np.median(height[nodes]))
        phi = math.atan2(turn.grows / 2, high)  # half of what the row turns by; negative in a valley
        sides = np.array([[math.cos(phi), math.sin(phi)], [math.cos(phi), -math.sin(phi)]])
        t = way * (_sides(turn, along, centre, nodes, way)[0] - q) - turn.grows / 2
        row = _bent_line(t, sides) + np.array([0.0, high / math.cos(phi)])
        ends = [_bent_line(way * (base[foot[nodes, k]] - q), sides) for k in (0, 1)]
        under = (1 - share[nodes, None]) * ends[0] + share[nodes, None] * ends[1]
        apart = np.linalg.norm(row - under, axis=1)
        height[nodes] = apart + height[nodes] - high
        over = np.flatnonzero((t[:-1] < -1e-9) & (t[1:] > 1e-9))
        step[nodes[over]] = np.linalg.norm(row[over + 1] - row[over], axis=1)
        bent[nodes[over]] = True
    return height, step, bent


def _bent_line(place: Floats, sides: Floats) -> Floats:
    """Points of a line that turns at 0, at `place` along it."""
    return np.asarray(np.where(place[:, None] < 0, place[:, None] * sides[0], place[:, None] * sides[1]))
