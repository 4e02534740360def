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
    "a yoke whose corners get their list in every space": (
        "YOKE. With White ch 23. 1st ROW: 1 d c in 4th st from hook, 1 d c in each of the next 3 sts, 2 d c, ch 1, 2 d c in next st, 1 d c "
        "in each of the next 8 sts, 2 d c, ch 1, 2 d c in next st, 1 d c in each of remaining 6 sts, ch 3, turn. 2nd ROW: Skip 1st d c, "
        "1 d c in each d c working 1 d c, ch 1, 1 d c in each ch 1 at corners, 1 d c in top of turning ch, ch 3, turn.\n",
        "27 31",
    ),
    "loops of an afghan taken off as they are told once": (
        "AFGHAN. Using afghan hook, ch 20.\n\n1st row: Draw up a loop in 2nd ch from hook and in each ch across (20 loops). Work loops off "
        "as follows: Yarn over and draw through first loop, * yarn over and draw through next 2 loops. Repeat from * across until 1 loop "
        "remains. 2nd row: Skip first bar, draw up a loop in next bar and in each bar across; take off as before.\n",
        "20 20",
    ),
    "a purse of loops and beads": (
        "LONG PURSE.\n\nMake a chain of 40 stitches with the black, and close it.\n\n1st round.--Plain, dropping a bead on every second "
        "stitch.\n\n2d.--With the cerise, 3 chain, miss 3, 1 plain.\n\n3d.--3 chain, and 1 plain in each 3 chain, with a bead upon the "
        "plain.\n",
        "40 10 10",
    ),
    "a filet row whose first squares are named in brackets": (
        "FILET STRIP. Ch 30, 1 d c in the 4th st from hook, 1 d c in each of the next 2 sts (1 solid mesh), ch 2, skip 2 sts of ch, d c in "
        "next st (1 open mesh), 6 more open meshes, 1 solid mesh, ch 3, turn.\n\n"
        "2nd Row-1 solid mesh, 7 open meshes, 1 solid mesh, ch 3, turn.\n\n"
        "3rd Row-1 solid mesh, open meshes to last solid mesh, 1 solid mesh, ch 3, turn.\n",
        "14 14 14",
    ),
    "a leaf worked round its chain, back to where it began": (
        "EAR. Ch 12, s c in 2nd st from hook, h d c in next st, d c in 8 sts, 6 d c in last st; working up other side of ch, 8 d c, h d c, "
        "s c, sl st in end.\n",
        "26",
    ),
    "corners as before, and what fills the spaces between them": (
        "SQUARE. With Rose ch 4, join. 1st ROUND: Ch 3, 2 d c in ring, * ch 2, 3 d c in ring, repeat from * twice, ch 2, join. 2nd ROUND: "
        "Attach Grey in corner space, ch 3, 2 d c, ch 2, 3 d c in same space, * ch 1, 3 d c, ch 2, 3 d c in next corner space, repeat from "
        "* twice, ch 1, join. 3rd ROUND: With Black work corners as before having 3 d c between corners in each ch 1 space.\n",
        "12 24 36",
    ),
    "a row called by what an earlier one was": (
        "RUG. Ch 15. 1st row: Sc in 2nd ch from hook and in each ch following. Ch 1, turn. 2nd row (loop row): * Insert hook in next sc, "
        "wind yarn once round first finger of left hand, draw both strands through, yarn over, draw through all on hook. Repeat from * "
        "across. Ch 1, turn. 3rd row: Plain sc. 4th row: Loop row. Ch 1, turn.\n",
        "14 14 14 14",
    ),
    "a yoke widened as before, and divided at its corners": (
        "YOKE. With White ch 23. 1st ROW: 1 d c in 4th st from hook, 1 d c in each of the next 3 sts, 2 d c, ch 1, 2 d c in next st, 1 d c "
        "in each of the next 8 sts, inc in next st as before, 1 d c in each of remaining 6 sts, ch 3, turn. 2nd ROW: Skip 1st d c, 1 d c "
        "in each d c working 1 d c, ch 1, 1 d c in each ch 1 at corners (4 incs made in row: 1 each side of each front), ch 3, turn.\n",
        "27 31",
    ),
    "a spiral that closes until its opening is small": (
        "BALL. Ch 2, 6 s c in 2nd st from hook. 2nd round: 2 s c in each s c. 3rd round: 1 s c in each s c and so on until 2 inches long. "
        "Next round: * 1 s c in each of next 3 s c, skip next s c, repeat from * until opening is half an inch across.\n",
        "6 12 12 9",
    ),
    "an edging whose first row ends with a long loop": (
        "EDGING.\n\nMake a chain of 15 stitches, turn.\n\n1st row.--1 treble in the 5th stitch from the needle, 2 chain, miss 2, 1 treble, "
        "2 chain, miss 2, 1 treble, 5 chain, and 1 treble in the last stitch; turn.\n",
        "5",
    ),
    "a chain that is told with its yarn, and joined": (
        "MAT IN COLOURS.\n\nBegin with scarlet; a chain of 5, joined.\n\n1st round--2 plain in each.\n\n2d round, white--Plain.\n",
        "10 10",
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
