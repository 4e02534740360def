"""Labels of several rounds with the stitch right behind them, and rules told before the first stitch."""

import pytest

from hookwright.reading import read
from hookwright.working import work


def _totals(text: str) -> list[int]:
    rows = [row for part in work(read(text)).parts for row in part.rows if not row.foundation]
    assert all(row.read == "whole" and row.worked == "yes" for row in rows)
    return [row.counted.total for row in rows]


@pytest.mark.parametrize(
    "label",
    [
        "Rounds 3-5 sc in every sc = 14 sc",
        "Rnds 3-5 sc around (14)",
        "Rounds 3 - 5 sc in BACK LOOP of every sc = 14 sc",
        "ROUNDS 3-5 sc in each sc (14)",
        "Rnds 3-5 sc evenly around (14)",
    ],
)
def test_the_last_number_is_a_round(label: str) -> None:
    assert _totals(f"Round 1: adjustable ring with 7 sc.\nRound 2: 2 sc in every sc = 14 sc\n{label}\n") == [7, 14, 14, 14, 14]


def test_behind_one_round_it_is_a_number_of_stitches() -> None:
    assert _totals("Rnd 1 - 6 sc in ring\nRnd 2 - inc x 6 (12)\nRnd 3 - 12 sc around\n") == [6, 12, 12]


@pytest.mark.parametrize(
    "rule",
    [
        "Always sk the sc behind a FPdc.",
        "Always end with a dc.",
        "Never work into the turning ch.",
        "Remember to skip the st behind each post st.",
        "Always work in back loops.",
    ],
)
def test_a_rule_before_the_first_stitch_is_no_work(rule: str) -> None:
    text = f"D hook, chain 12. {rule} Row 1: Sc in 2nd ch from hook and in each rem ch. Ch 1, turn. Row 2: Sc in each sc. (11 sc)"
    rows = [row for part in work(read(text)).parts for row in part.rows]
    assert [row.counted.total for row in rows] == [0, 11, 11]
