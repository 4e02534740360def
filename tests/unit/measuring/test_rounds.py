"""Rounds: growth, how they lie, corners."""

import math

import pytest
from tests import fabrics
from tests.fabrics import Element, element, ring_round

from hookwright.measuring import RoundsMeasure, measure
from hookwright.working.fabric import Fabric, How, Role

TALL = {"dc": (20.0, 10.0)}
"""Stitches twice as tall as wide: 4 pi = 12.57 a round lie flat."""


def rounds_of(made: Fabric) -> RoundsMeasure:
    rounds = measure(made).parts[0].rounds
    assert rounds is not None
    return rounds


@pytest.mark.parametrize(
    ("per_round", "lies"),
    [(5, "cups"), (8, "cups"), (10, "cups"), (11, "flat"), (12, "flat"), (13, "flat"), (14, "flat"), (15, "ruffles"), (18, "ruffles")],
)
def test_how_a_disc_lies(per_round: int, lies: str) -> None:
    assert rounds_of(fabrics.disc(per_round, 10, "dc", stacked=False, gauge=TALL)).lies == lies


def test_growth_orders_as_the_stitches_do() -> None:
    growths = [rounds_of(fabrics.disc(n, 10, "dc", stacked=False, gauge=TALL)).growth_last_half for n in range(5, 23)]
    assert growths == sorted(growths)
    assert len(set(growths)) == len(growths)


def test_the_round_that_has_too_many_is_named_with_the_number_that_lies_flat() -> None:
    counts = [12, 24, 36, 48, 60, 72, 120]
    last = rounds_of(fabrics.rounds(fabrics.rounds_of(counts, "dc"), gauge=TALL)).rounds[-1]
    assert last.label == "Rnd 7"
    assert last.lies == "ruffles"
    assert last.would_lie_flat == round(math.tau * 7 * 2)  # 7 rounds of 2 stitch widths
    assert last.excess == 120 - 88


def test_slack_is_told() -> None:
    flat = rounds_of(fabrics.disc(12, 10, "dc", stacked=False, gauge=TALL))
    assert flat.slack_stitches is not None
    fewer, more = flat.slack_stitches
    for change, lies in ((-fewer, "flat"), (-fewer - 2, "cups"), (more, "flat"), (more + 2, "ruffles")):
        assert _last_lies(120 + change) == lies


def _last_lies(stitches: int) -> str:
    """How the tenth round of a flat disc lies with that many stitches."""
    counts = [12 * n for n in range(1, 10)] + [stitches]
    return rounds_of(fabrics.rounds(fabrics.rounds_of(counts, "dc"), gauge=TALL)).rounds[-1].lies


def test_a_tube_on_a_chain_and_a_ball() -> None:
    assert rounds_of(fabrics.tube(40, 12)).lies == "tube"
    ball = rounds_of(fabrics.ball(36))
    assert ball.lies == "closed"
    assert ball.diameter_cm == pytest.approx(36 * 0.7 / math.pi)


def test_a_hat_cups_and_has_its_girth() -> None:
    counts = [12 * n for n in range(1, 7)] + [72] * 8
    hat = measure(fabrics.rounds(fabrics.rounds_of(counts, "dc"), gauge=TALL)).parts[0]
    assert hat.lies == "cups"
    assert hat.rounds is not None
    assert hat.rounds.girth_cm == pytest.approx(36.0)
    assert hat.length_cm == pytest.approx(14.0)


@pytest.mark.parametrize(("corners", "stacked", "told"), [(6, True, 6), (6, False, 0), (4, True, 4), (12, True, 0)])
def test_stacked_increases_make_corners(corners: int, stacked: bool, told: int) -> None:
    assert rounds_of(fabrics.disc(corners, 8, "sc", stacked=stacked)).corners == told


def test_a_square_with_chained_corners_lies_flat() -> None:
    """2 dc, ch 2, 2 dc in each corner space of dc: 16 more a round, and 8 heights are a square's growth."""
    rows: list[list[Element]] = [[e for _ in range(4) for e in (*[element("dc", -1)] * 3, element("ch"), element("ch"))]]
    side = 3
    for _ in range(5):
        row: list[Element] = []
        for corner in range(4):
            start = corner * (side + 2)
            row += [element("dc", start + i) for i in range(side)]
            space = start + side
            group = [element("dc", space, how=How.SPACE)] * 2
            row += [*group, element("ch"), element("ch"), *group]
        rows.append(_from_side_start(row, side))
        side += 4
    square = rounds_of(fabrics.rounds(rows, gauge={"dc": (14, 7.8)}))
    assert square.corners == 4
    assert square.lies == "flat"
    assert [each.stitches for each in square.rounds] == [12, 28, 44, 60, 76, 92]


def _from_side_start(row: list[Element], side: int) -> list[Element]:
    """Begin the round at the two stitches after the last corner, so that sides stay in one piece."""
    return row[-2:] + row[:-2]


def test_an_oval_on_both_sides_of_a_chain_lies_flat() -> None:
    piece = fabrics.Piece("joined", turns=False).foundation(11)
    first = [element("sc", 10 - i) for i in range(10)] + [element("sc", 0)] * 3
    first += [element("sc", i, how=How.UNDER) for i in range(1, 10)] + [element("sc", 10, how=How.UNDER)] * 2
    piece.row(first)
    n = len(first)
    for _ in range(4):
        piece.row(fabrics.shaped_round(n, n + 6, "sc"))
        n += 6
    oval = rounds_of(fabrics.fabric(piece.part(), gauge={"sc": (10, 10.5)}))
    assert oval.lies == "flat"


def test_joins_and_starting_chains_add_no_girth() -> None:
    plain = [("sc", i) for i in range(12)]
    dressed = [Element("ch", role=Role.START), *[element("sc", i) for i in range(12)], Element("sl st", role=Role.JOIN)]
    a = rounds_of(fabrics.rounds([ring_round(12, "sc"), plain]))
    b = rounds_of(fabrics.rounds([ring_round(12, "sc"), dressed]))
    assert a.rounds[-1].girth_cm == pytest.approx(b.rounds[-1].girth_cm)
