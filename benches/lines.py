"""How fast rows are read that were never read before: `python benches/lines.py [--slowest N]`.

Distinct row lines, from two sources: every row line of our own texts, and rows put together from the places, stitches and repeats of the
trade (drawn alike in every run). Each is read by itself and never having been read; CPU time is told, and the slowest line.
"""

from __future__ import annotations

import argparse
import itertools
import random
import re
import statistics
import time
from collections.abc import Iterator
from pathlib import Path

from hookwright.reading import read

ROOT = Path(__file__).parent.parent
_ROW = re.compile(r"^(?:\*\*)?(?:rows?|rnds?|rounds?)\s\d", re.IGNORECASE)
STITCHES = (
    "sc",
    "hdc",
    "dc",
    "tr",
    "2 sc",
    "3 dc",
    "FPdc",
    "BPdc",
    "sc2tog",
    "dc3tog",
    "puff st",
    "single crochet",
    "sl st",
    "shell",
    "picot",
)
PLACES = (
    "in next st", "in next 4 sts", "in each of next 3 sts", "in same st", "in first st", "in next ch-2 sp", "around post of next dc",
    "in top of turning ch", "in back loop only of next st", "in 4th ch from hook", "in corner", "in center dc of next shell",
    "over next 2 sts", "in each st to last 2 sts",
)  # fmt: skip
BETWEEN = ("ch 2", "ch 3", "skip 1 st", "skip next 2 sts", "turn", "ch 1 (does not count as st)", "change to B", "")
REPEATS = ("; rep from * across", "; rep from * 5 times more", "; rep from * to last 3 sts, dc in last 3 sts", "; rep from * around, join")
ENDS = (". ({n} sts)", ", turn. ({n} dc)", " — {n} sc", "; join with sl st to first st. [{n} sts, {m} ch-2 sps]", ".")


def of_ours() -> list[str]:
    """Every distinct row line of our own texts."""
    folders = (ROOT / "tests" / "cases", ROOT / "examples", ROOT / "src" / "hookwright" / "demo")
    lines = (
        line.strip()
        for folder in folders
        for path in sorted(folder.rglob("*.md"))
        for line in path.read_text(encoding="utf-8").splitlines()
    )
    return list(dict.fromkeys(line for line in lines if _ROW.match(line)))


def made(number: int) -> Iterator[str]:
    """Distinct rows put together; the same ones in every run."""
    chance = random.Random(26)
    seen: set[str] = set()
    for k in itertools.count(2):
        steps = [f"{chance.choice(STITCHES)} {chance.choice(PLACES)}" for _ in range(chance.randint(1, 5))]
        steps.insert(chance.randint(0, len(steps)), chance.choice(BETWEEN))
        body = ", ".join(filter(None, steps))
        if chance.random() < 0.5:
            body = f"{chance.choice(STITCHES)} {chance.choice(PLACES)}, *{body}{chance.choice(REPEATS)}"
        line = f"Row {k}: {body}{chance.choice(ENDS).format(n=chance.randint(5, 200), m=chance.randint(2, 30))}"
        if line not in seen:
            seen.add(line)
            yield line
        if len(seen) == number:
            return


def timed(lines: list[str]) -> list[tuple[float, str]]:
    """CPU milliseconds of each line, read by itself (other programs' time left out)."""
    found = []
    for line in lines:
        started = time.process_time()
        read(line)
        found.append(((time.process_time() - started) * 1000, line))
    return found


def again(line: str) -> float:
    """The quickest of three readings of a line, each in other words (blanks), so that a pause of the machine is not taken for slowness."""
    return min(timed([line.replace(" ", " " * k, 1 + k)])[0][0] for k in (2, 3, 4))


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--slowest", type=int, default=3)
    asked = parser.parse_args()
    read("Row 1: Ch 4, sc in 2nd ch from hook. (3 sc)")
    print("| lines | number | a second, each by itself | a second, as one text | median ms | slowest ms |")
    print("| --- | --- | --- | --- | --- | --- |")
    for name, lines in (("of our own texts", of_ours()), ("put together", list(made(4_000)))):
        found = timed(lines)
        spent = [ms for ms, _ in found]
        fresh = [line.replace(":", " :", 1) for line in lines]  # other words than those just read
        started = time.process_time()
        for start in range(0, len(fresh), 100):
            read("\n".join(fresh[start : start + 100]))
        together = time.process_time() - started
        told = f"{len(lines) / sum(spent) * 1000:,.0f} | {len(lines) / together:,.0f}"
        slowest = max(again(line) for _, line in sorted(found, reverse=True)[:20])
        print(f"| {name} | {len(lines):,} | {told} | {statistics.median(spent):.2f} | {slowest:.1f} |")
        for ms, line in sorted(((again(line), line) for _, line in sorted(found, reverse=True)[:20]), reverse=True)[: asked.slowest]:
            print(f"    {ms:.1f} ms, {len(line)} characters: {line[:120]}")


if __name__ == "__main__":
    main()
