"""The plane that rounds are laid in: circles, or polygons for motifs with corners, or something between for the round where one turns
into the other. A place is (phase, level): see `rounds`."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from .arcs import Point


@dataclass(slots=True)
class Frame:
    """`sides` 0 for round motifs; `start` the phase of corner 0; `blend` for each line 0 (round) to 1 (straight sides)."""

    sides: int
    start: float = 0.0
    blend: list[float] = field(default_factory=list)
    turned: float = 0.0

    @property
    def _half(self) -> float:
        """Half the angle of a side."""
        return math.pi / self.sides

    def set_phase(self, turns: Sequence[float], sides: Sequence[int], gaps: Sequence[float]) -> None:
        """Fix the corners where the first round with corners has them: the mean over its sides."""
        n = len(turns)
        shifts = []
        for i in range(n):
            if sides[i] < 0:
                shifts.append((turns[i], -1 - sides[i]))
            elif sides[(i + 1) % n] >= 0 and sides[i] != sides[(i + 1) % n]:
                after = turns[(i + 1) % n] + (2 * math.pi if i + 1 == n else 0.0)
                shifts.append(((turns[i] + after) / 2, sides[i]))
        if shifts:
            each = [turn - 2 * self._half * k for turn, k in shifts]
            first = each[0]
            self.start = first + sum(math.remainder(a - first, 2 * math.pi) for a in each) / len(each)

    def _normal(self, side: int) -> float:
        """Direction of the middle of a side. Side k lies between corner k − 1 and corner k."""
        return self.start + self._half * (2 * side - 1)

    def _side_at(self, phase: float) -> tuple[int, float]:
        """Side and place on it (−1 … 1) for a phase."""
        k = math.floor((phase - self.start) / (2 * self._half)) + 1
        return k, (phase - self._normal(k)) / self._half

    def at(self, phase: float, level: float, line: int) -> Point:
        """The point at a phase and level."""
        bend = self.blend[line] if self.blend else 0.0
        round_x, round_y = level * math.cos(phase), level * math.sin(phase)
        if not self.sides or bend == 0.0:
            return round_x, round_y
        k, q = self._side_at(phase)
        a = self._normal(k)
        u = level * math.tan(self._half) * q
        x, y = level * math.cos(a) - u * math.sin(a), level * math.sin(a) + u * math.cos(a)
        return round_x + (x - round_x) * bend, round_y + (y - round_y) * bend

    def level(self, point: Point, line: int, side: int) -> float:
        """The level of a point, seen from the side a post belongs to."""
        bend = self.blend[line]
        far = math.hypot(*point)
        if not self.sides or bend == 0.0:
            return far
        a = self._normal(side) if side >= 0 else math.atan2(point[1], point[0])
        flat = point[0] * math.cos(a) + point[1] * math.sin(a)
        if side < 0:
            flat *= math.cos(self._half)
        return far + (flat - far) * bend

    def phase_over(self, point: Point, level: float, line: int, side: int) -> float:
        """The phase straight out from a point, on a level: across the side for straight sides, along the ray for circles."""
        bend = self.blend[line]
        ray = math.atan2(point[1], point[0])
        if not self.sides or bend == 0.0:
            return ray
        if side < 0:
            return self.start + 2 * self._half * (-1 - side)
        a = self._normal(side)
        u = -point[0] * math.sin(a) + point[1] * math.cos(a)
        q = max(-0.999, min(0.999, u / (level * math.tan(self._half))))
        flat = a + q * self._half
        return flat + math.remainder(ray - flat, 2 * math.pi) * (1 - bend)

    def corner_beyond(self, p: Point, q: Point) -> float:
        """How far outside the straight line between two points the corner between them lies, mm; 0 when they are on one side."""
        if not self.sides:
            return 0.0
        (a, _), (b, _) = (self._side_at(math.atan2(y, x)) for x, y in (p, q))
        chord = math.dist(p, q)
        if (a - b) % self.sides not in (1, self.sides - 1) or chord < 1e-9:
            return 0.0
        first = a if (b - a) % self.sides == 1 else b
        ray = self.start + 2 * self._half * first
        level = max(x * math.cos(self._normal(k)) + y * math.sin(self._normal(k)) for (x, y), k in ((p, a), (q, b)))
        far = level / math.cos(self._half)
        x, y = far * math.cos(ray), far * math.sin(ray)
        return abs((q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0])) / chord

    def perimeter(self, level: float, line: int) -> float:
        """Length of the way round at a level."""
        bend = self.blend[line]
        circle = 2 * math.pi * level
        if not self.sides or bend == 0.0:
            return circle
        return circle + (2 * self.sides * level * math.tan(self._half) - circle) * bend

    def level_for(self, need: float, sides: Sequence[int], gaps: Sequence[float], line: int) -> float:
        """The least level that has room for a round: for straight sides, for its longest side."""
        bend = self.blend[line]
        circle = need / (2 * math.pi)
        if not self.sides or bend == 0.0 or not sides:
            return circle
        lengths: dict[int, float] = {}
        for side, gap in zip(sides, gaps, strict=True):
            lengths[max(side, 0)] = lengths.get(max(side, 0), 0.0) + gap
        flat = max(lengths.values()) / (2 * math.tan(self._half))
        return circle + (flat - circle) * bend

    def out(self, point: Point) -> Point:
        """Which way is outwards: across the side, along the ray near a corner."""
        x, y = point
        far = math.hypot(x, y)
        if far < 1e-9:
            return 0.0, -1.0
        if not self.sides or max(self.blend, default=0.0) < 1.0:
            return x / far, y / far
        k, q = self._side_at(math.atan2(y, x) - self.turned)
        if abs(q) > 0.8:
            return x / far, y / far
        a = self._normal(k) + self.turned
        return math.cos(a), math.sin(a)

    def upright(self) -> tuple[float, float]:
        """Cosine and sine of the turn that lays a side flat at the foot."""
        turn = min(
            (math.remainder(-math.pi / 2 - self._normal(k), 2 * math.pi) for k in range(self.sides)), key=lambda t: (round(abs(t), 6), t)
        )
        return math.cos(turn), math.sin(turn)
