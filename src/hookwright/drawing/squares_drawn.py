"""Charts of squares on paper: every square a reference to its drawing like any other symbol; grid, numbers, arrows, key round them."""

from __future__ import annotations

from collections import Counter

from ..pattern import Facts
from ..yarn.hues import has_colour, hexed
from .colour_key import shown
from .inks import INK, QUIET
from .labels import text_width
from .marks import Chart, Label, Mark, Stroke, Ties
from .shapes import Shape
from .squares import Square, Squares
from .svg import element, move, rect, text
from .symbols import slug
from .yarn_letters import colour_of, letters_of

CELL_MM = 4.2
SIDE_MM = 12.0
TINTS = ("#f4f1e8", "#2b5d8c", "#e0a030", "#a33b2a", "#3f7d5c", "#7d5a96", "#d9c7a3", "#4a4a4a")
"""Grounds for the yarns in order when their own colours are not known; the letter in the square tells them apart as well."""
FILLED, OPEN = "#3a3a3a", "#ffffff"
_TELL = {
    "filet": "Filet chart: a dark square is a mesh filled with stitches, a light one is an open mesh.",
    "tapestry": "Colour chart: one square is one stitch.",
    "mosaic": "Mosaic chart: one square is one stitch, in the colour that lies on top.",
    "corner-to-corner": "Corner-to-corner chart: one square is one tile, worked in diagonal rows from the lower left.",
}


def chart_of(chart: Squares, part: int, *, title: str, handed: str, facts: Facts, terms: str) -> Chart:
    """The squares engraved. `handed` "left" mirrors the squares and keeps the words upright."""
    many = len(chart.yarns) > 1
    letters = letters_of(chart.yarns)
    made = Chart(part=part, title=f"{title}: {chart.kind} chart", form="rows", handed=handed, cross="plus", terms=terms)
    made.yarns, made.letters = chart.yarns, letters
    made.options = {"handed": handed, "part": str(part + 1), "squares": chart.kind}
    grounds = _grounds(chart, facts)
    for square in chart.squares:
        _set(made, chart, square, letters, grounds)
    made.described = _told(chart)
    wide, tall = chart.columns * CELL_MM, chart.lines * CELL_MM
    made.strokes += _grid(chart, wide, tall, handed)
    made.labels += _numbers(chart, made, wide, tall, handed)
    words = [_yarn_words(letter, yarn, facts) for letter, yarn in zip(letters, chart.yarns, strict=True)] if many else _mesh_words(chart)
    _key(made, words, grounds, tall + 10.0)
    longest = max((text_width(each, 2.6) + CELL_MM + 4 for each in words), default=0.0)
    over = 8.5 if chart.kind == "corner-to-corner" else 6.0
    made.box = (-SIDE_MM, -over, max(wide + 2 * SIDE_MM, longest + SIDE_MM), tall + over + 10.0 + 6.0 * len(words))
    return made


def _grounds(chart: Squares, facts: Facts) -> list[str]:
    """The ground of each yarn's squares: its own colour where the pattern tells any; of one yarn, a filled and an open mesh."""
    if len(chart.yarns) < 2:
        return [FILLED, OPEN]
    told = [(yarn, colour_of(yarn, facts)) for yarn in chart.yarns]
    if not any(has_colour(words) for _, words in told):
        return [TINTS[i % len(TINTS)] for i in range(len(told))]
    hues = shown(told)
    return [hexed(hues[yarn].rgb) for yarn, _ in told]


def _set(made: Chart, chart: Squares, square: Square, letters: tuple[str, ...], grounds: list[str]) -> None:
    yarn = chart.yarns.index(square.yarn)
    kind = square.kind(many=len(chart.yarns) > 1)
    glyph = f"sq-{slug(kind)}"
    if glyph not in made.glyphs:
        made.glyphs[glyph] = _shape(*((grounds[yarn], letters[yarn]) if len(chart.yarns) > 1 else _mesh(chart, square)))
    column = chart.columns - 1 - square.column if made.handed == "left" else square.column
    x, y = (column + 0.5) * CELL_MM, (chart.lines - square.line - 0.5) * CELL_MM
    made.marks.append(Mark(glyph, kind, round(x, 2), round(y, 2), 0.0, square.row, square.stitch, yarn))
    made.ties.append(Ties((x, y), ()))


def _mesh(chart: Squares, square: Square) -> tuple[str, str]:
    return (FILLED if square.filled and chart.kind == "filet" else OPEN), ""


def _shape(ground: str, letter: str) -> Shape:
    half = CELL_MM / 2
    parts = [rect(-half, -half, CELL_MM, CELL_MM, fill=ground, stroke="none")]
    if letter:
        parts.append(text(0, CELL_MM * 0.18, letter[:2], size_mm=2.2, anchor="middle", fill=_readable(ground), stroke="none"))
    return Shape("".join(parts), ((-half, 0.0, half, 0.0, half),))


def _readable(ground: str) -> str:
    r, g, b = (int(ground[i : i + 2], 16) for i in (1, 3, 5))
    return INK if 0.299 * r + 0.587 * g + 0.114 * b > 140 else "#ffffff"


def _grid(chart: Squares, wide: float, tall: float, handed: str) -> list[Stroke]:
    """Fine lines for every square, stronger ones for every fifth, counted from where the chart begins."""
    out = []
    for strong in (False, True):
        d = ""
        for c in range(chart.columns + 1):
            counted = chart.columns - c if handed == "right" else c
            if (counted % 5 == 0) == strong:
                d += move("M", c * CELL_MM, 0, "V", tall)
        for r in range(chart.lines + 1):
            if (r % 5 == 0) == strong:
                d += move("M", 0, tall - r * CELL_MM, "H", wide)
        out.append(Stroke(d, "grid", weight_mm=0.35 if strong else 0.12))
    return out


def _numbers(chart: Squares, made: Chart, wide: float, tall: float, handed: str) -> list[Label]:
    out: list[Label] = []
    for i, begins_right in enumerate(chart.begins_right):
        if begins_right is None:
            continue
        right = begins_right != (handed == "left")
        y = tall - (i + 0.5) * CELL_MM
        x = wide + 1.5 if right else -1.5
        ahead = -1.0 if right else 1.0
        d = move("M", x - ahead * 2.4, y, "L", x, y, "M", x - ahead * 0.8, y - 0.6, "L", x, y, "L", x - ahead * 0.8, y + 0.6)
        made.strokes.append(Stroke(d, "arrow", weight_mm=0.25))
        out.append(Label(chart.labels[i], x - ahead * 3.2, y + 0.9, 2.5, "start" if right else "end", "row", _row_of(chart, i)))
    for c in range(0, chart.columns, 5 if chart.columns > 9 else 1):
        number = c + 5 if chart.columns > 9 else c + 1
        if number <= chart.columns and chart.kind != "corner-to-corner":
            x = (chart.columns - number + 0.5) * CELL_MM if handed == "right" else (number - 0.5) * CELL_MM
            out.append(Label(str(number), x, tall + 3.4, 2.3, "middle", "note"))
    return out + (_diagonal_numbers(chart, made, tall, handed) if chart.kind == "corner-to-corner" else [])


def _row_of(chart: Squares, line: int) -> int:
    return next((square.row for square in chart.squares if square.line == line), 0)


def _diagonal_numbers(chart: Squares, made: Chart, tall: float, handed: str) -> list[Label]:
    """The number of each diagonal row outside the tile it begins with, and an arrow into that."""
    full = {(square.column, square.line) for square in chart.squares}
    first: dict[int, Square] = {}
    for square in chart.squares:
        if square.row not in first or square.stitch < first[square.row].stitch:
            first[square.row] = square
    out = []
    for label, (row, square) in zip(chart.labels, sorted(first.items()), strict=True):
        sides = ((0, -1), (-1, 0), (1, 0), (0, 1))
        dx, dy = next(((dx, dy) for dx, dy in sides if (square.column + dx, square.line + dy) not in full), (0, -1))
        column = chart.columns - 1 - square.column if handed == "left" else square.column
        dx = -dx if handed == "left" else dx
        # An arrow up to the tile's edge, and the number behind it.
        x, y = (column + 0.5 + 0.5 * dx) * CELL_MM + 0.7 * dx, tall - (square.line + 0.5 + 0.5 * dy) * CELL_MM - 0.7 * dy
        made.strokes.append(Stroke(_arrow_to(x, y, dx, -dy), "arrow", weight_mm=0.25))
        behind = 3.0 if dx else 4.2
        out.append(Label(label, x + behind * dx, y - behind * dy + 0.85, 2.3, {1: "start", -1: "end", 0: "middle"}[dx], "row", row))
    return out


def _arrow_to(x: float, y: float, dx: int, dy: int) -> str:
    """An arrow that comes from a side (`dx`, `dy` on paper) and ends at a point."""
    a, b = ((x + 0.8 * dx + 0.6 * side * dy, y + 0.8 * dy + 0.6 * side * dx) for side in (-1, 1))
    return move("M", x + 2.4 * dx, y + 2.4 * dy, "L", x, y, "M", *a, "L", x, y, "L", *b)


def _mesh_words(chart: Squares) -> list[str]:
    return ["filled mesh", "open mesh"] if chart.kind == "filet" else []


def _yarn_words(letter: str, yarn: str, facts: Facts) -> str:
    words = colour_of(yarn, facts)
    return f"{letter}  {words}" if words else (letter or "first yarn")


def _key(made: Chart, words: list[str], grounds: list[str], y: float) -> None:
    for i, (said, ground) in enumerate(zip(words, grounds, strict=False)):
        drawn = element("rect", x=0, y=0, width=CELL_MM, height=CELL_MM, fill=ground, stroke=QUIET, stroke_width=0.2)
        made.key.append((drawn, 0.0, y + i * 6.0))
        made.labels.append(Label(said, CELL_MM + 2.5, y + i * 6.0 + 3.1, 2.6, "start", "key"))


def _told(chart: Squares) -> str:
    """The text equivalent: every line in the order it is worked."""
    lines = [_TELL[chart.kind]]
    by_line: dict[int, list[Square]] = {}
    for square in chart.squares:
        by_line.setdefault(square.line, []).append(square)
    for i in range(chart.lines):
        row = sorted(by_line.get(i, []), key=lambda square: square.column)
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
