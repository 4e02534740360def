"""Rows worked flat that hold more stitches than any plane has room for: a ruffled edging, a frill."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .cloth import Cloth


@dataclass(frozen=True, slots=True, kw_only=True)
class FullRow:
    """A row with too many stitches to lie flat. `straight`: with how many it would lie straight on the row below."""

    index: int
    label: str
    stitches: int
    straight: int

    @property
    def said(self) -> str:
        return f"{self.label} has {self.stitches - self.straight} stitches too many to lie flat; {self.straight} would."


def fullness(cloth: Cloth) -> list[float]:
    """For every row worked flat, its width over that of its feet: 1 where it lies straight on the row below, more where it crowds it."""
    found = []
    for sheet in cloth.rows:
        along = sheet.along[sheet.stands]
        spread = float(np.ptp(along)) if len(along) > 1 else 0.0
        held = float(np.ptp(sheet.centre[sheet.stands])) if len(along) > 1 else 0.0
        found.append(held / spread if spread > 1e-9 and held > spread else 1.0)
    return found


def too_full(cloth: Cloth) -> bool:
    """Whether some run of rows worked flat grows faster, between its edges, than even a full circle could: it ruffles."""
    return bool(_runs(cloth))


def full_rows(cloth: Cloth) -> tuple[FullRow, ...]:
    """The rows in which it does, each with the number that would lie straight on the row below."""
    found = []
    for r, full in _runs(cloth).items():
        sheet, many = cloth.rows[r], cloth.measures.rows[r].stitches
        held = float(np.ptp(sheet.centre[sheet.stands]))
        ends = sheet.total - held
        spread = min(held / full, float(np.ptp(cloth.rows[cloth.base[r]].centre))) if cloth.base[r] >= 0 else held / full
        straight = max(1, round(many * (spread + ends) / sheet.total))
        found.append(FullRow(index=r, label=cloth.measures.part.rows[r].label, stitches=many, straight=straight))
    return tuple(found)


def _runs(cloth: Cloth) -> dict[int, float]:
    """The growing rows (index: fullness) of every run that grows faster than a full circle could.

    Rows that fan out round their foot grow by pi heights a row over a half circle, by 2 pi over a whole one.
    """
    found: dict[int, float] = {}
    pending: dict[int, float] = {}
    run, over = 0.0, False
    for r, (sheet, full, laid) in enumerate(zip(cloth.rows, fullness(cloth), cloth.measures.laid, strict=True)):
        run += sheet.total * (1 - 1 / full) - 1.15 * 2 * np.pi * laid.height_cm
        if run <= 0:
            run, over, pending = 0.0, False, {}
            continue
        if full > 1:
            pending[r] = full
        over = over or run > 2 * np.pi * laid.height_cm
        if over:
            found |= pending
    return found
