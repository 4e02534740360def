"""Pieces worked from corner to corner in a schematic: their rows lean between the sides, and grow from the lower left corner."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..measuring import PartMeasures, Tiles, yarn_of
from . import svg
from .dimensions import INK, across, arrow, leader, upright
from .labels import Box, Label, Sheet, measure_words, number_words
from .outline_frame import BESIDE, COLOURS_SHOWN, Frame


def draw_from_corner(sheet: Sheet, parts: Sequence[PartMeasures], frame: Frame) -> None:
    """The diagonals at which growth or colour changes, direction of work, both sides in every size."""
    tiled = [part.tiles for part in parts if part.tiles is not None]
    tiles = tiled[0]
    keys = [_turns(each) for each in tiled]
    alike = all(len(each) == len(keys[0]) for each in keys)
    words: dict[int, list[str]] = {}
    for i, index in enumerate(keys[0]):
        numbers = [part.rows[each[i]].number for part, each in zip(parts, keys, strict=True)] if alike else [parts[0].rows[index].number]
        words.setdefault(index, []).append(number_words("Row", numbers))
    for index, yarn in _colours(parts[0], tiles)[:COLOURS_SHOWN]:
        words.setdefault(index, []).append(f"{yarn} from Row {parts[0].rows[index].number}")
    left, right, over = [], [], []
    for index, lines in sorted(words.items()):
        (x1, y1), (x2, y2) = _diagonal(tiles, index, frame)
        if index not in (keys[0][0], keys[0][-1]):
            sheet.marks.append(svg.line(x1, y1, x2, y2, stroke=INK, stroke_width=0.2, stroke_dasharray="1.2 0.8"))
        told = " · ".join(lines)
        if x1 < 0.01:
            left.append((y1, Label((told,), -5.0, 0.0, 2.6, "end")))
        elif x2 > frame.width - 0.01:
            right.append((y2, Label((told,), frame.width + 6.0, 0.0, 2.6)))
        else:
            over.append((x1, Label((told,), x1, 0.0, 2.6, "middle")))
    for (y, _), label in zip(sorted(left, key=lambda pair: pair[0]), sheet.column(left), strict=True):
        sheet.marks.append(leader(-4.4, label.y + label.height / 2, -0.8, y))
    for (y, _), label in zip(sorted(right, key=lambda pair: pair[0]), sheet.column(right), strict=True):
        sheet.marks.append(leader(frame.width + 0.8, y, label.x - 0.6, label.y + label.height / 2))
    for x, label in over:
        y = sheet.above(label.box.x, label.box.x + label.width, -3.0) - label.height
        sheet.write(Label(label.lines, x, y, label.size_mm, "middle"))
        sheet.marks.append(leader(x, y + label.height, x, -0.4))
    _direction(sheet, frame)
    across(sheet, 0.0, frame.width, frame.height + 4.5, measure_words([part.width_cm for part in parts]), reach=frame.height + 0.8)
    beside = min([BESIDE, *(label.box.x - 5.0 for _, label in left for label in sheet.labels if label.anchor == "end")])
    upright(sheet, beside, 0.0, frame.height, measure_words([part.length_cm for part in parts]), reach=-0.8 if beside == BESIDE else None)


def _turns(tiles: Tiles) -> list[int]:
    """The rows (indices) at which growth changes: the first, the last of every run that grows, keeps or loses, and the last."""
    rows = list(dict.fromkeys(tile.row for tile in tiles.tiles))
    many = [len(tiles.of_row(row)) for row in rows]
    steps = [b - a for a, b in pairwise(many)]
    inner = [rows[i] for i in range(1, len(rows) - 1) if steps[i] != steps[i - 1]]
    return [rows[0], *inner, rows[-1]]


def _colours(part: PartMeasures, tiles: Tiles) -> list[tuple[int, str]]:
    """(row, yarn) of every row that begins with another yarn than the row before, the first included, where yarns are named."""
    rows = [part.part.rows[index] for index in dict.fromkeys(tile.row for tile in tiles.tiles)]
    found: list[tuple[int, str]] = []
    for row in rows:
        if yarn_of(row) and (not found or found[-1][1] != yarn_of(row)):
            found.append((row.index, yarn_of(row)))
    return found


def _diagonal(tiles: Tiles, index: int, frame: Frame) -> tuple[tuple[float, float], tuple[float, float]]:
    """The two ends of a row's diagonal on the paper, from its upper left to its lower right block, through the corners of its blocks."""
    row = tiles.of_row(index)
    first, last = min(row, key=lambda tile: tile.column), max(row, key=lambda tile: tile.column)
    side = tiles.side_cm
    upper = (frame.x(first.column * side), frame.y((first.line + 1) * side))
    lower = (frame.x((last.column + 1) * side), frame.y(last.line * side))
    return (upper, lower) if upper < lower else (lower, upper)


def _direction(sheet: Sheet, frame: Frame) -> None:
    """From the first corner towards the last, with RS beside it, where there is room."""
    if min(frame.width, frame.height) < 24:
        return
    step = -1.0 if frame.mirrored else 1.0
    x, y = frame.width / 2, frame.height / 2
    sheet.marks.append(arrow(x - step * 5, y + 5, x + step * 5, y - 5))
    label = Label(("RS",), x, y + 6.5, 3.2, "middle", "bold")
    sheet.boxes.append(Box(x - 6, y - 6, 12, 12))
    sheet.write(label)
