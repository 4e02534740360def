"""Flat pieces whose rows bend are outlined as they lie relaxed; all others as their rows laid straight."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Polygon

from hookwright.drawing.schematic import compose
from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import shape, shape_json, shape_lines
from hookwright.shaping.outlines import relaxed_outline
from hookwright.shaping.piece import shape_part
from hookwright.working import work

HEAD = "US terms\nGauge: 16 dc and 8 rows = 10 cm\n\n"
W, H = 10 / 16, 10 / 8


def triangle(rows: int) -> str:
    """From the middle of its long side, with a corner in the middle of every row and an increase at each end."""
    lines = ["Ch 4, join with sl st to form a ring.", "Row 1: Ch 3 (counts as dc), (3 dc, ch 2, 4 dc) in ring. (8 dc)"]
    for r in range(2, rows + 1):
        n = 3 * r - 3
        lines.append(
            f"Row {r}: Ch 3 (counts as dc), turn, dc in same st, dc in next {n} sts, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in next {n} sts, "
            f"2 dc in last st. ({6 * r + 2} dc)"
        )
    return HEAD + "\n".join(lines) + "\n"


def test_a_triangle_from_its_long_side_is_no_trapezoid() -> None:
    measures = measure(work(read(triangle(8))))
    part = shape_part(measures.parts[0])
    lies = relaxed_outline(part)
    assert lies is not None
    found = Polygon(lies.outline)
    assert found.is_valid and found.area == pytest.approx(measures.parts[0].area_cm2, rel=0.1)
    # rows stand at right angles to each other on both sides of the middle: as deep as its rows are high over the sine of half of that
    assert lies.length_cm == pytest.approx(8 * H * math.sqrt(2), rel=0.12)
    assert lies.width_cm < 0.75 * measures.parts[0].width_cm
    middle = found.centroid
    assert middle.x == pytest.approx(lies.width_cm / 2, abs=1.0)


def test_the_report_the_json_and_the_schematic_show_it() -> None:
    made = shape(measure(work(read(triangle(8)))))
    assert any("its rows bent" in line for line in shape_lines(made))
    (part,) = shape_json([made])["parts"]
    assert part["rows_bend"] and part["width_cm"] < 26
    assert Polygon(part["outline"]).bounds == pytest.approx((0, 0, part["width_cm"], part["length_cm"]), abs=0.01)
    _, sheet = compose([made.parts[0].measures])
    told = {line for label in sheet.labels for line in label.lines}
    assert {"Row 1", "Row 8"} <= told and any("bend" in line for line in told)
    boxes = [label.box for label in sheet.labels]
    assert not any(a.meets(b) for i, a in enumerate(boxes) for b in boxes[i + 1 :])


@pytest.mark.parametrize("rows", [4, 30])
def test_straight_rows_keep_their_own_outline(rows: int) -> None:
    text = HEAD + "Ch 22.\nRow 1: Dc in 4th ch from hook and in each ch across. (20 dc)\n"
    text += f"Rows 2-{rows}: Ch 3 (counts as dc), turn, dc in each st across.\n"
    assert relaxed_outline(shape_part(measure(work(read(text))).parts[0], solve="always")) is None
