"""Rounds with corners: increases stacked one over the other make sides that lie straight and meet in mitres, as the rows of a square do.

Between two corners the stitches stand straight over the side below, middle over middle; what a side is longer than the one below lies
beyond its corners, half at each end, and stands on the corner itself, in the mitre (geometry; that stacked increases make corners:
`measuring.corners`). Chains stand on nothing, yet the round around them keeps them as far out as the stitches beside them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, TypeAlias

import numpy as np
import numpy.typing as npt

from ..measuring import Laid
from ..measuring.corners import Fan, carried, fans_of
from ..pattern import FLAT
from ..working.fabric import Role, RowWork, Stitches

Floats: TypeAlias = npt.NDArray[np.float64]
Ints: TypeAlias = npt.NDArray[np.int64]
Bools: TypeAlias = npt.NDArray[np.bool_]

NEAR: Final = 2.2
"""Within so many stitches of a corner of the round below a corner stands on it."""


@dataclass(frozen=True, slots=True)
class Marks:
    """The corners of a round, in worked order: their places along it, and those of the corners below along the round it stands on (cm)."""

    own: tuple[float, ...]
    base: tuple[float, ...]


def marks_of(rows: Sequence[RowWork], laid: Sequence[Laid], corners: int, unit: float) -> dict[int, Marks]:
    """By row index, the corners of every round that has `corners` of them over as many below."""
    found: dict[int, Marks] = {}
    fans: list[Fan] = []
    at: list[float] = []
    for below, row in pairwise(rows):
        if row.made_in in FLAT or row.below != below.index or below.foundation:
            fans = []
            continue
        under, here = laid[below.index], laid[row.index]
        own = fans_of(row.stitches, below.stitches)
        if len(own) == corners:
            places = [_place_cm(fan.place, below.stitches, under) for fan in own]
            base = _nearest(places, at, under.total_cm, unit) if len(fans) == corners else places
        else:
            own, base = (carried(fans, row.stitches), at) if fans else ([], [])
        fans, at = own, [_middle_cm(fan, here) for fan in own]
        if len(own) == len(base) == corners:
            order = sorted(range(corners), key=at.__getitem__)
            found[row.index] = Marks(tuple(at[k] for k in order), tuple(base[k] for k in order))
        else:
            fans = []
    return found


def _middle_cm(fan: Fan, laid: Laid) -> float:
    first, last = laid.centre_cm[fan.first], laid.centre_cm[fan.last]
    return (first + last) / 2 if fan.first <= fan.last else (first + last + laid.total_cm) / 2 % laid.total_cm


def _place_cm(place: int, below: Stitches, laid: Laid) -> float:
    """The middle of a place: of a space, of its chains."""
    end = place
    while below.role[place] == Role.CHAIN and end + 1 < len(below) and below.role[end + 1] == Role.CHAIN:
        end += 1
    return (laid.centre_cm[place] + laid.centre_cm[end]) / 2


def _nearest(places: Sequence[float], marks: Sequence[float], whole: float, unit: float) -> list[float]:
    """For every place the corner of the round below that it is worked beside; empty where some has none of its own."""

    def apart(a: float, b: float) -> float:
        return abs((a - b + whole / 2) % whole - whole / 2)

    found = [min(marks, key=lambda mark: apart(mark, place)) for place in places]
    near = all(apart(mark, place) <= NEAR * unit for mark, place in zip(found, places, strict=True))
    return found if near and len(set(found)) == len(found) else []


@dataclass(frozen=True, slots=True, eq=False)
class Faceted:
    """A round in facets, by node: its foot along the base (cm), its distance to the next, and the nodes after which it turns. For its
    height: how far it lies beyond the corner of the base next to it, that corner's place and turn, and the way past it (1 or -1)."""

    along: Floats
    step: Floats
    bent: Bools
    past: Floats
    corner: Floats
    turn: Floats
    way: Floats

    def heights(self, height: Floats, base: Floats, base_whole: float, foot: Ints, share: Floats) -> Floats:
        """The height of every node over its foot, which lies between two nodes of the base (their places: `base`): the line between
        them cuts off the corner where they stand on both sides of it."""
        ends = []
        for k in (0, 1):
            off = self.way * (base[foot[:, k]] - self.corner)
            off = np.mod(off + base_whole / 2, base_whole) - base_whole / 2
            beyond = np.maximum(off, 0.0)
            ends.append(np.stack([np.minimum(off, 0.0) + beyond * np.cos(self.turn), -beyond * np.sin(self.turn)], axis=1))
        under = (1 - share[:, None]) * ends[0] + share[:, None] * ends[1]
        return np.asarray(np.hypot(self.past - under[:, 0], height - under[:, 1]))


def faceted(marks: Marks, centre: Floats, height: Floats, whole: float, base_whole: float, way: float) -> Faceted:
    """A round laid out by its corners. `centre`: places of its nodes along it; `height`: of their stitches; `whole`, `base_whole`: its
    girth and that of its base; `way`: 1 where the base runs the same way, -1 where the round was turned."""
    own, below = np.array(marks.own), np.array(marks.base)
    k = len(own)
    long = np.mod(np.roll(own, -1) - own, whole)
    under = np.mod(way * (np.roll(below, -1) - below), base_whole)
    side = np.searchsorted(np.cumsum(long), np.mod(centre - own[0], whole), side="right") % k
    from_corner = np.mod(centre - own[side], whole)
    t = from_corner - long[side] / 2
    t *= np.maximum(1.0, under / np.maximum(long, 1e-9))[side]  # a side shorter than the one below is spread over it
    held = np.clip(t, -under[side] / 2, under[side] / 2)
    grown = np.maximum(0.0, (long - under + np.roll(long - under, 1)) / 4)
    turns = 2 * np.arctan2(grown, float(np.median(height)))
    near = np.where(t < 0, side, (side + 1) % k)
    step, following = np.mod(np.roll(centre, -1) - centre, whole), np.roll(side, -1)
    bent = following != side
    a, b = (long[side] - from_corner)[bent], np.roll(from_corner, -1)[bent]
    step[bent] = np.sqrt(a * a + b * b + 2 * a * b * np.cos(turns[following[bent]]))
    return Faceted(
        along=below[side] + way * (under[side] / 2 + held), step=step, bent=bent, past=np.abs(t) - under[side] / 2, corner=below[near],
        turn=turns[near], way=np.where(t < 0, -way, way),
    )  # fmt: skip
