"""A loop told for a whole row, before its stitches or behind them, is the loop they are worked in (common practice, no source)."""

from __future__ import annotations

from collections import Counter

import pytest

from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import How

RING = "Ch 6, join with sl st to form ring.\nRnd 1: Ch 1, 24 sc in ring, join. (24 sc)\nRnd 2: "


@pytest.mark.parametrize(
    ("words", "front", "back"),
    [
        ("Working in back loops only for this round, ch 1, sc in each st around; join.", 0, 24),
        ("In BLO for this rnd only: sc around", 0, 24),
        ("This round is worked in the back loops only. Sc around (24)", 0, 24),
        ("Work this round in the back loops only: sc in each st around.", 0, 24),
        ("Sc in each st around, working in back loops only.", 0, 24),
        ("Sc around (back loops only).", 0, 24),
        ("sc around in BLO", 0, 24),
        ("(FLO) sc around", 24, 0),
        ("sc in next 12 in BLO, sc in next 12", 0, 12),
        ("sc in next 12, sc in next 12 in FLO", 12, 0),
        ("*sc in next 2 sts, inc; rep from * around, working in back loops only (32)", 0, 32),
    ],
)
def test_row_is_worked_in_the_loop_told(words: str, front: int, back: int) -> None:
    row = work(read(f"{RING}{words}\n")).parts[0].rows[-1]
    how = Counter(row.stitches.foot_how)
    assert (row.read, row.worked, how[How.FRONT_LOOP], how[How.BACK_LOOP]) == ("whole", "yes", front, back)
