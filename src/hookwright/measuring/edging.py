"""Borders: whether a row worked along row ends, or over tops, has the stitches its edge asks for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from ..working.fabric import How, Role, RowWork, Stitches
from .outline import Edge
from .scale import Scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """One run of border stitches along one edge. `right` is the number that lies flat along `along_cm`."""

    index: int
    label: str
    stitches: int
    along_cm: float
    right: int
    fullness: float
    of: str = "row ends"
    """What the edge is of."""
    edge: str = ""
    """Of row ends, which edge: "A" or "B"."""
    whole: bool = False
    """Whether the run is all of its row."""

    @property
    def lies(self) -> Literal["flat", "pulls", "waves"]:
        """Short of 15 % too few or too many it lies flat (the fabric's slack, as for rounds)."""
        if self.fullness < 0.85:
            return "pulls"
        return "waves" if self.fullness > 1.15 else "flat"

    @property
    def said(self) -> str:
        """A sentence with the right number."""
        told = f"{self.label} has {self.stitches} stitches along {self.along_cm:.1f} cm of {self.of}"
        if self.lies == "flat":
            return f"{told}: it lies flat."
        verb = "pull the edge in" if self.lies == "pulls" else "make it wave"
        return f"{told}: they {verb}; {self.right} would lie flat."


def borders_of(rows: Sequence[RowWork], edges: Mapping[str, Edge], scale: Scale) -> list[Border]:
    """Every run of stitches worked into row ends: the first run of a row along the edge it comes to first, the next along the other.

    A row with one run follows the edge where the row before it ended: edge B after a row that began at A.
    """
    found: list[Border] = []
    for before, row in zip([None, *rows], rows, strict=False):
        if int(How.SIDE) not in row.stitches.foot_how:
            continue
        runs = list(_side_runs(row.stitches))
        names = ("B", "A") if before is None or before.begins != "B" else ("A", "B")
        for name, (first, last) in zip(names, runs, strict=False):
            width = sum(scale.width_cm(row.stitches.name(i)) for i in range(first, last))
            along = edges[name].length_cm
            if along <= 0 or width <= 0:
                continue
            n, fullness = last - first, width / along
            found.append(
                Border(
                    index=row.index, label=row.label, stitches=n, along_cm=along, right=round(n / fullness), fullness=fullness, edge=name,
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
