"""Patterns read, written anew from their steps alone, and read again: `python benches/read_again.py [--corpus FOLDER] [--show]`.

The writer is given no source text, so that nothing can be copied: what it says, it says from the steps. A pattern comes back when every
row of every size holds the same stitches on the same places; what is counted is patterns and rows. A pattern with words that were not
understood cannot come back whole, since those words are withheld: such patterns are counted on their own line.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from hookwright.pattern import Pattern
from hookwright.reading import read
from hookwright.working import Fabric, RowWork, work
from hookwright.writing import write

ROOT = Path(__file__).parent.parent


def texts(folder: Path) -> list[tuple[str, str]]:
    """Names and texts of a folder's patterns."""
    files = sorted([*folder.glob("*.md"), *folder.glob("*.txt")])
    return [(path.stem, path.read_text(encoding="utf-8")) for path in files]


def rows_of(fabric: Fabric) -> list[RowWork]:
    return [row for part in fabric.parts for row in part.rows if not row.foundation]


def stitches_of(row: RowWork) -> list[tuple[str, list[tuple[int, int, int]]]]:
    """Every element of a row with its feet."""
    return [(row.stitches.name(i), list(row.stitches.feet_of(i))) for i in range(len(row.stitches))]


def written_again(pattern: Pattern, size: int) -> Pattern:
    """The pattern as it is read from words made without its source."""
    return read(write(replace(pattern, source=""), terms=pattern.terms).text)


def compare(pattern: Pattern) -> Iterator[tuple[int, str, bool]]:
    """(size, row, whether it came back) for every row worked."""
    again = written_again(pattern, 0)
    for size in range(pattern.sizes):
        first, second = rows_of(work(pattern, size=size)), rows_of(work(again, size=size)) if size < again.sizes else []
        for k, row in enumerate(first):
            other = second[k] if k < len(second) else None
            yield size, row.label, other is not None and stitches_of(row) == stitches_of(other)


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--corpus", type=Path)
    parser.add_argument("--show", action="store_true")
    asked = parser.parse_args()
    sets = [("cases", ROOT / "tests" / "cases" / "reading"), ("examples", ROOT / "examples")]
    if asked.corpus:
        sets.append(("corpus", asked.corpus / "patterns"))
    print("| patterns | understood whole | come back whole | rows | rows that come back |\n| --- | --- | --- | --- | --- |")
    for name, folder in sets:
        for whole in (True, False):
            number = back = rows = rows_back = 0
            for stem, text in texts(folder):
                pattern = read(text)
                if whole == any(trouble.kind == "unread" for trouble in pattern.troubles):
                    continue
                got = list(compare(pattern))
                lost = [f"{label} (size {size + 1})" for size, label, same in got if not same]
                number, back = number + 1, back + (not lost)
                rows, rows_back = rows + len(got), rows_back + len(got) - len(lost)
                if lost and asked.show:
                    print(f"    {stem}: {len(lost)} of {len(got)}: {', '.join(lost[:4])}")
            if number:
                told = f"{rows:,} | {rows_back:,} ({rows_back / max(rows, 1):.1%})"
                print(f"| {number} {name} | {'yes' if whole else 'no'} | {back} | {told} |", flush=True)


if __name__ == "__main__":
    main()
