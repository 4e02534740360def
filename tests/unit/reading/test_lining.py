"""Row labels, parts, unlabelled rows and counts: invented lines in every form that the trade prints."""

from __future__ import annotations

import pytest

from hookwright.pattern import Pattern, Row
from hookwright.reading import read
from hookwright.reading.shown import shown


def rows(text: str) -> list[Row]:
    return [row for part in read(text).parts for row in part.rows]


def labels(text: str) -> list[tuple[str, tuple[int, ...]]]:
    return [(row.label, row.numbers[0] if row.numbers else ()) for row in rows(text)]


@pytest.mark.parametrize(
    ("line", "label", "numbers"),
    [
        ("Row 4: sc in next 3 sts", "Row 4", (4,)),
        ("**Row 4:** sc in next 3 sts", "Row 4", (4,)),
        ("Rnd4: sc in next 3 sts", "Rnd 4", (4,)),
        ("ROW 4 – sc in next 3 sts", "Row 4", (4,)),
        ("Row 4 hdc in next 3 sts", "Row 4", (4,)),
        ("R4) sc in next 3 sts", "Row 4", (4,)),
        ("4th row: sc in next 3 sts", "Row 4", (4,)),
        ("2d row—Sc in next 3 sts", "Row 2", (2,)),
        ("6th ROW. Sc in next 3 sts", "Row 6", (6,)),
        ("4 row: sc in next 3 sts", "Row 4", (4,)),
        ("Twenty-first row: sc in next 3 sts", "Row 21", (21,)),
        ("Row 4 and on: sc in next 3 sts", "Row 4", (4,)),
        ("Row 4 and all following rows: sc in next 3 sts", "Row 4", (4,)),
        ("Rows 3-6: sc in next 3 sts", "Rows 3-6", (3, 4, 5, 6)),
        ("Rows 3 - 6: sc in next 3 sts", "Rows 3-6", (3, 4, 5, 6)),
        ("Rows 3 thru 6: sc in next 3 sts", "Rows 3-6", (3, 4, 5, 6)),
        ("Rnds 6 & 7: sc in next 3 sts", "Rnds 6 & 7", (6, 7)),
        ("Rnd 8 to Rnd 11 (4 rounds): sc in next 3 sts", "Rnds 8-11", (8, 9, 10, 11)),
        ("2nd, 3rd and 4th rows: sc in next 3 sts", "Rows 2, 3 and 4", (2, 3, 4)),
        ("3rd to 8th rows incl: sc in next 3 sts", "Rows 3-8", (3, 4, 5, 6, 7, 8)),
        ("Row 2 (RS, colour B): sc in next 3 sts", "Row 2", (2,)),
        ("Rib Row 2: sc in next 3 sts", "Rib Row 2", (2,)),
        ("Next row: sc in next 3 sts", "Next row", ()),
        ("NEXT 3 ROWS: sc in next 3 sts", "Next 3 rows", ()),
        ("Row 1- 1 dc in next 3 sts", "Row 1", (1,)),
    ],
)
def test_label(line: str, label: str, numbers: tuple[int, ...]) -> None:
    assert labels(line) == [(label, numbers)]


def test_labels_run_on_in_one_paragraph_and_glued() -> None:
    text = "Ch 21. Row 1: Sc in 2nd ch from hook and in each ch across, turn.Row 2: Ch 1, sc in each sc, turn. Row 3: Same as 2nd row."
    assert labels(text) == [("Foundation", ()), ("Row 1", (1,)), ("Row 2", (2,)), ("Row 3", (3,))]


def test_a_row_named_inside_a_sentence_opens_none() -> None:
    assert [label for label, _ in labels("Row 5: Work as for Row 3: no.\nRow 6: sc around, same as\n2nd row. ")] == ["Row 5", "Row 6"]


def test_unlabelled_first_row_after_a_chain() -> None:
    found = rows("Ch 37, dc in 4th ch from hook and in each ch across, ch 3, turn.\n\n2nd row: Dc in each dc across.")
    assert [(row.label, row.numbers) for row in found] == [("Row 1", ((1,),)), ("Row 2", ((2,),))]
    assert shown(found[0].steps).startswith("ch37, dc@from_hook ch#4")
    assert found[0].steps[0].foundation  # type: ignore[union-attr]


def test_repeat_sentence_is_a_row_of_its_own() -> None:
    found = rows("Row 2: Ch 1, sc in each sc across. Repeat Row 2 nine times. Fasten off.")
    assert [(row.label, shown(row.steps), str(row.rows_count)) for row in found] == [
        ("Row 2", "ch1, sc×rest@next sc", "None"),
        ("Repeat", "as rows 2, fasten off", "9"),
    ]


def test_until_a_length_or_a_count() -> None:
    found = rows("Row 1: Sc across.\nRepeat Row 1 until piece measures 9 (9½, 10) inches.\nRepeat last row until 6 sts remain.")
    assert [row.until and (row.until.length_cm or row.until.stitches) for row in found[1:]]
    assert found[1].until is not None and found[1].until.length_cm is not None and found[1].until.length_cm.values == (22.86, 24.13, 25.4)
    assert found[2].until is not None and found[2].until.stitches is not None and found[2].until.stitches.values == (6,)


def test_rows_told_by_parity() -> None:
    text = "Row 1: Sc across.\nRow 2 and all even rows: Ch 1, sc across.\nRow 3: Dc across.\nRow 5: Tr across.\nRow 6: Hdc across.\nRow 8: Hdc across."  # noqa: E501
    assert labels(text)[1] == ("Row 2", (2, 4))


def test_row_numbers_that_begin_again_begin_a_part() -> None:
    text = "HEAD\nRnd 1: 6 sc in MR (6)\nRnd 2: 6 inc (12)\n\nEars (make 2)\nRnd 1: 5 sc in MR (5)\nRnd 2: sc around (5)\n"
    assert [(part.name, part.copies.values, len(part.rows)) for part in read(text).parts] == [("HEAD", (1,), 2), ("Ears", (2,), 2)]


def test_prose_between_rows_is_set_aside() -> None:
    text = "Row 1: Ch 1, sc across. (12)\n\nHere you can see how it looks so far, isn't it lovely?\n\nRow 2: Ch 1, sc across. (12)\n\nFollow me for more!\n"  # noqa: E501
    pattern = read(text)
    assert [row.label for row in pattern.parts[0].rows] == ["Row 1", "Row 2"]
    assert not [trouble for trouble in pattern.troubles if trouble.kind == "unread"]
    assert any("lovely" in span.of(text) for span in pattern.notes)


COUNTS = [
    ("(36 dc)", [("36", "dc")]),
    ("(36)", [("36", "st")]),
    ("[24]", [("24", "st")]),
    ("{24 sts}", [("24", "st")]),
    ("<24>", [("24", "st")]),
    ("= 24 sc", [("24", "sc")]),
    ("(= 24)", [("24", "st")]),
    ("—24 sc.", [("24", "sc")]),
    ("-- 24 sc total", [("24", "sc")]),
    (". You should have 24 stitches.", [("24", "st")]),
    (". This makes 24 sc.", [("24", "sc")]),
    (". 24 sts.", [("24", "st")]),
    ("(8 sps)", [("8", "sp")]),
    ("(12 hdc, 6 ch-2 sps)", [("12", "hdc"), ("6", "ch-2 sp")]),
    ("(38 (42, 46) sts)", [("38 (42, 46)", "st")]),
    ("(about 57 sts)", [("57", "st")]),
]


@pytest.mark.parametrize(("words", "expected"), COUNTS)
def test_count(words: str, expected: list[tuple[str, str]]) -> None:
    found = rows(f"Rnd 2: Hdc in each st around{'' if words[0] in '.—' else ' '}{words}")
    assert [(str(count.number), count.kind) for count in found[0].stated] == expected
    assert shown(found[0].steps) == "hdc×rest"


def test_counts_say_what_they_count() -> None:
    stated = rows("Row 2: Dc across. (30 dc, counting turning ch)")[0].stated[0]
    assert stated.turning_chain is True
    assert rows("Row 2: Dc across. (9 sc in each section)")[0].stated[0].per == "section"
    assert rows("Row 2: Dc across. (about 57 sts)")[0].stated[0].approximate


def unread_words(pattern: Pattern) -> list[str]:
    return [str(trouble.data["words"]) for trouble in pattern.troubles if trouble.kind == "unread"]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        (
            "2nd row: Ch 5 (= dc + ch 2), turn, * skip 3 sts, hdc in next, ch 2; repeat from * 8 times, dc in last st.",
            "ch5=dc+ch 2, turn, [skip3, hdc, ch2]×8 more, dc@last st",
        ),
        ("Rnd 5: *4 sc, inc* x 6 [36]", "[sc×4, 2sc]×6"),
        ("NEXT 4 ROWS: Lose 1 st at both edges—22 (26, 30) sts.", "shape−1 each_end"),
        (
            "ROW 3: 2 S c in 1st sp, * ch 4, skip 2 d c, 2 s c in next sp; rep from * to last sp, s c in turning ch.",
            "2sc@first sp, [ch4, skip2 dc, 2sc@next sp]×to last 1, sc@named tch",
        ),
        (
            "Row 7: with B, 3 hdc, FPdc around next 2 dc 2 rows below, skip 2 hdc, hdc in last 3, turn—8 sts.",
            "B:, hdc×3, FPdc×2@next dc↓1, skip2 hdc, hdc×3@last st, turn",
        ),
        (
            "Rib Row 2: Sl st in next 2 sts of Body Row 40, turn, skip both sl sts, sc BLO in next 8 sc. (8 sc)",
            "sl st×2@next st of Body Row 40, turn, skip2 sl st, sc×8@next sc/back",
        ),
        (
            "Row 21 (RS): Skip next 12 unworked sts of Row 18, join B in next st, ch 2 (does not count), dc2tog over same and next st, dc to end. (15 dc)",  # noqa: E501
            "skip12, +B:, ch2 not counted, dc2tog@same st, dc×rest",
        ),
        (
            "Row 12: Dc in first 4 sts, *skip 2 sts, FPtr around next 2 FPtr 2 rows below, in front of these FPtr around 2 skipped FPtr, dc in next 4; "  # noqa: E501
            "rep across. (36 sts)",
            "dc×4@first st, [skip2, FPtr×2@next FPtr↓1, FPtr×2@skipped FPtr, dc×4]×rest",
        ),
    ],
)
def test_lines_of_many_kinds(line: str, expected: str) -> None:
    pattern = read(f"US terms\n\n{line}")
    assert shown(pattern.parts[0].rows[0].steps) == expected
    assert unread_words(pattern) == []


def test_the_far_side_of_a_chain() -> None:
    text = (
        "Ch 10. Rnd 1: Sc in 2nd ch from hook, sc in next 7 ch, 3 sc in last ch; along opposite side sc in next 7 ch, "
        "2 sc in last ch (with first sc). (20 sc)"
    )
    steps = rows(text)[1].steps
    assert shown(steps) == "sc@from_hook ch#2, sc×7@next ch, 3sc@last ch, sc×7@under ch, 2sc@last ch"


def test_free_loops_of_an_earlier_round() -> None:
    text = (
        "Rnd 9: Behind Rnd 8, in free front lps of Rnd 6: sl st in first lp, *ch 5, skip 3 lps, sl st in next; rep around, "
        "ending ch 5, skip 3, join. (9 ch-5 lps)"
    )
    row = rows(text)[0]
    assert shown(row.steps).startswith("sl st@first st/free_front of Rnd 6, [ch5, skip3, sl st@next st/free_front of Rnd 6]×rest")
    assert [(str(count.number), count.kind) for count in row.stated] == [("9", "ch-5 sp")]


def test_full_stops_hide_no_single_crochet() -> None:
    assert read("1st row—Miss 1 ch., 1 s. c. in each ch. 2nd row—Ch. 3, miss 1, 1 d. c. in next.").terms == "US"
    assert read("1st row: 3 ch., miss 1, 1 tr. in each; s.c. to the next. 2nd row: 4 ch., miss 2, 1 d.c. in 4 ch.").terms == "UK"


@pytest.mark.parametrize(
    ("told", "terms"),
    [
        ("D. c., double crochet (insert hook, draw loop through); t. c., treble crochet (thread over once before inserting hook).", "UK"),
        ("Double crochet: thread over, insert hook. Treble crochet: thread over twice, insert hook.", "US"),
    ],
)
def test_what_the_hook_does_tells_the_terms(told: str, terms: str) -> None:
    assert read(f"{told} 1st row: 1 t. c. in each d. c.").terms == terms


def test_terms_are_decided_from_evidence() -> None:
    uk = read("Row 1: 1 dc into each ch, miss 1 ch, 1 htr into next ch.\n")
    assert (uk.terms, shown(uk.parts[0].rows[0].steps)) == ("UK", "sc×rest@next ch, skip ch, hdc@next ch")
    us = read("Row 1: Sc in each ch, skip 1 ch, dc in next ch.\n")
    assert us.terms == "US" and "single" in us.terms_because
    assert any(trouble.kind == "mixed-terms" for trouble in read("US terms\nRow 1: sc in next st, htr in next st.").troubles)


def test_slips_of_typing_are_read_by_the_nearest_word() -> None:
    pattern = read("Row 2: Ch 1, sc in eahc st acrosss, trun.\n")
    assert shown(pattern.parts[0].rows[0].steps) == "ch1, sc×rest, turn"
    assert [(trouble.data["word"], trouble.data["meant"]) for trouble in pattern.troubles if trouble.kind == "typo"] == [
        ("eahc", "each"), ("acrosss", "across"), ("trun", "turn"),
    ]  # fmt: skip


def test_groups_that_the_pattern_defines() -> None:
    pattern = read("Special Stitches\nFan: (3 tr, ch 1, 3 tr) in st indicated.\n\nRow 1: Ch 1, sc in first st, fan in next st.\n")
    assert shown(pattern.defined["fan"].steps) == "3tr@same st, ch1, 3tr@same st"
    assert shown(pattern.parts[0].rows[0].steps) == "ch1, sc@first st, fan{3tr@same st, ch1, 3tr@same st}"


def test_base_on_a_line_of_its_own_is_no_label_of_the_numbered_row_below_it() -> None:
    text = (
        "Work with two strands.\n\nBASE\n1. 8 sc in magic ring, sl st in first sc. (8)\n2. Ch 1, 2 sc in each sc, sl st in first sc. (16)\n"
    )
    assert labels(text)[-2:] == [("Row 1", (1,)), ("Row 2", (2,))]


def test_a_sentence_in_slanting_letters_and_the_terms_told_in_them_head_no_part() -> None:
    rows = "**Row 1:** 1 dc in 2nd ch from hook, 1 dc in each ch to end. (10 dc)\n"
    for said in (
        "*UK terms are used throughout.*",
        "*Turning chains never count as stitches.*",
        "**Written in UK terms**",
        "_UK terminology_",
    ):
        assert [part.name for part in read(f"# Flagstone mat\n\n{said}\n\n11 ch.\n\n{rows}").parts] == ["Flagstone mat"], said


def test_a_mark_shown_as_it_is_in_markdown_is_that_mark() -> None:
    pattern = read("**Row 1:** \\*Sc in next st, 2 sc in next st; rep from \\* around. (24 sc)\n")
    assert "\\" not in str(pattern.parts[0].rows[0].steps)
    assert (
        pattern.parts[0].rows[0].steps
        == read("**Row 1:**  *Sc in next st, 2 sc in next st; rep from  * around. (24 sc)\n").parts[0].rows[0].steps
    )


@pytest.mark.parametrize("mark", ["_", "*", "**"])
def test_slanting_and_bold_labels_in_running_words(mark: str) -> None:
    text = (
        f"Coaster. Ch 9. {mark}1st row{mark}: Sc in 2nd ch from hook and in each ch, ch 1, turn. {mark}2nd row{mark}: Sc in each sc, ch 1, "
        f"turn. {mark}3rd to 5th rows{mark} incl: Repeat 2nd row. {mark}Rows 6-8{mark}, inclusive: Repeat 2nd row."
    )
    rows = read(text).parts[0].rows
    assert [row.numbers_at(0) for row in rows if row.numbers] == [(1,), (2,), (3, 4, 5), (6, 7, 8)]
