"""Pages told in one breath: stitches explained between two rows, units that stop at an inner sign, post stitches told kind by kind."""

import pytest
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows


@pytest.mark.parametrize(
    "told",
    [
        "Popcorn: 5 dc in one st, take hook out, put it into the first dc and pull the loop through.",
        "To make a puff st: (yo, insert hook in st, pull up a loop) 3 times, yo, draw through all loops.",
        "V-st = (dc, ch 1, dc) in same st.",
        "Bobble (bo): keeping back the last loop of each, 4 dc in same st, yo and through all 5 loops.",
        "For each shell - 5 dc in one st.",
        "A picot: ch 3, sl st in 3rd ch from hook.",
    ],
)
def test_a_stitch_explained_between_the_chain_and_row_1_works_nothing(told: str) -> None:
    rows = worked_rows(f"Coaster\n\nH hook, ch 15. {told} Row 1: Sc in 2nd ch from hook and in each ch. Ch 1, turn. Row 2: Sc in each sc.")
    assert [row.counted.total for row in rows] == [14, 14]


def test_a_stitch_explained_between_two_rows_is_the_one_worked_after_it() -> None:
    rows = worked_rows(
        "Ch 10. Row 1: Hdc in 3rd ch from hook and in each ch across. Turn. Cluster: 3 dc tog in same st. "
        "Row 2: Ch 1, sc in 3 sts, cluster in next st, sc in last 5 sts."
    )
    assert rows[-1].counted.by_kind == {"sc": 8, "cl": 1}


CUT = (
    "Ch 17.\nRow 1: Sc in 2nd ch from hook and in each ch across. (16)\n"
    "Row 2: Ch 1, turn, sc in first st, *ch 3, skip 3 sts, ** hdc in next st, sc in next st; rep from * {}, sc in last st.\n"
)


@pytest.mark.parametrize(
    "told",
    [
        "across, leaving off at **",
        "to last st, which brings you to **",
        "across, last time end at **",
        "until you get to the last st (you will end at **)",
        "twice more, stop at ** on last repeat",
        "once more, then from * to ** once",
        "once more, then rep from * to ** once more",
    ],
)
def test_a_last_unit_stops_at_the_sign_inside_it(told: str) -> None:
    row = worked_rows(CUT.format(told))[-1]
    assert row.counted.by_kind["ch-3 sp"] == 3
    assert (row.counted.by_kind["hdc"], row.counted.by_kind["sc"], row.worked) == (2, 4, "yes")


@pytest.mark.parametrize("told", ["rep from * to * once more", "rep between *s once more", "from * to * 1 more time", "rep *-* once more"])
def test_a_unit_told_again_after_other_stitches_comes_once_more_and_not_twice(told: str) -> None:
    rows = worked_rows(
        "Ch 8.\nRow 1: Sc in 2nd ch from hook and in each ch across. (7)\n"
        f"Row 2: Ch 1, turn, *sc in next st, hdc in next 2 sts*, dc in next st, {told}."
    )
    assert rows[-1].counted.by_kind == {"sc": 2, "hdc": 4, "dc": 1}
    assert not rows[-1].troubles


def test_post_stitches_told_kind_by_kind() -> None:
    rows = worked_rows(
        "Ch 12.\nRow 1: Dc in 4th ch from hook and in each ch across. (10 dc)\n"
        "Row 2: Ch 1, turn, *FPdc around the post of next dc, BPdc around next dc; rep from * across.\n"
        "Row 3: Ch 1, turn, FPdc around each FPdc and BPdc around each BPdc across.\n"
    )
    assert [row.counted.by_kind for row in rows[1:]] == [{"FPdc": 5, "BPdc": 5}] * 2


def test_no_alarm_on_what_stands_on_a_row_that_was_not_read() -> None:
    pattern = read(
        "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in 3 sts, twiddle the loop as shown.\n"
        "Row 3: Ch 1, turn, sc in each st across.\nRow 4: Ch 1, turn, sc in 4 sts, hdc in 4 sts, sc in 4 sts.\n"
    )
    assert [one.severity for one in proof(pattern, (work(pattern),)) if one.rule != "unread"] == []
