"""How the last repeat ends, in many ways of telling it; runs of several kinds up to a corner; groups told stitch and space at once."""

from __future__ import annotations

import pytest

from hookwright.pattern import Pattern
from hookwright.reading import read
from hookwright.working import RowWork, work

RING = "US terms.\n\nCh 5, join with sl st to form ring.\n"
ON_24 = f"{RING}Rnd 1: Ch 1, 24 sc in ring, join with sl st to first sc.\nRnd 2: "
ON_27 = f"{RING}Rnd 1: Ch 1, 27 sc in ring, join with sl st to first sc.\nRnd 2: "
FOURS = "Ch 3, dc in next 3 sc, * ch 2, skip 2 sc, dc in next 4 sc. Repeat from * around"
NET = "Ch 5, skip 2 sc, * dc in next sc, (ch 2, skip 2 sc, dc in next sc) twice, ch 4, skip 2 sc. Repeat from * around"
SQUARE = f"{RING}Rnd 1: Ch 3, 2 dc in ring, (ch 3, 3 dc in ring) 3 times, ch 3, join with sl st to top of ch-3.\nRnd 2: "
MESH = (
    f"{RING}Rnd 1: Ch 5, dc in ring, ch 2, dc in ring, (ch 5, dc in ring, ch 2, dc in ring, ch 2, dc in ring) 3 times, ch 5, join with "
    "sl st to 3rd ch of ch-5.\nRnd 2: "
)
VEES = (
    "US terms.\n\nCh 21.\nRow 1: (dc, ch 1, dc) in 6th ch from hook (V-st), * skip 2 ch, V-st in next ch; rep from * across to last 3 ch, "
    "skip 2 ch, dc in last ch, turn.\nRow 2: Ch 1, sc in first dc, "
)
SHELLS = (
    "US terms.\n\nCh 22.\nRow 1: (2 dc, ch 2, 2 dc) in 7th ch from hook (shell), * skip 4 ch, shell in next ch; rep from * 2 times, "
    "skip 4 ch, dc in last ch, turn.\nRow 2: Ch 1, sc in first dc, "
)
END = "; rep from * across, sc in top of turning ch, turn."


def last_row(text: str) -> tuple[Pattern, RowWork]:
    pattern = read(text + "\n")
    return pattern, work(pattern).parts[-1].rows[-1]


@pytest.mark.parametrize(
    "told",
    [
        ", again omitting the last 4 dc",
        ", leaving off the last 4 dc",
        ", as before omitting the 4 dc at end",
        ", the last time without the 4 dc",
        " but on the last repeat leave off the 4 dc",
        ", but do not work the last 4 dc",
        ", dropping the last 4 dc",
        ". Omit last 4 dc",
        ", the last 4 dc being left off",
        ", leaving out the dc at the end of last repeat",
        ", having last repeat end with ch 2",
        ", the last repeat ending after ch 2",
        " to beginning ch-3",
        " to within starting ch-3",
        " until the starting ch-3 is reached",
        ", working to the ch-3 at beginning",
    ],
)
def test_last_unit_ends_before_its_last_stitches(told: str) -> None:
    _, row = last_row(f"{ON_24}{FOURS}{told}; join in top of ch-3.")
    assert (row.read, row.worked, row.counted.total, row.used) == ("whole", "yes", 16, 24)


@pytest.mark.parametrize(
    "told",
    [
        ", working the last parentheses of last repeat only once, then ch 4; join in 3rd st of ch-5.",
        ", working the parentheses only once on the last repeat, then ch 4 and join in 3rd st of ch-5.",
        ", making the last bracket once instead of twice, ch 4; join in 3rd st of ch-5.",
    ],
)
def test_last_brackets_fewer_times(told: str) -> None:
    _, row = last_row(f"{ON_27}{NET}{told}")
    assert (row.read, row.worked, row.counted.total) == ("whole", "yes", 9)


@pytest.mark.parametrize(
    "told",
    [
        ", again omitting the last 4 tr",  # the unit ends in dc
        ", working the last parentheses of last repeat only 3 times",  # it has none
    ],
)
def test_what_the_unit_does_not_hold_stays_unread(told: str) -> None:
    _, row = last_row(f"{ON_24}{FOURS}{told}; join in top of ch-3.")
    assert row.read == "partly"


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("Ch 3, dc in each st (dc or popcorn) to next corner sp, * in corner sp make 2 dc, ch 3 and 2 dc, dc in each st to next corner sp. "
         "Repeat from * around, working to the ch-3 at beginning; join.", 28),
        ("Ch 3, dc in each st (including bobbles) to corner sp, * 2 dc, ch 3 and 2 dc in corner sp, dc in each st to next corner. Repeat "
         "from * around, going back to beginning; join.", 28),
        ("Ch 3, dc in next 2 sts (working 1 dc in each popcorn), * 2 dc, ch 3 and 2 dc in corner sp, dc in next 3 sts. Repeat from * "
         "around, omitting last 3 dc; join.", 28),
        ("Ch 1, sc in same place, sc in each st (dc or bobble) around, working 3 sc in each ch-3 sp; join.", 24),
        ("Ch 1, sc in each stitch (dc, popcorn or ch) to next corner sp, * 3 sc in corner sp, sc in each st to next corner. Repeat from * "
         "around back to first sc; join.", 24),
    ],
)  # fmt: skip
def test_which_kinds_a_run_meets_is_told_in_brackets(words: str, total: int) -> None:
    _, row = last_row(SQUARE + words)
    assert (row.read, row.worked, row.counted.total) == ("whole", "yes", total)


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("Ch 3, 2 dc in each ch-2 sp and 1 dc in each dc to corner, * in corner sp make 2 dc, ch 3 and 2 dc, 2 dc in each ch-2 sp and 1 dc "
         "in each dc to next corner. Repeat from * around to beginning; join.", 44),
        ("Ch 3, * 2 dc in next sp, dc in next dc, and continue in this way, making 2 dc in each ch-2 sp and 1 dc in each dc to corner; in "
         "corner sp make 2 dc, ch 3 and 2 dc, dc in next dc. Repeat from * around to within starting ch-3; join.", 44),
        ("Ch 1, sc in same place, * 2 sc in next sp, sc in next dc, continue in this manner, putting 2 sc in each sp and sc in each dc to "
         "corner, 3 sc in corner sp, sc in next dc. Repeat from * around, ending at first sc; join.", 40),
    ],
)  # fmt: skip
def test_runs_of_several_kinds_go_as_far_as_the_last_is_told(words: str, total: int) -> None:
    _, row = last_row(MESH + words)
    assert (row.read, row.worked, row.counted.total) == ("whole", "yes", total)


@pytest.mark.parametrize(
    ("base", "unit", "total"),
    [
        (VEES, "* sc in each dc and in ch-1 sp of next V-st", 17),
        (VEES, "* 1 sc in each dc and 1 sc in ch-1 sp of next V-st", 17),
        (VEES, "* sc in each st and in the sp of next V-st", 17),
        (SHELLS, "* sc in each dc and 2 sc in ch-2 sp of next shell", 20),
        (SHELLS, "* sc in each dc and in ch-2 sp of next shell, ch 1", 17),
        (SHELLS, "* sc in each st of next shell", 14),
    ],
)
def test_stitches_and_space_of_the_next_group(base: str, unit: str, total: int) -> None:
    _, row = last_row(f"{base}{unit}{END}")
    assert (row.read, row.worked, row.counted.total) == ("whole", "yes", total)


def test_repeat_that_is_never_worked_is_no_row_that_works_out() -> None:
    """No group lies below: nobody would see that only the row's two ends were worked."""
    plain = "US terms.\n\nCh 21.\nRow 1: Sc in 2nd ch from hook, sc in each ch across, turn.\nRow 2: Ch 1, sc in first sc, "
    _, row = last_row(f"{plain}* sc in next ch-2 sp, ch 2{END}")
    assert row.worked == "unworkable"
    _, row = last_row(f"{plain}* sc in next sc, ch 2, skip 1 sc; rep from * across to last sc, sc in last sc, turn.")
    assert row.worked == "yes"
