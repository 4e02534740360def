"""A row opened: every word of it is there, with what it took and made; which readings were taken and why; how sure it is."""

from __future__ import annotations

from hookwright.proofing.opened_row import show_row
from hookwright.reading import read
from hookwright.working import work

PIECE = """Ch 28.
Row 1: Sc in 2nd ch from hook and in each ch across. (27 sc)
Row 2: Ch 3 (counts as dc), turn, dc in next st, *ch 1, skip 1 st, dc in next st; rep from * to last 3 sts, dc in last 3 sts. (16 dc)
Row 3: Ch 1, turn, sc in each dc and ch across. (27 sc)
Row 4: Ch 1, turn, sc in first 2 sts, frobnicate the 3 sts, sc in last st. (27 sc)
Row 5: Ch 1, turn, sc in first 2 sts, dream of the sea, sc in last st. (3 sc)
Row 6: Rep Row 3. (3 sc)
"""


def opened(label: str, text: str = PIECE) -> str:
    pattern = read(text)
    fabric = work(pattern)
    part, row = next((part, row) for part in fabric.parts for row in part.rows if row.label == label)
    return show_row(pattern, fabric, part, row)


def test_every_word_of_the_row_has_its_line() -> None:
    page = opened("Row 2")
    steps = page.split("the words")[1]
    at = [steps.index(words) for words in ("Ch 3 (counts as dc)", "\n  turn\n", "dc in next st", "*ch 1, skip 1 st", "dc in last 3 sts")]
    assert at == sorted(at)
    assert "11 times: each takes 2 and makes 1" in page
    assert "Used     27 of 27" in page and "16 in all" in page and "16 dc; agrees" in page


def test_a_reading_is_told_once_with_its_reason() -> None:
    page = opened("Row 3")
    assert page.count("Do chains count as stitches to be worked into?") == 1
    assert "No: by custom." in page


def test_words_that_worked_nothing_are_told_as_such() -> None:
    page = opened("Row 4")
    assert "not understood" in page.split("frobnicate the 3 sts")[2]
    assert "Sure     no: " in page
    page = opened("Row 5")
    assert "set aside as a remark" in page.split("dream of the sea")[2]
    assert "of them passed over" in page


def test_a_repeated_row_says_where_its_steps_are() -> None:
    page = opened("Row 6")
    assert "sc in each dc and ch across" in page and "the steps above are those that this means" in page


def test_one_doubt_is_said_once() -> None:
    """A flaw that hangs on a row not understood is a note, and gives one reason."""
    from hookwright.proofing import proof

    text = PIECE + "Row 7: Ch 1, turn, sc in next 40 sts. (40 sc)\n"
    pattern = read(text)
    for finding in proof(pattern, (work(pattern),)):
        doubts = [
            line for line in finding.working if "could not be told for sure" in line or "may only follow" in line or "may not be" in line
        ]
        assert len(doubts) <= 1, finding
