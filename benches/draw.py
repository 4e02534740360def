"""How long charts take: `python benches/draw.py`. Engraving and writing SVG, without imports; the best of five.

Asked for: 3,000 stitches in 0.3 s, 20,000 in 2 s (two cores).
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

import charts_fabrics
import fabrics

from hookwright.drawing.chart import chart
from hookwright.drawing.counting import count_back
from hookwright.drawing.export import svg
from hookwright.drawing.png import to_pdf, to_png
from hookwright.working.fabric import Fabric

PIECES: tuple[tuple[str, Callable[[], Fabric]], ...] = (
    ("12-round motif", lambda: fabrics.disc(12, 12, "dc")),
    ("scarf, 30 × 100 dc", lambda: fabrics.rectangle(30, 100)),
    ("blanket, 100 × 200 dc", lambda: fabrics.rectangle(100, 200)),
    ("shell blanket, 20 repeats × 60 rows", lambda: charts_fabrics.shell_blanket(20, 60)),
    ("spiral disc, 30 rounds of sc", lambda: fabrics.disc(6, 30, made_in="spiral")),
    ("pineapple doily", charts_fabrics.doily),
)


def best(work: Callable[[], object], times: int = 5) -> float:
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return min(found)


def main() -> None:
    print(f"{'piece':<38}{'symbols':>8}{'engrave':>10}{'SVG':>8}{'together':>10}{'count back':>12}{'PNG':>8}{'PDF':>8}")
    for name, build in PIECES:
        fabric = build()
        made = chart(fabric, short=False)
        drawing = svg(made)
        engrave = best(lambda fabric=fabric: chart(fabric, short=False))
        write = best(lambda made=made: svg(made))
        count = best(lambda fabric=fabric, drawing=drawing, made=made: count_back(fabric, [drawing], made), 2)
        png = best(lambda drawing=drawing: to_png(drawing, dpi=100), 2)
        pdf = best(lambda drawing=drawing: to_pdf(drawing), 2)
        print(
            f"{name:<38}{len(made.marks):>8}{engrave:>9.3f}s{write:>7.3f}s{engrave + write:>9.3f}s{count:>11.3f}s{png:>7.2f}s{pdf:>7.2f}s"
        )


if __name__ == "__main__":
    main()
