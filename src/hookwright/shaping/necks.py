"""Collars and hoods: the edge of a garment's neck, and what stands on it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..measuring.garments import upper_from
from .cloth import Floats, Ints
from .joined import Whole
from .panels import SHOULDER, Panel, outward
from .piece import PartShape
from .rims import Rim, first_rim, last_rim, row_rim, side_rim

LEAST = 6
"""Nodes below which an edge is no neck."""


def neck_ring(whole: Whole, back: Panel, fronts: Sequence[Panel]) -> Rim | None:
    """The edge round the neck, from the middle of the front over the shoulder at -x to the back and round; None where there is none."""
    if len(fronts) == 2:
        sides = {right: max(fronts, key=lambda each: (1 if right else -1) * _middle_x(whole, each)) for right in (False, True)}
        ways = {right: _slope(panel, right) for right, panel in sides.items()}
        front, half = np.concatenate([ways[True][::-1], ways[False]]), len(ways[True])
        tops = [panel.part.measures.laid[panel.top(right)].total_cm for right, panel in sides.items()]
        behind = _top_edge(whole, back, float(np.mean(tops)))
    else:
        front = _top_edge(whole, fronts[0], _top_cm(back) if back.divided else None)
        half = len(front) // 2
        behind = _top_edge(whole, back, _top_cm(fronts[0]) if fronts[0].divided else None)
    nodes = np.concatenate([front[half:], behind[::-1], front[:half]]).astype(np.int64)
    if len(nodes) < LEAST:
        return None
    at = whole.at[nodes]
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(at, axis=0), axis=1))])
    return Rim(nodes, along, whole.unit / 2)


def _middle_x(whole: Whole, panel: Panel) -> float:
    return float(whole.at[panel.first : panel.first + panel.part.cloth.nodes, 0].mean())


def _top_cm(panel: Panel) -> float:
    return panel.part.measures.laid[panel.top(True)].total_cm


def _top_edge(whole: Whole, panel: Panel, shoulder_cm: float | None) -> Ints:
    """The neck's edge of a whole back or front from +x to -x: down and up between its two sides, or what shoulders leave of its top."""
    if panel.divided:
        return _between_sides(whole, panel)
    rim = outward(whole, last_rim(panel.part).shifted(panel.first), True)
    share = SHOULDER if shoulder_cm is None else min(0.5, shoulder_cm / max(_top_cm(panel), 1e-9))
    return rim.part(share, 1 - share).nodes


def _between_sides(whole: Whole, panel: Panel) -> Ints:
    cloth = panel.part.cloth
    runs = {right: panel.rows(right) for right in (False, True)}
    common = {row.index for row in runs[False]} & {row.index for row in runs[True]}
    ways: dict[bool, Ints] = {}
    for right, run in runs.items():
        ends = [row for row in run if row.index not in common]
        high = not panel.sides[right]  # the end that looks to the other side
        nodes = [int(cloth.first[r.index]) if (r.direction > 0) != high else int(cloth.first[r.index + 1]) - 1 for r in ends]
        ways[right] = np.array(nodes, dtype=np.int64) + panel.first
    floor = [row for row in runs[True] if row.index in common][-1]
    first = {right: next(row for row in run if row.index not in common) for right, run in runs.items()}
    low, high_row = sorted(first.values(), key=lambda row: row.low)
    mine = row_rim(panel.part, floor.index).shifted(panel.first)
    places = floor.low + mine.along - mine.along[0]
    between = outward(whole, Rim(mine.nodes, mine.along, mine.inset), True)
    inside = set(mine.nodes[(places > low.high) & (places < high_row.low)].tolist())
    middle = np.array([node for node in between.nodes if int(node) in inside], dtype=np.int64)
    return np.concatenate([ways[True][::-1], middle, ways[False]])


def _slope(panel: Panel, right: bool) -> Ints:
    """Of half a front at +x (`right`) or -x, the stretch of its inner edge above where it leans in, from below."""
    high = not panel.sides[right]
    rim = side_rim(panel.part, high=high).shifted(panel.first)
    begins = upper_from(panel.part.measures, high=high)
    return rim.nodes[rim.along > begins.bottom + 1e-6] if begins is not None else rim.nodes[:0]


def stand_on_neck(whole: Whole, part: PartShape, ring: Rim, *, closed: bool, gap: float) -> None:
    """A collar or hood upright on the neck, its ends at the middle of the front; `closed`: its upper edge sewn up over the head."""
    it = part.measures
    upright = it.length_cm > it.width_cm  # its rows stand, and its side runs round the neck
    x, y = part.at[:, 0], part.at[:, 1]
    u, v = (y - y.min(), x.max() - x) if upright else (x - x.min(), y - y.min())
    share = u / max(float(u.max()), 1e-9)
    at = whole.at[ring.nodes]
    along = ring.along / max(float(ring.along[-1]), 1e-9)
    start: Floats = np.column_stack([np.interp(share, along, at[:, k]) for k in range(3)])
    start[:, 2] += v + whole.unit
    first = whole.add(part, start)
    edge, over = (side_rim(part, high=True), side_rim(part, high=False)) if upright else (first_rim(part), last_rim(part))
    whole.sew(ring, edge.shifted(first), gap)
    if closed:
        whole.sew(over.part(0.0, 0.499).shifted(first), over.part(0.501, 1.0).shifted(first), gap)
