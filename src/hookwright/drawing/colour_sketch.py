"""Where the colours of one part lie: runs of stitches as shapes, in cm. Flat rows where they stand, tubes cut open, rounds as rings."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from ..measuring import PartMeasures, Placed, Point, Tiles
from ..working.fabric import RowWork
from . import svg

Coloured: TypeAlias = Sequence[tuple[RowWork, Sequence[tuple[int, str]]]]
"""Rows in worked order, each with the first element of every run of colour and the colour's key."""
SEAM_CM = 0.03
"""Rows and rings reach so far under their neighbours that no hairline of paper shows between them."""


@dataclass(frozen=True, slots=True)
class _Stretch:
    """The longest stretch of one row: its middle and width, top and bottom of the row, its colour (cm)."""

    middle: float
    wide: float
    top: float
    bottom: float
    key: str


@dataclass(slots=True)
class Sketch:
    """A panel being drawn: path data of every colour, letters, and its size in cm before scaling. y is downward, mm."""

    wide: float
    high: float
    paths: dict[str, list[str]] = field(default_factory=dict)
    letters: list[tuple[float, float, str, float]] = field(default_factory=list)
    """(x, y, colour key, room): where a letter may stand, and how much room there is, all in cm."""
    clip: Sequence[Point] = ()
    outline: Sequence[Point] = ()
    round: bool = False

    def put(self, key: str, data: str) -> None:
        self.paths.setdefault(key, []).append(data)


def sketch_part(part: PartMeasures, rows: Coloured, *, left_handed: bool = False) -> Sketch:
    """The shapes of one part, right side up, Row 1 at the bottom or the first round in the middle."""
    if part.in_rounds and part.lies != "tube":
        return _rings(part, rows, left_handed)
    if part.tiles is not None:
        return _blocks(part, part.tiles, rows, left_handed)
    if part.in_rounds:
        return _unrolled(part, rows, left_handed)
    return _flat(part, rows, left_handed)


def _spans(part: PartMeasures, row: RowWork, runs: Sequence[tuple[int, str]]) -> Iterator[tuple[float, float, str]]:
    """The runs of a row as lengths along it, cm from where it began."""
    laid = part.laid[row.index]
    starts = [max(0.0, laid.centre_cm[i] - laid.width_cm[i] / 2) for i, _ in runs]
    ends = [*starts[1:], laid.total_cm]
    for (_, key), start, end in zip(runs, [0.0, *starts[1:]] if starts else [], ends, strict=True):
        if end - start > 1e-6:
            yield start, end, key


def _flat(part: PartMeasures, rows: Coloured, left_handed: bool) -> Sketch:
    """Row upon row where they stand; ragged row ends are cut to the outline."""
    mirrored = part.a_stands_right(left_handed=left_handed)
    us, vs = [u for u, _ in part.outline] or [0.0, 1.0], [v for _, v in part.outline] or [0.0, 1.0]
    low, high, bottom, top = min(us), max(us), min(vs), max(vs)

    def x(u: float) -> float:
        return (high - u) if mirrored else (u - low)

    sketch = Sketch(high - low, top - bottom)
    sketch.outline = [(x(u), top - v) for u, v in part.outline]
    sketch.clip = sketch.outline
    over = part.scale.unit_cm * 1.2
    for row, runs in rows:
        placed = part.placed[row.index]
        height = placed.top - placed.bottom
        if row.foundation or abs(height) < 1e-9:
            continue
        spans = list(_spans(part, row, runs))
        for n, (start, end, key) in enumerate(spans):
            start -= over if n == 0 and not _ledge(placed, first=True) else 0.0
            end += over if n == len(spans) - 1 and not _ledge(placed, first=False) else 0.0
            left, right = sorted((x(placed.start + placed.direction * start), x(placed.start + placed.direction * end)))
            sketch.put(key, _box(left, top - max(placed.top, placed.bottom), right, top - min(placed.top, placed.bottom) + SEAM_CM))
    _letters_in_rows(sketch, part, rows, x, top)
    return sketch


def _blocks(part: PartMeasures, tiles: Tiles, rows: Coloured, left_handed: bool) -> Sketch:
    """Block beside block, each in the colour that its chain was worked in; one letter for every colour, in the middle of its first row."""
    side, wide, high = tiles.side_cm, part.width_cm, part.length_cm
    runs_of = {row.index: runs for row, runs in rows}

    def x(u: float) -> float:
        return wide - u if left_handed else u

    sketch = Sketch(wide, high, outline=[(x(u), high - v) for u, v in tiles.outline()])
    lettered = ""
    for index in dict.fromkeys(tile.row for tile in tiles.tiles):
        for tile in tiles.of_row(index):
            key = next((key for first, key in reversed(runs_of.get(index, [])) if first <= tile.chain[0]), "")
            left, right = sorted((x(tile.column * side), x((tile.column + 1) * side)))
            sketch.put(key, _box(left, high - (tile.line + 1) * side, right, high - tile.line * side + SEAM_CM))
        middle = tiles.of_row(index)[len(tiles.of_row(index)) // 2]
        if key != lettered:
            sketch.letters.append((x((middle.column + 0.5) * side), high - (middle.line + 0.5) * side, key, side))
            lettered = key
    return sketch


def _ledge(placed: Placed, *, first: bool) -> bool:
    """Whether the piece steps at that end of the row: then nothing is laid beyond it."""
    at_low = first == (placed.direction > 0)
    return placed.ledge_low if at_low else placed.ledge_high


def _letters_in_rows(sketch: Sketch, part: PartMeasures, rows: Coloured, x: Callable[[float], float], top: float) -> None:
    """One letter for each band of rows, in its tallest stretch."""
    band: list[_Stretch] = []
    for row, runs in rows:
        placed = part.placed[row.index]
        spans = list(_spans(part, row, runs)) if not row.foundation else []
        if not spans:
            continue
        start, end, key = max(spans, key=lambda span: span[1] - span[0])
        middle = x(placed.start + placed.direction * (start + end) / 2)
        if band and band[-1].key != key:
            _letter_band(sketch, band)
            band = []
        band.append(_Stretch(middle, end - start, top - placed.top, top - placed.bottom, key))
    if band:
        _letter_band(sketch, band)


def _letter_band(sketch: Sketch, band: Sequence[_Stretch]) -> None:
    upper, lower = min(min(one.top, one.bottom) for one in band), max(max(one.top, one.bottom) for one in band)
    wide = sorted(band, key=lambda one: (-one.wide, abs(one.top - (upper + lower) / 2)))[0]
    middle = (upper + lower) / 2 if band[len(band) // 2].wide >= 0.8 * wide.wide else (wide.top + wide.bottom) / 2
    at = band[len(band) // 2] if band[len(band) // 2].wide >= 0.8 * wide.wide else wide
    sketch.letters.append((at.middle, middle, at.key, min(lower - upper, at.wide)))


def _unrolled(part: PartMeasures, rows: Coloured, left_handed: bool) -> Sketch:
    """A tube cut open where its rounds begin and laid flat."""
    wide = max((part.laid[row.index].total_cm for row, _ in rows), default=1.0)
    high = sum(part.laid[row.index].height_cm for row, _ in rows if not row.foundation)
    sketch = Sketch(wide, high, outline=[(0, 0), (wide, 0), (wide, high), (0, high)])
    at = high
    band: list[_Stretch] = []
    for row, runs in rows:
        height = 0.0 if row.foundation else part.laid[row.index].height_cm
        forward = (row.direction > 0) == left_handed
        spans = list(_spans(part, row, runs)) if height else []
        for start, end, key in spans:
            left, right = (start, end) if forward else (wide - end, wide - start)
            sketch.put(key, _box(left, at - height, right, at))
        if spans:
            start, end, key = max(spans, key=lambda span: span[1] - span[0])
            if band and band[-1].key != key:
                _letter_band(sketch, band)
                band = []
            middle = (start + end) / 2
            band.append(_Stretch(middle if forward else wide - middle, end - start, at - height, at, key))
        at -= height
    if band:
        _letter_band(sketch, band)
    return sketch


def _rings(part: PartMeasures, rows: Coloured, left_handed: bool) -> Sketch:
    """Rounds as rings from the middle, seen from the right side: a right-hander's run against the clock, from below."""
    rounds = part.rounds
    inner = rounds.start_girth_cm / (2 * math.pi) if rounds is not None else 0.0
    heights = {row.index: 0.0 if row.foundation else part.laid[row.index].height_cm for row, _ in rows}
    outer = inner + sum(heights.values())
    sketch = Sketch(2 * outer, 2 * outer, round=True)
    radius = inner
    band: tuple[str, float, float] | None = None
    for row, runs in rows:
        height, total = heights[row.index], part.laid[row.index].total_cm
        if not height or not total:
            continue
        way = (1 if row.direction >= 0 else -1) * (-1 if left_handed else 1)
        longest = (0.0, 0.0, "")
        for start, end, key in _spans(part, row, runs):
            a, b = (2 * math.pi * each / total for each in (start, end))
            sketch.put(key, _sector(outer, max(0.0, radius - SEAM_CM), radius + height, a, b, way))
            if b - a > longest[0]:
                longest = (b - a, (a + b) / 2, key)
        whole = longest[0] > 2 * math.pi - 1e-6
        if band is not None and not (whole and band[0] == longest[2]):
            sketch.letters.append(_ring_letter(outer, *band))
            band = None
        if whole:
            band = (longest[2], band[1] if band else radius, radius + height)
        elif longest[2]:
            x, y = _round_point(outer, radius + height / 2, longest[1], way)
            sketch.letters.append((x, y, longest[2], min(height, longest[0] * (radius + height / 2))))
        radius += height
    if band is not None:
        sketch.letters.append(_ring_letter(outer, *band))
    return sketch


def _ring_letter(middle: float, key: str, low: float, high: float) -> tuple[float, float, str, float]:
    """The letter of a band of whole rounds: in its middle, above; in the very middle for a disc."""
    if low == 0:
        return middle, middle, key, high
    return middle, middle - (low + high) / 2, key, high - low


def _round_point(middle: float, radius: float, angle: float, way: int) -> tuple[float, float]:
    """A point of a round, cm, y downward: from below, against the clock for way 1."""
    return middle + way * radius * math.sin(angle), middle + radius * math.cos(angle)


def _sector(middle: float, low: float, high: float, start: float, end: float, way: int) -> str:
    """Data of a piece of a ring; the scale is put in later, so numbers stand between marks.

    Long pieces are halved: an arc of half a circle whose ends are rounded has its middle anywhere.
    """
    if end - start > math.pi / 2:
        half = (start + end) / 2
        return _sector(middle, low, high, start, half, way) + _sector(middle, low, high, half, end, way)
    (x1, y1), (x2, y2) = _round_point(middle, high, start, way), _round_point(middle, high, end, way)
    (x3, y3), (x4, y4) = _round_point(middle, low, end, way), _round_point(middle, low, start, way)
    sweep = 0 if way > 0 else 1
    outward = f"M{x1!r} {y1!r}A{high!r} {high!r} 0 0 {sweep} {x2!r} {y2!r}"
    inward = f"L{x3!r} {y3!r}" + (f"A{low!r} {low!r} 0 0 {1 - sweep} {x4!r} {y4!r}" if low > 1e-9 else "")
    return f"{outward}{inward}Z"


def _box(left: float, top: float, right: float, bottom: float) -> str:
    return f"M{left!r} {top!r}L{right!r} {top!r}L{right!r} {bottom!r}L{left!r} {bottom!r}Z"


def scaled(data: str, scale: float, x: float, y: float) -> str:
    """Path data in cm put to its place in mm, numbers rounded."""
    out: list[str] = []
    for piece in data.replace("Z", "Z|").split("|"):
        at = 0
        while at < len(piece):
            letter = piece[at]
            end = next((i for i in range(at + 1, len(piece)) if piece[i] in "MLAZ"), len(piece))
            values = [float(value) for value in piece[at + 1 : end].split()]
            if letter == "A":
                r, _, _, large, sweep, px, py = values
                out.append(
                    f"A{svg.num(r * scale)} {svg.num(r * scale)} 0 {int(large)} {int(sweep)} {svg.num(x + px * scale)} "
                    f"{svg.num(y + py * scale)}"
                )
            elif letter == "Z":
                out.append("Z")
            else:
                out.append(f"{letter}{svg.num(x + values[0] * scale)} {svg.num(y + values[1] * scale)}")
            at = end
    return "".join(out)
