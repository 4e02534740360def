"""Where rows or repeats are left out: wavy and dashed lines, and in words what stands there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from .cloth import Line
from .labels import text_width
from .marks import Chart, Label, Stroke
from .shapes import box_of_ink
from .spacing import BREAK_ROWS_MM
from .svg import move

if TYPE_CHECKING:
    from .furniture import Sides

SMALL_MM = 2.3
WAVE_MM = 1.5
LINE_MM = 3.2
"""Words nearer than so much one above another must stand side by side."""


class Breaks:
    """Draws the breaks of a chart."""

    def __init__(self, side: Sides) -> None:
        self.side, self.chart, self.placed = side, side.chart, side.placed

    def write(self) -> None:
        """Where rows are left out: a wavy break across, and how many of what."""
        for gap in self.chart.gaps:
            below = next((line for line in reversed(self.placed.lines) if line.row.index < gap.rows[0]), None)
            if below is None:
                continue
            if self.placed.form == "fan":
                self._break_arc(below, gap.words)
            elif self.placed.form != "round":
                self._break_rows(below, gap.words)
            else:
                self._break_rounds(below, gap.words)

    def cut_marks(self) -> None:
        """Where wide rows are cut: a pair of wavy lines through them, and how much is left out, in words below."""
        past = {(line.row.index, e): n for line in self.placed.lines for e, n in enumerate(line.past)}
        for k, cut in enumerate(self.chart.cuts, 1):
            inks: dict[bool, list[tuple[float, float, float]]] = {False: [], True: []}
            for mark in self.chart.marks:
                at = past.get((mark.row, mark.stitch))
                if at is not None and at in (k - 1, k):
                    x1, y1, x2, y2 = box_of_ink(self.chart.body(mark))
                    inks[at >= k] += [(x1, y1, y2), (x2, y1, y2)]
            if not inks[False] or not inks[True]:
                continue
            one, other = ([x for x, _, _ in inks[side]] for side in (False, True))
            middle = (max(one) + min(other)) / 2 if not self.side.mirrored else (min(one) + max(other)) / 2
            top = min(y for side in inks.values() for _, y, _ in side) - 1.0
            bottom = max(y for side in inks.values() for _, _, y in side) + 1.0
            for x in (middle - 0.7, middle + 0.7):
                self.chart.strokes.append(Stroke(_wavy(x, top, bottom), "break", weight_mm=0.25))
            self.side.label(cut.words, middle, bottom + SMALL_MM * 1.4, "middle", None, SMALL_MM)

    def _break_rows(self, below: Line, words: str) -> None:
        tops = [self.side.paper(p) for p in self.placed.top[below.index] if p is not None]
        if not tops:
            return
        if self.placed.form == "rows":
            highest = max(p[1] for line in self.placed.lines[: below.index + 1] for p in self.side.extent(line))
            y = self.side.paper((0.0, highest + BREAK_ROWS_MM / 2))[1]
        else:
            y = min(p[1] for p in tops) - 0.05
        left, right = min(p[0] for p in tops) - 3.0, max(p[0] for p in tops) + 3.0
        d = move("M", left, y)
        x, up = left, True
        while x < right:
            d += move("q", 0.75, -0.7 if up else 0.7, 1.5, 0)
            x, up = x + 1.5, not up
        self.chart.strokes.append(Stroke(d, "break", weight_mm=0.3))
        at = right + (2.6 if self.placed.form == "rows" else 9.0)
        near = [label for label in self.chart.labels if abs(label.y - y) < LINE_MM]
        for label in sorted(near, key=lambda label: label.x):
            begin = label.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[label.anchor] * text_width(label.words, label.size_mm)
            end = begin + text_width(label.words, label.size_mm)
            if begin - 1.0 < at + text_width(words, SMALL_MM) and at < end + 1.0:
                at = end + 2.0
        self.side.label(words, at, y + SMALL_MM * 0.35, "start", None, SMALL_MM)

    def _break_arc(self, below: Line, words: str) -> None:
        """A dashed arc over the last row before the break; the words under the picture, as those of rounds."""
        tops = [p for post in below.posts if (p := self.placed.top[below.index][post]) is not None]
        turns = sorted(math.atan2(x, y) for x, y in tops)
        if len(turns) > 1:
            far = max(math.hypot(*p) for p in tops)
            a, b = (self.side.paper((far * math.sin(turn), far * math.cos(turn))) for turn in (turns[0], turns[-1]))
            sweep = f" 0 {int(turns[-1] - turns[0] > math.pi)} {0 if self.side.mirrored else 1} "
            d = move("M", *a, "A", far, far) + sweep + move("", *b).strip()
            self.chart.strokes.append(Stroke(d, "break", dashed=True, weight_mm=0.25))
        self._words_below(words)

    def _break_rounds(self, below: Line, words: str) -> None:
        radius = max((math.hypot(*p) for p in self.placed.top[below.index] if p is not None), default=0.0)
        if radius:
            d = move("M", -radius, 0, "A", radius, radius, 0, 1, 1, radius, 0, "A", radius, radius, 0, 1, 1, -radius, 0)
            self.chart.strokes.append(Stroke(d, "break", dashed=True, weight_mm=0.25))
        self._words_below(words)

    def _words_below(self, words: str) -> None:
        x, y, _, height = ink_box(self.chart)
        under = sum(1 for label in self.chart.labels if label.what == "gap")
        self.chart.labels.append(Label(words, x, y + height + 4.0 + 3.4 * under, SMALL_MM, "start", "gap"))


def _wavy(x: float, top: float, bottom: float) -> str:
    """A wavy line downwards, in whole waves."""
    n = max(round((bottom - top) / WAVE_MM), 1)
    long = (bottom - top) / n
    return move("M", x, top) + "".join(move("q", -0.7 if k % 2 else 0.7, long / 2, 0, long) for k in range(n))


def ink_box(chart: Chart) -> tuple[float, float, float, float]:
    """x, y, width, height of everything drawn so far, roughly for words."""
    xs: list[float] = []
    ys: list[float] = []
    for body in chart.bodies():
        x1, y1, x2, y2 = box_of_ink(body)
        xs += (x1, x2)
        ys += (y1, y2)
    for label in chart.labels:
        wide = text_width(label.words, label.size_mm)
        left = label.x - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
        xs += (left, left + wide)
        ys += (label.y - label.size_mm * 0.8, label.y + label.size_mm * 0.25)
    for stroke in chart.strokes:
        if stroke.box is not None:
            xs += stroke.box[::2]
            ys += stroke.box[1::2]
    if not xs:
        return 0.0, 0.0, 10.0, 10.0
    return min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)
