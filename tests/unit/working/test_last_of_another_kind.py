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
