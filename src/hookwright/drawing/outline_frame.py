"""The frame of a schematic: from the fabric's centimetres to the drawing's millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..measuring import PartMeasures, Point

PAPER = "#f5f1e6"
MOST_MM = (120.0, 150.0)
"""Width and height an outline is drawn to at most."""
MOST_MM_PER_CM = 12.0
COLOURS_SHOWN = 12
BESIDE = -6.0


@dataclass(frozen=True, slots=True)
class Frame:
    """From the fabric's centimetres to the drawing's millimetres, y downward."""

    scale: float
    width: float
    height: float
    mirrored: bool
    low: float
    high: float

    def x(self, u: float) -> float:
        return self.scale * ((self.high - u) if self.mirrored else (u - self.low))

    def y(self, v: float) -> float:
        return self.height - self.scale * v


def frame_of(part: PartMeasures, outline: Sequence[Point], left_handed: bool) -> Frame:
    """The frame that a part's outline is drawn in."""
    wide, high = max(x for x, _ in outline), max(y for _, y in outline)
    scale = min(MOST_MM[0] / max(wide, 0.1), MOST_MM[1] / max(high, 0.1), MOST_MM_PER_CM)
    if part.rounds is not None:
        return Frame(scale, wide * scale, high * scale, False, -wide / 2, wide / 2)
    us = [u for u, _ in part.outline]
    if part.tiles is not None:
        return Frame(scale, wide * scale, high * scale, left_handed, min(us), max(us))
    return Frame(scale, wide * scale, high * scale, part.a_stands_right(left_handed=left_handed), min(us), max(us))
