"""Where a piece is stretched or crowded: the map a designer needs to put increases where they are wanted."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import groupby
from typing import Final

import numpy as np

from ..measuring import Edge, PartMeasures, Stretch
from .cloth import DRAWS, Bools, Floats, Ints
from .piece import PartShape, node_stretch

TOO_FAR: Final = 0.15
"""Beyond 15 % it shows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A run of stitches of one row, all stretched (`worst` above 0) or all crowded by more than 15 %. Counted from 1 in the order they are
    worked; chains count with the stitch before them (0: before the first)."""

    first: int
    last: int
    worst: float

    @property
    def said(self) -> str:
        if self.first == self.last:
            return f"stitch {self.first}"
        return f"stitches {self.first} to {self.last}"


@dataclass(frozen=True, slots=True, kw_only=True)
class RowStretch:
    """One row: how many of its stitches are stretched or crowded by more than 15 % along the row or up it, the worst of each, and where."""

    index: int
    label: str
    stretched: int
    crowded: int
    worst_along: float
    worst_up: float
    places: tuple[Place, ...]

    @property
    def shows(self) -> bool:
        return self.stretched + self.crowded > 0

    @property
    def worst(self) -> float:
        return max(self.worst_along, self.worst_up, key=abs)


def stretched_rows(part: PartShape) -> tuple[RowStretch, ...]:
    """Every row with stitches stretched or crowded by more than 15 %; empty for a piece that lies as its gauge wants."""
    along, up = node_stretch(part)
    furthest = _further(along, up)
    found = []
    for r, row in enumerate(part.measures.part.rows):
        mine = slice(int(part.cloth.first[r]), int(part.cloth.first[r + 1]))
        a, b, far = along[mine], up[mine], furthest[mine]
        if not len(far):
            continue
        kind = np.sign(far).astype(np.int64) * (np.abs(far) > TOO_FAR)
        counted = set(row.stitches.counted())
        order = np.cumsum([int(e) in counted for e in part.cloth.rows[r].element])
        found.append(
            RowStretch(
                index=r, label=row.label, stretched=int((kind > 0).sum()), crowded=int((kind < 0).sum()), worst_along=_worst(a),
                worst_up=_worst(b), places=_places(kind, far, order),
            )
        )  # fmt: skip
    return tuple(row for row in found if row.shows)


def _further(along: Floats, up: Floats) -> Floats:
    """Of what each node is off along its row and up it, the worse."""
    return np.where(np.abs(along) > np.abs(up), along, up)


def _places(kind: Ints, far: Floats, order: Ints) -> tuple[Place, ...]:
    found = []
    for which, nodes in groupby(range(len(kind)), key=lambda i: int(kind[i])):
        run = list(nodes)
        if which:
            found.append(Place(first=int(order[run[0]]), last=int(order[run[-1]]), worst=_worst(far[run])))
    return tuple(found)


def too_far(part: PartShape) -> tuple[Bools, Bools]:
    """(stretched, crowded) by more than 15 %, for every node."""
    far = _further(*node_stretch(part))
    return far > TOO_FAR, far < -TOO_FAR


LASTS: Final = 4
"""An edge is called tight where it leans over so many rows at least: steps of single rows are lace and edgings (a judgement)."""


def tight_edge(edge: Edge, it: PartMeasures) -> tuple[str, str, float] | None:
    """(first row, last row, share) of the longest stretch of an edge that gains about a stitch in every row and whose end stitches are
    more than 15 % too short for it: at a slant s they would have to be 1 / cos s times as tall. That shaped edges are tight, and that a
    longer turning chain loosens them: Shaping Crochet Edges (Designing Vashti, designingvashti.blogspot.com, June 2009); the rest is
    geometry. What gains more in a row draws its edge in and bends (see `cloth`)."""
    tight = [s for s in edge.stretches if s.slant_deg > 0 and s.last - s.first + 1 >= LASTS and _lean_cm(s) <= DRAWS * it.scale.unit_cm]
    longest = max(tight, key=lambda s: s.length_cm, default=None)
    if longest is None:
        return None
    share = 1 / math.cos(math.radians(longest.slant_deg)) - 1
    return (it.part.rows[longest.first].label, it.part.rows[longest.last].label, share) if share > TOO_FAR else None


def _lean_cm(stretch: Stretch) -> float:
    """How far an edge goes outward in a row, on the mean."""
    return stretch.length_cm * math.sin(math.radians(stretch.slant_deg)) / max(1, stretch.last - stretch.first)


def _worst(values: Floats) -> float:
    return float(values[np.abs(values).argmax()])
