"""Borders worked to and fro, as old books and leaflets tell them: a chain told beside its turning one, units that end short."""

from __future__ import annotations

import pytest

from hookwright.pattern import Pattern
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import Fabric, work


def _worked(text: str) -> tuple[Pattern, Fabric, list[int]]:
    pattern = read(text)
    fabric = work(pattern)
    return pattern, fabric, [row.counted.total for row in fabric.parts[0].rows if row.label != "Foundation"]


SHELF = """SHELF EDGING.

Make a chain of 60 stitches{over}.

1st row.—Plain, one in each chain{but}.

2d row.—Turn with 4 chain, not counted. 3 chain, miss 3, 1 long: repeat.

3d row.—1 plain on the long, 3 plain in the 3 chain: repeat.
"""


@pytest.mark.parametrize(
    ("over", "but"), [("", ""), (" and 1 to turn", " but the turning one"), (", and 1 for turning", " but the turning one")]
)
def test_turning_chain_is_told_beside_the_others(over: str, but: str) -> None:
    pattern, fabric, totals = _worked(SHELF.format(over=over, but=but))
    assert totals == [60, 15, 60]
    assert all(row.read == "whole" for row in fabric.parts[0].rows)
    assert not [found for found in proof(pattern, (fabric,)) if found.severity in ("error", "warning")]


def test_last_unit_ends_without_its_chain() -> None:
    text = SHELF.format(over="", but="") + "\n4th row.—4 chain, miss 2, 1 plain: repeat.\n\n"
    _, fabric, _ = _worked(text + "5th row.—Turn. 4 plain in the 4 chain, 2 chain: repeat, and finish the row without the last 2 chain.\n")
    last = fabric.parts[0].rows[-1]
    assert (last.counted.by_kind["sc"], last.counted.by_kind["ch"]) == (80, 38)


WINDOWS = """Window strip

Ch 12, dc in 4th ch from hook and in each ch to end. (10 dc)

Row 2: Ch 3, turn, dc in next 8 dc, dc in top of turning ch.

Row 3: Ch 6, turn, skip {skipped} dc, dc in next 2 dc, ch 3, skip 3 dc, dc in top of turning ch.
"""


@pytest.mark.parametrize(("skipped", "fits"), [(4, True), (3, True), (5, False)])
def test_stitch_under_the_chain_may_be_one_of_those_skipped(skipped: int, fits: bool) -> None:
    pattern, fabric, totals = _worked(WINDOWS.format(skipped=skipped))
    assert ([found.rule for found in proof(pattern, (fabric,))] == []) is fits
    assert not fits or totals == [10, 10, 4]  # the chain stands for a stitch


def test_last_stitches_are_left_on_purpose() -> None:
    pattern, fabric, totals = _worked(
        "Wedge\n\nCh 21.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n\n"
        "Row 2: Ch 1, turn, sc in each sc but the last.\n\n"
        "Row 3: Ch 1, turn, sc in each sc except the last 2.\n"
    )
    assert totals == [20, 19, 17]
    assert not proof(pattern, (fabric,))


def test_run_that_merely_stops_is_still_noticed() -> None:
    pattern, fabric, _ = _worked("Wedge\n\nCh 21.\n\nRow 1: Sc in each ch to last ch.\n\nRow 2: Ch 1, turn, sc in each sc. (20 sc)\n")
    assert [found.rule for found in proof(pattern, (fabric,)) if found.severity in ("error", "warning")]
