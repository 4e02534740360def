"""Recorded drawings: every mark of two small charts, as text. Few and small on purpose; after a meant change, write them anew with
`HOOKWRIGHT_RECORD=1 pytest tests/golden` and look at the difference."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from hookwright.drawing.chart import chart
from hookwright.working.fabric import Fabric

sys.path.insert(0, str(Path(__file__).parents[1]))

import charts_fabrics
import fabrics

HERE = Path(__file__).parent / "charts"
PIECES = {"shells": lambda: charts_fabrics.shell_blanket(2, 2), "disc": lambda: fabrics.disc(6, 3, made_in="spiral")}


def recorded(fabric: Fabric) -> str:
    made = chart(fabric)
    marks = [f"{m.row:>2} {m.stitch:>3} {m.kind:<6} {m.glyph:<12} {m.x:>8.1f} {m.y:>8.1f} {m.angle_deg:>7.1f}" for m in made.marks]
    return "\n".join([*marks, *(f"{label.what}: {label.words}" for label in made.labels), ""])


@pytest.mark.parametrize("name", PIECES)
def test_the_drawing_is_as_recorded(name: str) -> None:
    path = HERE / f"{name}.txt"
    now = recorded(PIECES[name]())
    if os.environ.get("HOOKWRIGHT_RECORD"):
        path.write_text(now, encoding="utf-8")
    assert now == path.read_text(encoding="utf-8")
