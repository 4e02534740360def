"""Hours, costs, trims, balls: the sums."""

from __future__ import annotations

import pytest

from hookwright.pattern import Trim
from hookwright.yarn import (
    Ball,
    YarnError,
    count_balls,
    cutting_list,
    hours,
    how_many,
    pace_told,
    part_ball,
    pattern_cost,
    piece_cost,
    trim_use,
)
from hookwright.yarn.balls import chance_enough, hands, lost_label


def test_a_pace_for_one_stitch_scales_to_the_others() -> None:
    both = hours({"sc": 1000, "dc": 1000}, pace={"sc": 2.4})
    assert both.stitching == pytest.approx((2.4 + 4.0) * 1000 / 3600)
    assert hours({"dc": 100}).whole.high / hours({"dc": 100}).whole.low > 1.5


def test_finishing_and_pauses_count() -> None:
    plain = hours({"dc": 3000}, pace={"st": 3})
    finished = hours({"dc": 3000}, pace={"st": 3}, ends=40, trims={"tassel": 10})
    assert finished.finishing - plain.finishing == pytest.approx((40 * 2 + 10 * 6) / 60)
    assert hours({"dc": 3000}, pace={"st": 3}, a_day=1).days >= 2 * hours({"dc": 3000}, pace={"st": 3}, a_day=2).days - 1


@pytest.mark.parametrize("pace", ["0 s", "-2 s", "soon", "3 furlongs", ""])
def test_paces_that_are_none(pace: str) -> None:
    with pytest.raises(YarnError):
        hours({"dc": 1}, pace=pace_told(pace))


def test_sums_of_money() -> None:
    cost = piece_cost({"A": (2.5, 3, 6.0)}, 8, prices={"wage": 10, "notions": 1.5, "packing": 2}, price=70)
    assert cost.whole == pytest.approx(2.5 * 6 + 3.5 + 80)
    assert cost.retail == 2 * cost.wholesale == 2 * cost.whole
    assert cost.yarn_bought == 18
    with pytest.raises(YarnError, match="less than nothing"):
        piece_cost({}, 1, prices={"wage": -1})
    assert pattern_cost({"edit": 100.0}, hours=10, wage=12, price=5, fee_percent=20).sales_to_repay == 55
    with pytest.raises(YarnError):
        pattern_cost({"edit": -1.0})


def test_a_cutting_list_counts_pieces() -> None:
    cuts = cutting_list(
        [trim_use(Trim(kind="tassel", number=2), yarn="A"), trim_use(Trim(kind="fringe", number=10, strands=3, length_cm=15), yarn="B")]
    )
    assert [(cut.yarn, cut.pieces, cut.length_cm) for cut in cuts] == [("A", 2, 480), ("A", 4, 30), ("B", 30, 35)]
    assert sum(cut.metres for cut in cuts) == pytest.approx(2 * 5.4 + 10.5)


@pytest.mark.parametrize("kind", ["tassel", "Tassels", "fringe", "pompom", "pom-pom", "cord", "button"])
def test_every_trim_takes_yarn_and_lists_what_to_cut(kind: str) -> None:
    use = trim_use(Trim(kind=kind, number=3))
    assert use.metres == pytest.approx(sum(cut.metres for cut in use.cuts))
    assert (use.metres > 0 and use.assumed) or kind == "cord"


def test_trims_that_cannot_be() -> None:
    with pytest.raises(YarnError, match="not known"):
        trim_use(Trim(kind="sequin"))
    with pytest.raises(YarnError, match="less than nothing"):
        trim_use(Trim(kind="tassel", wraps=-3))
    with pytest.raises(YarnError):
        how_many(-1, 5)
    assert how_many(16.2, 5.4) == 3


def test_balls_rise_with_the_yarn_and_their_chances_with_the_balls() -> None:
    before = 0
    for metres in range(50, 3000, 150):
        found = count_balls(Ball(50, 120), metres, 0.2, 5)
        assert found.buy >= before and found.buy >= found.likely
        chances = [chance for _, chance in found.chances]
        assert chances == sorted(chances) and dict(found.chances)[found.buy] >= 0.95
        before = found.buy


def test_buy_is_the_fewest_that_suffice_in_19_of_20() -> None:
    found = count_balls(Ball(50, 120), 700, 0.2)
    assert chance_enough((found.buy - 1) * 120 - 0.3 * (found.buy - 2), 700, 0.2) < 0.95
    assert "suffice in" in found.said and hands(0.5) in ("1 of 2 hands",)


def test_part_balls_and_lost_labels() -> None:
    assert part_ball(Ball(50, 120), 31) == pytest.approx(74.4)
    assert lost_label(2.5, 5) == pytest.approx(200)
    for call in (lambda: part_ball(Ball(50, 120), -1), lambda: lost_label(0, 5), lambda: Ball(0, 1), lambda: Ball(1, -2)):
        with pytest.raises(YarnError):
            call()
    with pytest.raises(YarnError, match="100,000 balls"):
        count_balls(Ball(1, 0.001), 1e6, 0.2)
