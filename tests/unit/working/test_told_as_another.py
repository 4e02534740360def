"""Pieces, sides and rounds told as another; rows divided; rounds that grow in prose; edges nobody counted. All lines are invented."""
# ruff: noqa: E501

from __future__ import annotations

import pytest

from hookwright.reading import read
from hookwright.working import Fabric, RowWork, work


def rows(text: str, part: str, *, size: int = 0) -> list[RowWork]:
    """The worked rows of a part, its foundation left out; every one read whole and worked."""
    fabric: Fabric = work(read(text), size=size)
    found = [row for one in fabric.parts if one.name == part for row in one.rows if not row.foundation]
    bad = [
        (row.label, row.read, row.worked, [t.message for t in row.troubles]) for row in found if (row.read, row.worked) != ("whole", "yes")
    ]
    assert found and not bad, bad
    return found


def totals(text: str, part: str, *, size: int = 0) -> list[int]:
    return [row.counted.total for row in rows(text, part, size=size)]


FLOWER = "FLOWER: Ch 3, join to form ring. 1st ROUND: 6 sc in ring. 2nd ROUND: 2 sc in each sc. 3rd ROUND: 1 sc in each sc.\n\n"


@pytest.mark.parametrize(
    "words",
    [
        "Work 1st 2 rounds same as flower.",
        "With Rust work first 2 rounds same as flower.",
        "Work same as flower until 2 rounds are completed.",
        "Work as for flower for first 2 rounds.",
        "Work same as Flower to end of 2nd round.",
    ],
)
def test_rounds_of_another_piece(words: str) -> None:
    assert totals(FLOWER + f"LEAF: {words} 3rd ROUND: 1 sc in each of next 4 sc, skip 8 sc.\n", "LEAF") == [6, 12, 4]


def test_a_whole_piece_as_another_with_a_chain_of_its_own() -> None:
    text = "BACK: Ch 13, s c in 2nd ch from hook and in each ch across. 2nd ROW: Ch 1, turn, s c in each s c.\n\nFRONT: Ch 9 and work same as back.\n"
    assert totals(text, "FRONT") == [8, 8]


VEST = (
    "BACK: Ch 31, s c in 2nd ch from hook and in each ch across; 30 s c. Ch 1, turn. 2nd ROW: S c in each s c, ch 1, turn. SHAPE ARMHOLES: "
    "Sl st across first 4 sts, ch 1, s c across to within last 4 sts, ch 1, turn. NEXT ROW: Dec 1 st at both ends of row. Repeat last row "
    "once; 18 sts. NEXT ROW: S c in first 6 sts, ch 1, turn. NEXT ROW: Dec 1 st at beg of row, s c in each remaining st. Fasten off. "
)


@pytest.mark.parametrize(
    "words",
    [
        "Skip next 6 sts of last long row, attach yarn in next st and complete to correspond, reversing shaping.",
        "Skip next 6 sts on last long row, attach yarn in next st, ch 1 and work other side to correspond.",
        "With right side facing, skip 6 sts, attach yarn in next st and complete other side to match.",
    ],
)
def test_the_second_side_is_worked_as_the_first(words: str) -> None:
    assert totals(VEST + words + "\n", "BACK") == [30, 30, 22, 20, 18, 6, 5, 6, 5]


def test_what_stands_under_a_heading_is_followed_under_the_same_heading() -> None:
    text = (
        VEST.split(" NEXT ROW: S c in first 6")[0]
        + "\n\nFRONT: Ch 31 and work as for back as far as underarm. SHAPE ARMHOLES: As for back.\n"
    )
    made = totals(text, "FRONT")
    assert made[:2] == [30, 30]
    assert made[2:5] == [22, 20, 18]


def test_slip_stitches_that_begin_a_row_are_lost_to_the_next() -> None:
    text = (
        "Ch 21. Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: Turn, sl st across first 5 sts, sc in each st across. (15 sc)\n"
        "Row 3: Ch 1, turn, sc in each st across. (15 sc)\n"
    )
    assert totals(text, "") == [20, 15, 15]


def test_a_row_that_stops_short_without_a_word_is_still_found() -> None:
    fabric = work(
        read(
            "Ch 21. Row 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in first 8 sts, turn.\nRow 3: Ch 1, sc in each st.\n"
        )
    )
    assert [t.kind for t in fabric.parts[0].rows[2].troubles] == ["too-few"]


HAT = "HAT: Ch 3, join. 1st RND: 8 s c in ring. 2nd RND: 2 s c in each s c. "


@pytest.mark.parametrize(
    "words",
    [
        "Continue to increase in this manner, having 1 more s c between increases, until there are 40 s c.",
        "Continue increasing in same manner until there are 40 s c on round.",
        "Repeat last rnd having 1 more st between increases until there are 40 sts.",
        "Continue to inc in same way, allowing 1 st more between incs each rnd, for 3 rnds.",
        "Repeat in this manner, making the increase 1 st later each time, for 3 rounds.",
    ],
)
def test_a_round_that_grows(words: str) -> None:
    assert totals(HAT + words + "\n", "HAT") == [8, 16, 24, 32, 40]


def test_a_round_that_shrinks() -> None:
    text = (
        "BALL: Ch 3, join. 1st RND: 6 s c in ring. 2nd RND: 5 s c in each s c. 3rd RND: * S c in next 3 s c, dec in next 2 sts. Repeat from * "
        "around. Repeat last rnd having 1 st less between decs until 12 sts remain.\n"
    )
    assert totals(text, "BALL") == [6, 30, 24, 18, 12]


def test_numbered_rounds_that_go_on_through_a_later_one() -> None:
    text = (
        "Ch 3, join.\nRound 1: 6 sc in ring.\nRound 2: * 1 sc in 1st st, 2 sc in next st. Repeat from * around.\n"
        "Round 3: Repeat in this manner, increasing 1 st further on each time. Work through Round 5.\nRound 6: Sc in each sc.\n"
    )
    assert [row.number for row in rows(text, "")] == [1, 2, 3, 4, 5, 6]


@pytest.mark.parametrize(
    ("words", "made"),
    [
        ("Work 4 rounds even.", [12] * 4),
        ("Work 2 more rounds in d c.", [12] * 2),
        ("Work around in s c for 3 rounds.", [12] * 3),
        ("Work even for 3 rounds.", [12] * 3),
        ("Work 1 round without increasing.", [12]),
    ],
)
def test_runs(words: str, made: list[int]) -> None:
    assert totals(f"CAP: Ch 3, join. 1st RND: 6 s c in ring. 2nd RND: 2 s c in each s c. {words}\n", "CAP")[2:] == made


def test_a_run_on_some_of_the_stitches_only() -> None:
    text = (
        "STRAP: Ch 13. 1st row: S c in 2nd ch from hook and in each ch across. Next row: S c in first 4 s c, ch 1, turn. Work on these 4 s c only "
        "for 3 rows. Fasten off. Skip next 4 s c on last long row, attach yarn in next s c and complete other side to correspond.\n"
    )
    assert totals(text, "STRAP") == [12, 4, 4, 4, 4, 4, 4, 4, 4]


def test_an_edge_takes_its_own_count_and_the_next_round_stands_on_it() -> None:
    text = (
        "BACK: Ch 11, s c in 2nd ch from hook and in each ch across. Fasten off.\n\nARMHOLE EDGE: Work 24 s c around armhole, join, do not turn. "
        "2nd ROUND: * Dec 1 st in next 2 sts, s c in next 4 s c, repeat from * around, join.\n"
    )
    assert totals(text, "ARMHOLE EDGE") == [24, 20]


def test_an_edge_without_a_count_leaves_the_next_round_unchecked() -> None:
    text = (
        "MAT: Ch 11, s c in 2nd ch from hook and in each ch across. Fasten off.\n\nEDGING: Attach Blue in any corner, s c around entire edge, join. "
        "2nd ROUND: * Ch 3, skip 1 s c, s c in next s c, repeat from * around, join.\n"
    )
    assert [t for row in rows(text, "EDGING") for t in row.troubles] == []


def test_sizes_told_in_brackets() -> None:
    pattern = read(
        "Directions are for small size. Changes for large size are in parentheses.\n\nCUFF: Ch 9 (11), s c in 2nd ch from hook and in each ch across.\n"
    )
    assert pattern.sizes == 2
    assert [work(pattern, size=k).parts[0].rows[-1].counted.total for k in (0, 1)] == [8, 10]


@pytest.mark.parametrize(
    ("words", "made"),
    [
        ("* dc in next dc, 2 dc, ch 2, 2 dc in next sp; rep from * around, join.", [8, 20]),
        ("* dc in next dc, 3 dc, ch 3, 3 dc in next loop; rep from * around, join.", [8, 28]),
    ],
)
def test_stitches_round_a_chain_go_into_the_one_place_told(words: str, made: list[int]) -> None:
    text = (
        "Ch 4, join to form ring.\nRnd 1: Ch 1, 4 dc in ring, join.\nRnd 2: Ch 1, * 2 dc in next dc, ch 1; rep from * around, join.\n"
        f"Rnd 3: Ch 1, * skip next dc, dc in next dc, {words.split(', ', 1)[1]}\n"
    )
    assert totals(text, "")[1:] == made


def test_the_group_a_round_begins_with_is_counted_among_the_shells() -> None:
    text = (
        "Rnd 1: Ch 5, join to form ring, ch 3, 2 dc in ring, ch 2, * work a shell of 3 dc in same sp, ch 2; rep from * twice, join in top of ch-3 "
        "(4 shells).\n"
    )
    assert [row.state for row in rows(text, "")] == ["agrees"]


def test_two_stitches_before_the_first_place_are_both_in_it() -> None:
    text = "Ch 11. Row 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc, dc in 1st sc (inc), sc in each remaining st. (11 sts)\n"
    assert totals(text, "") == [10, 11]


def test_a_chain_told_by_its_length_has_no_number() -> None:
    fabric = work(read("TIE: With Red, make a ch 40 inches long. Fasten off.\n"))
    assert not any(row.troubles or row.counted.total for part in fabric.parts for row in part.rows)


@pytest.mark.parametrize("words", ["Make another sock the same.", "Make second mitten in same manner.", "Make 2 pieces alike."])
def test_further_copies_ask_for_no_stitches(words: str) -> None:
    text = f"SOLE: Ch 6, s c in 2nd ch from hook and in each ch across. 2nd ROW: Ch 1, turn, s c in each s c. Fasten off. {words}\n"
    assert totals(text, "SOLE") == [5, 5]


def test_dec_evenly_on_the_next_rounds() -> None:
    text = (
        "CAP: Ch 3, join. 1st RND: 6 s c in ring. 2nd RND: 3 s c in each s c. Dec 3 sts evenly on next 2 rounds. Draw opening together.\n"
    )
    assert totals(text, "CAP") == [6, 18, 15, 12]


def test_the_last_chain_of_a_round_spans_what_was_slipped_over() -> None:
    text = (
        "Ch 4, join to form ring.\nRnd 1: Ch 1, 24 sc in ring, join.\nRnd 2: Sl st in next 2 sc, sc in next 2 sc, * ch 7, skip 4 sc, sc in next "
        "2 sc; rep from * around, ending with ch 7, join.\n"
    )
    assert [row.counted.by_kind.get("sc", 0) for row in rows(text, "")] == [24, 8]


def test_same_as_last_names_the_row_before() -> None:
    assert (
        totals(
            "Ch 11. 1st row: Sc in 2nd ch from hook and in each ch across. 2nd row: Ch 1, turn, sc in each sc. 3rd row: Same as last.\n", ""
        )
        == [10] * 3
    )
