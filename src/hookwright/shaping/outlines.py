"""The outline of a flat piece whose rows bend: as it lies relaxed, where its rows laid straight one on another do not fit."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from ..measuring import PartMeasures, Point
from ..measuring.corners import fans_of
from ..working.fabric import How
from .cloth import Floats
from .piece import CANNOT_LIE, PartShape, shape_part
from .rims import first_rim, last_rim, side_rim

BENDS: Final = 0.05
"""A flat piece whose relaxed width or length differs from that of its rows laid straight by more than this has rows that bend."""


MOST: Final = 0.6
"""The share of its rows that turn a corner in a piece whose rows bend."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RelaxedOutline:
    """The outline of a flat piece as it lies, anticlockwise from (0, 0), right side up, edge A at the right for a right-hander (cm).

    `rows` are the lines along the tops of its rows, by row index, in the same places.
    """

    outline: tuple[Point, ...]
    rows: dict[int, tuple[Point, ...]]
    width_cm: float
    length_cm: float


def bends(part: PartShape) -> bool:
    """Whether the rows of a flat piece bend so much that it has another size than its rows laid straight, and it lies well so."""
    it = part.measures
    if it.in_rounds or it.tiles is not None or not part.flat or not part.solved or part.error > CANNOT_LIE or not _turns(it):
        return False
    pairs = ((part.width_cm, it.width_cm), (part.length_cm, it.length_cm))
    return any(b > 0 and abs(a / b - 1) > BENDS for a, b in pairs)


def _turns(measures: PartMeasures) -> bool:
    """Whether its rows turn a corner: most of them have increases inside the row, that stand in those of the row below."""
    rows = [row.stitches for row in measures.part.rows if not row.foundation and row.index not in measures.edging]
    turning = 0
    for below, row in pairwise(rows):
        turning += any(fan.first >= 2 and fan.last < len(row) - 2 for fan in fans_of(row, below))
    return len(rows) > 2 and turning >= MOST * (len(rows) - 1)


def relaxed_outline(part: PartShape, *, left_handed: bool = False) -> RelaxedOutline | None:
    """The outline of a piece whose rows bend; None for any other, whose outline is that of its rows laid straight."""
    if not bends(part):
        return None
    inset = part.measures.scale.unit_cm / 2
    ends = [row for row in range(len(part.cloth.rows)) if len(part.cloth.rows[row].element)]
    begins = [] if _from_ring(part.measures) else [first_rim(part).nodes]
    around = [side_rim(part, high=True).nodes, last_rim(part).nodes[::-1], side_rim(part, high=False).nodes[::-1]]
    nodes = np.concatenate([*begins, *around])
    nodes = nodes[np.concatenate([[True], nodes[1:] != nodes[:-1]])]
    at = part.at[:, :2] * [-1.0 if part.measures.a_stands_right(left_handed=left_handed) else 1.0, 1.0]
    edge = _outset(_evened(at[nodes]), inset)
    low = edge.min(axis=0)
    lines = {r: _points(at[int(part.cloth.first[r]) : int(part.cloth.first[r + 1])] - low) for r in ends}
    wide, long = np.ptp(edge, axis=0)
    return RelaxedOutline(outline=_points(edge - low), rows=lines, width_cm=float(wide), length_cm=float(long))


def outline_as_it_lies(measures: PartMeasures, *, left_handed: bool = False) -> RelaxedOutline | None:
    """As `relaxed_outline`, of a measured part: solved first, unless it is one that is laid out without."""
    if measures.in_rounds or measures.tiles is not None or measures.lies != "flat":
        return None
    return relaxed_outline(shape_part(measures, seconds=10.0), left_handed=left_handed)


def _from_ring(measures: PartMeasures) -> bool:
    """Whether the first row stands in a ring: both edges then begin there, and it has no first edge."""
    worked = [row for row in measures.part.rows if not row.foundation]
    return bool(worked) and int(How.RING) in worked[0].stitches.foot_how


def _evened(line: Floats) -> Floats:
    """A closed line without the teeth that single stitches make: every point drawn half way to the middle of its neighbours."""
    return np.asarray((np.roll(line, 1, axis=0) + 2 * line + np.roll(line, -1, axis=0)) / 4)


def _outset(line: Floats, by: float) -> Floats:
    """A closed line moved outward by half a stitch: nodes stand in the middle of their stitches."""
    x, y = line.T
    if float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1))) < 0:
        line = line[::-1]
    along = np.roll(line, -1, axis=0) - np.roll(line, 1, axis=0)
    out = np.column_stack([along[:, 1], -along[:, 0]])
    return np.asarray(line + by * out / np.maximum(np.linalg.norm(out, axis=1, keepdims=True), 1e-9))


def _points(line: Floats) -> tuple[Point, ...]:
    return tuple((round(float(x), 3) + 0.0, round(float(y), 3) + 0.0) for x, y in line)
