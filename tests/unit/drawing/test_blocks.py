"""Pieces worked from corner to corner: blocks in a grid, at right angles to their neighbours."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.overlaps import overlaps
from hookwright.measuring import tiles_of
from hookwright.reading import read
from hookwright.working import work

THROW = (Path(__file__).parents[3] / "examples" / "charts" / "sluice-throw.md").read_text(encoding="utf-8")
SMALL = """Ch 6.

Row 1: Hdc in fourth ch from hook and in next 2 ch. (1 block)

Row 2: Turn, ch 6, hdc in fourth ch from hook and in next 2 ch, sl st in ch-3 sp of next block, ch 3, 3 hdc in same sp. (2 blocks)

Row 3: Turn, ch 6, hdc in fourth ch from hook and in next 2 ch, (sl st in ch-3 sp of next block, ch 3, 3 hdc in same sp) 2 times. (3 blocks)

Row 4: Turn, sl st in next 3 hdc, (sl st in ch-3 sp of next block, ch 3, 3 hdc in same sp) 2 times. (2 blocks)
"""


@pytest.mark.parametrize(("text", "kind"), [(THROW, "dc"), (SMALL, "hdc")])
def test_blocks_stand_in_a_grid_at_right_angles(text: str, kind: str) -> None:
    fabric = work(read(text))
    made = chart(fabric)
    assert made.form == "blocks" and overlaps(made) == []
    assert count_back(fabric, [svg(made)]).differences == 0
    rows = fabric.parts[0].rows
    found = tiles_of(rows, 1.0)
    assert found is not None
    at = {(mark.row, mark.stitch): mark for mark in made.marks}
    centres = {}
    for tile in found.tiles:
        stems = [at[tile.row, e] for e in tile.stitches]
        assert all(mark.kind == kind for mark in stems)
        middle = stems[1].angle_deg
        assert abs(math.remainder(middle - (0 if rows[tile.row].side == "RS" else 90), 360)) < 1, "rows lie crosswise"
        tops = [made.ties[made.marks.index(mark)].top for mark in stems]
        centres[tile.column, tile.line] = (sum(p[0] for p in tops) / 3, sum(p[1] for p in tops) / 3, rows[tile.row].side)
    side = abs(centres[0, 2][1] - centres[0, 0][1]) / 2
    for (column, line), (x, y, seen) in centres.items():
        x0, y0, _ = centres[0, 0] if seen == "RS" else centres[0, 1]
        assert abs(x - x0 - column * side) < 0.2 and abs(y0 - y - (line - (seen != "RS")) * side) < 0.2


def test_a_left_hander_sees_the_mirror_image() -> None:
    fabric = work(read(THROW))
    right, left = chart(fabric), chart(fabric, handed="left")
    assert sorted(round(mark.x, 1) for mark in right.marks if mark.kind == "ch") == sorted(
        round(-mark.x, 1) + 0.0 for mark in left.marks if mark.kind == "ch"
    )
