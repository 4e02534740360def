"""The outline of a flat piece whose rows bend: as it lies relaxed, where its rows laid straight one on another do not fit."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from ..measuring import PartMeasures, Point
from ..measuring.corners import fans_of
from .cloth import Floats
from .piece import PartShape, most_error, shape_part
from .rims import Rim, first_rim, last_rim, side_rim
from .start import unroll

BENDS: Final = 0.05
"""A flat piece of which some stitch lies further than this, over its longer side, from where straight rows have it has rows that bend."""


WHOLE: Final = 0.8
"""The share of its fabric that the outline of a piece lying flat holds at least: less, and it lies over itself."""
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
    edges_cm: dict[str, float]
    """How long edges A and B are as it lies."""


def bends(part: PartShape) -> bool:
    """Whether the rows of a flat piece bend so much that it lies otherwise than its rows laid straight, and it lies well so."""
    it = part.measures
    if it.in_rounds or it.tiles is not None or not part.flat or not part.solved or part.error > most_error(part.cloth):
        return False
    if part.cloth.grounds:
        return True  # rows laid straight would leave its closed wedges open
    if not part.cloth.posts and not _turns(it):
        return False
    moved = np.linalg.norm(part.at - unroll(part.cloth), axis=1).max(initial=0.0)
    return bool(moved > BENDS * max(it.width_cm, it.length_cm))


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
    it = part.measures
    at = part.at[:, :2] * [-1.0 if it.a_stands_right(left_handed=left_handed) else 1.0, 1.0]
    lines = {r: _to_its_ends(part, at, r) for r in range(len(part.cloth.rows)) if len(part.cloth.rows[r].element)}
    sides = [_side(part, lines, high=high) for high in (True, False)]
    first, last = (_row_of(part, rim) for rim in (first_rim(part), last_rim(part)))
    begins = [at[[part.cloth.ring]]] if part.cloth.ring >= 0 else [_upward(part, lines[first], first)]
    around = np.concatenate([*begins, sides[0], _upward(part, lines[last], last)[::-1], sides[1][::-1]])
    around = around[np.concatenate([[True], np.linalg.norm(np.diff(around, axis=0), axis=1) > 1e-6])]
    edge = around if _area(around) >= 0 else around[::-1]
    if _area(edge) < WHOLE * _between_tops(it):
        return None  # it lies over itself: no outline of it would be true
    low = edge.min(axis=0)
    wide, long = np.ptp(edge, axis=0)
    return RelaxedOutline(
        outline=_points(edge - low), rows={r: _points(line - low) for r, line in lines.items()}, width_cm=float(wide),
        length_cm=float(long),
        edges_cm={name: _long(side) for name, side in zip("BA", sides, strict=True)},
    )  # fmt: skip


def _to_its_ends(part: PartShape, at: Floats, r: int) -> Floats:
    """The line along the top of a row, with the half stitch beyond its first and its last node."""
    line, sheet = at[int(part.cloth.first[r]) : int(part.cloth.first[r + 1])], part.cloth.rows[r]
    if len(line) < 2:
        return line
    before, after = line[0] - line[1], line[-1] - line[-2]
    ends = (float(sheet.centre[0]), float(sheet.total - sheet.centre[-1]))
    before, after = (step * half / max(float(np.linalg.norm(step)), 1e-9) for step, half in zip((before, after), ends, strict=True))
    return np.vstack([line[0] + before, line, line[-1] + after])


def _side(part: PartShape, lines: dict[int, Floats], *, high: bool) -> Floats:
    """An edge from the first row to the last, by the ends of its rows: without the teeth that single rows make."""
    found = []
    for node in side_rim(part, high=high).nodes:
        r = int(np.searchsorted(part.cloth.first, node, side="right")) - 1
        found.append(lines[r][0 if (part.measures.placed[r].direction > 0) != high else -1])
    return _evened(np.array(found))


def _row_of(part: PartShape, rim: Rim) -> int:
    return int(np.searchsorted(part.cloth.first, rim.nodes.min(), side="right")) - 1


def _upward(part: PartShape, line: Floats, r: int) -> Floats:
    """A row's line from edge A to edge B."""
    return line if part.measures.placed[r].direction > 0 else line[::-1]


def _area(line: Floats) -> float:
    x, y = line.T
    return float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1))) / 2


def _between_tops(it: PartMeasures) -> float:
    """The fabric's area by the trapezium rule, from row top to row top (along which rows are as long as the gauge says)."""
    rows = [row for row in it.rows if row.height_cm and row.index not in it.edging]
    tops = [(0.0, 0.0), *((row.width_cm, row.height_cm) for row in rows)]
    return sum((a[0] + b[0]) / 2 * b[1] for a, b in pairwise(tops))


def _long(line: Floats) -> float:
    return float(np.linalg.norm(np.diff(line, axis=0), axis=1).sum())


def outline_as_it_lies(measures: PartMeasures, *, left_handed: bool = False) -> RelaxedOutline | None:
    """As `relaxed_outline`, of a measured part: solved first, unless it is one that is laid out without."""
    if measures.in_rounds or measures.tiles is not None or measures.lies != "flat":
        return None
    return relaxed_outline(shape_part(measures, seconds=10.0), left_handed=left_handed)


def _evened(line: Floats) -> Floats:
    """A line with every point but its ends drawn half way to the middle of its neighbours."""
    if len(line) < 3:
        return line
    return np.vstack([line[0], (line[:-2] + 2 * line[1:-1] + line[2:]) / 4, line[-1]])


def _points(line: Floats) -> tuple[Point, ...]:
    return tuple((round(float(x), 3) + 0.0, round(float(y), 3) + 0.0) for x, y in line)
