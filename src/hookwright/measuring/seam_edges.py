"""Edges that a seam brings together, and how far they differ: stitches beside stitches, rows beside rows, centimetres beside both."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal, TypeAlias

from ..working.fabric import RowWork, SeamWork
from .measures import Measures, PartMeasures

EASE: Final = 0.05
"""An edge may be longer by this share than the one it is sewn to and be eased in unseen (common practice, no source)."""

Which: TypeAlias = Literal["first row", "last row", "side", "edge"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamEdge:
    """One edge of a part: `steps` stitches of a row (rows, along a side) that are `long_cm` together. `row` is an index; None of a side."""

    part: int
    name: str
    which: Which
    row: int | None
    steps: int
    long_cm: float
    plain: bool
    """Whether its stitches are counted one by one, with no chains between them."""

    @property
    def unit(self) -> str:
        return "rows" if self.which == "side" else "stitches"


@dataclass(frozen=True, slots=True, kw_only=True)
class UnequalEdges:
    """Two edges that are joined and differ by more than `EASE`."""

    seam: SeamWork
    longer: SeamEdge
    shorter: SeamEdge

    @property
    def more(self) -> float:
        """By which share the longer is longer."""
        return self.longer.long_cm / self.shorter.long_cm - 1

    @property
    def right(self) -> int:
        """The steps with which the longer edge would be as long as the shorter."""
        return max(1, round(self.longer.steps / (1 + self.more)))


def unequal_edges(measures: Measures) -> Iterator[UnequalEdges]:
    """Every pair of edges that a seam joins and that differ, in the order of the seams."""
    for seam in measures.fabric.seams:
        for one, other in _pairs(seam, measures):
            short, long = sorted((one, other), key=lambda edge: edge.long_cm)
            unlike = short.plain and long.plain and abs(long.steps - short.steps) <= EASE * short.steps and short.unit == long.unit
            if short.long_cm > 0 and long.steps and long.long_cm / short.long_cm - 1 > EASE and not unlike:
                yield UnequalEdges(seam=seam, longer=long, shorter=short)


def _pairs(seam: SeamWork, measures: Measures) -> Iterator[tuple[SeamEdge, SeamEdge]]:
    """The edges that meet: as told; sides where pieces are closed along them; a base and a rim; motif and motif."""
    told, parts = seam.seam, [(i, measures.parts[i]) for i in seam.parts if measures.parts[i].part.rows]
    if told.kind == "motifs":
        rims = [_rim(i, part) for i, part in parts if part.rounds is not None]
        yield from pairwise(rims)
    if len(parts) != 2:
        return
    if told.kind == "base":
        rim, body = _rim(*parts[0]), parts[1][1]
        ends = [_row_edge(*parts[1], which) for which in ("first row", "last row")] if body.in_rounds else []
        yield from [(rim, min(ends, key=lambda end: abs(end.long_cm - rim.long_cm)))] if ends else []
    elif len(told.meets) == 2:
        order = [next((each for each in parts if each[1].name == name), None) for name in told.parts]
        edges = [_named_edge(*each, meets) for each, meets in zip(order, told.meets, strict=False) if each is not None]
        yield from [(edges[0], edges[1])] if len(edges) == 2 else []
    elif told.kind == "edges" and set(told.edges) & {"sides", "three sides", "all round"}:
        yield _side(*parts[0]), _side(*parts[1])
        if set(told.edges) & {"three sides", "all round"}:
            yield _row_edge(*parts[0], "last row"), _row_edge(*parts[1], "last row")


def _named_edge(i: int, part: PartMeasures, meets: str) -> SeamEdge:
    return _side(i, part) if meets == "side" else _row_edge(i, part, "first row" if meets == "first" else "last row")


def _row_edge(i: int, part: PartMeasures, which: Which) -> SeamEdge:
    rows = [row for row in part.part.rows if not row.foundation] or list(part.part.rows)
    row = rows[0 if which == "first row" else -1]
    long = part.laid[row.index].total_cm
    return SeamEdge(part=i, name=part.name, which=which, row=row.index, steps=row.counted.total, long_cm=long, plain=_plain(row))


def _rim(i: int, part: PartMeasures) -> SeamEdge:
    """The edge round a piece: the last round's girth."""
    edge = _row_edge(i, part, "last row")
    return SeamEdge(part=i, name=part.name, which="edge", row=edge.row, steps=edge.steps, long_cm=edge.long_cm, plain=edge.plain)


def _side(i: int, part: PartMeasures) -> SeamEdge:
    rows = [row for row in part.part.rows if not row.foundation]
    straight = len({row.counted.total for row in rows}) == 1
    return SeamEdge(part=i, name=part.name, which="side", row=None, steps=len(rows), long_cm=part.length_cm, plain=straight)


def _plain(row: RowWork) -> bool:
    """Whether every element of a row is a counted stitch (or a turning chain that counts as one)."""
    return row.counted.total > 0 and len(row.stitches) <= row.counted.total + 4
