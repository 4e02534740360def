"""Chains counted from the hook in mid-piece, and counts behind a dash (common practice, no source)."""

import pytest

from hookwright.reading import read
from hookwright.working import work


def test_tiles_grow_where_the_hook_is_not_named() -> None:
    text = """Cloth
Row 1: Ch 6, dc in 4th ch from hook and next 2 ch. (1 block)
Row 2: Ch 6, dc in 4th ch and in next 2 ch, skip 3 dc of previous block, sl st in ch-3 sp, ch 3, 3 dc in same sp. (2 blocks)
Row 3: Ch 6, dc in 4th ch and next 2 ch, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep from * across. (3 blocks)
Rows 4-6: Rep row 3. (6 blocks)
"""
    rows = [row for row in work(read(text)).parts[0].rows if not row.foundation]
    assert [row.counted.by_kind["dc"] for row in rows] == [3, 6, 9, 12, 15, 18]


def test_chains_of_handles_are_worked_before_a_count_behind_a_dash() -> None:
    text = (
        "Basket\nR1. 40 sc in mr. (40)\nR2. sc 7, ch 6, skip 6, sc 14, ch 6, skip 6, sc 7 - 40 sts.\nR3. sc in every st and ch - 40 sts.\n"
    )
    row = work(read(text)).parts[0].rows[-1]
    assert (row.read, row.worked, row.state, row.counted.total) == ("whole", "yes", "agrees", 40)


POINTS = (
    "*Ch 5, starting in 2nd ch from hook: sc, hdc, dc, tr; sk next sc, sl st in next sc. Repeat from * 4 more times.",
    "*Ch 5, beginning in 2nd ch from hook work sc, hdc, dc, tr, sk next sc, sl st in next sc; rep from * around.",
    "*Ch 5, working back along the ch: sc in 2nd ch from hook, hdc in next, dc in next, tr in last; sk 1 sc, sl st in next; rep around.",
    "*Ch 5. From the 2nd ch from hook: sc, hdc, dc, tr. Sk next sc, sl st in next sc. Rep from * 4 more times.",
)


@pytest.mark.parametrize("told", POINTS)
def test_points_of_a_star_fill_their_chains(told: str) -> None:
    row = work(read(f"Star\nRnd 1: In a magic ring work 10 sc. Join. (10)\nRnd 2: {told}\n")).parts[0].rows[-1]
    assert (row.read, row.worked, row.used, row.counted.by_kind["tr"]) == ("whole", "yes", 10, 5)
