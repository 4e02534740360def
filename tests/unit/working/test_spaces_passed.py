"""Runs of so many stitches of a kind that go past a space of chains which no word tells: noted, unless a count agrees."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

SLOT = "Ch 16.\nRow 1: Dc in 4th ch from hook and in next 4 ch, ch 2, skip 2 ch, dc in last 6 ch. (12 dc, 1 sp)\n"
SQUARE = (
    "Ch 4, sl st to form ring.\nRnd 1: Ch 3, 3 dc in ring, (ch 2, 4 dc in ring) 3 times, ch 2, join to top of ch-3. (16 dc, 4 ch-2 sp)\n"
)


def _noted(text: str) -> list[str]:
    pattern = read(text)
    return [finding.severity for finding in proof(pattern, (work(pattern),)) if finding.rule == "stitches-passed-over"]


@pytest.mark.parametrize(
    ("below", "row"),
    [
        (SLOT, "Row 2: Ch 1, turn, sc in each of next 8 dc, ch 3, skip 1 dc, sc in last 3 dc."),
        (SLOT, "Row 2: Ch 3, turn, dc in next 7 dc, ch 2, skip 2 dc, dc in next 2 dc."),
        (SQUARE, "Rnd 2: Ch 1, sc in each of 7 dc, ch 3, sc in each of 9 dc, join."),
    ],
)
def test_a_space_passed_is_noted(below: str, row: str) -> None:
    assert set(_noted(below + row)) == {"note"}


@pytest.mark.parametrize(
    "row",
    [
        "Row 2: Ch 3, turn, dc in next 11 dc. (12 dc)",
        "Row 2: Ch 3, turn, dc in next 5 dc, 2 dc in sp, dc in next 6 dc.",
        "Row 2: Ch 1, turn, sc in each dc across.",
        "Row 2: Ch 1, turn, sc in next 6 dc, skip sp, sc in next 6 dc.",
    ],
)
def test_nothing_to_note(row: str) -> None:
    assert _noted(SLOT + row) == []
