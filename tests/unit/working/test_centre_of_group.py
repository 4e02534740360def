"""The middle of a group whose other stitches are worked one by one. Every piece is invented."""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import work

POINT = """PENNANT

Ch 16. Row 1: Sc in 2nd ch from hook and in next 6 ch, 3 sc in next ch, sc in each remaining ch. Ch 1, turn. (17 sc)
Row 2: {}. Ch 1, turn.
"""
COASTER = """COASTER

Rnd 1: Ch 4, join, ch 1, 8 sc in ring, join.
Rnd 2: Ch 1, * sc in next sc, 3 sc in next sc; rep from * around, join.
Rnd 3: Ch 1, {}, join.
"""


def worked(text: str) -> list[tuple[int, str]]:
    return [(row.counted.total, row.worked) for row in work(read(text)).parts[0].rows if not row.foundation]


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("Sc in next 8 sc, 3 sc in center sc of 3-sc group, sc in next 8 sc", 19),
        ("Skip first sc, sc in next 7 sc, 3 sc in center of 3-sc group, sc in next 6 sc, skip next sc, sc in last sc", 17),
        ("Sc in each of next 8 sc, 3 sc in the center sc of 3-sc group, sc in each sc to end", 19),
        ("Sc in each sc to group, sc in next sc, 2 sc in center sc of group, sc in each sc to end", 18),
        ("Sc in next 7 sc, 3 sc in center sc of 3-sc group, sc in next 7 sc", 17),
    ],
)
def test_in_a_row(words: str, total: int) -> None:
    assert worked(POINT.format(words)) == [(17, "yes"), (total, "yes")]


@pytest.mark.parametrize(
    "words",
    [
        "* sc in next 2 sc, 3 sc in center sc of 3-sc group, sc in next sc; rep from * around",
        "sc in next 2 sc, 3 sc in center of group, * sc in next 3 sc, 3 sc in center sc of group; rep from * 2 times, sc in last sc",
    ],
)
def test_in_a_round(words: str) -> None:
    assert worked(COASTER.format(words)) == [(8, "yes"), (16, "yes"), (24, "yes")]
