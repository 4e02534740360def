"""Slips planted one at a time in clean patterns, and how many proofing finds: `python benches/slips.py [FOLDER …] [--list]`.

A slip that contradicts something stated counts as found when an error or a warning lies on its row, or on the first row that it makes
impossible (the first row whose words no longer fit what they are offered). An alarm elsewhere on untouched rows before it is a new alarm.
Slips that contradict nothing stated (a dc that became a tr where no count names the kind, for instance) stand on a line of their own.
"""

from __future__ import annotations

import random
import re
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from hookwright.pattern import Finding, Pattern, Row
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import Fabric, work

KEEP = 12
"""Slips of one kind taken from one pattern at the most."""


@dataclass(frozen=True)
class Slip:
    kind: str
    row: Row
    text: str
    words: str
    contradicts: bool


@dataclass
class Tally:
    planted: int = 0
    found: int = 0
    alarms: int = 0


def judge(text: str) -> tuple[Pattern, list[Fabric], list[Finding]]:
    """Read, work in every size and proof: errors and warnings."""
    pattern = read(text)
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    return pattern, fabrics, [f for f in proof(pattern, fabrics) if f.severity != "note"]


def swap(text: str, start: int, end: int, words: str) -> str:
    return text[:start] + words + text[end:]


def numbers_in(row: Row, source: str, pattern: str) -> Iterator[re.Match[str]]:
    """Matches of `pattern` inside the row's words, its counts left out."""
    counts = [(c.span.start, c.span.end) for c in row.stated]
    for match in re.finditer(pattern, source[: row.span.end], re.IGNORECASE):
        if match.start() >= row.label_span.end and not any(a <= match.start() < b for a, b in counts):
            yield match


def bump(match: re.Match[str], by: int) -> tuple[int, int, str]:
    """The span of the match's first group and its number changed by `by`."""
    return match.start(1), match.end(1), str(int(match[1]) + by)


NUMBER_SLIPS = (
    ("wrong repeat number", r"\b(\d+) (?:more )?times\b|(?<=\])\s*x\s*(\d+)", 1),
    ("missing stitch", r"\bnext (\d+)\b", -1),
    ("extra stitch", r"\bnext (\d+)\b", 1),
    ("wrong reference", r"\brep(?:eat)? rows? (\d+)\b", 1),
    ("wrong foundation chain", r"^\s*ch (\d+)[.,]", 1),
)


def slips_of(pattern: Pattern, text: str) -> Iterator[Slip]:
    """Every slip this planter knows for a clean pattern."""
    for part in pattern.parts:
        for n, row in enumerate(part.rows):
            told = bool(row.stated)
            later = part.rows[n + 1 :]
            tied = told or any(r.stated for r in later[:1])
            for count in row.stated:
                match = re.search(r"\d+", text[count.span.start : count.span.end])
                if match and not count.approximate:
                    start = count.span.start + match.start()
                    yield Slip("count off by one", row, swap(text, start, start + len(match[0]), str(int(match[0]) + 1)), match[0], True)
            for kind, regex, by in NUMBER_SLIPS:
                for match in numbers_in(row, text, regex):
                    if match[1] is None or int(match[1]) + by < 1:
                        continue
                    start, end, words = bump(match, by)
                    contradicts = tied if kind != "wrong reference" else other_count(part.rows[:n], int(match[1]), by)
                    yield Slip(kind, row, swap(text, start, end, words), match[0], contradicts)
            yield from word_slips(row, text, tied)
            if n and len(part.rows) > n + 1 and row.numbers:
                yield Slip("dropped row", row, swap(text, row.span.start, row.span.end, ""), row.label, True)


def other_count(earlier: Sequence[Row], number: int, by: int) -> bool:
    """Whether the row now referred to is none, or states another count than the row that was meant."""
    stated = {n: [(str(c.number), c.kind) for c in row.stated] for row in earlier for numbers in row.numbers for n in numbers}
    return number + by not in stated or stated[number + by] != stated.get(number)


def word_slips(row: Row, text: str, tied: bool) -> Iterator[Slip]:
    """Slips of words: swapped edge, dc for tr, a changed turning chain, one size out of step."""
    for match in numbers_in(row, text, r"\bin (first|last) st\b"):
        other = "last" if match[1].lower() == "first" else "first"
        yield Slip("swapped edge", row, swap(text, match.start(1), match.end(1), other), match[0], False)
    for match in numbers_in(row, text, r"\b(dc)\b(?=\s+in)"):
        named = any(c.kind == "dc" for c in row.stated)
        yield Slip("dc for tr", row, swap(text, match.start(1), match.end(1), "tr"), match[0], named)
    for match in numbers_in(row, text, r"\bch (\d)\b(?= \(counts)"):
        yield Slip("changed turning chain", row, swap(text, match.start(1), match.end(1), str(int(match[1]) + 1)), match[0], False)
    for match in numbers_in(row, text, r"\(\d+, (\d+)(?:, \d+)*\)"):
        yield Slip("one size out of step", row, swap(text, match.start(1), match.end(1), str(int(match[1]) + 1)), match[0], tied)


def first_impossible(fabrics: list[Fabric], row: Row, part: str) -> set[int]:
    """The ids of the written rows that the slip makes impossible: the first misfit at or after the slip's row, in any size."""
    found: set[int] = set()
    for fabric in fabrics:
        for work_ in fabric.parts:
            seen = False
            for worked in work_.rows:
                seen = seen or worked.written.span.start >= row.span.start
                if seen and (worked.worked == "unworkable" or worked.state == "differs"):
                    found.add(worked.written.span.start)
                    break
    del part
    return found


def hit(slip: Slip) -> tuple[bool, bool]:
    """(found, a new alarm on untouched text before the slip)."""
    _, fabrics, errors = judge(slip.text)
    allowed = first_impossible(fabrics, slip.row, "")
    spans = [(w.written.span.start, w.written.span.end) for f in fabrics for p in f.parts for w in p.rows]
    good = bad = False
    for error in errors:
        starts = {a for a, b in spans if a <= error.span.start < max(b, a + 1)}
        on_row = slip.row.span.start <= error.span.start <= slip.row.span.end + 2
        if on_row or starts & allowed or (slip.kind == "dropped row" and error.span.start >= slip.row.span.start):
            good = True
        elif error.span.start < slip.row.span.start:
            bad = True
    return good, bad


def main(folders: list[str], show: bool) -> None:
    random.seed(7)
    tallies: dict[tuple[str, bool], Tally] = {}
    clean = 0
    for folder in folders:
        for file in sorted(Path(folder).rglob("*.md")):
            text = file.read_text(encoding="utf-8")
            pattern, _, errors = judge(text)
            if errors or not pattern.parts:
                continue
            clean += 1
            by_kind: dict[str, list[Slip]] = {}
            for slip in slips_of(pattern, text):
                by_kind.setdefault(slip.kind, []).append(slip)
            for slips in by_kind.values():
                for slip in random.sample(slips, min(KEEP, len(slips))):
                    tally = tallies.setdefault((slip.kind, slip.contradicts), Tally())
                    good, bad = hit(slip)
                    tally.planted += 1
                    tally.found += good
                    tally.alarms += bad
                    if show and ((slip.contradicts and not good) or bad):
                        print(f"{'MISSED' if not good else 'ALARM'} {file.name} {slip.row.label}: {slip.kind} at {slip.words!r}")
    print(
        f"{clean} clean patterns\n\n| slip | contradicts something stated | planted | found | new alarms |\n| --- | --- | --- | --- | --- |"
    )
    for (kind, contradicts), t in sorted(tallies.items()):
        print(f"| {kind} | {'yes' if contradicts else 'no'} | {t.planted} | {t.found} | {t.alarms} |")
    for wanted in (True, False):
        some = [t for (_, c), t in tallies.items() if c is wanted]
        planted, found = sum(t.planted for t in some), sum(t.found for t in some)
        if planted:
            word = "contradicting" if wanted else "count-neutral"
            print(f"\n{word}: {found} of {planted} found ({100 * found / planted:.1f} %), {sum(t.alarms for t in some)} new alarms")


if __name__ == "__main__":
    named = [a for a in sys.argv[1:] if not a.startswith("--")]
    here = Path(__file__).resolve().parent.parent
    main(named or [str(here / "examples"), str(here / "src/hookwright/demo")], "--list" in sys.argv)
