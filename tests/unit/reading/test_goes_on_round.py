"""A row that goes on as it began, told in mid-sentence: no row before it is meant. Every piece is invented."""

from __future__ import annotations

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows


@pytest.mark.parametrize(
    "words",
    [
        "with Teal, sc in each dc along top, 3 sc in each corner, continue in same way around",
        "join yarn, work 2 sc in each row end along side, continue in this manner all around",
        "3 sc in corner, sc evenly along edge, proceed in this way to end",
        "2 sc in each row end, go on in this way all around",
        "sc in each row end along side, continue in same way on other three sides",
        "work sc along top edge, 3 sc in corner, continue thus around entire piece",
    ],
)
def test_an_edging_that_goes_on_names_no_row(words: str) -> None:
    pattern = read(f"EDGING\n\nRnd 1: {words}, join.\nRnd 2: Ch 1, sc in each sc around, join.\n")
    fabric = work(pattern)
    assert [row.read for row in fabric.parts[0].rows] == ["whole", "whole"]
    assert [one.rule for one in proof(pattern, (fabric,))] == []


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("2 sc in next sc, sc in next sc, continue in same way around", 18),
        ("sc in next 2 sc, 2 sc in next sc, continue in like manner to end of round", 16),
        ("sc in next 3 sc, skip 1 sc, and go on in this manner around", 9),
    ],
)
def test_a_unit_told_once_goes_round(words: str, total: int) -> None:
    assert [row.counted.total for row in worked_rows(f"LID\n\nRnd 1: 12 sc in ring.\nRnd 2: {words}.\n")] == [12, total]


def test_a_sentence_of_its_own_still_means_the_row_before() -> None:
    text = "LID\n\nRnd 1: 6 sc in ring.\nRnd 2: 2 sc in each sc around.\nRnd 3: Sc in each sc around.\nRnd 4: Continue in same way.\n"
    assert [row.counted.total for row in worked_rows(text)] == [6, 12, 12, 12]
