"""Wide rows are cut where they repeat, and the cut never changes what is counted."""

from __future__ import annotations

import charts_fabrics
import fabrics
import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.overlaps import overlaps
from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import Fabric

FANS = """Ch {n}.
Row 1 (RS): Sc in 2nd ch from hook, * skip next 2 ch, 5 dc in next ch, skip next 2 ch, sc in next ch; rep from * across, turn.
Row 2: Ch 3 (counts as dc), 2 dc in first sc, * skip next 2 dc, sc in next dc, skip next 2 dc, 5 dc in next sc; rep from * to last 6 sts,
skip next 2 dc, sc in next dc, skip next 2 dc, 3 dc in last sc, turn.
Row 3: Ch 1, sc in first dc, * skip next 2 dc, 5 dc in next sc, skip next 2 dc, sc in next dc; rep from * across, turn.
"""


def fans(repeats: int) -> Fabric:
    return work(read(FANS.format(n=6 * repeats + 2)))


def test_a_long_plain_stretch_is_told_in_stitches() -> None:
    made = chart(fabrics.rectangle(100, 4))
    (cut,) = made.cuts
    assert cut.places == 1
    assert cut.words == f"{cut.repeats} sts"
    assert any(label.words == cut.words for label in made.labels)
    assert len(made.marks) < 200
    assert {len(gone) for gone in cut.hidden.values()} == {cut.repeats}


def test_a_repeat_is_cut_by_whole_repeats() -> None:
    made, whole = chart(fans(16)), chart(fans(16), short=False)
    (cut,) = made.cuts
    assert cut.places == 6
    assert cut.words == f"{cut.repeats} repeats of 6 sts"
    assert len(whole.marks) - len(made.marks) == sum(len(gone) for gone in cut.hidden.values())
    assert overlaps(made) == []


@pytest.mark.parametrize("handed", ["right", "left"])
@pytest.mark.parametrize("build", [lambda: fabrics.rectangle(100, 4), lambda: fans(16), lambda: charts_fabrics.shell_blanket(20, 6)])
def test_the_counts_stay_those_of_the_whole_piece(build: object, handed: str) -> None:
    fabric: Fabric = build()  # type: ignore[operator]
    made = chart(fabric, handed="left" if handed == "left" else "right")
    assert made.cuts
    drawing = svg(made)
    counted = count_back(fabric, [drawing])
    assert counted.differences == 0
    assert any(row.row.endswith("told in words") for row in counted.rows)
    told = made.cuts[0].words
    lied = drawing.replace(f">{told}<", f">{told.replace(told.split()[0], str(int(told.split()[0]) + 1), 1)}<")
    assert lied != drawing
    assert count_back(fabric, [lied]).differences > 0


def test_narrow_pieces_and_those_asked_for_whole_are_not_cut() -> None:
    assert chart(fabrics.rectangle(30, 4)).cuts == []
    assert chart(fans(16), short=False).cuts == []


def test_what_stands_across_a_cut_stands_on_its_like() -> None:
    """Feet drawn on what is drawn: nobody stands in the gap."""
    made = chart(fans(16))
    drawn = {(mark.row, mark.stitch) for mark in made.marks}
    assert all(place in drawn for ties in made.ties for place, _ in ties.feet)
