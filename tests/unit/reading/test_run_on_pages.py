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


RING = "Ch 4, join.\nRnd 1: Ch 3 (counts as dc), 9 dc in ring, join. (10 dc)\nRnd 2: "


@pytest.mark.parametrize(
    "told",
    [
        "(Ch 3, dc) in same gap, 2 dc in each gap round, join.",
        "(Ch 3, 1 dc) in first gap, 2 dc in every gap to end, sl st to top of ch 3.",
        "Ch 3 (counts as dc), dc in same gap, 2 dc in next gap and in each gap around. Sl st as before.",
        "Ch 3, 1 dc in same gap, [2 dc in next gap] 9 times, join as in the last round.",
        "Join new colour in any space between sts. (Ch 3, dc) in same space, 2 dc in each space between sts around, join.",
    ],
)
def test_the_gap_a_round_begins_in_is_not_worked_twice(told: str) -> None:
    row = worked_rows(RING + told)[-1]
    assert (row.counted.total, row.used, row.worked) == (20, 10, "yes")
    assert not row.troubles


def test_corners_and_sides_told_apart_with_a_hyphen() -> None:
    rows = worked_rows(
        "Ch 4, join.\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, *ch 2, 3 dc in ring; rep from * twice more, ch 2, join.\n"
        "Rnd 2: Sl st to corner-sp, (ch 3, 2 dc, ch 2, 3 dc) in same corner-sp, *ch 1, (3 dc, ch 2, 3 dc) in next corner-sp; "
        "rep from * twice more, ch 1, join as before. (24 dc, 4 corner-sps)\n"
        "Rnd 3: Sl st to corner-space, (ch 3, 2 dc, ch 2, 3 dc) in same corner-space, *ch 1, (3 dc, ch 1) in each side sp, "
        "(3 dc, ch 2, 3 dc) in corner space; rep from * twice more, last side the same without the corner, join.\n"
        "Rnd 4: As Rnd 3.\n"
    )
    assert [(row.counted.total, row.counted.by_kind["ch-2 sp"]) for row in rows] == [(12, 4), (24, 4), (36, 4), (48, 4)]
    assert not [one for row in rows for one in row.troubles]


@pytest.mark.parametrize("told", ["the same with 3 sc between", "same as Rnd 4 with 3 sc between", "as before, with 3 sc between"])
def test_the_same_with_so_many_between(told: str) -> None:
    rows = worked_rows(
        "Ch 4, join.\nRnd 1: 7 sc in ring.\nRnd 2: 2 sc in each sc.\nRnd 3: *Sc in next sc, 2 sc in next sc; rep from * around.\n"
        f"Rnd 4: *Sc in next 2 sc, 2 sc in next sc; rep from * around.\nRnd 5: {told} = 35 sc."
    )
    assert [row.counted.total for row in rows] == [7, 14, 21, 28, 35]


@pytest.mark.parametrize(
    ("lines", "totals"),
    [
        ("Toddler: Rnd 3: Sc in each sc.\nAdult: Rnd 3: *Sc in next sc, 2 sc in next sc; rep from * around.", [14, 21]),
        ("SMALL: RND 3: Sc in each sc.\nLARGE: RND 3: *Sc in next sc, 2 sc in next sc; rep from * around.", [14, 21]),
        ("Women's size: Rnd 3: Sc in each sc.\nMen's size: Rnd 3: *Sc in next sc, 2 sc in next sc; rep from * around.", [14, 21]),
        ("The baby size stops growing here.\nSize 3-8 years: Rnd 3: *Sc in next sc, 2 sc in next sc; rep from * around.", [14, 21]),
    ],
)
def test_a_row_told_for_the_size_called_before_it(lines: str, totals: list[int]) -> None:
    pattern = read(f"Cap\n\nCh 4, join.\nRnd 1: 7 sc in ring.\nRnd 2: 2 sc in each sc. (14)\n{lines}\nALL SIZES: Rnd 4: Sc in each sc.")
    fabrics = tuple(work(pattern, size=size) for size in range(pattern.sizes))
    assert [part.name for part in pattern.parts] == ["Cap"]
    assert [fabric.parts[0].rows[-1].counted.total for fabric in fabrics] == totals
    assert [one.message for one in proof(pattern, fabrics)] == []


@pytest.mark.parametrize(
    "told",
    [
        "Sk the first and last sc of each row (2 sc dec each row) - 6 sc.",
        "Sc across, skipping first and last st. (6 sc)",
        "Sc in each sc, missing first st and last st of every row. (6 sc)",
        "Miss the first and the last sc each row. (6 sc)",
    ],
)
def test_first_and_last_of_every_row_skipped(told: str) -> None:
    rows = worked_rows(f"Ch 15.\nRow 1: Sc in 2nd ch from hook and in each ch. Ch 1, turn. (14 sc)\nNext 4 rows: {told}")
    assert [row.counted.total for row in rows] == [14, 12, 10, 8, 6]


FANS = (
    "Ch 26.\nRow 1: Sc in 2nd ch from hook, *skip 3 ch, {} in next ch, skip 3 ch, sc in next ch; rep from * across, turn.\n"
    "Row 2: Ch 6 (counts as dc and ch 3), *{}"
)


@pytest.mark.parametrize(
    ("group", "told", "kinds"),
    [
        ("5 dc", "hdc in first dc of next shell, ch 3, hdc in last dc of that shell", 6),
        ("5 dc", "hdc in first dc of next shell, ch 3, hdc in last dc of same shell", 6),
        ("(dc, ch 1, dc, ch 1, dc, ch 1, dc)", "hdc in first ch-1 sp of next fan, ch 3, hdc in last ch-1 sp of the fan", 6),
        ("(dc, ch 1, dc, ch 1, dc)", "hdc in next ch-1 sp, ch 3, hdc in last ch-1 sp of same fan", 6),
    ],
)
def test_the_last_of_a_group_in_a_repeat_is_that_of_the_group_at_hand(group: str, told: str, kinds: int) -> None:
    row = worked_rows(FANS.format(group, f"{told}, ch 3, dc in next sc (the one between 2 ch-3 loops), ch 3; rep from * to end, turn."))[-1]
    assert (row.counted.by_kind["hdc"], row.counted.by_kind["dc"], row.worked) == (kinds, 4, "yes")
    assert not row.troubles
