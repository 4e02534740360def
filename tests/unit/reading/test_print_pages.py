"""Whole pieces as they stand in print and in scans of it, worked to the stitch. Every piece is invented."""

from __future__ import annotations

import pytest

from .told import worked_rows

PIECES: dict[str, tuple[str, str]] = {
    "words broken at the line's end, and a page's number between": (
        "EGG COSY.\n\nMake 4 ch, join in a ring. lst round: 8 d c in ring, join to the first d c, having wor-\nked over the "
        "end. 2d rovv: "
        "Ch 3, "
        "1 d c in same place, * 2 d c in next d\nc; re-\n\n          23\n\npeat from * around, join with sl\nst to top of ch 3. "
        "3d rnd: Ch 3, skip first d c, * d c in next d c; Repeat\nfrom * around; join. "
        "4th rnd: Ch l, l s c in each d c around, leav-\ning none; join.\n",
        "8 16 16 16",
    ),
    "labels without a noun in a run-on paragraph, a run that takes up chains too": (
        "COLLAR EDGING.\n\nMake a chain of 25 stitches. 1st row.\u20141 d c in every stitch. 2nd.\u20141 t c on the first, * 1 "
        "ch, miss 1, 1 t c; "
        "repeat to the end. 3rd.\u2014D c the whole length, taking up every t c and every ch. 4th.\u20141 d c on the first, * "
        "miss 2, 5 t c in "
        "the next, miss 2, 1 d c; repeat.\n",
        "25 13 25 25",
    ),
    "the yarn fastened to a place with a stitch; stitches left free for later": (
        "Make 4 ch, and join. 1st round: 16 d c in ring, join to top. 2d round: Fasten the thread to any d c with 1 s c, * ch "
        "3, miss 1, 1 s c in "
        "next; repeat from * all round, ending with 3 ch and a slip stitch in first s c. 3d round: 2 s c in every loop; join. "
        "The flap is worked "
        "back and forth, leaving 4 stitches of the round free for the opening.\n\n4th row: Ch 1, s c in each of next 12 s c; "
        "turn. 5th row: "
        "Ch 1, s c in the back threads of each s c; turn.\n",
        "16 8 16 12 12",
    ),
    "the last of a run told after it, loops to the last loop": (
        "33 ch. 1st row: 1 tr. into the 4th ch. from hook, 1 tr. into each ch. (31 tr.) 2nd row: 5 ch., miss the first 3 tr., "
        "1 tr. into the next, "
        "* 2 ch., miss 2, 1 tr. into the next; repeat from * to end. 3rd row: 3 ch., * 2 tr. into the space, 1 tr. on the tr.; "
        "repeat from * to "
        "end, the last tr. going into the third of the 5 ch. 4th row: 1 d.c. into the first tr., * 5 ch., miss 4 tr., 1 d.c. "
        "into the next; repeat "
        "from * to end. 5th row: 5 ch. (for 1 tr. and 2 ch.), 1 d.c. into the first loop, * 5 ch., 1 d.c. into the next loop; "
        "repeat from * to "
        "the last loop, then 2 ch., 1 tr. on the last d.c. 6th row: 1 d.c. on the tr., * 5 ch., 1 d.c. into the next loop of 5 "
        "ch.; repeat from * "
        "until all these loops are filled, 5 ch., 1 d.c. into the third of the 5 ch. (6 loops.)\n",
        "31 11 31 7 8 7",
    ),
    "rows repeated from one of them on, loops of two rows caught as one": (
        "Ch 14. 1st row: 1 d c in 4th ch, 1 d c in each of next 2, ch 3, miss 4, 1 d c in each of next 4; turn. 2d row: Ch 3, "
        "1 d c in each of "
        "next 3, ch 3, 1 d c in each of 4 d c; turn. 3d row: Ch 3, 1 d c in each of next 3, ch 2, 1 s c around the chains of "
        "the 1st and 2d rows, "
        "catching them together, ch 2, 1 d c in each of 4 d c; turn. 4th row: Ch 3, 1 d c in each of next 3, ch 3, 1 d c in "
        "each of 4 d c; turn. "
        "5th row: Same as the 4th. Repeat from the 3d row until you have 9 rows.\n",
        "8 8 9 8 8 9 8 8 9",
    ),
    "a net bag: rounds carried to a loop and ended in it, another told as the one before": (
        "NET BAG.\n\nMake 6 ch., and join. 1st round.\u201412 d.c. in the ring. 2nd round.\u2014* 4 ch., 1 d.c. into the next; "
        "repeat from * all round. "
        "3rd round.\u2014S.s. to the centre of the first loop, * 5 ch., 1 d.c. into the next loop; repeat from * all round, "
        "placing the last d.c. "
        "into the loop where you started. 4th round.\u2014As the 3rd, but work 1 d.c., 5 ch., 1 d.c. into every loop, with 5 "
        "ch. between one loop "
        "and the next. 5th and 6th rounds.\u2014* 6 ch., 1 d.c. into the next loop; repeat from * all round. 7th round.\u20143 "
        "d.c. into each "
        "loop.\n\nHANDLE.\u20141 ch., turn, 1 d.c. on each of the next 6 d.c. Work backwards and forwards on these 6 stitches, "
        "always turning "
        "with 1 ch., for 12 inches.\n",
        "12 12 12 24 24 24 72 6 6",
    ),
    "the other side of the chain gone back along; threads; the runs between increases told anew": (
        "Begin with 9 ch. 1st round: 1 d.c. in 2nd ch. from hook, 1 d.c. in each of next 6 ch., 3 d.c. in the end one; work "
        "back along the other "
        "side of the ch., 1 d.c. in each of next 6 ch., 2 d.c. in the end where the 1st d.c. was worked. Do not join. 2nd "
        "round: 1 d.c. in the "
        "back thread of each d.c. 3rd round: 1 d.c. in each of next 5, (work 2 d.c. together as before) 4 times, 1 d.c. in "
        "each of last 5.\n",
        "18 18 14",
    ),
    "a round as another with longer runs, and as before": (
        "Make 4 ch., join. 1st round: 8 d.c. in ring. 2nd round: 2 d.c. in each d.c. 3rd round: * 1 d.c. in next d.c., 2 d.c. "
        "in next; rep. from *. "
        "4th round: Work as 3rd round, but having 2 single d.c. between increases (32 d.c.). 5th round: As before, but with 3 "
        "single d.c. between "
        "increases. 6th round: 1 d.c. in each d.c.\n",
        "8 16 24 32 40 40",
    ),
    "from the star of an earlier row on, other places passed over": (
        "Make 26 ch. 1st row: 1 s.c. in 2nd ch. from hook, * skip 2 ch., 5 d.c. in next ch., skip 2 ch., 1 s.c. in next ch.; "
        "rep. from * to end. "
        "2nd row: 1 ch., 1 s.c. in each st. to end. 3rd row: 1 ch., 1 s.c. in first s.c., then as 1st row from *, missing s.c. "
        "instead of ch.\n",
        "25 25 25",
    ),
    "one loop less over each figure": (
        "Ch 8, join with sl st to form ring. =1st rnd:= 30 sc in ring, join. =2nd rnd:= Ch 3, dc in next 2 sc, * ch 2, (sc in "
        "next sc, ch 3) 3 times; "
        "sc in next sc, ch 2, skip 3 sc, dc in next 3 sc; rep from * around, ending last repeat with ch 2, join. =3rd rnd:= Ch "
        "3, dc in next 2 dc, "
        "* ch 4, (sc in next ch-3 loop, ch 3) twice; sc in next ch-3 loop, ch 4, dc in next 3 dc; rep from * around, ending "
        "last repeat with ch 4, "
        "join. =4th rnd:= Work as for last rnd, having 1 ch-3 loop less over each pineapple.\n",
        "30 21 18 15",
    ),
    "an edging begun at one end always: chains taken at the row's end, the last stitch of one scallop after another": (
        "EDGING.\n\n_No. 20 cotton.\u2014This edging is worked entirely from one end, the cotton being cut at the finish of "
        "every row._\n\nMake a chain of "
        "24 stitches for each side.\n\n1st row.\u20141 long, 1 chain, miss 1: repeat to the end.\n\n2d.\u20141 plain in the "
        "long, 1 plain in the chain: "
        "repeat.\n\n3d.\u20145 chain, miss 3, 1 plain: repeat.\n\n4th.\u20141 plain, 3 long, 1 plain; these 5 stitches are "
        "worked in the 5 chain "
        "of the 3d row: repeat, there will be 6 scallops.\n\n5th.\u20147 chain, 1 plain upon the last plain of the scallop: "
        "repeat.\n\n6th.\u2014"
        "9 plain in the 7 chain: repeat.\n\n7th.\u20145 chain, miss 8, 1 plain in the last of the 9 plain: "
        "repeat.\n\n8th.\u2014Like the 4th row, the "
        "stitches being worked in the 5 chain of the 7th row; fasten off.\n",
        "12 24 6 30 6 54 6 30",
    ),
    "a leaflet's turning chain omitted before a shaping, the second side of a neck in a paragraph of its own": (
        "BACK: Ch 32, d c in 4th st from hook, d c in each remaining st of ch, 30 d c, ch 3, turn. 2nd ROW: Skip 1st d c, d c "
        "in each d c, d c in "
        "top of turning ch, ch 3, turn. Repeat 2nd row 3 times, omitting the ch 3 on last row. NEXT ROW: SHAPE ARMHOLES: Sl st "
        "across 1st 4 sts, "
        "sl st in next st, ch 3, d c in each st to within last 4 sts, ch 3, turn. NEXT ROW: Skip 1st st, d c in each of the "
        "next 6 sts, leave "
        "remaining sts unworked, cut yarn.\n\nWith same side of last long row toward you, skip 8 sts at center, attach yarn in "
        "next st, ch 3, "
        "d c in each remaining st.\n",
        "30 30 30 30 30 22 7 7",
    ),
    "an edging in the ends of the rows, so many times as they go; all round in the same manner": (
        "Ch 9. 1st row: S c in 2nd ch from hook and in each ch; turn. (8 s c) 2nd row: Ch 1, s c in each s c; turn. Repeat 2nd "
        "row 4 times. Do not "
        "break the thread, but work along one side for the scallop: * 1 s c in the end of a row, 5 d c in the end of the next "
        "row; repeat from * in the "
        "same manner. Fasten off.\n",
        "8 8 8 8 8 8 18",
    ),
    "tricot: loops raised from between uprights and through two at once, a run told anew, worked off in returning": (
        "BORDER IN TRICOT.\n\nWith a tricot hook make a chain of 9. 1st Row.\u2014Keeping the loop which is on the hook, raise "
        "a loop through each of "
        "the other 8 chain; there will be 9 loops on the needle. To return, draw the wool through the first loop, then through two loops "
        "together until one only remains. 2nd Row.\u2014Raise a loop under each upright thread (9 loops); return as before. "
        "3rd Row.\u2014Insert "
        "the hook under the second and third uprights together and raise one loop, raise 3 loops in the usual manner, take the "
        "next two uprights "
        "together, and raise the last; 7 loops on the needle; return. 4th Row.\u2014Decrease as in the 3rd row, but raising 1 "
        "loop between instead "
        "of 3; return. 5th Row.\u2014Raise a loop from the chain between the first and second uprights, raise a loop under "
        "each upright up to the "
        "last one, raise a loop from the chain before it, then raise the last; return. 6th Row.\u2014Like the 5th.\n",
        "9 9 7 5 7 9",
    ),
    "slips along a loop's chains, chains of the last round, a run between the widenings": (
        "Begin in the centre with 6 ch.; join. 1st round.\u201424 s. c. in the ring. 2nd round.\u2014* 7 ch., miss 3 s. c., 1 "
        "s. c. in the 4th; "
        "repeat. 3rd round.\u2014Slip along 3 of the 7 ch., 3 ch. for a d. c., 2 d. c., 3 ch., 3 d. c. under the same; * 3 d. "
        "c., 3 ch., 3 d. c. "
        "under next 7 ch., repeat from * all round; join. 4th round.\u20149 d. c. under each 3 ch. of last round.\n",
        "24 6 36 54",
    ),
    "the back threads taken, a border headed in the text": (
        "Make 25 chain. 1st row: Miss 1 chain, 1 s. c. in each of 24 chain, turn. 2nd row: 1 chain, taking up the back threads "
        "only, 1 s. c. in each "
        "s. c.; turn. Work 3 rows on these stitches without increasing. Edging: * 1 s. c. in first s. c., 3 ch., 1 s. c. in "
        "same place, miss 1; "
        "repeat from * all along.\n",
        "24 24 24 24 24 24",
    ),
    "rows in capitals head no piece, the last told after its run, two of the last into it": (
        "EGG CAP.\n\nThe 3 ch. at the beginning counts as 1 tr.\n\n"
        "Begin with 5 ch., and join.\n\n1ST ROUND.--3 ch., 15 tr. into the ring, join.\n\n2ND ROUND.--3 ch., * 2 tr. into the "
        "next tr., 1 tr. into the next; repeat from * to the last stitch, 2 tr. into this, join.\n\n"
        "NEXT ROW.--3 ch., 1 tr. into each of "
        "the next 21 tr., turn.\n\nFOLLOWING ROW.--1 ch., 1 d.c. into each tr., the last into the top of the 3 ch., turn.\n\n"
        "Repeat the last two rows once.\n\nLAST ROW: 1 ch., * 1 d.c. into each of the next 2 d.c., 4 ch., 1 s.s. into the last d.c.; "
        "repeat from * to end. Fasten off.\n",
        "16 24 22 22 22 22 22",
    ),
    "the colour told before the foundation's number, a stitch and a chain in every stitch": (
        "STRIPE FOR A RUG.\n\nRequired, wool in two shades. Commence with the darkest, with 31 chain.\n\n"
        "1st row--1 treble, 1 chain, in every chain.\n\n2nd row--1 treble, 2 chain, 1 treble, in every treble.\n",
        "31 62",
    ),
    "round a foundation, the last in the place of the first": (
        "SOLE.\n\nCh 12, 2 s c in 2nd st from hook, 1 s c in each of the next 9 sts of ch, 4 s c in last st, working on other side of ch, "
        "1 s c in each of the next 9 sts, 2 s c in same place with first 2 s c, join.\n\n2nd Row--Ch 1, 1 s c in each s c, join.\n",
        "26 26",
    ),
    "the pattern's rows repeated by that name, one shoulder headed": (
        "BACK.\n\nMake 32 ch. 1st patt. row: 1 d.c. in 2nd ch. from hook, 1 d.c. in each ch. to end. 2nd patt. row: 1 ch., 1 d.c. in each "
        "st. to end. Repeat these 2 patt. rows once. Repeat the last 2 pattern rows once.\n\n"
        "FIRST SHOULDER. Next row: 1 ch., 1 d.c. in each of next 9 sts., turn. Following row: 1 ch., 1 d.c. in each st. to end.\n",
        "31 31 31 31 31 31 9 9",
    ),
}
"""The piece and the totals of its worked rows, in order (foundation chains of nothing but chains left out)."""


@pytest.mark.parametrize("cause", PIECES)
def test_piece_is_read_whole_and_worked(cause: str) -> None:
    text, told = PIECES[cause]
    assert [row.counted.total for row in worked_rows(text)] == [int(number) for number in told.split() if number]


def test_loops_told_on_the_needle_prove_a_tricot_row() -> None:
    rows = worked_rows(
        "POCKET IN TRICOT.\n\nWith a tricot hook make a chain of 12.\n\n1st Row.--Keep the loop on the hook, and raise a loop in each "
        "chain; 12 loops on the needle. Work back.\n\n2d Row.--Raise a loop in every upright: 12 loops. To work back, draw the wool "
        "through one, then through two.\n\n3d Row.--Take the next two together, raise each of the others to the last three, take the "
        "last two together, then the last; 10 loops will be on the needle; return as usual.\n"
    )
    assert [(row.counted.total, row.state) for row in rows] == [(12, "agrees"), (12, "agrees"), (10, "agrees")]
