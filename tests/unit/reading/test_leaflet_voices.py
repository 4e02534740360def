"""Causes that leaflets show: pieces told in running text, rounds named with their yarn, shapings; worked to their counts."""

import pytest

from hookwright.reading import read

from .told import worked_rows

PIECES = {
    "a piece headed in small letters in mid-paragraph, before its own chain": (
        "OWL. Body. Ch 2, 7 s c in 2nd st from hook. 2nd round: 2 s c in each s c. 3rd round: Work even. Stuff lightly. "
        "Wings. Ch 9, s c in 2nd st from hook, h d c in next st, d c in 6 sts. Tail: Ch 5, s c in 2nd st from hook, s c in 3 sts.\n",
        "7 14 14 8 4",
    ),
    "rounds named with the yarn they are worked in": (
        "MAT IN TWO COLOURS.\n\nMake a chain of 6, and join it.\n\n1st round--2 plain in each stitch.\n\n"
        "2d round, crimson--1 treble, 1 chain, in every stitch.\n\n3d round, with the second colour--Plain all round.\n",
        "12 12 24",
    ),
    "a ring of bone that the piece is worked over": (
        "BLIND PULL. Over a small bone ring work 24 d c close together, join. 2nd round: 2 s c in each d c, join.\n",
        "24 48",
    ),
    "a block that grows at its center, told up to it": (
        "BLOCK.\n\nCh 2.\n\nRow 1: 3 sc in 2nd ch from hook. Turn.\n\nRow 2: Sc to center sc, 3 sc in same, sc to end. Turn.\n\n"
        "Row 3: Sc to the center st, 3 sc in center st, sc to end. Turn.\n",
        "3 5 7",
    ),
    "a round that tells nothing but its increases": (
        "BONNET.\n\nCh 5, join. 1st Round-12 d c in ring. 2nd Round-2 d c in each d c. 3rd Round-Increasing 6 d c. "
        "4th round-D c around, increasing 6 in round so that the work lies flat.\n",
        "12 24 30 36",
    ),
}
"""The piece and the totals of its worked rows, in order."""


@pytest.mark.parametrize("cause", PIECES)
def test_piece_is_read_whole_and_worked(cause: str) -> None:
    text, told = PIECES[cause]
    assert [row.counted.total for row in worked_rows(text)] == [int(number) for number in told.split()]


def test_headings_in_mid_paragraph_name_the_pieces() -> None:
    pattern = read(PIECES["a piece headed in small letters in mid-paragraph, before its own chain"][0])
    assert [part.name for part in pattern.parts] == ["Body", "Wings", "Tail"]
