"""Ovals: rounds worked along both sides of a foundation chain. The chain lies straight in the middle, rounds run round it like a track.

A place is (phase, level) as in `frame`: the level is the distance from the chain, the phase the share of the way round, counted from the
middle of the right-hand end against the clock.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from .arcs import Point
from .cloth import Line
from .frame import Frame
from .symbols import CHAIN_HALF_MM

COVERED = 0.6
"""Share of the chain that must be worked into from both sides."""


def oval_sides(lines: Sequence[Line]) -> list[int] | None:
    """For the first row over a foundation chain worked round both its sides: +1 above, −1 below, 0 at an end, for each of its posts.

    None when the part is no oval.
    """
    if len(lines) < 2 or not lines[0].foundation or len(lines[0]) < 4:
        return None
    first = lines[1]
    at = [line_feet[0].at if (line_feet := first.feet[post]) and line_feet[0].line == 0 else None for post in first.posts]
    places = [a for a in at if a is not None]
    if len(places) < len(at) or not places:
        return None
    turn = places.index(min(places))
    there, back = set(places[: turn + 1]), set(places[turn:])
    n = len(lines[0])
    if len(there & back) < COVERED * n or places[: turn + 1] != sorted(places[: turn + 1], reverse=True):
        return None
    low, high = min(places), max(places)
    return [0 if a in (low, high) else (1 if i < turn else -1) for i, a in enumerate(places)]


@dataclass(slots=True)
class Stadium(Frame):
    """Half circles at the ends, straight sides of 2 `half` mm between them."""

    half: float = 0.0

    def _quarter(self, level: float) -> float:
        return math.pi * level / 2

    def perimeter(self, level: float, line: int) -> float:
        return 4 * self.half + 2 * math.pi * level

    def at(self, phase: float, level: float, line: int) -> Point:
        whole = self.perimeter(level, line)
        s = (phase / (2 * math.pi) % 1.0) * whole
        quarter, side = self._quarter(level), 2 * self.half
        if s < quarter:
            return self._end(s / level, level, self.half)
        if s < quarter + side:
            return self.half - (s - quarter), level
        if s < 3 * quarter + side:
            return self._end(math.pi / 2 + (s - quarter - side) / level, level, -self.half)
        if s < 3 * quarter + 2 * side:
            return -self.half + (s - 3 * quarter - side), -level
        return self._end(-math.pi / 2 + (s - 3 * quarter - 2 * side) / level, level, self.half)

    def _end(self, turn: float, level: float, centre: float) -> Point:
        return centre + level * math.cos(turn), level * math.sin(turn)

    def level(self, point: Point, line: int, side: int) -> float:
        return math.hypot(max(abs(point[0]) - self.half, 0.0), point[1])

    def phase_over(self, point: Point, level: float, line: int, side: int) -> float:
        x, y = point
        quarter, straight = self._quarter(level), 2 * self.half
        if x > self.half:
            turn = math.atan2(y, x - self.half)
            s = turn * level
        elif x < -self.half:
            turn = math.atan2(y, x + self.half) % (2 * math.pi)
            s = quarter + straight + (turn - math.pi / 2) * level
        elif y > 0:
            s = quarter + self.half - x
        else:
            s = 3 * quarter + straight + x + self.half
        return s / self.perimeter(level, line) * 2 * math.pi

    def level_for(self, need: float, sides: Sequence[int], gaps: Sequence[float], line: int) -> float:
        return max((need - 4 * self.half) / (2 * math.pi), 0.0)

    def even_ends(self, phases: list[float], gaps: Sequence[float], level: float, pitch: float) -> list[float]:
        """Phases of a round with what stands round either end spread evenly (in shares of `gaps`) between the stitches of the straight
        sides."""
        n, whole, out = len(phases), 2 * math.pi, list(phases)
        at_end = [abs(self.at(phase, level, 0)[0]) > self.half - pitch / 2 for phase in phases]
        starts = [k for k in range(n) if at_end[k] and not at_end[k - 1]]
        for first in starts:
            many = next(m for m in range(1, n + 1) if not at_end[(first + m) % n])
            a = phases[first - 1]
            way = (phases[(first + many) % n] - a) % whole
            needs = [gaps[(first - 1 + m) % n] for m in range(many + 1)]
            for m in range(many):
                k = (first + m) % n
                even = a + way * sum(needs[: m + 1]) / sum(needs)
                out[k] = phases[k] + math.remainder(even - phases[k], whole)
        return out

    def out(self, point: Point) -> Point:
        x, y = point
        beyond = max(abs(x) - self.half, 0.0) * (1 if x > 0 else -1)
        far = math.hypot(beyond, y)
        return (beyond / far, y / far) if far > 1e-9 else (0.0, 1.0)

    def foot_on_chain(self, x: float, side: int, end: int) -> Point:
        """Where a stitch stands on the chain: above it, below it, or round its end (`end` +1 right, −1 left)."""
        if side:
            return x, side * CHAIN_HALF_MM
        return (self.half + 0.9 if end > 0 else -self.half - 0.9), 0.0
