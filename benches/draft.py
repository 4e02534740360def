"""Random measurements for every family: does the draft proof clean, read back the same, and come out at the size asked?

    python benches/draft.py [--each 200] [--seed 7] [--family NAME …] [--worst 3]

Gauges: 6-40 stitches and 3-50 rows to 10 cm, drawn independently as the reach asks ("any"), which is harsher than any real stitch, and
again with the proportions of sc, hdc, dc and tr ("real"). Widths 2-200 cm, lengths 2-300 cm. Times are wall times on this machine.
"""

from __future__ import annotations

import argparse
import random
import statistics
import time
from collections import Counter
from dataclasses import dataclass, field

from hookwright.drafting import Refused, custom_of, draft, families
from hookwright.drafting.fit import misfit
from hookwright.pattern import Gauge
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work
from hookwright.writing import PLAIN, write

RATIOS = {"sc": (0.75, 1.05), "hdc": (1.2, 1.6), "dc": (1.5, 2.2), "tr": (2.2, 3.0)}


@dataclass
class Tally:
    tried: int = 0
    refused: int = 0
    limited: int = 0
    errors: int = 0
    warnings: int = 0
    differs: int = 0
    outside: int = 0
    fits: list[float] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)
    lines: list[int] = field(default_factory=list)
    why: Counter[str] = field(default_factory=Counter)
    shown: list[str] = field(default_factory=list)


def any_gauge(rng: random.Random) -> Gauge:
    stitch = rng.choice(("sc", "hdc", "dc", "tr"))
    return Gauge(stitch=stitch, stitches=round(rng.uniform(6, 40), 1), rows=round(rng.uniform(3, 50), 1), over_cm=10.0)


def real_gauge(rng: random.Random) -> Gauge:
    while True:
        stitch = rng.choice(tuple(RATIOS))
        stitches = round(rng.uniform(6, 40), 1)
        rows = round(stitches / rng.uniform(*RATIOS[stitch]), 1)
        if 3 <= rows <= 50:
            return Gauge(stitch=stitch, stitches=stitches, rows=rows, over_cm=10.0)


def measures(name: str, rng: random.Random, stitch: str = "dc") -> dict[str, str | float]:
    """Random measures of a family; lengths in cm."""
    wide = lambda low=2.0, high=200.0: round(rng.uniform(low, high), 1)  # noqa: E731
    width, length = wide(), wide(2, 300)
    plans: dict[str, dict[str, str | float]] = {
        "rectangle": {
            "width": width,
            "length": length,
            "pattern": rng.choice(("plain", "mesh", "v-stitch", "ripple", "shells" if stitch in ("dc", "tr") else "plain")),
        },
        "bevelled-strip": {"width": width, "length": length, "bevels": rng.choice(("same-edge", "parallel", "first", "last"))},
        "trapezium": {"width": width, "top": wide(), "length": length, "lean": rng.choice(("none", "left", "right"))},
        "triangle": {"width": width, "depth": length, "start": rng.choice(("point", "long-side", "one-sided"))},
        "kite": {"width": width, "length": length},
        "mitred-corner": {"side": wide(2, 100)},
        "crescent": {"length": length, "depth": round(rng.uniform(0.08, 0.35) * length, 1)},
        "wing": {"length": length, "depth": width, "sweep": rng.choice(("straight", "gentle", "deep"))},
        "bias": {"width": wide(2, 100), "length": wide(2, 150)},
        "polygon": {"points": _polygon(rng, width, length)},
        "path": {"d": "M0 0 C 2 0 5 2 5 5 S 4 9 0 10 Q -3 6 -2 4 Z", "width": width, "length": length},
        "circle": {"diameter": wide(2, 100)},
        "oval": {"width": wide(2, 60), "length": wide(60, 120)},
        "square": {"side": wide(2, 100)},
        "hexagon": {"side": wide(2, 60)},
        "octagon": {"side": wide(2, 40)},
        "round-triangle": {"side": wide(2, 100)},
        "tube": {"girth": width, "length": length, "multiple": rng.choice(("1", "1", "4"))},
        "cone": {"girth": wide(5, 200), "height": wide(2, 100), "top": rng.choice((wide(3, 5), wide(3, 20)))},
        "sphere": {"diameter": wide(2, 60)},
        "egg": {"length": wide(4, 60), "girth": wide(6, 120)},
        "profile": {"pairs": f"0 0, {wide(1, 3)} {wide(4, 20)}, {wide(4, 20)} {wide(10, 60)}, {wide(21, 40)} {wide(4, 40)} cm"},
        "sleeve": {"cuff": wide(12, 28), "upper-arm": wide(28, 50), "length": wide(10, 50), "cap": wide(4, 18)},
        "back": {"width": wide(30, 80), "length": wide(20, 60), "armhole": wide(12, 28)},
        "v-neck-front": {"width": wide(30, 80), "length": wide(20, 60), "armhole": wide(14, 28)},
        "round-yoke": {"neck": wide(40, 60), "yoke": wide(90, 150), "depth": wide(15, 30), "arm": wide(28, 40)},
        "raglan": {"neck": wide(40, 60), "chest": wide(80, 140), "arm": wide(28, 45), "depth": wide(16, 30)},
        "hat": {"sizes": _sizes(rng, 30, 64), "ease": wide(0.5, 4)},
        "mitten": {"sizes": _sizes(rng, 12, 26)},
    }
    if name == "triangle" and rng.random() < 0.25:
        return {"depth": wide(2, 100), "start": "middle"}
    return plans[name]


def _sizes(rng: random.Random, low: float, high: float) -> str:
    """Two to six girths, two centimetres or more apart."""
    many = rng.randint(2, 6)
    girths = [round(low + (high - low) * (k + rng.uniform(0.0, 0.5)) / many, 1) for k in range(many)]
    return f"{girths[0]:g} ({', '.join(f'{g:g}' for g in girths[1:])}) cm"


def _polygon(rng: random.Random, width: float, length: float) -> str:
    """A random outline that rows can follow: a left and a right edge of three corners each."""
    heights = sorted(round(rng.uniform(0.1, 0.9) * length, 2) for _ in range(3))
    right = [(round(rng.uniform(0.55, 1.0) * width, 2), y) for y in heights]
    left = [(round(rng.uniform(0.0, 0.45) * width, 2), y) for y in heights]
    bottom, top = round(rng.uniform(0.45, 0.55) * width, 2), round(rng.uniform(0.5, 0.9) * width, 2)
    corners = [
        (round(0.4 * width, 2), 0.0),
        (bottom + 0.06 * width, 0.0),
        *right,
        (top, length),
        (round(0.3 * width, 2), length),
        *left[::-1],
    ]
    return ", ".join(f"{x:.2f} {y:.2f}" for x, y in corners) + " cm"


def one(name: str, gauge: Gauge, told: dict[str, str | float], turning: str | None, tally: Tally, worst: int) -> None:
    tally.tried += 1
    about = f"{name} {gauge.stitches:g} {gauge.stitch} {gauge.rows:g} rows {told} {turning or ''}"
    begun = time.perf_counter()
    try:
        made = draft(name, custom_of(gauge, turning_chain=turning), told)
    except Refused as refusal:
        tally.refused += 1
        tally.why["refused: " + refusal.sentence[:60]] += 1
        return
    tally.seconds.append(time.perf_counter() - begun)
    tally.limited += made.limited
    text = write(made.pattern, style=PLAIN).text
    tally.lines.append(text.count("\n"))
    again = read(text)
    sizes = range(made.pattern.sizes)
    direct = [work(made.pattern, size=size) for size in sizes]
    back = [work(again, size=size) for size in sizes]
    findings = [f for f in proof(again, back) if f.severity != "note"]
    tally.errors += any(f.severity == "error" for f in findings)
    tally.warnings += any(f.severity == "warning" for f in findings)
    for finding in findings[:1]:
        tally.why[f"{finding.severity} {finding.rule}"] += 1
        if len(tally.shown) < worst:
            tally.shown.append(f"{about}\n    {finding.row}: {finding.message}")
    counts = [[[r.counted.total for r in part.rows if not r.foundation] for part in fabric.parts] for fabric in direct]
    if counts != [[[r.counted.total for r in part.rows if not r.foundation] for part in fabric.parts] for fabric in back]:
        tally.differs += 1
        tally.why["read back differs"] += 1
        if len(tally.shown) < worst:
            tally.shown.append(f"{about}\n    read back differs")
    if made.views:
        fit = made.fit or max(misfit(view, made.custom, *made.tolerance) for view in made.views)
        tally.fits.append(fit)
        if fit > 1.02:
            tally.outside += 1
            if len(tally.shown) < worst:
                tally.shown.append(f"{about}\n    outline {fit:.2f} of what is allowed")


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--each", type=int, default=200)
    arguments.add_argument("--seed", type=int, default=7)
    arguments.add_argument("--family", nargs="*")
    arguments.add_argument("--worst", type=int, default=0)
    arguments.add_argument("--gauge", choices=("any", "real"), default="any")
    told = arguments.parse_args()
    print(f"{told.each} each, seed {told.seed}, gauges: {told.gauge}\n")
    heads = (
        "family, tried, refused, error, warning, read back differs, outline outside, fit (median), custom limits, lines, ms median, ms most"
    )
    print("| " + " | ".join(heads.split(", ")) + " |")
    print("|---|---|---|---|---|---|---|---|---|---|---|---|")
    everything = Tally()
    for name in told.family or families():
        rng = random.Random(f"{told.seed} {name}")
        tally = Tally()
        for _ in range(told.each):
            gauge = (any_gauge if told.gauge == "any" else real_gauge)(rng)
            turning = rng.choice((None, None, "3 counts" if gauge.stitch in ("dc", "hdc") else None))
            if name in ("oval", "hat", "mitten"):
                turning = None
            one(name, gauge, measures(name, rng, gauge.stitch), turning, tally, told.worst)
        _row(name, tally)
        for line in tally.shown:
            print("   ", line)
        if told.worst:
            print("   ", dict(tally.why.most_common(6)))
        for key in ("tried", "refused", "errors", "warnings", "differs", "outside", "limited"):
            setattr(everything, key, getattr(everything, key) + getattr(tally, key))
        everything.fits += tally.fits
        everything.seconds += tally.seconds
        everything.lines += tally.lines
    _row("**all**", everything)


def _row(name: str, t: Tally) -> None:
    fit = f"{statistics.median(t.fits):.2f}" if t.fits else "-"
    ms = [1000 * s for s in t.seconds] or [0.0]
    lines = statistics.median(t.lines) if t.lines else 0
    print(
        f"| {name} | {t.tried} | {t.refused} | {t.errors} | {t.warnings} | {t.differs} | {t.outside} | {fit} | {t.limited} | {lines:.0f} | "
        f"{statistics.median(ms):.0f} | {max(ms):.0f} |",
        flush=True,
    )


if __name__ == "__main__":
    main()
