"""Pieces put together, drawn to scale: motifs in their rows, the border round them, and the measurements with it and without."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..measuring import Assembled
from . import svg
from .dimensions import INK, across, upright
from .labels import Box, Label, Sheet, measure_words, wrapped
from .outline_frame import BESIDE, MOST_MM, PAPER

MOST_CELLS = 2_000
"""More motifs than this are drawn as one field."""


def layout(things: Sequence[Assembled], *, names: Sequence[str] = ()) -> str:
    """The layout as SVG. `things`: the same thing in every size, the first is drawn; `names`: the sizes' names."""
    return compose_layout(things, names=names)[0]


def compose_layout(things: Sequence[Assembled], *, names: Sequence[str] = ()) -> tuple[str, Sheet]:
    """The layout and the sheet it was laid out on (labels with their boxes)."""
    thing, sheet = things[0], Sheet()
    scale = min(MOST_MM[0] / max(thing.width_cm, 0.1), MOST_MM[1] / max(thing.length_cm, 0.1), 12.0)
    width, height = thing.width_cm * scale, thing.length_cm * scale
    rim = thing.border.wide_cm * scale if thing.border is not None else 0.0
    if rim or thing.corners == 4 or thing.rows is None:
        sheet.marks.append(svg.rect(0.0, 0.0, width, height, fill=PAPER, stroke=INK, stroke_width=0.5))
    if rim:
        sheet.marks.append(svg.rect(rim, rim, width - 2 * rim, height - 2 * rim, fill="none", stroke=INK, stroke_width=0.3))
    sheet.marks += _cells(thing, scale, rim)
    sheet.boxes.append(Box(0, 0, width, height))
    across(sheet, 0.0, width, height + 4.5, measure_words([each.width_cm for each in things]), reach=height + 0.8)
    upright(sheet, BESIDE, 0.0, height, measure_words([each.length_cm for each in things]), reach=-0.8)
    if thing.border is not None:
        across(
            sheet, 0.0, rim, -3.5, measure_words([each.border.wide_cm for each in things if each.border is not None]), reach=-0.8, over=True
        )
    _notes(sheet, thing, names)
    return _render(sheet, thing), sheet


def _cells(thing: Assembled, scale: float, rim: float) -> list[str]:
    """Every motif in its place, the first row at the bottom."""
    if thing.rows is None or thing.across is None or thing.pitch_cm is None or thing.rows * thing.across > MOST_CELLS:
        return []
    wide, down = thing.pitch_cm[0] * scale, thing.pitch_cm[1] * scale
    made = []
    for r in range(thing.rows):
        for c in range(thing.across):
            left = rim + c * wide + (wide / 2 if thing.corners == 6 and r % 2 else 0.0)
            top = rim + (thing.rows - 1 - r) * down
            made.append(_cell(thing.corners, left, top, wide, down))
    return made


def _cell(corners: int, left: float, top: float, wide: float, down: float) -> str:
    if corners == 6:
        high = wide * 2 / math.sqrt(3)
        points = [(0.5, 0.0), (1.0, 0.25), (1.0, 0.75), (0.5, 1.0), (0.0, 0.75), (0.0, 0.25)]
        return svg.polygon([(left + x * wide, top + y * high) for x, y in points], fill=PAPER, stroke=INK, stroke_width=0.25)
    if corners == 4:
        return svg.rect(left, top, wide, down, fill=PAPER, stroke=INK, stroke_width=0.25)
    return svg.circle(left + wide / 2, top + down / 2, wide / 2, fill=PAPER, stroke=INK, stroke_width=0.25)


def _notes(sheet: Sheet, thing: Assembled, names: Sequence[str]) -> None:
    left = min(box.x for box in sheet.boxes)
    right = max(box.x + box.width for box in sheet.boxes)
    lines = [f"{line[:1].upper()}{line[1:]}." for line in (*thing.because, *thing.misfits)]
    if len(names) > 1:
        lines.insert(0, f"Sizes {names[0]} ({', '.join(names[1:])}); drawn in size {names[0]}.")
    bottom = max(box.y + box.height for box in sheet.boxes) + 4.0
    sheet.write(Label(tuple(wrapped(lines, max(70.0, right - left), 2.6)), left, bottom, 2.6))
    top = min(box.y for box in sheet.boxes)
    sheet.write(Label((" + ".join(name or "Piece" for name in thing.names),), left, top - 8.0, 4.2, weight="bold"))


def _render(sheet: Sheet, thing: Assembled) -> str:
    margin = 4.0
    left, top = min(box.x for box in sheet.boxes) - margin, min(box.y for box in sheet.boxes) - margin
    right = max(box.x + box.width for box in sheet.boxes) + margin
    bottom = max(box.y + box.height for box in sheet.boxes) + margin
    told = "; ".join(" ".join(label.lines) for label in sheet.labels)
    name = " + ".join(each or "piece" for each in thing.names)
    drawing = svg.Svg(width_mm=right - left, height_mm=bottom - top, title=f"Put together: {name}", desc=told, origin=(left, top))
    drawing.add(*sheet.marks, *(label.markup() for label in sheet.labels))
    return drawing.render()
