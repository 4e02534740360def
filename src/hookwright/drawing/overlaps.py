"""Whether the ink of two symbols that have nothing to do with one another overlaps.

Bodies that share no foot and no top must not touch; bodies that share one may meet near it, but no further from it than 0.2 of the
taller symbol's height. Measured on the true ink: every stroke a thick line with round ends.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from .marks import Chart, Mark
from .shapes import Capsule

SHARE = 0.2
"""How far from a shared foot or top two bodies may meet, in symbol heights (issue 6)."""
TOUCH_MM = 0.02
"""Ink may come this near to overlapping before it counts: the rounding of the drawing."""
CELL_MM = 5.0


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two marks whose ink overlaps at (x, y). `deep`: one of them is worked into a row further down and passes over the other."""

    one: Mark
    other: Mark
    x: float
    y: float
    deep: bool

    def __str__(self) -> str:
        a, b = self.one, self.other
        why = " (passes over it into a row further down)" if self.deep else ""
        return f"row {a.row} stitch {a.stitch} {a.kind} and row {b.row} stitch {b.stitch} {b.kind} at {self.x:.1f}, {self.y:.1f}{why}"


class Bodies:
    """The ink of a chart's marks, kept so that a few of them may move."""

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        self.body = [chart.body(mark) for mark in chart.marks]
        self.box = [_box(body) for body in self.body]
        self._ties: dict[int, dict[tuple[int, int], tuple[float, float]]] = {}
        self._cells: dict[tuple[int, int], list[int]] = {}
        for i in range(len(self.box)):
            for cell in self._covers(i):
                self._cells.setdefault(cell, []).append(i)

    def _covers(self, i: int) -> Iterator[tuple[int, int]]:
        x1, y1, x2, y2 = self.box[i]
        for cx in range(math.floor(x1 / CELL_MM), math.floor(x2 / CELL_MM) + 1):
            for cy in range(math.floor(y1 / CELL_MM), math.floor(y2 / CELL_MM) + 1):
                yield cx, cy

    def moved(self, i: int) -> None:
        """Take a mark's new place and drawing."""
        self.body[i] = self.chart.body(self.chart.marks[i])
        self.box[i] = _box(self.body[i])
        for cell in self._covers(i):
            members = self._cells.setdefault(cell, [])
            if i not in members:
                members.append(i)

    def pairs(self, only: Collection[int] | None = None) -> Iterator[tuple[int, int]]:
        """Pairs whose boxes overlap; of those that have one of `only` in them when given."""
        if only is None:
            yield from self._all_pairs()
            return
        for i in sorted(only):
            near = sorted({j for cell in self._covers(i) for j in self._cells.get(cell, ()) if j != i})
            for j in near:
                if (j not in only or i < j) and _boxes_meet(self.box[i], self.box[j]):
                    yield (i, j) if i < j else (j, i)

    def _all_pairs(self) -> Iterator[tuple[int, int]]:
        seen: set[tuple[int, int]] = set()
        for members in self._cells.values():
            for k, i in enumerate(members):
                a = self.box[i]
                for j in members[k + 1 :]:
                    if _boxes_meet(a, self.box[j]) and (i, j) not in seen:
                        seen.add((i, j))
                        yield i, j

    def ties(self, i: int) -> dict[tuple[int, int], tuple[float, float]]:
        """What a mark stands on or offers, and where on paper that is."""
        if i not in self._ties:
            self._ties[i] = _ties(self.chart, i)
        return self._ties[i]

    def meeting(self, i: int, j: int) -> tuple[float, float] | None:
        """Where two marks overlap though they may not there."""
        mine, theirs = self.ties(i), self.ties(j)
        shared = [mine[s] for s in mine.keys() & theirs.keys()] + [theirs[s] for s in mine.keys() & theirs.keys()]
        return _meeting(self.body[i], self.body[j], shared, _reach(self.box[i], self.box[j]))


def overlaps(chart: Chart) -> list[Overlap]:
    """Every pair of marks of a chart whose ink overlaps where it may not."""
    bodies = Bodies(chart)
    found = []
    for i, j in bodies.pairs():
        at = bodies.meeting(i, j)
        if at is not None:
            deep = _deep(chart, i, j) or _deep(chart, j, i)
            found.append(Overlap(chart.marks[i], chart.marks[j], *at, deep))
    return found


def _boxes_meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _ties(chart: Chart, i: int) -> dict[tuple[int, int], tuple[float, float]]:
    """What a mark stands on or offers, and where on paper that is."""
    mark, ties = chart.marks[i], chart.ties[i]
    points = {(mark.row, mark.stitch): ties.top}
    for place, point in ties.feet:
        points[place] = point
    return points


def _box(body: list[Capsule]) -> tuple[float, float, float, float]:
    xs = [v for a, _, b, _, r in body for v in (a - r, b - r, a + r, b + r)]
    ys = [v for _, a, _, b, r in body for v in (a - r, b - r, a + r, b + r)]
    return min(xs), min(ys), max(xs), max(ys)


def _reach(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> float:
    return SHARE * max(a[2] - a[0], a[3] - a[1], b[2] - b[0], b[3] - b[1])


def _meeting(a: list[Capsule], b: list[Capsule], shared: list[tuple[float, float]], reach: float) -> tuple[float, float] | None:
    """Where two bodies overlap away from what they share; None when they do not."""
    for one in a:
        for other in b:
            x, y, gap = closest(one, other)
            if gap < one[4] + other[4] - TOUCH_MM and all(math.hypot(x - px, y - py) > reach for px, py in shared):
                return x, y
    return None


def closest(a: Capsule, b: Capsule) -> tuple[float, float, float]:
    """The place where two thick lines come closest, and how close their middles are there."""
    crossing = _crossing(a, b)
    if crossing is not None:
        return (*crossing, 0.0)
    ends = [(a[0], a[1], b), (a[2], a[3], b), (b[0], b[1], a), (b[2], b[3], a)]
    return min((_to_line(x, y, line) for x, y, line in ends), key=lambda found: found[2])


def _crossing(a: Capsule, b: Capsule) -> tuple[float, float] | None:
    ux, uy, vx, vy = a[2] - a[0], a[3] - a[1], b[2] - b[0], b[3] - b[1]
    across = ux * vy - uy * vx
    if abs(across) < 1e-12:
        return None
    wx, wy = b[0] - a[0], b[1] - a[1]
    t, s = (wx * vy - wy * vx) / across, (wx * uy - wy * ux) / across
    return (a[0] + t * ux, a[1] + t * uy) if 0 <= t <= 1 and 0 <= s <= 1 else None


def _to_line(x: float, y: float, line: Capsule) -> tuple[float, float, float]:
    dx, dy = line[2] - line[0], line[3] - line[1]
    length = dx * dx + dy * dy
    t = 0.0 if length == 0 else max(0.0, min(1.0, ((x - line[0]) * dx + (y - line[1]) * dy) / length))
    px, py = line[0] + t * dx, line[1] + t * dy
    return (x + px) / 2, (y + py) / 2, math.hypot(x - px, y - py)


def _deep(chart: Chart, i: int, j: int) -> bool:
    """Whether mark i reaches down past the row of mark j."""
    mark, other = chart.marks[i], chart.marks[j]
    return any(row < other.row < mark.row or (row < other.row == mark.row and row < mark.row - 1) for (row, _), _ in chart.ties[i].feet)
