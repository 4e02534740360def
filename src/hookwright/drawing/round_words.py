"""Words and signs round a motif: the number where each round begins, which way it runs, one repeat of it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..working.fabric import Role
from .arcs import Point
from .clear import SIGNS, ClearSpace
from .cloth import Line
from .labels import text_width
from .marks import Chart, Label, Stroke
from .placed import Placed
from .svg import move

if TYPE_CHECKING:
    from .furniture import Sides

NUMBER_MM = 2.3
SMALLEST_MM = 1.9
ARROW_MM = 9.0
"""Length of the arrow that shows which way the rounds run."""
HEAD_MM = 0.6
"""Half the width of an arrow's head, and a little more."""
TURN_ARROW_MM = 1.7
"""The same under the number of each round, where they are turned."""
AWAY_MM = 1.8
"""How far outside the ink a bracket or arrow stands."""
FEWEST_REPEATS = 3
BACK_MM = (0.0, 0.5, 1.0, 1.6, 2.4, 3.4, 4.6, 6.0, 7.6, 9.4, 11.4, 13.6, 16.0)
"""How much further back than right beside its round's beginning a number may stand."""
LIFT_MM = (0.0, *(sign * k * 0.4 for k in range(1, 11) for sign in (1, -1)))
"""How much further out or in."""
OFF_ITS_ROUND = 9.0
"""How many millimetres further back a number stands rather than a millimetre outside its own round."""


class RoundWords:
    """Writes what stands round a motif, in places clear of its ink."""

    def __init__(self, chart: Chart, placed: Placed, side: Sides) -> None:
        self.chart, self.placed, self.side = chart, placed, side
        self.room = ClearSpace(chart)
        self.rounds = [line for line in placed.lines if line.posts and not line.foundation and not line.elsewhere]
        self.turned = len({line.rightwards for line in self.rounds}) > 1

    def numbers(self) -> None:
        """The number of every round."""
        for line in self.rounds:
            self.number(line)

    def outside(self) -> None:
        """What stands outside all the rest: the arrow, and a bracket over one repeat."""
        if not self.rounds:
            return
        reach = self._reaches()
        if not self.turned and len(self.rounds) > 1:
            self.way_round(reach)
        self.repeat(reach)

    def number(self, line: Line) -> None:
        """The number beside the beginning of its round, in the seam where there is room; with an arrow when the rounds are turned."""
        i, first = line.index, line.posts[0]
        top, feet = self.placed.top[i][first], self.placed.feet[i].get(first)
        if top is None or not feet:
            return
        middle = ((top[0] + feet[0][0]) / 2, (top[1] + feet[0][1]) / 2)
        label = self.room.best(self._tries(line, middle, math.dist(top, feet[0]) / 2), TURN_ARROW_MM if self.turned else 0.0)
        self.chart.labels.append(label)
        if self.turned:
            self._turned_arrow(line, label)

    def _tries(self, line: Line, middle: Point, half: float) -> Iterator[tuple[float, Label]]:
        """Places for a number: backwards from the round's first stitch, then inwards and outwards, then smaller, its letter close.

        `half`: how far the round reaches in and out from `middle`; beyond that a number would be taken for the next round's.
        """
        ox, oy = self.placed.out(middle)
        way = 1.0 if not line.rightwards else -1.0
        bx, by = oy * way, -ox * way
        words = self.side.words_of(line)
        beside = line.posts[0] in line.stacks and line.roles[line.posts[0]] != Role.START_TOP
        nearest = 2.2 + (1.3 if beside else 0.0) + 0.55 * NUMBER_MM * 0.5 * (len(words) - 1) * abs(bx)
        sizes = [(words, size) for words in dict.fromkeys((words, words.replace(" ", ""))) for size in (NUMBER_MM, SMALLEST_MM)]
        off = [0.8 * abs(lift) + OFF_ITS_ROUND * max(abs(lift) - half, 0.0) for lift in LIFT_MM]
        places = sorted((back + off[j] + 2.0 * k, k, back, j) for k in range(len(sizes)) for back in BACK_MM for j in range(len(off)))
        for cost, k, back, j in places:
            (said, size), far, lift = sizes[k], nearest + back, LIFT_MM[j]
            x, y = self.side.paper((middle[0] + bx * far + ox * lift, middle[1] + by * far + oy * lift))
            yield cost, Label(said, round(x, 2), round(y + size * 0.35, 2), size, "middle", "row", line.row.index)

    def _turned_arrow(self, line: Line, label: Label) -> None:
        """A short arrow under a number: the way this round runs."""
        p = (-label.x if self.side.mirrored else label.x, -label.y)
        ox, oy = self.placed.out(p)
        way = 1.0 if not line.rightwards else -1.0
        ux, uy = -oy * way, ox * way
        ux = -ux if self.side.mirrored else ux
        half = TURN_ARROW_MM / 2
        x, y = label.x, label.y + half + 0.1
        self._straight_arrow((x - ux * half, y + uy * half), (x + ux * half, y - uy * half))

    def _straight_arrow(self, a: Point, b: Point) -> None:
        turn = math.atan2(b[1] - a[1], b[0] - a[0])
        d = move("M", *a, "L", *b) + self._head(b, turn)
        self.chart.strokes.append(Stroke(d, "arrow", weight_mm=0.25))

    def _head(self, tip: Point, turn: float) -> str:
        left = (tip[0] - 0.95 * math.cos(turn - 0.55), tip[1] - 0.95 * math.sin(turn - 0.55))
        right = (tip[0] - 0.95 * math.cos(turn + 0.55), tip[1] - 0.95 * math.sin(turn + 0.55))
        return move("M", *left, "L", *tip, "L", *right)

    def _reaches(self) -> list[float]:
        """How far out the ink goes, for every degree (paper's angles, clockwise from the right)."""
        reach = [0.0] * 360
        signs = (stroke.box for stroke in self.chart.strokes if stroke.box is not None and stroke.what in SIGNS)
        for body in (*self.chart.bodies(), *([(a, b, c, d, 0.0), (a, d, c, b, 0.0)] for a, b, c, d in signs)):
            for x1, y1, x2, y2, r in body:
                for x, y in ((x1, y1), (x2, y2)):
                    far = math.hypot(x, y)
                    if far < 1e-6:
                        continue
                    wide = max(1, math.ceil(math.degrees((r + 0.3) / far)))
                    at = round(math.degrees(math.atan2(y, x)))
                    for degree in range(at - min(wide, 180), at + min(wide, 180) + 1):
                        reach[degree % 360] = max(reach[degree % 360], far + r)
        return reach

    def way_round(self, reach: list[float]) -> None:
        """One curved arrow outside the beginning of the last round."""
        line = self.rounds[-1]
        top = self.placed.top[line.index][line.posts[0]]
        if top is None:
            return
        x, y = self.side.paper(top)
        way = self._paper_way(line)
        begin = math.degrees(math.atan2(y, x))
        span = math.degrees(ARROW_MM / max(math.hypot(x, y) + AWAY_MM, 6.0))
        start = begin + way * 3
        if self.chart.ghosts:  # further back along the round rather than far outside another piece
            tries = [begin + way * (3 + aside) for aside in (0.0, -span - 6, -2 * span - 6, span, 2 * span)]
            start = min((self._clear_of(reach, at, at + way * span) + k, at) for k, at in enumerate(tries))[1]
        far = self._clear_of(reach, start, start + way * span)
        a, b = _at(start, far), _at(start + way * span, far)
        d = move("M", *a, "A", far, far) + f" 0 0 {1 if way > 0 else 0} " + move("", *b).strip()
        d += self._head(b, math.radians(start + way * span + way * (90 - 4)))
        bow = [_at(start + way * span * t / 6, far) for t in range(7)]
        ends = [(x + side * HEAD_MM, y + side * HEAD_MM) for x, y in (a, b) for side in (-1, 1)]
        self.chart.strokes.append(Stroke(d, "arrow", weight_mm=0.25, box=_box_of(bow + ends)))

    def _paper_way(self, line: Line) -> float:
        """+1: with the clock on paper."""
        return (1.0 if line.rightwards else -1.0) * (-1.0 if self.side.mirrored else 1.0)

    def _clear_of(self, reach: list[float], a: float, b: float) -> float:
        low, high = sorted((math.floor(a), math.ceil(b)) if a <= b else (math.floor(b), math.ceil(a)))
        return max(reach[d % 360] for d in range(low, high + 1)) + AWAY_MM

    def repeat(self, reach: list[float]) -> None:
        """A bracket outside one repeat of the motif, the one opposite its seam, and how many there are."""
        line, k = self.rounds[-1], self.placed.repeats
        n = len(line.posts)
        if k < FEWEST_REPEATS or n % k or n // k < 2:
            return
        step = n // k
        first = step * (k // 2)
        ends = [self._gap_after(line, (first - 1) % n), self._gap_after(line, first + step - 1)]
        if ends[0] is None or ends[1] is None:
            return
        way = self._paper_way(line)
        a, b = ends[0] + way * 1.0, ends[1] - way * 1.0
        b = a + way * ((way * (b - a)) % 360)
        if abs(b - a) < 3:
            return
        far = self._clear_of(reach, a, b)
        inner = far - 1.2
        d = move("M", *_at(a, inner), "L", *_at(a, far), "A", far, far)
        d += f" 0 {1 if abs(b - a) > 180 else 0} {1 if way > 0 else 0} " + move("", *_at(b, far)).strip() + move("L", *_at(b, inner))
        bow = [_at(a + (b - a) * t / 12, far) for t in range(13)]
        self.chart.strokes.append(Stroke(d, "repeat", weight_mm=0.25, box=_box_of(bow)))
        middle = (a + b) / 2
        words = f"1 of {k} repeats"
        c, s = math.cos(math.radians(middle)), math.sin(math.radians(middle))
        # Its box stands wholly beyond the tangent there, and so beyond the whole bow.
        beyond = abs(c) * text_width(words, NUMBER_MM) / 2 + abs(s) * NUMBER_MM / 2
        x, y = _at(middle, far + 0.9 + beyond)
        self.side.label(words, x, y + NUMBER_MM * 0.35, "middle", None, NUMBER_MM)

    def _gap_after(self, line: Line, j: int) -> float | None:
        """The direction (degrees on paper) halfway between a post and the next."""
        n = len(line.posts)
        a, b = (self.placed.top[line.index][line.posts[k % n]] for k in (j, j + 1))
        if a is None or b is None:
            return None
        (ax, ay), (bx, by) = self.side.paper(a), self.side.paper(b)
        one, other = math.atan2(ay, ax), math.atan2(by, bx)
        return math.degrees(one + math.remainder(other - one, 2 * math.pi) / 2)


def _box_of(points: list[Point]) -> tuple[float, float, float, float]:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _at(degrees: float, far: float) -> Point:
    return far * math.cos(math.radians(degrees)), far * math.sin(math.radians(degrees))
