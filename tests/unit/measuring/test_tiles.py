"""Pieces worked from corner to corner: a grid of blocks whose rows lean; sizes, outline, places in space, schematic."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import Polygon

from hookwright.drawing.schematic import compose
from hookwright.measuring import PartMeasures, measure
from hookwright.reading import read
from hookwright.shaping.piece import shape_part
from hookwright.working import work

GROW = """Row 1: With A, ch 6, dc in 4th ch from hook and in each of next 2 ch, turn. (1 tile)
Row 2: Ch 6, dc in 4th ch from hook and in each of next 2 ch, sl st in ch-3 sp of previous tile, ch 3, 3 dc in same sp, turn. (2 tiles)
Row 3: Ch 6, dc in 4th ch from hook and in each of next 2 ch, *sl st in next ch-3 sp, ch 3, 3 dc in same ch-3 sp; rep from * across, turn. (3 tiles)
Rows 4-8: Rep Row 3.
"""  # noqa: E501
KEEP = """Row 9: With B, sl st in next 3 dc and in ch-3 sp, ch 3, 3 dc in same sp, *sl st in next ch-3 sp, ch 3, 3 dc in same sp; rep from * across, turn. (8 tiles)
Row 10: Ch 6, dc in 4th ch from hook and in each of next 2 ch, *sl st in next ch-3 sp, ch 3, 3 dc in same ch-3 sp; rep from * to last tile, sl st in last ch-3 sp, turn. (8 tiles)
"""  # noqa: E501
SHRINK = """Row 11: Sl st in next 3 dc and in ch-3 sp, ch 3, 3 dc in same sp, *sl st in next ch-3 sp, ch 3, 3 dc in same sp; rep from * to last tile, sl st in last ch-3 sp, turn. (7 tiles)
Rows 12-17: Rep Row 11.
"""  # noqa: E501
GAUGE = "Gauge: 14 dc and 7 rows = 10 cm\n\n"


def throw(text: str, gauge: str = GAUGE) -> PartMeasures:
    return measure(work(read(gauge + text))).parts[0]


def test_a_rectangle_of_blocks() -> None:
    part = throw(GROW + KEEP + SHRINK)
    assert part.tiles is not None
    assert (part.tiles.columns, part.tiles.lines, len(part.tiles.tiles)) == (8, 10, 80)
    side = (3.5 * 10 / 14 + 10 / 7) / 2  # worked by hand: three stitches and half a chain one way, a stitch's height the other
    assert part.tiles.side_cm == pytest.approx(side)
    assert (part.width_cm, part.length_cm) == pytest.approx((8 * side, 10 * side))
    assert Polygon(part.outline).equals(Polygon([(0, 0), (8 * side, 0), (8 * side, 10 * side), (0, 10 * side)]))
    assert part.area_cm2 == pytest.approx(Polygon(part.outline).area)
    assert part.lies == "flat"
    assert not part.edges


def test_every_row_is_a_diagonal() -> None:
    part = throw(GROW + KEEP + SHRINK)
    assert part.tiles is not None
    for row in {tile.row for tile in part.tiles.tiles}:
        across = {tile.column + tile.line for tile in part.tiles.of_row(row)}
        assert len(across) == 1
    last = part.rows[8]
    assert last.width_cm == pytest.approx(8 * math.sqrt(2) * part.tiles.side_cm)


def test_an_unfinished_corner_has_steps() -> None:
    part = throw(GROW)
    assert part.tiles is not None
    outline = Polygon(part.outline)
    assert outline.is_valid
    assert outline.area == pytest.approx(36 * part.tiles.side_cm**2)
    assert len(outline.exterior.coords) - 1 == 3 + 8 + 7  # the corner, the two ends, and a stair for every block of the last row


@pytest.mark.parametrize("told", ["Gauge: 5 blocks = 10 cm\n\n", "Gauge: each block measures 2 cm\n\n"])
def test_a_gauge_told_in_blocks(told: str) -> None:
    part = throw(GROW + KEEP + SHRINK, told)
    assert (part.width_cm, part.length_cm) == pytest.approx((16.0, 20.0))


def test_rows_that_are_no_blocks_have_none() -> None:
    assert (
        throw("Row 1: Ch 12, dc in 4th ch from hook and in each ch across. (10 dc)\nRows 2-6: Ch 3, turn, dc in each st across.\n").tiles
        is None
    )


def test_its_stitches_turn_from_row_to_row_and_relax_to_their_size() -> None:
    part = throw(GROW + KEEP + SHRINK)
    placed = shape_part(part, solve="always")
    assert placed.strain < 1e-6
    noise = np.random.default_rng(5).normal(0.0, 0.1 * part.scale.unit_cm, placed.at.shape) * [1, 1, 0]
    again = shape_part(part, start=placed.at * [1.25, 0.8, 1.0] + noise, flat=True)
    assert again.strain < 0.01
    assert (again.width_cm, again.length_cm) == pytest.approx((part.width_cm, part.length_cm), rel=0.005)
    ways = []
    for row in (2, 3):  # Rows 2 and 3: their first stitches, from foot to top
        sheet, first = placed.cloth.rows[row], int(placed.cloth.first[row])
        node = int(np.flatnonzero(sheet.stands)[0])
        ways.append(placed.at[first + node] - placed.at[first + int(sheet.foot[node, 0])])
    assert abs(float(ways[0] @ ways[1])) < 1e-9


@pytest.mark.parametrize("left_handed", [False, True])
def test_its_schematic(left_handed: bool) -> None:
    _, sheet = compose([throw(GROW + KEEP + SHRINK)], left_handed=left_handed)
    told = {line for label in sheet.labels for line in label.lines}
    assert {"Row 8", "Row 17", "B from Row 9", "RS"} <= told
    boxes = [label.box for label in sheet.labels]
    assert not any(a.meets(b) for i, a in enumerate(boxes) for b in boxes[i + 1 :])
