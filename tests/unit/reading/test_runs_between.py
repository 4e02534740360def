"""Rows told as another with longer runs between its corners or its increases. Every piece is invented."""

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

STAR_TILE = """TILE

Rnd 1: Ch 5, join, ch 3, 15 dc in ring, join. (16 dc)
Rnd 2: Ch 3, 2 dc in same place, * dc in each of next 3 dc, 3 dc in next dc; rep from * twice, dc in each of the last 3 dc, join. (24 dc)
Rnd 3: {}, join.
"""
LACE_TILE = """TILE

Rnd 1: Ch 4, join, ch 3, dc in ring, * ch 2, 2 dc in ring; rep from * 4 times, ch 2, join.
Rnd 2: Sl st in any ch-2 sp, ch 5, dc in same sp, * dc in each of next 2 dc, (dc, ch 2, dc) in next sp; rep from * around, ending with dc in
each of last 2 dc, join in 3rd ch of ch-5. (24 dc)
Rnd 3: {}, join.
"""
CUP = """CUP

Rnd 1: 5 sc in magic ring.
Rnd 2: 2 sc in each sc around.
Rnd 3: * Sc in next sc, 2 sc in next sc; rep from * around.
Rnd 4: Sc in each sc around.
Rnd 5: {}.
"""
AT_CORNERS = (
    "As Rnd 2 with {} dc between corner groups",
    "Same as Rnd 2, working 1 dc in each of the {} dc between corners",
    "Work as for Rnd 2, having {} dc in place of {} between groups",
    "Same as 2nd rnd, making {} dc between the 3-dc groups instead of {}",
    "In same manner, having {} dc between corners",
    "The same way with {} sts between groups",
    "Work as before, with {} dc from corner to corner",
    "Work another round in like fashion, having {} dc on each side between corners",
)


@pytest.mark.parametrize("words", AT_CORNERS)
@pytest.mark.parametrize(("piece", "run", "was", "total"), [(STAR_TILE, 5, 3, 32), (LACE_TILE, 4, 2, 36)])
def test_runs_between_corners(piece: str, run: int, was: int, total: int, words: str) -> None:
    last = worked_rows(piece.format(words.format(run, was)))[-1]
    assert (last.counted.by_kind["dc"], last.worked) == (total, "yes")


@pytest.mark.parametrize(
    "words",
    [
        "Same way with 2 sts. before each increase",
        "In the same way, 2 sc between each inc",
        "Increase in same manner with 2 sc between increases",
        "Repeat with 2 sts between increases instead of 1",
        "Same, only 2 sts between the increases",
    ],
)
def test_runs_between_increases_of_the_last_row_that_had_them(words: str) -> None:
    assert [row.counted.total for row in worked_rows(CUP.format(words))] == [5, 10, 15, 15, 20]


def test_a_run_broken_by_the_rounds_beginning_grows_on_either_side() -> None:
    piece = """CLOTH

Rnd 1: Ch 4, join, ch 1, 8 sc in ring, join.
Rnd 2: Ch 1, sc in same st, 3 sc in next st, * sc in next st, 3 sc in next st; rep from * twice, join.
Rnd 3: Ch 1, sc in same st, sc in next sc, 3 sc in next sc, * sc in next 3 sc, 3 sc in next sc; rep from * twice, sc in last sc, join.
Rnd 4: Same as Rnd 3, having 5 sc between corners, join.
"""
    assert [row.counted.total for row in worked_rows(piece)] == [8, 16, 24, 32]


def test_a_run_that_does_not_fit_is_not_made_to() -> None:
    piece = STAR_TILE.format("As Rnd 2 with 9 dc between corners")
    assert work(read(piece)).parts[0].rows[-1].worked == "unworkable"


def test_a_row_without_corners_has_no_run_between_them() -> None:
    piece = "CUP\n\nRnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each sc around.\nRnd 3: As Rnd 2 with 4 sc between corners.\n"
    assert work(read(piece)).parts[0].rows[-1].read != "whole"


@pytest.mark.parametrize(
    "count",
    [
        "(6 dc on each of the 4 sides when the corner dc are counted)",
        "(6 dc to a side)",
        "(each of the 4 sides has 6 dc)",
        "(6 dc on each side, if the corners are counted)",
    ],
)
def test_a_side_counted_is_no_work(count: str) -> None:
    piece = STAR_TILE.format("As Rnd 2 with 5 dc between corners").replace("(24 dc)", count)
    assert [row.counted.total for row in worked_rows(piece)] == [16, 24, 32]
