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
