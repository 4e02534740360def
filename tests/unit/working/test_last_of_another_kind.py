"""A run into spaces that stops before the last stitches, and one into stitches that stops before the last space."""

import pytest

from hookwright.reading import read
from hookwright.working import work
from hookwright.writing import write

MESH = (
    "Ch 31.\nRow 1: Dc in 4th ch from hook, dc in next ch, *ch 1, skip 1 ch, dc in next ch; "
    "rep from * to last 2 ch, dc in last 2 ch, turn.\n"
)
"""17 dc and 12 spaces, three dc before the first space and three behind the last."""
ENDED_BY_SPACE = "Ch 13.\nRow 1: Dc in 4th ch from hook, dc in each of next 6 ch, ch 2, skip 2 ch, dc in last ch, turn.\n"


@pytest.mark.parametrize(
    ("row", "total"),
    [
        ("Ch 3 (counts as dc), dc in next dc, 3 dc in each ch-1 sp to last 2 dc, dc in last 2 dc, turn.", 2 + 36 + 2),
        ("Ch 3 (counts as dc), 2 dc in each ch-1 sp to last st, dc in last st, turn.", 1 + 24 + 1),
        (
            "Ch 1, sc in first 3 dc, 2 sc in each ch-sp to last 3 sts, sc in last 3 sts, turn.",
            3 + 24 + 3,
        ),
        ("Ch 3 (counts as dc), (dc, ch 1, dc) in each ch-1 sp to last dc, dc in last dc, turn.", 1 + 24 + 1),
        ("Ch 3 (counts as dc), 2 dc in each ch-1 sp to last ch-1 sp, dc in last 3 dc, turn.", 1 + 22 + 3),
    ],
)
def test_spaces_as_far_as_the_last_stitches(row: str, total: int) -> None:
    (part,) = work(read(f"{MESH}Row 2: {row}\n")).parts
    assert part.rows[-1].counted.total == total


def test_stitches_as_far_as_the_last_space() -> None:
    text = f"{ENDED_BY_SPACE}Row 2: Ch 1, sc in first dc, 2 sc in sp, sc in each dc to end.\n"
    assert work(read(text)).parts[0].rows[-1].counted.total == 1 + 2 + 8
    again = "Row 2: With right side facing, join in first dc, sc in each dc to last ch-2 sp, 2 sc in last sp, sc in last dc.\n"
    text = f"{ENDED_BY_SPACE.replace(', turn', '')}Fasten off.\n{again}"
    assert work(read(text)).parts[0].rows[-1].counted.total == 8 + 2 + 1


def test_what_is_left_is_written_by_its_own_kind() -> None:
    text = f"{MESH}Row 2: Ch 3 (counts as dc), dc in next dc, 3 dc in each ch-1 sp to last 2 dc, dc in last 2 dc, turn.\n"
    again = write(read(text)).text
    assert "each ch-1 sp to last 2 dc" in again.replace("\u00a0", " ")
    (part,) = work(read(again)).parts
    assert part.rows[-1].counted.total == 40


V_STITCHES = (
    "Ch 25.\nRow 1: (Dc, ch 1, dc) in 5th ch from hook (V-st made), *skip 2 ch, V-st in next ch; rep from * to last 2 ch, skip 1 ch, "
    "dc in last ch, turn. (7 V-sts, 2 dc)\n"
)


@pytest.mark.parametrize(
    ("row", "total"),
    [
        ("Ch 3, V-st in each V-st to last st, dc in last st, turn.", 16),
        ("Ch 3, 3 dc in center of each V-st to last dc, dc in last dc.", 23),
        ("Ch 3, *3 dc in next V-st, ch 1; rep from * to last V-st, 3 dc in last V-st, dc in last dc.", 23),
    ],
)
def test_groups_as_far_as_the_last_stitch_or_group(row: str, total: int) -> None:
    assert work(read(f"{V_STITCHES}Row 2: {row}\n")).parts[0].rows[-1].counted.total == total


def test_places_told_in_the_plural_are_all_of_them() -> None:
    square = "Ch 4, join.\nRnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, join with sl st to top of ch-3. (12 dc)\n"
    for row in ("sc around, 3 sc in corners", "sc in each dc, 3 sc in the ch-2 sps"):
        assert work(read(f"{square}Rnd 2: Ch 1, {row}, join.\n")).parts[0].rows[-1].counted.total == 24
    assert (
        work(read(f"{square}Rnd 2: Join in any of the ch-2 sps, 3 sc in same sp, sc in next 3 dc.\n")).parts[0].rows[-1].counted.total == 6
    )
