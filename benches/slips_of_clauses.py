"""A second planter of slips, of another notion: clauses left out, told twice or swapped, in our own whole patterns.

`python benches/slips_of_clauses.py [FOLDER] [--list]` (default tests/cases/reading). In rows that state a count one clause is taken out, or
told twice, a number of times is told one less, a "2" of an increase is lost, a decrease becomes a plain stitch, two rows change places.
Found: an error or a warning on the row, or on a row after it; a finding before it is a new alarm. Slips whose row then still makes the
stated count (chains, remarks, repeats to the end that take up what is left) contradict nothing and are left out.
"""

from __future__ import annotations

import random
import re
import sys
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

from slips import Slip, hit, judge, swap

from hookwright.pattern import Pattern, Row
from hookwright.reading import read
from hookwright.working import work

KEEP = 4
"""Slips of one kind taken from one pattern at the most."""
_CLAUSE = re.compile(r"[^,;.:*()\[\]]+")
_STITCHES = re.compile(r"(?i)\b(?:sc|hdc|dc|tr|inc|dec|sc2tog|dc2tog|hdc2tog)\b")
_TIMES = re.compile(r"(?<=[x*])\s?(\d{1,2})\b(?!\s?(?:sc|dc|hdc|tr|st))|\b(\d{1,2})(?= (?:more )?times)|(?<= )(\d{1,2})x\b")
_TWO = re.compile(r"\b(2) (?=(?:sc|hdc|dc|tr) in (?:the )?(?:next|each|first|last|same))")
_LESS = re.compile(r"(?i)\b(sc2tog|dc2tog|hdc2tog|inv ?dec|dec)\b")


def body(row: Row, text: str) -> tuple[int, int]:
    """Where the row's instruction stands, its label and its counts left out."""
    end = min((c.span.start for c in row.stated if c.span.start > row.label_span.end), default=row.span.end)
    return row.label_span.end, end


def slips(pattern: Pattern, text: str) -> Iterator[Slip]:
    """Every slip this planter knows."""
    for part in pattern.parts:
        rows = [row for row in part.rows if row.stated and row.label_span.end > row.label_span.start]
        for row in rows:
            start, end = body(row, text)
            for match in _CLAUSE.finditer(text, start, end):
                if _STITCHES.search(match[0]) and not re.search(r"(?i)\bsl st|join|\bch\b", match[0]):
                    after = match.end() + (text[match.end() : match.end() + 1] in ",;")
                    yield Slip("clause left out", row, swap(text, match.start(), after, ""), match[0].strip(), True)
                    yield Slip("clause told twice", row, swap(text, match.end(), match.end(), "," + match[0]), match[0].strip(), True)
            for match in _TIMES.finditer(text, start, end):
                number = next(group for group in match.groups() if group)
                a, b = next(match.span(k) for k in range(1, 4) if match[k])
                if int(number) > 1:
                    yield Slip("once too few", row, swap(text, a, b, str(int(number) - 1)), match[0], True)
            for match in _TWO.finditer(text, start, end):
                yield Slip("increase lost", row, swap(text, match.start(1), match.end(1), "1"), match[0], True)
            plain = "dc" if part.terms == "UK" else "sc"
            for match in _LESS.finditer(text, start, end):
                yield Slip("decrease lost", row, swap(text, match.start(1), match.end(1), plain), match[0], True)
        for one, other in pairwise(rows):
            if [str(c.number) for c in one.stated] != [str(c.number) for c in other.stated]:
                (a, b), (c, d) = body(one, text), body(other, text)
                swapped = text[:a] + text[c:d] + text[b:c] + text[a:b] + text[d:]
                yield Slip("rows changed places", one, swapped, one.label, True)


def contradicts(slip: Slip) -> bool:
    """Whether the row, worked as it now stands, no longer makes what it made or no longer fits."""
    pattern = read(slip.text)
    rows = (row for size in range(pattern.sizes) for part in work(pattern, size=size).parts for row in part.rows)
    at = slip.row.span.start
    return any(row.written.span.start == at and (row.state == "differs" or row.worked != "yes") for row in rows)


def main(folder: str, show: bool) -> None:
    random.seed(11)
    tally: dict[str, list[int]] = {}
    neutral = clean = 0
    for file in sorted(Path(folder).rglob("*.md")):
        text = file.read_text(encoding="utf-8")
        pattern, _, errors = judge(text)
        if errors:
            continue
        clean += 1
        kinds: dict[str, list[Slip]] = {}
        for slip in slips(pattern, text):
            kinds.setdefault(slip.kind, []).append(slip)
        for kind, found in kinds.items():
            for slip in random.sample(found, min(KEEP, len(found))):
                good, bad = hit(slip)
                if not good and not contradicts(slip):
                    neutral += 1
                    if show:
                        print(f"NEUTRAL {file.stem} {slip.row.label}: {kind} {slip.words!r}")
                    continue
                one = tally.setdefault(kind, [0, 0, 0])
                one[0] += 1
                one[1] += good
                one[2] += bad
                if show and (not good or bad):
                    print(f"{'MISSED' if not good else 'ALARM'} {file.stem} {slip.row.label}: {kind} {slip.words!r}")
    print(f"{clean} clean patterns\n\n| slip | planted | found | new alarms |\n| --- | --- | --- | --- |")
    for kind, (planted, good, bad) in sorted(tally.items()):
        print(f"| {kind} | {planted} | {good} | {bad} |")
    planted, good, bad = (sum(one[k] for one in tally.values()) for k in range(3))
    print(f"\n{good} of {planted} found ({100 * good / max(planted, 1):.1f} %), {bad} new alarms; {neutral} more are neutral")


if __name__ == "__main__":
    named = [a for a in sys.argv[1:] if not a.startswith("--")]
    main(named[0] if named else str(Path(__file__).resolve().parent.parent / "tests/cases/reading"), "--list" in sys.argv)
