"""Rows told before that are kept on with, in the free words of pages: which, how many, and where they end. All wordings are ours."""

import pytest

from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

NARROWS = "Row 1: ch 17, sc in 2nd ch from hook and in each ch across (16)\nRow 2: ch 1, sc2tog, sc to last 2 sts, sc2tog, turn (14)\n"
BY_TURNS = "Row 1: ch 26, sc in 2nd ch from hook and across (25)\nRow 2: ch 1, sc across, turn.\nRow 3: ch 2, hdc across, turn.\n"


@pytest.mark.parametrize(
    "words",
    [
        "Keep on with row 2 until you are down to 4 sc. Finish off.",
        "Go on with row 2 until only 4 sc are left.",
        "Keep doing row 2 until it gets down to 4 stitches.",
        "Carry on with row 2 till there's 4 sc left.",
        "Continue with row 2 down to 4 sts.",
        "Do row 2 over and over until you're left with 4 sts.",
        "Keep going like this until 4 sts remain.",
        "Rows 3-7: repeat row 2 until 4 sts remain.",
    ],
)
def test_a_row_is_kept_on_with_down_to_so_many(words: str) -> None:
    assert [row.counted.total for row in worked_rows(NARROWS + words)] == [16, 14, 12, 10, 8, 6, 4]


@pytest.mark.parametrize(
    "words",
    [
        "Rows 2 and 3, over and over. You end on a row 2.",
        "2 and 3 in turn. The last one is a row 2.",
        "rows 2 + 3 alternately. You should finish with a row 2",
        "alternate between rows 2 and 3, ending up on a row 2.",
        "Rows 2 and 3, alternating.",
        "repeat rows 2 and 3 until it measures 5 inches.",
    ],
)
def test_numbers_say_how_many_rows_go_by_turns(words: str) -> None:
    rows = worked_rows(f"{BY_TURNS}Rows 4-8: {words}")
    assert [list(row.counted.by_kind) for row in rows] == [["sc"], ["sc"], ["hdc"], ["sc"], ["hdc"], ["sc"], ["hdc"], ["sc"]]
    assert not [told for row in rows for told in row.troubles]


def test_rows_that_end_elsewhere_than_told_are_found() -> None:
    rows = worked_rows(f"{NARROWS}Rows 3-6: repeat row 2 until 6 sts remain.")
    assert rows[-1].counted.total == 6
    wrong = read(f"{NARROWS}Rows 3-6: repeat row 2 until 4 sts remain.")
    assert [told.kind for part in work(wrong).parts for row in part.rows for told in row.troubles] == ["count-differs"]


def test_a_title_that_names_a_foundation_stitch_is_no_row() -> None:
    rows = read("Foundation-sc headband\n\nRow 1: 12 fsc, turn (12)\nRow 2: ch 1, sc in each, turn.").parts[0].rows
    assert [row.label for row in rows] == ["Row 1", "Row 2"]
