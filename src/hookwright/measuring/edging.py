"""Borders: whether a row worked along row ends, or over tops, has the stitches its edge asks for."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from ..working.fabric import How, Role, RowWork, Stitches
from .outline import Edge
from .scale import Scale

SLACK: Final = 0.15
"""Fabric takes up about this share too many or too few stitches and still lies flat (our solver's sweep over 5-22 a round; see docs)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """One run of border stitches along one edge, `along_cm` of it. From `flat_low` to `flat_high` stitches fit it without any slack."""

    index: int
    label: str
    stitches: int
    along_cm: float
    flat_low: float
    flat_high: float
    of: str = "row ends"
    """What the edge is of."""
    edge: str = ""
    """Of row ends, which edge: "A" or "B"."""
    whole: bool = False
    """Whether the run is all of its row."""

    @property
    def fullness(self) -> float:
        """Its stitches over those that fit: below 1 too few, above 1 too many."""
        return self.stitches / min(max(self.stitches, self.flat_low), self.flat_high)

    @property
    def right(self) -> int:
        """The number nearest to its own that fits."""
        return round(min(max(self.stitches, self.flat_low), self.flat_high))

    @property
    def flat_range(self) -> tuple[int, int]:
        """The fewest and the most that the edge takes up: with 15 % of slack, as for rounds."""
        return math.ceil((1 - SLACK) * self.flat_low - 1e-9), math.floor((1 + SLACK) * self.flat_high + 1e-9)

    @property
    def lies(self) -> Literal["flat", "pulls", "waves"]:
        """Short of 15 % too few or too many it lies flat (the fabric's slack, as for rounds)."""
        if self.fullness < 1 - SLACK:
            return "pulls"
        return "waves" if self.fullness > 1 + SLACK else "flat"

    @property
    def said(self) -> str:
        """A sentence with the right number."""
        told = f"{self.label} has {self.stitches} stitches along {self.along_cm:.1f} cm of {self.of}"
        if self.lies == "flat":
            few, many = self.flat_range
            return f"{told}: it lies flat, as {few} to {many} would."
        verb = "pull the edge in" if self.lies == "pulls" else "make it wave"
        return f"{told}: they {verb}; {self.right} would lie flat."


def borders_of(rows: Sequence[RowWork], edges: Mapping[str, Edge], scale: Scale) -> list[Border]:
    """Every run of stitches worked into row ends: the first run of a row along the edge it comes to first, the next along the other.

    A row with one run follows the edge where the row before it ended: edge B after a row that began at A. Of three runs that in the middle
    goes along the foundation, which has no row ends.
    """
    found: list[Border] = []
    for before, row in zip([None, *rows], rows, strict=False):
        if int(How.SIDE) not in row.stitches.foot_how:
            continue
        runs = list(_side_runs(row.stitches))
        if len(runs) == 3:
            del runs[1]
        names = ("B", "A") if before is None or before.begins != "B" else ("A", "B")
        for name, (first, last) in zip(names, runs, strict=False):
            width = sum(scale.width_cm(row.stitches.name(i)) for i in range(first, last))
            along = edges[name].length_cm
            if along <= 0 or width <= 0:
                continue
            n = last - first
            fits = n * along / width
            found.append(
                Border(
                    index=row.index, label=row.label, stitches=n, along_cm=along, flat_low=fits, flat_high=fits, edge=name,
                    whole=len(runs) == 1,
                )
            )  # fmt: skip
    return found


def _side_runs(st: Stitches) -> Iterator[tuple[int, int]]:
    """(first, one past the last) of each run of stitches and chains worked into row ends."""
    side = [_in_row_end(st, i) for i in range(len(st))]
    i = 0
    while i < len(st):
        if not side[i]:
            i += 1
            continue
        first = i
        while i < len(st) and (side[i] or st.role[i] == Role.CHAIN):
            i += 1
        yield first, i


def _in_row_end(st: Stitches, i: int) -> bool:
    return st.role[i] in (Role.STITCH, Role.START_TOP) and any(how == How.SIDE for _, _, how in st.feet_of(i))
