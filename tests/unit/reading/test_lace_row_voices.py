"""Rows of old lace told by one unit: what its stitches lie upon, what is missed and what is not. Every piece is invented."""

from __future__ import annotations

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import RowWork

from .told import worked_rows

COASTER = (
    "COASTER.\n\nMake a chain of 8 stitches, and join it.\n\n1st round--2 treble in every chain stitch.\n\n"
    "2nd round--1 treble, 2 chain, miss 1.\n\n3rd round--"
)
FRILL = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each sc. (12)\nRnd 3: "
DOILY = (
    "DOILY.\n\nMake a chain of 8 stitches, and join it.\n\n1st round--3 treble in every chain stitch.\n\n"
    "2nd round--3 treble, 4 chain, miss 3.\n\n3rd round--"
)
EDGING = (
    "SHELF EDGING.\n\nMake a chain of 41 stitches; turn back, miss the first, and work in double crochet, always working on one side, "
    "and fastening on afresh at the right-hand side for each row.\n\n1st row.--Double crochet.\n\n2d row.--4 chain, 6 long; repeat.\n\n"
    "3d row.--"
)


def last_of(text: str) -> RowWork:
    assert [one.rule for one in proof(read(text), (work(read(text)),)) if one.severity != "note"] == []
    return worked_rows(text)[-1]


@pytest.mark.parametrize(
    "words",
    [
        "3 treble, 2 chain; none are missed here.",
        "3 treble, 2 chain, without missing any.",
        "3 treble, 2 chain (no stitches are missed).",
        "3 treble, 2 chain; miss no stitches.",
        "* 3 treble, 2 chain, repeat from *. There is nothing missed.",
    ],
)
def test_where_nothing_is_missed_no_stitch_is_passed_over(words: str) -> None:
    assert last_of(COASTER + words).counted.by_kind["dc"] == 24


@pytest.mark.parametrize(
    "words",
    [
        "*3 sc, ch 2, skip no sts; rep from * around.",
        "*Sc in next 3 sc, ch 2 without skipping a st, rep from * around.",
        "Without skipping any sts, *sc in next 3 sc, ch 2; rep from * around.",
        "*Sc in next 3 sc, ch 2; rep from * around, no sts skipped.",
        "*Sc in next 3 sc, ch 2; rep from * around. You will not be skipping any stitches.",
    ],
)
def test_where_nothing_is_skipped_every_stitch_is_worked(words: str) -> None:
    assert last_of(FRILL + words).counted.by_kind["sc"] == 12


def test_what_is_missed_is_still_passed_over() -> None:
    assert last_of(FRILL + "*Sc in next 2 sc, ch 2, skip 1 sc; rep from * around, do not turn.").counted.by_kind["sc"] == 8


@pytest.mark.parametrize(
    "words",
    [
        "3 plain upon the treble, 5 chain, miss 4.",
        "* 3 plain on the treble, 5 chain, miss the 4 chain; repeat from *.",
        "3 plain over the treble of last round, 5 chain; repeat.",
    ],
)
def test_so_many_upon_stitches_that_stand_together_are_one_on_each(words: str) -> None:
    row = last_of(DOILY + words)
    assert row.counted.by_kind["sc"] == 12
    feet = [tuple(row.stitches.feet_of(i)) for i, name in enumerate(_kinds(row)) if name == "sc"]
    assert len(set(feet)) == 12


def _kinds(row: RowWork) -> list[str]:
    return [row.stitches.names[kind] for kind in row.stitches.kind]


def test_so_many_upon_stitches_that_stand_alone_share_them() -> None:
    alone = DOILY.replace("3 treble, 4 chain, miss 3", "1 treble, 4 chain, miss 3")
    assert last_of(alone + "* 3 plain upon the treble, 5 chain; repeat from *.").counted.by_kind["sc"] == 18


def test_several_in_the_next_stitch_stay_in_that_one() -> None:
    assert last_of(DOILY + "* 3 plain in next treble, 5 chain, miss 2 treble and the 4 chain; repeat from *.").counted.by_kind["sc"] == 12


def test_plain_units_count_the_chains_below_as_stitches() -> None:
    text = COASTER.replace("1 treble, 2 chain, miss 1", "1 treble, 1 chain, in every stitch")
    assert last_of(text + "2 plain in 1, 3 plain.").counted.total == 40


@pytest.mark.parametrize(
    ("words", "long", "spaces"),
    [
        ("6 chain, 4 long, in the centre of the 6 long; repeat.", 16, "ch-6 sp"),
        ("4 long, on the centre of the 6, 6 chain; repeat.", 16, "ch-6 sp"),
        ("* 6 chain, 4 long, on the 4 centre ones; repeat from *.", 16, "ch-6 sp"),
        ("6 chain, 4 long in the middle of the long; repeat.", 16, "ch-6 sp"),
        ("6 chain, 4 long, coming over the middle of the 6 long of last row; repeat.", 16, "ch-6 sp"),
        ("6 chain, 4 long, these 4 to come over the centre of the 6 long; repeat.", 16, "ch-6 sp"),
        ("8 chain, 2 long, so that the 2 long come over the centre of the 6; repeat.", 8, "ch-8 sp"),
        ("6 chain, 4 long, those 4 to fall on the 4 chain of the last row; repeat.", 16, "ch-6 sp"),
        ("4 chain, 6 long, which must come over the 4 chain; repeat.", 24, "ch-4 sp"),
    ],
)
def test_what_the_stitches_of_a_unit_come_over(words: str, long: int, spaces: str) -> None:
    row = last_of(EDGING + words)
    assert (row.counted.by_kind["dc"], row.counted.by_kind[spaces]) == (long, 4)
