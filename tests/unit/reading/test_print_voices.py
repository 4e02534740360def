"""Whole pieces as pages of old print have them, worked to the stitch. Every piece is invented; the causes were met in print."""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

PIECES: dict[str, tuple[str, str]] = {
    "half shells beside the count, a thumb's chain worked over, stripes that alternate": (
        "With Plum, ch 20, s c in 2nd st from hook, * skip 2 sts, 5 d c in next st (shell), skip 2 sts, s c in next st, repeat from\n* "
        "across (3 shells), turn. 2nd Row: Ch 3, 2 d c in 1st s c, * s c in center st of next shell, 5 d c in next s c, repeat from\n* "
        "across row ending with s c in center st of last shell, 3 d c in last s c (2 shells and a half shell at each end), turn.\n3rd "
        "Row: 1 s c in each of 1st 8 sts, ch 4, skip next 4 sts, 1 s c in each remaining st, turn. 4th Row: 2 s c in 1st s c, 1 s\nc in "
        "each s c and in each st of ch, alternating 2 rows Plum and 2 rows Sand.\n",
        "19 19 15 20",
    ),
    "a square whose last repeat ends before its corner": (
        "Rnd 1--Ch 4, join, ch 3, 2 d c in ring, (ch 2, 3 d c in ring) 3 times, ch 2, join in top of ch 3. Rnd 2--Sl st in corner\nch-2 sp,"
        " ch 3, 2 d c in same sp, ch 2, 3 d c in same sp, ch 1, * skip 3 d c, work [3 d c, ch 2, 3 d c] in "
        "next corner sp, ch 1;\nrpt from *"
        " around, ending last rpt before corner, join. Rnd 3--Sl st in corner ch-2 sp, ch 3, 1 d c in same "
        "sp, ch 2, 2 d c in\nsame sp, * 1 "
        "d c in each d c and in each ch-1 sp to next corner, work [2 d c, ch 2, 2 d c] in corner sp; rpt from * twice, 1 d c in\neach d c "
        "and in each ch-1 sp to beg of rnd, join in top of ch 3 (11 d c on each side between corner sps).\n",
        "12 24 44",
    ),
    "steps named in a bracket and asked for by that name": (
        "STARFISH--Ch 2, 12 sc in 2nd ch from hook. NEXT ROUND: Sl st in next sc, ch 4, sc in 2nd ch from hook, hdc in next st (hdc: yarn\n"
        "over, insert hook in st, yarn over and through, yarn over and through all loops), dc in next st, sl st in same sc (arm), sc\n"
        "in next 3 sc, sl st in next sc, work an arm, sc in next 3 sc, sl st in next sc, an arm, sc in each remaining sc, join.\n",
        "12 18",
    ),
    "crossed stitches asked for by name, a row in pattern on its turning chain": (
        "Ch 21, sc in 2nd ch from hook, sc in each ch, ch 3, turn. 2nd ROW: * Skip next sc, dc in next sc, dc in skipped sc (cross\nst), "
        "repeat from * across to last sc, dc in last sc, ch 1, turn. 3rd ROW: Sc in each dc, sc in top of turning ch, ch 3, turn.\n"
        "4th ROW: Work cross sts across to last sc, dc in last sc, ch 1, turn. 5th ROW: Sc in each dc, sc in top of ch 3,\nch 3, turn. "
        "6th ROW: Work in pattern across row.\n",
        "20 20 20 20 20 20",
    ),
    "increases told over those of the round below": (
        "BALL--Ch 2. 1st rnd: 6 sc in 2nd ch from hook. 2nd rnd: 2 sc in each sc. 3rd rnd: * Sc in next sc, 2 sc in next\nsc. Repeat "
        "from * around. 4th rnd: Sc in each sc, making 2 sc in first sc of each 2-sc group. 5th rnd: Sc around,\nincreasing in the 2nd "
        "st of each increase. 6th rnd: Repeat last rnd. 7th rnd: Sc in each sc, putting 2 sc in last sc\nof every pair of last rnd, fold "
        "the brim up on Rnd 3. Sew on a button.\n",
        "6 12 18 24 30 36 42",
    ),
    "Tunisian rows between numbered ones, bound off": (
        "RAINBOW STRIP: With Teal, ch 12 and work 11 afghan sts on ch. Work in afghan st until there are 3 complete rows.\n\n4th Row: "
        "Pick up a loop in each post, work back as before. Work 1 complete row of afghan sts.\n\n6th Row: Work 1 plain row. Repeat from "
        "4th row until there are 9 rows. With 1 loop on hook, insert hook under 2nd post\nand pull loop through, yarn over and pull "
        "through both loops (1 s c), insert hook under 3rd post and draw loop through,\nyarn over and pull through 2 loops, 1 s c in "
        "same manner in each remaining post, cut yarn.\n",
        "12 12 12 12 12 12 12 12 12 11",
    ),
    "a piece named before the label of its first round": (
        "FLOWER POT COVER\n\nCh 4, join.\n\n1st Round. 6 s c in ring.\n\n2nd Round. 2 s c in each s c (12 s c).\n\nSIDES--3rd "
        "Round. * 1 s c in next s c, 2 s c in next s c, repeat\nfrom * all around.\n\nRim. 4th Round. 1 s c in each s "
        "c.\n\nFOR THE EDGE--5th Round. 2 s c in each s c.\n",
        "6 12 18 18 36",
    ),
    "joined to so many chains": (
        "Make 5 ch, join with a ss.\n\n1st round: 3 ch (to count as 1 tr), 9 tr into ring, ss to 3 ch.\n\n2nd round: 3 ch, 1 "
        "tr into same place, 2 tr into each tr to end, ss to the 3 ch.\n",
        "10 20",
    ),
    "a page that was scanned": (
        "118                  WORK FOR EVENINGS.\n\nBABY'S SOCK.\n\nUse Saxony yarn. D. c. is with the thread over "
        "once.\n\nlst row.--Chain 22, l s. c. in the second from hook, 1 s. e. in each st. to\nthe end, turn.\n\n2ud row.--1 "
        "ch., 1 s. c. in eacb of tbe 21, tum.\n\n3d row.--Same as the 2d.\n\n4th row.--3 ch., miss the first, 1 d. c. in "
        "each of the next 9, 3 d. e. in the mid-\ndle stitch, 1 d. c. in each of the next 9, and one d. c. in the last, "
        "hav-\ning 23 in\n\nWORK FOR EVENINGS.           119\n\nthe row; turn.\n\nSth row.--1 ch., l s. c. in each stitch to "
        "end, turn.\n\n6tb row.--* 1 s. c. in next 22, 2 s. c. in tbe next, repeat\nfrom * ar und.\n\n7th row.--Like the Sth.\n",
        "21 21 21 23 23 24 24",
    ),
    "short forms that look like a scanner's words, beside such words": (
        "Ch 13.\n\nlst Row: Sc in 2nd ch from hook and in each ch across. (12 sc)\n\n2ud Row: Ch 1, turn, sc tbl in tbe fi rst 6 sts, "
        "3 s e tbl in next st, sc tbl in each st to end. (14 sc)\n\nSth Row: Ch 1, turn, sc tbl in each st across.\n",
        "12 14 14",
    ),
    "rounds of a square that begin as the one before, and go on gaining": (
        "With white, ch 4, and join. 1st round--Ch 3, 1 d c in ring, * ch 2, 2 d\nc in ring, repeat from * twice, ch 2, "
        "join. 2d round--Slip stitch to the space, ch 3, 1 d c,\nch 2, 2 d c in same space, * ch 1, 2 d c, ch 2, 2 d c in "
        "next space, repeat\nfrom * twice, ch 1, join. 3d round--Begin with a corner as in the last round, * ch 1, 2 d c "
        "in the\nch 1, ch 1, 2 d c, ch 2, 2 d c in corner, repeat from * twice, ch 1, 2 d\nc in last ch 1, ch 1, join. 4th "
        "to 6th rounds--Continue in the same way,\nadding a group to each side in every round. 7th round--* Ch 4, 1 s c "
        "in next\nspace, repeat from * around, the corners being treated like the others.\n",
        "8 16 24 32 40 48 24",
    ),
    "the last shell of a row told otherwise": (
        "Ch 26.\n\nRow 1: 1 sc in 2nd ch from hook, * skip 2, 5 dc in next ch, skip 2, 1 sc in next ch; repeat from * to "
        "end, turn.\n\nRow 2: Ch 3, 2 dc in first sc, * 1 sc in middle dc of shell, 5 dc in next sc; repeat from * to end, "
        "putting only 3 dc in the last sc, turn.\n\nRow 3: Ch 1, 1 sc in first dc, * 5 dc in next sc, 1 sc in middle dc of "
        "shell; repeat from * to end, the last sc in top of ch 3, turn.\n\nRow 4: Ch 3, 2 dc in first sc, * 1 sc in middle "
        "dc of shell, 5 dc in next sc; repeat from * to end, 3 dc in last sc. Turn.\n\nRow 5: Ch 1, sc in next 15 sts; "
        "turn, leaving 10 for the heel.\n",
        "25 25 25 25 15",
    ),
    "increased in the middle as before": (
        "SOLE\n\nBegin at the toe with 8 ch. Work 1 d.c. into the 2nd ch. from hook,\n1 d.c. into each of the next 2 ch., 3 "
        "d.c. into the next, 1 d.c. into\neach of the last 3.\n\n2nd row.--1 ch., turn, 1 d.c. into each of 4 d.c., 3 d.c. "
        "into the mid-\ndle one, 1 d.c. into each of the last 4.\n\n3rd to 5th rows.--Increase in the middle of every row "
        "in the same\nmanner, when there will be 17 d.c.\n\n6th row.--Widen at the centre as in last row.\n\n7th row.--In "
        "like manner, increasing in the middle.\n",
        "9 11 13 15 17 19 21",
    ),
    "loops raised and taken together, told as they are done": (
        "SOFA BLANKET.\n\nWith blue wool make a chain of twelve.\n\n1st row.--Keep the loop on the hook, put the hook "
        "through the second chain, draw the wool through and leave it on the hook; so on in each chain to the end. "
        "Twelve loops. Work back by drawing through one, then through two at a time.\n\n2d row.--Pass the needle under the "
        "next upright loop, draw the wool through, keep it on the needle, and repeat to the end of the row. Work "
        "back.\n\n3d row.--Take up the second and third together, take up each of the others. Work back.\n\n4th row.--Take "
        "up one, take up the next two together, take up the rest to the last three, take up two together, then the "
        "last.\n\n5th row.--Narrow in the same way at both ends. There are seven loops.\n\n6th row.--Take up the second and "
        "third together, the fourth and fifth together, the sixth and seventh together, when four loops will be on the "
        "needle. Draw the wool through all four and fasten off.\n",
        "12 12 11 9 7 4",
    ),
    "a last row told in the sentence that repeats the others": (
        "With Sand ch 22, d c in 4th st from hook and in each st of ch, turn.\n\n2nd Row: Ch 3, d c in each d c, turn.\n\nRepeat the 2nd "
        "row 3 times, then work a row of s c increasing 1 st at each end, then make 2 more rows in the same way, cut yarn.\n",
        "20 20 20 20 20 22 24 26",
    ),
    "one loop from here on in a bracket, how a decrease is made, one more told by its stitch": (
        "POMANDER--Ch 4, join. 1st rnd: 12 sc in ring. 2nd rnd: Sc in next sc (taking up the back loop only throughout cover), "
        "2 sc in next sc, * sc in next sc, 3 sc in next sc (4 sc in group). Repeat from * around, sc in last 2 sc. 3rd rnd: "
        "Inc 1 sc in every 7th sc. 4th rnd: 2 sc in each sc. 5th rnd: 1 sc in each sc. 6th rnd: * Sc in next 2 sc, dec 1 st in "
        "next 2 sts (draw up a loop in each st, work off all loops at one time). Repeat from * around.",
        "12 21 24 48 48 36",
    ),
    "row ends by number, the edge's row told by its last words, worked without turning": (
        "BOOKMARK--Ch 9, sc in 2nd ch from hook and in each ch, ch 1, turn. 2nd row: Sc in each sc, inc 1 sc in last sc, ch 1, "
        "turn. 3rd row: Sc in each sc, inc 1 sc in last sc. Do not turn, but work a row of sc along side edge, 2 sc over end "
        "of each of next 2 rows, 12 sc in end of last row. 5th row: Ch 1, working along the side, 1 sc in each row.",
        "8 9 10 16 4",
    ),
    "to a point's middle and on in the same place, the other side to correspond; a colour scheme": (
        "KERCHIEF EDGE--With Fern ch 22, s c in 2nd ch from hook, s c in each ch, ch 1, turn.\n2nd Row. S c in each s c, ch 1, "
        "turn. Repeat 2nd row in the following color scheme, * 1 row Rust, 1 row Fern, repeat from * once, ending last row "
        "with ch 2 instead of ch 1, turn.\n7th Row. Ch 1, s c in each of 10 s c, 5 s c in next s c, s c in each remaining s c, "
        "ch 5, turn.\n8th Row. Skip 2 s c, d c in next s c, * ch 2, skip 2 s c, d c in next s c, repeat from * to center s c at "
        "point, ch 3, d c in same st, then work other side to correspond.",
        "21 21 21 21 21 21 25 10",
    ),
    "increases at each end of a sole, decreases to a marker that the maker placed, told so often and again": (
        "SLIPPER SOLE--With Moss ch 12, s c in 2nd ch from hook and in each of next 9\nch, 3 s c in last ch, working on "
        "opposite side of ch, s c in each of next 9 ch, 2 s c in last ch; do not join. Place a marker at beg of each round. "
        "2nd ROUND: Work in s c inc 3 sts evenly spaced around each end; 30 s c, join. Place a marker at center of toe. 3rd "
        "ROUND: 1 s c in each s c to within 6 sts of marker, dec in next 2 sts 5 times (to dec: draw up a loop in each of "
        "next 2 sts, y o and through all 3 loops), 1 s c in each remaining st; 25 sts, pick up "
        "Cream. 4th ROUND: 1 s c in each s c to within 3 sts of marker, dec in next 2 sts, dec again in same manner twice, 1 s "
        "c in each remaining st. 5th ROUND: Attach Cream at center of one end (heel), 1 s c in each st, join.",
        "24 30 25 22 22",
    ),
}
"""The piece and the totals of its worked rows, in order (foundation chains of nothing but chains left out)."""


@pytest.mark.parametrize("cause", PIECES)
def test_piece_is_read_whole_and_worked(cause: str) -> None:
    text, told = PIECES[cause]
    assert [row.counted.total for row in worked_rows(text)] == [int(number) for number in told.split() if number]


def test_rows_kept_for_sizes_that_are_called_by_their_place() -> None:
    pattern = read(
        "To fit 2 [3, 4] years.\n\nMake 4ch. and join into a ring.\n\n1st round: 3ch. (counts as 1tr.), 7tr. into ring, ss. to 3ch.\n\n"
        "2nd round, for 2nd and 3rd sizes only: 3ch., 1tr. into same place, 2tr. into each tr. to end, ss. to 3ch.\n\n"
        "3rd round (largest size only): 3ch., 2tr. into next tr., * 1tr. into next tr., 2tr. into next; rep. from * to end, ss. to 3ch.\n\n"
        "4th round, all sizes: 1ch., 1dc. into each tr. to end. 8 [16, 24] dc.\n"
    )
    assert pattern.facts.size_names == ("2", "3", "4")
    assert [row.only for row in pattern.parts[0].rows[-3:]] == [{1, 2}, {2}, None]
    last = [work(pattern, size=size).parts[-1].rows[-1] for size in range(3)]
    assert [(row.counted.total, row.state) for row in last] == [(8, "agrees"), (16, "agrees"), (24, "agrees")]
