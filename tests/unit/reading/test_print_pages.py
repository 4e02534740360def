"""Whole pieces as they stand in print and in scans of it, worked to the stitch. Every piece is invented."""

from __future__ import annotations

import pytest

from .told import worked_rows

PIECES: dict[str, tuple[str, str]] = {
    "uprights named by number and place, a loop from the gap between two, posts together at the same time, a popcorn in one post": (
        "BELT.\n\nSTRIP: With Beige and using afghan hook, ch 3, pull a loop through 2nd and 3rd ch (3 loops on hook) and work "
        "back.\n\n2nd Row\u2014Pull a loop through space between 1st and 2nd posts, pull loop through 2nd post, pull a loop through "
        "space before last post and through last post (5 loops on hook), work back same as before.\n\n3rd Row\u2014Pull a loop through"
        " space between 1st and 2nd posts, * insert hook under next post and draw loop through, rep from * to last post, "
        "increase 1 loop in space before last post, pick up last post (7 loops) and work back. Repeat 3rd row having 2 more "
        "posts in each row until there are 11 posts.\n\nNext Row: Pick up post 2 and 3 (3 loops on hook), yarn over, insert hook "
        "under 4th post and draw loop through, yarn over and pull through 2 loops, * yarn over, insert hook under same post, "
        "pull loop through, yarn over and pull through 2 loops, repeat from * twice, yarn over and pull through 4 loops, pick "
        "up and pull a loop through post 5, 6, 7, 8, 9, 10 and 11 and work back same as before.\n\nNext Row: To decrease: Insert "
        "hook under 2nd and 3rd posts at the same time and pull loop through, pick up all posts to within last 3 posts, take up"
        " next 2 posts together, pick up last post (9 loops on hook), work back same as before.\n\nNext Row: Pick up remaining "
        "posts and work back.",
        "3 5 7 9 11 11 9 9",
    ),
    "finished as another row, joined in the 2nd stitch, the last left free, worked again as if of another stitch, long sides": (
        "RIPPLE MAT.\n\nWith Rust, ch 29, s c in 2nd st from hook, 1 s c in each of next 5 sts of ch, 3 s c in next st (point), 1"
        " s c in each of next 6 sts, * skip 2 sts of ch, 1 s c in each of next 6 sts, 3 s c in next st, 1 s c in each of next 6"
        " sts, repeat from * across (2 points), turn.\n\n2nd Row: Ch 1, working in back loops only, skip 1st s c, 1 s c in each "
        "of next 6 s c, 3 s c in next s c, 1 s c in each of next 6 s c, * skip 2 s c, 1 s c in each of next 6 s c, 3 s c in "
        "next s c, 1 s c in each of next 6 s c, repeat from * across leaving last s c free (30 s c), cut yarn, turn.\n\n3rd Row: "
        "Attach Cream in 2nd s c, s c in same space, 1 s c in each of next 5 s c, finish same as 2nd row, turn.\n\n4th Row: With "
        "Cream work same as 2nd row, turn. Working into the s c’s as if they were d c, repeat 3rd and 4th rows once.\n\nEDGE: "
        "Working along short side work 1 s c in each s c (30 s c), cut yarn.",
        "30 30 30 30 30 30 30",
    ),
    "petals drawn together, groups parted by a chain, a crossed beginning, rows of the pattern behind others, joined pieces": (
        "BASKET COVER.\n\nMOTIF: Ch 4, join to form a ring, ch 1, 12 s c in ring, join. 2nd ROUND: Ch 3, keeping last loop of "
        "each st on hook work 2 d c in same s c, yo and pull through all loops (petal), * ch 3, skip 1 s c, 3 d c petal in next"
        " s c, repeat from * 4 times (6 petals), ch 3, join in top of 1st petal. 3rd ROUND: Attach Green in any ch 3 loop, ch "
        "3, 2 d c, ch 1, 3 d c in same loop, * ch 1, 3 d c, ch 1, 3 d c in next loop, repeat from * all around, ch 1, join in "
        "3rd st of ch. 4th ROUND: Attach White in any ch 1 space, s c in same space, * 5 d c (shell) in center d c of next d c "
        "group, s c in next ch 1 space, repeat from * all around ending with a shell (12 shells), join, cut yarn.\n\nBAND: Ch 32,"
        " join. 1st ROUND: Ch 1, 1 s c in each st all around, join. 2nd ROUND: Ch 3, d c in last s c of previous round (1 cross"
        " st), * skip 1 s c, d c in next s c, d c in skipped s c, repeat from * all around, join. 3rd ROUND: Ch 1, 1 s c in "
        "each d c, join. Repeat last 2 rounds once. NEXT ROUND: Ch 1, * 1 s c in each of next 6 sts, dec in next 2 sts, repeat "
        "from * all around, join. NEXT 2 ROUNDS: Same as last 2 pattern rounds.\n\nLOWER EDGE: Attach White in joining of any 2 "
        "motifs, ch 5, * s c in center st of next shell, ch 2, s c in joining between next 2 motifs, ch 2, repeat from * all "
        "around, join (48 s c). 2nd ROUND: Ch 1, 1 s c in each s c, join.",
        "12 6 36 72 32 32 32 32 32 28 28 28 48 48",
    ),
    "a gap told in brackets, a group told how behind its place, any corner to begin in, a chain told once, rows of a piece": (
        "DIRECTIONS FOR TILE\n\nRnd 1\u2014Ch 5, join, ch 3, 1 d c in ring, * ch 1, 2 d c in ring; rpt from * twice, ch 1, join in top"
        " of ch-3, fasten off. Rnd 2\u2014Turn, make a loop on hook, sl st in any ch-1 sp, ch 3, 1 d c in same sp, ch 2, 2 more d c "
        "in same sp, * work [2 d c, ch 2, 2 d c] in next ch-1 sp; rpt from * around, join in top of ch-3, fasten off. Rnd "
        "3\u2014Turn, sl st in any corner ch-2 sp, ch 3, 1 d c in same sp, ch 2, 2 more d c in same sp, ch 1, * skip next 2 d c, in "
        "next sp (sp between groups) work a Cluster as follows: (y o, pull up a loop in sp, y o and through 2 loops) 3 times, y"
        " o and through all 4 loops on hook, ch 1, work [2 d c, ch 2, 2 d c] in next corner ch-2 sp, ch 1; rpt from * twice, "
        "skip next 2 d c, a Cluster in next sp, ch 1, join in top of ch-3. Rnd 4\u2014Make a loop on hook, 3 s c in any corner ch-2 "
        "sp, * 1 s c in each d c to next corner, 3 s c in corner ch-2 sp; rpt from * twice, 1 s c in each d c of last side, "
        "join.\n\nHALF TILE\n\nRow 1\u2014Ch 5, join, ch 4 (to count as 1 d c and ch 1), 2 d c, ch 1 and 1 d c in ring, fasten off. Row "
        "2\u2014Attach yarn in first sp, ch 4, 2 d c in same sp, work 2 d c, ch 1 and 1 d c in last sp, turn. Row 3\u2014Ch 1, s c in "
        "each d c and in each ch same as on Rnd 4 of Tile.\n",
        "8 16 20 28 4 6 8",
    ),
    "a point to within the middle of three, more on each row in sum; only the last round joined; plain again behind holes for a cord": (
        "BONNET.\n\nPOINT ... Ch 2. 1st row: 3 sc in 2nd ch from hook. Ch 1, turn. 2nd row: 2 sc in first sc, 3 sc in next sc, 2 sc in last"
        " sc. Ch 1, turn. 3rd row: 2 sc in first sc, sc in each sc to within center sc of 3-sc group, 3 sc in center sc, sc in each sc to "
        "last sc, 2 sc in last sc (11 sc). Ch 1, turn. 4th to 6th rows incl: Repeat last row, having 4 more sc on each row (23 sc on 6th "
        "row). Break off.\n\n"
        "CROWN ... Ch 4, join. 1st rnd: 12 sc in ring. 2nd rnd: 2 sc in each st around. 3rd to 5th rnds: Sc in each st around, at end of "
        "5th rnd join with sl st. 6th rnd: Ch 4, skip 1 st, * dc in next st, ch 1, skip 1 st. Repeat from * around, join to 3rd ch of ch 4."
        " 7th rnd: Sc in same place, sc in next sp, * sc in next dc, sc in next sp. Repeat from * around, do not join. 8th rnd: Sc in each "
        "st around, having 24 sc in rnd. 9th rnd: * Sc in next 5 sts, 2 sc in next st. Repeat from * around. 10th rnd: Work even.\n\n"
        "FLAP ... Ch 13. 1st row: Sc in 2nd ch from hook and in each ch across. Ch 1, turn. 2nd row: Sc in first 5 sts, ch 2, skip 2 sts, "
        "sc in last 5 sts. Ch 1, turn. 3rd row: 5 sc, 2 sc in the ch 2, 5 sc. Ch 1, turn. 4th row: 5 sc, sc in each of next 2 sc, 5 sc.\n",
        "3 7 11 15 19 23 12 24 24 24 24 12 24 24 28 28 12 10 12 12",
    ),
    "words broken at the line's end, and a page's number between": (
        "EGG COSY.\n\nMake 4 ch, join in a ring. lst round: 8 d c in ring, join to the first d c, having wor-\nked over the "
        "end. 2d rovv: "
        "Ch 3, "
        "1 d c in same place, * 2 d c in next d\nc; re-\n\n          23\n\npeat from * around, join with sl\nst to top of ch 3. "
        "3d rnd: Ch 3, skip first d c, * d c in next d c; Repeat\nfrom * around; join. "
        "4th rnd: Ch l, l s c in each d c around, leav-\ning none; join.\n",
        "8 16 16 16",
    ),
    "rounds scanned as another word, figures as letters, m as two letters; a count behind two short dashes": (
        "HOT PAD.\n\nCh 5, join. lst rnd: Ch 3, 15 dc in ring, join. 2nd md: Ch l, sc in sarne place, l sc in each dc, join--16 sc. "
        "RND 3: * Sc in next sc, 2 sc in next sc. Repeat frorn * 7 tirnes more. RND 4: Ch 3, dc in each of next l1 sc, 2 dc in next sc, "
        "dc in ll sc. Work 5 mds more in the sarne way. RND l0: Sc in each dc.\n",
        "16 16 24 25 25 25 25 25 25 25",
    ),
    "groups told in the list of short forms, a list before the place of the round's beginning, another wool in the same place": (
        "MAT.\n\nTerms are British. Abbreviations: ch., chain; tr., treble; d.c., double crochet; s.s., slip stitch; gr., group\u20143 tr. "
        "worked into the same place.\n\nUsing A, make 24 ch. and join into a ring with s.s. "
        "1st round: 3 ch. (to count as 1 tr.), 1 tr. into each ch. to end, s.s. to top of 3 ch. "
        "2nd round: 3 ch., 2 tr., 3 ch., 3 tr. into same place as s.s. (1st corner), * (miss 2 tr., 1 gr. into next tr.) 3 times, miss 2 "
        "tr.,** 3 tr., 3 ch., 3 tr. into next tr. (2nd corner), rep. from * to ** once, s.s. to top of 3 ch. Fasten off A. "
        "3rd round: Join B to a corner space, 3 ch., 2 tr., 3 ch., 3 tr. into corner, * 1 gr. into each space between grs. to next "
        "corner,** 3 tr., "
        "3 ch., 3 tr. into corner, rep. from * to ** once, s.s. to top of 3 ch. Fasten off. "
        "4th round: With C, as 3rd round. Fasten off.\n\n"
        "CORD EDGE: 1st round: Join A to base of a ch. at the middle, 1 d.c. into each of the 24 ch., s.s. to first d.c.\n",
        "24 30 36 42 24",
    ),
    "a sleeve round its opening, rows repeated with an ending of their own, an edge told in a sentence": (
        "DOLL'S VEST.\n\nBODY: Ch 42. Row 1: Dc in 4th ch from hook and in each ch. (40 dc) Ch 3, turn. Ch 3 counts as first dc always.\n"
        "Row 2: Sk first dc, dc in each of next 9 dc, ch 4 for underarm, sk 10 dc for sleeve, dc in each of last 20 dc. Ch 3, turn.\n"
        "Row 3: Sk first dc, dc in each dc and in each ch across. Ch 3, turn.\nRepeat last row, working in each dc, 2 times more, ending "
        "with ch 1, turn.\nLast Row: Sc in each dc. End off.\n\n"
        "SLEEVE: Rnd 1: Right side facing, join yarn in first underarm ch, ch 3, dc in each of next 3 ch, dc in each of 10 sleeve dc, "
        "join.\nRnd 2: Ch 3, dc in each dc to last 2 dc, work last 2 dc tog, join.\n"
        "Rnds 3 and 4: Work even. Finish cuff edge with 1 rnd sc.\n",
        "40 30 34 34 34 34 14 13 13 13 13",
    ),
    "rows repeated by their ordinals, the second shoulder headed before an unlabelled row": (
        "VEST BACK.\n\nMake 41 ch. 1st row.\u20141 s. c. in 2nd ch. from hook, 1 s. c. in each ch. to end, turn.\n\n"
        "2nd row.\u20141 ch., 1 s. c. in each s. c., turn.\n\n3rd row.\u20141 ch., 1 s. c. in first s. c., * 2 ch., miss 2, 1 s. c. in "
        "next; rep. from * to end, turn.\n\n4th row.\u20141 ch., 1 s. c. in each s. c., and 2 s. c. in each space, turn.\n\n"
        "Rep. 3rd and 4th rows twice more.\n\nRight shoulder.\u2014Next row.\u20141 ch., 1 s. c. in each of first 14 sts., turn.\n\n"
        "Left shoulder.\u2014Join wool to the 13th st. from right shoulder, 1 ch., 1 s. c. in same st. and in each st. to end, turn.\n",
        "40 40 14 40 14 40 14 40 14 14",
    ),
    "what fills a ring is no pattern to go on in; spaces of one chain scanned as a letter": (
        "COASTER.\n\nAbbreviations: gr = group (3 dc in same place).\n\nCh 6, join. Rnd 1: Ch 3, 2 dc in ring, * ch 1, gr in ring; rep "
        "from * twice more, ch 1, join. Rnd 2: Ch 1, sc in each dc and in each ch-l sp, join. Rnd 3: Work even. Rnd 4: Ch 1, sc in each "
        "sc, join.\n",
        "12 16 16 16",
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
        "27 ch. 1st row: 1 tr. in the 4th ch. from the hook, 1 tr. in every ch. (25 tr.) 2nd row: 4 ch., pass over the first "
        "2 tr., 1 tr. on the 3rd, * 1 ch., pass over 1, 1 tr. on the next; repeat from * across. 3rd row: 3 ch., * 1 tr. in "
        "the space, 1 tr. on the tr.; repeat from * across, the last tr. coming on the third of the 4 ch. 4th row: 1 d.c. on "
        "the first tr., * 6 ch., miss 3 tr., 1 d.c. on the next; repeat from * across. 5th row: 6 ch. (for 1 tr. and 3 ch.), "
        "1 d.c. in the first loop, * 6 ch., 1 d.c. in next loop; repeat from * up to the last loop, then 3 ch., 1 tr. on "
        "last d.c. 6th row: 1 d.c. on the tr., * 6 ch., 1 d.c. in next loop of 6 ch.; repeat from * till all of these loops "
        "are filled, 6 ch., 1 d.c. on the third of the 6 ch. (6 loops.)\n",
        "25 13 25 7 8 7",
    ),
    "rows repeated from one of them on, loops of two rows caught as one": (
        "Ch 16. 1st row: 1 d c in 4th ch, 1 d c in next 3, ch 4, miss 4, 1 d c in last 5; turn. 2d row: Ch 3, 1 d c on each "
        "of 4 d c, ch 4, 1 d c on each of 5 d c; turn. 3d row: Ch 3, 1 d c on each of 4 d c, ch 2, 1 s c around the chains "
        "of both rows below, tying them up, ch 2, 1 d c on each of 5 d c; turn. 4th row: Ch 3, 1 d c on each of 4 d c, ch 4, "
        "1 d c on each of 5 d c; turn. 5th row: Same as the 4th. Repeat from the 3d row until you have 9 rows.\n",
        "10 10 11 10 10 11 10 10 11",
    ),
    "a net bag: rounds carried to a loop and ended in it, another told as the one before": (
        "NET BAG.\n\nMake 5 ch., and join. 1st round.\u201410 d.c. in the ring. 2nd round.\u2014* 4 ch., 1 d.c. in the next; "
        "repeat from * all round. 3rd round.\u2014S.s. to the middle of first loop, * 6 ch., 1 d.c. in next loop; repeat "
        "from * round, bringing the last d.c. into the loop you began in. 4th round.\u2014As the 3rd, but work 1 d.c., 6 "
        "ch., 1 d.c. in each loop, with 6 ch. between one and the next. 5th and 6th rounds.\u2014* 7 ch., 1 d.c. in next "
        "loop; repeat from * round. 7th round.\u20143 d.c. in every loop.\n\nHANDLE.\u20141 ch., turn, 1 d.c. on each of 8 "
        "d.c. Work to and fro on these 8 stitches, always turning with 1 ch., for 12 inches.\n",
        "10 10 10 20 20 20 60 8 8",
    ),
    "the other side of the chain gone back along; threads; the runs between increases told anew": (
        "Begin with 8 ch. 1st round: 1 d.c. in 2nd ch. from hook, 1 d.c. in each of 5 ch., 3 d.c. in the end one; go back "
        "along the other side of these ch., 1 d.c. in each of 5 ch., 2 d.c. in the end where the first one was made. Do not "
        "join. 2nd round: 1 d.c. in the back thread of every d.c. 3rd round: 1 d.c. in each of 4, (work 2 d.c. together as "
        "before) 4 times, 1 d.c. in each of 4.\n",
        "16 16 12",
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
        "Ch 8, join with sl st. =1st rnd:= 32 sc in ring, join. =2nd rnd:= Ch 3, dc in next sc, * ch 2, (sc in next sc, ch "
        "3) 4 times; sc in next sc, ch 2, skip 1 sc, dc in next 2 sc; rep from * all round, ending last repeat with ch 2, "
        "join. =3rd rnd:= Ch 3, dc in next dc, * ch 4, (sc in next ch-3 loop, ch 3) 3 times; sc in next loop, ch 4, dc in "
        "next 2 dc; rep from * all round, ending last repeat with ch 4, join. =4th rnd:= As last rnd, but with 1 ch-3 loop "
        "less on each pineapple.\n",
        "32 28 24 20",
    ),
    "an edging begun at one end always: chains taken at the row's end, the last stitch of one scallop after another": (
        "EDGING.\n\n_No. 20 cotton.\u2014Every row of this trimming is begun at the same end, and the thread cut at the end "
        "of each._\n\nMake a chain of 20 stitches for a corner.\n\n1st row.\u20141 long, 1 chain, miss 1: repeat to the "
        "end.\n\n2d.\u20141 plain on the long, 1 plain on the chain: repeat.\n\n3d.\u20146 chain, miss 4, 1 plain: "
        "repeat.\n\n4th.\u20141 plain, 5 long, 1 plain; these 7 stitches go in the 6 chain of the 3d row: repeat, making 4 "
        "scallops.\n\n5th.\u20148 chain, 1 plain on the last plain of the scallop: repeat.\n\n6th.\u201410 plain in the 8 "
        "chain: repeat.\n\n7th.\u20146 chain, miss 9, 1 plain on the last of the 10 plain: repeat.\n\n8th.\u2014Like the 4th "
        "row, all the stitches being made in the 6 chain of the row before; fasten off.\n",
        "10 20 4 28 4 40 4 28",
    ),
    "a leaflet's turning chain omitted before a shaping, the second side of a neck in a paragraph of its own": (
        "BACK: Ch 34, d c in 4th st from hook, d c in each st to end, 32 d c, ch 3, turn. 2nd ROW: Skip first d c, d c in "
        "every d c, d c in the turning ch, ch 3, turn. Repeat 2nd row twice, omitting the ch 3 at end of last row. NEXT ROW: "
        "SHAPE ARMHOLES: Sl st over 5 sts, sl st in next st, ch 3, d c in each st to within 5 sts of end, ch 3, turn. NEXT "
        "ROW: Skip first st, d c in next 7 sts, leave the other sts unworked, cut yarn.\n\nWith same side of the last long "
        "row facing, skip 6 sts for the neck, attach yarn in next st, ch 3, d c in each st left.\n",
        "32 32 32 32 22 8 8",
    ),
    "an edging in the ends of the rows, so many times as they go; all round in the same manner": (
        "Ch 9. 1st row: S c in 2nd ch from hook and in each ch; turn. (8 s c) 2nd row: Ch 1, s c in each s c; turn. Repeat "
        "2nd row 4 times. Keep the thread, and work along one edge for a finish: * 1 s c in the end of one row, 4 d c in the "
        "end of the next; repeat from * in like manner. Fasten off.\n",
        "8 8 8 8 8 8 15",
    ),
    "tricot: loops raised from between uprights and through two at once, a run told anew, worked off in returning": (
        "BORDER IN TRICOT.\n\nWith a tricot hook make a chain of 11. 1st Row.\u2014Keeping the loop that is there, raise a "
        "loop in each of the other 10 chain; there should be 11 loops on the needle. To return, draw the wool through one "
        "loop, then through two at a time until one is left. 2nd Row.\u2014Raise a loop in every upright (11 loops); return "
        "as before. 3rd Row.\u2014Insert the hook in the second and third uprights at once and raise one loop, raise 5 loops "
        "in the ordinary way, take the next two together, and raise the last; 9 loops on the needle; return. 4th "
        "Row.\u2014Decrease as in the third row, but raising 3 loops between instead of 5; return. 5th Row.\u2014Raise a "
        "loop in the chain between the two first uprights, raise a loop in each upright to the last one, raise a loop in the "
        "chain before that, then raise the last; return. 6th Row.\u2014Like the 5th.\n",
        "11 11 9 7 9 11",
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
        "EGG CAP.\n\nThe 3 ch. that begin a round count as 1 tr.\n\nBegin with 5 ch., and join.\n\n1ST ROUND.--3 ch., 11 tr. "
        "in the ring, join.\n\n2ND ROUND.--3 ch., * 2 tr. in next tr., 1 tr. in next; repeat from * to the last stitch, 2 "
        "tr. in that, join.\n\nNEXT ROW.--3 ch., 1 tr. in each of 17 tr., turn.\n\nFOLLOWING ROW.--1 ch., 1 d.c. in every "
        "tr., the last on the top of the 3 ch., turn.\n\nRepeat the last two rows once.\n\nLAST ROW: 1 ch., * 1 d.c. in each "
        "of next 2 d.c., 3 ch., 1 s.s. in the last d.c.; repeat from * to end. Fasten off.\n",
        "12 18 18 18 18 18 18",
    ),
    "the colour told before the foundation's number, a stitch and a chain in every stitch": (
        "STRIPE FOR A RUG.\n\nRequired, wool in two shades. Commence with the darkest, with 31 chain.\n\n"
        "1st row--1 treble, 1 chain, in every chain.\n\n2nd row--1 treble, 2 chain, 1 treble, in every treble.\n",
        "31 62",
    ),
    "round a foundation, the last in the place of the first": (
        "SOLE.\n\nCh 10, 2 s c in 2nd st from hook, 1 s c in each of 7 sts of ch, 4 s c in last st, working on the other "
        "side of ch, 1 s c in each of 7 sts, 2 s c in same place with the first 2, join.\n\n2nd Row--Ch 1, 1 s c in every s "
        "c, join.\n",
        "22 22",
    ),
    "the pattern's rows repeated by that name, one shoulder headed": (
        "BACK.\n\nMake 24 ch. 1st patt. row: 1 d.c. in 2nd ch. from hook and in each ch. 2nd patt. row: 1 ch., 1 d.c. in "
        "every st. Repeat these 2 patt. rows once. Repeat last 2 pattern rows once.\n\nFIRST SHOULDER. Next row: 1 ch., 1 "
        "d.c. in each of 7 sts., turn. Following row: 1 ch., 1 d.c. in every st.\n",
        "23 23 23 23 23 23 7 7",
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
