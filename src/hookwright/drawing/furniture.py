"""What stands round the symbols: row numbers with their arrows, start and end, breaks, the key; and the box of it all."""

from __future__ import annotations

from ..working.fabric import PartWork
from .marks import Chart, Label, Stroke
from .placed import Placed
from .svg import move


def furnish(chart: Chart, placed: Placed, part: PartWork, *, key: bool) -> None:
    chart.box = ink_box(chart)


def ink_box(chart: Chart) -> tuple[float, float, float, float]:
    """x, y, width, height of all symbols."""
    caps = [c for mark in chart.marks for c in chart.body(mark)]
    if not caps:
        return (0.0, 0.0, 10.0, 10.0)
    x0 = min(min(c[0], c[2]) - c[4] for c in caps)
    x1 = max(max(c[0], c[2]) + c[4] for c in caps)
    y0 = min(min(c[1], c[3]) - c[4] for c in caps)
    y1 = max(max(c[1], c[3]) + c[4] for c in caps)
    return (x0 - 2, y0 - 2, x1 - x0 + 4, y1 - y0 + 4)
