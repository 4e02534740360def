"""Dimension lines: a thin line with a slanting tick at each end, extension lines to what it measures, its words beside it."""

from __future__ import annotations

from . import svg
from .labels import Box, Label, Sheet

INK = "#1d1d1b"
THIN = 0.18
_TICK = 0.9
_ROOM = 1.6
CLEAR = 0.3
"""How far an extension line keeps from words."""


def across(
    sheet: Sheet, left: float, right: float, y: float, words: tuple[str, ...], *, reach: float | None = None, over: bool = False
) -> float:
    """A dimension from left to right, its words under the line (or over it); `reach` is the height its extension lines come from.

    The line is put at the first height from y downward (upward with `over`) where line and words are free. Gives the height used.
    """
    label = Label(words, (left + right) / 2, 0.0, anchor="middle")
    room = label.height + _ROOM + 1.2
    wide_left, wide_right = min(left, label.box.x), max(right, label.box.x + label.width)
    if over:
        y = sheet.above(wide_left, wide_right, y)
        top = y - _ROOM - label.height
    else:
        y = sheet.below(wide_left, wide_right, y) + 0.8
        top = y + _ROOM
    if reach is not None:
        beyond = -_TICK if over else _TICK
        for x in (left, right):
            _extension(sheet, x, reach, x, y + beyond)
    sheet.marks.append(svg.line(left, y, right, y, stroke=INK, stroke_width=THIN))
    sheet.marks += [_slash(x, y) for x in (left, right)]
    sheet.boxes.append(Box(left - _TICK, y - _TICK, right - left + 2 * _TICK, 2 * _TICK))
    sheet.write(Label(words, (left + right) / 2, top, anchor="middle"))
    return y + room


def inner_across(sheet: Sheet, left: float, right: float, y: float) -> None:
    """The line of a dimension drawn on the cloth itself."""
    sheet.marks += [svg.line(left, y, right, y, stroke=INK, stroke_width=THIN), _slash(left, y), _slash(right, y)]


def upright(sheet: Sheet, x: float, top: float, bottom: float, words: tuple[str, ...], *, reach: float | None = None) -> None:
    """A dimension from bottom to top at x, its words left of it: read upward, or level where the line is too short for them."""
    bare_upright(sheet, x, top, bottom, reach=reach)
    turned = Label(words, 0.0, (top + bottom) / 2, turned=True)
    if turned.width <= bottom - top:
        sheet.write(Label(words, x - 1.2 - turned.height, turned.y, turned=True))
    else:
        sheet.write(Label(words, x - 1.8, turned.y - turned.height / 2, anchor="end"))


def bare_upright(sheet: Sheet, x: float, top: float, bottom: float, *, reach: float | None = None) -> None:
    """The lines of an upright dimension without its words."""
    if reach is not None:
        beyond = _TICK if reach < x else -_TICK
        for y in (top, bottom):
            _extension(sheet, reach, y, x + beyond, y)
    sheet.marks.append(svg.line(x, top, x, bottom, stroke=INK, stroke_width=THIN))
    sheet.marks += [_slash(x, y) for y in (top, bottom)]
    sheet.boxes.append(Box(x - _TICK, top - _TICK, 2 * _TICK, bottom - top + 2 * _TICK))


def _extension(sheet: Sheet, x1: float, y1: float, x2: float, y2: float) -> None:
    """An extension line, upright or level, that breaks where words already stand in its way."""
    upright = x1 == x2
    across, (low, high) = (x1, sorted((y1, y2))) if upright else (y1, sorted((x1, x2)))
    gaps = []
    for box in (label.box for label in sheet.labels):
        side, wide, end, tall = (box.x, box.width, box.y, box.height) if upright else (box.y, box.height, box.x, box.width)
        if side - CLEAR < across < side + wide + CLEAR and end < high and end + tall > low:
            gaps.append((end - CLEAR, end + tall + CLEAR))
    for start, stop in [*sorted(gaps), (high, high)]:
        if start > low:
            ends = (x1, low, x1, start) if upright else (low, y1, start, y1)
            sheet.marks.append(svg.line(*ends, stroke=INK, stroke_width=THIN, stroke_dasharray="0.6 0.6"))
        low = max(low, stop)


def _slash(x: float, y: float) -> str:
    return svg.line(x - _TICK * 0.7, y + _TICK * 0.7, x + _TICK * 0.7, y - _TICK * 0.7, stroke=INK, stroke_width=0.35)


def arrow(x1: float, y1: float, x2: float, y2: float, *, head: float = 1.6, stroke: str = INK) -> str:
    """An arrow with an open head."""
    length = max(1e-9, ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5)
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    side = head * 0.55
    left = (x2 - ux * head - uy * side, y2 - uy * head + ux * side)
    right = (x2 - ux * head + uy * side, y2 - uy * head - ux * side)
    line = svg.move("M", x1, y1, "L", x2, y2, "M", *left, "L", x2, y2, "L", *right)
    return svg.path(line, fill="none", stroke=stroke, stroke_width=0.3, stroke_linecap="round", stroke_linejoin="round")


def leader(x1: float, y1: float, x2: float, y2: float) -> str:
    """A hair line from a mark to its label."""
    return svg.line(x1, y1, x2, y2, stroke=INK, stroke_width=0.12)
