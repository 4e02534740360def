"""Planted slips found in narrations made up by machine: `python benches/teach.py [--many N] [--list] [--seed N]`.

# ruff: noqa: E501

For every style of speaking (six that the comparison was worked on, four held out) and every example, narrations with slips planted at
random are written as captions of four forms, half of them with the noise of machine captions. A slip is found when it is reported with
its kind, at its row, within five seconds; whatever else is reported is a false alarm. The table gives both for both groups of styles.
"""

from __future__ import annotations

import random
import sys
import time
from collections import defaultdict
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from narrating.narrate import Narration, Planted, narrate, timed
from narrating.rows import rows_to_say
from narrating.styles import HELD_OUT, SECOND, TUNED, Style

from hookwright.pattern import Pattern
from hookwright.reading import read
from hookwright.teaching import Heard, compare, read_captions
from hookwright.working import Fabric, work

ROOT = Path(__file__).parents[1]
WITHIN_S = 5.0


def patterns() -> list[tuple[str, Pattern, Fabric]]:
    found = []
    for path in sorted([*(ROOT / "examples").glob("*.md"), *(ROOT / "tests" / "cases" / "teach").glob("*.md")]):
        pattern = read(path.read_text(encoding="utf-8"))
        found.append((path.stem, pattern, work(pattern)))
    return found


def same_row(a: str, b: str) -> bool:
    """Whether a row reported is the row planted: the first number and the noun-less rest."""
    first = [int(n) for n in "".join(c if c.isdigit() else " " for c in a).split()]
    second = [int(n) for n in "".join(c if c.isdigit() else " " for c in b).split()]
    return bool(first and second) and (first[0] <= second[0] <= first[-1] or second[0] <= first[0] <= second[-1])


def match(found: tuple[Heard, ...], planted: list[Planted]) -> tuple[list[Planted], list[Planted], list[Heard]]:
    """(found, missed, false alarms)."""
    left = list(found)
    hit, missed = [], []
    for slip in planted:
        one = next((h for h in left if h.kind == slip.kind and h.at is not None and abs(h.at - slip.at) <= WITHIN_S), None)
        if one is None:
            missed.append(slip)
        else:
            hit.append(slip)
            left.remove(one)
    left = [
        h for h in left if not any(h.kind == s.kind and same_row(h.row, s.row) and h.at is not None and abs(h.at - s.at) <= 30 for s in hit)
    ]
    return hit, missed, left


def make(r: random.Random, pattern: Pattern, fabric: Fabric, style: Style, slips: int) -> Narration:
    terms = "UK" if style.uk else pattern.terms
    rows = rows_to_say(pattern, fabric, terms)
    said = narrate(r, rows, style, terms, slips)
    machine = style.name == "auto-captions" or r.random() < 0.4
    form = "rolling" if style.name == "auto-captions" else r.choice(("vtt", "srt", "plain", "rolling"))
    return timed(r, said, machine=machine, form=form)


def main() -> None:
    arguments = sys.argv[1:]
    many = int(arguments[arguments.index("--many") + 1]) if "--many" in arguments else 3
    seed = int(arguments[arguments.index("--seed") + 1]) if "--seed" in arguments else 1
    listing = "--list" in arguments
    pieces = patterns()
    kinds: dict[tuple[str, str], list[int]] = defaultdict(lambda: [0, 0])
    print(f"{'style':18} {'narrations':>10} {'minutes':>8} {'planted':>8} {'found':>6} {'share':>6} {'false':>6} {'per 10 min':>10}")
    spent = 0.0
    for group, styles in (("tuned", TUNED), ("second", SECOND), ("held out", HELD_OUT)):
        sums = [0, 0.0, 0, 0, 0]
        for style in styles:
            tally = [0, 0.0, 0, 0, 0]
            for name, pattern, fabric in pieces:
                for k in range(many):
                    r = random.Random(f"{seed} {style.name} {name} {k}")
                    made = make(r, pattern, fabric, style, slips=r.choice((0, 2, 3, 4)))
                    began = time.perf_counter()
                    found = compare(fabric, read_captions(made.captions))
                    spent += time.perf_counter() - began
                    hit, missed, alarms = match(found, made.planted)
                    for slip in made.planted:
                        kinds[group, slip.kind][0] += 1
                        kinds[group, slip.kind][1] += slip in hit
                    tally = [
                        tally[0] + 1,
                        tally[1] + made.seconds / 60,
                        tally[2] + len(made.planted),
                        tally[3] + len(hit),
                        tally[4] + len(alarms),
                    ]
                    if listing:
                        for slip in missed:
                            print(f"   MISSED {style.name} / {name} {k}: {slip}")
                        for h in alarms:
                            print(f"   ALARM  {style.name} / {name} {k}: {h.at or -1:.1f} {h.kind} {h.row}: {h.message} ({h.sure})")
            _line(style.name, tally)
            sums = [a + b for a, b in zip(sums, tally, strict=True)]
        _line(f"ALL {group}", sums)
    print()
    for (group, kind), (planted, found_) in sorted(kinds.items()):
        print(f"{group:9} {kind:17} {found_:4} of {planted:4}  {found_ / max(planted, 1):.0%}")
    print(f"\ncomparing took {spent:.1f} s in all")


def _line(name: str, tally: list[float]) -> None:
    narrations, minutes, planted, found, alarms = tally
    share, rate = found / max(planted, 1), alarms / max(minutes, 0.1) * 10
    print(f"{name:18} {narrations:10.0f} {minutes:8.1f} {planted:8.0f} {found:6.0f} {share:6.0%} {alarms:6.0f} {rate:10.2f}")


if __name__ == "__main__":
    main()
