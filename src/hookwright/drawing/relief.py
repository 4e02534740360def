"""Relief: chains and slip stitches that touch what they have nothing to do with give way a little, as an engraver would shift them by eye.

Only these float: a chain hangs between stitches and a dot beside them, so moving one by less than a millimetre or drawing it shorter
changes nothing that is read. Everything that stands on something stays where it stands.
"""

from __future__ import annotations

import math

from .marks import Chart, Mark
from .overlaps import Bodies, closest
from .symbols import chain

ROUNDS = 6
MOST_MOVE_MM = 1.1
"""No symbol is moved further than this from where it was placed."""
MOST_STEP_MM = 0.45
CLEAR_MM = 0.08
SHORTEST_CHAIN = 13
"""Tenths of a millimetre: a chain is not drawn shorter than this."""
FLOATING = ("ch", "sl st")


def relieve(chart: Chart) -> int:
    """Move what floats until it is clear, or cannot move further; answers how many marks were moved."""
    bodies = Bodies(chart)
    start = [(mark.x, mark.y) for mark in chart.marks]
    moved: set[int] = set()
    touched: set[int] | None = None
    for _ in range(ROUNDS):
        pushes: dict[int, tuple[float, float]] = {}
        for i, j in bodies.pairs(touched):
            if chart.marks[i].kind in FLOATING or chart.marks[j].kind in FLOATING:
                _push(chart, bodies, i, j, pushes)
        touched = set()
        for i, (dx, dy) in sorted(pushes.items()):
            if _move(chart, i, dx, dy, start[i]):
                bodies.moved(i)
                touched.add(i)
        moved |= touched
        if not touched:
            break
    return len(moved)


def _push(chart: Chart, bodies: Bodies, i: int, j: int, pushes: dict[int, tuple[float, float]]) -> None:
    """Add what moves i and j apart, when they overlap where they may not."""
    if bodies.meeting(i, j) is None:
        return
    depth, nx, ny = _apart(bodies, i, j)
    floats = [k for k in (i, j) if chart.marks[k].kind in FLOATING]
    for k in floats:
        sign = -1.0 if k == i else 1.0
        x, y = pushes.get(k, (0.0, 0.0))
        share = sign * depth / len(floats)
        pushes[k] = (x + nx * share, y + ny * share)


def _apart(bodies: Bodies, i: int, j: int) -> tuple[float, float, float]:
    """How deep two bodies overlap, and which way the second one gets out."""
    worst = (0.0, 0.0, 0.0)
    for one in bodies.body[i]:
        for other in bodies.body[j]:
            _, _, gap = closest(one, other)
            depth = one[4] + other[4] + CLEAR_MM - gap
            if depth > worst[0]:
                worst = (min(depth, 1.2), *_way(one, other))
    return worst


def _way(one: tuple[float, float, float, float, float], other: tuple[float, float, float, float, float]) -> tuple[float, float]:
    """The direction in which the second thick line leaves the first: across the thinner, towards the other's middle."""
    mx, my = (other[0] + other[2]) / 2, (other[1] + other[3]) / 2
    cx, cy = (one[0] + one[2]) / 2, (one[1] + one[3]) / 2
    line = one if one[4] <= other[4] else other
    dx, dy = line[2] - line[0], line[3] - line[1]
    far = math.hypot(dx, dy)
    vx, vy = mx - cx, my - cy
    if far > 0.3:
        nx, ny = -dy / far, dx / far
        side = vx * nx + vy * ny
        if abs(side) > 0.05:
            return (nx, ny) if side > 0 else (-nx, -ny)
    away = math.hypot(vx, vy) or 1.0
    return vx / away, vy / away


def _move(chart: Chart, i: int, dx: float, dy: float, start: tuple[float, float]) -> bool:
    """Move a mark by a step of at most MOST_STEP_MM, within its leash; a chain that is held is drawn shorter instead."""
    mark = chart.marks[i]
    far = math.hypot(dx, dy)
    if far < 1e-6:
        return _shorten(chart, i, mark)
    step = min(1.0, MOST_STEP_MM / far)
    x, y = mark.x + dx * step, mark.y + dy * step
    off = math.dist((x, y), start)
    if off > MOST_MOVE_MM:
        x, y = start[0] + (x - start[0]) * MOST_MOVE_MM / off, start[1] + (y - start[1]) * MOST_MOVE_MM / off
    if math.dist((x, y), (mark.x, mark.y)) < 0.03:
        return _shorten(chart, i, mark)
    chart.marks[i] = mark._replace(x=round(x, 2) + 0.0, y=round(y, 2) + 0.0)
    if mark.kind == "ch" and far > 0.25:
        _shorten(chart, i, chart.marks[i])
    return True


def _shorten(chart: Chart, i: int, mark: Mark) -> bool:
    length = int(mark.glyph.rpartition("--")[2]) if mark.kind == "ch" and mark.glyph.startswith("ch--") else 0
    shorter = max(length - 3, SHORTEST_CHAIN)
    if length <= shorter:
        return False
    glyph = f"ch--{shorter}"
    chart.glyphs.setdefault(glyph, chain(shorter))
    chart.marks[i] = mark._replace(glyph=glyph)
    return True
