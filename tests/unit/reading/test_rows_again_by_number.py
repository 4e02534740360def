"""Rows named with how long they are worked again stand by themselves, however the sentence before them ended."""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.reading.shown import shown

PIECE = "US terms\n\nCh 20.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.\nRow 2: Ch 1, sc in each st across, turn.\n"


@pytest.mark.parametrize(
    ("words", "again", "count", "until"),
    [
        ("Row 2 till the strip measures 30 inches.", "as rows 2", None, True),
        ("Row 3: Ch 2, dc in each st, turn. Rows 2 and 3 alternately until it goes round your wrist.", "as rows 2, 3", None, True),
        ("Row 3: Ch 2, dc in each st, turn. Keep doing rows 2-3 until you run out of yarn.", "as rows 2, 3", None, True),
        ("Row 3: Ch 2, dc in each st, turn. Carry on, working Row 3, 14 times more.", "as rows 3", 14, False),
        ("Row 2 for 4 inches.", "as rows 2", None, True),
    ],
)
def test_rows_named_with_how_long(words: str, again: str, count: int | None, until: bool) -> None:
    row = read(f"{PIECE}{words}\n").parts[0].rows[-1]
    assert (row.label, shown(row.steps, row.stated), row.until is not None) == ("Repeat", again, until)
    assert count is None or (row.rows_count is not None and row.rows_count.at(0) == count)


def test_a_row_named_in_passing_is_none() -> None:
    rows = read(f"{PIECE}Row 3: Ch 1, sc in each st. Join with a sl st to Row 3 for the loop.\n").parts[0].rows
    assert [row.label for row in rows][-1] == "Row 3"
