"""Motifs, edgings and lace as pages of today tell them, worked. All lines are invented."""
# ruff: noqa: E501

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows


def totals(text: str) -> list[int]:
    return [row.counted.total for row in worked_rows(text)]


def kinds(text: str) -> list[dict[str, int]]:
    return [row.counted.by_kind for row in worked_rows(text)]


MAT = "Mat. Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRows 2-10: Ch 1, turn, sc in each st across. (10 sc)\n"


@pytest.mark.parametrize(
    "side",
    ["8 sc along row ends", "sc evenly in next 8 row ends", "8 sc evenly across the ends of the rows", "8 sc over the row ends"],
)
@pytest.mark.parametrize("other", ["sc in next 8 row ends up the other side", "8 sc evenly along the row ends of the second side"])
def test_corners_of_a_border_are_found_whatever_they_stand_in(side: str, other: str) -> None:
    text = (
        MAT
        + f"Border\nRound 1: Ch 1, 3 sc in first st, sc in next 8 sts, 3 sc in last st, {side}, 3 sc in first ch of foundation chain, "
        + f"sc in next 8 chs, 3 sc in last ch, {other}, join. (44 sc)\nRound 2: Ch 1, sc in each sc around, working 3 sc in each corner sc, join. (52 sc)\n"
    )
    assert totals(text)[-2:] == [44, 52]


@pytest.mark.parametrize(
    ("first", "made"),
    [
        ("ch 3, dc in ring, (ch 1, 2 dc in ring) 5 times, ch 1, join to top of ch 3", {"dc": 12, "ch": 6, "ch-1 sp": 6, "sp": 6}),
        ("ch 4, 15 tr into ring, ss to join. (16 tr)", {"tr": 16}),
        ("ch 3, 12 dc in ring, sl st in first dc. (12 dc)", {"dc": 12}),
        ("ch 2, 8 hdc in the ring, join. (8 hdc)", {"hdc": 8}),
        ("ch 6, 18 dc in ring, join. (18 dc)", {"dc": 18}),
    ],
)
def test_a_ring_that_nobody_told_and_the_chain_in_it(first: str, made: dict[str, int]) -> None:
    assert kinds(f"Motif\nRnd 1: {first}\n")[-1] == made


@pytest.mark.parametrize(
    "begun", ["Make a magic ring.", "Magic ring,", "Begin with a magic ring;", "With pink, make a magic ring.", "Make an adjustable loop."]
)
def test_a_small_piece_named_and_told_on_one_line(begun: str) -> None:
    assert kinds(
        f"Wee heart. {begun} ch 2, 3 dc in ring, 2 hdc in ring, dc in ring, 2 hdc in ring, 3 dc in ring, ch 2, sl st in ring. Fasten off.\n"
    ) == [{"dc": 7, "hdc": 4, "ch": 4, "ch-2 sp": 2, "sp": 2}]


@pytest.mark.parametrize(("title", "made"), [("Wee heart (UK)", {"dc": 7, "sc": 6}), ("Wee heart (US version)", {"tr": 7, "dc": 6})])
def test_terms_told_in_the_title(title: str, made: dict[str, int]) -> None:
    found = kinds(f"{title}. Make a magic ring, 2ch, 3tr, 3dc, 1tr, 3dc, 3tr, 2ch, ss into ring. Fasten off.\n")[-1]
    assert {kind: found[kind] for kind in made} == made


def test_a_turning_chain_told_once_as_another_stitch_than_comes_next() -> None:
    text = (
        "Shawl. Ch 4, sl st to join.\nRow 1: Ch 4 (counts as tr), 3 dc in ring, ch 2, 3 dc in ring, tr in ring. Turn. (6 dc, 2 tr)\n"
        "Row 2: Ch 4, 3 dc in first st, ch 1, (3 dc, ch 2, 3 dc) in ch-2 sp, ch 1, 3 dc in last st, tr in same st. Turn. (12 dc, 2 tr)\n"
    )
    assert totals(text) == [8, 14]


@pytest.mark.parametrize("place", ["sc over dc", "sc over next dc", "next sc directly above the dc", "sc above dc"])
def test_what_the_place_stands_over_is_no_further_place(place: str) -> None:
    text = (
        "Flake. Ch 6, join.\nRnd 1: Ch 5 (counts as dc, ch 2), *dc in ring, ch 2* 5 times, sl st in 3rd ch of ch 5.\n"
        "Rnd 2: Ch 1, sc in same st, *3 sc in ch-2 sp, sc in next dc*, repeat around, omitting last sc, sl st to first sc. (24 sc)\n"
        f"Rnd 3: Ch 1, *sc in {place}, ch 4, skip 3 sc* around, sl st in first sc.\n"
    )
    assert kinds(text)[-1] == {"sc": 6, "ch": 24, "ch-4 sp": 6, "sp": 6}
    assert work(read(text)).parts[0].rows[-1].worked == "yes"


SQUARE = "Square. Rnd 1: Ch 4, join, ch 1, *3 sc in ring; rep from * 3 times more. (12 sc)\nRnd 2: Ch 1, *3 sc in next sc, sc in next 2 sc; rep from * around, join. (20 sc)\n"


@pytest.mark.parametrize(
    "told",
    [
        "Sl st to center sc of corner, ch 1, *3 sc in corner sc, sc in next 4 sc; rep from * around, join.",
        "Sl st to corner st, ch 1, 3 sc in same st, *sc in next 4 sc, 3 sc in corner st; rep from * twice, sc in last 4 sc, join.",
        "Sl st in next sc, ch 1, *3 sc in corner sc, sc in next 4 sc; rep from * around, join.",
        "Sl st in next sc, ch 1, 3 sc in same sc, *sc in next 4 sc, 3 sc in next sc; rep from * twice, sc in last 4 sc, join.",
        "Join B in center sc of any corner, ch 1, 3 sc in same st, sc in next 4 sts, *3 sc in next corner, sc in next 4 sts; rep from * around, join.",
        "Join B in any corner, ch 1, sc in each st around, working 3 sc in each corner, join.",
        "With B, standing sc in any corner sc, 2 sc in same st, *sc in next 4 sts, 3 sc in corner sc; rep from * 2 more times, sc in next 4 sts, join.",
    ],
)
def test_a_round_that_begins_in_the_stitch_of_a_corner(told: str) -> None:
    rows = worked_rows(
        SQUARE + f"Rnd 3: {told} (28 sc)\nRnd 4: Join A in any corner, ch 1, sc in each st around, 3 sc in each corner st, join. (36 sc)\n"
    )
    assert [(row.counted.total, row.worked) for row in rows[-2:]] == [(28, "yes"), (36, "yes")]


WHEEL = (
    "Wheel. Rnd 1: Ch 4, join, ch 4 (counts as dc and ch 1), *dc in ring, ch 1; rep from * 10 times more, join in 3rd ch of ch-4. (12 dc)\n"
)


@pytest.mark.parametrize(
    "told",
    [
        "In a new color, start in any ch-1 sp. Ch 3, dc in same sp",
        "Starting in any ch-1 sp, ch 3, dc in same sp",
        "Start with a new color in any ch-1 sp, ch 3, dc in same sp",
        "With color B, begin in any ch-1 sp: ch 3, dc in same sp",
        "Pick any space and join B, ch 3, dc in same sp",
        "Insert hook in any ch-1 sp, pull up a loop of B, ch 3, dc in same sp",
        "New color: join with sl st in any sp, ch 3, dc in same sp",
        "Using C, start in any sp with 3 ch, 1 dc in same sp",
    ],
)
def test_a_round_begun_in_any_space_however_it_is_told(told: str) -> None:
    text = WHEEL + f"Rnd 2: {told}, ch 1, *2 dc in next ch-1 sp, ch 1; rep from * around, join.\n"
    assert kinds(text)[-1] == {"dc": 24, "ch": 12, "ch-1 sp": 12, "sp": 12}


@pytest.mark.parametrize(
    ("told", "made"),
    [
        ("*ch 3, sk next dc, sl st in next sp; rep from * around.", {"sl st": 12, "ch": 36, "ch-3 sp": 12, "sp": 12}),
        ("*5 dc in next dc, sl st in next ch-1 sp; rep from * around.", {"dc": 60}),
        ("*5 dc in next dc, sc in next sp; rep from * around.", {"dc": 60, "sc": 12}),
        ("ch 1, sc in same sp, *ch 4, sc in next sp; rep from * around, ch 4, join.", {"sc": 12, "ch": 48, "ch-4 sp": 12, "sp": 12}),
    ],
)
def test_the_last_unit_ends_in_the_space_the_yarn_was_joined_in(told: str, made: dict[str, int]) -> None:
    assert kinds(WHEEL + f"Rnd 2: Join B in any ch-1 sp, {told}\n")[-1] == made


@pytest.mark.parametrize(
    ("first", "last"),
    [
        ("3 dc between first dc and first group", "3 dc between last group and turning ch"),
        ("3 dc in sp between first dc and next group", "3 dc in sp between last group and last dc"),
        ("3 dc between first two sts", "3 dc between last two sts"),
        ("3 dc in the gap before the first group", "3 dc in gap after last group"),
        ("3 dc in space between edge st and first cluster", "3 dc between last 3-dc group and top of tch"),
    ],
)
def test_gaps_beside_the_stitches_on_the_edge(first: str, last: str) -> None:
    text = (
        "Half granny\nCh 4, join.\nRow 1: ch 3 (counts as dc), 3 dc, ch 2, 3 dc, dc into ring, turn. 8 dc.\n"
        f"Row 2: ch 3, {first}, (3 dc, ch 2, 3 dc) in corner sp, {last}, dc in top of ch-3, turn. 14 dc.\n"
        f"Row 3: ch 3, {first}, 3 dc in next gap, (3 dc, ch 2, 3 dc) in corner sp, 3 dc in next gap, {last}, dc in top of ch-3, turn. 20 dc.\n"
    )
    assert [(row.counted.total, row.worked) for row in worked_rows(text)] == [(8, "yes"), (14, "yes"), (20, "yes")]


@pytest.mark.parametrize(
    "other",
    ["corner sp of Motif 1", "corner ch-3 sp of motif No. 1", "matching sp of previous square", "corner loop of the neighbouring motif",
     "center ch of corresponding ch-3 loop on previous motif", "corner of the square already made", "corresponding sp of Square A"],
)  # fmt: skip
def test_a_place_of_the_motif_beside_takes_none_of_the_own(other: str) -> None:
    text = (
        "Motif 2\nRnd 1: ch 4, join; ch 3, 2 dc in ring, ch 3, (3 dc in ring, ch 3) 3 times, join. (12 dc)\n"
        f"Rnd 2: sl st to next ch-3 sp, ch 3, (2 dc, ch 3, 3 dc) in same sp, 3 dc in next ch-3 sp, ch 1, sl st in {other}, ch 1, 3 dc in same "
        "ch-3 sp, (3 dc, ch 3, 3 dc) in each of next 2 ch-3 sps, join and fasten off. (24 dc)\n"
    )
    assert [(row.counted.total, row.worked) for row in worked_rows(text)] == [(12, "yes"), (24, "yes")]


@pytest.mark.parametrize(
    ("third", "count"),
    [
        ("*sc in next 2 sc, FPtr around next dc of Rnd 1; rep from * around, join.", 36),
        ("*sc in next 2 sc, FPtr around next dc 2 rounds below; rep from * around, join.", 36),
        ("*sc in next sc, FPtr around next dc 2 rounds below; rep from * around, join.", 24),
    ],
)
def test_raised_stitches_of_an_overlay_cover_a_place_or_stand_between(third: str, count: int) -> None:
    text = f"Mat\nRnd 1: 12 dc in magic ring, join. (12)\nRnd 2: Ch 1, 2 sc in each dc around, join. (24)\nRnd 3: Ch 1, {third} ({count})\n"
    assert [(row.counted.total, row.worked) for row in worked_rows(text)] == [(12, "yes"), (24, "yes"), (count, "yes")]


def test_a_wrong_count_of_an_overlay_is_no_less_wrong() -> None:
    text = "Mat\nRnd 1: 12 dc in magic ring, join. (12)\nRnd 2: Ch 1, 2 sc in each dc around, join. (24)\nRnd 3: Ch 1, *sc in next sc, FPtr around next dc of Rnd 1; rep from * around, join. (28)\n"
    assert work(read(text)).parts[0].rows[-1].state == "differs"
