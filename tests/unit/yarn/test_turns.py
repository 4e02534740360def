"""Turn-around, rows left, one more row; the scale's step and the reserve carried."""

from __future__ import annotations

import pytest
from tests.fabrics import bevelled_strip, rectangle, triangle
from tests.unit.yarn.pieces import facts, found

from hookwright.pattern import Trim
from hookwright.yarn import YarnError, left_after, turning
from hookwright.yarn.turns import rows_left, turn_around

LABELS = [f"Row {n}" for n in range(1, 101)]


def test_the_scale_tells_when_to_turn() -> None:
    turn = turn_around([1.0] * 100, LABELS, have_g=60, reserved_m=10, m_per_g=1, sd=0.2)
    assert turn.stop_at_grams == 35
    assert turn.index == 24
    assert turn.row == "Row 25"
    assert "half of it is 25.0 g" in turn.working[0]


def test_the_scales_step_rounds_to_the_safe_side() -> None:
    turn = turn_around([1.0] * 100, LABELS, have_g=61, reserved_m=10, m_per_g=1, sd=0.2, scale_g=5)
    assert turn.stop_at_grams == 40


def test_trims_are_reserved_first() -> None:
    plain = turning(found(triangle(60), facts()), have_g=100)
    with_trim = turning(found(triangle(60), facts(trims=[Trim(kind="tassel", number=6)])), have_g=100)
    assert plain is not None and with_trim is not None
    assert with_trim.index < plain.index
    assert with_trim.stop_at_grams > plain.stop_at_grams


def test_a_piece_that_does_not_grow_has_no_turn() -> None:
    assert turning(found(rectangle(20, 40), facts())) is None


def test_a_grown_and_shrunk_piece_turns_in_its_middle() -> None:
    """Just as much yarn as the bevelled strip takes: the half is used up at the middle of its 101 rows."""
    e = found(bevelled_strip(), facts())
    turn = turning(e, have_g=e.yarns[0].grams.likely, scale_g=0.1)
    assert turn is not None
    half = e.yarns[0].fabric_m / 2
    middle = next(i for i, row in enumerate(e.rows[1:]) if row.so_far >= half)
    assert abs(turn.index - middle) <= 1
    assert turn.written
    assert turn.row == "Row 50"


def test_more_yarn_than_rows_grows_on() -> None:
    turn = turn_around([1.0, 2.0, 3.0], LABELS[:3], have_g=72, reserved_m=0, m_per_g=1, sd=0.01)
    assert turn.row == "Row 8"
    assert not turn.written


def test_rows_left_by_adding_up_not_dividing() -> None:
    left = rows_left([5.0, 6.0, 7.0, 8.0], LABELS[:4], left_g=20, reserved_m=0, m_per_g=1, sd=0.05, scale_g=1)
    assert left.rows == 3
    assert left.last == "Row 3"
    assert "one more row fits in fewer than 1 of 200 hands" in left.one_more
    assert left.spare_g == pytest.approx(2.0)


def test_a_coarse_scale_may_cost_a_row() -> None:
    assert rows_left([5.0, 5.0], LABELS[:2], left_g=10, reserved_m=0, m_per_g=1, sd=0.05, scale_g=0.01).rows == 1
    assert rows_left([5.0, 5.0], LABELS[:2], left_g=11, reserved_m=0, m_per_g=1, sd=0.05, scale_g=1).rows == 2


def test_left_after_a_row_of_the_pattern() -> None:
    e = found(rectangle(20, 30), facts())
    whole = left_after(e, None, 1000)
    assert whole.finishes and whole.rows == 31
    some = left_after(e, "Row 10", e.rows[-1].metres / 2 * 5.6)
    assert 4 <= some.rows <= 5


@pytest.mark.parametrize(
    ("have", "reserved", "words"),
    [(0, 0, "nothing to turn with"), (-5, 0, "nothing to turn with"), (10, 30, "nothing is left for the rows")],
)
def test_refusals(have: float, reserved: float, words: str) -> None:
    with pytest.raises(YarnError, match=words):
        turn_around([1.0], LABELS[:1], have_g=have, reserved_m=reserved, m_per_g=1, sd=0.2)
    with pytest.raises(YarnError, match="less than nothing"):
        rows_left([1.0], LABELS[:1], left_g=-1, reserved_m=0, m_per_g=1, sd=0.2)
    with pytest.raises(YarnError, match="no such row"):
        left_after(found(rectangle(5, 5), facts()), "Row 99", 10)
