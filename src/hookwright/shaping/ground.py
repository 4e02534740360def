"""What a row stands on where that is not one row alone: after short rows ("leave the rest unworked, turn") a row goes on over the places
that were left, step by step, and closes the wedge. The piece bends there, as a collar or a heel does.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final, TypeAlias

import numpy as np
import numpy.typing as npt

from ..measuring import Laid
from ..pattern import FLAT
from ..working.fabric import How, Role, RowWork

Floats: TypeAlias = npt.NDArray[np.float64]
Ints: TypeAlias = npt.NDArray[np.int64]
Bools: TypeAlias = npt.NDArray[np.bool_]

LEAST: Final = 2
"""Stitches on another row that make a run of it: one alone is a stitch worked into a row below (a spike)."""
_ON_TOP: Final = frozenset({How.TOP, How.FRONT_LOOP, How.BACK_LOOP})
_IN_CLOTH: Final = frozenset({Role.STITCH, Role.START_TOP, Role.CHAIN, Role.FOUNDATION})


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """The line a row stands on, in the order that row is worked: of every node the row it is of, its element there and its place along
    the line (cm). By element of the row itself: `feet`, where it stands, and whether it does (`stands`)."""

    rows: Ints
    elements: Ints
    centre: Floats
    total_cm: float
    feet: Floats
    stands: Bools


def ground_of(row: RowWork, rows: Sequence[RowWork], laid: Sequence[Laid]) -> Ground | None:
    """The ground of a row that goes on over places left on other rows; None for one that stands on one row (or reaches down in spikes)."""
    if row.made_in not in FLAT or row.foundation or len(set(row.stitches.foot_back)) < 2:
        return None
    feet = _feet(row)
    runs = [(r, [at for _, at in run]) for r, run in groupby(feet, key=lambda foot: foot[0])]
    if len(runs) < 2 or len({r for r, _ in runs}) < len(runs) or any(not 0 <= r < row.index or len(ats) < LEAST for r, ats in runs):
        return None
    if any(not _left(r, ats, row, rows) for r, ats in runs if r != row.below):
        return None
    return _joined(row, runs, rows, laid)


def _feet(row: RowWork) -> list[tuple[int, int]]:
    """(row, element) of every foot in the order worked; empty where one is not in the top of a stitch."""
    st = row.stitches
    found: list[tuple[int, int]] = []
    for back, at, how in zip(st.foot_back, st.foot_at, st.foot_how, strict=True):
        if how not in _ON_TOP or at < 0:
            return []
        found.append((row.index - back, at))
    return found


def _left(r: int, ats: Sequence[int], row: RowWork, rows: Sequence[RowWork]) -> bool:
    """Whether no row worked before this one stands in these places of row `r`."""
    mine = set(ats)
    for other in rows[r + 1 : row.index]:
        st = other.stitches
        back = other.index - r
        if any(b == back and at in mine for b, at in zip(st.foot_back, st.foot_at, strict=True)):
            return False
    return True


def _joined(row: RowWork, runs: Sequence[tuple[int, list[int]]], rows: Sequence[RowWork], laid: Sequence[Laid]) -> Ground:
    """The runs end to end."""
    place: dict[tuple[int, int], float] = {}
    nodes: list[tuple[int, int, float]] = []
    end = 0.0
    for r, ats in runs:
        step = 1 if ats[-1] >= ats[0] else -1
        for e in range(min(ats), max(ats) + 1)[::step]:
            wide = laid[r].width_cm[e]
            if rows[r].stitches.role[e] in _IN_CLOTH:
                nodes.append((r, e, end + wide / 2))
            place[r, e] = end + wide / 2
            end += wide
    st = row.stitches
    on = [[place[row.index - back, at] for back, at, _ in st.feet_of(i)] for i in range(len(st))]
    return Ground(
        rows=np.array([r for r, _, _ in nodes], dtype=np.int64), elements=np.array([e for _, e, _ in nodes], dtype=np.int64),
        centre=np.array([at for _, _, at in nodes]), total_cm=end,
        feet=np.array([sum(each) / len(each) if each else 0.0 for each in on]), stands=np.array([bool(each) for each in on]),
    )  # fmt: skip
