"""Groups named where they are first made, in the many ways print has: the count of every row tells whether they were taken so."""

from __future__ import annotations

import pytest

from .told import worked_rows

_SHELLS = (
    "* skip 3 ch, shell in next ch, repeat from * twice, skip 2 ch, dc in last ch. 2nd row: Ch 3, turn, shell in each shell, dc in top "
    "of turning ch."
)

PIECES = {
    "the list before the first place on a chain": (
        "Ch 21, 2 dc, ch 1, 2 dc in 6th st from hook (shell), * skip 3 sts of ch, 2 dc, ch 1, 2 dc in next st, repeat from * twice, skip 2 "
        "sts of ch, dc in last st (4 shells), ch 3, turn. 2nd Row. 2 dc, ch 1, 2 dc in ch 1 of next shell (shell in shell), * shell in ch "
        "1 of next shell, repeat from * twice, dc in top of turning ch.",
        "18 18",
    ),
    "named by a count of one": (f"Ch 21.\n1st row: 2 dc, ch 1, 2 dc in 6th ch from hook (1 shell), {_SHELLS}", "18 18"),
    "named behind its place": (f"Ch 21.\n1st row: 2 dc, ch 1, 2 dc in 6th ch from hook for a shell, {_SHELLS}", "18 18"),
    "forming it": (f"Ch 21.\n1st row: 2 dc, ch 1, 2 dc in 6th ch from hook, forming a shell, {_SHELLS}", "18 18"),
    "single stitches over so many chains passed": (
        "Ch 18, dc, ch 1, dc in 6th ch from hook (V st), * skip 3 sts of ch, dc, ch 1, dc in next st, repeat from * twice.",
        "9",
    ),
    "told behind its place as follows": (
        "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch. (11 sc)\nRow 2: Ch 3, turn, dc in next sc, 1 popcorn st in next sc as "
        "follows: 5 dc in one st, drop st from hook, insert hook in first of these dc, pick up dropped loop and draw it through, ch 1 "
        "tightly. 1 dc in next sc, 1 popcorn st, 1 dc in each of next 3 sc, cluster in next sc, thus: (yo, pull up a loop in st, yo, "
        "through 2 loops) 3 times, yo and through all loops, dc in next 2 sc.",
        "11 11",
    ),
    "groups counted by their stitches, and what follows the last of them": (
        "Ch 6, join. 1st rnd: Ch 3, 29 dc in ring, join. 2nd rnd: Ch 3, dc in same st, * dc in next 3 dc, 2 dc in next dc, ch 2, 2 dc in "
        "next dc; repeat from * until there are 6 groups of 7 dc with ch 2 between. After the 6th group of 7 dc, ch 2, join.",
        "30 42",
    ),
    "shaped group by group, and again by one word": (
        "Ch 21.\n1st row: (2 dc, ch 1, 2 dc) in 6th ch from hook (shell made), * skip 3 ch, shell in next ch, repeat from * twice, skip 2 "
        "ch, dc in last ch. (4 shells)\n2nd row: Ch 3, turn, 2 dc in ch 1 of next shell, ch 1, 2 dc in ch 1 of following shell (a decrease "
        "of 1 shell), shell in next 2 shells, dc in top of turning ch (3 shells).\n3rd row: Ch 3, turn, shell in next shell, decrease in "
        "next 2 shells, dc in top of turning ch (2 shells).\n4th row: Ch 3, turn, 2 dc, ch 1, 2 dc twice in ch 1 of next shell (an "
        "increase of 1 shell), shell in each of the remaining shells, dc in top of turning ch (3 shells).",
        "18 14 10 14",
    ),
    "even in pattern after rows that shape it or begin it anew": (
        "Gauge: 4 shells = 3 inches.\n\nCh 21, 2 dc, ch 1, 2 dc in 6th st from hook (shell), * skip 3 sts of ch, 2 dc, ch 1, 2 dc in next "
        "st, repeat from * twice, skip 2 sts of ch, dc in last st (4 shells), ch 3, turn. 2nd Row. Shell in ch 1 of next shell, * shell "
        "in ch 1 of next shell, repeat from * twice, dc in top of turning ch (pattern), ch 3, turn. Repeat 2nd row until work measures 4 "
        "inches, ch 3, turn. Next Row. 2 dc in ch 1 of next shell, ch 1, 2 dc in ch 1 of following shell (a decrease of 1 shell), shell "
        "in each of the next 2 shells, dc in top of turning ch, ch 3, turn (3 shells). Work even in pattern for 1 inch, ch 1, turn. Next "
        "Row. S c in 1st d c, * skip 1 d c of next shell, s c in next d c, skip the ch 1, s c in next d c, repeat from * twice, s c in "
        "top of turning ch, ch 3, turn (8 s c). Next Row. Skip next s c, shell in next s c, skip 1 s c, shell in next s c, skip 1 s c, "
        "shell in next s c, d c in last s c, ch 3, turn (3 shells). Work even in pattern for 2 inches.",
        "18 18 18 14 14 8 14 14",
    ),
    "one in every group that nobody named, the end told after it": (
        "Ch 33. Row 1: Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (31 dc)\nRow 2: Ch 3 (counts as dc), turn, * "
        "skip 1 st, (dc, ch 1, dc) in next st; rep from * to last 2 sts, skip 1, dc in last st.\nRow 3: Ch 3 (counts as dc), turn, 2 dc in "
        "every V, 1 dc in top of the ch-3. (30 dc)",
        "31 30 30",
    ),
    "an edging whose first sentence only says where it is worked": (
        "BLOCK ... Ch 6, join. 1st rnd: Ch 3, 17 dc in ring, join.\n\nEDGE ... To be worked around the block. Attach thread to first dc, 1 "
        "sc in same place, * skip 2 dc, 7 tr in next dc, skip 2 dc, 1 sc in next dc. Repeat from * once, skip 2 dc, 7 tr in next dc, "
        "join. Fasten off.",
        "18 24",
    ),
    "corners told once and then only named": (
        "Ch 4, join. 1st rnd: Ch 3, 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join. 2nd rnd: Ch 3, dc in next 2 dc, * (2 dc, ch 2, "
        "2 dc) in corner sp, dc in next 3 dc; rep from * around, join. 3rd rnd: Ch 3, dc in each dc around, making corners in same way. "
        "Join. 4th rnd: Ch 3, dc in next 6 dc, corner as before, * dc in next 11 dc, corner as before; rep from * twice, dc in last 4 dc, "
        "join.",
        "12 28 44 60",
    ),
    "sts of the turning chain passed over, and the first stitch of a group": (
        "Ch 36, dc in 12th ch from hook, 1 dc in each of next 3 ch, * ch 4, skip 4 ch, 1 dc in each of next 4 ch, repeat from * once, ch "
        "4, skip 4 ch, dc in last ch. 2nd row: Ch 6, turn, 2 dc in 1st dc of group, dc in next 2 dc, 2 dc in next dc, * ch 3, 2 dc in "
        "next dc, dc in next 2 dc, 2 dc in next dc, repeat from * once, ch 3, skip 4 sts of ch, dc in next st. 3rd row: Ch 7, turn, * "
        "skip 1 dc, dc in next 4 dc, skip 1 dc, ch 4, repeat from * across, skip 3 sts of ch, dc in next st. 4th row: Ch 8, turn, skip 1 "
        "dc, dc in next 2 dc, * ch 6, skip 1 dc of same group and 1 dc of next group, dc in next 2 dc, repeat from * once, ch 5, dc in "
        "3rd ch of ch.",
        "14 20 14 8",
    ),
    "an old edging, its loops taken in turn and what is worked into them told behind": (
        "EDGING.\n\n_Thread, No. 10.--Make a chain of 48 stitches per yard, or 12 for each pattern._\n\n1st row.--3 chain, miss 2, 1 "
        "plain: repeat.\n\n2d row.--5 chain, miss 3, 1 treble in the next 3 chain, 4 chain, miss 3, 1 plain in the 3 chain: "
        "repeat.\n\n3d row.--Miss 1, 5 plain in the 4 chain, (miss 1, 1 plain, 4 treble, 1 plain once): these 6 stitches are worked in the "
        "5 chain of the last row: repeat.",
        "16 16 88",
    ),
    "a picot caught to the other motif inside a loop": (
        "FIRST MOTIF ... Ch 8. Join with sl st to form ring. 1st rnd: Ch 1, 16 sc in ring. Join. 2nd rnd: * Ch 5, skip 1 sc, sc in next "
        "sc. Repeat from * around. Join. 3rd rnd: * In next ch-5 loop make 3 sc, ch 4, sl st in last sc made (picot) and 3 sc. Repeat from "
        "* around. Join.\n\nSECOND MOTIF ... Work as for First Motif until 2 rnds are completed. 3rd rnd: In next ch-5 loop make 3 sc, ch "
        "2, sl st in next picot on First Motif, ch 2, sl st in last sc made on this motif and 3 sc. Complete rnd as for First Motif.",
        "16 8 48 16 8 48",
    ),
    "filet over each square, and how the thread lies": (
        "MAT. Ch 20. 1st row: Dc in 8th ch from hook (sp), ch 2, skip 2 ch, dc in next ch (another sp), dc in next 3 ch (these 4 dc make 1 "
        "bl); make 2 more sps. Ch 5, turn. 2nd row: Sp over each sp and over the bl, thread is now in position for next row. Ch 3, turn. "
        "3rd row: Bl over each sp.",
        "8 6 16",
    ),
    "a spiral's last slip stitches behind a repeat that fills it": (
        "With A ch 2, 8 sc in 1st st of ch, do not join. 2nd rnd: 2 sc in each sc. 3rd rnd: * 1 sc in next 3 sc, 2 sc in next sc; repeat "
        "from * around, sl st in next 2 sc, cut yarn.",
        "8 16 20",
    ),
    "a plain word for a group told in the row that first works it, a corner left out at the end": (
        "TRAY CLOTH. Rnd 1--Ch 6, join (with a sl st) to form ring, ch 3, 2 d c in ring, ch 2, * a Group of 3 d c in ring, "
        "ch 2; repeat from * twice, join in top of ch-3 (4 Groups). Rnd 2--Sl st in next ch-2 sp, ch 3, 2 d c in same sp, ch 2, 1 more "
        "Group in same sp, ch 1, * [a Group, ch 2, a Group] in next sp, ch 1; rpt from * around, join. Rnd 3--Sl st in next ch-2 sp, ch "
        "3, 2 d c in same sp, ch 2, a Group in same sp, ch 1, * a Group in next ch-1 sp, ch 1, [a Group, ch 2, a Group] in next ch-2 sp, "
        "ch 1; rpt from * around, but omit corner on last rpt, join (12 Groups).",
        "12 24 36",
    ),
    "a pair of stitches asked for by that name, pairs passed over": (
        "COASTER. Rnd 1--Ch 5, join (with sl st) to form ring, ch 3, 1 d c in ring, ch 1, * work a Pair of 2 d c in ring, ch 1; rpt from * "
        "4 times, join in top of ch-3 (6 Pairs). Rnd 2--Sl st in next ch-1 sp, ch 3, 1 d c in same sp, ch 2, * skip next Pair, a Pair in "
        "next sp, ch 2; rpt from * around, join. Rnd 3--Sl st in next ch-2 sp, ch 3, 1 d c in same sp, a Pair in same sp, * [a Pair, ch 1, "
        "a Pair] in next sp; rpt from * around, join.",
        "12 12 24",
    ),
    "how large each group is, told with how many there are": (
        "STAR. Ch 6, join to form ring. Rnd 1: Ch 3, 17 dc in ring; join. Rnd 2: Ch 3, dc in next dc, 2 dc in next dc, * ch 2, dc in next "
        "2 dc, 2 dc in next dc. Repeat from * until 6 groups are completed, 4 dc in each. Ch 2, join. Rnd 3: Ch 3, dc in next 2 dc, 2 dc "
        "in next dc, * ch 2, dc in next 3 dc, 2 dc in next dc; repeat from * until you have 6 groups, with 5 dc in each group; ch 2, join.",
        "18 24 30",
    ),
    "a cluster told by what is done and then asked for by its name, in one row": (
        "MAT. Ch 6, join to form ring. 1st rnd: Ch 1, 16 sc in ring, join. 2nd rnd: Ch 1, * sc in next sc, ch 3, skip 1 sc; repeat from * "
        "around, join. 3rd rnd: Sc in next sp, * ch 5, in next sp make (holding back on hook the last loop of each tr make 3 tr, thread "
        "over and draw through all loops on hook, cluster made, ch 4) twice and cluster; ch 5, sc in next sp. Repeat from * around, ending "
        "with ch 5, sl st in first sc. 4th rnd: * 5 sc in next ch-5 sp, 4 sc in next ch-4 sp, sc in next cluster, 4 sc in next ch-4 sp, 5 "
        "sc in next ch-5 sp; repeat from * around, join.",
        "16 8 16 76",
    ),
}
"""The piece and the totals of its worked rows, in order."""


@pytest.mark.parametrize("cause", PIECES)
def test_groups_are_taken_as_they_are_named(cause: str) -> None:
    text, told = PIECES[cause]
    assert [row.counted.total for row in worked_rows(text)] == [int(number) for number in told.split()]
