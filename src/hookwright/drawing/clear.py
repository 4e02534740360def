"""Where words may stand: places clear of ink, found by looking."""

from __future__ import annotations

import math
from collections.abc import Iterable

from .labels import text_width
from .marks import Chart, Label
from .shapes import Capsule

CELL_MM = 4.0
SPARE_MM = 0.25
"""Left free round words."""
HEIGHT = 0.72
"""Of the type size: from the base line to the top of a figure."""
INK_COST = 18.0
"""How many millimetres further off words stand rather than touch one stroke."""

MOST_COUNTED = 1000
SIGNS = ("fasten-off", "join-in")

Box = tuple[float, float, float, float]


class ClearSpace:
    """The ink of a chart, the words and signs already placed, to look for room in."""

    def __init__(self, chart: Chart) -> None:
        self._cells: dict[tuple[int, int], list[Capsule]] = {}
        self._words: list[Box] = [box_of(label) for label in chart.labels]
        self._signs: list[Box] = [stroke.box for stroke in chart.strokes if stroke.box is not None]
        for body in chart.bodies():
            for stroke in body:
                self._add(stroke)

    def _add(self, stroke: Capsule) -> None:
        x1, y1, x2, y2, r = stroke
        for cx in range(math.floor((min(x1, x2) - r) / CELL_MM), math.floor((max(x1, x2) + r) / CELL_MM) + 1):
            for cy in range(math.floor((min(y1, y2) - r) / CELL_MM), math.floor((max(y1, y2) + r) / CELL_MM) + 1):
                self._cells.setdefault((cx, cy), []).append(stroke)

    def strokes_in(self, box: Box, most: int = MOST_COUNTED) -> int:
        """How many strokes (and words) touch a box; counted no further than `most`."""
        words = sum(_meet(word, box) for word in self._words)
        return words if words >= most else words + self.ink_in(box, most - words)

    def ink_in(self, box: Box, most: int = MOST_COUNTED) -> int:
        """How many strokes of symbols and signs touch a box; counted no further than `most`."""
        x1, y1, x2, y2 = box
        count = sum(_meet(sign, box) for sign in self._signs)
        seen: set[Capsule] = set()
        for cx in range(math.floor(x1 / CELL_MM), math.floor(x2 / CELL_MM) + 1):
            for cy in range(math.floor(y1 / CELL_MM), math.floor(y2 / CELL_MM) + 1):
                for stroke in self._cells.get((cx, cy), ()):
                    if count >= most:
                        return count
                    if stroke not in seen and _touches(stroke, box):
                        seen.add(stroke)
                        count += 1
        return count

    def forget_signs(self) -> None:
        """Count the ink of symbols only."""
        self._signs = []

    def take(self, box: Box) -> None:
        """Remember a place as taken."""
        self._words.append(box)

    def best(self, tries: Iterable[tuple[float, Label]], sign: float = 0.0) -> Label:
        """Of the labels offered, each with its cost in mm, the cheapest first, the one that stands clearest and nearest.

        It is remembered as taken. `sign`: the size of a sign that will stand centred under the label and wants room as well, mm.
        """
        found: tuple[float, Label] | None = None
        for cost, label in tries:
            if found is not None and cost >= found[0]:
                break
            most = MOST_COUNTED if found is None else math.ceil((found[0] - cost) / INK_COST)
            whole = cost + INK_COST * self.strokes_in(_with_sign(label, sign), most)
            if found is None or whole < found[0]:
                found = (whole, label)
        assert found is not None
        self._words.append(_with_sign(found[1], sign))
        return found[1]


def covered(chart: Chart) -> list[Label]:
    """Labels that stand on a symbol, on a sign or on another label."""
    bare = [_within(box_of(label)) for label in chart.labels]
    room = ClearSpace(chart)
    room.forget_signs()  # a bracket's or an arrow's box is far larger than its line
    signs = [stroke.box for stroke in chart.strokes if stroke.box is not None and stroke.what in SIGNS]
    found = []
    for label, box in zip(chart.labels, bare, strict=True):
        words = sum(_meet(box, other) for other in bare) - 1
        if words or room.ink_in(box) or any(_meet(sign, box) for sign in signs):
            found.append(label)
    return found


def _within(box: Box) -> Box:
    """A label's box without the room round it."""
    left, top, right, bottom = box
    return left + SPARE_MM, top + SPARE_MM, right - SPARE_MM, bottom - SPARE_MM


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def box_of(label: Label) -> Box:
    """Left, top, right, bottom of a label's ink with the room it wants round it."""
    wide = text_width(label.words, label.size_mm)
    left = label.x - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    return left - SPARE_MM, label.y - label.size_mm * HEIGHT - SPARE_MM, left + wide + SPARE_MM, label.y + SPARE_MM


def _with_sign(label: Label, sign: float) -> Box:
    """The box of a label and of a sign centred under it."""
    left, top, right, bottom = box_of(label)
    middle = (left + right) / 2
    return (min(left, middle - sign / 2), top, max(right, middle + sign / 2), bottom + sign) if sign else (left, top, right, bottom)


def _touches(stroke: Capsule, box: Box) -> bool:
    """Whether a thick line touches a box: clipped against the box grown by its thickness (Liang and Barsky 1984, from memory)."""
    x1, y1, x2, y2, r = stroke
    if max(x1, x2) + r < box[0] or min(x1, x2) - r > box[2] or max(y1, y2) + r < box[1] or min(y1, y2) - r > box[3]:
        return False
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
