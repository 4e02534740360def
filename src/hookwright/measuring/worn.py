"""How a flat piece hangs when worn: a strip round a neck with both ends hanging, a triangle over the shoulders. Ease on a body."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from .outline import Point, polygon_area

NECK_ARC_CM: Final = 24.0
"""What a scarf takes round the back and sides of a neck: about two thirds of a 36-38 cm neck (from memory)."""


LEAST_DROP_CM: Final = 12.0
LEAST_WIDTH_CM: Final = 5.0
"""Shorter and narrower strips are straps and bands, and nobody hangs them round a neck (a judgement, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HangingEnd:
    """One end of a strip. `ahead_cm`: by how much the corner at edge A hangs below that at edge B (negative: B's hangs lower), looked
    at a tenth of the width from each edge; `slant_deg` the slant of the end from the rows."""

    end: str
    drop_cm: float
    ahead_cm: float
    slant_deg: float

    @property
    def leading(self) -> str:
        """The edge whose corner hangs lowest ("A", "B"), or "" when the end is straight."""
        return "" if abs(self.ahead_cm) < 0.5 else "A" if self.ahead_cm > 0 else "B"


def hang_strip(outline: Sequence[Point], *, neck_cm: float = NECK_ARC_CM) -> tuple[HangingEnd, HangingEnd] | None:
    """The two ends of a long piece hung round a neck, folded at its middle: that of its first row, then that of its last.

    `outline` as (u, v) from edge A to edge B. None for a piece less than three times as long as wide, too short to hang below a neck, or
    too narrow to be worn (a strap, a cord).
    """
    if len(outline) < 3:
        return None
    us, vs = [u for u, _ in outline], [v for _, v in outline]
    length, width = max(vs) - min(vs), max(us) - min(us)
    if length < 3 * width or length < neck_cm + 2 * LEAST_DROP_CM or width < LEAST_WIDTH_CM:
        return None
    middle = (max(vs) + min(vs)) / 2
    drop = (length - neck_cm) / 2
    ends = []
    for name, side in (("first row", -1), ("last row", 1)):
        a, b = (_reach(outline, us, edge, middle, side) for edge in ("A", "B"))
        ends.append(HangingEnd(end=name, drop_cm=drop, ahead_cm=a - b, slant_deg=round(math.degrees(math.atan2(a - b, 0.8 * width)), 1)))
    return ends[0], ends[1]


def _reach(outline: Sequence[Point], us: Sequence[float], edge: str, middle: float, side: int) -> float:
    """How far from the middle of the length the outline still lies within a tenth of its width from that edge."""
    low, high = min(us), max(us)
    near = 0.1 * (high - low)
    rim = low + near if edge == "A" else high - near
    reach = 0.0
    for (u0, v0), (u1, v1) in zip(outline, [*outline[1:], outline[0]], strict=True):
        for u, v in ((u0, v0), (u1, v1)):
            if (u <= rim if edge == "A" else u >= rim) and (v - middle) * side > 0:
                reach = max(reach, abs(v - middle))
        if (u0 - rim) * (u1 - rim) < 0:
            v = v0 + (v1 - v0) * (rim - u0) / (u1 - u0)
            if (v - middle) * side > 0:
                reach = max(reach, abs(v - middle))
    return reach


@dataclass(frozen=True, slots=True, kw_only=True)
class OverShoulders:
    """A piece worn with its longest side along the neck. `point_cm`: how far its point reaches below that side; `aside_cm`: how far the
    point hangs from the middle of the side, towards its end `towards` (an outline corner, cm); a symmetrical triangle has 0."""

    side_cm: float
    point_cm: float
    aside_cm: float
    arms_cm: tuple[float, float]
    """From the point's foot on the long side to its two ends."""

    @property
    def leans(self) -> bool:
        """Whether one end hangs visibly longer than the other."""
        return self.aside_cm > 0.05 * self.side_cm


def over_shoulders(outline: Sequence[Point]) -> OverShoulders | None:
    """How a three-cornered piece hangs; None when a triangle on its longest side fills less than 85 % of it or it has no area."""
    area = abs(polygon_area(outline)) if len(outline) >= 3 else 0.0
    if area <= 0:
        return None
    a, b = max(((p, q) for i, p in enumerate(outline) for q in outline[i + 1 :]), key=lambda pair: math.dist(*pair))
    side = math.dist(a, b)
    along = ((b[0] - a[0]) / side, (b[1] - a[1]) / side)
    point = max(outline, key=lambda p: abs(_across(p, a, along)))
    depth = abs(_across(point, a, along))
    share = side * depth / 2 / area
    if not 0.87 < share < 1.15:
        return None
    foot = (point[0] - a[0]) * along[0] + (point[1] - a[1]) * along[1]
    return OverShoulders(side_cm=side, point_cm=depth, aside_cm=abs(foot - side / 2), arms_cm=(foot, side - foot))


def _across(p: Point, a: Point, along: tuple[float, float]) -> float:
    return (p[0] - a[0]) * along[1] - (p[1] - a[1]) * along[0]


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
