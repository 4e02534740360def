"""Lace as period writers tell it: many ways of one meaning. Every line is invented."""

import pytest

from hookwright.reading.rows import Context, Lexicon, read_row
from hookwright.reading.shown import shown
from hookwright.reading.wording.characters import plain


def said(words: str, *, rounds: bool = True, old: bool = False) -> str:
    reading = read_row(plain(words), Context(main="sc", rounds=rounds, old=old), Lexicon())
    return shown(reading.steps, reading.counts)


@pytest.mark.parametrize(
    "words",
    [
        "4 dc over next ch-3",
        "4 dc under next ch 3",
        "4 dc in next ch-3",
        "4 dc in next ch-3 loop",
        "4 d c over the next 3-ch loop",
    ],
)
def test_a_chain_worked_round_is_its_space(words: str) -> None:
    assert said(words) == "4dc@next ch-3 sp"


@pytest.mark.parametrize(
    "words",
    [
        "ch 3, dc in next sp, this completes 1 pattern",
        "ch 3, dc in next sp, which brings thread to position for next row",
        "ch 3, dc in next sp. This forms the first scallop",
    ],
)
def test_what_a_row_has_done_is_a_remark(words: str) -> None:
    assert said(words) == "ch3, dc@next sp"


@pytest.mark.parametrize(
    "words",
    [
        "ch 3, working along short side, dc in end of next row",
        "ch 3 and work across narrow edge, d c over end of next row",
        "ch 3, start border, dc in end of next row",
        "ch 3, now working along the left side, 1 dc in end st of next row",
    ],
)
def test_the_edge_of_a_piece(words: str) -> None:
    assert said(words, rounds=False) == "ch3, dc@row_end row"


@pytest.mark.parametrize(
    "words",
    [
        "* ch 5, sc in next loop; repeat from * around, ending ch 2, dc in first sc",
        "* ch 5, sc in next loop, rep from * around, end with ch 2, d c in 1st s c.",
        "* Ch 5, s c in next loop. Repeat from * around, ending with ch 2, dc in first sc made.",
    ],
)
def test_a_round_closed_by_a_stitch(words: str) -> None:
    assert said(words) == "[ch5, sc@next sp]×rest, join(ch2, dc@first sc)"


def test_the_thread_round_the_needle_is_no_stitch() -> None:
    assert said("d tr c (3 times over needle) in next sp, ch 2") == "dtr@next sp, ch2"
    assert said("tr (thread over twice) in next st") == "tr"


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("3 plain in the 5 chain, miss 1", "[3sc@next ch-5 sp, skip]×rest"),
        ("1 plain in the 3 chain of the last row, 4 chain: repeat", "[sc@next ch-3 sp, ch4]×rest"),
        ("4 chain, 6 long; repeat", "[ch4, skip4 any, dc×6@next any]×rest"),
        ("(2 chain, miss 2, 1 plain 3 times), 9 chain, miss 4, 1 plain; repeat.", "[[ch2, skip2, sc]×3, ch9, skip4, sc]×rest"),
        ("(Miss 1, 4 plain in the 4 chain twice), 1 treble: repeat", "[[skip, 4sc@next ch-4 sp]×2, dc]×rest"),
    ],
)
def test_old_books_give_a_unit_with_the_number_first(words: str, expected: str) -> None:
    reading = read_row(plain(words), Context(terms="UK", old=True), Lexicon())
    assert shown(reading.steps, reading.counts) == expected


@pytest.mark.parametrize(
    "words",
    [
        "3 dc, ch 2 and 3 dc in next ch-5 loop",
        "3 dc, ch 2, 3 dc in next ch-5 sp",
        "3 d c, 2 ch, 3 d c under next 5-ch loop",
    ],
)
def test_a_list_told_before_its_place_goes_into_it(words: str) -> None:
    assert said(words) == "{3dc@same st, ch2, 3dc@same st}@next ch-5 sp"


@pytest.mark.parametrize(
    "words", ["Ch 4 for a tr, tr in next sp", "4 ch for the first tr, 1 tr in next sp", "Ch 4 for 1 tr, 1 tr in next sp"]
)
def test_a_chain_for_a_stitch_counts(words: str) -> None:
    assert said(words) == "ch4=tr, tr@next sp"


@pytest.mark.parametrize(
    "words", ["Sl st across to next sp, ch 3", "Sl st along to the centre of next loop, ch 3", "sl st up to next loop, ch 3"]
)
def test_slip_stitches_travel_to_a_place(words: str) -> None:
    assert said(words) == "sl st@next sp, ch3"


@pytest.mark.parametrize(
    "words",
    ["sl st in corresponding loop on First Motif", "sl st in a loop of previous motif", "sl st in next loop of 1st Motif", "sl st in facing loop on adjoining motif"],  # noqa: E501
)  # fmt: skip
def test_a_loop_of_another_motif_is_no_place_of_this_one(words: str) -> None:
    assert said(f"ch 2, {words}, ch 2, 3 dc in next sp of this motif") == "ch2, sl st@marked piece, ch2, 3dc@next sp"


def test_where_stitches_are_is_told_after_them() -> None:
    reading = read_row(
        plain("4 chain, miss 7, 3 plain; the 3 plain are in the middle of the 6 chain in the 5th round."),
        Context(terms="UK", old=True),
        Lexicon(),
    )
    assert "???" not in shown(reading.steps, reading.counts)
