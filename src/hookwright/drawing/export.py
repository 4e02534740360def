"""A chart on paper: SVG with every symbol a reference to its drawing, each carrying its row and stitch."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from .inks import GHOST, INK, QUIET
from .marks import Chart, Label, Mark, Stroke
from .shapes import WEIGHT_MM, box_of_ink
from .svg import Svg, at, attributes, element, num, path, rect, text
from .yarn_inks import inks

OF_PAGES = ("overlap", "corner")
"""What marks the edges of a page, and is not cut off at them."""
WORDS = "'Noto Sans', 'Atkinson Hyperlegible', sans-serif"
"""The family of a chart's words: its zero has no stroke through it, which at the size of a row's number would read as an 8."""


def svg(chart: Chart) -> str:
    """The chart as an SVG document, at print size."""
    return _document(chart, chart.box, chart.marks, chart.labels, chart.strokes, chart.title, with_key=True)


def page_svg(
    chart: Chart,
    window: tuple[float, float, float, float],
    area: tuple[float, float, float, float],
    labels: Sequence[Label],
    strokes: Sequence[Stroke],
    title: str,
) -> str:
    """A page of the chart: what lies in `area` (x, y, width, height), in a picture of `window`, with labels and strokes of the page."""
    x, y, width, height = area
    marks = [mark for mark in chart.marks if _reaches_into(chart, mark, area)]
    words = [label for label in chart.labels if x - 1 <= label.x <= x + width and y <= label.y <= y + height]
    return _document(chart, window, marks, [*words, *labels], [*chart.strokes, *strokes], title, with_key=True, clip=area)


def _document(
    chart: Chart,
    window: tuple[float, float, float, float],
    marks: Sequence[Mark],
    labels: Sequence[Label],
    strokes: Sequence[Stroke],
    title: str,
    *,
    with_key: bool,
    clip: tuple[float, float, float, float] | None = None,
) -> str:
    x, y, width, height = window
    page = Svg(width_mm=width, height_mm=height, title=title, desc=chart.described, origin=(x, y), lang="en")
    page.notes = " ".join(f"{key}={value}" for key, value in sorted(chart.options.items()))
    for glyph in dict.fromkeys(mark.glyph for mark in marks):
        page.define(glyph, chart.glyphs[glyph].markup)
    if clip is not None:
        page.define("area", element("clipPath", rect(*clip), id="page"))
    page.add(f'<g class="furniture" fill="none" stroke="{QUIET}" stroke-linecap="round" stroke-linejoin="round"{_clipped(clip)}>')
    page.add(*(_stroke(stroke) for stroke in strokes if stroke.what not in ("grid", *OF_PAGES)))
    page.add("</g>")
    marks_of_page = [_stroke(stroke) for stroke in strokes if stroke.what in OF_PAGES]
    if marks_of_page:
        page.add(f'<g class="sheet" fill="none" stroke="{QUIET}">', *marks_of_page, "</g>")
    if chart.ghosts:
        page.add(
            f'<g class="other-piece" fill="none" stroke="{GHOST}" stroke-width="{num(WEIGHT_MM)}" stroke-linecap="round"{_clipped(clip)}>'
        )
        page.add(*(f'<g transform="{at(one.x, one.y, angle_deg=one.angle_deg)}">{one.shape.markup}</g>' for one in chart.ghosts))
        page.add("</g>")
    rows = _rows(chart, marks)
    page.add(*(['<g class="rows" clip-path="url(#page)">', *rows, "</g>"] if clip is not None else rows))
    grid = [_stroke(stroke) for stroke in strokes if stroke.what == "grid"]
    if grid:
        page.add(f'<g class="grid" fill="none" stroke="{QUIET}"{_clipped(clip)}>', *grid, "</g>")
    if chart.key and with_key:
        weight = num(WEIGHT_MM)
        page.add(f'<g class="key" fill="none" stroke="{INK}" color="{INK}" stroke-width="{weight}" stroke-linecap="round"{_clipped(clip)}>')
        page.add(*(f'<g transform="{at(kx, ky)}">{markup}</g>' for markup, kx, ky in chart.key))
        page.add("</g>")
    page.add(f'<g class="labels" fill="{INK}" font-family="{WORDS}">')
    page.add(*(_label(label) for label in labels))
    page.add("</g>")
    return page.render()


def _reaches_into(chart: Chart, mark: Mark, area: tuple[float, float, float, float]) -> bool:
    """Whether some of a symbol's ink lies in an area."""
    x, y, width, height = area
    left, top, right, bottom = box_of_ink(chart.body(mark))
    return left <= x + width and right >= x and top <= y + height and bottom >= y


def _clipped(clip: tuple[float, float, float, float] | None) -> str:
    return ' clip-path="url(#page)"' if clip is not None else ""


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
            "stroke": inks(chart)[mark.yarn],
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
