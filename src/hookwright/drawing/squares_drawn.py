"""Charts of squares on paper: grid, filled or coloured squares with a letter in each, numbers, arrows, key."""

from __future__ import annotations

from collections import Counter

from ..pattern import Facts
from .inks import INK, QUIET
from .labels import text_width
from .squares import Square, Squares
from .svg import Svg, line, move, path, rect, text

CELL_MM = 4.2
SIDE_MM = 12.0
TINTS = ("#f4f1e8", "#2b5d8c", "#e0a030", "#a33b2a", "#3f7d5c", "#7d5a96", "#d9c7a3", "#4a4a4a")
"""Grounds for the yarns in order when their own colours are not known; the letter in the square tells them apart as well."""
_TELL = {
    "filet": "Filet chart: a dark square is a mesh filled with stitches, a light one is an open mesh.",
    "tapestry": "Colour chart: one square is one stitch.",
    "mosaic": "Mosaic chart: one square is one stitch, in the colour that lies on top.",
    "corner-to-corner": "Corner-to-corner chart: one square is one tile, worked in diagonal rows from the lower left.",
}


def draw_squares(chart: Squares, *, title: str, handed: str, facts: Facts) -> str:
    """The chart as SVG. `handed` "left" mirrors the squares and keeps the words upright."""
    wide, tall = chart.columns * CELL_MM, chart.lines * CELL_MM
    key = _key_words(chart, facts)
    width = max(wide + 2 * SIDE_MM, max((text_width(words, 2.6) + 16 for words in key), default=0.0))
    height = tall + 16.0 + 6.0 * len(key)
    page = Svg(
        width_mm=width, height_mm=height, title=f"{title}: {chart.kind} chart", desc=_told(chart), origin=(-SIDE_MM, -4.0), lang="en"
    )
    tints = {yarn: TINTS[i % len(TINTS)] for i, yarn in enumerate(chart.yarns)}
    many = len(chart.yarns) > 1
    page.add('<g class="squares">')
    page.add(*(part for square in chart.squares for part in _square(chart, square, tints, many, handed, tall)))
    page.add("</g>", f'<g class="grid" stroke="{QUIET}" fill="none">', *_grid(chart, wide, tall), "</g>")
    page.add(f'<g class="labels" fill="{INK}">', *_numbers(chart, wide, tall, handed), "</g>")
    page.add(*_key(key, chart, tints, tall + 10.0))
    return page.render()


def _square(chart: Squares, square: Square, tints: dict[str, str], many: bool, handed: str, tall: float) -> list[str]:
    column = chart.columns - 1 - square.column if handed == "left" else square.column
    x, y = column * CELL_MM, tall - (square.line + 1) * CELL_MM
    fill = tints[square.yarn] if many else ("#3a3a3a" if square.filled and chart.kind == "filet" else "#ffffff")
    out = [rect(x, y, CELL_MM, CELL_MM, fill=fill, data_row=square.row, data_stitch=square.stitch)]
    if many and square.yarn:
        out.append(text(x + CELL_MM / 2, y + CELL_MM * 0.68, square.yarn[:2], size_mm=2.2, anchor="middle", fill=_readable(fill)))
    return out


def _readable(ground: str) -> str:
    r, g, b = (int(ground[i : i + 2], 16) for i in (1, 3, 5))
    return "#1a1a1a" if 0.299 * r + 0.587 * g + 0.114 * b > 140 else "#ffffff"


def _grid(chart: Squares, wide: float, tall: float) -> list[str]:
    """Fine lines for every square, stronger ones for every fifth, counted from where the chart begins."""
    out = []
    for c in range(chart.columns + 1):
        out.append(line(c * CELL_MM, 0, c * CELL_MM, tall, stroke_width=0.35 if (chart.columns - c) % 5 == 0 else 0.12))
    for r in range(chart.lines + 1):
        y = tall - r * CELL_MM
        out.append(line(0, y, wide, y, stroke_width=0.35 if r % 5 == 0 else 0.12))
    return out


def _numbers(chart: Squares, wide: float, tall: float, handed: str) -> list[str]:
    out = []
    for i, begins_right in enumerate(chart.begins_right):
        if begins_right is None:
            continue
        right = begins_right != (handed == "left")
        y = tall - (i + 0.5) * CELL_MM
        x = wide + 1.5 if right else -1.5
        ahead = -1.0 if right else 1.0
        d = move("M", x - ahead * 2.4, y, "L", x, y, "M", x - ahead * 0.8, y - 0.6, "L", x, y, "L", x - ahead * 0.8, y + 0.6)
        out.append(path(d, fill="none", stroke=QUIET, stroke_width=0.25, stroke_linecap="round"))
        out.append(text(x - ahead * 3.2, y + 0.9, chart.labels[i], size_mm=2.5, anchor="start" if right else "end"))
    for c in range(0, chart.columns, 5 if chart.columns > 9 else 1):
        number = c + 5 if chart.columns > 9 else c + 1
        if number <= chart.columns:
            x = (chart.columns - number + 0.5) * CELL_MM if handed == "right" else (number - 0.5) * CELL_MM
            out.append(text(x, tall + 3.4, str(number), size_mm=2.3, anchor="middle"))
    if chart.begins_right and chart.begins_right[0] is None:
        out.append(
            text(0.0 if handed == "right" else wide, tall + 3.4, "start", size_mm=2.5, anchor="start" if handed == "right" else "end")
        )
    return out


def _key_words(chart: Squares, facts: Facts) -> list[str]:
    if len(chart.yarns) > 1:
        return [_yarn_words(yarn, facts) for yarn in chart.yarns]
    return ["filled mesh", "open mesh"] if chart.kind == "filet" else []


def _yarn_words(yarn: str, facts: Facts) -> str:
    known = facts.yarns.get(yarn)
    return f"{yarn}  {known.colour}" if known is not None and known.colour else (yarn or "first yarn")


def _key(words: list[str], chart: Squares, tints: dict[str, str], y: float) -> list[str]:
    grounds = [tints[yarn] for yarn in chart.yarns] if len(chart.yarns) > 1 else ["#3a3a3a", "#ffffff"]
    out = []
    for i, (said, ground) in enumerate(zip(words, grounds, strict=False)):
        out.append(rect(0, y + i * 6.0, CELL_MM, CELL_MM, fill=ground, stroke=QUIET, stroke_width=0.2))
        out.append(text(CELL_MM + 2.5, y + i * 6.0 + 3.1, said, size_mm=2.6))
    return out


def _told(chart: Squares) -> str:
    """The text equivalent: every line in the order it is worked."""
    lines = [_TELL[chart.kind]]
    for i in range(chart.lines):
        row = sorted((square for square in chart.squares if square.line == i), key=lambda square: square.column)
        if i < len(chart.begins_right) and chart.begins_right[i]:
            row.reverse()
        words = [square.yarn if len(chart.yarns) > 1 else ("filled" if square.filled else "open") for square in row]
        runs: list[list[str]] = []
        for word in words:
            if runs and runs[-1][0] == word:
                runs[-1].append(word)
            else:
                runs.append([word])
        name = f"Row {chart.labels[i]}" if chart.begins_right[i] is not None else f"Line {i + 1} from below"
        lines.append(f"{name}: " + ", ".join(f"{len(run)} {run[0]}".strip() for run in runs) + ".")
    total = Counter(square.yarn for square in chart.squares)
    if len(total) > 1:
        lines.append("In all " + ", ".join(f"{n} of {yarn or 'the first yarn'}" for yarn, n in sorted(total.items())) + ".")
    return " ".join(lines)
