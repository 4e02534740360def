"""The ties of a cloth, as arrays: which nodes each one combines, and the least and greatest length it may have."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.sparse import csr_array

from .cloth import Bools, Cloth, Floats, Ints, Sheet

ROW, HEIGHT, DIAGONAL, BEND, POST = 0, 1, 2, 3, 4
"""Kinds of tie: to the neighbour in the row; to the foot; to the neighbour's foot; over a neighbour; an end stitch's post."""

WEIGHT: Final = {ROW: 1.0, HEIGHT: 1.0, DIAGONAL: 0.12, BEND: 0.15, POST: 1.0}
STRAIGHT: Final = 0.93
"""Two steps along a row may close up to this share of their length before the yarn resists (yarn bends, but not into a hairpin)."""


@dataclass(frozen=True, slots=True, eq=False)
class Ties:
    """m ties over n nodes: `matrix` (m x n) combines positions; lengths in cm lie between `least` and `most`; `kind` tells what each is."""

    matrix: csr_array
    least: Floats
    most: Floats
    weight: Floats
    kind: Ints

    @property
    def edges(self) -> Bools:
        """The ties whose lengths are the gauge's own: along rows and up them."""
        return self.kind <= HEIGHT

    @property
    def rest(self) -> Floats:
        return np.where(np.isfinite(self.most), np.maximum(self.most, 1e-9), np.maximum(self.least, 1e-9))


class _Gathered:
    """Collects ties of up to four nodes each; a node told twice is one with the sum of its shares."""

    def __init__(self) -> None:
        self.nodes: list[Ints] = []
        self.shares: list[Floats] = []
        self.least: list[Floats] = []
        self.most: list[Floats] = []
        self.kind: list[Ints] = []

    def add(self, kind: int, nodes: list[Ints], shares: list[Floats], least: Floats, most: Floats) -> None:
        n = len(least)
        if not n:
            return
        pad = 3 - len(nodes)
        self.nodes.append(np.stack([*nodes, *[nodes[0]] * pad], axis=1))
        self.shares.append(np.stack([*shares, *[np.zeros(n)] * pad], axis=1))
        self.least.append(least)
        self.most.append(most)
        self.kind.append(np.full(n, kind))

    def ties(self, n: int) -> Ties:
        if not self.nodes:
            none = np.zeros(0)
            return Ties(csr_array((0, n)), none, none, none, none.astype(np.int64))
        nodes, shares = np.concatenate(self.nodes), np.concatenate(self.shares)
        kept = shares != 0.0
        start = np.concatenate([[0], np.cumsum(kept.sum(axis=1))])
        matrix = csr_array((shares[kept], nodes[kept].astype(np.int32), start.astype(np.int32)), shape=(len(nodes), n))
        kind, least, most = np.concatenate(self.kind), np.concatenate(self.least), np.concatenate(self.most)
        scale = np.maximum(np.where(np.isfinite(most), most, least), 1e-3)
        weight = np.array([WEIGHT[k] for k in range(len(WEIGHT))])[kind] / scale**2
        return Ties(matrix, least, most, weight, kind)


def ties_of(cloth: Cloth, *, flat: bool = False) -> Ties:
    """All ties of a cloth. `flat`: for a cloth solved in the plane (no bending)."""
    made = _Gathered()
    for r, sheet in enumerate(cloth.rows):
        if len(sheet.element):
            _along(made, cloth, r, sheet, flat)
            if sheet.stands.any():
                _up(made, cloth, r, sheet, flat)
    if cloth.braces:
        a, b, apart = (np.array(each) for each in zip(*cloth.braces, strict=True))
        made.add(ROW, [a, b], [np.ones(len(a)), -np.ones(len(a))], apart, apart)
    if cloth.posts:
        a, b, most = (np.array(each) for each in zip(*cloth.posts, strict=True))
        made.add(POST, [a, b], [np.ones(len(a)), -np.ones(len(a))], np.zeros(len(most)), most)
    return made.ties(cloth.nodes)


def _along(made: _Gathered, cloth: Cloth, r: int, sheet: Sheet, flat: bool) -> None:
    n, first = len(sheet.element), int(cloth.first[r])
    here = np.arange(n)
    if n < 2:
        return
    apart, most = sheet.step[:-1], sheet.most[:-1]
    one = np.ones(n)
    left, right = first + here[:-1], first + here[1:]
    if cloth.closed[r] and n > 2:
        closing = sheet.step[-1] if sheet.bent[-1] else sheet.total - sheet.centre[-1] + sheet.centre[0]
        apart, most = np.append(apart, closing), np.append(most, closing)
        left, right = first + here, first + (here + 1) % n
    count = len(apart)
    bowed = most > apart + 1e-9
    made.add(ROW, [left, right], [one[:count], -one[:count]], np.where(bowed, 0.0, apart), most)
    if not flat and n > 4:
        two = apart + np.roll(apart, -1) if cloth.closed[r] else apart[:-1] + apart[1:]
        i = here if cloth.closed[r] else here[:-2]
        ends = [first + i, first + (i + 2) % n]
        made.add(BEND, ends, [one[: len(i)], -one[: len(i)]], STRAIGHT * two, np.full(len(i), np.inf))


def _up(made: _Gathered, cloth: Cloth, r: int, sheet: Sheet, flat: bool) -> None:
    base = cloth.base[r]
    stands = np.flatnonzero(sheet.stands)
    node = cloth.first[r] + stands
    one = np.ones(len(stands))
    height = sheet.height[stands]
    if base < 0 or not len(cloth.rows[base].element):
        if cloth.ring >= 0:
            made.add(HEIGHT, [node, np.full(len(node), cloth.ring)], [one, -one], height, height)
        return
    under = cloth.under(r, sheet.foot[stands])
    share = sheet.share[stands]
    rounds = cloth.measures.rounds
    bowed = r not in cloth.marks and not (rounds is not None and rounds.spine_cm)  # ovals' rounds are straight for the most part
    if flat and cloth.closed[r] and bowed:
        height = height + _inside_the_round(cloth, base, share)
    made.add(HEIGHT, [node, under[:, 0], under[:, 1]], [one, share - 1, -share], height, height)
    _diagonals(made, cloth, r, sheet, stands, node, under, share)
    braced = np.flatnonzero(sheet.braced)
    if len(braced):
        beneath, part = cloth.under(r, sheet.foot[braced]), sheet.share[braced]
        ends = [cloth.first[r] + braced, beneath[:, 0], beneath[:, 1]]
        made.add(DIAGONAL, ends, [np.ones(len(braced)), part - 1, -part], sheet.height[braced], sheet.height[braced])


def _inside_the_round(cloth: Cloth, base: int, share: Floats) -> Floats:
    """How far each foot, on the chord between two nodes of a flat round, lies inside the round itself."""
    radius = cloth.rows[base].total / (2 * np.pi)
    half = np.pi / max(len(cloth.rows[base].element), 3)
    return np.asarray(radius * (1 - np.cos(half)) * 4 * share * (1 - share))


def _diagonals(made: _Gathered, cloth: Cloth, r: int, sheet: Sheet, stands: Ints, node: Ints, under: Ints, share: Floats) -> None:
    """From each stitch to its two neighbours' feet; they keep the cloth from shearing."""
    whole = cloth.measures.laid[cloth.base[r]].total_cm
    following = np.flatnonzero((np.diff(stands) == 1) & ~sheet.bent[stands[:-1]])
    i, j = following, following + 1
    if cloth.closed[r] and len(stands) == len(sheet.element) > 2:
        i, j = np.append(i, len(stands) - 1), np.append(j, 0)
    along = sheet.along[stands]
    for a, b in ((i, j), (j, i)):
        apart = np.abs(along[b] - along[a])
        if cloth.closed[r]:
            apart = np.minimum(apart, np.abs(whole - apart))
        length = np.hypot(sheet.height[stands[a]], apart)
        made.add(DIAGONAL, [node[a], under[b, 0], under[b, 1]], [np.ones(len(a)), share[b] - 1, -share[b]], length, length)
