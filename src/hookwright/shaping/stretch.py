"""Where a piece is stretched or crowded: the map a designer needs to put increases where they are wanted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from .piece import PartShape, node_stretch

TOO_FAR: Final = 0.15
"""Beyond 15 % it shows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowStretch:
    """One row: shares of its stitches that are stretched or crowded by more than 15 % along the row or up it, and the worst of each."""

    index: int
    label: str
    stretched: int
    crowded: int
    worst_along: float
    worst_up: float

    @property
    def shows(self) -> bool:
        return self.stretched + self.crowded > 0


def stretched_rows(part: PartShape) -> tuple[RowStretch, ...]:
    """Every row with stitches stretched or crowded by more than 15 %; empty for a piece that lies as its gauge wants."""
    along, up = node_stretch(part)
    found = []
    for r, row in enumerate(part.measures.part.rows):
        mine = slice(int(part.cloth.first[r]), int(part.cloth.first[r + 1]))
        a, b = along[mine], up[mine]
        if not len(a):
            continue
        found.append(
            RowStretch(
                index=r, label=row.label, stretched=int(((a > TOO_FAR) | (b > TOO_FAR)).sum()),
                crowded=int(((a < -TOO_FAR) | (b < -TOO_FAR)).sum()), worst_along=_worst(a), worst_up=_worst(b),
            )
        )  # fmt: skip
    return tuple(row for row in found if row.shows)


def _worst(values: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> float:
    return float(values[np.abs(values).argmax()])
