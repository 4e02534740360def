"""A chart on paper: SVG with every symbol a reference to its drawing, each carrying its row and stitch."""

from __future__ import annotations

from collections.abc import Iterable

from .marks import Chart, Label, Mark, Stroke
from .shapes import WEIGHT_MM
from .svg import Svg, at, attributes, num, path, text

INK = "#1a1a1a"
QUIET = "#595959"
YARN_INK = (INK, "#0059a6", "#b0400a", "#00694c", "#7d3a86", "#7a5b00", "#a81f4f", "#3d5a73")
"""Ink of the yarns in order: each reads on white at 4.5 : 1 or better (WCAG 2.2, 1.4.3); the row's letter tells them apart as well."""


def svg(chart: Chart, *, window: tuple[float, float, float, float] | None = None, title: str | None = None) -> str:
    """The chart as an SVG document. `window`: x, y, width, height of the piece of it to show (all)."""
    x, y, width, height = window or chart.box
    page = Svg(width_mm=width, height_mm=height, title=title or chart.title, desc=chart.described, origin=(x, y), lang="en")
    page.notes = " ".join(f"{key}={value}" for key, value in sorted(chart.options.items()))
    shown = chart.marks if window is None else [mark for mark in chart.marks if x <= mark.x <= x + width and y <= mark.y <= y + height]
    for glyph in dict.fromkeys(mark.glyph for mark in shown):
        page.define(glyph, chart.glyphs[glyph].markup)
    page.add(f'<g class="furniture" fill="none" stroke="{QUIET}" stroke-linecap="round" stroke-linejoin="round">')
    page.add(*(_stroke(stroke) for stroke in chart.strokes))
    page.add("</g>")
    page.add(*_rows(chart, shown))
    if chart.key:
        page.add(f'<g class="key" fill="none" stroke="{INK}" color="{INK}" stroke-width="{num(WEIGHT_MM)}" stroke-linecap="round">')
        page.add(*(f'<g transform="{at(kx, ky)}">{markup}</g>' for markup, kx, ky in chart.key))
        page.add("</g>")
    page.add(f'<g class="labels" fill="{INK}">')
    page.add(*(_label(label) for label in chart.labels))
    page.add("</g>")
    return page.render()


def _rows(chart: Chart, marks: Iterable[Mark]) -> list[str]:
    """The symbols, a group for each stretch of one row in one yarn."""
    out: list[str] = []
    before: tuple[int, int] | None = None
    for mark in marks:
        here = (mark.row, mark.yarn)
        if here != before:
            if before is not None:
                out.append("</g>")
            out.append(_open(chart, mark))
            before = here
        out.append(_use(mark))
    if before is not None:
        out.append("</g>")
    return out


def _open(chart: Chart, mark: Mark) -> str:
    yarn = chart.yarns[mark.yarn]
    given = attributes(
        {
            "class_": "row",
            "data_row": mark.row,
            "data_label": chart.row_labels.get(mark.row),
            "data_yarn": yarn or None,
            "fill": "none",
            "stroke": YARN_INK[mark.yarn % len(YARN_INK)],
            "stroke_width": WEIGHT_MM,
            "stroke_linecap": "round",
        }
    )
    return f"<g{given}>"


def _use(mark: Mark) -> str:
    where = at(mark.x, mark.y, angle_deg=mark.angle_deg)
    return f'<use href="#{mark.glyph}" transform="{where}" data-row="{mark.row}" data-stitch="{mark.stitch}"/>'


def _stroke(stroke: Stroke) -> str:
    return path(
        stroke.d,
        class_=stroke.what,
        stroke_width=stroke.weight_mm,
        fill=QUIET if stroke.filled else None,
        stroke_dasharray="0.8 0.8" if stroke.dashed else None,
    )


def _label(label: Label) -> str:
    turned = f"rotate({num(label.angle_deg)} {num(label.x)} {num(label.y)})" if label.angle_deg else None
    return text(
        label.x,
        label.y,
        label.words,
        size_mm=label.size_mm,
        anchor=label.anchor,
        weight="bold" if label.bold else None,
        class_=label.what,
        data_row=label.row,
        transform=turned,
    )
