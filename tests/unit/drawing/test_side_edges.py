"""Edgings worked into row ends follow the row ends."""

from __future__ import annotations

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.overlaps import overlaps
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import Fabric

SWATCH = """Ch 13.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (12 sc)
Row 2: Ch 1, sc in each st across, turn. (12 sc)
Row 3: Ch 3 (counts as dc), dc in next 11 sts, turn. (12 dc)
Row 4: Ch 1, sc in each st across, turn. (12 sc)
Row 5: Ch 3 (counts as dc), dc in next 11 sts, turn. (12 dc)
Row 6: Ch 1, sc in each st across, do not turn. (12 sc)
Row 7: Ch 1, work 9 sc evenly along side edge, turn. (9 sc)
Row 8: Ch 1, sc in each st across. Fasten off. (9 sc)
"""


@pytest.fixture(scope="module")
def swatch() -> Fabric:
    return work(read(SWATCH))


@pytest.mark.parametrize("handed", ["right", "left"])
def test_an_edging_lies_beside_its_rows(swatch: Fabric, handed: str) -> None:
    made = chart(swatch, handed="left" if handed == "left" else "right")
    sign = -1 if handed == "left" else 1
    rows = [mark for mark in made.marks if 1 <= mark.row <= 6]
    first = [mark for mark in made.marks if mark.row == 7 and mark.kind == "sc"]
    second = [mark for mark in made.marks if mark.row == 8 and mark.kind == "sc"]
    assert len(first) == len(second) == 9
    assert min(sign * mark.x for mark in first) > max(sign * mark.x for mark in rows)
    assert min(sign * mark.x for mark in second) > max(sign * mark.x for mark in first) - 0.6
    ys = [mark.y for mark in first]
    assert ys == sorted(ys)
    assert min(ys) < min(mark.y for mark in rows) + 3
    assert max(ys) > max(mark.y for mark in rows) - 3


def test_it_touches_nothing_and_is_counted(swatch: Fabric) -> None:
    made = chart(swatch)
    assert overlaps(made) == []
    assert count_back(swatch, [svg(made)]).differences == 0


def test_numbers_stand_outside_the_edging(swatch: Fabric) -> None:
    made = chart(swatch)
    right = max(mark.x for mark in made.marks)
    assert all(label.x > right for label in made.labels if label.words in ("1", "3", "5"))


@pytest.mark.parametrize("handed", ["right", "left"])
def test_the_chain_an_edging_row_begins_with_stands_beyond_its_first_stitch(swatch: Fabric, handed: str) -> None:
    made = chart(swatch, handed="left" if handed == "left" else "right")
    for row in (7, 8):
        (chain,) = [mark for mark in made.marks if mark.row == row and mark.kind == "ch"]
        heights = [mark.y for mark in made.marks if mark.row == row and mark.kind == "sc"]
        assert not min(heights) - 0.5 < chain.y < max(heights) + 0.5


def test_turning_chains_do_not_bend_a_straight_edge(swatch: Fabric) -> None:
    first = [mark for mark in chart(swatch).marks if mark.row == 7 and mark.kind == "sc"]
    assert max(mark.x for mark in first) - min(mark.x for mark in first) < 0.2
