"""Spacing, arcs and corners: the arithmetic behind the places."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookwright.drawing.arcs import along, loop
from hookwright.drawing.cloth import lines_of
from hookwright.drawing.corners import find_corners
from hookwright.drawing.spacing import drawn_together, least, settle, spread
from hookwright.working.fabric import Fabric

places = st.lists(st.floats(-100, 100), min_size=1, max_size=30)


@given(places, st.floats(0.5, 5))
def test_spread_keeps_order_and_distance(wanted: list[float], gap: float) -> None:
    at = spread(wanted, [gap] * (len(wanted) - 1), [1.0] * len(wanted))
    assert all(b - a >= gap - 1e-6 for a, b in itertools.pairwise(at))
    assert sum(at) == pytest.approx(sum(wanted), abs=1e-6 * len(at) + 1e-6)


@given(places)
def test_what_has_room_is_not_moved(wanted: list[float]) -> None:
    line = [sum(abs(x) + 1 for x in wanted[: i + 1]) for i in range(len(wanted))]
    assert spread(line, [1.0] * (len(line) - 1), [1.0] * len(line)) == pytest.approx(line)


def test_a_gap_is_drawn_together() -> None:
    at = drawn_together([0, 3, 10], [3, 3], [1, 1, 1], pull=5)
    assert at[2] - at[1] < 5
    assert settle([0, 3, 6], [3, 3], [3, 3], [1, 1, 1]) == [0, 3, 6]


def test_a_heavy_stitch_keeps_its_place() -> None:
    assert spread([0, 0], [2], [100, 1])[0] == pytest.approx(-0.02, abs=0.01)


def test_stitches_of_one_foot_stand_closer_than_neighbours() -> None:
    assert least("dc", "dc", 0, 3.4, fan=True) < least("dc", "dc", 0, 3.4, fan=False)
    assert least("dc", "dc", 3, 3.4, fan=False) > least("dc", "dc", 1, 3.4, fan=False)


def test_chains_with_room_lie_straight_and_evenly() -> None:
    ovals = along((0, 0), (12, 0), 3, (0, 1))
    assert [oval.y for oval in ovals] == [0, 0, 0]
    assert [oval.x for oval in ovals] == pytest.approx([2, 6, 10])


@pytest.mark.parametrize("chains", [3, 5, 9, 15])
def test_chains_without_room_bow_outwards_and_do_not_touch(chains: int) -> None:
    ovals = along((0, 0), (5, 0), chains, (0, 1))
    assert all(oval.y > -1.5 for oval in ovals)
    assert max(oval.y for oval in ovals) > 1
    for a, b in itertools.pairwise(ovals):
        assert math.dist(a[:2], b[:2]) > (a.length + b.length) / 2 * 0.9
    assert ovals[0].x == pytest.approx(5 - ovals[-1].x, abs=1e-6)


def test_a_picot_is_a_loop_over_its_stitch() -> None:
    ovals = loop((1, 1), 3, (0, 1))
    assert len(ovals) == 3
    assert ovals[1].x == pytest.approx(1)
    assert ovals[1].y > ovals[0].y > 1


def test_four_corners_of_a_square_and_none_of_a_doily(pieces: dict[str, Fabric]) -> None:
    square = find_corners(lines_of(pieces["granny"].parts[0]))
    assert square is not None
    assert square.sides == 4
    for name in ("doily", "motif", "amigurumi"):
        assert find_corners(lines_of(pieces[name].parts[0])) is None
