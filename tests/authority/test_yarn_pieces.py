"""The areal model on published pieces, each source predicted by the others (`authorities/yarn_pieces.csv`, an address for every piece)."""

from __future__ import annotations

import math
import sys
from pathlib import Path

import numpy as np
import pytest

from hookwright.yarn import Ball, Extent, constants, metres_per_cm2, plan_area

sys.path.insert(0, str(Path(__file__).parents[2] / "builders"))
import yarn_model as built

PIECES = built.pieces()


def test_usable_pieces() -> None:
    assert len(PIECES.ids) == 53


def test_choice_inside_the_loop_is_no_worse_than_the_plain_model() -> None:
    """In one run: at most one point above the plain three-constant model; the 90 % interval holds 48 of 53 and is no wider than x/÷1.45."""
    plain = built.mdape(built.left_out(built.PLAIN, PIECES))
    residuals, names, inside = built.nested(PIECES)
    assert built.mdape(residuals) <= plain + 1.0
    assert sum(inside) >= 48
    assert constants().interval_90 <= 1.45
    assert all(len(form.columns) + 1 <= 4 for form in built.FORMS if form.name in names)


def test_shipped_constants_are_those_the_builder_finds() -> None:
    form, residuals = built.choose(PIECES)
    k, lace, heavy = np.exp(form.fit(PIECES))
    shipped = constants()
    assert (shipped.k_m_per_cm2, shipped.lace, shipped.relief) == pytest.approx((k, lace, heavy), abs=1e-4)
    assert shipped.interval_90 == pytest.approx(built.tolerance(residuals), abs=1e-4)


def test_the_public_estimate_is_the_fitted_model() -> None:
    """What `plan_area` answers for every piece is the builder's prediction, openwork and relief included."""
    form = built.FORMS[0]
    predicted = form.predict(PIECES, form.fit(PIECES))
    for i in range(len(PIECES.ids)):
        m = float(PIECES.m_per_100g[i])
        width = (PIECES.explicit[i] - 2 * built.END_M) / built.CHAIN_PER_LENGTH * 100
        use = plan_area(Extent(float(PIECES.area[i]), float(width)), Ball(100, m), float(PIECES.hook[i]), openwork=bool(PIECES.lace[i]),
                        relief=bool(PIECES.heavy[i])).use  # fmt: skip
        assert use.metres.likely - use.of_which["joins"] == pytest.approx(predicted[i], rel=1e-3)


def test_interval_holds_the_pieces_it_was_fitted_on() -> None:
    form = built.FORMS[0]
    off = np.abs(np.log(PIECES.metres / form.predict(PIECES, form.fit(PIECES))))
    assert int(np.sum(off <= math.log(constants().interval_90))) >= 48


def test_metres_go_with_the_quarter_power_of_yarn_and_the_root_of_hook() -> None:
    """Dimensional: metres per area is one over a length, the mean of the diameters of yarn and hook."""
    assert metres_per_cm2(320, 5) / metres_per_cm2(20, 5) == pytest.approx(2)
    assert metres_per_cm2(200, 2.5) / metres_per_cm2(200, 10) == pytest.approx(2)
