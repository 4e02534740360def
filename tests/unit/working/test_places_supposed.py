"""A row that could not be read and tells no count is taken to have as many stitches as make the row on it come out."""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import work

UNREAD = (
    "US terms\n\nCh 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)\n"
    "Row 2: Ch 1, turn, 2 sc under every 4th of the sts twisted.\n"
)


@pytest.mark.parametrize(
    ("row", "below", "made"),
    [
        ("Ch 1, turn, [sc in next 6 sts, 2 sc in next st] 6 times. (48 sc)", 42, 48),
        ("Ch 1, turn, [sc in next 3 sts, sc2tog] 5 times.", 25, 20),
        ("Ch 1, turn, sc in each st across. (36 sc)", 36, 36),
        ("Ch 1, turn, *sc in next st, 2 sc in next st; rep from * across. (54 sc)", 36, 54),
    ],
)
def test_the_row_on_it_comes_out(row: str, below: int, made: int) -> None:
    rows = work(read(f"{UNREAD}Row 3: {row}\n")).parts[0].rows
    assert (rows[-2].read, rows[-2].worked, len(list(rows[-2].stitches.counted()))) == ("partly", "assumed", below)
    assert (rows[-1].worked, rows[-1].counted.total) == ("yes", made)
    assert max(rows[-1].stitches.foot_at) < len(rows[-2].stitches)


@pytest.mark.parametrize("row", ["Ch 1, turn, *sc in next st, 2 sc in next st; rep from * across. (55 sc)"])
def test_where_no_number_makes_it_come_out_it_stays_on_trust(row: str) -> None:
    assert work(read(f"{UNREAD}Row 3: {row}\n")).parts[0].rows[-1].worked != "yes"


def test_a_count_that_the_unread_row_tells_is_kept() -> None:
    rows = work(read(f"{UNREAD[:-1]} (40 sc)\nRow 3: Ch 1, turn, [sc in next 6 sts, 2 sc in next st] 6 times. (48 sc)\n")).parts[0].rows
    assert len(list(rows[-2].stitches.counted())) == 40
