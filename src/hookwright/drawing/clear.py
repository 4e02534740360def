"""Where words may stand: places clear of ink, found by looking."""

from __future__ import annotations

import math
from collections.abc import Iterable

from .labels import text_width
from .marks import Chart, Label
from .shapes import Capsule

CELL_MM = 4.0
SPARE_MM = 0.3
"""Left free round words."""
HEIGHT = 0.72
"""Of the type size: from the base line to the top of a figure."""
INK_COST = 6.0
"""How many millimetres further off words stand rather than touch one stroke."""

Box = tuple[float, float, float, float]


class ClearSpace:
    """The ink of a chart, the words and signs already placed, to look for room in."""

    def __init__(self, chart: Chart) -> None:
        self._cells: dict[tuple[int, int], list[Capsule]] = {}
        self._words: list[Box] = [box_of(label) for label in chart.labels]
        self._words += [stroke.box for stroke in chart.strokes if stroke.box is not None]
        for body in chart.bodies():
            for stroke in body:
                self._add(stroke)

    def _add(self, stroke: Capsule) -> None:
        x1, y1, x2, y2, r = stroke
        for cx in range(math.floor((min(x1, x2) - r) / CELL_MM), math.floor((max(x1, x2) + r) / CELL_MM) + 1):
            for cy in range(math.floor((min(y1, y2) - r) / CELL_MM), math.floor((max(y1, y2) + r) / CELL_MM) + 1):
                self._cells.setdefault((cx, cy), []).append(stroke)

    def strokes_in(self, box: Box) -> int:
        """How many strokes (and words) touch a box."""
        x1, y1, x2, y2 = box
        seen: set[Capsule] = set()
        for cx in range(math.floor(x1 / CELL_MM), math.floor(x2 / CELL_MM) + 1):
            for cy in range(math.floor(y1 / CELL_MM), math.floor(y2 / CELL_MM) + 1):
                seen.update(stroke for stroke in self._cells.get((cx, cy), ()) if _touches(stroke, box))
        return len(seen) + sum(a < x2 and x1 < c and b < y2 and y1 < d for a, b, c, d in self._words)

    def best(self, tries: Iterable[tuple[float, Label]]) -> Label:
        """Of the labels offered, each with its cost in mm, the one that stands clearest and nearest; it is remembered as taken."""
        found: tuple[float, int, Label] | None = None
        for k, (cost, label) in enumerate(tries):
            if found is not None and cost >= found[0]:
                continue
            whole = cost + INK_COST * self.strokes_in(box_of(label))
            if found is None or whole < found[0]:
                found = (whole, k, label)
        assert found is not None
        self._words.append(box_of(found[2]))
        return found[2]


def box_of(label: Label) -> Box:
    """Left, top, right, bottom of a label's ink with the room it wants round it."""
    wide = text_width(label.words, label.size_mm)
    left = label.x - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    return left - SPARE_MM, label.y - label.size_mm * HEIGHT - SPARE_MM, left + wide + SPARE_MM, label.y + SPARE_MM


def _touches(stroke: Capsule, box: Box) -> bool:
    """Whether a thick line touches a box: clipped against the box grown by its thickness (Liang and Barsky 1984, from memory)."""
    x1, y1, x2, y2, r = stroke
    dx, dy = x2 - x1, y2 - y1
    low, high = 0.0, 1.0
    for p, q in ((-dx, x1 - box[0] + r), (dx, box[2] + r - x1), (-dy, y1 - box[1] + r), (dy, box[3] + r - y1)):
        if abs(p) < 1e-12:
            if q < 0:
                return False
            continue
        t = q / p
        if p < 0:
            low = max(low, t)
        else:
            high = min(high, t)
    return low <= high
