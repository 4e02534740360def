"""Edgings on a chain of which nobody tells how long it is: a length on which the rows come out is supposed, and said."""

import pytest

from hookwright.reading import read
from hookwright.working import work

CHAINS = (
    "Ch for desired length.",
    "Make a chain the required length.",
    "Chain the desired length, turn.",
    "With thread ch the length wanted.",
    "Make a foundation chain of the length required.",
)
ROWS = """
Row 1: Sc in 2nd ch from hook and in each ch across.
Row 2: Ch 1, sc in first sc, *skip 2 sc, 5 dc in next sc, skip 2 sc, sc in next sc; rep from * across.
"""


@pytest.mark.parametrize("told", CHAINS)
def test_rows_come_out_on_the_chain_supposed(told: str) -> None:
    fabric = work(read(f"Shell edging. {told}{ROWS}"))
    rows = [row for row in fabric.parts[0].rows if not row.foundation]
    assert [(row.read, row.worked, row.offered, row.used) for row in rows] == [("whole", "yes", 20, 20), ("whole", "yes", 19, 19)]
    assert any("How many chains" in taken.question and taken.answer.startswith("20") for taken in fabric.taken.values())


def test_no_chain_is_supposed_where_the_rows_come_out_on_none() -> None:
    text = (
        "Edging. Ch for desired length.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
        "Row 2: Ch 1, sc in next 100 sc, * ch 3, skip 2 sc, sc in next sc; repeat from * across.\n"
    )
    assert not any("How many chains" in taken.question for taken in work(read(text)).taken.values())
