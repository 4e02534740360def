"""What goes evenly along an edge that nobody counted holds no number; and rows that leave a round are meant to stop short."""

from __future__ import annotations

from hookwright.proofing import proof
from hookwright.proofing.terminal import show_counts
from hookwright.reading import read
from hookwright.working import work

SQUARE = "Ch 25.\nRow 1: Sc in 2nd ch from hook and in each ch across, ch 1, turn. (24 sc)\nRows 2-24: Sc in each sc, ch 1, turn. (24 sc)\n"


def test_an_edging_of_no_number_shows_none() -> None:
    pattern = read(SQUARE + "EDGING: Attach B in corner, 3 sc in same place, sc evenly around, making 3 sc in each corner, join.\n")
    shown = show_counts(pattern, work(pattern)).splitlines()[-1]
    assert "as many as the edge takes" in shown and "3 sc" not in shown


def test_an_edging_that_states_its_number_shows_it() -> None:
    pattern = read(
        SQUARE + "EDGING: Attach B in corner, 3 sc in same place, sc evenly around, making 3 sc in each corner, join. (100 sc)\n"
    )
    assert "100" in show_counts(pattern, work(pattern)).splitlines()[-1]


def test_rows_behind_rounds_may_leave_the_rest() -> None:
    cap = "Rnd 1: 12 sc in magic ring. (12)\nRnd 2: 2 sc in each sc. (24)\nRnds 3-4: Sc around. (24)\nNow work in rows.\n"
    on = cap + "Row 5: Sc in next 18 sc, ch 1, turn.\nRow 6: Sc across, ch 1, turn.\n"
    pattern = read(on)
    assert [one.rule for one in proof(pattern, (work(pattern),)) if one.severity == "error"] == []
    pattern = read(cap.removesuffix("Now work in rows.\n") + "Rnd 5: Sc in next 18 sc.\nRnd 6: Sc in next 24 sc.\n")
    assert "row-uses-too-few" in [one.rule for one in proof(pattern, (work(pattern),))]
