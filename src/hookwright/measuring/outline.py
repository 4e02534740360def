"""The outline of a part worked flat, and its two edges, to scale."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from .placing import Placed

Point = tuple[float, float]
_NEAR_CM = 0.004
"""Points nearer than this to the line between their neighbours are left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A straight stretch of an edge, from the first to the last row it covers (indices). `slant_deg`: + leans outward going up."""

    first: int
    last: int
    slant_deg: float
    length_cm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """One edge from the first row to the last. `slant_deg` of the line between its ends; slants are from the perpendicular to the rows."""

    length_cm: float
    slant_deg: float
    stretches: tuple[Stretch, ...]

    @property
    def straight(self) -> bool:
        return all(abs(stretch.slant_deg) < 0.5 for stretch in self.stretches)


def trace(placed: Sequence[Placed], hidden: Iterable[int] = ()) -> tuple[Point, ...]:
    """The outline as a closed polygon (u, v), anticlockwise from the low end of the first row; rows in `hidden` are left out."""
    runs = _runs(placed, frozenset(hidden))
    if not runs:
        return ()
    children: dict[int, list[list[Placed]]] = {}
    for run in runs[1:]:
        if run[0].base is not None:
            children.setdefault(run[0].base, []).append(run)
    points = _around(runs[0], children)
    for run in runs[1:]:
        if run[0].up < 0 and run[0].base == runs[0][0].base:
            around = _around(run, children)
            points = [points[0], around[0], *reversed(around[1:]), *points[1:]]
    return tuple(thin(points, closed=True))


def _runs(placed: Sequence[Placed], hidden: frozenset[int]) -> list[list[Placed]]:
    """Rows gathered into runs that stand one on another, each row with only one row on it."""
    rows = [row for row in placed if row.index not in hidden and row.top != row.bottom]
    on: dict[int | None, int] = {}
    for row in rows:
        on[row.base] = on.get(row.base, 0) + 1
    runs: list[list[Placed]] = []
    ending: dict[int, list[Placed]] = {}
    for row in rows:
        run = ending.pop(row.base, None) if row.base is not None and on[row.base] == 1 else None
        if run is None:
            run = []
            runs.append(run)
        run.append(row)
        ending[row.index] = run
    return runs


def _around(run: list[Placed], children: Mapping[int, list[list[Placed]]]) -> list[Point]:
    """Bottom low, bottom high, up the high side, over the top (from high to low), down the low side."""
    over: list[Point] = []
    for child in sorted(children.get(run[-1].index, []), key=lambda child: -child[0].low):
        if child[0].up == run[-1].up:
            around = _around(child, children)
            over += around[1:] + around[:1]
    high, low = side_points(run, high=True), side_points(run, high=False)
    return [low[0], *high, *over, *reversed(low[1:])]


def side_points(run: Sequence[Placed], *, high: bool) -> list[Point]:
    """One side of a run of rows from bottom to top: a point at the middle of every row, a step where the row steps."""
    ends = [row.high if high else row.low for row in run]
    points: list[Point] = [(ends[0], run[0].bottom)]
    for (before, row), (u_before, u) in zip(pairwise(run), pairwise(ends), strict=True):
        points.append((u_before, (before.bottom + before.top) / 2))
        if row.ledge_high if high else row.ledge_low:
            points += [(u_before, row.bottom), (u, row.bottom)]
    points += [(ends[-1], (run[-1].bottom + run[-1].top) / 2), (ends[-1], run[-1].top)]
    return thin(points)


def thin(points: Sequence[Point], *, closed: bool = False) -> list[Point]:
    """The points without those that lie on the line between their neighbours, and without doubles."""
    kept: list[Point] = []
    for point in points:
        if kept and math.dist(kept[-1], point) < _NEAR_CM / 4:
            continue
        while len(kept) > 1 and _between(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    if closed and len(kept) > 2:
        if math.dist(kept[0], kept[-1]) < _NEAR_CM / 4:
            kept.pop()
        while len(kept) > 3 and _between(kept[-2], kept[-1], kept[0]):
            kept.pop()
        while len(kept) > 3 and _between(kept[-1], kept[0], kept[1]):
            kept.pop(0)
    return kept


def _between(a: Point, b: Point, c: Point) -> bool:
    along = math.dist(a, c)
    if along < 1e-12:
        return True
    off = abs((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / along
    forward = (b[0] - a[0]) * (c[0] - a[0]) + (b[1] - a[1]) * (c[1] - a[1])
    return off < _NEAR_CM and forward >= 0 and math.dist(a, b) <= along + _NEAR_CM


def polygon_area(points: Sequence[Point]) -> float:
    """Area of a polygon without crossings, in cm2, positive when it runs anticlockwise.

    >>> polygon_area([(0, 0), (4, 0), (4, 2), (0, 2)])
    8.0
    """
    pairs = zip(points, [*points[1:], *points[:1]], strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2


def edge_of(placed: Sequence[Placed], *, high: bool) -> Edge:
    """Edge B (`high`) or A of the rows that stand one on another from the first; branches after a division follow that side."""
    run = outer_run([row for row in placed if row.top != row.bottom], high=high)
    if not run:
        return Edge(length_cm=0.0, slant_deg=0.0, stretches=())
    points = side_points(run, high=high)
    sign = 1 if high else -1
    stretches = tuple(
        Stretch(
            first=_row_at(run, a[1]),
            last=_row_at(run, b[1] - 1e-9),
            slant_deg=_slant(sign * (b[0] - a[0]), b[1] - a[1]),
            length_cm=math.dist(a, b),
        )
        for a, b in pairwise(points)
        if math.dist(a, b) > _NEAR_CM
    )
    rise, out = points[-1][1] - points[0][1], sign * (points[-1][0] - points[0][0])
    return Edge(length_cm=sum(stretch.length_cm for stretch in stretches), slant_deg=_slant(out, rise), stretches=stretches)


def _slant(out: float, rise: float) -> float:
    return round(math.degrees(math.atan2(out, abs(rise))), 2) + 0.0


def _row_at(run: Sequence[Placed], v: float) -> int:
    """The row that holds height v."""
    for row in run:
        if abs(row.bottom) - 1e-9 <= abs(v) < abs(row.top) - 1e-9:
            return row.index
    return run[-1].index


def outer_run(rows: Sequence[Placed], *, high: bool) -> list[Placed]:
    """From the first row upward, at each division the row that reaches furthest on that side."""
    if not rows:
        return []
    above: dict[int | None, list[Placed]] = {}
    for row in rows[1:]:
        if row.up == rows[0].up:
            above.setdefault(row.base, []).append(row)
    run = [rows[0]]
    while run[-1].index in above:
        run.append(max(above[run[-1].index], key=lambda row: row.high if high else -row.low))
    return run
