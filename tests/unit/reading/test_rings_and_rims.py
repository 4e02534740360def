"""Chains made a ring in whatever words, rims closed by a slip stitch that stands in no stitch, ranges that tell each row another count."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

DISC = "Round 1: 6 sc in magic ring. (6)\nRound 2: 2 sc in each st. (12)\n"


def totals(text: str) -> list[int]:
    return [row.counted.total for row in worked_rows(text)]


@pytest.mark.parametrize(
    "ring",
    [
        "Ch 5 and loop into a ring.",
        "Ch 5, make into a ring.",
        "Chain 5, fasten into ring.",
        "Ch 5; connect to make a ring.",
        "Ch 5, bring the ends together into a ring.",
        "5 ch, tie to make a ring.",
        "Chain 5 and make a loop.",
        "Ch 5, turn into a ring.",
    ],
)
def test_a_round_in_the_ring_is_closed_though_it_is_called_a_row(ring: str) -> None:
    """What is worked in a ring goes round: a slip stitch by itself closes it and takes no stitch of its own."""
    text = (
        f"{ring}\nRow 1: Ch 3 (is the first dc), 11 dc in the ring. Sl st to first dc (12 dc)\nRow 2: Ch 1, sc in each st. Sl st (12 sc)\n"
    )
    assert totals(text) == [12, 12]


@pytest.mark.parametrize(
    "rim",
    [
        "Rim: sc in each st, sl st in next st. (12 sc)",
        "Top edge: sc in front loop of every stitch, slip stitch into the next = 12 sc",
        "Edge: Sc in each st, slip stitch into the next. (12 sc)",
        "Brim: sc in each st, sl st. (12 sc)",
    ],
)
def test_a_rim_on_rounds_is_a_round(rim: str) -> None:
    assert totals(DISC + rim + "\n") == [6, 12, 12]


def test_an_edge_on_rows_is_a_row() -> None:
    flat = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\nRow 2: Ch 1, turn, sc in each st. (10)\n"
    assert totals(flat + "Edge: sc in each st, sl st in next st. (9 sc)\n") == [10, 10, 9]


LACE = (
    DISC + "Round 3: 2 sc in each st. (24)\nRound 4: Ch 3, *dc in next st, ch 1, skip 1; rep from * around. (12 holes)\n"
    "Round 5: Ch 1, sc in each dc and in each hole around. (24 sts)\n"
)


def test_a_range_of_unlike_rounds_tells_holes_of_the_one_that_has_them() -> None:
    assert totals(LACE + "Rounds 6-7: as rounds 4-5. (12 holes)\n") == [6, 12, 24, 12, 24, 12, 24]


def test_a_wrong_total_of_such_a_range_is_found() -> None:
    pattern = read(LACE + "Rounds 6-7: as rounds 4-5. (12 holes, 26 sts)\n")
    found = [x for x in proof(pattern, (work(pattern),)) if x.rule == "count-differs"]
    assert [x.row for x in found] and all("26" in x.message for x in found)
