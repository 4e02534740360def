"""Stitches spread along the ends of rows, or round a piece worked in rows, without a word for its edge: nobody counted the places there."""

import pytest

from hookwright.reading import read
from hookwright.working import work

MAT = "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\nRows 2-5: Ch 1, sc in each sc across, turn. (8 sc)\n"
CAP = "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each sc around. (12 sc)\n"


@pytest.mark.parametrize(
    "words",
    [
        "Row 6: Ch 1, sc evenly along row ends, turn.",
        "Row 6: Ch 1, do not turn, hdc evenly across the ends of the rows.",
        "Border: Ch 1, dc evenly along both row ends.",
        "Border: Ch 1, rotate, dc along row ends.",
        "Row 6: Ch 1, sc evenly around.",
        "Border: Sc evenly all the way around.",
        "Border: Sc around.",
        "Border: Work 2 rows of sc evenly along row ends.",
    ],
)
def test_edges_of_flat_work_are_not_counted(words: str) -> None:
    last = work(read(f"{MAT}{words}\n")).parts[-1].rows[-1]
    assert (last.read, last.state, last.counted.total) == ("whole", "unstated", 0)


@pytest.mark.parametrize(
    ("words", "number"), [("Row 6: Ch 1, sc evenly around. (26 sc)", 26), ("Border: Ch 1, work 14 sc evenly along row ends. (14 sc)", 14)]
)
def test_the_count_stated_there_is_taken(words: str, number: int) -> None:
    last = work(read(f"{MAT}{words}\n")).parts[-1].rows[-1]
    assert (last.read, last.counted.total) == ("whole", number)
    assert last.state in ("assumed", "agrees")


@pytest.mark.parametrize(
    "words", ["Edging: Sc evenly around, join.", "Edging: Sc around.", "Rnd 3: Sc evenly around.", "Edging: Sc evenly around."]
)
def test_on_rounds_the_round_below_is_meant(words: str) -> None:
    last = work(read(f"{CAP}{words}\n")).parts[-1].rows[-1]
    assert (last.read, last.counted.total) == ("whole", 12)
