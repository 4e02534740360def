"""A large chart on several pages: tiles that overlap by a strip, with marks where the next page begins, and the key whole on one of them.

Every page keeps the chart's own coordinates (only its window differs), so that a symbol in the overlap stands at the same place on both
pages and is counted once.
"""

from __future__ import annotations

import math
from dataclasses import replace

from .export import page_svg
from .key import add_key
from .marks import Chart, Label, Stroke
from .svg import move

EDGE_MM = 10.0
"""Unprinted margin of a page."""
OVERLAP_MM = 12.0
"""Strip that two pages share."""
KEY_MM = 5.0
"""Left free between the drawing and its key."""


def paged(chart: Chart, paper_width_mm: float, paper_height_mm: float) -> list[str]:
    """The chart as SVG pages of the paper's size, row by row of pages; one page when it fits (turned by whoever prints it, not here)."""
    width, height = paper_width_mm - 2 * EDGE_MM, paper_height_mm - 2 * EDGE_MM - 8.0
    if chart.key and "squares" not in chart.options and (chart.box[2] > width or chart.box[3] > height):
        chart = _key_on_one_page(chart, width, height)
    x, y, wide, tall = chart.box
    across, down = _tiles(wide, width), _tiles(tall, height)
    pages: list[str] = []
    for j in range(down):
        for i in range(across):
            left = x + i * (width - OVERLAP_MM)
            top = y + j * (height - OVERLAP_MM)
            window = (left - EDGE_MM, top - EDGE_MM, paper_width_mm, paper_height_mm)
            labels, strokes = _marks(i, j, across, down, (left, top, width, height))
            pages.append(
                page_svg(
                    chart, window, (left, top, width, height), labels, strokes, f"{chart.title}, page {len(pages) + 1} of {across * down}"
                )
            )
    return pages


def _key_on_one_page(chart: Chart, width: float, height: float) -> Chart:
    """The chart with its key set anew, no wider than a page, and not across the edge of one."""
    x, y, wide, _ = chart.box
    words = [label for label in chart.labels if label.what == "key"]
    bare = replace(chart, labels=[label for label in chart.labels if label.what != "key"], key=[])
    tall = min(label.y - label.size_mm for label in words) - KEY_MM - y
    for row in range(2):
        top = tall if row == 0 else _last_edge(tall, height) - KEY_MM + 2.0
        made = replace(bare, labels=list(bare.labels), key=[])
        box = add_key(made, (x + 2.0, y, min(wide, width) - 4.0, top))
        bottom = box[1] + box[3] + 3.0 - y
        if _tiles(bottom, height) == _tiles(top + KEY_MM, height):
            break
    made.box = (x, y, wide, bottom)
    return made


def _last_edge(tall: float, height: float) -> float:
    """How far down the last page that holds a drawing so tall ends."""
    return height + (_tiles(tall, height) - 1) * (height - OVERLAP_MM)


def _tiles(length: float, page: float) -> int:
    return 1 if length <= page else math.ceil((length - OVERLAP_MM) / (page - OVERLAP_MM))


def _marks(i: int, j: int, across: int, down: int, area: tuple[float, float, float, float]) -> tuple[list[Label], list[Stroke]]:
    """Cut lines with ticks at the strips shared with neighbouring pages, and the page's place in the whole."""
    x, y, w, h = area
    strokes: list[Stroke] = []
    for there, d in (
        (i > 0, move("M", x + OVERLAP_MM, y, "V", y + h)),
        (i + 1 < across, move("M", x + w - OVERLAP_MM, y, "V", y + h)),
        (j > 0, move("M", x, y + OVERLAP_MM, "H", x + w)),
        (j + 1 < down, move("M", x, y + h - OVERLAP_MM, "H", x + w)),
    ):
        if there:
            strokes.append(Stroke(d, "overlap", dashed=True, weight_mm=0.15))
    for cx, cy in ((x, y), (x + w, y), (x, y + h), (x + w, y + h)):
        strokes.append(Stroke(move("M", cx - 3, cy, "H", cx + 3, "M", cx, cy - 3, "V", cy + 3), "corner", weight_mm=0.15))
    place = f"page {j * across + i + 1} of {across * down} (column {i + 1}, row {j + 1}); pages overlap at the dashed lines"
    return [Label(place, x, y + h + 6.0, 2.4, "start", "note")], strokes
