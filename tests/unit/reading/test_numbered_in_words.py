"""Rows numbered in words, what is told of all rows at once, rounds closed by a slip stitch, filet by other names. Wordings are ours."""

import pytest

from hookwright.reading import read
from hookwright.reading.shown import shown
from hookwright.working import work

from .told import worked_rows


def test_numbers_in_words_to_ninety_nine_and_their_ranges() -> None:
    text = "Ch 9.\nRow One: Sc in 2nd ch from hook and in each ch.\nRows Two to Twelve: Sc across.\nRow Thirteen: Sc across.\nRows Fourteen through Twenty-Two: Sc across.\nRow Thirty - dc across."  # noqa: E501
    rows = read(text).parts[0].rows
    assert [row.numbers_at(0) for row in rows[1:]] == [(1,), tuple(range(2, 13)), (13,), tuple(range(14, 23)), (30,)]


@pytest.mark.parametrize("end", ["sl st. = 16 dc", "sl st = 16 dc", "sl st - 16 dc", "sl st. (16 dc)", "sl st {16 dc}"])
def test_a_bare_slip_stitch_before_the_count_joins(end: str) -> None:
    text = f"Ch 4, sl st to form a ring.\nRound 1: Ch 3, 7 dc in ring, join. (8 dc)\nRound 2: Ch 3, dc in same st, 2 dc in each st, {end}"
    assert worked_rows(text)[-1].counted.total == 16


def test_what_every_row_begins_with_is_no_row_and_no_heading() -> None:
    pattern = read(
        "Every row starts with: turn, ch 5 for a space.\n\nCh 20.\nRow 1: Dc in 8th ch from hook, (ch 2, skip 2, dc in next) 4 times."
    )
    assert [part.name for part in pattern.parts] == [""]
    assert [row.label for row in pattern.parts[0].rows] == ["Foundation", "Row 1"]


def test_the_chain_that_rounds_start_with_told_with_its_number_first() -> None:
    text = "UK terms.\nThe 3ch at the start of a round counts as a tr.\n\n4ch, ss into a ring.\nRound 1: 3ch, 7tr into ring, ss.\nRound 2: 3ch, 1tr in same st, 2tr in each st, ss."  # noqa: E501
    assert shown(read(text).parts[0].rows[-1].steps).startswith("ch3=dc")
    assert [row.counted.total for row in worked_rows(text)[-2:]] == [8, 16]


def test_filet_squares_called_blks() -> None:
    text = "Ch 20.\nRow 1: Dc in 8th ch from hook, * ch 2, skip 2 ch, dc in next ch; rep from * to end. (5 sps)\nRow 2: 2 sps, 1 blk, 2 sps.\nRow 3: 1 sp, 3 blks, 1 sp.\n"  # noqa: E501
    assert [row.counted.total for row in work(read(text)).parts[0].rows[1:]] == [6, 8, 12]


def test_a_letter_of_the_key_is_the_stitch_it_tells() -> None:
    key = "- E = edge stitch, 1 sc through both loops, first and last of a row.\n\nWith A ch 12.\n"
    text = key + "Row 1 (A): Sc in 2nd ch from hook and each ch. [11]\nRow 2 (B): E, 9 sc, E.\nRow 3 (A): E, *1 dc, 3 sc* 2 times, 1 dc, E."
    assert [row.counted.total for row in worked_rows(text)] == [11, 11, 11]


def test_a_corner_is_the_longest_space_in_a_group() -> None:
    text = (
        "Ch 4, join.\nRow 1: Ch 3, 3 dc in ring, ch 2, 4 dc in ring, turn. (8 dc)\n"
        "Row 2: Ch 4 (counts as dc, ch 1), dc in first st, (ch 1, skip 1, dc in next st) to corner, (ch 1, dc, ch 2, dc, ch 1) in corner, "
        "dc in next st, (ch 1, skip 1 st, dc in next st) to end, ch 1, dc in same st as last dc, turn.\n"
        "Row 3: Ch 3, dc in each ch-1 sp and each dc to corner, (dc, ch 2, dc) in corner, dc in each dc and each ch-1 sp to end."
    )
    row = worked_rows(text)[-1]
    assert (row.used, row.counted.by_kind["ch-2 sp"]) == (row.offered, 1)
