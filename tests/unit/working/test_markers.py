"""Markers placed, met and moved up, and written so that they are read back (common practice, no source)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from hookwright.reading import read
from hookwright.working import work
from hookwright.writing import write

SQUARE = """Ch 60, join with sl st to form a ring.
Rnd 1: Ch 1, sc in each ch around, place marker in 10th, 25th, 40th and 55th sts, join. (60 sc)
Rnd 2: Ch 3, *dc in each st to marked st, (dc, ch 2, dc) in marked st; rep from * 3 more times, dc in each st to end, join. (64 dc)
Rnd 3: Ch 3, *dc in each st to marker, (2 dc, ch 2, 2 dc) in marked ch-2 sp; rep from * 3 more times, dc in each st to end, join. (80 dc)
"""
POINT = """Ch 41.
Row 1: Sc in 2nd ch from hook and in next 18 ch, 3 sc in next ch, place marker in center sc of the 3 sc just made, sc in next 20 ch, turn.
Row 2: Ch 1, sc to marked st, 3 sc in marked st, move marker to center st, sc to end, turn. (44 sc)
Rows 3-10: Rep Row 2. (60 sc)
Row 11: Ch 1, sc in each st to 1 st before marker, skip 1 st, sc in marked st, skip 1 st, sc to end. (58 sc)
"""
BALL = """Rnd 1: 6 sc in magic ring.
Rnd 2: 4 sc in each st around, placing a marker in the 1st, 7th, 13th and 19th st. (24 sc)
Rnd 3: *3 sc in marked st, sc to next marked st; rep from * around. (32 sc)
Rnd 4: Sc in first st, *3 sc in marked st, sc to next marked st; rep from * around. (40 sc)
"""
UNPLACED = """Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
Row 2: Ch 1, sc in each st to marker, 2 sc in marked st, sc in each st to end, turn. (21 sc)
"""


@pytest.mark.parametrize(("text", "last"), [(SQUARE, 80), (POINT, 58), (BALL, 40)])
def test_marked_rows_are_worked_and_come_back(text: str, last: int) -> None:
    pattern = read(text)
    for again in (pattern, read(write(replace(pattern, source=""), terms="UK").text)):
        rows = work(again).parts[0].rows
        assert [(row.read, row.worked) for row in rows] == [("whole", "yes")] * len(rows)
        assert (
            not [row.label for row in rows if row.state == "differs"]
            and rows[-1].counted.by_kind[next(iter(rows[-1].counted.by_kind))] == last
        )


def test_where_no_marker_was_placed_nothing_is_claimed() -> None:
    rows = work(read(UNPLACED)).parts[0].rows
    assert rows[-1].worked == "assumed" and not rows[-1].troubles
