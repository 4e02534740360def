"""Borders worked round a whole piece, or round pieces put together: their width, and the stitches that would lie flat."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from ..pattern import FLAT, Make
from ..working.fabric import How, RowWork
from ..working.round_the_edge import goes_along_the_edge
from .edging import Border
from .elements import Laid


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundBorder:
    """A border of rounds. `wide_cm` is what it adds at every side; `rounds` its rounds beside the edge they lie along."""

    wide_cm: float
    rounds: tuple[Border, ...]

    @property
    def worst(self) -> Border | None:
        """The round that is furthest from lying flat; None where all do."""
        off = [each for each in self.rounds if each.lies != "flat"]
        return max(off, key=lambda each: abs(math.log(max(each.fullness, 1e-3))), default=None)


def goes_round_an_edge(rows: Sequence[RowWork]) -> bool:
    """Whether a part of rounds begins along the edge of other pieces: on no ring, no chain and no row but the row ends of another part."""
    first = rows[0] if rows else None
    if first is None or first.foundation or first.made_in in FLAT:
        return False
    if first.below is not None and not (first.below < 0 and (int(How.SIDE) in first.stitches.foot_how or _spread_out(first))):
        return False
    if any(isinstance(step, Make) and (step.at.where == "skipped" or step.at.row is not None) for step in first.written.steps):
        return False  # a thumb, a heel: round an opening that was left, and along no edge
    return int(How.RING) not in first.stitches.foot_how and len(rows[0].stitches) > 1


MORE_THAN_FIT: Final = 1.5
"""Over the places of the row before it, from so many stitches on "evenly around" tells of more than that row (a judgement)."""


def _spread_out(row: RowWork) -> bool:
    """Whether a round told "evenly around" has far more stitches than the row before it has places: it goes on round the other edges."""
    if not any(isinstance(step, Make) and step.evenly for step in row.written.steps):
        return False
    made = [*row.stitches.counted()]
    places = {at for i in made for _, at, _ in row.stitches.feet_of(i)}
    return len(made) >= MORE_THAN_FIT * len(places)


def border_round(name: str, rows: Sequence[RowWork], laid: Sequence[Laid], edge_cm: float) -> RoundBorder:
    """The rounds of a border along an edge of `edge_cm`.

    k rounds out the edge is longer by 2 pi heights where the corners are rounded and by 8 where they are square (geometry, as for flat
    polygons): any number of stitches between the two lies flat. From a round on that is told without a count ("sc evenly up the side") how
    many stitches there are is not known, and nothing is said of them.
    """
    found, reach, known = [], 0.0, True
    for row in rows:
        here = laid[row.index]
        known = known and (bool(row.stated) or not goes_along_the_edge(row.written.steps))
        n = sum(1 for _ in row.stitches.counted())
        if not n or here.total_cm <= 0:
            continue
        reach += here.height_cm
        low, high = edge_cm + math.tau * reach, edge_cm + 8 * reach
        if not known:
            continue
        label, unit = f"{name} {row.label}".strip(), here.total_cm / n
        found.append(Border(index=row.index, label=label, stitches=n, along_cm=low, flat_low=low / unit, flat_high=high / unit, of="edge"))
    return RoundBorder(wide_cm=reach, rounds=tuple(found))
