"""Whole pieces in the voices of old books and leaflets, worked to the stitch. Every piece is invented; the causes were met in print."""

from __future__ import annotations

import pytest

from .told import worked_rows

PIECES: dict[str, tuple[str, str]] = {
    "labels before a number, a piece headed in mid-paragraph": (
        "KEY PURSE\n\nCh. 5, close with a sl. st. ROUND 1—7 s. c. in ring. ROUND 2—2 s. c. in every s. c. ROUND 3—* 2 s. c. in "
        "next s. c., 1 s. c. in each of 6 s. c. Repeat from * (16 s. c.). Fasten off. STRING—Using double cotton chain 18 "
        "inches, sl. st. in each ch. back. Make two.",
        "7 14 16 0",
    ),
    "to the centre and on to the end": (
        "Chain 2. Row 1—5 s c in 2nd ch from hook. Ch 1, turn each row. Row 2—1 s c in each of 2 sts, 3 s c in the middle, 1 s "
        "c in each of 2. Row 3—Work to middle st, 3 s c in middle, work to end. Repeat Row 3, in any color, until there are 13 "
        "sts.",
        "5 7 9 11 13",
    ),
    "filet whose turning chains nobody tells": (
        "A space (sp) means 2 ch, skip 2, 1 d c; a block (bl), 3 d c more.\n\nCh 26. 1st row: D c in 8th ch from hook, 6 more "
        "sps, turn. 2d row: 2 sps, 3 bls, 2 sps, turn. 3d row: As 2d. 4th row: 7 sps, turn.",
        "8 14 14 8",
    ),
    "places told as one of so many": (
        "Make a chain of 14 stitches, turn.\n\n1. Miss 7, dc in each of next 5 stitches, chain 2, miss 1, dc in last, turn.\n\n"
        "2. Chain 5, dc in 1st of 5 dc, chain 2, miss 3, dc in last of the 5, chain 2, dc in 3d of 7 chain, chain 4, "
        "sc in same place, turn."
        "\n\n3. Under 4 chain work 1 sc, 5 dc and 1 sc, dc in next dc, turn, leaving the rest.\n",
        "7 5 8",
    ),
    "named before it is placed, and left for later": (
        "INFANT'S CAP.\nBegin with a chain of 5; join in a ring.\n1st round—Ch 3 (for one d c), 15 d c in ring, join to top of ch 3.\n"
        "2d round—Ch 3, d c, ch 1, 2 d c, all in same stitch; * skip 1, 2 d c, ch 1, 2 d c (which makes a shell) in "
        "next; repeat from * and "
        "join. You have 8 shells.\n3d round—Slip stitch to the ch 1; ch 3, d c, ch 1, 2 d c under it; a shell in the "
        "centre of every shell "
        "around; join.\nNow leave two shells for the neck and work to and fro over the others.\n4th row—Slip stitch to "
        "the ch 1, ch 3, d c, "
        "ch 1, 2 d c under it, shell in each of 5 next shells; turn.\n5th row—Same as 4th row. Work 2 rows more.\n",
        "16 32 32 24 24 24 24",
    ),
    "groups put in on either side of a point": (
        "SMALL SHAWL.\n\nThis is begun at the neck. Make 4 chain, in the first of these work 2 treble, 3 chain, 3 "
        "treble, and turn (the 3 missed "
        "chain count as a treble). 2nd row.—3 chain, 2 treble on the treble from which they spring, 1 chain, under the "
        "3 chain work 3 treble, 3 chain, 3 treble, then 1 chain, "
        "3 treble in the last stitch; turn. 3rd row.—3 chain, 2 treble on the same treble, 1 chain, 3 treble under the "
        "1 chain, 1 chain, 3 "
        "treble, 3 chain, 3 treble under the 3 chain, 1 chain, 3 treble under the 1 chain, 1 chain, 3 treble in the "
        "last stitch; turn. 4th "
        "row to 6th row.—In like manner, every row having one group of treble more on each side of the point. For the "
        "border of the upper "
        "sides.—1 double crochet under the first chain, * 5 treble under the next chain, 1 double crochet under the "
        "next; repeat from * to "
        "the end, the five treble falling on the point.",
        "6 12 18 24 30 36 31",
    ),
    "a ring of thread, petals behind petals": (
        "RAISED ROSE.\n\nWind the thread eight times about a penholder, draw it off, and in this ring make 18 d.c., closing "
        "with a single. 2nd Round.—* 4 ch., miss 2 d.c., 1 d.c. on next, repeat from * 5 times, so that there are 6 loops. 3rd "
        "Round.—In every loop 1 d.c., 5 tr., 1 d.c. 4th Round.—Hold the petals forward; * 5 ch., 1 d.c. at the back, between "
        "this petal and the one after; repeat to the end. 5th Round.—Like the 3rd, but with 7 tr. to a petal. 6th Round.—As "
        "4th, but with 6 ch. to a loop.",
        "18 6 42 6 54 6",
    ),
    "rounds that grow, the unit told apart with them": (
        "CROWN: With A, ch 5, join. Rnd 1: Ch 2 (is a hdc throughout), 8 hdc in ring, join. Rnd 2: Ch 2, hdc in same place, 2 "
        "hdc in every hdc, join. Rnd 3: Ch 2, 2 hdc in next hdc, * hdc in next, 2 hdc in next, rep from *, join. Rnds 4 and 5: "
        "Go on thus, inc 9 sts each rnd. SIDES: Rnd 6: Ch 2, hdc in every hdc, join. After this rnd break A, attach B.",
        "9 18 27 36 45 45",
    ),
    "shaped rows of a garment told in British print": (
        "THE BACK\nMake 29 ch. Foundation row: 1 d.c. in 2nd ch. from hook and in every ch. [28 d.c.], turn.\n1st patt. row: 1 "
        "ch., * 1 d.c. into next, 1 tr. into next; rep. from *, turn.\n2nd patt. row: 1 ch., * 1 d.c. on tr., 1 tr. on d.c.; "
        "rep. from *, turn.\nRep. this row until 8 ins. are worked.\nTO SHAPE ARMHOLES.—Next row: S.s. over 3 sts., 1 ch., "
        "patt. to last 3 sts., turn: 22 sts.\nDec. 1 st. each end of next 2 rows: 18 sts.\nGo straight until armholes are 5 "
        "ins. deep.\nTO SHAPE SHOULDERS.—Next row: S.s. over 6 sts., 1 ch., patt. over 6 sts., turn. Fasten off.\n",
        "28 28 28 28 22 20 18 18 6",
    ),
    "rows of an old book counted off on what lies under them": (
        "LACE CUFF.\nMake a chain of 48 loops with cotton No. 20; turn back and work in double crochet, always "
        "beginning at the right-hand side.\n"
        "1st row. Single open crochet with No. 30.\n2nd row. 4 chain, 4 long; repeat.\n3rd row. Double crochet, "
        "missing every fourth stitch.\n",
        "48 24 24 36",
    ),
    "every row begun afresh": (
        "EDGING.\n\nMake a chain of thirty-three stitches, fasten off; every row is started at the right-hand side.\n\n1st "
        "Row.—Dc all along.\n2nd Row.—Tc on the first, * 1 ch, miss 1, tc on next, * repeat to the end.\n3rd Row.—Dc on first "
        "tc, * 6 ch, miss 3 tc, dc on the next, * 4 times.\n4th Row.—In every chain of six, 1 dc, 8 tc, 1 dc.\n",
        "33 17 5 40",
    ),
    "loops raised, the way back told apart": (
        "WRISTLET IN TRICOT.\n\nChain 14. 1st Row—Pass over the chain nearest the needle, put the needle in the following "
        "chain, bring the wool through, and so raise a loop in each of the rest, leaving all on the needle, 14 loops; to come "
        "back, draw the wool through one loop, then * wool over and draw through 2, repeat from *. 2nd Row and three following "
        "rows—The loop on the needle counts as the first, raise a loop in each of the other upright loops (14); work back as "
        "before. 6th Row—Raise 3, take the next two together, raise loops to within 5 of the end, take 2 together, raise 3, "
        "there are then 12 loops; work back. 7th Row—Plain. 8th Row—Narrow as in the sixth row. Fasten off, drawing a loop "
        "through every stitch. Another is made like it.",
        "14 14 14 14 14 12 12 10",
    ),
    "an oval begun with three in the first chain, and a stitch told loop by loop": (
        "SOLE: Ch. 7. 1st Rnd.: 3 s.c. in 2nd ch. from hook, 1 s.c. in each of 4 ch., 3 s.c. in last ch., going on along the "
        "other side make 1 s.c. in each of 4 ch. Rnds. are not joined; mark beg. of each. 2nd Rnd.: Even. 3rd Rnd.: * (2 s.c. "
        "in next s.c., 1 s.c. in next) 2 times, 3 s.c.; rep. from * once—18 s.c. 4th Rnd.: In back loops only, not increasing. "
        "5th Rnd.: 3 s.c., (draw up a loop in each of 2 s.c., yarn over and through all) 6 times, 3 s.c.",
        "14 14 18 18 12",
    ),
    "a group told between dashes, each side counted": (
        "BLOCK ... Ch 5, join. 1st rnd: Ch 3 (to stand for dc), 2 dc in ring, (ch 2, 3 dc in ring) 3 times; ch 2, sl st in "
        "ch-3. 2nd rnd: Ch 3, pc st in next dc—to make a pc st, 5 dc in same st, drop loop, insert hook in first dc and pull "
        "loop through, ch 1—dc in next dc, * 2 dc, ch 2 and 2 dc in corner sp, dc in next dc, pc st in next, dc in next. Rep "
        "from * twice, 2 dc, ch 2 and 2 dc in last sp; sl st in ch-3. There are 7 sts to each side, counting a pc st as 1. 3rd "
        "rnd: * Ch 6, sc in next sp. Repeat from *, ending with ch 3, dc in first sc (so that the thread is in place for "
        "another rnd).",
        "12 28 4",
    ),
    "British rounds: lists without commas, what the last unit omits, up a loop along its chains": (
        "Begin with 5 ch., and s.s. to form a ring.\n1st Row: 3 ch., 13 tr. into ring, s.s. into top of 3 ch.\n2nd Row: 5 ch., "
        "1 tr. into same place, * miss 1 tr., 1 tr. 2 ch. and 1 tr. into next (this is a V st.); repeat from * leaving out the "
        "V st. at end of last repeat, s.s. into 3rd of 5 ch. (7 V sts.).\n3rd Row: 1 s.s. into first sp., 1 d.c. there, * 4 "
        "ch., 1 d.c. into sp. of next V st.; repeat from * finishing with 4 ch., 1 s.s. on first d.c.\n4th Row: 1 s.s. into "
        "each of 2 ch., 1 d.c. into loop, * 6 ch., 1 d.c. into next loop; repeat from * finishing with 6 ch., 1 s.s. on first "
        "d.c.\n5th Row: In every loop 1 d.c. 1 h.tr. 2 tr. 1 h.tr. and 1 d.c., s.s. into first d.c.\n",
        "14 14 7 7 42",
    ),
    "increases between plain stitches, as far as a count": (
        "Make 2 ch. 1st round: 5 d.c. into first ch. 2nd round: "
        "Work 2 d.c. in every st. "
        "3rd round: 2 d.c. into every 2nd st. (15 sts.). 4th round: 2 d.c. into every 3rd st. Continue increasing "
        "thus, with one more stitch "
        "between the increasings on each round, until the round in which you work 2 d.c. into every 5th st. has been "
        "completed (30 sts.). Now "
        "work 2 rounds without shaping. Begin to decrease for the underneath: NEXT ROUND: * 4 d.c., miss 1, 1 d.c., "
        "rep. from * to end of "
        "round (25 sts.). NEXT ROUND: Plain. Work 2 rounds for the band.",
        "5 10 15 20 25 30 30 30 25 25 25 25",
    ),
    "a purse of open work": (
        "With the slate, chain one hundred and twenty stitches, and unite them.\nFirst round—plain double "
        "crochet.\nSecond round—one long, one "
        "chain, miss one.\nThird round—double crochet; scarlet.\nFourth round—four long, two chain, miss two.\nFifth "
        "round—four long, so placed "
        "that one comes upon the last long of a group and one on the first of the next ; two chain.\nSixth round—as "
        "second.\nWork for the end "
        "two rounds of plain double crochet; draw up.",
        "120 60 120 80 80 60 120 120",
    ),
    "a chain told by the yard and by the pattern, the edging's depth beside it": (
        "Cotton, No. 20; hook, No. 4.--Make a chain of 60 stitches per yard, or 20 for each pattern, and 1 over. This edging is worked "
        "backwards and forwards, and will be two inches deep.\n\n1st row.--1 plain, *, 3 chain, miss 3, 1 plain: repeat from *.\n\n2d.--3 "
        "chain, 1 plain in the 3 chain of the last row: repeat.\n\n3d.--3 plain in the next 3 chain, miss 1--repeat.\n\n"
        "4th.--1 treble, 2 chain, miss 2: repeat.",
        "16 15 45 15",
    ),
    "rows that all begin at one end, told in passing": (
        "Make a chain of 60 loops; turn and work back in double crochet, always working on one side.\n\n1st row.--3 chain, 9 long; "
        "repeat.\n\n2d row.--9 chain, 3 long; repeat.\n\n3d row.--4 chain, 1 long in the centre of the 9 chain, 4 chain, 3 long; repeat.",
        "60 45 15 20",
    ),
    "what is left drawn together, rows to proceed with": (
        "11 chain.\n1st row—Miss 1, 10 double crochet. 2nd row—10 double crochet. Go on with such rows until 5 rows are done. "
        "6th row—Miss the first, double crochet in each till two are left, draw these together; 8 double crochet. 7th and 8th "
        "rows—Plain. 9th row—2 double crochet in the first, plain to the last, 2 in the last; 10 double crochet. Do not cut the "
        "wool, but along the end work 1 double crochet on the first, * 4 chain, miss 2, 1 double crochet on the next, repeat 2 "
        "times more.",
        "10 10 10 10 10 8 8 8 10 4",
    ),
    "widened in every so-many-th stitch, divided for sleeves": (
        "The chain 3 at beginning of a row is always counted one d c.\n\nBegin at neck with ch 38. 1st Row—D c in 4th "
        "st from hook, d c in each st to end, 36 d c. 2d Row—Ch 3, turn, d c across, widening by working 2 d c in "
        "every 6th st (42 sts). 3d Row—Widen in every 7th st. 4th Row—Ch 3, turn, 7 d c for front, ch 4 for under-arm, "
        "skip 8 sts for sleeve, 16 d c across back, ch 4, skip 8, 8 d c for other front. 5th Row—Ch 3, turn, d c in "
        "each d c and each ch, working 2 in the st at middle of back. 6th Row—Ch 1, turn, s c in 1st st, * skip 1, 3 d "
        "c in next (a shell), skip 1, s c in next, repeat from * to end. Repeat last row until skirt is 7 inches long.",
        "36 42 48 32 41 41 41",
    ),
    "mesh over mesh, past an opening": (
        "MITT—At the wrist ch 20, join.\n1st rnd: Ch 3, d c in every ch, sl st to 3d st of ch-3 (20 d c).\n2nd rnd: Ch 4, skip "
        "1, * d c in next, ch 1, skip 1; rep from *, join to 3rd of ch-4 (10 meshes).\n3rd rnd: Ch 4, * d c in next d c, ch 1; "
        "rep from *, join.\n4th rnd: Ch 4, (d c in next, ch 1) 6 times, ch 2 more, skip 2 d c, d c in next, ch 1, join.\n5th "
        "rnd: Ch 4, (d c in next, ch 1) 6 times, d c in middle ch of ch-3, ch 1, d c in next d c, ch 1, join—9 meshes.\n6th and "
        "7th rnds: Mesh over mesh.\n8th rnd: 2 s c in every sp, join.\n",
        "20 10 10 8 9 9 9 18",
    ),
    "Tunisian rows numbered there and back": (
        "FRONT. With Tunisian hook make 12 ch.\n1st row (forward): Insert hook in 2nd ch from hook, yrh and draw lp through, * "
        "insert hook in next ch, yrh and draw lp through; rep from * to end, keeping lps on hook. 12 lps.\n2nd row (return): "
        "Yrh, draw through 1 lp, * yrh, draw through 2 lps; rep from * until 1 lp is left.\n3rd row: Pass over first vertical "
        "bar, * insert hook under the next bar, yrh and draw lp through; rep from *. 12 lps.\n4th row: As 2nd row.\n5th row: "
        "Pass over first bar, * insert hook under 2 bars tog, yrh and draw lp through, yrh; rep from * to last bar, draw lp "
        "through last bar. 12 lps.\n6th row: As 2nd.\nRep 3rd to 6th rows once, then 3rd and 4th rows once. Next row: Ss under "
        "every bar.\n",
        "12 12 12 12 12 12 11",
    ),
    "a garment's sections, each with rows of its own numbers": (
        "BACK—Ch 21. 1st row: S c in 2nd ch from hook and in each ch across—20 s c. Ch 1, turn. 2nd row: S c in each s "
        "c across. Ch 1, turn.\n"
        "ARMHOLES—1st row: Sl st in first 2 s c, ch 1, s c in each s c to within last 2 s c. Ch 1, turn. 2nd row: Dec "
        "1 s c (to dec—draw up a "
        "loop in each of next 2 s c, yarn over and draw through all 3 loops on hook), s c across to last 2 s c, dec 1 "
        "s c. Ch 1, turn. Repeat "
        "last row twice more—10 s c.\nSHOULDERS—Next row: Sl st in first 2 s c, s c across to within last 2 s c. Turn.\n",
        "20 20 16 14 12 10 6",
    ),
    "an old doily: rounds that grow by their chains, places told as it": (
        "7 ch., join in a circle.\n1st Row.—5 ch. (to stand for 1 tr. and 2 ch.), * 1 tr. into circle, 2 ch.; repeat "
        "from * 4 times, and slip-stitch "
        "into the third of the five ch.\n2nd Row.—Slip-stitch along to the 2 ch., 3 ch., 2 tr., 3 ch., 3 tr. into it, "
        "1 ch., * 3 tr., 3 ch., 3 "
        "tr. into the next 2 ch., 1 ch.; repeat from * to the end of the row, s.s. to finish.\n3rd Row.—Into every 3 "
        "ch. hole work 9 tr., and "
        "into every 1 ch. 1 d.c.\n",
        "6 36 60",
    ),
    "a ring filled under its chain, and short forms told in a sentence": (
        "In these directions s. is single crochet, d. is double (over once).\nMake a chain of 8, and join it.\n1st Round.—Under the chain "
        "work 12 s.\n2nd.—1 d. on every s., with 1 chain between each.\n3rd.—3 d. under every 1 chain.\n",
        "12 12 36",
    ),
    "a spike named by its end, a border side after side, a row closed to a tube, a name before a full stop": (
        "KETTLE MAT.\n\nWith Blue ch 13, s c in 2nd ch from hook, 1 s c in each ch, ch 1, turn. 2nd to 4th Rows: S c in each s "
        "c (12 s c), ch 1, turn. 5th Row: * 1 s c in each of 3 s c, insert hook in next st 2 rows down, pull up a long loop and "
        "finish as an s c, repeat from *, ch 1, turn. 6th Row: S c in each st, do not turn.\n\nBORDER. 1st Round: With White "
        "work 10 s c on each side with 3 s c in each corner, join.\n\n2nd Round: S c in every s c, join.\n\nBAND. Ch 9. 1st "
        "Row: S c in 2nd ch from hook and in each ch (8 s c), ch 1, turn. 2nd Row: S c in each s c, do not turn but sl st in "
        "first s c of row to form a tube. 3rd Round: S c in every s c.\n",
        "12 12 12 12 12 12 52 52 8 8 8",
    ),
    "loops of a pineapple, one less and a chain more each time; a shell whose first stitch is a chain": (
        "TABLE CENTER. Ch 6, join. 1st rnd: Ch 3, 11 dc in ring, join. 2nd rnd: Ch 3, dc, ch 2, 2 dc in same place as joining (shell "
        "made), * ch 3, skip 2 dc, 8 tr in next dc, ch 3, skip 2 dc, shell in next dc. Repeat from * around, omitting the last shell. "
        "Join. 3rd rnd: Sl st to sp of shell, ch 3, in same sp make dc, ch 2 and 2 dc, * ch 3, sc in 1st tr, (ch 3, sc in next tr) 7 "
        "times; ch 3, shell in sp of next shell. Repeat from * around, ending with ch 3. Join. (Begin each following rnd the same "
        "way.) 4th rnd: * Shell over shell, ch 3, sc in first loop of pineapple, (ch 3, sc in next loop) 6 times; ch 3. Repeat from * "
        "around. Join. 5th rnd: * In sp of next shell make (2 dc, ch 2) twice and 2 dc, ch 3, sc in first loop, (ch 3, sc in next "
        "loop) 5 times; ch 3. Repeat from * around. Join. 6th rnd: * Shell in next ch-2 sp, ch 1, shell in following ch-2 sp, ch 3, "
        "sc in first loop, (ch 3, sc in next loop) 4 times; ch 3. Repeat from * around. Join. 7th to 9th rnds: Work as for last rnd, "
        "having 1 loop less on each pineapple and 1 ch more between the 2 shells. 10th rnd: * Shell over shell, ch 5, shell over "
        "shell, ch 3, sc in remaining loop, ch 3. Repeat from * around. Join.\n",
        "12 24 24 22 24 26 24 22 20 18",
    ),
    "labels that a comma ends; several in the middle of a run": (
        "MAT.\n\n10 ch, make into a round. 1st round, in the circle 20 dc. 2nd round, 1 long on each stitch, 1 ch between them. "
        "3rd, 3 dc in every ch. 4th, + 6 ch, miss 4, dc on the next, + repeat. 5th, in every loop 9 dc. 6th, + 5 ch, dc on the "
        "7 centre ones of the 9 dc, + 12 times. 7th, + 4 ch, 1 dc in each of the five middle stitches, + repeat.\n",
        "20 20 60 12 108 84 60",
    ),
    "blanks in words, letters in figures": (
        "EDGE FOR A TRAY CLOTH\n\nM ATERIALS: One ball No. 4O cotton; No. 1O hook.\n\nChain 23 stitches loosely.\n\nFirst "
        "Rovv.--1 s c in 2d ch from hook and 1 s c in each ch to end (22 s c), turn.\n\nSecond Rovv.--Ch 5, pass over 2 s c, 1 "
        "d c in the third, * ch 2, pass over 2, 1 d c in next, repeat from *. There are 7 sp. Turn.\n\nThird Row.--Ch l, s c in "
        "the fi rst d c, * s c twice in sp, s c in d c, repeat from * to end, the la st s c in 3d ch of ch 5. Turn.\n\nFourth "
        "Row.--Ch 1, s c in fi rst st, * ch 4, skip 2, s e in next, repeat from * across (7 loops). Turn.\n",
        "22 8 22 8",
    ),
    "petals behind petals, so many trebles instead of so many, a join in place of the last stitch": (
        "ROSE FOR A COLLAR.\n\nAbbreviations.--Ch., chain; s.s., slip stitch; d.c., double crochet; tr., treble.\n\nMake 7 ch., "
        "join with s.s.\n\n1st row: 5 ch. (3 of these are a tr.), * 1 tr. into ring, 2 ch.; repeat from * 6 times more, s.s. to "
        "3rd of 5 ch.\n\n2nd row: In each space 1 d.c., 4 tr., 1 d.c.\n\n3rd row: * 5 ch., 1 d.c. at the back, on the tr. of "
        "1st row between the next 2 petals; repeat from *.\n\n4th row: As 2nd row, but 6 tr. in a petal instead of 4.\n\n5th "
        "row: * 4 ch., 1 d.c. on the 3rd tr. of the petal, 4 ch., 1 d.c. between this petal and the one after; repeat from "
        "*.\n\n6th row: S.s. to middle of first loop, 1 d.c. there, * 7 ch., 1 d.c. in next loop, 4 ch., 1 d.c. in next loop; "
        "repeat from * 7 times, but end with s.s. on the first d.c. in place of the last d.c.\n",
        "8 48 8 64 16 16",
    ),
    "sleeves left out, pairs worked in between, two drawn together": (
        "DOLL'S JACKET\n\nBegin with 32 ch.\n\n1st row: 1 tr. in 4th ch. from hook and every ch. after (30 tr., the 3 ch. being "
        "1 tr. here and always), turn.\n\n2nd row: 3 ch., miss first tr., 1 tr. in each of 4, 3 ch., miss the 5 tr. of sleeve, "
        "1 tr. in each of 10 tr. of back, 3 ch., miss the 5 tr. of second sleeve, 1 tr. in each of last 5 tr., turn.\n\n3rd "
        "row: 3 ch., miss first tr., 1 tr. in every tr. and ch., turn.\n\n4th row: 3 ch., miss first, * miss 1 tr., 2 tr. in "
        "next; repeat from * to last tr., 1 tr. in last, turn.\n\n5th row: 3 ch., * 2 tr. between the 2 tr. of next group; "
        "repeat from * across, 1 tr. in top of turning ch., turn.\n\n6th row: 3 ch., 2 tr. between the 2 tr. of each group, 1 "
        "tr. in top of turning ch., turn.\n\n7th row: 1 ch., * 1 d.c. on next tr., draw 2 tr. together with a d.c.; repeat from "
        "* to last 2 tr., take those together.\n",
        "30 20 26 26 26 26 17",
    ),
    "begun on a first stitch, and ended as begun": (
        "TRIMMING FOR A NIGHT-CAP.\n\nMake a chain of 41 stitches, and fasten off at the end of each row.\n\n1st row.--1 long, "
        "1 chain, miss 1; repeat, finishing with 1 long.\n\n2nd row.--Double crochet, working in the chain as well as the "
        "long.\n\n3rd row.--1 double crochet in the first stitch; then 5 chain, miss 3, 1 double crochet in the fourth; repeat "
        "to the end.\n\n4th row.--1 double crochet on the double crochet, 7 long under the 5 chain; repeat, ending as you "
        "commenced.\n\n5th row.--Begin upon the centre long of the first seven: 1 double crochet there, 5 chain, 1 double "
        "crochet in the middle of the next seven; and so on to the end, the last double crochet being in the middle of the last"
        " seven.\n\n6th row.--1 double crochet on the double crochet, 5 double crochet under the chain; repeat, and end as at "
        "the beginning, with 1 double crochet.\n",
        "21 41 11 81 10 55",
    ),
    "one unit goes round, and the next stitch is named in it": (
        "WATCH POCKET.\n\nMake a chain of 8, and unite it.\n\n1st round.--Three double crochet in each stitch of the "
        "chain.\n\n2nd.--3 double crochet, 2 in the fourth.\n\n3rd.--3 long, 3 chain, miss 3.\n\n4th.--3 long under the 3 "
        "chain, 3 chain to pass over the long; repeat.\n\n5th.--3 long in every hole, 3 chain over the long.\n\n6th.--Double "
        "crochet, two in each stitch, and six under every chain.\n\n7th.--1 double crochet, miss 2, 4 long in the next stitch, "
        "miss 2.\n",
        "24 30 15 15 15 60 50",
    ),
    "more over a run than it has, and openings of open work": (
        "MAT IN OPENWORK.\n\nMake 8 chain; unite.\n\n1st Round.--Work 16 double crochet under the ring.\n\n2nd Round.--1 "
        "treble, 1 chain, miss 1.\n\n3rd Round.--1 treble in every opening, 2 chain.\n\n4th Round.--1 d.c. under 2 chain, 5 "
        "chain, miss one opening; repeat. \n\n5th Round.--2 treble on the 1 d.c., 2 chain.\n\n6th Round.--4 treble upon the 2 "
        "treble, 3 chain.\n\n7th Round.--5 treble on the 4 treble, (2 in the last), 3 chain.\n\n8th Round.--7 treble upon the 5"
        " treble, two being in the first and two in the last; 4 chain.\n\n9th Round.--3 treble upon the centre 3 of the 7; 4 "
        "chain, 1 d.c. under 4 chain, 4 chain.\n\n10th Round.--6 treble over the 3 treble, 4 chain, 1 d.c. on the d.c., 4 "
        "chain.\n",
        "16 8 8 4 8 16 20 28 16 28",
    ),
    "a shell told among the abbreviations, a block counted, a row told again on its own stitches": (
        "SHELVES EDGING, WITH SQUARES.\n\nAbbreviations.--Ch., chain; s. c., single crochet; d. c., double crochet; sh., shell,"
        " which is 2 d. c., ch. 2, 2 d. c., all in one\nplace.\n\nMake a chain of 23 stitches, turn.\n\n1st row.--1 d. c. in "
        "4th st. from hook, 1 d. c. in next, ch. 2, miss 2, sh. in next st., ch. 3, miss 3, 1 s. c. in each of next 2 st., ch. "
        "3, miss 3, sh. in next st., ch. 2, miss 2, 1 d. c. in each of last 3 st. Turn.\n\n2d row.--Ch. 3 (for one d. c.), 1 d."
        " c. in each of next 2 d. c., ch. 2, sh. in sh., 2 d. c. under 3 ch., 1 d. c. in each of 2 s. c., 2 d. c. under 3 ch. "
        "(making 6 d. c. in the block), sh. in sh., ch. 2, 3 d. c. in 3 d. c. at end. Turn.\n\n3d row.--Ch. 3, 2 d. c. in 2 d. "
        "c., ch. 2, sh. in sh., ch. 2, 1 s. c. in each of 6 d. c., ch. 2, sh. in sh., ch. 2, 3 d. c. in 3 d. c. Turn.\n\n4th "
        "row.--Like 3d row, the 6 s. c. coming in the 6 s. c.\n\n5th row.--Same as 3d row, placing the s. c. over the s. c. of "
        "the block.\n",
        "16 20 20 20 20",
    ),
    "layers of petals on one another's stitches, begun again between two of them": (
        "A WHEEL OF PETALS.\n\nCommence with 8 ch., unite with a single crochet (s.c.).\n\n1st round: 6 ch. (3 of these stand "
        "for a treble), * 1 tr. into the ring, 3 ch., repeat from * 3 times; s.c. into the 3rd of the first 6 ch.\n\n2nd round:"
        " Into each space 1 d.c., 5 tr., 1 d.c.\n\n3rd round: Bend the petals forward and work at the back of them. 1 d.c. "
        "round the stem of the first tr. of the 1st round, * 5 ch., 1 d.c. round the stem of the next tr., repeat from * 3 "
        "times, 5 ch., s.c. into first d.c.\n\n4th round: 1 d.c., 7 tr., 1 d.c. under each loop of 5 ch.\n\n5th round: As the "
        "3rd, but taking each d.c. round a d.c. of that round, and making 7 ch. in place of 5.\n\n6th round: 1 d.c., 9 tr., 1 "
        "d.c. under each loop of 7 ch. Fasten off, and join the cotton again between any two petals with 1 d.c.\n\n7th round: *"
        " 3 ch., 1 picot (4 ch., s.c. into the first of these), 3 ch., 1 d.c. into the centre tr. of the petal, 3 ch., 1 picot,"
        " 3 ch., 1 d.c. between this petal and the next; repeat from * 4 times, the last d.c. being a s.c. into that with which"
        " the cotton was joined.\n\n8th round: S.c. along the first loop till past the picot, 1 d.c. there, * 6 ch., 1 d.c. in "
        "the next loop beyond the picot, repeat from * 8 times, 6 ch., s.c. into first d.c.\n",
        "5 35 5 45 5 55 10 10",
    ),
    "a shell worked as before where the row has slipped to, and the last stitch a join": (
        "SHELL MAT\n\nCh 8, join with sl st to form ring. 1st rnd: Ch 3, 15 dc in ring, join (16 dc). 2nd rnd: Sc in same "
        "place, * ch 5, skip 1 dc, sc in next dc; rep from * around, ending with ch 5, join (8 lps). 3rd rnd: Sl st to center "
        "of lp, ch 3, in same lp make 2 dc, ch 2 and 3 dc (shell), * ch 3, sc in next lp, ch 3, in next lp make 3 dc, ch 2 and "
        "3 dc (another shell); rep from * 2 more times, ch 3, sc in last lp, ch 3, join (4 shells). 4th rnd: Sl st to sp of "
        "shell, work a shell as before, * ch 7, shell in sp of next shell; rep from * around, ch 7, join. 5th rnd: Sl st to sp "
        "of shell, ch 3, complete a shell in same sp, * ch 4, sc over the ch-7, ch 4, shell over shell; rep from * around, "
        "ending with ch 4, sc over the ch-7, ch 4, join. 6th rnd: Sl st to sp of shell, sc in same sp, * ch 6, sc in next sp; "
        "rep from * around, the last sc being replaced by a sl st in first sc (12 lps).\n",
        "16 8 28 24 28 12",
    ),
    "how every row turns told once, squares and more of them, an edge's foot": (
        "FILET CORNER WITH A LETTER\n\nUse a No. 12 hook. A space (sp) is 1 d c, 2 ch, miss 2, the d c which closes it "
        "belonging also to what follows; a block (bl) is a\nspace filled with 2 d c. Ch 5 to turn at every row for the first d "
        "c and 2 ch of the space at the edge.\n\nChain 26.\n\nRow 1: D c in 8th st from hook, 6 more sps (7 sps). Turn.\n\nRow "
        "2: 7 sps, turn.\n\nRow 3: 2 sps, 3 bls (10 d c), 2 sps, turn.\n\nRow 4: 1 sp and 1 more, 2 bls, 3 sps, turn.\n\nRows 5"
        " and 6: Like row 2. At end of row 6 ch 1, turn.\n\nRow 7: 3 s c in each sp, sl st to the foot of the edge d c, ch 1, "
        "turn. (21 s c)\n\nRow 8: 1 s c in first s c, * miss 1, 5 d c in next s c, miss 1, 1 s c in next; repeat from * to end,"
        " 5 scallops in all. Fasten off.\n\nWork the opposite edge to match if desired, and sew to the towel\nthrough row 1.\n",
        "8 8 14 12 8 8 21 31",
    ),
    "rounds ended with a single stitch, one of six in each group": (
        "D'OYLEY FOR A TOILET GLASS.\n\nMake a chain of 8, join the ends, and work 16 double crochet under the ring.\n\n1st "
        "round.--1 long, 1 chain, on every double crochet.\n\n2nd round.--2 long in each hole, 1 chain between.\n\n3rd "
        "round.--Double crochet all round, working on chain and long alike.\n\n4th round.--1 double crochet, 5 chain, miss 3. "
        "End the round with a single stitch on the first.\n\n5th round.--6 double crochet under every chain of 5.\n\n6th "
        "round.--1 double crochet on the 3rd of the six, 7 chain; repeat.\n\n7th round.--9 double crochet under each "
        "chain.\n\n8th round.--7 double crochet on the centre 7 of the nine, 3 chain.\n",
        "16 16 32 48 12 72 12 108 84",
    ),
    "a chain of the length required, and one for a trial": (
        "TRIMMING, TO BE WORKED TO ANY LENGTH.\n\nMake a chain the length required; for a trial, 49 stitches.\n\n1st row.--1 "
        "long stitch in each of the chain.\n\n2nd row.--1 long on the first long, * 3 chain, miss 3, 1 long on the next; repeat"
        " to the end.\n\n3rd row.--1 double crochet on the long, 3 double crochet under the chain; repeat, finishing with 1 "
        "double crochet on the last long.\n",
        "49 13 49",
    ),
    "singles that only join, a last stitch whose place is the join's": (
        "CLOVER MEDALLION.\n\nAbbreviations.--Ch., chain; s.c., single crochet; d.c., double crochet; tr., treble.\n\nMake 12 "
        "ch. and join with a s.c.\n\n1st round: 18 d.c. into the ring, join with s.c.\n\n2nd round: 1 d.c. into the first d.c.,"
        " * 10 ch., miss 5 d.c., 1 d.c. into the sixth; repeat from * once more, 10 ch., s.c. into first d.c.\n\n3rd round: "
        "Into each loop work 1 d.c., 14 tr., 1 d.c.; s.c. into first d.c.\n\n4th round: * 5 ch., miss 3, 1 d.c. in next; repeat"
        " from * all round, the last d.c. being replaced by a s.c. into the place where the round began.\n",
        "18 3 48 11",
    ),
}
"""The piece and the totals of its worked rows, in order (foundation chains of nothing but chains left out)."""


@pytest.mark.parametrize("cause", PIECES)
def test_piece_is_read_whole_and_worked(cause: str) -> None:
    text, told = PIECES[cause]
    assert [row.counted.total for row in worked_rows(text)] == [int(number) for number in told.split() if number]
