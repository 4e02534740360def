"""Parts worked on from another part: the row they stand on is shown in grey, so that every foot is seen, and counts nowhere."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.overlaps import overlaps
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import Fabric

MULE = """## Sole

Ch 25.

Row 1 (RS): Dc in 4th ch from hook (skipped ch count as dc) and in each ch across, turn. (23 dc)

Row 2: Ch 3 (counts as dc), dc in each st across, turn. (23 dc)

## Strap

Working in the last row of the Sole, skip first 8 sts, join yarn in next st.

Row 1: Ch 1, sc in same st and in each of next 5 sts, turn. (6 sc)

Row 2: Ch 1, sc in each st across. Fasten off. (6 sc)
"""
RINGED = """## Strip

Ch 6.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (5 sc)

Rows 2-20: Ch 1, sc in each st across, turn. (5 sc)

Sew the short ends together.

## Edge

Rnd 1: Work 40 sc around one edge of the strip, join with sl st in first sc. (40 sc)

Rnd 2: Ch 1, sc in each st around, join with sl st in first sc. (40 sc)
"""
CLOTH = Path(__file__).parents[3] / "examples" / "charts" / "causeway-cloth.md"


@pytest.fixture(scope="module")
def mule() -> Fabric:
    return work(read(MULE))


@pytest.mark.parametrize("handed", ["right", "left"])
def test_the_row_that_a_part_stands_on_is_grey_and_counts_nowhere(mule: Fabric, handed: str) -> None:
    strap = next(p for p, part in enumerate(mule.parts) if part.name == "Strap")
    made = chart(mule, strap, handed="left" if handed == "left" else "right")
    assert {mark.row for mark in made.marks} == set(range(len(mule.parts[strap].rows)))
    assert 6 <= len(made.ghosts) < 23, "only what lies near the stitches worked into is shown"
    assert any(label.words == "in grey: Row 2 of Sole, worked into here" for label in made.labels)
    crosses = [mark for mark in made.marks if mark.row == 0 and mark.kind == "sc"]
    spots = [ghost.x for ghost in made.ghosts]
    assert all(min(abs(mark.x - x) for x in spots) < 0.3 for mark in crosses), "each stands over what it is worked into"
    assert max(ghost.y for ghost in made.ghosts) > max(mark.y for mark in crosses)
    assert count_back(mule, [svg(made)]).differences == 0 and not overlaps(made)


def test_a_round_along_an_edge_stands_on_it() -> None:
    fabric = work(read(RINGED))
    p = next(p for p, part in enumerate(fabric.parts) if part.name == "Edge")
    made = chart(fabric, p)
    if made.form != "round":
        made = chart(fabric, p, form="round")
    first = [mark for mark in made.marks if mark.row == 0 and mark.kind == "sc"]
    lengths = {made.glyphs[mark.glyph].body for mark in first}
    assert len(first) == 40
    assert all(max(abs(v) for stroke in body for v in stroke[:4]) < 4 for body in lengths), "no stitch is drawn in from the middle"
    assert any(label.words == "in grey: the edge of a piece made before" for label in made.labels)
    assert len(made.ghosts) == 1 and math.hypot(first[0].x, first[0].y) > 10
    assert not overlaps(made) and count_back(fabric, [svg(made)]).differences == 0


def test_the_key_names_every_piece_that_may_be_meant() -> None:
    text = CLOTH.read_text(encoding="utf-8")
    first, second = text.index("## First motif"), text.index("## Second motif")
    fabric = work(read(text[:second] + text[first:second].replace("First", "Spare") + text[second:]))
    made = chart(fabric, 2)
    told = [label.words for label in made.labels if "joined here" in label.words]
    assert told == ["in grey: First motif or Spare motif, made before and joined here"]
