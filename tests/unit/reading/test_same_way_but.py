"""Rows told as "the same way" with one number in place of another."""

import pytest

from .told import worked_rows

CORNER = (
    "Ch 4.\nRow 1: (2 dc, ch 2, 3 dc) in 4th ch from hook, turn. (6 dc)\n"
    "Row 2: Ch 3, dc in next 2 dc, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in next 3 dc, turn. (10 dc)\n"
    "Row 3: Ch 3, dc in next 4 dc, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in next 5 dc, turn. (14 dc)\n"
)
NET = (
    "Ch 17.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (16 sc)\n"
    "Row 2: Ch 1, sc in first sc, *ch 5, skip 2 sc, sc in next sc; rep from * across, turn.\n"
    "Row 3: Ch 1, sc in first sc, *ch 5, sc in next sc; rep from * across, turn.\n"
)


@pytest.mark.parametrize(
    "words",
    [
        "Row 4: Same way, with 6 dc in place of 4 and 7 dc in place of 5. (18 dc)",
        "Row 4: In the same way, but with 6 dc in place of 4 and 7 dc in place of 5, fasten off. (18 dc)",
    ],
)
def test_runs_of_another_number(words: str) -> None:
    last = worked_rows(f"{CORNER}{words}\n")[-1]
    assert (last.worked, last.state, last.counted.total) == ("yes", "agrees", 18)


@pytest.mark.parametrize("words", ["In the same way, with ch 7 instead of ch 5.", "Work in same manner, but with 7 ch in place of 5."])
def test_chains_of_another_number(words: str) -> None:
    last = worked_rows(f"{NET}Row 4: {words}\n")[-1]
    assert (last.worked, last.counted.by_kind["ch-7 sp"]) == ("yes", 5)
