"""So many rows more, growing as told or in another colour. Every piece is invented."""

from __future__ import annotations

import pytest

from .told import worked_rows

DISC = """DISC

Rnd 1: 7 sc in ring.
Rnd 2: 2 sc in each st around.
Rnd 3: * Sc in next st, 2 sc in next st; rep from * around.
{}
"""
TIE = "TIE\n\nCh 9. Row 1: Sc in 2nd ch from hook and in each ch across. Ch 1, turn.\nRow 2: Sc in each sc. Ch 1, turn. {}\n"


@pytest.mark.parametrize(
    "words",
    [
        "Work 2 more rounds having 1 more sc between increases on each round, there will be 35 sc on last round.",
        "Work 2 rnds more, having 1 sc more between increases in each rnd.",
        "Work 2 more rounds in same manner, having 1 more sc between increases each round.",
        "Continue for 2 more rounds having 1 more sc between incs on each round (35 sc).",
        "Work 2 more rounds, each having 1 more sc between increases than the last.",
        "Rnds 4 and 5: Work 2 more rounds having 1 more sc between increases on each round.",
        "Work 2 more rnds, having 1 more st before each increase on each rnd, having 35 sc on last round.",
    ],
)
def test_rounds_that_grow(words: str) -> None:
    assert [row.counted.total for row in worked_rows(DISC.format(words))] == [7, 14, 21, 28, 35]


@pytest.mark.parametrize(
    "words", ["Work 4 rows more in White. Break off.", "Drop Rust, work four more rows with Sand.", "Work 4 more rows in White."]
)
def test_rows_in_another_colour(words: str) -> None:
    assert [row.counted.total for row in worked_rows(TIE.format(words))] == [8] * 6


@pytest.mark.parametrize("words", ["Make 2 more rounds.", "Do two more rounds.", "Work another 2 rounds.", "Now make 2 rounds more."])
def test_a_line_of_its_own_is_no_remark(words: str) -> None:
    assert [row.counted.total for row in worked_rows(DISC.format(f"\n{words}"))] == [7, 14, 21, 21, 21]
