"""Ink: what a symbol is made of. One list of strokes gives both the markup and the body that the overlap check measures.

Local frame of a symbol: millimetres, x to the right, y down, the foot at the origin and the stem going up (negative y).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TypeAlias

from .svg import element, move, num

WEIGHT_MM = 0.28
"""Line weight at print size: a 0.8 pt rule, the weight of a good magazine chart (common practice, no source)."""

Capsule: TypeAlias = tuple[float, float, float, float, float]
"""A thick line: x1, y1, x2, y2, half its thickness."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A symbol's markup (strokes only: it takes the colour of its group) and its body as capsules."""

    markup: str
    body: tuple[Capsule, ...]


@dataclass(slots=True)
class Ink:
    """Collects the strokes of one symbol."""

    d: str = ""
    extra: list[str] = field(default_factory=list)
    body: list[Capsule] = field(default_factory=list)

    def line(self, x1: float, y1: float, x2: float, y2: float) -> Ink:
        self.d += move("M", x1, y1, "L", x2, y2)
        self.body.append((x1, y1, x2, y2, WEIGHT_MM / 2))
        return self

    def curve(self, start: tuple[float, float], c1: tuple[float, float], c2: tuple[float, float], end: tuple[float, float]) -> Ink:
        """A cubic curve; its body is eight short lines."""
        self.d += move("M", *start, "C", *c1, *c2, *end)
        return self._follow([_bezier(start, c1, c2, end, t / 8) for t in range(9)])

    def arc(self, cx: float, cy: float, r: float, from_deg: float, to_deg: float) -> Ink:
        """A piece of a circle, angles clockwise from the right; less than a full turn."""
        corners = [_on_circle(cx, cy, r, from_deg + (to_deg - from_deg) * t / 6) for t in range(7)]
        large = 1 if abs(to_deg - from_deg) > 180 else 0
        sweep = 1 if to_deg > from_deg else 0
        (x1, y1), (x2, y2) = corners[0], corners[-1]
        self.d += move("M", x1, y1, "A", r, r) + f" 0 {large} {sweep} {num(x2)} {num(y2)}"
        return self._follow(corners)

    def oval(self, cx: float, cy: float, rx: float, ry: float, *, angle_deg: float = 0.0) -> Ink:
        """A hollow oval: a chain, a cap."""
        turn = f"rotate({num(angle_deg)} {num(cx)} {num(cy)})" if angle_deg else None
        self.extra.append(element("ellipse", cx=cx, cy=cy, rx=rx, ry=ry, transform=turn))
        a, b = max(rx, ry), min(rx, ry)
        tilt = math.radians(angle_deg + (0 if rx >= ry else 90))
        dx, dy = (a - b) * math.cos(tilt), (a - b) * math.sin(tilt)
        self.body.append((cx - dx, cy - dy, cx + dx, cy + dy, b + WEIGHT_MM / 2))
        return self

    def dot(self, x: float, y: float, width: float, *, length: float = 0.0) -> Ink:
        """A filled dot, or a filled lying oval of `length` more: a thick round-ended line, so that it takes the stroke's colour."""
        half = length / 2
        self.extra.append(element("path", d=move("M", x - half, y, "H", x + half), stroke_width=width, stroke_linecap="round"))
        self.body.append((x - half, y, x + half, y, width / 2))
        return self

    def word(self, words: str, y: float, size_mm: float) -> Ink:
        """Small letters, for stitches that have no symbol of their own."""
        from .svg import text

        self.extra.append(text(0, y, words, size_mm=size_mm, anchor="middle", fill="#1a1a1a", stroke="none"))
        return self

    def _follow(self, corners: list[tuple[float, float]]) -> Ink:
        for (x1, y1), (x2, y2) in pairwise(corners):
            self.body.append((x1, y1, x2, y2, WEIGHT_MM / 2))
        return self

    def shape(self) -> Shape:
        drawn = [element("path", d=self.d)] if self.d else []
        return Shape("".join([*drawn, *self.extra]), tuple(self.body))


def _bezier(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float], t: float
) -> tuple[float, float]:
    s = 1 - t
    return (
        s**3 * a[0] + 3 * s * s * t * b[0] + 3 * s * t * t * c[0] + t**3 * d[0],
        s**3 * a[1] + 3 * s * s * t * b[1] + 3 * s * t * t * c[1] + t**3 * d[1],
    )


def _on_circle(cx: float, cy: float, r: float, deg: float) -> tuple[float, float]:
    return cx + r * math.cos(math.radians(deg)), cy + r * math.sin(math.radians(deg))


def box_of_ink(body: list[Capsule]) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a mark's ink."""
    xs = [v for a, _, b, _, r in body for v in (a - r, a + r, b - r, b + r)]
    ys = [v for _, a, _, b, r in body for v in (a - r, a + r, b - r, b + r)]
    return min(xs), min(ys), max(xs), max(ys)


def placed(body: Iterable[Capsule], x: float, y: float, angle_deg: float) -> list[Capsule]:
    """A body moved to (x, y) and turned clockwise."""
    c, s = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    return [(x + a * c - b * s, y + a * s + b * c, x + d * c - e * s, y + d * s + e * c, r) for a, b, d, e, r in body]
