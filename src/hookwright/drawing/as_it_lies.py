"""Pieces whose rows bend (worked out from the middle of an edge, with increases in the middle of a row) in a schematic: as they lie."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..measuring import PartMeasures, Point
from ..shaping.outlines import RelaxedOutline
from . import svg
from .dimensions import INK, across, arrow, leader, upright
from .labels import Box, Label, Sheet, measure_words, number_words
from .landmarks import colour_starts
from .outline_frame import BESIDE, COLOURS_SHOWN, MOST_MM, MOST_MM_PER_CM, PAPER


def draw_as_it_lies(sheet: Sheet, parts: Sequence[PartMeasures], lies: Sequence[RelaxedOutline]) -> None:
    """Outline, first and last row, where colours begin, and both measurements in every size; the first is drawn."""
    one = lies[0]
    scale = min(MOST_MM[0] / max(one.width_cm, 0.1), MOST_MM[1] / max(one.length_cm, 0.1), MOST_MM_PER_CM)
    wide, high = one.width_cm * scale, one.length_cm * scale
    outline = [(x * scale, high - y * scale) for x, y in one.outline]
    sheet.marks.append(svg.polygon(outline, fill=PAPER, stroke=INK, stroke_width=0.5, stroke_linejoin="round"))
    sheet.boxes.append(Box(0, 0, wide, high))
    rows = [row for row in parts[0].part.rows if not row.foundation and row.index in one.rows and len(one.rows[row.index]) > 1]
    told = {start.index: [f"{start.yarn} from {_row_name(start.number)}"] for start in colour_starts(parts[0])[:COLOURS_SHOWN]}
    ends = [(row, [_numbered(each)[at] for each in parts if _numbered(each)]) for row, at in ((rows[0], 0), (rows[-1], -1))] if rows else []
    for row, numbers in ends:
        told.setdefault(row.index, []).insert(0, row.label if row.number is None else number_words("Row", numbers))
    wanted = []
    for row in rows:
        if row.index not in told:
            continue
        line = [(x * scale, high - y * scale) for x, y in one.rows[row.index]]
        if row is not rows[-1]:
            data = svg.move("M", *line[0]) + "".join(svg.move("L", *point) for point in line[1:])
            sheet.marks.append(svg.path(data, fill="none", stroke=INK, stroke_width=0.2, stroke_dasharray="1.2 0.8"))
        end = max(line[0], line[-1])
        wanted.append((end, Label((" · ".join(told[row.index]),), wide + 6.0, 0.0, 2.6)))
    wanted.sort(key=lambda pair: pair[0][1])
    for (end, _), label in zip(wanted, sheet.column([(end[1], label) for end, label in wanted]), strict=True):
        sheet.marks.append(leader(*end, label.x - 0.6, label.y + label.height / 2))
    if len(rows) > 1:
        lines = [[(x * scale, high - y * scale) for x, y in one.rows[row.index]] for row in (rows[0], rows[-1])]
        _direction(sheet, outline, *(line[len(line) // 2] for line in lines))
    across(sheet, 0.0, wide, high + 4.5, measure_words([each.width_cm for each in lies]), reach=high + 0.8)
    upright(sheet, BESIDE, 0.0, high, measure_words([each.length_cm for each in lies]), reach=-0.8)


def edge_words(parts: Sequence[PartMeasures], lies: Sequence[RelaxedOutline]) -> str:
    """The lengths that the frame does not show: both edges and the last row, in every size."""
    edges = [[each.edges_cm[name] for each in lies] for name in ("A", "B")]
    same = all(abs(a - b) <= 0.02 * max(a, b) for a, b in zip(*edges, strict=True))
    last = [each.rows[-1].width_cm for each in parts]
    told = f"Each edge {_cm_and_in(edges[0])}" if same else f"Edge A {_cm_and_in(edges[0])}, edge B {_cm_and_in(edges[1])}"
    return f"{told}; the last row {_cm_and_in(last)} along its stitches."


def _cm_and_in(cm: Sequence[float]) -> str:
    return " / ".join(measure_words(cm))


def _numbered(part: PartMeasures) -> list[int | None]:
    return [row.number for row in part.part.rows if not row.foundation]


def _row_name(number: int | None) -> str:
    return "a row" if number is None else f"Row {number}"


def _direction(sheet: Sheet, outline: Sequence[Point], begins: Point, ends: Point) -> None:
    """Right side and direction of work (from the first row's middle to the last's), inside the outline where there is room."""
    long = math.dist(begins, ends)
    if long < 12:
        return
    dx, dy = (ends[0] - begins[0]) / long, (ends[1] - begins[1]) / long
    for share in (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7):
        x, y = begins[0] + share * (ends[0] - begins[0]), begins[1] + share * (ends[1] - begins[1])
        foot = (x - 5 * dx, y - 5 * dy)
        label = Label(("RS",), foot[0], foot[1] + (2.0 if dy <= 0 else -6.0), 3.2, "middle", "bold")
        tip, words = (x + 5 * dx, y + 5 * dy), label.box
        left, top = min(words.x, tip[0]) - 1, min(words.y, tip[1]) - 1
        right, bottom = max(words.x + words.width, tip[0]) + 1, max(words.y + words.height, tip[1]) + 1
        around = Box(left, top, right - left, bottom - top)
        if _holds(outline, around):
            sheet.marks.append(arrow(*foot, *tip))
            sheet.write(label)
            return


def _holds(outline: Sequence[Point], room: Box) -> bool:
    """Whether a box lies inside an outline: its middle does, and no side of the outline runs through it."""
    x, y = room.x + room.width / 2, room.y + room.height / 2
    inside = False
    for (ax, ay), (bx, by) in zip(outline, [*outline[1:], *outline[:1]], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
        if _through((ax, ay), (bx, by), room):
            return False
    return inside


def _through(a: Point, b: Point, room: Box) -> bool:
    """Whether the line from a to b runs through a box (clipped side by side: Liang and Barsky 1984, from memory)."""
    enters, leaves = 0.0, 1.0
    for at, step, low, high in (
        (a[0], b[0] - a[0], room.x, room.x + room.width), (a[1], b[1] - a[1], room.y, room.y + room.height),
    ):  # fmt: skip
        if step == 0:
            if not low <= at <= high:
                return False
            continue
        one, other = sorted(((low - at) / step, (high - at) / step))
        enters, leaves = max(enters, one), min(leaves, other)
    return enters <= leaves
