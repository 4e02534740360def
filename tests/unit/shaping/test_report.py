"""What the report says, sentence by sentence, of worked pieces."""

from __future__ import annotations

import pytest

from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import Shape, shape, shape_json, shape_lines
from hookwright.working import work

ROW_1 = "Ch 22.\nRow 1: Dc in 4th ch from hook (skipped 3 ch count as dc) and in each ch across, turn. (20 dc)\n"
PLAIN = "Ch 3 (counts as dc), dc in next st and in each st across, turn. (20 dc)\n"
DC = "gauge: [{in: dc, stitches: 16, rows: 8, over: 10 cm}]\n"


def _shape(front: str, body: str) -> Shape:
    return shape(measure(work(read(f"---\n{front}---\n\n## Piece\n\n{body}"))))


def test_a_row_too_full_for_any_plane_is_named_with_the_number_that_would_lie_flat() -> None:
    made = _shape(
        DC,
        f"{ROW_1}Rows 2-10: {PLAIN}Row 11: Ch 3 (counts as dc), 2 dc in first st, 3 dc in each st across, turn. (60 dc)\n"
        "Row 12: Ch 3 (counts as dc), dc in next st and in each st across. (60 dc)\n",
    )
    said = "\n".join(shape_lines(made))
    assert "Row 11 has 40 stitches too many to lie flat; 20 would." in said
    (part,) = shape_json([made])["parts"]
    assert part["lies"] == "ruffles" and part["too_full"] == [{"row": "Row 11", "stitches": 60, "would_lie_flat": 20}]
    assert part["width_cm"] < 25, "as wide as the frill stands, not as its row is long"


def test_sizes_before_and_after_blocking_stand_beside_each_other() -> None:
    two = (
        "gauge: [{in: dc, stitches: 16, rows: 8, over: 10 cm, blocked: true}, "
        "{in: dc, stitches: 20, rows: 10, over: 10 cm, blocked: false}]\n"
    )
    made = _shape(two, f"{ROW_1}Rows 2-16: {PLAIN}")
    assert "after blocking; before it, it is 10 cm (4 in) wide, 16 cm (6¼ in) long" in "\n".join(shape_lines(made))
    (part,) = shape_json([made])["parts"]
    assert part["blocking"] == {"sizes_are": "blocked", "other": {"width_cm": 10.0, "length_cm": 16.0}}


def test_a_frill_before_blocking_is_told_as_it_stands_too() -> None:
    two = (
        "gauge: [{in: dc, stitches: 16, rows: 8, over: 10 cm, blocked: true}, "
        "{in: dc, stitches: 20, rows: 10, over: 10 cm, blocked: false}]\n"
    )
    frill = (
        f"{ROW_1}Rows 2-10: {PLAIN}Row 11: Ch 3 (counts as dc), 2 dc in first st, 3 dc in each st across, turn. (60 dc)\n"
        "Row 12: Ch 3 (counts as dc), dc in next st and in each st across. (60 dc)\n"
    )
    made = _shape(two, frill)
    (part,) = shape_json([made])["parts"]
    other = part["blocking"]["other"]
    assert part["width_cm"] < 25 and other["width_cm"] == pytest.approx(0.8 * part["width_cm"], rel=0.03)
    assert "before it, it is" in (said := "\n".join(shape_lines(made))) and said.count("as it lies") == 2


def test_a_gauge_measured_blocked_alone_is_said_and_none_is_silent() -> None:
    one = _shape("gauge: [{in: dc, stitches: 16, rows: 8, over: 10 cm, blocked: true}]\n", ROW_1 + f"Rows 2-4: {PLAIN}")
    assert "Its gauge was measured after blocking" in "\n".join(shape_lines(one))
    none = _shape(DC, ROW_1 + f"Rows 2-4: {PLAIN}")
    assert "blocking" not in "\n".join(shape_lines(none)) and shape_json([none])["parts"][0]["blocking"] is None
