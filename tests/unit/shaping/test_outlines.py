"""Flat pieces whose rows bend are outlined as they lie relaxed; all others as their rows laid straight."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from shapely.geometry import Polygon

from hookwright.drawing.outlines import outlines
from hookwright.drawing.schematic import compose
from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import shape, shape_json, shape_lines
from hookwright.shaping.cloth import cloth_of
from hookwright.shaping.outlines import relaxed_outline
from hookwright.shaping.piece import PartShape, shape_part
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
    assert found.is_valid and found.area == pytest.approx(between_tops(part), rel=0.05)
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


def between_tops(part: PartShape) -> float:
    """Area by the trapezium rule from the top of each row to the next: rows are as long as the gauge says along their tops."""
    wide = [0.0, *(row.width_cm for row in part.measures.rows if row.height_cm)]
    return sum((a + b) / 2 * H for a, b in pairwise(wide))


def spined(rows: int) -> str:
    """A shawl from a ring with three dc in the middle of every row and two at each end."""
    lines = ["Row 1: 7 dc in magic ring, turn. (7 dc)"]
    for r in range(2, rows + 1):
        n = 2 * r - 2
        lines.append(
            f"Row {r}: Ch 3 (counts as dc), dc in same st, dc in next {n} sts, 3 dc in next st, dc in next {n} sts, 2 dc in last st, turn. "
            f"({4 * r + 3} dc)"
        )
    return HEAD + "\n".join(lines) + "\n"


def ripple(rows: int, peaks: int) -> str:
    block = "dc in next 5 sts, 3 dc in next st, dc in next 5 sts"
    return (
        HEAD
        + f"Ch {13 * peaks + 1}.\nRow 1: Dc in 4th ch from hook (skipped ch do not count as a st), dc in next 4 ch, 3 dc in next ch, dc in "
        f"next 5 ch, [skip next 2 ch, dc in next 5 ch, 3 dc in next ch, dc in next 5 ch] {peaks - 1} times, turn. ({13 * peaks} dc)\n"
        f"Rows 2-{rows}: Ch 3 (does not count as a st), skip first st, {block}, [skip next 2 sts, {block}] {peaks - 1} times, turn leaving "
        f"last st unworked. ({13 * peaks} dc)\n"
    )


def fan_shaped(rows: int, extra: int) -> str:
    """`extra` stitches more at each end of every row."""
    more = f"{extra} dc in same st, dc in each st to last st, {extra + 1} dc in last st"
    return (
        HEAD
        + f"Ch 7.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (5 dc)\nRows 2-{rows}: Ch 3 (counts as dc), {more}, turn.\n"
    )


def test_a_spine_is_a_mitre() -> None:
    part = shape_part(measure(work(read(spined(16)))).parts[0])
    lies = relaxed_outline(part)
    assert lies is not None and part.error < 0.012
    middle = [part.at[(int(part.cloth.first[r]) + int(part.cloth.first[r + 1]) - 1) // 2] for r in (5, 15)]
    # one stitch more a row on each side of the spine: it is a mitre, h up and w across, at every row
    assert math.dist(*middle) / 10 == pytest.approx(math.hypot(H, W), rel=0.01)
    found = Polygon(lies.outline)
    assert found.is_valid and found.area == pytest.approx(between_tops(part), rel=0.03)
    last = part.at[int(part.cloth.first[15]) : int(part.cloth.first[16]), :2]
    one, other = last[5] - last[25], last[60] - last[40]
    bend = math.degrees(math.acos(float(one @ other) / float(math.hypot(*one) * math.hypot(*other))))
    assert bend == pytest.approx(180 - 2 * math.degrees(math.atan(W / H)), abs=3)


def test_a_ripple_is_narrower_than_its_stitches_by_its_slope() -> None:
    part = shape_part(measure(work(read(ripple(12, 4)))).parts[0])
    lies = relaxed_outline(part)
    assert lies is not None and part.error < 0.01
    # three in one place rise w over h on each side; every valley takes off its mitre
    slope = math.atan(W / H)
    assert lies.width_cm == pytest.approx(52 * W * math.cos(slope), rel=0.03)
    top = [y for _, y in lies.rows[12]]
    assert max(top) - min(top) == pytest.approx(6 * W * math.sin(slope), rel=0.1)


def test_an_edge_that_gains_two_a_row_is_drawn_in_to_a_crescent() -> None:
    part = shape_part(measure(work(read(fan_shaped(16, 2)))).parts[0])
    lies = relaxed_outline(part)
    assert lies is not None
    straight = part.measures.edges["A"].length_cm
    assert lies.edges_cm["A"] < 0.95 * straight
    ends, middle = lies.rows[16][0], lies.rows[16][len(lies.rows[16]) // 2]
    assert middle[1] - ends[1] > 0.05 * lies.width_cm  # the last row bends over its middle
    assert Polygon(lies.outline).area == pytest.approx(between_tops(part), rel=0.05)


def test_an_edge_that_gains_one_a_row_stays_straight() -> None:
    part = shape_part(measure(work(read(fan_shaped(16, 1)))).parts[0], solve="always")
    assert not part.cloth.posts and relaxed_outline(part) is None
    assert part.width_cm == pytest.approx(part.measures.width_cm, rel=0.005)


def test_outlines_in_true_size_are_as_it_lies() -> None:
    measures = measure(work(read(spined(10))))
    lies = relaxed_outline(shape_part(measures.parts[0]))
    assert lies is not None
    assert f"{lies.width_cm:.1f} x {lies.length_cm:.1f} cm" in outlines(measures)


def test_shells_between_stitches_turn_no_corner() -> None:
    text = (
        HEAD
        + "Ch 37.\nRow 1: Sc in 2nd ch from hook, [skip 2 ch, 5 dc in next ch, skip 2 ch, sc in next ch] 5 times, skip 2 ch, 3 dc in last "
    )
    text += (
        "ch, turn.\nRows 2-6: Ch 1, sc in first st, [skip 2 sts, 5 dc in next sc, skip 2 sts, sc in next st] 5 times, skip 2 sts, 3 dc in "
    )
    text += "last sc, turn.\n"
    assert not any(sheet.bent.any() for sheet in cloth_of(measure(work(read(text))).parts[0]).rows)
