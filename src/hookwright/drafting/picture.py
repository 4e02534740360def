"""The picture of a draft: the outline asked, dashed, over the outline obtained, to scale, with both measures."""

from __future__ import annotations

from ..drawing.svg import Svg, bounds, line, polygon, text
from ..trade import units
from .outline import Outline
from .result import Draft, View

_MOST_MM = (180.0, 200.0)
_GAP_MM = 12.0
_ASKED = "#8a1c4a"
_CLOTH = "#dfe7ec"
_EDGE = "#2b4a5c"
_ACROSS = 4


def picture(draft: Draft) -> str:
    """The views of a draft as one SVG. Empty views give a page that says so."""
    views = draft.views
    boxes = [_box(view) for view in views]
    scale = _scale(boxes)
    sizes = [(w * scale, h * scale) for _, _, w, h in boxes]
    columns = max(1, min(_ACROSS, len(views)))
    rows = [range(k, min(k + columns, len(views))) for k in range(0, len(views), columns)]
    width = max([120.0, *(sum(max(40.0, sizes[i][0]) + _GAP_MM + 10 for i in row) + _GAP_MM for row in rows)])
    heights = [max(sizes[i][1] for i in row) + 26 for row in rows]
    page = Svg(width_mm=width, height_mm=sum(heights) + 24, title=draft.pattern.facts.title, desc=draft.report().replace("\n", "; "))
    page.add(text(_GAP_MM, 9, draft.pattern.facts.title, size_mm=5, weight="bold"))
    y = 16.0
    for row, height in zip(rows, heights, strict=True):
        x = _GAP_MM
        for i in row:
            _view(page, views[i], boxes[i], scale, x + 6, y + 6)
            x += max(40.0, sizes[i][0]) + _GAP_MM + 10
        y += height
    _key(page, y)
    return page.render()


def _box(view: View) -> tuple[float, float, float, float]:
    return bounds([*view.asked, *view.obtained])


def _scale(boxes: list[tuple[float, float, float, float]]) -> float:
    """mm of paper for a cm of cloth: all views alike, none larger than its share of the page."""
    columns = max(1, min(_ACROSS, len(boxes)))
    wide = max((w for _, _, w, _ in boxes), default=1.0) or 1.0
    high = max((h for _, _, _, h in boxes), default=1.0) or 1.0
    rows = -(-len(boxes) // columns)
    return min(_MOST_MM[0] / columns / wide, _MOST_MM[1] / max(1, rows) / high, 10.0)


def _view(page: Svg, view: View, box: tuple[float, float, float, float], scale: float, x: float, y: float) -> None:
    left, bottom, wide, high = box

    def place(outline: Outline) -> list[tuple[float, float]]:
        return [(x + (px - left) * scale, y + (bottom + high - py) * scale) for px, py in outline]

    page.add(polygon(place(view.obtained), fill=_CLOTH, stroke=_EDGE, stroke_width=0.35, stroke_linejoin="round"))
    page.add(polygon(place(view.asked), fill="none", stroke=_ASKED, stroke_width=0.45, stroke_dasharray="2 1.4", stroke_linejoin="round"))
    got_w, got_h = _extent(view.obtained)
    below = y + high * scale
    page.add(line(x, below + 4, x + wide * scale, below + 4, stroke="#666", stroke_width=0.2))
    page.add(text(x + wide * scale / 2, below + 8.2, units.both_lengths(got_w), size_mm=3.2, anchor="middle"))
    page.add(line(x - 4, y, x - 4, below, stroke="#666", stroke_width=0.2))
    middle = y + high * scale / 2
    page.add(
        text(x - 5.2, middle, units.both_lengths(got_h), size_mm=3.2, anchor="middle", transform=f"rotate(-90 {x - 5.2:.2f} {middle:.2f})")
    )
    if view.name != page.title:
        page.add(text(x, below + 13, view.name, size_mm=3.2))


def _extent(outline: Outline) -> tuple[float, float]:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return max(xs) - min(xs), max(ys) - min(ys)


def _key(page: Svg, y: float) -> None:
    page.add(line(_GAP_MM, y, _GAP_MM + 10, y, stroke=_ASKED, stroke_width=0.45, stroke_dasharray="2 1.4"))
    page.add(text(_GAP_MM + 12, y + 1.1, "asked", size_mm=3.2))
    page.add(line(_GAP_MM + 34, y, _GAP_MM + 44, y, stroke=_EDGE, stroke_width=0.35))
    page.add(text(_GAP_MM + 46, y + 1.1, "obtained, from the gauge", size_mm=3.2))
