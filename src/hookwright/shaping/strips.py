"""Strips that stand on an edge of another part: borders, edgings, rows along row ends."""

from __future__ import annotations

import math

import numpy as np

from .cloth import Floats
from .joined import Whole
from .piece import PartShape
from .rims import Rim, feet_along


def strip_row(part: PartShape) -> int:
    """The first row of a strip that has anything in it."""
    return next((r for r, sheet in enumerate(part.cloth.rows) if len(sheet.element)), 0)


def stand_on(whole: Whole, part: PartShape, rim: Rim, *, waves: float = 0.0) -> int:
    """Put a strip on a rim of what is there already: its first row tied to it, its other rows outside that; gives its first node's number.

    `waves`: how many times longer it is than its edge, where it begins in waves.
    """
    filled = [r for r, sheet in enumerate(part.cloth.rows) if len(sheet.element)]
    sheet = part.cloth.rows[filled[0]]
    height = np.full(len(sheet.element), part.measures.laid[filled[0]].height_cm) + rim.inset
    share = sheet.centre / max(sheet.total, 1e-9)
    feet = feet_along(whole.at, rim, share, float(height[0]) if len(height) else 0.0)
    start = np.zeros((part.cloth.nodes, 3))
    mine = slice(int(part.cloth.first[filled[0]]), int(part.cloth.first[filled[0] + 1]))
    start[mine] = feet.place
    out = np.zeros_like(start)
    out[mine] = feet.out
    for r in filled[1:]:
        _grow(part, r, start, out)
    steep = math.sqrt(min(waves, 3.0) ** 2 - 1) if waves > 1 else 0.0
    for r in filled if steep else ():
        row = slice(int(part.cloth.first[r]), int(part.cloth.first[r + 1]))
        period = 8 * max(part.measures.laid[r].height_cm, whole.unit)
        start[row, 2] += steep * period / math.tau * np.sin(math.tau * part.cloth.rows[r].centre / period)
    first = whole.add(part, start)
    whole.stand(first + np.arange(mine.start, mine.stop), feet, height)
    return first


def _grow(part: PartShape, r: int, start: Floats, out: Floats) -> None:
    """Put a round of a border outside the one it stands on (in place)."""
    sheet, base = part.cloth.rows[r], part.cloth.base[r]
    mine = slice(int(part.cloth.first[r]), int(part.cloth.first[r + 1]))
    stands = np.flatnonzero(sheet.stands)
    if base < 0 or not len(stands):
        return
    under = part.cloth.under(r, sheet.foot[stands])
    share = sheet.share[stands, None]
    foot = (1 - share) * start[under[:, 0]] + share * start[under[:, 1]]
    away = (1 - share) * out[under[:, 0]] + share * out[under[:, 1]]
    n = np.arange(len(sheet.element))
    for k in range(3):
        start[mine, k] = np.interp(n, stands, foot[:, k] + sheet.height[stands] * away[:, k])
        out[mine, k] = np.interp(n, stands, away[:, k])
