"""The side view of a stuffed piece: what its rounds take as a surface of revolution when stuffing presses them outward.

Two unknowns a round (its radius and its height) instead of three a stitch, so it costs next to nothing; a ball's relaxed shape is this one
to within what hands differ by, and all of its stitches then start where they end.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Final

import numpy as np
from scipy.optimize import minimize

from ..measuring import PartMeasures, RoundsMeasure
from ..measuring.silhouette import profile
from .cloth import Cloth, Floats, cloth_of

PRESSURE: Final = 0.004
"""Stuffing, over the piece's radius: firm, yet stretching the fabric by no more than about 1 % (found by trying on balls)."""


def pressure(cloth: Cloth) -> float:
    """How firmly a closed piece is stuffed, beside an energy of relative lengths (1/cm3)."""
    it = cloth.measures
    radius = max(it.rounds.diameter_cm / 2, 0.1) if it.rounds is not None else 1.0
    steps = [sheet.total / len(sheet.element) for sheet in cloth.rows if len(sheet.element)]
    tall = [float(sheet.height.mean()) for sheet in cloth.rows if len(sheet.element)]
    unit = float(np.median([*steps, *tall])) if steps else it.scale.unit_cm
    return PRESSURE / radius / unit**2


@lru_cache(maxsize=32)
def side_view(measures: PartMeasures) -> tuple[tuple[float, float], ...]:
    """(radius, height) in cm where the rounds of a part begin and at the top of every round: of a closed piece as stuffing leaves it, of
    any other as a surface of revolution."""
    if measures.rounds is None:
        return ()
    if measures.lies != "closed":
        return profile(measures.rounds)
    return tuple(stuffed_profile(measures.rounds, pressure(cloth_of(measures))))


def stuffed_profile(rounds: RoundsMeasure, pressure: float) -> list[tuple[float, float]]:
    """(radius, height) in cm where the rounds begin and at the top of every round; the first height is 0.

    Least of the same energy as that of the stitches: every girth and every height beside its gauge's, less `pressure` (1/cm3) x volume.
    """
    begun = profile(rounds)
    n = np.array([max(each.stitches, 1) for each in rounds.rounds], dtype=np.float64)
    girth = np.array([max(each.girth_cm, 1e-3) for each in rounds.rounds])
    tall = np.array([max(each.height_cm, 1e-3) for each in rounds.rounds])
    m, foot = len(n), begun[0][0]
    r0 = np.array([r for r, _ in begun[1:]])
    rise = np.diff([z for _, z in begun])
    rise = np.maximum(rise, 0.05 * tall)  # rounds that lie flat are pushed up a little: pressed outward they leave the plane

    def energy(x: Floats) -> tuple[float, Floats]:
        r, dz = x[:m], x[m:]
        before = np.concatenate([[foot], r[:-1]])
        dr = r - before
        length = np.maximum(np.hypot(dr, dz), 1e-9)
        wide, high = math.tau * r / girth - 1, length / tall - 1
        volume = math.pi / 3 * float((dz * (before**2 + before * r + r**2)).sum())
        value = 0.5 * float((n * (wide**2 + high**2)).sum()) - pressure * volume
        pull = n * high / (tall * length)
        by_r = n * wide * math.tau / girth + pull * dr - pressure * math.pi / 3 * dz * (before + 2 * r)
        by_before = -pull * dr - pressure * math.pi / 3 * dz * (2 * before + r)
        by_r[:-1] += by_before[1:]
        by_dz = pull * dz - pressure * math.pi / 3 * (before**2 + before * r + r**2)
        return value, np.concatenate([by_r, by_dz])

    bounds = [(0.0, None)] * m + [(None, None)] * m
    out = minimize(
        energy, np.concatenate([r0, rise]), jac=True, method="L-BFGS-B", bounds=bounds, options={"maxiter": 1000, "maxfun": 1500}
    )
    if not np.isfinite(out.x).all():
        return list(begun)
    z = np.concatenate([[0.0], np.cumsum(out.x[m:])])
    return list(zip([foot, *out.x[:m].tolist()], z.tolist(), strict=True))
