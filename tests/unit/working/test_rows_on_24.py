"""Rows and rounds on 24 places, told in many ways: each is read whole, worked, and makes the count beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookwright.reading import read
from hookwright.working import work

BASES = {
    "R": ("Make a magic ring.\nRnd 1: 24 dc in magic ring, join with sl st to first dc. (24 dc)\n", "Rnd 2"),
    "S": (
        "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st. (12)\nRnd 3: [sc, inc] x 6 (18)\nRnd 4: [2 sc, inc] x 6 (24)\n",
        "Rnd 5",
    ),
    "F": ("Ch 25.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (24 sc)\n", "Row 2"),
    "M": (
        "Ch 4, join with sl st to form ring.\nRnd 1: Ch 4 (counts as dc, ch 1), [dc in ring, ch 1] 11 times, join with sl st to 3rd ch of "
        "ch-4. (12 dc, 12 ch-1 sps)\n",
        "Rnd 2",
    ),
}
LINES = [
    tuple(part.strip() for part in line.split("|", 2))
    for line in (Path(__file__).parents[2] / "cases" / "rows" / "on_24.txt").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]


@pytest.mark.parametrize(("base", "count", "words"), LINES, ids=[f"{base} {words[:50]}" for base, _, words in LINES])
def test_row_on_24(base: str, count: str, words: str) -> None:
    begun, label = BASES[base]
    pattern = read(f"# Sample\nUS terms.\n\n{begun}{label}: {words}\n")
    (part,) = work(pattern).parts
    row = part.rows[-1]
    number, _, kind = count.partition(" ")
    assert row.read == "whole"
    assert row.worked == "yes"
    assert (row.counted.by_kind[kind] if kind else row.counted.total) == int(number)
    assert [trouble.kind for trouble in row.troubles if trouble.kind != "part-of-repeat"] == []
