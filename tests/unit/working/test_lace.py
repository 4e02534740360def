"""Lace: places told by a group's or a figure's name, loops that a stitch closes, rounds that end in mid-unit. Every line is invented."""

import pytest

from hookwright.reading import read
from hookwright.working import Fabric, RowWork, work


def rows_of(text: str) -> list[RowWork]:
    return [row for part in fabric_of(text).parts for row in part.rows if not row.foundation]


def fabric_of(text: str) -> Fabric:
    fabric = work(read(text))
    bad = [(r.label, r.read, r.worked, [t.message for t in r.troubles]) for p in fabric.parts for r in p.rows if r.worked != "yes"]
    assert not bad, bad
    return fabric


PINEAPPLE = (
    "Row 1: Ch 23, 2 dc in 4th ch from hook, ch 2, 3 dc in next ch, ch 3, skip 7 ch, 3 dc in next ch, ch 2, 3 dc in next ch (shell), ch 3, "
    "skip 7 ch, 3 dc in next ch, ch 2, 3 dc in next ch, ch 4, turn.\n"
    "Row 2: Shell in shell, ch 3, 7 tr in next shell, ch 3, shell in shell, ch 4, turn.\n"
    "Row 3: Shell in shell, ch 3, sc between first 2 tr, * ch 4, sc between next 2 tr, rep from * another 4 times, ch 3, shell in "
    "shell, ch 4, turn.\n"
)


def test_a_shell_over_two_stitches_is_a_shell() -> None:
    first, second, third = rows_of(PINEAPPLE)
    assert second.counted.by_kind["tr"] == 7
    assert second.counted.by_kind["shell"] == third.counted.by_kind["shell"] == 2
    assert third.counted.by_kind["ch-4 sp"] == 5
    assert first.counted.by_kind["dc"] == 18


@pytest.mark.parametrize(
    "row",
    [
        "Shell on shell, ch 2, sc in the first loop of pineapple, * ch 4, sc in the next loop, rep from * 3 times, ch 2, shell on shell.",
        "Shell in shell, ch 3, s c in 1st ch-4 loop of the pineapple, (ch 4, s c in next ch-4 loop) 4 times, ch 3, shell in next shell.",
        "Shell over shell, ch 3, sc in 1st sp of same pineapple, * ch 4, sc in next sp, rep from * 3 times, ch 3, shell over shell.",
        "Shell in next shell, ch 3, sc in first arch of pineapple, * ch 4, sc in next arch, rep from * 3 more times, ch 3, shell in last shell.",  # noqa: E501
        "(Shell in next shell, ch 3), sc in first loop on next pineapple, (ch 4, sc in next loop) 4 times, ch 3, shell in next shell.",
    ],
)
def test_the_first_loop_of_a_pineapple_is_its_own(row: str) -> None:
    last = rows_of(PINEAPPLE + f"Row 4: {row}\n")[-1]
    assert (last.counted.by_kind["sc"], last.counted.by_kind["ch-4 sp"]) == (5, 4)


def test_the_loop_that_is_left_is_one() -> None:
    pattern = PINEAPPLE + "".join(
        f"Row {4 + k}: Shell in shell, ch 3, sc in 1st loop of pineapple, {told}ch 3, shell in shell, ch 4, turn.\n"
        for k, told in enumerate(("* ch 4, sc in the next loop, rep from * 3 times, ", "(ch 4, sc in next loop) 3 times, ",
                                  "(ch 4, sc in next loop) twice, ",
                                  "ch 4, sc in next loop, "))
    )  # fmt: skip
    last = rows_of(pattern + "Row 8: Shell in shell, ch 3, sc in the one remaining loop of pineapple, ch 3, shell in shell, turn.\n")[-1]
    assert (last.counted.by_kind["sc"], last.counted.by_kind["shell"]) == (1, 2)


def test_work_even_in_pattern_is_the_lace_row_again() -> None:
    rows = rows_of(
        "Row 1: Ch 26, sc in 2nd ch from hook, * ch 3, skip 3 ch, sc in next ch; repeat from * across, ch 4, turn. (6 loops)\n"
        "Row 2: * Sc in next loop, ch 3, rep from * another 4 times, sc in last loop, ch 4, turn.\n"
        "Work even in pattern for 3 inches.\n"
    )
    assert rows[-1].counted.by_kind["sc"] == 6
    assert rows[-1].counted.by_kind["ch-3 sp"] == 5


@pytest.mark.parametrize(
    "ending", ["ending ch 2, dc in first sc", "ending with ch 2, d c in 1st sc", "ch 2, hdc in top of first sc",
     "end with ch 1, tr in first sc made"]
)  # fmt: skip
def test_a_stitch_that_closes_a_round_is_part_of_its_loop(ending: str) -> None:
    text = (
        "Rnd 1: Ch 8, join with sl st to form ring, ch 1, 24 sc in ring, join with sl st in first sc.\n"
        f"Rnd 2: Ch 1, sc in same sc, * ch 5, skip 3 sc, sc in next sc; repeat from * 4 times, {ending}.\n"
        "Rnd 3: Sc in loop just formed, * ch 6, sc in next loop; repeat from * around, ch 6, join with sl st in first sc.\n"
    )
    rows = rows_of(text)
    assert rows[1].counted.by_kind["sp"] == 6
    assert (rows[1].counted.total, rows[2].counted.by_kind["sc"], rows[2].counted.by_kind["ch-6 sp"]) == (6, 6, 6)


def test_a_round_begun_in_mid_unit_ends_with_the_rest_of_it() -> None:
    rows = rows_of(
        "Rnd 1: Ch 6, join to form a ring, ch 1, 16 sc in ring, join with sl st in first sc.\n"
        "Rnd 2: Ch 1, sc in first sc, * ch 4, skip 1 sc, sc in next sc; repeat from * 6 times, ch 4, join with sl st in first sc.\n"
        "Rnd 3: Sl st in first loop, sc in same loop, * ch 9, sc in next loop, ch 4, sc in next loop; repeat from * around, join.\n"
    )
    assert rows[-1].counted.by_kind["sc"] == 8
    assert (rows[-1].counted.by_kind["ch-9 sp"], rows[-1].counted.by_kind["ch-4 sp"]) == (4, 4)


def test_old_books_let_a_round_break_off() -> None:
    rows = rows_of(
        "Make a chain of 9 stitches.\n\n1st round.--2 plain in every stitch.\n\n2nd round.--3 chain, miss 1, 1 plain.\n\n3rd round.--7 chain, miss 4, 3 plain.\n"  # noqa: E501
    )
    assert [row.counted.total for row in rows[:2]] == [18, 9]
    assert rows[2].worked == "yes"


def test_a_popcorn_told_where_it_is_made() -> None:
    rows = rows_of(
        "Row 1: Ch 12, dc in 4th ch from hook and in each ch across. (10 dc)\n"
        "Row 2: Ch 3, turn, dc in next 3 dc, 1 popcorn as follows: 5 dc in next dc, drop loop from hook, insert hook in first of the 5 dc, "
        "draw loop through; dc in next 5 dc.\n"
    )
    assert rows[1].counted.made == {"dc": 9, "popcorn": 1}


DOILY = """
Starting at center, ch 10. Join with sl st to form ring.

1st rnd: Ch 3, 23 dc in ring. Join with sl st to 3rd st of ch-3 first made.

2nd rnd: Ch 4, * dc in next dc, ch 1. Repeat from * around. Join to 3rd st of ch-4 first made (24 sps).

3rd rnd: Sl st in next sp, ch 4, 2 tr in same sp, * ch 2, skip next sp, 3 tr in next sp. Repeat from * around, ending with ch 2. Join.

4th rnd: Sl st to next ch-2 sp, ch 4 (to count as 1 tr), 2 tr, ch 2, and 3 tr in same sp (shell made), * ch 3, in next sp make 3 tr,
ch 2 and 3 tr (another shell made). Repeat from * around. Ch 3, join with sl st in 4th st of ch-4.

5th rnd: Sl st across to sp of shell, ch 4 and complete a shell in same place, * ch 4, shell in sp of next shell. Repeat from * around.
Ch 4, join.

6th rnd: Sl st to sp of shell, ch 4, 2 tr, ch 2, 3 tr in same sp, * ch 3, 9 tr in sp of next shell, ch 3, shell in next shell. Repeat from
* around, ending with ch 3, 9 tr in sp of last shell, ch 3, join.

7th rnd: Shell over shell, * ch 3, tr in first tr of next 9-tr group, (ch 1, tr in next tr) 8 times, ch 3, shell over next shell. Repeat
from * around, ending with ch 3. Join.

8th rnd: Shell over shell, * ch 3, sc in first ch-1 sp of pineapple, (ch 3, sc in next sp) 7 times, ch 3, shell over shell. Repeat from *
around. Join.
"""


def test_a_pineapple_doily_closes_round_by_round() -> None:
    rows = rows_of(DOILY)
    assert [row.counted.total for row in rows] == [24, 24, 36, 72, 72, 90, 90, 84]
    assert rows[6].counted.by_kind["ch-1 sp"] == 6 * 8
    assert rows[7].counted.by_kind["sc"] == 6 * 8


def test_petals_worked_behind_count_by_the_petal() -> None:
    rows = rows_of(
        "Rnd 1: Ch 5, join with sl st to form ring, ch 1, 12 sc in ring, join.\n"
        "Rnd 2: Ch 5, * skip 1 sc, dc in next sc, ch 2; repeat from * 4 times, join to 3rd st of ch 5.\n"
        "Rnd 3: In each ch-2 sp make sc, 3 dc, sc (6 petals). Join.\n"
        "Rnd 4: * Ch 4, sc in back of work between next 2 petals; repeat from * around.\n"
    )
    assert rows[-1].counted.by_kind["sc"] == 6


@pytest.mark.parametrize(
    "told",
    [
        "Work as for 8th rnd, having 1 loop less on each pineapple on each rnd.",
        "Same as 8th rnd, having one loop less over each pineapple.",
        "Repeat 8th rnd, having 1 less sp on each pineapple each time.",
    ],
)
def test_pineapples_lose_a_loop_each_round(told: str) -> None:
    rows = rows_of(DOILY + f"\n9th to 12th rnds incl: {told}\n")
    assert [row.counted.by_kind["sc"] for row in rows[8:]] == [6 * n for n in (7, 6, 5, 4)]


@pytest.mark.parametrize(
    "finish",
    [
        "Complete the rnd as for First Motif, without further joining.",
        "Finish round same as 1st Motif.",
        "Complete round as on First Motif.",
    ],
)
def test_a_motif_joined_as_it_is_made_is_finished_as_the_first(finish: str) -> None:
    fabric = fabric_of(
        "FIRST MOTIF: Ch 6, join with sl st to form ring. 1st rnd: Ch 1, 12 sc in ring, join. 2nd rnd: Ch 1, sc in same sc, * ch 7, skip 1 sc, "  # noqa: E501
        "sc in next sc. Repeat from * 4 times, ch 7, join with sl st in first sc. 3rd rnd: * In next ch-7 loop make 4 sc, ch 3 and 4 sc. "
        "Repeat from * around. Join and break off.\n\n"
        "SECOND MOTIF: Work same as First Motif until 2 rnds are done. 3rd rnd: 4 sc in next ch-7 loop, ch 1, sl st in corresponding loop "
        f"on First Motif, ch 1, 4 sc in same loop on Second Motif, 4 sc in next ch-7 loop, ch 1, sl st in next loop on First Motif, ch 1. {finish}\n"  # noqa: E501
    )
    first, second = (part.rows[-1] for part in fabric.parts)
    assert (first.counted.by_kind["sc"], second.counted.by_kind["sc"]) == (48, 48)
