"""What the fabric took is what is written."""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import work
from hookwright.writing import PLAIN, settled, with_counts, write


def words(source: str) -> list[str]:
    pattern = read(source)
    fabric = work(pattern)
    written = write(with_counts(settled(pattern, [fabric]), [fabric]), style=PLAIN)
    return [f"{row.words} — {row.count}" if row.count else row.words for part in written.parts for row in part.rows]


START = "Ch {}.\nRow 1: Sc in 2nd ch from hook, sc in each ch across, turn.\n"


@pytest.mark.parametrize(
    ("chains", "more", "all_told"),
    [
        (16, "* sc in next 2 sts, ch 1, skip next st; repeat from * 4 times.", 5),
        (13, "* sc in next 2 sts, ch 1, skip next st; repeat from * 4 times. (8 sc)", 4),
    ],
)
def test_a_repeat_that_may_mean_more_or_in_all_is_written_with_its_number(chains: int, more: str, all_told: int) -> None:
    said = words(START.format(chains) + f"Row 2: Ch 1, {more}")[-1]
    assert f"[sc in each of next 2 sts, ch 1, skip next st] {all_told} times" in said
    assert said.endswith(f"{2 * all_told} sc, {all_told} ch-1 sps")


def test_worked_counts_take_the_place_of_stated_ones() -> None:
    assert words(START.format(11) + "Row 2: Ch 1, 2 sc in first st, sc in each st across. (10 sc)")[-1].endswith("— 11 sc")


def test_stitches_of_several_kinds_are_counted_together() -> None:
    assert words(START.format(11) + "Row 2: Ch 1, sc in each of next 5 sts, hdc in each st across.")[-1].endswith("— 10 sts")
