"""The outlines of all parts in true size: to print, to pin a piece out on, to cut a lining by."""

from __future__ import annotations

from ..measuring import Measures
from ..shaping.outlines import outline_as_it_lies
from . import svg
from .labels import Label

_GAP_MM = 10.0


def outlines(measures: Measures, *, left_handed: bool = False) -> str:
    """One SVG with every part's outline at 1 : 1, side by side, right side up, each named with its size."""
    marks: list[str] = []
    told: list[str] = []
    x, tall = _GAP_MM, 0.0
    for part in measures.parts:
        bent = outline_as_it_lies(part, left_handed=left_handed)
        outline = part.right_side_outline(left_handed=left_handed) if bent is None else bent.outline
        points = [(10 * u, 10 * v) for u, v in outline]
        if not points:
            continue
        wide, high = max(u for u, _ in points), max(v for _, v in points)
        name = f"{part.name or 'Piece'}: {wide / 10:.1f} x {high / 10:.1f} cm"
        corners = [(x + u, _GAP_MM * 2 + high - v) for u, v in points]
        marks.append(svg.polygon(corners, fill="none", stroke="#1d1d1b", stroke_width=0.5, stroke_linejoin="round"))
        label = Label((name,), x, _GAP_MM, 4.0)
        marks.append(label.markup())
        told.append(name)
        x += max(wide, label.width) + _GAP_MM
        tall = max(tall, high)
    drawing = svg.Svg(
        width_mm=x, height_mm=tall + 3 * _GAP_MM, title="Outlines in true size", desc="; ".join(told) or "No part has an outline."
    )
    drawing.add(*marks)
    return drawing.render()
