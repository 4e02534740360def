"""Borders and crossed stitches as pages tell them: sides by their length, places passed over, crosses counted two by two. All ours."""

import pytest

from .told import worked_rows

PIECE = "Row 1: ch 7, sc in 2nd ch from hook and across (6)\nRows 2-8: ch 1, turn, sc across (6)\n"
CROSSED = "Row 1: ch 25, sc in 2nd ch from hook and across (24)\nRow 2: ch 3 (counts as dc), "


@pytest.mark.parametrize(
    "words",
    [
        "Edge: sc all round in Moss, 4 along each short side, 8 along each long side, 3 sc in each corner. (36)",
        "Border: Sc evenly around, 4 sc along each short side, 8 sc along each long side and 3 sc in each corner (36 sc)",
        "Border: Sc around with 8 sc on each long side, 4 sc on each short side, 3 sc in corners (36)",
        "Edging: work sc around the piece, 8 on the long sides and 4 on the short sides, with 3 sc in every corner (36 sc)",
        "Border: 8 sc down each side, 4 sc across top and bottom, 3 sc in each corner (36)",
        "Border: sc around edge, 3 sc in each corner, 8 sc per long side and 4 per short side (36)",
        "Edging: put 8 sc along both long sides, 4 sc along both short ends and 3 sc in every corner, sl st to first sc. (36 sc)",
    ],
)
def test_long_and_short_sides_by_turns_with_their_corners(words: str) -> None:
    rows = worked_rows(PIECE + words)
    assert (rows[-1].counted.total, rows[-1].worked, [told.kind for told in rows[-1].troubles]) == (36, "yes", [])


@pytest.mark.parametrize(
    "words",
    [
        "*skip 1 st, dc in next st, dc back in the skipped st; rep from * to last st, dc in last st. (11 cross sts, 2 dc)",
        "*sk 1, dc in next, go back and dc in the skipped st* repeat across, dc in last (11 X-sts, 2 dc)",
        "*skip a stitch, dc in the next, then dc in the one you skipped; rep from * across, dc in last st (11 crosses and 2 dc)",
        "*skip 1 st, dc in next st, dc backwards into skipped st* across, dc in last st (24 sts)",
        "*skip next st, dc in next st, go back to the st you skipped and dc in it; rep from * across, dc in last st (11 crossed pairs)",
        "*skip 1, dc in next, dc in front of it in the skipped st; rep from * across, dc in last (2 dc, 11 crossed dc)",
    ],
)
def test_stitches_crossed_over_the_one_passed_over(words: str) -> None:
    last = worked_rows(CROSSED + words)[-1]
    feet = [next(iter(last.stitches.feet_of(i)))[1] for i in last.stitches.counted()]
    assert [feet[0] - foot for foot in feet[:5]] == [0, 2, 1, 4, 3]
    assert (len(feet), [told.kind for told in last.troubles]) == (24, [])


def test_crosses_that_are_too_few_are_found() -> None:
    row = worked_rows(f"{CROSSED}*skip 1 st, dc in next st, dc in skipped st; rep from * to last st, dc in last st. (24 dc)")[-1]
    assert row.state == "agrees"
    with pytest.raises(AssertionError):
        worked_rows(f"{CROSSED}*skip 1 st, dc in next st, dc in skipped st; rep from * to last st, dc in last st. (11 cross sts, 3 dc)")


@pytest.mark.parametrize(
    "words",
    [
        "rep from *, at the end ch 1 in place of the ch 2, dc in last sc",
        "rep from * across, ending with ch 1 instead of ch 2, dc in last sc",
        "rep from * across, replacing the last ch 2 with ch 1, dc in last sc",
        "rep from * across, ch 1 for the last ch 2, dc in last sc",
        "rep from * across, at end of row ch 1 instead of 2, dc in last sc",
    ],
)
def test_the_last_repeat_s_chain_is_of_another_length(words: str) -> None:
    text = f"Row 1: ch 15, sc in 2nd ch from hook and across (14)\nRow 2: Ch 4 (= dc, ch 1), *skip 1, dc in next st, ch 2; {words}."
    row = worked_rows(text)[-1]
    assert (row.counted.total, row.counted.by_kind["ch-2 sp"], row.counted.by_kind["ch-1 sp"]) == (8, 5, 2)


@pytest.mark.parametrize(
    "told", ["The swatch was begun with 27 ch.", "(Swatch: 27 ch)", "Sample has 27 chains.", "I began with a chain of 27."]
)
def test_the_chain_of_the_swatch_founds_the_piece(told: str) -> None:
    rows = "Row 1: Sc in 2nd ch from hook, *ch 4, sk 4 ch, sc in next ch; rep from * to end, turn."
    assert worked_rows(f"# Wave pattern\n\nMultiple of 5 + 2. {told}\n{rows}")[-1].counted.total == 6


@pytest.mark.parametrize(
    ("band", "words"),
    [
        ("same again. Sl st the ends together, do not cut.", "ch 1 (is the first sc), sc in the end of each of the other 9 brim rows"),
        ("as row 2. Join both ends with sl st.", "ch 1, 1 sc in each brim row around, sl st to join (10)"),
        ("as row 2, then slip stitch short edges together", "ch 1, sc in end of each of the 10 rows. Join. (10 sc)"),
    ],
)  # fmt: skip
def test_a_band_is_closed_and_met_at_its_row_ends(band: str, words: str) -> None:
    brim = "Brim\nCh 6.\nRow 1: sc in 2nd ch from hook and in each ch across (5)\nRow 2: ch 1, turn, sc in the back loop of each st (5)\n"
    assert [row.counted.total for row in worked_rows(f"{brim}Rows 3-10: {band}\n\nCrown\nRnd 1: {words}")] == [5] * 10 + [10]
