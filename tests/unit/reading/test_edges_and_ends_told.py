"""Corners, row ends and last stitches as makers tell them beside the row: whole small pieces with their counts."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

SQUARE = "Rnd 1: 8 sc in magic ring, join. (8 sc)\nRnd 2: Ch 1, *3 sc in next sc, sc in next sc; rep from * around, join. (16 sc)\n"
CLOTH = "Ch 11. Row 1: Sc in 2nd ch from hook and in each ch. (10 sc)\nRows 2-11: Ch 1, turn, sc across. (10 sc)\n"
PLAIN = "Ch 12. Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\nRow 2: Ch 1, turn, sc across. (11 sc)\n"
MESH = (
    "Ch 12. Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\n"
    "Row 2: Ch 4 (counts as dc, ch 1), turn, skip first 2 sc, *dc in next sc, ch 1, skip 1 sc; rep from * across, dc in last sc. (6 dc)\n"
    "Row 3: Ch 1, turn, sc in first dc, *sc in ch-sp, sc in next dc; rep from * across"
)


def _last(text: str) -> tuple[int, str, str, list[str]]:
    pattern = read(text)
    fabric = work(pattern)
    row = [row for part in fabric.parts for row in part.rows][-1]
    return row.counted.total, row.read, row.worked, [f.message for f in proof(pattern, (fabric,)) if f.severity != "note"]


@pytest.mark.parametrize(
    "words",
    [
        "sc around, 3 sc in all four corners",
        "sc in each sc around, working 3 sc in all 4 corners",
        "sc in each sc, 3 sc in the middle sc of all four corners",
        "sc in each sc, 3 sc in the middle sc at every corner",
        "sc in each sc and 3 sc in each of the four corners",
        "sc all round with 3 sc in the 4 corner sts",
        "work 1 sc in each sc, putting 3 sc in the centre sc of each of the 4 corners",
        "sc in every st. Put 3 sc in the corner sts",
        "sc in each sc, but 3 sc in the middle sc at all the 4 corners",
    ],
)
def test_all_corners_are_each_of_them(words: str) -> None:
    assert _last(f"{SQUARE}Rnd 3: Ch 1, {words}, join. (24 sc)") == (24, "whole", "yes", [])


@pytest.mark.parametrize(
    "words",
    [
        "9 sc down the side, along the foundation chain 3 sc in first ch, 8 sc, 3 sc in last ch, 9 sc up the other side",
        "9 sc down the side, along the foundation 3 sc in first ch, 8 sc, 3 sc in last ch, 9 sc up the other side",
        "9 sc evenly down side, 3 sc in first ch of foundation, sc in next 8 ch, 3 sc in last ch, 9 sc evenly up the other side",
    ],
)
def test_the_corners_in_the_chain_are_corners_of_the_next_round_too(words: str) -> None:
    edged = f"{CLOTH}Rnd 1: Ch 1, turn, 3 sc in first st, sc in next 8 sts, 3 sc in last st, {words}, join. (46 sc)\n"
    assert _last(f"{edged}Rnd 2: Ch 1, sc around with 3 sc in each corner st, join. (54 sc)") == (54, "whole", "yes", [])


@pytest.mark.parametrize(
    "words",
    [
        ", the last sc sits in the 3rd of the 4 ch",
        ". The last sc falls in the 3rd ch of the turning ch",
        ", your last sc goes into the third chain of the ch-4",
        ", the last sc lands in the 3rd ch",
        ", the last sc will be in the 3rd ch of beg ch-4",
    ],
)
def test_where_the_last_stitch_comes_to_lie(words: str) -> None:
    assert _last(f"{MESH}{words}. (11 sc)") == (11, "whole", "yes", [])


@pytest.mark.parametrize(
    "words",
    [
        "sc in each st until 4 sts remain",
        "sc in each st until there are 4 sts left",
        "sc across till 4 st are left in the row",
        "sc in each st to last 4 sts",
        "*sc in next st, hdc in next st; rep from * until 4 sts remain unworked, turn",
        "*sc, hdc, rep from * to last 4 sts, turn",
    ],
)
def test_a_run_that_stops_before_the_end_leaves_the_rest_where_the_count_agrees(words: str) -> None:
    text = f"Ch 13. Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\nRow 2: Ch 1, turn, {words}. (8 sts)\n"
    assert _last(text) == (8, "whole", "yes", [])


def test_without_a_count_that_agrees_nothing_is_left_by_itself() -> None:
    text = "Ch 13. Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
    text += "Row 2: Ch 1, turn, *sc, hdc, rep from * to last 4 sts. (10 sts)"
    assert _last(text)[2:] != ("yes", [])


@pytest.mark.parametrize(
    ("words", "rows"),
    [
        ("Rows 2 - 3 three times more, then row 2 once more", 10),
        ("Rows 2-3 fourteen more times", 31),
        ("Row 2 & 3 x 4", 11),
        ("Rows 2+3 4 times", 11),
    ],
)
def test_rows_named_with_how_often(words: str, rows: int) -> None:
    fabric = work(read(f"{PLAIN}Row 3: Ch 1, turn, hdc across. (11 hdc)\n{words}."))
    made = [row for part in fabric.parts for row in part.rows if not row.foundation]
    assert len(made) == rows
    assert made[-1].worked == "yes"


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("hdc in 3rd ch from hook and in each ch to end, the 2 skipped ch count as st, turn", 12),
        ("hdc in 3rd ch from hook and on, the 2 skipped ch count as st, turn", 12),
        ("dc in 4th ch from hook and all along. The 3 ch you skipped are your first dc", 11),
        ("sc in 2nd ch from hook and onwards", 12),
        ("hdc in 3rd ch from hook, hdc on to the end", 11),
    ],
)
def test_along_a_chain(words: str, total: int) -> None:
    assert _last(f"Row 1: Ch 13, {words}. ({total})") == (total, "whole", "yes", [])
