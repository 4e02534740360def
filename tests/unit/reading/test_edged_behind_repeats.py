"""An edge, or one more row, told in the very sentence that repeats rows: it is worked once, behind them all."""

import pytest

from hookwright.reading import read
from hookwright.working import work

STRIP = (
    "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (11 sc)\n"
    "Row 2: Ch 3, dc in each sc across, turn. (11 dc)\nRow 3: Ch 1, sc in each dc across, turn. (11 sc)\n"
)


@pytest.mark.parametrize(
    ("words", "rows", "last"),
    [
        ("Repeat last 2 rows 3 times, then do not turn, work 1 row of dc on 3 remaining sides. Fasten off.", 9, 0),
        ("Rep Rows 2 and 3 four times, hdc evenly along the side edge. Fasten off.", 11, 0),
        ("Repeat rows 2-3 until there are 9 rows, work a round of sc round the edge, 3 sc in each corner.", 9, 0),
        ("Rep last 2 rows twice more, rotate, ch 1, single crochet evenly along the long side. (9 sc)", 7, 9),
        ("Repeat last 2 rows 3 times, fasten off, join yarn at corner and sc along other three sides.", 9, 0),
        ("Rep Rows 2 and 3 twice, ch 1, turn, sc in first sc, *ch 3, skip 1 sc, sc in next sc; rep from * across. (6 sc)", 7, 6),
    ],
)
def test_the_edge_is_worked_once(words: str, rows: int, last: int) -> None:
    (part,) = work(read(f"{STRIP}{words}\n")).parts
    done = [row for row in part.rows if not row.foundation]
    assert [row.counted.total for row in done] == [11] * rows + [last]
    assert all(row.read == "whole" and row.worked in ("yes", "assumed") for row in done)


@pytest.mark.parametrize("words", ["Repeat last 2 rows 3 times, fasten off.", "Rep Rows 2 and 3 3 times, ch 1, turn."])
def test_what_only_ends_the_rows_is_no_row(words: str) -> None:
    (part,) = work(read(f"{STRIP}{words}\n")).parts
    assert [row.counted.total for row in part.rows if not row.foundation] == [11] * 9
