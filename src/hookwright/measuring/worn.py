"""How a flat piece hangs when worn: a strip round a neck with both ends hanging, a triangle over the shoulders. Ease on a body."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Final

from .outline import Point, polygon_area

NECK_ARC_CM: Final = 24.0
"""What a scarf takes round the back and sides of a neck: about two thirds of a 36-38 cm neck (from memory)."""


LEAST_DROP_CM: Final = 12.0
LEAST_WIDTH_CM: Final = 5.0
"""Shorter and narrower strips are straps and bands, and nobody hangs them round a neck (a judgement, no source)."""
LONG: Final = 3.0
"""So many times as long as wide, a piece is a strip."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HangingEnd:
    """One end of a strip. `ahead_cm`: by how much its corner at `sides[0]` hangs below that at `sides[1]` (negative: that at `sides[1]`
    hangs lower), looked at a tenth of the width from each side; `slant_deg` the slant of the end from straight across the strip."""

    end: str
    sides: tuple[str, str]
    drop_cm: float
    ahead_cm: float
    slant_deg: float

    @property
    def leading(self) -> str:
        """The side whose corner hangs lowest, or "" when the end is straight."""
        return "" if abs(self.ahead_cm) < 0.5 else self.sides[0] if self.ahead_cm > 0 else self.sides[1]


def hang_strip(outline: Sequence[Point], *, neck_cm: float = NECK_ARC_CM) -> tuple[HangingEnd, HangingEnd] | None:
    """The two ends of a long piece hung round a neck, folded at its middle.

    `outline` as (u, v) from edge A to edge B. The piece is measured along its own long direction: one that leans (worked on the bias) hangs
    by its edges, one worked lengthwise hangs by its first and last row. None for a piece less than three times as long as wide, too short
    to hang below a neck, or too narrow to be worn (a strap, a cord).
    """
    if len(outline) < 3:
        return None
    along = _long_way(outline)
    upright = abs(along[1]) >= abs(along[0])
    if (along[1] if upright else along[0]) < 0:
        along = (-along[0], -along[1])
    aside = (along[1], -along[0]) if upright else (-along[1], along[0])
    turned = [(u * aside[0] + v * aside[1], u * along[0] + v * along[1]) for u, v in outline]
    across, down = [p for p, _ in turned], [q for _, q in turned]
    length, width = max(down) - min(down), max(across) - min(across)
    if length < LONG * width or length < neck_cm + 2 * LEAST_DROP_CM or width < LEAST_WIDTH_CM:
        return None
    middle = (max(down) + min(down)) / 2
    rows, edges = ("first row", "last row"), ("edge A", "edge B")
    names, sides = (rows, edges) if upright else (edges, rows)
    ends = []
    for name, side in zip(names, (-1, 1), strict=True):
        a, b = (_reach(turned, across, low, middle, side) for low in (True, False))
        slant = round(math.degrees(math.atan2(a - b, 0.8 * width)), 1)
        ends.append(HangingEnd(end=name, sides=sides, drop_cm=(length - neck_cm) / 2, ahead_cm=a - b, slant_deg=slant))
    return ends[0], ends[1]


def _long_way(outline: Sequence[Point]) -> Point:
    """The direction of the narrowest strip that holds the outline, among those of its own sides (of a convex one it is among them)."""
    best, narrowest = (0.0, 1.0), math.inf
    for (u0, v0), (u1, v1) in zip(outline, [*outline[1:], outline[0]], strict=True):
        long = math.dist((u0, v0), (u1, v1))
        if long <= 0:
            continue
        way = ((u1 - u0) / long, (v1 - v0) / long)
        off = [u * way[1] - v * way[0] for u, v in outline]
        if max(off) - min(off) < narrowest - 1e-9:
            best, narrowest = way, max(off) - min(off)
    return best


def _reach(outline: Sequence[Point], across: Sequence[float], low_side: bool, middle: float, side: int) -> float:
    """How far from the middle of the length the outline reaches, a tenth of its width from that side."""
    low, high = min(across), max(across)
    near = 0.1 * (high - low)
    rim = low + near if low_side else high - near
    reach = 0.0
    for (u0, v0), (u1, v1) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if (u0 - rim) * (u1 - rim) <= 0 and u0 != u1:
            v = v0 + (v1 - v0) * (rim - u0) / (u1 - u0)
            if (v - middle) * side > 0:
                reach = max(reach, abs(v - middle))
    return reach


@dataclass(frozen=True, slots=True, kw_only=True)
class OverShoulders:
    """A three-cornered piece worn with one side along the neck. `point_cm`: how far its point reaches below that side; `aside_cm`: how far
    the point hangs from the middle of the side; a symmetrical triangle has 0."""

    side_cm: float
    point_cm: float
    aside_cm: float
    arms_cm: tuple[float, float]
    """From the point's foot on the long side to its two ends, named in `ends`."""
    neck: str = ""
    """The side along the neck: "first row", "last row", "edge A" or "edge B"; "" where the outline does not tell."""
    ends: tuple[str, str] = ("", "")
    also: OverShoulders | None = None
    """The same piece worn by another side nearly as long, where it hangs lopsided by both."""

    @property
    def leans(self) -> bool:
        """Whether one end hangs visibly longer than the other."""
        return self.aside_cm > LEANS * self.side_cm


LEANS: Final = 0.05
FILLS: Final = (0.87, 1.15)
"""What a triangle's area over the outline's may be for the piece to count as three-cornered."""
BLUNT: Final = 0.97
"""Points of the outline that lie so far out, over the furthest, are together the point."""
ALIKE: Final = 0.85
"""Of sides so nearly as long as the longest, the one that the point hangs in the middle of goes along the neck (a judgement)."""


def over_shoulders(outline: Sequence[Point], *, named: bool = True) -> OverShoulders | None:
    """How a three-cornered piece hangs, worn by its longest side, or by one nearly as long over whose middle the point hangs.

    `named`: whether the outline is (u, v) from edge A to edge B, so that sides can be told by name. None when no triangle on its longest
    side fills it or it has no area.
    """
    area = abs(polygon_area(outline)) if len(outline) >= 3 else 0.0
    if area <= 0:
        return None
    a, b = max(combinations(outline, 2), key=lambda pair: math.dist(*pair))
    point = _tip(outline, a, b)
    if not FILLS[0] < math.dist(a, b) * abs(_across(point, a, b)) / 2 / area < FILLS[1]:
        return None
    ways = list(_worn_by_each_side(outline, (a, b, point), named))
    longest = max(way.side_cm for way in ways)
    near = sorted((way for way in ways if way.side_cm >= ALIKE * longest), key=lambda way: (way.leans, -way.side_cm))
    return replace(near[0], also=near[1]) if near[0].leans and len(near) > 1 else near[0]


def _tip(outline: Sequence[Point], a: Point, b: Point) -> Point:
    """The point furthest from the line through a and b; of a blunt one (the few stitches that a piece begins with) its middle."""
    depth = max(abs(_across(p, a, b)) for p in outline)
    blunt = [p for p in outline if abs(_across(p, a, b)) > BLUNT * depth]
    return sum(u for u, _ in blunt) / len(blunt), sum(v for _, v in blunt) / len(blunt)


def _worn_by_each_side(outline: Sequence[Point], corners: tuple[Point, Point, Point], named: bool) -> Iterator[OverShoulders]:
    for k in range(3):
        a, b = corners[k - 2], corners[k - 1]
        point = _tip(outline, a, b)
        side, depth = math.dist(a, b), abs(_across(point, a, b))
        foot = ((point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1])) / side
        neck, ends = _named(a, b, point) if named else ("", ("", ""))
        arms = (foot, side - foot)
        yield OverShoulders(side_cm=side, point_cm=depth, aside_cm=abs(foot - side / 2), arms_cm=arms, neck=neck, ends=ends)


def _named(a: Point, b: Point, point: Point) -> tuple[str, tuple[str, str]]:
    """The side from a to b by name, and its two ends: by which way the point lies from it."""
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    if abs(b[0] - a[0]) > abs(b[1] - a[1]) and abs(b[1] - a[1]) < abs(point[1] - middle[1]):
        return "last row" if point[1] < middle[1] else "first row", ("edge A", "edge B") if a[0] < b[0] else ("edge B", "edge A")
    return "edge A" if point[0] > middle[0] else "edge B", ("first row", "last row") if a[1] < b[1] else ("last row", "first row")


def _across(p: Point, a: Point, b: Point) -> float:
    """How far a point lies from the line through two others (signed)."""
    return ((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) / math.dist(a, b)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ease:
    """A girth on a body: `ease_cm` what it is wider (negative: it must stretch), `percent` of the body's."""

    girth_cm: float
    body_cm: float

    @property
    def ease_cm(self) -> float:
        return self.girth_cm - self.body_cm

    @property
    def percent(self) -> float:
        return 100 * self.ease_cm / self.body_cm

    @property
    def negative(self) -> bool:
        """Whether it is worn stretched; hats usually are, by 5-10 % (common practice, no source)."""
        return self.ease_cm < 0


def is_worn_on(girth_cm: float, body_cm: float) -> bool:
    """Whether something of a girth can be worn on a body of another: no thumb goes round a hand, no cuff round a chest (a judgement)."""
    return body_cm > 0 and 0.4 < girth_cm / body_cm < 2.5
