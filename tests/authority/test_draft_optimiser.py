"""The dynamic programme against a general-purpose integer solver: SciPy's `milp` (HiGHS), on small profiles.

The profile is a path through layers of counts; one binary unknown for every allowed step from one layer to the next, flow kept at every
count, the price of a step and of its count on the unknown. Both must come to the same price.
"""

import math

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from hookwright.drafting.optimise import Prices, allowed, best_counts, price_of


def by_integer_programme(wanted: list[float], least: int, most: int, prices: Prices) -> float:
    layers = [range(least, most + 1)] * len(wanted)
    steps = [(k, p, n) for k in range(1, len(layers)) for p in layers[k - 1] for n in layers[k] if allowed(p, n, prices)]
    cost = []
    for k, p, n in steps:
        here = price_of([p, n], [p, wanted[k]], prices)
        cost.append(here + ((p - wanted[0]) ** 2 if k == 1 else 0.0))
    rows, low, high = [], [], []
    for k in range(1, len(layers) - 1):
        for m in layers[k]:
            row = [1.0 if (j == k and n == m) else -1.0 if (j == k + 1 and p == m) else 0.0 for j, p, n in steps]
            rows.append(row)
            low.append(0.0)
            high.append(0.0)
    rows.append([1.0 if j == 1 else 0.0 for j, _, _ in steps])
    low.append(1.0)
    high.append(1.0)
    found = milp(cost, constraints=LinearConstraint(np.array(rows), low, high), integrality=np.ones(len(steps)), bounds=Bounds(0, 1))
    assert found.success
    return float(found.fun)


@pytest.mark.parametrize("rounds, equator, uneven", [(5, 14.0, 2.0), (6, 16.3, 0.5), (7, 13.1, 4.0), (6, 18.7, 2.0)])
def test_same_price(rounds: int, equator: float, uneven: float) -> None:
    wanted = [equator * math.sin(math.pi * (k + 0.5) / rounds) for k in range(rounds)]
    prices = Prices(uneven=uneven)
    best = best_counts(wanted, prices=prices)
    assert best.price == pytest.approx(by_integer_programme(wanted, 3, 22, prices), abs=1e-6)
