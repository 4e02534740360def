"""What stands round the symbols: row numbers with their arrows, where the work starts and ends, breaks, repeats, the key; and the box."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from ..pattern import Colour, FastenOff, Step
from ..working.fabric import PartWork
from .arcs import Point
from .breaks import Breaks, ink_box
from .clear import ClearSpace
from .cloth import Line
from .fan import LONGEST_HEART, start_of_row
from .key import add_key
from .labels import text_width
from .marks import Chart, Label, Stroke
from .placed import Placed
from .round_words import RoundWords
from .svg import move

LABEL_MM = 2.6
SMALL_MM = 2.3
MARGIN_MM = 3.0
FURTHEST_OUT = 120
"""Millimetres that a row's number moves out at most."""
MOST_BACK = 16
"""Steps of 0.8 mm that a number moves back from where its row begins."""
STRIP_MM = 2.0
SIDE_WORD_MM = 2.0
"""Size of the letters that tell which side of the fabric a row shows."""
SIGN_MM = 1.05
"""Half the room a triangle takes."""


def furnish(chart: Chart, placed: Placed, part: PartWork, *, key: bool) -> None:
    """Add numbers, arrows, breaks and the key, and measure the box."""
    side = Sides(chart, placed)
    if placed.form == "fan":
        for line in placed.lines:
            side.number_fan_row(line)
        side.start_of_arc()
    elif placed.form == "blocks":
        for line in placed.lines:
            side.number_blocks(line)
        side.start_of_rows()
    elif placed.form == "rows":
        for line in placed.lines:
            side.number_row(line)
        side.start_of_rows()
        Breaks(side).cut_marks()
        side.repeat()
    else:
        side.ring()
    side.joins()
    Breaks(side).write()
    words = RoundWords(chart, placed, side) if placed.form == "round" else None
    if words is not None:
        words.numbers()
    side.ends()
    if words is not None:
        words.outside()
    box = ink_box(chart)
    if key:
        box = add_key(chart, box)
    x, y, width, height = box
    chart.box = (x - MARGIN_MM, y - MARGIN_MM, width + 2 * MARGIN_MM, height + 2 * MARGIN_MM)


class Sides:
    """Writes what belongs to single rows. Points are placed ones (y up); `paper` turns them into the picture's."""

    def __init__(self, chart: Chart, placed: Placed) -> None:
        self.chart, self.placed = chart, placed
        self.mirrored = chart.handed == "left"
        self.many_yarns = len([yarn for yarn in chart.yarns if yarn]) > 1
        self._room: ClearSpace | None = None
        self._reach: dict[int, tuple[float, float]] = {}
        self._widest: tuple[float, float] | None = None
        self._extents: dict[int, list[Point]] = {}

    def paper(self, p: Point) -> Point:
        return (-p[0] if self.mirrored else p[0]), -p[1]

    def words_of(self, line: Line) -> str:
        """The number of a row, with the letter of its yarn when there are several."""
        row = line.row
        number = str(row.number) if row.number is not None else row.label
        made = row.stitches
        inks = dict.fromkeys(self.chart.yarn_numbers[made.colours[made.colour[e]]] for e in line.posts)
        yarns = "/".join(self.chart.letters[yarn] for yarn in inks if self.chart.letters[yarn])
        return f"{number} {yarns}" if self.many_yarns and yarns and len(inks) <= 3 else number

    def number_row(self, line: Line) -> None:
        """The number on the side where the row begins, an arrow pointing the way it is worked."""
        points = self._points(line)
        if not points or line.foundation or line.elsewhere:
            return
        if line.index in self.placed.edging:
            self._number_edging(line)
            return
        way = 1.0 if line.rightwards else -1.0
        beside = sorted(self.placed.edging) + ([0] if line.index == 1 and self.placed.lines[0].elsewhere else [])
        for e in beside:
            points = points + self._points(self.placed.lines[e])
        edge = min(p[0] for p in points) if way > 0 else max(p[0] for p in points)
        first = line.posts[0] if line.posts else 0
        y = self._middle(line, first, points)
        x, py = self.paper((edge - way * 2.0, y))
        ahead = -way if self.mirrored else way
        words, seen = self.words_of(line), self.side_told(line)
        long = text_width(words, LABEL_MM)
        x = self._clear(x, py, ahead, 4.2 + long + (0.7 + text_width(seen, SIDE_WORD_MM) if seen else 0.0))
        self.arrow(x - ahead * 3.2, py, x, py)
        anchor = "end" if ahead > 0 else "start"
        self.label(words, x - ahead * 4.2, py + LABEL_MM * 0.35, anchor, line.row.index)
        if seen:
            self._side_word(seen, x - ahead * (4.9 + long), py, anchor)

    def side_told(self, line: Line) -> str:
        """ "RS" or "WS" beside the first row, and beside every row that does not lie the other way than the one before it."""
        worked = [each for each in self.placed.lines if each.posts and not each.foundation and not each.elsewhere]
        turned = len({each.row.side for each in worked}) > 1
        if not turned or line not in worked or line.index in self.placed.edging:
            return ""
        k = worked.index(line)
        return line.row.side if k == 0 or (worked[k - 1].row.side == line.row.side and line.breaks == worked[k - 1].breaks) else ""

    def _side_word(self, words: str, x: float, y: float, anchor: str) -> None:
        self.chart.labels.append(Label(words, round(x, 2), round(y + SIDE_WORD_MM * 0.35, 2), SIDE_WORD_MM, anchor, "side"))

    def _clear(self, x: float, y: float, ahead: float, long: float) -> float:
        """x of an arrow's tip, further out where something lies beside the row: another piece, stitches that reach past a short row."""
        if self._room is None and not self.chart.ghosts and self._outside(x, y, ahead):
            return x
        room = self._space()
        for k in range(FURTHEST_OUT):
            a, b = sorted((x - k * ahead + 0.5 * ahead, x - k * ahead - long * ahead))
            if not room.strokes_in((a, y - 1.2, b, y + 1.2)):
                room.take((a, y - 1.2, b, y + 1.2))
                return x - k * ahead
        return x

    def _outside(self, x: float, y: float, ahead: float) -> bool:
        """Whether an arrow's tip lies beyond everything that is drawn at its height, on its side."""
        if self._widest is None:
            xs = [p[0] for line in self.placed.lines for p in self._points(line)]
            ends = self.paper((min(xs), 0.0))[0], self.paper((max(xs), 0.0))[0]
            self._widest = min(ends), max(ends)
        if x < self._widest[0] - 0.4 if ahead > 0 else x > self._widest[1] + 0.4:
            return True
        if not self._reach:
            self._measure_reach()
        here = [self._reach[k] for k in range(round(y / STRIP_MM) - 1, round(y / STRIP_MM) + 2) if k in self._reach]
        return all(x < low - 0.4 if ahead > 0 else x > high + 0.4 for low, high in here)

    def _measure_reach(self) -> None:
        """How far to the left and right the symbols go, in strips across the paper."""
        reach = self._reach
        for line in self.placed.lines:
            i = line.index
            spans = [(p, p) for p in self._points(line)]
            spans += [(top, foot) for post, feet in self.placed.feet[i].items() if (top := self.placed.top[i][post]) for foot in feet]
            for one, other in spans:
                (ax, ay), (bx, by) = self.paper(one), self.paper(other)
                low, high = min(ax, bx), max(ax, bx)
                for k in range(round(min(ay, by) / STRIP_MM), round(max(ay, by) / STRIP_MM) + 1):
                    was = reach.get(k)
                    reach[k] = (low, high) if was is None else (min(was[0], low), max(was[1], high))

    def _space(self) -> ClearSpace:
        if self._room is None:
            self._room = ClearSpace(self.chart)
        return self._room

    def _number_edging(self, line: Line) -> None:
        """An edging's number stands before its first stitch, in the direction it comes from."""
        tops = [p for post in line.posts[:2] if (p := self.placed.top[line.index][post]) is not None]
        if not tops:
            return
        (x, y), (bx, by) = tops[0], tops[-1]
        far = math.hypot(bx - x, by - y) or 1.0
        ux, uy = ((bx - x) / far, (by - y) / far) if far > 0.1 else (0.0, -1.0)
        back = 2.4 + (2.6 if line.posts[0] in line.stacks else 0.0)
        words = self.words_of(line)
        ox, oy = self.placed.out((x, y))
        tries: list[tuple[float, Label]] = []
        for k in range(16):
            for lift in (0.0, 1.0, -1.0, 2.0, -2.0, 3.5, -3.5, 5.0, 7.0):
                at = back + k * 0.8
                lx, ly = self.paper((x - ux * at + ox * lift, y - uy * at + oy * lift))
                label = Label(words, round(lx, 2), round(ly + LABEL_MM * 0.35, 2), LABEL_MM, "middle", "row", line.row.index)
                tries.append((0.8 * k + abs(lift), label))
        self.chart.labels.append(self._space().best(sorted(tries)))

    def number_blocks(self, line: Line) -> None:
        """The same of a row of blocks: outside the piece, beside its first block."""
        begin = self.placed.begins.get(line.index)
        if begin is not None and not line.elsewhere:
            self._number_along(line, *begin)

    def number_fan_row(self, line: Line) -> None:
        """The same on an arc: number and arrow beside the beginning, along the row."""
        begin = start_of_row(self.placed, line) if line.posts and not line.foundation and not line.elsewhere else None
        if begin is not None:
            self._number_along(line, *begin)

    def start_of_arc(self) -> None:
        """An arrow at the first chain of a long foundation that lies on an arc."""
        line = self.placed.lines[0]
        ovals = self.placed.ovals[0]
        if not line.foundation or len(line) <= LONGEST_HEART or 0 not in ovals or 1 not in ovals:
            return
        (ax, ay), (bx, by) = ((ovals[e].x, ovals[e].y) for e in (0, 1))
        far = math.dist((ax, ay), (bx, by)) or 1.0
        ux, uy = (bx - ax) / far, (by - ay) / far
        self._number_along(line, (ax - ux * ovals[0].length / 2, ay - uy * ovals[0].length / 2), (ux, uy), "start")

    def _number_along(self, line: Line, at: Point, way: Point, words: str = "") -> None:
        """An arrow up to a point, in a direction, and the row's number (or other words) behind it."""
        (x, y), (ux, uy) = at, way
        tip, tail = self.paper((x - ux * 0.9, y - uy * 0.9)), self.paper((x - ux * 3.9, y - uy * 3.9))
        turn = math.atan2(tip[1] - tail[1], tip[0] - tail[0])
        head = [(tip[0] - 0.95 * math.cos(turn + side), tip[1] - 0.95 * math.sin(turn + side)) for side in (-0.55, 0.55)]
        d = move("M", *tail, "L", *tip, "M", *head[0], "L", *tip, "L", *head[1])
        self.chart.strokes.append(Stroke(d, "arrow", weight_mm=0.25))
        if not words:
            wide = text_width(self.words_of(line), LABEL_MM) / 2
            behind = max(5.6, 4.3 + abs(ux) * wide + abs(uy) * LABEL_MM * 0.4)
        else:
            behind = 4.4 + text_width(words, SMALL_MM) / 2
        lx, ly = self.paper((x - ux * behind, y - uy * behind))
        if words:
            self.label(words, lx, ly + SMALL_MM * 0.35, "middle", None, SMALL_MM)
            return
        said, seen = self.words_of(line), self.side_told(line)
        tries: list[tuple[float, Label]] = []
        for k in range(MOST_BACK):
            back = behind + 0.8 * k
            lx, ly = self.paper((x - ux * back, y - uy * back))
            tries.append((0.8 * k, Label(said, round(lx, 2), round(ly + LABEL_MM * 0.35, 2), LABEL_MM, "middle", "row", line.row.index)))
        found = self._space().best(tries, SIDE_WORD_MM + 0.3 if seen else 0.0)
        self.chart.labels.append(found)
        if seen:
            self._side_word(seen, found.x, found.y + 0.4 + SIDE_WORD_MM * 0.65, "middle")

    def _middle(self, line: Line, first: int, points: list[Point]) -> float:
        top, feet = self.placed.top[line.index][first], self.placed.feet[line.index].get(first)
        if top is None:
            return points[0][1]
        return (top[1] + feet[0][1]) / 2 if feet else top[1]

    def _points(self, line: Line) -> list[Point]:
        if line.index not in self._extents:
            self._extents[line.index] = list(self.extent(line))
        return self._extents[line.index]

    def extent(self, line: Line) -> Iterator[Point]:
        i = line.index
        for point in self.placed.top[i]:
            if point is not None:
                yield (point[0] - 1.0, point[1])
                yield (point[0] + 1.0, point[1])
        for oval in self.placed.ovals[i].values():
            yield (oval.x - 0.8, oval.y)
            yield (oval.x + 0.8, oval.y)
        for x, y in self.placed.dots[i].values():
            yield (x - 0.6, y)
            yield (x + 0.6, y)

    def start_of_rows(self) -> None:
        """An arrow at the first chain."""
        if not self.placed.lines or self.placed.lines[0].elsewhere:
            return
        if not self.placed.lines[0].foundation or 0 not in self.placed.ovals[0]:
            return
        ovals = self.placed.ovals[0]
        last = max(ovals)
        oval = ovals[0]
        way = 1.0 if last == 0 or ovals[last].x >= oval.x else -1.0
        x, y = self.paper((oval.x - way * 2.4, oval.y))
        ahead = -way if self.mirrored else way
        if self.placed.border is not None:
            x = self._clear(x, y, ahead, 4.2 + text_width("start", SMALL_MM))
        self.arrow(x - ahead * 3.2, y, x, y)
        self.label("start", x - ahead * 4.2, y + SMALL_MM * 0.35, "end" if ahead > 0 else "start", None, SMALL_MM)

    def repeat(self) -> None:
        """A bracket under one repeat, the second, of the lowest row that has three and more."""
        for line in self.placed.lines:
            marks = line.row.stitches.repeat
            edges = [self._edge(line, k) for k in (1, 2)]
            if (
                line.posts
                and not line.elsewhere
                and max(marks, default=0) >= 3
                and edges[0] is not None
                and edges[1] is not None
                and self._alike(line)
            ):
                self._bracket(edges[0], edges[1], self._repeat_words(line))
                return

    def _alike(self, line: Line) -> bool:
        """Whether the first two repeats hold the same stitches: what is repeated up to a marker or a corner is not equally long."""
        stitches = line.row.stitches
        first, second = ([stitches.kind[i] for i, mark in enumerate(stitches.repeat) if mark == k] for k in (1, 2))
        return first == second

    def _edge(self, line: Line, k: int) -> float | None:
        """x halfway between the last post of repeat k and the first of the next."""
        marks, tops = line.row.stitches.repeat, self.placed.top[line.index]
        before = [p for p in line.posts if marks[p] == k]
        after = [p for p in line.posts if marks[p] == k + 1]
        if len(before) < 2 or not after:
            return None
        a, b = tops[before[-1]], tops[after[0]]
        return (a[0] + b[0]) / 2 if a is not None and b is not None else None

    def _repeat_words(self, line: Line) -> str:
        """How many places of the row below one repeat goes over."""
        marks = line.row.stitches.repeat
        firsts = [next((f.at for p in line.posts if marks[p] == k for f in line.feet[p]), None) for k in (2, 3)]
        if firsts[0] is None or firsts[1] is None or firsts[0] == firsts[1]:
            return "repeat"
        return f"repeat over {abs(firsts[1] - firsts[0])}"

    def _bracket(self, x1: float, x2: float, words: str) -> None:
        a, b = sorted((self.paper((x1, 0.0))[0], self.paper((x2, 0.0))[0]))
        y = max(y for mark in self.chart.marks for _, y1, _, y2, r in self.chart.body(mark) for y in (y1 + r, y2 + r)) + 1.4
        self.chart.strokes.append(Stroke(move("M", a + 0.3, y, "V", y + 1.2, "H", b - 0.3, "V", y), "repeat", weight_mm=0.25))
        wide, below = text_width(words, SMALL_MM) / 2 + 1.0, y + 1.2 + SMALL_MM * 1.15
        others = [label for label in self.chart.labels if abs(label.y - below) < SMALL_MM * 1.2]
        if any(abs(label.x - (a + b) / 2) < wide + text_width(label.words, label.size_mm) / 2 for label in others):
            below += SMALL_MM * 1.4
        self.label(words, (a + b) / 2, below, "middle", None, SMALL_MM)

    def ring(self) -> None:
        """The ring in the middle, when the first round is worked into one."""
        first = next((line for line in self.placed.lines if line.posts), None)
        if first is None or not any(foot.line < 0 for post in first.posts for foot in first.feet[post]):
            return
        if first.index and len(self.placed.lines[0]) > 3:
            return
        r = max(self.placed.ring_mm - 0.3, 0.8)
        self.chart.strokes.append(Stroke(move("M", -r, 0, "A", r, r, 0, 1, 1, r, 0, "A", r, r, 0, 1, 1, -r, 0), "ring", weight_mm=0.25))

    def joins(self) -> None:
        """A hollow triangle where a new strand is joined."""
        for line, steps in self._last_steps():
            if line.index and any(isinstance(step, Colour) and step.join_in for step in steps):
                self._join_in(line, line.posts[0])

    def ends(self) -> None:
        """A filled triangle where the yarn is cut."""
        for line, steps in self._last_steps():
            if any(isinstance(step, FastenOff) for step in steps):
                self._triangle(line, line.posts[-1], 1.0, filled=True)

    def _last_steps(self) -> Iterator[tuple[Line, list[Step]]]:
        """The last row drawn of each row as written, with its steps."""
        for line, after in pairwise([*self.placed.lines, None]):
            if line is not None and line.posts and not line.elsewhere and (after is None or after.row.written is not line.row.written):
                yield line, list(_flat(line.row.written.steps))

    def _join_in(self, line: Line, post: int) -> None:
        """The sign of a new yarn points at the foot of the row's first stitch (or of its starting chain), from where it is clearest."""
        feet = self.placed.feet[line.index].get(post)
        if not feet or self.placed.form != "round":
            self._triangle(line, post, -1.0, filled=False)
            return
        way = -1.0 if line.rightwards else 1.0
        stack = line.stacks.get(post, [post])
        oval = self.placed.ovals[line.index].get(stack[0])
        at = feet[0] if oval is None else (oval.x, oval.y)
        self._clear_sign(at, [way * turn for turn in (90, 120, 60, 150, 35, -90, -120, -60, 180)], filled=False)

    def _clear_sign(self, at: Point, turns: Sequence[float], *, filled: bool) -> None:
        """A triangle pointing at a placed point from where it is clearest. `turns`: degrees from outwards, the first liked best."""
        ox, oy = self.placed.out(at)
        room = ClearSpace(self.chart)
        tries: list[tuple[float, Point, Point]] = []
        for far in (1.7, 1.9, 2.1, 2.4, 2.7, 3.0, 3.4, 3.8, 4.6, 5.4):
            for k, turn in enumerate(turns):
                c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
                ux, uy = ox * c + oy * s, oy * c - ox * s
                x, y = self.paper((at[0] + ux * far, at[1] + uy * far))
                ink = room.strokes_in((x - SIGN_MM, y - SIGN_MM, x + SIGN_MM, y + SIGN_MM))
                tries.append((ink * 20 + far + 0.2 * k, (x, y), (ux if self.mirrored else -ux, uy)))
        _, place, to = min(tries)
        self._sign(place, to, filled=filled)

    def _triangle(self, line: Line, post: int, ahead: float, *, filled: bool) -> None:
        top = self.placed.top[line.index][post]
        if top is None:
            return
        way = ahead * (1.0 if line.rightwards else -1.0)
        if self.placed.form == "round" or line.index in self.placed.edging:
            top = next((self.placed.dots[line.index][e] for e in line.joins if e in self.placed.dots[line.index]), top) if filled else top
            self._clear_sign(top, [way * turn for turn in (0, 25, -25, 50, 75, -50, 100, -75, 130, -100, 160)], filled=filled)
            return
        if self.placed.form == "blocks":
            ox, oy = (1.0, 0.0) if line.rightwards else (0.0, 1.0)
            x, y = self.paper((top[0] + ox * 2.2, top[1] + oy * 2.2))
            ux, uy = (ox if self.mirrored else -ox), oy
        else:
            x, y = self.paper((top[0] + way * 2.4, top[1] - 0.6))
            ux, uy = (way if self.mirrored else -way), 0.0
        self._sign((x, y), (ux, uy), filled=filled)

    def _sign(self, at: Point, way: Point, *, filled: bool) -> None:
        """A triangle pointing a way, on paper."""
        (x, y), (ux, uy) = at, way
        tip = (x + ux * 0.9, y + uy * 0.9)
        a, b = (x - ux * 0.9 - uy * 0.9, y - uy * 0.9 + ux * 0.9), (x - ux * 0.9 + uy * 0.9, y - uy * 0.9 - ux * 0.9)
        what = "fasten-off" if filled else "join-in"
        box = (x - SIGN_MM, y - SIGN_MM, x + SIGN_MM, y + SIGN_MM)
        self.chart.strokes.append(Stroke(move("M", *tip, "L", *a, "L", *b, "Z"), what, filled=filled, weight_mm=0.25, box=box))

    def arrow(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """A thin arrow from (x1, y1) to (x2, y2), on paper; level."""
        head = 0.9 if x2 > x1 else -0.9
        d = move("M", x1, y1, "L", x2, y2, "M", x2 - head, y2 - 0.6, "L", x2, y2, "L", x2 - head, y2 + 0.6)
        self.chart.strokes.append(Stroke(d, "arrow", weight_mm=0.25))

    def label(self, words: str, x: float, y: float, anchor: str, row: int | None, size: float = LABEL_MM) -> None:
        what = "row" if row is not None else "note"
        self.chart.labels.append(Label(words, round(x, 2), round(y, 2), size, anchor, what, row))


def _flat(steps: tuple[Step, ...]) -> Iterator[Step]:
    for step in steps:
        yield step
        yield from _flat(getattr(step, "body", ()))
