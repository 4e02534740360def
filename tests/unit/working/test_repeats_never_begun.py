"""A repeat for which the row below leaves too few places to be worked even once."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work


def _chain(places: int) -> str:
    return f"Ch {places + 1}.\nRow 1: Sc in 2nd ch from hook and in each ch across. ({places} sc)\n"


SHORT = [
    (_chain(3), "Row 2: Ch 1, turn, sc in next 3 sc, *2 sc in next sc, sc in next 4 sc; rep from * across."),
    (
        _chain(5),
        "Row 2: Ch 1, turn, sc in first 4 sc, *skip 2 sc, 5 dc in next sc, skip 2 sc, sc in next sc; rep from * to last st, sc in last st.",
    ),
    (_chain(4), "Row 2: 3 ch, turn, dc in next st, [ch 2, skip 2 sts, dc in next 2 sts] across to last 2 sts, dc in last 2 sts."),
    ("Rnd 1: 6 sc in magic ring. (6 sc)\n", "Rnd 2: *Sc in next 7 sc, 2 sc in next sc; rep from * around."),
]


@pytest.mark.parametrize(("below", "row"), SHORT)
def test_a_repeat_never_begun_is_no_row_that_fits(below: str, row: str) -> None:
    pattern = read(below + row)
    fabric = work(pattern)
    assert fabric.parts[0].rows[-1].worked == "unworkable"
    assert [finding.row for finding in proof(pattern, (fabric,))] == [row[:5]]


@pytest.mark.parametrize(
    "row",
    [
        "Row 2: Ch 1, turn, sc in next 3 sc, *2 sc in next sc, sc in next 4 sc; rep from * across. (3 sc)",  # the count says so too
        "Row 2: Ch 1, turn, sc in first sc, *ch 1, skip 1 sc, sc in next sc; rep from * across.",
    ],
)
def test_a_row_that_is_meant_so(row: str) -> None:
    pattern = read(_chain(3) + row)
    fabric = work(pattern)
    assert fabric.parts[0].rows[-1].worked == "yes"
    assert not proof(pattern, (fabric,))
