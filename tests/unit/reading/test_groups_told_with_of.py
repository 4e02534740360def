"""Groups told where they stand with what they are made of, their list going on behind a comma."""

import pytest

from .told import worked_rows

BAND = "Ch 16.\nRow 1: Sc in 2nd ch from hook and in each ch across. (15 sc)\nRow 2: Ch 1, turn, sc in first sc, *skip 3 sc, "


@pytest.mark.parametrize(
    ("group", "tall", "chains"),
    [
        ("shell of 3 dc, ch 2 and 3 dc in next sc", 12, 4),
        ("work a shell of 2 dc, ch 1, 2 dc in next st", 8, 2),
        ("V-st of dc, ch 1 and dc in next sc", 4, 2),
        ("fan made of 2 dc, ch 1, 2 dc, ch 1, 2 dc in next sc", 12, 4),
        ("fan of 4 dc with ch 1 between in next sc", 8, 6),
        ("shell of (3 dc, ch 3, 3 dc) in next sc", 12, 6),
        ("shell of 5 dc in next sc", 10, 0),
    ],
)
def test_the_whole_list_goes_into_one_place(group: str, tall: int, chains: int) -> None:
    last = worked_rows(f"{BAND}{group}, skip 2 sc, sc in next sc; rep from * across. ({tall} dc, 3 sc)\n")[-1]
    assert (last.worked, last.state, last.counted.by_kind["dc"], last.counted.by_kind.get("ch", 0)) == ("yes", "agrees", tall, chains)


def test_what_goes_elsewhere_is_no_part_of_it() -> None:
    last = worked_rows(f"{BAND}shell of 3 dc in next sc, ch 2, dc in next sc, skip 1 sc, sc in next sc; rep from * across.\n")[-1]
    assert [length for length, _ in last.stitches.groups.values()] == [3, 3]
