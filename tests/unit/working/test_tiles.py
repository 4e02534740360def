"""Pieces worked from corner to corner: their blocks are counted, and held against what is stated."""

from __future__ import annotations

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

SQUARE = """
Row 1: Ch 6, dc in 4th ch from hook and in next 2 ch, turn. (1 block)
Row 2: Ch 6, dc in 4th ch from hook and in next 2 ch, (sl st, ch 3, 3 dc) in ch-3 sp of previous block, turn. (2 blocks)
Row 3: Ch 6, dc in 4th ch from hook and in next 2 ch, *(sl st, ch 3, 3 dc) in next ch-3 sp; rep from * across, turn. (3 blocks)
Row 4: Rep Row 3. ({blocks} blocks)
"""


@pytest.mark.parametrize(("blocks", "alarms"), [(4, []), (5, [("count-differs", "Row 4")])])
def test_blocks_are_counted(blocks: int, alarms: list[tuple[str, str]]) -> None:
    pattern = read(SQUARE.format(blocks=blocks))
    fabric = work(pattern)
    rows = [row for row in fabric.parts[0].rows if not row.foundation]
    assert [row.counted.by_kind.get("tile", 0) for row in rows[1:]] == [2, 3, 4]
    assert [row.counted.total for row in rows] == [3, 6, 9, 12]
    found = [(one.rule, one.row) for one in proof(pattern, (fabric,)) if one.severity in ("error", "warning")]
    assert found == alarms


def test_a_block_too_many_is_told_in_its_row_and_does_not_turn_the_reading_of_the_first_one() -> None:
    block = "(sl st in ch-3 sp of next block, ch 3, 3 dc in same sp)"
    start = "Turn, ch 6, dc in fourth ch from hook and in next 2 ch"
    rows = [f"Row {n}: {start}, {block} {n if n == 3 else n - 1} times. ({n} blocks)" for n in range(2, 6)]
    rows += [
        f"Row {n}: Turn, sl st in next 3 dc, {block} {10 - n} times, sl st in ch-3 sp of next block. ({10 - n} blocks)" for n in (6, 7)
    ]
    pattern = read("\n".join(["Ch 6.", "Row 1: Dc in fourth ch from hook and in next 2 ch. (1 block)", *rows]))
    found = [(one.severity, one.row) for one in proof(pattern, (work(pattern),)) if one.severity in ("error", "warning")]
    assert found == [("error", "Row 3")]


def test_increase_by_a_letter_is_no_v_stitch() -> None:
    pattern = read("X - single crochet\nV - increase\nMR - magic ring\n\nRnd 1: MR 6X (6)\nRnd 2: 6V (12)\nRnd 3: (X, V)*6 (18)\n")
    rows = work(pattern).parts[0].rows
    assert [row.counted.made for row in rows if not row.foundation] == [{"sc": 6}, {"sc": 12}, {"sc": 18}]
