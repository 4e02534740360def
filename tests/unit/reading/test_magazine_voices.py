"""Pieces as magazines and yarn makers' pages tell them: the total of every row, beginning chains without their own; texts of our own."""

import pytest

from .told import worked_rows

PIECES = {
    "a decrease told once more among the abbreviations": (
        "ABBREVIATIONS\n"
        "Sc2tog = Draw up a loop in each of next 2 stitches. Yoh and draw through all loops on hook\n\n"
        "POD\nWith A, ch 2.\n1st rnd: 6 sc in 2nd ch from hook.\n2nd rnd: 2 sc in each sc around. 12 sc.\n"
        "3rd rnd: *1 sc in each of next 4 sc. Sc2tog. Rep from * around. 10 sts.\n",
        "6 12 10",
    ),
    "a decrease explained by its long name": (
        "STITCH EXPLANATION\nhdc2tog (half double crochet 2 together): [Yarn over, insert hook in next st and draw up a loop] twice, yarn "
        "over and draw through all 5 loops on hook.\n\nFLAP\nCh 15.\nRow 1: Hdc in 2nd ch from hook and in each ch across—14 hdc.\n"
        "Row 2: Ch 1, turn, hdc2tog, hdc in each st to last 2 sts, hdc2tog—12 sts.\n",
        "14 12",
    ),
    "stitches worked together in one place stay a cluster of the pattern's own": (
        "Special stitch\ndc2tog: [yo, insert hook in same st, yo and pull up a loop, yo and pull through 2 loops] twice, yo and pull "
        "through all 3 loops.\n\nCh 10.\nRow 1: Sc in 2nd ch from hook and in each ch across. (9 sc)\n"
        "Row 2: Ch 1, turn, sc in first st, *dc2tog in next st, sc in next st; rep from * across. (9 sts)\n",
        "9 9",
    ),
    "a page in capitals whose chain heads no piece": (
        "CH 3 COUNTS AS A DC\n\nTOE\n\nCH 4, JOIN TO FORM RING\n\nRND 1: CH 3, 11 DC IN RING, JOIN IN TOP OF CH 3. 12 DC\n\n"
        "RND 2: CH 3, DC IN SAME ST, 2 DC IN EACH DC AROUND, JOIN. 24 DC\n",
        "12 24",
    ),
    "what the skipped chains are, told inside the count": (
        "Round 1. Ch 4, 11 dc in 4th ch from hook, sl st to top of ch 4 to join. (12 dc - the skipped chs count as one)\n\n"
        "Round 2. Ch 3, dc in same st, 2 dc in each st around, join. (24 dc)\n",
        "12 24",
    ),
    "a numbered yarn cut before the count": (
        "Round 1: With Color 1, make a MR. Ch 1, 8 sc in MR; sl st to first sc to join. [8 sc]\n"
        "Round 2: Ch 1, 2 sc in each st around; sl st to first sc to join. Fasten off Color 1. [16 sc]\n",
        "8 16",
    ),
    "rows of another piece by their ordinals": (
        "HEAD\nWith A, ch 2.\n1st rnd: 6 sc in 2nd ch from hook.\n2nd rnd: 2 sc in each sc around. 12 sc.\n\n"
        "BODY\nWith A, work 1st and 2nd rnds as given for Head. 12 sc.\n3rd rnd: 1 sc in each sc around. 12 sc.\n",
        "6 12 6 12 12",
    ),
    "a length of every size, told in both units": (
        "Sizes S (M, L).\nCh 21 (26, 31).\nRow 1: Hdc in 2nd ch from hook and in each ch across—20 (25, 30) hdc.\n"
        'Row 2: Ch 1, turn, hdc in each st across.\nRep Row 2 until piece measures 2 (2½, 3)" [5 (6.5, 7.5) cm] from beginning, end '
        "with a WS row.\n",
        "20 20 20",
    ),
    "sizes glued and parted by colons, advice before the ring": (
        "To fit: toddler(child:adult)\n\nCAP\nUsing 4.5mm hook, make 24(30:36)ch, and being careful not to twist, ss to first ch to "
        "form a ring.\n"
        "Round 1: 1ch (does not count as st), 1dc in each ch to end, ss to first dc. 24(30:36)dc.\n"
        "Round 2: 1ch, 1dc in same place as ss, *1ch, miss 1dc, 1dc in next dc; rep from * to last dc, 1ch, miss last dc, ss to first dc. "
        "12(15:18)dc and 12(15:18) 1ch-sps.\n",
        "24 12",
    ),
    "a second shoulder told to match the first": (
        "Ch 32.\nRow 1: Dc in 4th ch from hook and in each ch across. (30 dc)\n"
        "Row 2: Ch 3, dc in next 9 sts, turn, leaving the rest unworked. 10 dc\nNext row: Ch 3, dc in each st across. 10 dc. Fasten off.\n"
        "Skip 10 sts for the neck, rejoin yarn in next st and work second shoulder to match.\n",
        "30 10 10 10 10",
    ),
    "going on along the other side, closed with one slip stitch": (
        "With red yarn crochet 9 chain stitches.\n1st round: 1 single crochet in 2nd chain from the hook, 1 single crochet in each of next "
        "7 chains, then go on the other side of the chain: 1 single crochet in each of 8 chains (16 single crochet).\n"
        "2nd round: 1 single crochet in each stitch, finish with 1 slip stitch (16 single crochet).\n",
        "16 16",
    ),
}


@pytest.mark.parametrize("cause", PIECES)
def test_piece_is_read_whole_and_worked(cause: str) -> None:
    text, told = PIECES[cause]
    totals = [row.counted.total for row in worked_rows(text)]
    assert totals[: len(told.split())] == [int(number) for number in told.split()]
    assert len(set(totals[len(told.split()) :])) <= 1
