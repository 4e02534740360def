"""Edgings told on lines of their own behind rows: they are worked along the edge, once, and no row before them takes them up."""

import pytest

from hookwright.pattern import Make
from hookwright.pattern.walking import walk
from hookwright.reading import read
from hookwright.working import work

CLOTH = "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\nRows 2-10: Ch 1, turn, sc across. (11 sc)\n"
FLAT_HAT = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st. (12)\n"

EDGINGS = [
    "Edging: Single crochet evenly around all four sides, working 3 sc in each corner. Fasten off.",
    "Edging: Sc evenly around all four sides, working 3 sc in each corner. Fasten off.",
    "Border: Ch 1, work one round of sc evenly, with 3 sc in each corner. Join.",
    "Finish with one round of sc evenly around.",
    "Finish with a round of sc.",
    "Finish with a row of single crochet all around, 3 sc in corners.",
    "Edging\nWork 1 rnd sc around, working 3 sc in each corner.",
    "Sc around the whole piece, 3 sc in each corner.",
    "Single crochet around entire piece.",
    "To finish, sc all the way around, working 3 sc into each corner.",
    "Don't turn. Sc down the side, 3 sc in corner, sc across bottom, 3 sc in corner, sc up other side, 3 sc in corner. Join.",
    "With right side facing, join yarn in any corner, ch 1, sc evenly around entire blanket, working 3 sc in each corner, join.",
]


@pytest.mark.parametrize("words", EDGINGS)
def test_an_edging_is_one_row_along_the_edge(words: str) -> None:
    pattern = read(CLOTH + words)
    rows = [row for part in pattern.parts for row in part.rows]
    edge = next(step for step in walk(rows[-1].steps) if isinstance(step, Make))
    assert (edge.at.where, edge.evenly) == ("row_end", True)
    worked = [row for part in work(pattern).parts for row in part.rows if not row.foundation]
    assert [row.counted.total for row in worked[:10]] == [11] * 10
    assert len(worked) == 11


@pytest.mark.parametrize("words", ["Sc around.", "1 sc in each st around.", "Work one round of sc."])
def test_round_work_goes_on_over_its_stitches(words: str) -> None:
    worked = [row for part in work(read(f"{FLAT_HAT}Rnd 3: {words} (12)")).parts for row in part.rows if not row.foundation]
    assert [(row.counted.total, row.worked) for row in worked] == [(6, "yes"), (12, "yes"), (12, "yes")]


@pytest.mark.parametrize("words", ["Ch 1, turn, sc in each st all across.", "Ch 1, turn, sc in each sc around."])
def test_a_row_of_flat_work_stays_a_row(words: str) -> None:
    worked = [row for part in work(read(f"{CLOTH}Row 11: {words} (11 sc)")).parts for row in part.rows if not row.foundation]
    assert (worked[-1].counted.total, worked[-1].worked) == (11, "yes")


SHAPED = (
    "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st. (12)\nRnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)\n"
    "Rnd 4: (Sc in next 2 sts, 2 sc in next st) 6 times. (24)\nRnd 5: (Sc in next 2 sts, sc2tog) 6 times. (18)\n"
)


@pytest.mark.parametrize(
    "words",
    [
        "Decrease in the same way for two more rounds.",
        "Decrease in the same way in the next 2 rounds.",
        "Continue to decrease in the same way for 2 more rounds.",
        "Continue decreasing in this way until 6 sts remain.",
        "Rnd 6: Decrease in the same way. (12)\nRnd 7: Decrease again.",
    ],
)
def test_a_line_that_shapes_on_is_rows_of_its_own(words: str) -> None:
    worked = [row for part in work(read(f"{SHAPED}{words} (6)")).parts for row in part.rows if not row.foundation]
    assert [row.counted.total for row in worked] == [6, 12, 18, 24, 18, 12, 6]
    assert all(row.worked == "yes" for row in worked)
