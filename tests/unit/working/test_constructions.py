"""Constructions off the plain path: dividing and rejoining, ribs joined as they go, free loops, crossings, far sides."""

import pytest

from hookwright.reading import read
from hookwright.working import Fabric, How, work


def worked(text: str) -> Fabric:
    fabric = work(read(text))
    bad = [(r.label, t.message) for p in fabric.parts for r in p.rows for t in r.troubles]
    assert not bad, bad
    assert all(r.state in ("agrees", "unstated", "uncompared") for p in fabric.parts for r in p.rows), [
        (r.label, r.state) for p in fabric.parts for r in p.rows
    ]
    return fabric


def test_divide_and_rejoin() -> None:
    fabric = worked(
        "Ch 37.\nRow 18: Sc in 2nd ch from hook and in each ch across. (36 sc)\n"
        "Row 19 (RS): Ch 1, turn, sc in first 8 sts, leave rest unworked. (8 sc)\n"
        "Row 20: Ch 1, turn, sc in each st across. Fasten off. (8 sc)\n"
        "Row 21 (RS): Skip next 12 unworked sts of Row 18, join B in next st, ch 2 (does not count), "
        "dc2tog over same and next st, dc to end. "
        "(15 dc)\n"
    )
    row = fabric.parts[0].rows[-1]
    assert (row.offered, row.used, row.counted.total) == (28, 28, 15)
    assert {back for i in row.stitches.counted() for back, _, _ in row.stitches.feet_of(i)} == {3}


def test_ribbing_joined_to_a_body_as_it_goes() -> None:
    fabric = worked(
        "## Body\n"
        "\n"
        "Ch 11.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
        "Rows 2-40: Ch 1, turn, sc in each st across. (10 sc)\n"
        "\n"
        "## Rib\n\nCh 9.\nRib Row 1: Sc in 2nd ch from hook and in each of next 7 ch. (8 sc)\n"
        "Rib Row 2: Sl st in next 2 sts of Body Row 40, turn, skip both sl sts, sc BLO in next 8 sc. (8 sc)\n"
        "Rib Row 3: Ch 1, turn, sc BLO in next 8 sc. (8 sc)\n"
    )
    rib = fabric.parts[1].rows[2]
    assert rib.counted.total == 8
    assert all(how == How.BACK_LOOP for i in rib.stitches.counted() for _, _, how in rib.stitches.feet_of(i))


def test_loops_left_free_by_an_earlier_round() -> None:
    fabric = worked(
        "Rnd 1: 6 sc in magic ring. (6 sc)\n"
        "Rnd 2: 2 sc in each st around. (12 sc)\n"
        "Rnd 3: [Sc in next st, 2 sc in next st] 6 times. (18 sc)\n"
        "Rnd 4: [Sc in next 2 sts, 2 sc in next st] 6 times. (24 sc)\nRnd 5: [Sc in next 3 sts, 2 sc in next st] 6 times. (30 sc)\n"
        "Rnd 6: [Sc in next 4 sts, 2 sc in next st] 6 times. (36 sc)\n"
        "Rnd 7: Sc BLO in each st around. (36 sc)\n"
        "Rnd 8: Sc in each st around. (36 sc)\n"
        "Rnd 9: Behind Rnd 8, in free front lps of Rnd 6: sl st in first lp, *ch 5, skip 3 lps, sl st in next; rep around, ending ch 5, "
        "skip 3, join. (9 ch-5 lps)\n"
    )
    row = fabric.parts[0].rows[-1]
    assert row.counted.by_kind["ch-5 sp"] == 9
    assert {how for i in range(len(row.stitches)) for back, _, how in row.stitches.feet_of(i) if back} == {How.FRONT_LOOP}


def test_a_crossing_of_post_stitches() -> None:
    fabric = worked(
        "Ch 38.\nRow 9: Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (36 dc)\n"
        "Row 10: Ch 3 (counts as dc), turn, dc in next 3 sts, *FPtr around next 4 sts, dc in next 4 sts; "
        "rep from * across. (20 dc, 16 FPtr)\n"
        "Row 11: Ch 3 (counts as dc), turn, dc in each st across. (36 dc)\n"
        "Row 12: Dc in first 4 sts, *skip 2 sts, FPtr around next 2 FPtr 2 rows below, in front of these FPtr around 2 skipped FPtr, "
        "dc in next 4; rep across. (36 sts)\n"
    )
    row = fabric.parts[0].rows[-1]
    assert (row.offered, row.used) == (36, 36)
    assert row.counted.by_kind == {"dc": 20, "FPtr": 16}


def test_the_far_side_of_a_chain() -> None:
    fabric = worked(
        "Ch 10.\nRnd 1: Sc in 2nd ch from hook, sc in next 7 ch, 3 sc in last ch; along opposite side sc in next 7 ch, 2 sc in last ch "
        "(with first sc). (20 sc)\nRnd 2: Sc in each st around. (20 sc)\n"
    )
    assert fabric.parts[0].rows[1].counted.total == 20


TILES = (
    "Row 1: Ch 6, dc in 4th ch from hook and in each of next 2 ch, turn. (1 tile)\n"
    "Row 2: Ch 6, dc in 4th ch from hook and in each of next 2 ch, sl st in ch-3 sp of previous tile, ch 3, 3 dc in same sp, "
    "turn. (2 tiles)\n"
    "Row 3: Ch 6, dc in 4th ch from hook and in each of next 2 ch, *sl st in next ch-3 sp, ch 3, 3 dc in same ch-3 sp; rep from * across, "
    "turn. (3 tiles)\nRows 4-6: Rep Row 3.\n"
    "Row 7: Sl st in next 3 dc and in ch-3 sp, ch 3, 3 dc in same sp, *sl st in next ch-3 sp, ch 3, 3 dc in same sp; rep from * to last "
    "tile, sl st in last ch-3 sp, turn. (5 tiles)\nRow 8: Rep Row 7.\n"
)
NAMED = (
    "Row 1: Ch 6, dc in 4th ch from hook, dc in next 2 ch. Beginning shell (1 shell)\n"
    "Row 2: Ch 6, dc in 4th ch from hook, dc in next 2 ch: beginning shell; turn, (sl st, ch 3, 3 dc) in next ch-3 sp, shell made.\n"
    "Row 3: Turn, beginning shell, *1 shell; rep from * to end. (3 shells)\nRow 4: As Row 3, one shell more.\n"
    "Row 5: Turn, sl st in first 3 dc, *sl st in ch-3 sp, 1 shell; rep from * to end, sl st in last shell. (3 shells)\n"
    "Row 6: As Row 5, one shell less.\n"
)


@pytest.mark.parametrize(("text", "tiles"), [(TILES, [1, 2, 3, 4, 5, 6, 5, 4]), (NAMED, [1, 2, 3, 4, 3, 2])])
def test_corner_to_corner_tiles(text: str, tiles: list[int]) -> None:
    rows = [row for row in worked(text).parts[0].rows if not row.foundation]
    assert [row.counted.by_kind["ch-3 sp"] for row in rows] == tiles
    assert all(row.read == "whole" and row.worked == "yes" and not row.troubles for row in rows)


def test_totals_hold_chains_where_the_pattern_counts_them() -> None:
    fabric = worked(
        "Ch 4, join with sl st to form a ring.\n"
        "Rnd 1: Ch 4 (counts as dc and ch 1), [dc in ring, ch 1] 5 times, join with sl st to 3rd ch of ch-4. (12 sts)\n"
        "Rnd 2: Sl st in first ch-1 sp, ch 4 (counts as dc and ch 1), dc in same sp, [dc in next dc, (dc, ch 1, dc) in next ch-1 sp] "
        "5 times, dc in next st, join. (24 sts)\n"
    )
    assert [row.counted.total for row in fabric.parts[0].rows if not row.foundation] == [12, 24]
    assert any("count chains" in question and taken.answer == "yes" for question, taken in fabric.taken.items())


@pytest.mark.parametrize(
    ("text", "total"),
    [
        ("Rnd 1: 5 sc in magic ring, join. (5 sc)\n"
         "Rnd 2: *Ch 6, sc in 2nd ch from hook, hdc in next ch, dc in next 3 ch, sl st in next sc; rep from * around. (25 sts)\n", 25),
        ("Ch 4, join with sl st to form a ring.\n"
         "Rnd 1: [Ch 7, sc in 2nd ch from hook, hdc in next ch, dc in each of next 4 ch, sl st in ring] 4 times. (24 sts)\n", 24),
        ("Rnd 1: 8 sc in magic ring, join. (8 sc)\n"
         "Rnd 2: *Sc in next sc, ch 9, sc in 5th ch from hook, ch 4, sc in next sc; rep from * around, join. (8 sc)\n", 8),
    ],
)  # fmt: skip
def test_chains_worked_back_along_in_the_middle_of_a_row(text: str, total: int) -> None:
    assert worked(text).parts[0].rows[-1].counted.total == total


def test_what_a_round_begins_beyond_is_met_at_its_end() -> None:
    worked(
        "Ch 4, join with sl st to form a ring.\n"
        "Rnd 1: Ch 4 (counts as dc and ch 1), [dc in ring, ch 1] 5 times, join with sl st to 3rd ch of ch-4. (6 dc)\n"
        "Rnd 2: Sl st in first ch-1 sp, ch 4 (counts as dc and ch 1), dc in same sp, [dc in next dc, (dc, ch 1, dc) in next ch-1 sp] "
        "5 times, dc in next st, join. (18 dc)\n"
        "Rnd 3: Sl st in first ch-1 sp, ch 1, 3 sc in same sp, *sc in next 3 dc, 3 sc in next ch-1 sp; rep from * around, sc in last 3 dc, "
        "join. (36 sc)\n"
    )


def test_places_named_by_counting_their_kind_and_by_the_chain_of_a_loop() -> None:
    fabric = worked(
        "Ch 4, join with sl st to form a ring.\n"
        "Rnd 1: Ch 1, 12 sc in ring, join. (12 sc)\n"
        "Rnd 2: Ch 1, *sc in next 2 sc, (hdc, dc, hdc) in next sc; rep from * around, join. (20 sts)\n"
        "Rnd 3: *Sc in 2nd sc, ch 9, sc in same sc, ch 4, sc in next dc, ch 4; rep from * around, sl st to beg sc: 4 ch-9 lps.\n"
        "Rnd 4: Sl st in 4 chs of the ch-9, *ch 3, hdc in 5th ch of the ch-9, ch 3, sc in 5th ch, ch 4, sc in next ch-4 sp, ch 3, sc in "
        "next ch-4 sp, ch 4, sc in 5th ch of next ch-9; rep from * 2 times more, ch 3, hdc in 5th ch of the ch-9, ch 3, sc in 5th ch, "
        "ch 4, sc in next ch-4 sp, ch 3, sc in next ch-4 sp, ch 4; join.\n"
    )
    assert fabric.parts[0].rows[-1].counted.by_kind["hdc"] == 4


def test_every_gap_where_no_groups_stand() -> None:
    """ "2 dc in each gap between the dc" over a plain round: as many gaps as stitches; over groups only those between the groups."""
    fabric = worked(
        "Rnd 1: Work 10 dc in a magic ring, join. (10 dc)\n"
        "Rnd 2: Work 2 dc in each gap between the dc, join. (20 dc)\n"
        "Rnd 3: Work 3 dc in each space between the pairs, join. (30 dc)\n"
    )
    assert {how for i in fabric.parts[0].rows[-2].stitches.counted() for _, _, how in fabric.parts[0].rows[-2].stitches.feet_of(i)} == {
        How.BETWEEN
    }


def test_to_the_centre_of_a_triangle_is_its_point() -> None:
    fabric = worked(
        "Every row starts with a ch 4, and that ch 4 is a dc plus a ch 1.\n\n"
        "Row 1: Magic ring. Ch 4, 2 dc, ch 2, 2 dc, ch 1, dc, all in the ring. Turn. (6 dc)\n"
        "Row 2: Ch 4, 2 dc in first sp, ch 1, (2 dc, ch 2, 2 dc) in ch-2 sp, ch 1, 2 dc in last sp, ch 1, dc in 3rd ch of the ch 4. Turn."
        " (10 dc)\n"
        "Row 3: Ch 4, 2 dc in first sp, ch 1, *2 dc in next ch-1 sp, ch 1* to the center, (2 dc, ch 2, 2 dc) in ch-2 sp, ch 1, "
        "*2 dc in next ch-1 sp, ch 1* across, dc in 3rd ch of the ch 4. Turn. (14 dc)\n"
    )
    assert [row.counted.total for row in fabric.parts[0].rows[-3:]] == [6, 10, 14]


def test_the_space_before_the_next_v_is_the_gap_between_two() -> None:
    fabric = worked(
        "Ch 20.\nRow 1: Dc in 4th ch from hook, [sk 1 ch, (dc, ch 1, dc) in next ch, sk 1 ch] 5 times, dc in last ch, turn. (13 dc)\n"
        "Row 2: Ch 1, sc in first dc, [4 dc in next ch-1 sp, sc in sp before next V-st] 4 times, 4 dc in next ch-1 sp, "
        "skip 1 dc, sc in last dc. (20 dc, 6 sc)\n"
    )
    row = fabric.parts[0].rows[-1].stitches
    assert sum(how == How.BETWEEN for i in row.counted() for _, _, how in row.feet_of(i)) == 4


@pytest.mark.parametrize("end", ["sc in last sp, ch 2, dc in last sc", "ch 2, dc in last sc"])
def test_a_repeat_to_the_last_space_leaves_it_to_what_follows_or_fills_it(end: str) -> None:
    fabric = worked(
        "Ch 41.\nRow 1: Sc in 2nd ch from hook, *ch 3, skip 2 ch, sc in next ch; rep from * across, turn. (14 sc)\n"
        f"Row 2: Ch 5, *sc in next ch-3 sp, ch 3; rep from * across to last sp, {end}, turn. (13 sc, 1 dc)\n"
    )
    assert [row.worked for row in fabric.parts[0].rows] == ["yes"] * 3


def test_a_count_of_what_nobody_could_count_is_not_said_to_agree() -> None:
    head = "Rnd 1: 12 sc in a magic ring, join. (12 sc)\n"
    loops = worked(f"{head}Rnd 2: *Ch 3, skip 1 st, sl st in next st; rep from * around. (6 petals)\n")
    assert loops.parts[0].rows[-1].state == "uncompared"
    shells = worked(f"{head}Rnd 2: Ch 1, *sc in next st, 5 dc in next st; rep from * around, join. (6 petals)\n")
    assert shells.parts[0].rows[-1].state == "agrees"


def test_shapings_of_two_rhythms_each_keep_their_own() -> None:
    fabric = worked(
        "Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across. (30 sc)\n"
        "Rows 2-13: Dec 1 st at beg of every 2nd row, dec 1 st at end of every 3rd row.\n"
    )
    assert [row.counted.total for row in fabric.parts[0].rows[2:]] == [30, 29, 28, 27, 27, 25, 25, 24, 23, 22, 22, 20]


@pytest.mark.parametrize(
    ("text", "stitches"),
    [
        ("Ch 17.\nRow 1: sc in each ch across. (16 sc)", 16),
        ("Ch 17.\nRow 1: sc in each ch across. (17 sc)", 17),
        ("Ch 18.\nRow 1: sc in each ch across.\nRow 2: ch 1, sc across (17)", 17),
        ("Ch 18.\nRow 1: hdc in each ch across. (16)", 16),
        ("Ch 22.\nRow 1: dc in each ch across (20 dc)", 20),
        ("Ch 22.\nRow 1: sc in next ch, *ch 1, skip 1 ch, sc in next ch; rep from * across (11 sc)", 11),
    ],
)
def test_chains_that_turn_may_be_passed_over_unsaid(text: str, stitches: int) -> None:
    assert worked(text).parts[0].rows[-1].counted.total == stitches


def test_no_more_chains_than_turn_are_passed_over_unsaid() -> None:
    rows = work(read("Ch 18.\nRow 1: sc in each ch across. (15 sc)")).parts[0].rows
    assert [told.kind for told in rows[-1].troubles] == ["count-differs"]
