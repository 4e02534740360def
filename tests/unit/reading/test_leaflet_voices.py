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
    "a rose whose later petals hang on the stitches of an earlier round": (
        "ROSE. Ch 6, join with sl st to form ring. 1st rnd: Ch 6, (dc in ring, ch 3) 5 times; join to 3rd st of ch-6. 2nd rnd: In each "
        "loop make sc, half dc, 3 dc, half dc and sc. 3rd rnd: * Ch 5, sc around bar of next dc of 1st rnd. Repeat from * 5 more times. "
        "4th rnd: As 2nd rnd, making 5 dc instead of 3 in each petal. 5th rnd: Same as 3rd rnd, but with ch 7 and working around the sc "
        "of the 3rd rnd. 6th rnd: Sc, half dc, 7 dc, half dc, sc over each ch-7. Break off.\n",
        "6 42 6 54 6 66",
    ),
    "a row that is narrowed at its ends and worked again until few stitches are left": (
        "STRAP.\n\nChain 9.\n\nRow 1: 1 sc in 2nd ch from hook and in each ch following.\n\n"
        "Row 2: Work two sts. together at each end of row, repeat until 2 sts. are left.\n",
        "8 6 4 2",
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
