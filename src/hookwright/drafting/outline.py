"""Outlines in the plane: cm, y upward in the direction of work, Row 1 at the bottom; corners in order, the last joined to the first."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from .asks import Refused

Point: TypeAlias = tuple[float, float]
Outline: TypeAlias = tuple[Point, ...]

_NOTHING = 1e-9


def area_cm2(outline: Sequence[Point]) -> float:
    """The signed area (shoelace): above nothing when the corners run against the clock.

    >>> area_cm2([(0, 0), (2, 0), (2, 3), (0, 3)])
    6.0
    """
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, [*outline[1:], outline[0]], strict=True)) / 2


def checked(corners: Sequence[Point]) -> Outline:
    """The outline, against the clock, without doubled corners. Refuses one that crosses itself, holds no area, or is not finite."""
    if any(not (math.isfinite(x) and math.isfinite(y)) for x, y in corners):
        raise Refused("The outline holds a number that is not finite.")
    kept = [p for k, p in enumerate(corners) if math.dist(p, corners[k - 1]) > _NOTHING]
    if len(kept) < 3:
        raise Refused("An outline needs at least three corners.")
    crossing = _crossing(kept)
    if crossing is not None:
        raise Refused(
            f"The outline crosses itself near {crossing[0]:.1f} cm, {crossing[1]:.1f} cm.", "Give its corners in order round the edge."
        )
    size = max(max(p[i] for p in kept) - min(p[i] for p in kept) for i in (0, 1))
    if abs(area_cm2(kept)) < 1e-6 * size * size:
        raise Refused("The outline holds no area.", "Give it some width and some length.")
    return tuple(kept if area_cm2(kept) > 0 else reversed(kept))


def _crossing(corners: Sequence[Point]) -> Point | None:
    """Where two sides meet that are no neighbours; None where none do. All pairs at once, in arrays."""
    import numpy as np

    a = np.asarray(corners, float)
    b = np.roll(a, -1, axis=0)
    d = b - a
    n = len(a)
    i, j = np.triu_indices(n, 2)
    keep = ~((i == 0) & (j == n - 1))
    i, j = i[keep], j[keep]
    if len(i) == 0:
        return None
    gap = a[j] - a[i]
    cross = d[i, 0] * d[j, 1] - d[i, 1] * d[j, 0]
    safe = np.where(np.abs(cross) < 1e-12, np.nan, cross)
    t = (gap[:, 0] * d[j, 1] - gap[:, 1] * d[j, 0]) / safe
    u = (gap[:, 0] * d[i, 1] - gap[:, 1] * d[i, 0]) / safe
    hit = np.flatnonzero((t > -1e-9) & (t < 1 + 1e-9) & (u > -1e-9) & (u < 1 + 1e-9))
    if len(hit) == 0:
        return None
    k = hit[0]
    x, y = a[i[k]] + t[k] * d[i[k]]
    return float(x), float(y)


def turned(outline: Outline, deg: float) -> Outline:
    """The outline turned against the clock by `deg`, its lowest corner at height 0 and its leftmost at 0."""
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    return placed([(round(x * c - y * s, 9), round(x * s + y * c, 9)) for x, y in outline])


def placed(corners: Sequence[Point]) -> Outline:
    """The same corners moved so that the lowest lies at 0 and the leftmost at 0."""
    x0, y0 = min(x for x, _ in corners), min(y for _, y in corners)
    return tuple((x - x0, y - y0) for x, y in corners)


def mirrored(outline: Outline) -> Outline:
    """Left and right exchanged."""
    return placed([(-x, y) for x, y in reversed(outline)])


def scaled(outline: Outline, across: float, along: float) -> Outline:
    return tuple((x * across, y * along) for x, y in outline)


def box(width: float, length: float) -> Outline:
    """A rectangle from (0, 0)."""
    return ((0.0, 0.0), (width, 0.0), (width, length), (0.0, length))


def flare(bottom: float, top: float, height: float) -> Outline:
    """A symmetric trapezium about 0, standing on its first width."""
    return ((-bottom / 2, 0.0), (bottom / 2, 0.0), (top / 2, height), (-top / 2, height))


@dataclass(frozen=True, slots=True)
class Side:
    """One edge of an outline from bottom to top: corners with y never falling; a level stretch is a step."""

    corners: tuple[Point, ...]

    def at(self, y: float, *, above: bool = False) -> float:
        """The place of the edge at height y; at a step, the side below it, or with `above` the side above it."""
        c = self.corners
        if above:
            k = max((i for i in range(len(c)) if c[i][1] <= y + _NOTHING), default=0)
            if k == len(c) - 1:
                return c[-1][0]
        elif y >= c[-1][1]:
            top = next(i for i in range(len(c)) if c[i][1] >= c[-1][1] - _NOTHING)
            return c[top][0]
        else:
            first = next((i for i in range(len(c)) if c[i][1] >= y - _NOTHING), len(c) - 1)
            if first == 0 or abs(c[first][1] - y) <= _NOTHING:
                return c[first][0]
            k = first - 1
        (x0, y0), (x1, y1) = c[k], c[k + 1]
        return x0 if y1 - y0 <= _NOTHING else x0 + (x1 - x0) * (y - y0) / (y1 - y0)

    def span(self, low: float, high: float) -> tuple[float, float]:
        """The least and the greatest place of the edge between two heights, both sides of a step among them."""
        places = [self.at(low, above=True), self.at(high), *(x for x, y in self.corners if low < y < high)]
        return min(places), max(places)

    def moved(self, height: Callable[[float], float], unit: float) -> Side:
        """The edge with every height sent through `height` and every place divided by `unit`."""
        return Side(tuple((x / unit, height(y)) for x, y in self.corners))


def sides(outline: Outline) -> tuple[Side, Side]:
    """The left and the right edge of an outline (against the clock) that every row crosses once.

    Refuses an outline in which some row would lie in two pieces, says at which height, and offers a turn by which it can be worked.

    >>> left, right = sides(((0, 0), (4, 0), (4, 1), (2, 3), (0, 3)))
    >>> right.at(1), right.at(2), left.at(2)
    (4, 3.0, 0.0)
    """
    walked = _walk(outline)
    if isinstance(walked, float):
        turn = next((deg for deg in (90, 45, 135, 30, 60, 120, 150) if not isinstance(_walk(turned(outline, deg)), float)), None)
        raise Refused(
            f"A row at {walked:.1f} cm would lie in two pieces, so the outline cannot be worked upward in rows.",
            "Cut it there and work it as two parts." if turn is None else f"Turned by {turn}° it can be worked: add --turn {turn}.",
        )
    return walked


def _walk(outline: Outline) -> tuple[Side, Side] | float:
    """(left, right), or the height at which the outline turns back."""
    top, bottom = max(y for _, y in outline), min(y for _, y in outline)
    n = len(outline)
    low = [y - bottom <= _NOTHING for _, y in outline]
    high = [top - y <= _NOTHING for _, y in outline]
    start = next(i for i in range(n) if low[i] and not low[(i + 1) % n])
    k, right = start, [outline[start]]
    while not high[k]:
        k, before = (k + 1) % n, k
        if outline[k][1] < outline[before][1] - _NOTHING:
            return outline[before][1]
        right.append(outline[k])
    while high[(k + 1) % n]:
        k = (k + 1) % n
    left = [outline[k]]
    while not low[k]:
        k, before = (k + 1) % n, k
        if outline[k][1] > outline[before][1] + _NOTHING:
            return outline[before][1]
        left.append(outline[k])
    while k != start:
        k = (k + 1) % n
        if not low[k]:
            return bottom
    return Side(tuple(reversed(left))), Side(tuple(right))
