"""Where a cloth starts from: rows laid side by side for flat pieces, a surface of revolution for rounds."""

from __future__ import annotations

import math

import numpy as np

from ..measuring.silhouette import profile
from .cloth import Bools, Cloth, Floats, Ints

WAVES = 5
"""Waves round the rim of a piece with too many stitches (their number is nearly free: the ties hardly tell them apart)."""


def unroll(cloth: Cloth, *, flat: bool = False) -> Floats:
    """Positions (n x 3, cm): x from edge A to B, y upward, z = 0 for rows; the axis is z for rounds, the first round lowest.

    `flat`: rounds on a table, each at the radius between what its girth and what the heights inside it would have.
    """
    return _rounds(cloth, flat) if cloth.measures.in_rounds else _rows(cloth)


def _rows(cloth: Cloth) -> Floats:
    at = np.zeros((cloth.nodes, 3))
    placed = cloth.measures.placed
    for r, sheet in enumerate(cloth.rows):
        if len(sheet.element):
            mine = slice(int(cloth.first[r]), int(cloth.first[r + 1]))
            row = placed[r]
            at[mine, 0] = row.start + row.direction * sheet.centre
            at[mine, 1] = np.where(sheet.stands, row.bottom + row.up * sheet.height, row.top)
    return at


def _rounds(cloth: Cloth, flat: bool) -> Floats:
    rounds = cloth.measures.rounds
    assert rounds is not None
    at = np.zeros((cloth.nodes, 3))
    outline = dict(zip((each.index for each in rounds.rounds), profile(rounds)[1:], strict=True))
    reach = {each.index: each.reach_cm for each in rounds.rounds}
    turn_of: dict[int, Floats] = {}
    for r, sheet in enumerate(cloth.rows):
        n = len(sheet.element)
        if not n:
            continue
        radius, z = outline.get(r, (sheet.total / math.tau, 0.0))
        turns = math.tau * sheet.centre / max(sheet.total, 1e-9)
        turns = turns * _way(sheet.foot, sheet.stands) + _twist(cloth, r, turns, turn_of)
        turn_of[r] = turns
        flat_radius = rounds.start_girth_cm / math.tau + reach.get(r, 0.0)
        if flat:
            out, lift = np.full(n, _between(radius, flat_radius)), np.zeros(n)
            z = 0.0
        else:
            out, lift = _rim(turns, radius, min(radius, flat_radius))
        at[int(cloth.first[r]) : int(cloth.first[r + 1])] = np.stack([out * np.cos(turns), out * np.sin(turns), z + lift], axis=1)
    return at


def _between(by_girth: float, by_heights: float) -> float:
    """The radius of equal stiffness along and across, as in measuring: with q their ratio, (q2 + q)/(q2 + 1) times that of the heights."""
    if by_heights <= 0:
        return by_girth
    q = by_girth / by_heights
    return by_heights * (q * q + q) / (q * q + 1)


def _way(foot: Ints, stands: Bools) -> float:
    places = foot[stands, 0]
    return float(np.sign(np.sign(np.diff(places)).sum())) or 1.0


def _twist(cloth: Cloth, r: int, turns: Floats, turn_of: dict[int, Floats]) -> float:
    """The turn that brings a round over its feet."""
    sheet, base = cloth.rows[r], cloth.base[r]
    if base not in turn_of or not sheet.stands.any():
        return 0.0
    below = turn_of[base]
    way = _way(sheet.foot, sheet.stands)
    whole = max(cloth.measures.laid[base].total_cm, 1e-9)
    base_way = np.sign(np.sign(np.diff(below)).sum()) or 1.0
    under = below[0] + base_way * math.tau * (sheet.along[sheet.stands] - cloth.rows[base].centre[0]) / whole
    off = under - way * turns[sheet.stands]
    return float(np.angle(np.exp(1j * off).mean()))


def _rim(turns: Floats, radius: float, flat: float) -> tuple[Floats, Floats]:
    """A round on its circle; one too long for where it lies goes up and down in waves along a circle of the radius it can have."""
    if radius <= flat * 1.02 or flat <= 0:
        return np.full(len(turns), radius), np.zeros(len(turns))
    q = radius / flat
    # a sine wave of amplitude a and k periods on a circle of radius R is about 1 + (a k / 2 R)^2 times as long, for shallow waves
    amplitude = 2 * flat / WAVES * math.sqrt(min(q, 4.0) - 1)
    return np.full(len(turns), flat), amplitude * np.sin(WAVES * turns)
