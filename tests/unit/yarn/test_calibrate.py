"""The Bayesian update in closed form, against the same posterior summed numerically."""

from __future__ import annotations

import math

import pytest

from hookwright.yarn import Weighing, YarnError, constants, unmeasured, update


def swatch(grams: float, kind: str = "swatch", scale: float = 0.1) -> Weighing:
    return Weighing(kind=kind, grams=grams, expected_m=40, m_per_g=2.0, scale_g=scale)  # type: ignore[arg-type]


def numeric(weighings: list[Weighing]) -> tuple[float, float]:
    """Mean and sd of theta by summing prior times likelihoods over a fine grid."""
    prior = constants().sd
    grid = [-1.2 + i * 0.0002 for i in range(12001)]
    density = [
        math.exp(-((t / prior) ** 2) / 2 - sum(((w.log_ratio - t) / w.sd) ** 2 / 2 for w in weighings)) for t in grid
    ]  # fmt: skip
    whole = sum(density)
    mean = sum(t * d for t, d in zip(grid, density, strict=True)) / whole
    return mean, math.sqrt(sum((t - mean) ** 2 * d for t, d in zip(grid, density, strict=True)) / whole)


@pytest.mark.parametrize("grams", [[24.0], [24.0, 22.0], [18.0, 21.0, 30.0]])
def test_closed_form_is_the_posterior(grams: list[float]) -> None:
    weighings = [swatch(g, kind) for g, kind in zip(grams, ("swatch", "row", "report"), strict=False)]
    mean, alone = numeric(weighings)
    after = update(weighings)
    assert after.mean == pytest.approx(mean, abs=1e-5)
    assert after.sd == pytest.approx(math.hypot(alone, 0.02), abs=1e-5)


def test_each_weighing_narrows_and_the_working_is_shown() -> None:
    sds = [update([swatch(22)] * n).sd for n in range(4)]
    assert sds == sorted(sds, reverse=True)
    assert len(set(sds)) == 4
    assert sds[0] == unmeasured().sd
    assert any("22 g x 2.000 m/g = 44.0 m against 40.0 m expected" in line for line in update([swatch(22)]).because)


def test_kinds_stand_in_order_of_what_they_tell() -> None:
    order = [update([swatch(22, kind)]).sd for kind in ("sample", "swatch", "row", "other-stitch", "report")]
    assert order == sorted(order)
    assert order[-1] < unmeasured().sd


def test_a_coarse_scale_on_a_small_swatch_tells_little() -> None:
    assert update([swatch(22, scale=10)]).sd > update([swatch(22, scale=0.1)]).sd


def test_order_does_not_matter() -> None:
    a, b = swatch(20), swatch(26, "row")
    assert update([a, b]).mean == pytest.approx(update([b, a]).mean)


@pytest.mark.parametrize("grams", [0.0, -3.0])
def test_less_than_nothing_is_refused(grams: float) -> None:
    with pytest.raises(YarnError, match="greater than nothing"):
        swatch(grams)


def test_simulated_hands_lie_inside_the_promise() -> None:
    """Simulated, not measured: theta from the published spread, one swatch with its drift; nine of ten pieces lie inside the new
    interval."""
    import random

    rng = random.Random(8)
    held = 0
    for _ in range(2000):
        theta = rng.gauss(0, constants().sd)
        weighed = 20 * math.exp(theta + rng.gauss(0, 0.04))
        piece = theta + rng.gauss(0, 0.02)
        after = update([swatch(weighed, scale=0.01)])
        held += abs(piece - after.mean) <= 1.645 * after.sd
    assert 0.87 <= held / 2000 <= 0.93
