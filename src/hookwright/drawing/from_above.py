"""Flat round pieces in a schematic: seen from above, with the rounds where shaping or colour changes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..measuring import PartMeasures, Point
from . import svg
from .dimensions import INK, across, arrow, leader, upright
from .labels import Label, Sheet, measure_words, number_words
from .landmarks import colour_starts, key_rows
from .outline_frame import BESIDE, COLOURS_SHOWN, Frame


def draw_from_above(sheet: Sheet, parts: Sequence[PartMeasures], frame: Frame) -> None:
    """Rings, labels and the diameter, in every size."""
    part = parts[0]
    assert part.rounds is not None
    middle = (frame.width / 2, frame.height / 2)
    spine = part.rounds.spine_cm
    reach = part.rounds.rounds[-1].reach_cm + (0.0 if spine else part.rounds.start_girth_cm / math.tau)
    rings: list[tuple[float, str]] = []
    for start in colour_starts(part)[:COLOURS_SHOWN]:
        rings.append((start.v_cm / reach, f"{start.yarn} from Rnd {start.number}"))
    keys = [key_rows(each) for each in parts]
    if all(len(each) == len(keys[0]) for each in keys):
        for i, key in enumerate(keys[0]):
            done = next(each.reach_cm for each in part.rounds.rounds if each.index == key.index)
            rings.append((done / reach, number_words("Rnd", [each[i].number for each in keys])))
    _ring_labels(sheet, rings, frame, middle, part.right_side_outline(), spine)
    sheet.marks += [
        svg.circle(*middle, 0.6, fill=INK),
        arrow(middle[0], middle[1] - 2, middle[0], middle[1] - min(14.0, frame.height * 0.32)),
    ]
    if frame.width > 24:
        sheet.write(Label(("RS",), middle[0], middle[1] + 2.0, 3.2, "middle", "bold"))
    if spine:
        half = spine * frame.scale / 2
        sheet.marks.append(svg.line(middle[0] - half, middle[1], middle[0] + half, middle[1], stroke=INK, stroke_width=0.2))
    sides = [_extents(each) for each in parts if each.rounds is not None]
    across(sheet, 0.0, frame.width, frame.height + 4.5, measure_words([wide for wide, _ in sides]), reach=middle[1])
    if abs(sides[0][0] - sides[0][1]) > 0.01 * sides[0][0]:
        upright(sheet, BESIDE, 0.0, frame.height, measure_words([high for _, high in sides]), reach=-0.8)


def _extents(part: PartMeasures) -> tuple[float, float]:
    outline = part.right_side_outline()
    return max((x for x, _ in outline), default=0.0), max((y for _, y in outline), default=0.0)


def _ring_labels(
    sheet: Sheet, rings: list[tuple[float, str]], frame: Frame, middle: tuple[float, float], outline: Sequence[Point], spine: float
) -> None:  # fmt: skip
    """Where rounds begin or end, as dotted outlines inside the outline, with their labels in a column at the right."""
    x = frame.width + 6.0
    inward = sorted(rings, key=lambda ring: -ring[0])
    wanted = [(middle[1] - 0.35 * share * frame.height, Label((words,), x, 0.0, 2.6)) for share, words in inward]
    placed = sheet.column(wanted)
    half = spine * frame.scale / 2
    for (share, _), (y, _), label in zip(inward, wanted, placed, strict=True):
        ring = [_inward(u * frame.scale, frame.height - v * frame.scale, share, middle, half) for u, v in outline]
        if 0.02 < share < 0.98:
            sheet.marks.append(svg.polygon(ring, fill="none", stroke=INK, stroke_width=0.2, stroke_dasharray="1.2 0.8"))
        sheet.marks.append(leader(_right_side(ring, y, middle[0]), y, x - 0.6, label.y + label.height / 2))


def _inward(x: float, y: float, share: float, middle: tuple[float, float], half: float) -> tuple[float, float]:
    """A point of the outline drawn towards the middle, or towards the nearest point of an oval's chain."""
    core = middle[0] + min(max(x - middle[0], -half), half)
    return core + share * (x - core), middle[1] + share * (y - middle[1])


def _right_side(ring: Sequence[Point], y: float, otherwise: float) -> float:
    """Where a level line meets a polygon furthest to the right."""
    sides = zip(ring, [*ring[1:], ring[0]], strict=True)
    met = [x0 + (x1 - x0) * (y - y0) / (y1 - y0) for (x0, y0), (x1, y1) in sides if (y0 - y) * (y1 - y) < 0]
    return max(met, default=otherwise)
