"""How flat pieces hang: which way their ends lean, by their outline alone and as said of worked pieces."""

from __future__ import annotations

import math

import pytest

from hookwright.measuring import hang_strip, measure, over_shoulders
from hookwright.reading import read
from hookwright.shaping import shape
from hookwright.shaping.report import shape_lines
from hookwright.working import work

GAUGE = "Gauge: 16 dc and 8 rows = 10 cm\n\n"


def _said(rows: str) -> str:
    return "\n".join(shape_lines(shape(measure(work(read(GAUGE + "## Piece\n\n" + rows))))))


def test_a_strip_that_leans_hangs_by_its_edges() -> None:
    """A parallelogram 12 wide, 100 along its edges, leaning 30 degrees: worked by hand, the ends are cut at 30 degrees to across."""
    u, v = 100 * math.sin(math.radians(30)), 100 * math.cos(math.radians(30))
    first, last = hang_strip([(0, 0), (12, 0), (12 + u, v), (u, v)]) or pytest.fail("is no strip")
    assert first.leading == "edge A" and last.leading == "edge B"
    assert first.slant_deg == pytest.approx(30, abs=0.5) and last.slant_deg == pytest.approx(-30, abs=0.5)
    assert first.drop_cm == pytest.approx((100 + 12 * math.sin(math.radians(30)) - 24) / 2)


def test_a_strip_worked_lengthwise_hangs_by_its_rows() -> None:
    left, right = hang_strip([(0, 0), (100, 0), (110, 20), (-10, 20)]) or pytest.fail("is no strip")
    assert (left.end, right.end) == ("edge A", "edge B")
    assert left.leading == right.leading == "last row"


def test_straight_ends_do_not_lean_and_short_or_broad_pieces_are_no_strips() -> None:
    ends = hang_strip([(0, 0), (15, 0), (15, 120), (0, 120)]) or pytest.fail("is no strip")
    assert [end.leading for end in ends] == ["", ""]
    assert hang_strip([(0, 0), (60, 0), (60, 120), (0, 120)]) is None
    assert hang_strip([(0, 0), (3, 0), (3, 120), (0, 120)]) is None


def test_a_triangle_as_tall_as_broad_is_worn_with_its_point_in_the_middle() -> None:
    """Its slanted sides (55.9) are a little longer than its last row (50), and nobody wears it by one of them."""
    worn = over_shoulders([(0, 0), (2, 0), (26, 50), (-24, 50)]) or pytest.fail("is no triangle")
    assert worn.neck == "last row" and not worn.leans and worn.point_cm == pytest.approx(50)
    assert worn.arms_cm[0] == pytest.approx(worn.arms_cm[1])


def test_a_one_sided_triangle_hangs_to_the_end_it_was_begun_at() -> None:
    worn = over_shoulders([(0, 0), (40, 75), (0, 75)]) or pytest.fail("is no triangle")
    assert worn.neck == "edge B" and worn.leans and worn.side_cm == pytest.approx(85)
    long = dict(zip(worn.ends, worn.arms_cm, strict=True))
    assert long["first row"] == pytest.approx(75**2 / 85) and long["last row"] == pytest.approx(40**2 / 85)


def test_each_way_an_end_can_lean_is_said() -> None:
    row_1 = "Ch 22.\nRow 1: Dc in 4th ch from hook (skipped 3 ch count as dc) and in each ch across, turn. (20 dc)\n"
    bias = _said(
        row_1
        + "Row 2: Ch 3 (counts as dc), dc in first st, dc in each st to last 2 sts, dc2tog, turn. (20 dc)\n"
        + "Row 3: Ch 3 (counts as dc), dc2tog over next 2 sts, dc in each st to last st, 2 dc in last st, turn. (20 dc)\n"
        + "Rows 4-100: Rep Rows 2 and 3. (20 dc)\n"
    )
    assert "lean the same way, one points to the middle, the other to the side" in bias
    one = _said(
        "Ch 5.\nRow 1: Dc in 4th ch from hook (skipped 3 ch count as dc), dc in next ch, turn. (3 dc)\n"
        "Row 2: Ch 3 (counts as dc), dc in first st, dc in each st across, turn. (4 dc)\n"
        "Row 3: Ch 3 (counts as dc), dc in each st to last st, 2 dc in last st, turn. (5 dc)\n"
        "Rows 4-22: Rep Rows 2 and 3. (24 dc)\n"
        "Rows 23-80: Ch 3 (counts as dc), dc in next st and in each st across, turn. (24 dc)\n"
    )
    assert "The end at the first row is longer at edge A" in one and "The end at the last row is straight." in one


def test_what_ruffles_is_not_said_to_hang_as_a_triangle() -> None:
    said = _said(
        "Ch 22.\nRow 1: Dc in 4th ch from hook (skipped 3 ch count as dc) and in each ch across, turn. (20 dc)\n"
        "Rows 2-10: Ch 3 (counts as dc), dc in next st and in each st across, turn. (20 dc)\n"
        "Row 11: Ch 3 (counts as dc), 2 dc in first st, 3 dc in each st across, turn. (60 dc)\n"
        "Row 12: Ch 3 (counts as dc), dc in next st and in each st across. (60 dc)\n"
    )
    assert "ruffles" in said and "shoulders" not in said


def test_a_triangle_that_is_lopsided_by_two_sides_is_told_by_both() -> None:
    worn = over_shoulders([(0, 0), (40, 75), (0, 75)]) or pytest.fail("is no triangle")
    assert worn.also is not None and {worn.neck, worn.also.neck} == {"edge A", "edge B"} and worn.also.point_cm == pytest.approx(40)


def test_a_strip_sewn_to_a_ring_has_no_ends_that_hang() -> None:
    rows = (
        "Ch 32.\nRow 1: Dc in 4th ch from hook (skipped 3 ch count as dc) and in each ch across, turn. (30 dc)\n"
        "Rows 2-48: Ch 3 (counts as dc), dc in next st and in each st across, turn. (30 dc)\n"
    )
    assert "Round a neck" in _said(rows)
    assert "Round a neck" not in _said(rows + "\n## Finishing\n\nSew the first row to the last row.\n")
