"""Rows that are turned: posts named as they look, and the loop that a row of spaces begins with. All lines are invented."""
# ruff: noqa: E501

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import RowWork, work


def rows(text: str) -> list[RowWork]:
    """The worked rows, each read whole, worked, and not other than stated."""
    found = [row for row in work(read(text)).parts[0].rows if not row.foundation]
    assert [(row.label, row.read, row.worked, row.state) for row in found if row.state == "differs" or row.worked != "yes"] == []
    assert not [told.message for row in found for told in row.troubles]
    return found


RIB = "Ch 14.\nRow 1: Dc in 4th ch from hook and in each ch across. (12)\nRow 2: Ch 2 (counts as a st), turn, *FPdc around next st, BPdc around next st; rep from * to last st, hdc in last st. (12)\n"


@pytest.mark.parametrize(
    "again",
    [
        "*FPdc around next FPdc, BPdc around next BPdc; rep from * to last st",
        "*FPdc around next BPdc, BPdc around next FPdc; rep from * to last st",
        "FPdc around each FPdc and BPdc around each BPdc across",
    ],
)
def test_posts_are_named_as_worked_or_as_they_look(again: str) -> None:
    last = rows(f"{RIB}Row 3: Ch 2, turn, {again}, hdc in top of ch-2. (12)\n")[-1]
    assert (last.counted.by_kind["FPdc"], last.counted.by_kind["BPdc"]) == (5, 5)


LINEN = "Ch 18\nRow 1: sc in 4th ch from hook, (ch 1, sk 1 ch, sc in next ch) 7 times, turn. {told}\nRow 2: ch 2, sc in next ch-1 sp, (ch 1, sk 1 sc, sc in next ch-1 sp) 6 times, ch 1, sk last sc, sc in turning-ch sp, turn. {told}\n"


@pytest.mark.parametrize("told", ["(8 sc, 8 ch-1 sps)", "(8 sc)", "(16 sts)", "(8 sc, 8 sps)"])
def test_the_loop_that_a_row_of_spaces_begins_with_is_one_of_them(told: str) -> None:
    assert [row.counted.by_kind["sc"] for row in rows(LINEN.format(told=told) + "Row 3: same as Row 2")] == [8, 8, 8]


@pytest.mark.parametrize("told", ["(8 sc, 9 ch-1 sps)", "(7 sc, 8 ch-1 sps)", "(14 sts)"])
def test_other_counts_of_such_a_row_are_not_met(told: str) -> None:
    found = [row for row in work(read(LINEN.format(told=told))).parts[0].rows if not row.foundation]
    assert any(row.state == "differs" for row in found)


def test_chains_told_to_count_as_a_space_stand_for_no_stitch() -> None:
    text = LINEN.format(told="(8 sc, 8 ch-1 sps)")
    text = text.replace("4th ch from hook,", "4th ch from hook (skipped ch count as ch-1 sp),").replace(
        "ch 2,", "ch 2 (counts as ch-1 sp),"
    )
    assert [row.counted.by_kind["sc"] for row in rows(text)] == [8, 8]
