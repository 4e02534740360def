"""No two symbols that have nothing to do with one another overlap; the check itself finds what does."""

from __future__ import annotations

import pytest

from hookwright.drawing.chart import chart
from hookwright.drawing.overlaps import overlaps
from hookwright.working.fabric import Fabric

CLEAN = ["shells", "ripple", "filet", "motif", "amigurumi", "ball", "disc12", "rectangle", "triangle", "bevel"]


@pytest.mark.parametrize("name", CLEAN)
def test_nothing_overlaps(pieces: dict[str, Fabric], name: str) -> None:
    assert [str(found) for found in overlaps(chart(pieces[name]))] == []


def test_a_symbol_moved_onto_another_is_found(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["rectangle"])
    i = next(k for k, mark in enumerate(made.marks) if mark.row == 3 and mark.stitch == 5)
    j = next(k for k, mark in enumerate(made.marks) if mark.row == 3 and mark.stitch == 8)
    made.marks[i] = made.marks[i]._replace(x=made.marks[j].x + 0.5)
    found = overlaps(made)
    assert any({(o.one.row, o.one.stitch), (o.other.row, o.other.stitch)} == {(3, 5), (3, 8)} for o in found)


def test_stitches_of_one_foot_may_meet_at_it_only(pieces: dict[str, Fabric]) -> None:
    made = chart(pieces["shells"])
    fan = [k for k, mark in enumerate(made.marks) if mark.row == 2 and mark.kind == "dc"][:2]
    assert overlaps(made) == []
    made.marks[fan[1]] = made.marks[fan[1]]._replace(angle_deg=made.marks[fan[0]].angle_deg + 4)
    assert any(o.one.row == o.other.row == 2 for o in overlaps(made))
