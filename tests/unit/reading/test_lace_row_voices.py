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


def test_several_in_the_next_stitch_stay_in_that_one() -> None:
    rows = "Rnd 1: 12 sc in magic ring. (12)\nRnd 2: *Sc in next 3 sc, ch 4; rep from * around.\nRnd 3: "
    assert last_of(rows + "*3 dc in next sc, ch 5, skip 2 sc and the loop; rep from * around.").counted.by_kind["dc"] == 12


SHELF = (
    "BORDER FOR A TRAY.\n\n{}\n\n1st row.—Miss 1, and work in plain to the end.\n\n"
    "2d.—1 plain, *, 3 chain, miss 2, 1 plain: repeat from *.\n"
)


@pytest.mark.parametrize(
    "said",
    [
        "Make a chain of 62 stitches, giving 12 for each of the five scallops, and 2 over.",
        "Make a chain of 62, that is 12 for each point and two over.",
        "Make a chain of 62 stitches: 12 chain for each pattern and 2 for the edge.",
        "Make a chain of 62 stitches. Each pattern takes 12 stitches, and 2 over.",
        "Make a chain of 62 stitches. This edging is worked to and fro, turning every row with 1 chain, not reckoned in the count.",
        "Make a chain of 62 stitches. Turn each row with one chain, which is not to be counted.",
        "Make a chain of 62 stitches. Worked backwards and forwards, beginning every row with 1 chain (not counted).",
    ],
)
def test_what_is_said_beside_the_first_chain(said: str) -> None:
    assert [row.counted.total for row in worked_rows(SHELF.format(said))] == [61, 21]


def test_words_not_understood_beside_the_chain_leave_it_to_the_next_row() -> None:
    rows = work(read(SHELF.format("Make a chain of 62 stitches, wobble 2 each."))).parts[0].rows
    assert [(row.label, row.read) for row in rows[:2]] == [("Foundation", "whole"), ("Foundation", "no")]
    assert [row.counted.total for row in rows[2:]] == [61, 21]


SCARF = "Ch 26.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (25 sc)\n"


@pytest.mark.parametrize("far", ["across", "to end", "repeat to the end of the row"])
@pytest.mark.parametrize("ends", ["ending with 1 sc", "end with 1 sc, turn", "and finish with 1 sc"])
def test_a_unit_in_brackets_ends_with_what_is_told_and_no_count(far: str, ends: str) -> None:
    row = last_of(SCARF + f"Row 2: Ch 1, (2 sc, ch 1, skip 1) {far}, {ends}.\n")
    assert (row.counted.total, row.stated) == (17, ())


def test_a_unit_in_brackets_may_end_with_the_rows_count() -> None:
    assert last_of(SCARF + "Row 2: Ch 1, sc in first sc, (sc in next sc, 2 sc in next sc) around, ending with 37 sc.\n").state == "agrees"


SCALLOPED = (
    "SCALLOPED EDGE.\n\nMake a chain of 26 stitches.\n\n1st row.—Miss 1, and work in plain to the end.\n\n"
    "2d.—1 plain, *, 3 chain, miss 2, 1 plain: repeat from *.\n\n"
)


def test_repeat_behind_brackets_that_tell_their_own_times_is_of_the_whole_row() -> None:
    text = (
        SCALLOPED + "3d.—(Miss 1, 3 plain in the 3 chain twice), miss 1, 7 treble in the 3 chain, miss 1, (1 plain in the 3 chain once); "
    )
    assert last_of(text + "repeat, and end with 1 plain.").counted.by_kind == {"sc": 15, "dc": 14}


def test_a_chain_that_opens_a_bracket_comes_every_time() -> None:
    text = "Rnd 1: 12 sc in magic ring. (12)\nRnd 2: Sc in first st, (ch 2, sc in next st 11 times), ch 2, join.\n"
    assert last_of(text).counted.by_kind["ch-2 sp"] == 12


@pytest.mark.parametrize("ends", ["and end as in the 2d row", "ending as in 2d row", "end like row 2", "ending the same as row 2"])
def test_a_row_that_ends_as_another_does(ends: str) -> None:
    text = SCALLOPED.replace(
        "1 plain, *, 3 chain, miss 2, 1 plain: repeat from *", "* 2 treble, 1 chain, miss 1; repeat from *, and end with 1 treble"
    )
    row = last_of(text + f"3d.—Plain.\n\n4th.—* 1 treble, 2 chain, miss 2; repeat from *, {ends}.\n")
    assert row.counted.by_kind["dc"] == 9


@pytest.mark.parametrize("place", ["all in the 3 chain", "all under the 3 chain", "all in the loop of 3 chain"])
def test_a_list_that_all_goes_into_one_loop(place: str) -> None:
    row = last_of(SCALLOPED + f"3d.—* Miss 1, 1 plain, 3 treble, 1 plain, {place}; repeat from *, and end with 1 plain.")
    assert row.counted.by_kind == {"sc": 17, "dc": 24}


@pytest.mark.parametrize(
    "words",
    [
        "On the other side of the foundation: 1 treble, 1 chain, miss 1; repeat, and end with 1 treble.",
        "Work this row on the other side of the foundation, for the hem: 1 treble, 1 chain, miss 1; repeat, and end with 1 treble.",
        "This row is worked on the other side of the foundation chain. * 1 treble, 1 chain, miss 1; repeat from *, end with 1 treble.",
    ],
)
def test_a_row_on_the_other_side_of_the_chain_after_other_rows(words: str) -> None:
    row = last_of(SCALLOPED + "3d.—" + words)
    assert (row.counted.by_kind["dc"], row.counted.by_kind["ch"]) == (13, 12)


@pytest.mark.parametrize(
    "words",
    [
        "Working along opposite side of foundation chain, sc in each ch across.",
        "Working along opposite side of foundation chain, join yarn with sc in first ch, sc in each ch across.",
        "Join yarn to opposite side of foundation chain, ch 1, sc in each ch across.",
        "Join yarn in first ch on the other side of the foundation chain, ch 1, sc in same ch and in each ch across.",
        "With RS facing, join yarn to the bottom of the starting chain; ch 1, sc in each ch across.",
    ],
)
def test_modern_rows_on_the_other_side_of_the_chain(words: str) -> None:
    row = last_of(SCARF + f"Row 2: Ch 1, sc in first sc, sc2tog across. (13 sc)\nRow 3: {words} (25 sc)\n")
    assert (row.counted.total, row.state) == (25, "agrees")
    assert len({tuple(row.stitches.feet_of(i)) for i in range(25)}) == 25


@pytest.mark.parametrize("words", ["Work as before over 12 sts.", "Continue as before to 12 sts, turn.", "Work as front over 10 (12) sts."])
def test_what_is_told_by_another_row_over_so_many_is_read_without_a_fault(words: str) -> None:
    assert [row.label for row in read(SCARF + f"Row 2: {words}\n").parts[0].rows] == ["Foundation", "Row 1", "Row 2"]


@pytest.mark.parametrize(
    "words",
    [
        "Ch 3, dc in next st (counts as dc2tog), * ch 4, dc2tog; rep from * around, ch 4, join. (8 dc2tog)",
        "Ch 4, tr in next sc (this counts as first cluster), * ch 5, tr2tog over next 2 sc; rep from * around, ch 5, join. (8 clusters)",
        "Ch 4, tr in next sc (counts as a cluster), * ch 5, cluster over next 2 sc; rep from * around, ch 5, join. (8 clusters)",
        "Ch 3, dc in next st for first cluster, (ch 4, dc2tog) 7 times, ch 4, join. (8 clusters)",
        "Ch 3, dc in next st—first cluster made, (ch 4, dc2tog) 7 times, ch 4, join. (8 clusters)",
    ],
)
def test_a_first_cluster_begun_by_the_starting_chain(words: str) -> None:
    assert last_of(f"Rnd 1: 16 sc in magic ring, sl st in first sc. (16)\nRnd 2: {words}\n").counted.total == 8


@pytest.mark.parametrize(
    "words",
    [
        "Inc 4 sc evenly spaced, having 2 sc between incs (16 sc).",
        "Inc 4 sc evenly, with 2 sc between increases (16 sc).",
        "Inc 4 sc, having 2 sc between incs, join (16 sc).",
        "1 sc in each sc, inc 4 sc, having 2 sc between incs. (16 sc)",
    ],
)
def test_increases_spread_with_so_many_between_and_the_count_behind(words: str) -> None:
    row = last_of(FRILL + words)
    assert (row.counted.total, row.state) == (16, "agrees")
