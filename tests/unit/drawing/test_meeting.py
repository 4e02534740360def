"""Motifs joined as they are worked: the piece they are joined to is shown in grey, and counts nowhere."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.meeting import joined_to_others
from hookwright.drawing.overlaps import closest, overlaps
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import Fabric

CLOTH = Path(__file__).parents[3] / "examples" / "charts" / "causeway-cloth.md"
STRIPS = """## First strip

Ch 6.

Row 1: Dc in fourth ch from hook (skipped chs count as dc) and in next 2 ch, turn. (4 dc)

Row 2: Ch 5, dc in first 4 dc, turn. (4 dc)

## Second strip

Ch 6.

Row 1: Dc in fourth ch from hook (skipped chs count as dc) and in next 2 ch, turn. (4 dc)

Row 2: Ch 2, sl st in next ch-5 loop of first strip, ch 2, dc in first 4 dc, turn. (4 dc)
"""


@pytest.fixture(scope="module")
def cloth() -> Fabric:
    return work(read(CLOTH.read_text(encoding="utf-8")))


def test_joins_lie_in_their_loops(cloth: Fabric) -> None:
    made = chart(cloth, 1)
    joins = sorted(joined_to_others(cloth, cloth.parts[1]))
    assert len(joins) == 3 and not joined_to_others(cloth, cloth.parts[0])
    at = {(mark.row, mark.stitch): (mark.x, mark.y) for mark in made.marks}
    far = max(math.hypot(mark.x, mark.y) for mark in made.marks)
    for join in joins:
        assert made.marks[[(m.row, m.stitch) for m in made.marks].index(join)].kind == "sl st"
        assert math.hypot(*at[join]) > 0.7 * far, "a join hangs at the edge, not in the ring"
    corner = joins[0]
    assert math.dist(at[corner], at[corner[0], corner[1] - 1]) < 3.2 and math.dist(at[corner], at[corner[0], corner[1] + 1]) < 3.2


@pytest.mark.parametrize("handed", ["right", "left"])
def test_the_other_motif_lies_beside_in_grey(cloth: Fabric, handed: str) -> None:
    made = chart(cloth, 1, handed="left" if handed == "left" else "right")
    own = [stroke for mark in made.marks for stroke in made.body(mark)]
    symbols = {shape.markup for shape in chart(cloth, 0, handed="left" if handed == "left" else "right").glyphs.values()}
    shown = [body for ghost, body in zip(made.ghosts, list(made.bodies())[len(made.marks) :], strict=True) if ghost.shape.markup in symbols]
    ghosts = [stroke for body in shown for stroke in body]
    assert len(shown) > 15
    assert not overlaps(made)
    assert not any(closest(a, b)[2] < a[4] + b[4] for a in own for b in ghosts)
    side = -1 if handed == "left" else 1
    assert min(side * (x1 + x2) for x1, _, x2, _, _ in ghosts) > 0.8 * max(side * mark.x for mark in made.marks)
    assert any("First motif" in label.words for label in made.labels if label.what == "key")
    drawing = svg(made)
    assert 'class="other-piece"' in drawing and drawing == svg(chart(cloth, 1, handed="left" if handed == "left" else "right"))
    assert count_back(cloth, [drawing]).differences == 0
    assert not chart(cloth, 0).ghosts


def test_a_join_deleted_by_hand_is_found(cloth: Fabric) -> None:
    drawing = svg(chart(cloth, 1))
    row, stitch = sorted(joined_to_others(cloth, cloth.parts[1]))[1]
    cut = re.sub(rf'<use [^>]*data-row="{row}" data-stitch="{stitch}"/>', "", drawing)
    assert cut != drawing
    assert [problem.what for problem in count_back(cloth, [cut]).problems] == ["missing"]


def test_a_strip_shows_where_it_is_joined() -> None:
    fabric = work(read(STRIPS))
    made = chart(fabric, 1)
    assert len(made.ghosts) == 1
    assert any(label.words == "in grey: where another piece is joined" for label in made.labels)
    assert count_back(fabric, [svg(made)]).differences == 0
