"""How fast yarn is: estimate, colour landing, starting places; and how well it estimates published pieces.

Run: `python benches/yarn.py` (about ten seconds). Times are the best of several, after imports.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "builders"))

import yarn_model as built
from tests import fabrics

from hookwright.drawing.colours import colour_plans
from hookwright.measuring import Measures, measure
from hookwright.pattern import ColourRun, Facts, Gauge, Yarn
from hookwright.working import Fabric
from hookwright.yarn import Estimate, Landing, Repeat, band_edges, best_starts, estimate, land


def sequence(bands: int) -> Repeat:
    rng = Random(1)
    return Repeat.of((f"c{n % 12}", rng.uniform(0.5, 2.0)) for n in range(bands))


def piece(whole: Fabric) -> Fabric:
    yarn = Yarn(id="A", ball_m=315, ball_g=100, sequence=(ColourRun(colour="blue", metres=6), ColourRun(colour="sand", metres=4)))
    facts = Facts(hook_mm=5, gauge=(Gauge(stitch="dc", stitches=13, rows=6.5),), yarns={"A": yarn})
    return replace(whole, pattern=replace(whole.pattern, facts=facts))


def best(call: Callable[[], object], tries: int = 5) -> float:
    """Milliseconds of the fastest try."""
    taken = []
    for _ in range(tries):
        start = time.perf_counter()
        call()
        taken.append(time.perf_counter() - start)
    return min(taken) * 1000


def speed(name: str, whole: Fabric, bands: int) -> None:
    made = piece(whole)
    measures: Measures = measure(made)
    found: Estimate = estimate(made, measures)
    runs = sequence(bands)
    landed: Landing = land(found, "A", runs)
    print(
        f"{name:34s} measure {best(lambda: measure(made)):7.1f}  estimate {best(lambda: estimate(made, measures)):7.1f}  "
        f"land {bands} bands {best(lambda: land(found, 'A', runs)):6.1f}  edges {best(lambda: list(band_edges(found, landed))):6.1f}  "
        f"1,000 starts {best(lambda: best_starts(found, 'A', runs)):6.1f}  plan drawn {best(lambda: colour_plans(made), 2):7.1f} ms"
    )


def accuracy() -> None:
    p = built.pieces()
    plain = built.left_out(built.PLAIN, p)
    r, names, inside = built.nested(p)
    low, high = built.over_sources(p, r)
    print(f"\n{len(p.ids)} published pieces, a source left out: plain {built.mdape(plain):.2f} %,")
    print(f"form chosen inside the loop {built.mdape(r):.2f} % (90 % over sources {low:.1f}-{high:.1f});")
    print(f"the interval holds {sum(inside)}; {len(set(names))} forms chosen")


if __name__ == "__main__":
    speed("3,000 stitches", fabrics.rectangle(30, 100), 200)
    speed("3,003 stitches from a point", fabrics.triangle(77), 200)
    speed("100,000 stitches", fabrics.rectangle(250, 400), 200)
    accuracy()
