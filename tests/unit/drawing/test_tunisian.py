"""Tunisian pieces: read, worked without turning, drawn as a grid of their own, counted back."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.overlaps import overlaps
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import Fabric

CLOTH = """Ch 10.
Row 1: Forward pass: pull up a loop in 2nd ch from hook and in each ch across (10 loops on hook). Return pass: yo, pull through 1 loop,
* yo, pull through 2 loops; repeat from * until 1 loop remains on hook.
Row 2: Forward pass: skip first vertical bar, Tss in each st across. Return pass. (10 sts)
Row 3: Tks in next 4 sts, Tps in next 4 sts, Tss in last st, return pass. (10 sts)
Rows 4-5: Tunisian simple stitch in each st across, return pass. (10 sts)
Row 6: Sl st in each vertical bar across. Fasten off. (10 sts)
"""


@pytest.fixture(scope="module")
def cloth() -> Fabric:
    return work(read(CLOTH))


def test_every_row_has_its_stitches_and_none_turns(cloth: Fabric) -> None:
    rows = [row for row in cloth.parts[0].rows if not row.foundation]
    assert [row.counted.total for row in rows] == [10] * 6
    assert {row.state for row in rows} == {"agrees"}
    assert {row.made_in for row in rows} == {"passes"}
    assert {row.side for row in rows} == {"RS"}
    assert {row.read for row in rows} == {"whole"}
    assert rows[2].counted.made == {"tks": 4, "tps": 4, "tss": 2}


def test_loops_on_the_hook_are_stitches_and_a_wrong_count_is_found() -> None:
    wrong = work(read(CLOTH.replace("(10 loops", "(11 loops")))
    assert wrong.parts[0].rows[1].state == "differs"


def test_the_grid_stands_true_and_every_row_begins_at_the_right(cloth: Fabric) -> None:
    made = chart(cloth)
    for row in range(1, 7):
        xs = [mark.x for mark in made.marks if mark.row == row]
        assert len(xs) == 10
        assert all(math.isclose(a - b, 4.0, abs_tol=0.02) for a, b in pairwise(xs))
    assert sum(stroke.what == "return-pass" for stroke in made.strokes) == 5
    assert overlaps(made) == []
    middle = sum(mark.x for mark in made.marks) / len(made.marks)
    assert all(label.x > middle for label in made.labels if label.what == "row")
    left = chart(cloth, handed="left")
    assert all(label.x < middle for label in left.labels if label.what == "row")


@pytest.mark.parametrize("handed", ["right", "left"])
def test_it_is_counted_back(cloth: Fabric, handed: str) -> None:
    drawing = svg(chart(cloth, handed="left" if handed == "left" else "right"))
    assert count_back(cloth, [drawing]).differences == 0
    harmed = drawing.replace("#tks--", "#tps--", 1)
    assert [problem.what for problem in count_back(cloth, [harmed]).problems] == ["swapped"]


def test_ordinary_rows_with_loops_pulled_up_are_no_tunisian() -> None:
    plain = work(
        read("Ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (5 sc)\nRow 2: Ch 1, sc in each st across. (5 sc)\n")
    )
    assert {row.made_in for row in plain.parts[0].rows} == {"rows"}
