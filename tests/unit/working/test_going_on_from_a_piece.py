"""Pieces that go on from the one before, or are worked as rows of it, and stitches in loops of a plain round."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

BACK = "Back\nCh 10.\nRow 1: Sc in 2nd ch from hook and across. (9 sc)\nRow 2: Ch 1. Turn. Sc across. (9 sc)\nFlap\n"


def _rows(text: str) -> tuple[list[int], list[str]]:
    pattern = read(text)
    fabric = work(pattern)
    rows = [row for part in fabric.parts for row in part.rows if not row.foundation]
    assert all(row.worked == "yes" and row.read == "whole" for row in rows)
    return [row.counted.total for row in rows], [f.message for f in proof(pattern, (fabric,)) if f.severity != "note"]


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("Ch 1. Turn. Sc2tog, sc across to last 2 sts, sc2tog.", 7),
        ("Ch 1, sc2tog, sc across to last 2 sts, sc2tog.", 7),
        ("Ch 1, dec, sc across to last 2 sts, dec.", 7),
        ("Ch 1, sc2tog over next 2 sts, sc to end.", 8),
        ("Ch 3, turn, dc2tog, dc across to last 2 sts, dc2tog.", 7),
        ("Ch 2, turn, hdc2tog, hdc across to last 2 sts, hdc2tog.", 7),
    ],
)
def test_a_row_that_begins_with_a_decrease_stands_on_the_piece_before(words: str, total: int) -> None:
    assert _rows(f"{BACK}Row 1: {words} ({total} sts)") == ([9, 9, total], [])


def test_rows_of_a_piece_bring_their_foundation_stitches_along() -> None:
    text = (
        "Back\nRow 1: 9 fsc. Ch 2. Turn. Hdc across. Turn. (9 hdc)\nRow 2: Ch 1. Sc across. (9 sc)\nFasten off.\n"
        "Flap\nCh 6. Row 1: Sc in 2nd ch from hook and across. (5 sc) Fasten off.\nFront\nWork rows 1 to 2 of the back. Finish off."
    )
    assert _rows(text) == ([9, 9, 9, 5, 9, 9, 9], [])


def test_rows_further_up_do_not() -> None:
    text = (
        "Back\nRow 1: 9 fsc. Ch 2. Turn. Hdc across. Turn. (9 hdc)\nRow 2: Ch 1. Sc across. (9 sc)\nRow 3: Ch 1, turn, sc across. (9 sc)\n"
        "Flap\nCh 10. Row 1: Sc in 2nd ch from hook and across. (9 sc)\nRow 2: As row 3 of the back. (9 sc)"
    )
    assert _rows(text) == ([9, 9, 9, 9, 9, 9], [])


@pytest.mark.parametrize("place", ["one loop", "one stitch", "next loop"])
def test_a_loop_of_a_plain_round_is_a_stitch(place: str) -> None:
    text = f"Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc x 6. (12)\nRnd 3: in the front loops (1 sc, 3 dc in {place}, 1 sc) x 4. (20)"
    assert _rows(text) == ([6, 12, 20], [])


@pytest.mark.parametrize(
    "words",
    [
        "Eyes go between 2 and 3, 4 stitches apart.",
        "The eyes sit between rounds 2 and 3 with 6 stitches between them.",
        "The ears are sewn to rounds 1 to 2, 7 sts apart.",
        "Safety eyes come here.",
    ],
)
def test_where_eyes_go_is_no_work(words: str) -> None:
    assert _rows(f"Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (1 sc, inc) x 6 (18). {words}") == ([6, 12, 18], [])
