"""The best counts of a profile: constraints kept, never dearer than simple plans, quick on 120 rounds."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.drafting import Refused
from hookwright.drafting.optimise import Prices, allowed, best_counts, price_of


def sphere(rounds: int, equator: float) -> list[float]:
    return [equator * math.sin(math.pi * (k + 0.5) / rounds) for k in range(rounds)]


@given(st.integers(6, 40), st.floats(12, 90))
@settings(max_examples=30, deadline=None)
def test_no_worse_than_rounding(rounds: int, equator: float) -> None:
    wanted = sphere(rounds, equator)
    try:
        best = best_counts(wanted)
    except Refused:
        return
    assert best.price == pytest.approx(price_of(best.counts, wanted))
    assert all(allowed(p, n, Prices()) for p, n in zip(best.counts, best.counts[1:], strict=False))
    plain = [max(3, round(w)) for w in wanted]
    if all(allowed(p, n, Prices()) for p, n in itertools.pairwise(plain)):
        assert best.price <= price_of(plain, wanted) + 1e-9


def test_multiples_are_kept() -> None:
    best = best_counts(sphere(20, 60), prices=Prices(multiple=6))
    assert all(n % 6 == 0 for n in best.counts)


def test_a_change_is_bounded() -> None:
    best = best_counts([6, 30, 54, 78, 90], prices=Prices(most_up=12), first=(6,))
    assert all(b - a <= 12 for a, b in zip(best.counts, best.counts[1:], strict=False))


def test_more_than_double_is_refused_with_the_round() -> None:
    with pytest.raises(Refused, match="Round 2"):
        best_counts([6, 60], first=(6,), last=(60,))
