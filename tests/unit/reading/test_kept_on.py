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


@pytest.mark.parametrize(
    ("words", "rows"),
    [
        ("Rnds 2+ sc in every sc, 9 rounds or to the height you want. = 12 sc", 9),
        ("Rnds 2-on: sc around, 9 rounds or so (12)", 9),
        ("Rnd 2+: sc around until as tall as you like, about 9 rounds (12)", 9),
        ("Rnd 2 and up: sc in each st, as many rounds as you want (12)", 1),
        ("Sc around for 9 rounds, or to the height you like", 9),
        ("9 rounds of sc around (or as many as you want)", 9),
        ("Rnd 2: sc around for 3 rounds\nRnd 5: sc around", 4),
    ],
)
def test_so_many_rounds_are_worked_as_are_told_behind_them(words: str, rows: int) -> None:
    assert [row.counted.total for row in worked_rows(f"Rnd 1: 12 sc in magic ring (12)\n{words}")] == [12] * (rows + 1)


@pytest.mark.parametrize("head", ["Even rows (one edge is held)", "Increase rows (one side only):", "Odd rows"])
def test_a_heading_of_rows_is_no_row_and_no_piece(head: str) -> None:
    parts = read(f"{NARROWS}{head}\nRow 3: ch 1, sc across, turn.").parts
    assert [[row.label for row in part.rows] for part in parts] == [["Row 1", "Row 2", "Row 3"]]


@pytest.mark.parametrize(
    ("words", "stitches"),
    [
        ("Ch 110 and slip stitch back = 109", 109),
        ("Ch 61, sl st back to the start (60)", 60),
        ("Ch 40, sc back down the chain.", 39),
        ("Ch 80, then sc all the way back along it, fasten off", 79),
        ("Ch 45, work back in sl st", 44),
        ("Ch 45, hdc back along the ch (44)", 44),
        ("Ch 5, sl st back to the start to make a ring.\nRnd 1: ch 1, 10 sc in ring", 10),
    ],
)
def test_a_cord_is_its_chain_and_the_way_back(words: str, stitches: int) -> None:
    assert worked_rows(f"Tie\n{words}")[-1].counted.total == stitches


@pytest.mark.parametrize(
    "words",
    [
        "first ( ) twice again",
        "repeat first ( ) twice",
        "( ) 2 more times",
        "repeat instructions in brackets twice",
        "then first bracket twice again",
        "rep between ( and ) x 2",
    ],
)
def test_a_group_is_named_by_its_brackets(words: str) -> None:
    text = f"Rnd 1: 40 sc in magic ring (40)\nRnd 2: (sc in 3 sc, inc) twice, sc in 8, (sc in 3 sc, inc) twice, sc in 8, {words} (46)"
    assert worked_rows(text)[-1].counted.total == 46


@pytest.mark.parametrize(
    ("words", "rows"),
    [
        ("Repeat rows 2-4 twice more, then rows 2 and 3 once.", "234234 23"),
        ("Rows 2 - 4 twice more, then row 2 once. (11 rows all told)", "234234 2"),
        ("Rep rows 2 & 3 3 times, then repeat row 2 once more.", "232323 2"),
        ("Repeat rows 2 through 4 twice, followed by rows 2 and 3.", "234234 23"),
        ("Repeat rows 2 to 4 twice, row 2 once.", "234234 2"),
        ("Rows 5-12: repeat rows 2-4 twice, then rows 2 and 3.", "23423423"),
        ("Rows 5-13: rows 2 and 3 four times, then row 4 once", "232323234"),
    ],
)
def test_other_rows_follow_those_told_so_often(words: str, rows: str) -> None:
    text = "Row 1: ch 17, sc in 2nd ch from hook and across (16)\nRow 2: ch 1, sc across\nRow 3: ch 2, hdc across\nRow 4: ch 3, dc across\n"
    kinds = {"2": "sc", "3": "hdc", "4": "dc"}
    assert [next(iter(row.counted.by_kind)) for row in worked_rows(text + words)[4:]] == [kinds[n] for n in rows.replace(" ", "")]
