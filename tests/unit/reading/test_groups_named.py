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
    "an edging whose first sentence only says where it is worked": (
        "BLOCK ... Ch 6, join. 1st rnd: Ch 3, 17 dc in ring, join.\n\nEDGE ... To be worked around the block. Attach thread to first dc, 1 "
        "sc in same place, * skip 2 dc, 7 tr in next dc, skip 2 dc, 1 sc in next dc. Repeat from * once, skip 2 dc, 7 tr in next dc, "
        "join. Fasten off.",
        "18 24",
    ),
}
"""The piece and the totals of its worked rows, in order."""


@pytest.mark.parametrize("cause", PIECES)
def test_groups_are_taken_as_they_are_named(cause: str) -> None:
    text, told = PIECES[cause]
    assert [row.counted.total for row in worked_rows(text)] == [int(number) for number in told.split()]
