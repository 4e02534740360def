"""Clauses of printed leaflets that say in passing what a row is, how far it goes, or what is left: in whole pieces, worked."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

from .told import worked_rows

STRIP = "STRIP: Ch 16, sc in 2nd ch from hook and in each ch across, turn.\nRow 2: Ch 1, {}, turn."
BAND = "BAND: Ch 13, sc in 2nd ch from hook and in each ch across, turn.\nRow 2: Ch 1, sc in first 7 sc{}"
PANEL = "PANEL: Ch 20, sc in 2nd ch from hook and in each ch across, turn. Row 2: Ch 1, sc in each sc across, turn. {}"
WRAP = "WRAP: Ch 30, dc in 6th ch from hook{}, * skip 2 ch, V-st in next ch, repeat from * across, turn.\nRow 2: Ch 4, {}, turn."


def totals(text: str) -> list[int]:
    return [row.counted.total for row in worked_rows(text)]


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("2 sc in first sc (inc for the heel), sc in each sc across", 16),
        ("sc in each sc to last sc, 2 sc in last sc (increase made at the neck)", 16),
        ("2 sc in first sc (1st inc), sc in each sc to last sc, 2 sc in last sc (another increase)", 17),
        ("skip first sc (a dec for the armhole), sc in each sc across", 14),
        ("sc2tog over first 2 sts (decrease toward tip), sc in each sc across", 14),
        ("sc in each sc across (inc at neck edge)", 16),
    ],
)
def test_a_shaping_named_behind_what_made_it_is_not_worked_again(words: str, total: int) -> None:
    assert totals(STRIP.format(words)) == [15, total]


@pytest.mark.parametrize(
    "words",
    [
        "With 2 strands of Rust held together work a ch 40 (44, 48) inches long, cut yarn.",
        "With Rust and Cream held tog work a ch 20 inches long. Lace through the holes.",
        "With Rust make 3 chains 9 inches long and sew them on.",
        "Make a chain, 24 ins long, break off.",
        "Make 4 chains each 7 in. long.",
        "Work a ch for about 50 cm, fasten off.",
    ],
)
def test_a_cord_told_by_its_length_has_no_counted_chain(words: str) -> None:
    pattern = read(f"CORD: {words}")
    assert [row.label for part in work(pattern).parts for row in part.rows] == []
    assert [one for one in proof(pattern, (work(pattern),)) if one.severity != "note" or one.rule == "unread"] == []


def test_a_length_beside_the_number_of_chains_changes_nothing() -> None:
    assert totals("LOOP: Ch 15, about 4 inches, join with sl st to form ring.\nRnd 1: 20 sc in ring, join.") == [20]
    assert totals("MAT: Ch 15 (about 4 inches), sc in 2nd ch from hook and in each ch across.") == [14]


@pytest.mark.parametrize("words", ["With Rust and Cream held tog", "Using A and B together,", "With pink and grey yarn worked together,"])
def test_two_yarns_held_together_are_one(words: str) -> None:
    assert totals(f"HAT: {words} ch 20, sc in 2nd ch from hook and in each ch across.") == [19]


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("3 sc in end of each row down to point, 5 sc in point, 3 sc in end of each row along other side", 3 * 6 + 5 + 3 * 6),
        ("1 sc in each row end down one side to corner, 3 sc in corner, 2 dc in end of every row up the other side", 6 + 3 + 12),
        ("1 sc in each row end along side", 6),
    ],
)
def test_the_ends_of_rows_down_one_side_and_up_the_other(words: str, total: int) -> None:
    flag = "FLAG: Ch 9, sc in 2nd ch from hook and in each ch across, turn.\nRows 2-6: Ch 1, sc in each sc across, turn.\n"
    assert totals(f"{flag}EDGING: Row 1: {words}.")[-1] == total


@pytest.mark.parametrize(
    "words",
    [
        "Repeat Row 2 until there are 12 rows, working colors as follows: * 3 rows Rust, 1 row Cream, repeat from * once.",
        "Repeat Row 2 for 10 more rows, in the following stripe sequence: 3 rows A, 2 rows B, 3 rows A.",
        "Repeat Row 2, alternating 2 rows Rust with 2 rows Cream, until there are 12 rows.",
        "Rows 3-12: Ch 1, sc in each sc across, turn, working in stripes of 4 rows A, 2 rows B.",
    ],
)
def test_the_colours_of_rows_ask_for_no_stitches(words: str) -> None:
    assert totals(f"{STRIP.format('sc in each sc across')}\n{words}") == [15] * 12


@pytest.mark.parametrize(
    "words",
    [
        ", leave remaining sts free, turn.",
        ", leaving the rest free, turn.",
        ", leave the rest of the sts free for the thumb.",
        "; remaining sts are left free.",
        ", turn. The remaining 5 sts are left unworked.",
        ", turn, 5 sts remain free.",
        ", turn (5 sts remain unworked).",
        "; the other 5 sts will remain free, turn.",
        ". 5 sc will remain free at the other end. Turn.",
    ],
)
def test_what_is_told_to_stay_free_is_left(words: str) -> None:
    text = BAND.format(words)
    assert totals(text) == [12, 7]
    pattern = read(text)
    assert [one.rule for one in proof(pattern, (work(pattern),)) if one.rule.startswith("row-uses")] == []


@pytest.mark.parametrize("made", ["", " (V-st made)", " (first V-st)"])
@pytest.mark.parametrize(
    "words",
    ["dc in center of first V-st, V-st in each V-st across", "dc in first V-st, * V-st in center of next V-st, repeat from * across"],
)
def test_a_row_begins_in_the_first_of_the_groups_below(made: str, words: str) -> None:
    rows = worked_rows(WRAP.format(made, words))
    assert rows[1].counted.by_kind["dc"] == 2 * rows[1].counted.by_kind["V-st"]
    assert rows[1].counted.by_kind["V-st"] == rows[0].counted.by_kind["V-st"]


@pytest.mark.parametrize(
    ("words", "after"),
    [
        ("Work 3 rows even, then dec 1 st at neck edge in next 2 rows.", [19, 19, 19, 18, 17]),
        ("Work 3 rows even and dec 1 st at finger tip in each of the next 2 rows.", [19, 19, 19, 18, 17]),
        ("Work 3 rows even, inc 1 st at each end of next row.", [19, 19, 19, 21]),
        ("Work 2 rows even and then inc 1 st each end of next 2 rows.", [19, 19, 21, 23]),
        ("Continue in this manner inc 1 st at side edge every 2nd row until there are 21 sts.", [19, 20, 20, 21]),
        ("Continue in this way having sc on right side rows and sc on wrong side rows, inc 1 st at side edge every 2nd row until there are "
         "21 sts.", [19, 20, 20, 21]),
        ("Next row: Work in pattern across first 8 sts, ch 1, turn. Work even in pattern on these sts for 3 more rows.", [8, 8, 8, 8]),
    ],
)  # fmt: skip
def test_rows_even_and_rows_shaped_in_one_sentence(words: str, after: list[int]) -> None:
    text = PANEL.format(words)
    assert totals(text) == [19, 19, *after]
    pattern = read(text)
    assert [one for one in proof(pattern, (work(pattern),)) if one.severity != "note"] == []
