"""Whole patterns in many voices, of our own invention: every row read whole and worked, every count right with the stated counts and
without them, no alarm but on the deliberate mistakes.

Beside each `tests/cases/reading/NAME.md` stands `NAME.toml`: `size_1`, `size_2` … hold the stitches of every row in worked order (a string
for each part; `x3` three rows alike, `(…) x3` three times these rows, `-` not told), and `mistakes` the rows with a deliberate mistake.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from hookwright.pattern import Pattern
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import Fabric, RowWork, work

FOLDER = Path(__file__).parents[2] / "cases" / "reading"
NAMES = sorted(path.stem for path in FOLDER.glob("*.md"))


def counts_told(parts: list[str]) -> list[int | None]:
    """ "6, 12 x2, -" → [6, 12, 12, None]."""
    told: list[int | None] = []
    for words in parts:
        spelled = re.sub(r"\(([^()]*)\) x(\d+)", lambda match: ", ".join([match[1]] * int(match[2])), words)
        for item in filter(None, (one.strip() for one in spelled.split(","))):
            number, _, times = item.partition(" x")
            told += [None if number == "-" else int(number)] * int(times or 1)
    return told


def rows_of(fabric: Fabric) -> list[RowWork]:
    return [row for part in fabric.parts for row in part.rows if not row.foundation]


def blanked(text: str, pattern: Pattern) -> str:
    """The text with blanks where its stated counts stand."""
    signs = list(text)
    for count in (count for part in pattern.parts for row in part.rows for count in row.stated):
        signs[count.span.start : count.span.end] = ["\n" if s == "\n" else " " for s in signs[count.span.start : count.span.end]]
    return "".join(signs)


def wrong_counts(fabric: Fabric, told: list[int | None]) -> list[str]:
    rows = rows_of(fabric)
    if len(rows) != len(told):
        return [f"{len(rows)} rows for {len(told)}: " + ", ".join(f"{row.label} = {row.counted.total}" for row in rows)]
    pairs = zip(rows, told, strict=True)
    return [f"{row.label}: {row.counted.total}, not {number}" for row, number in pairs if number not in (None, row.counted.total)]


@pytest.mark.parametrize("name", NAMES)
def test_a_pattern_is_read_worked_and_judged(name: str) -> None:
    text = (FOLDER / f"{name}.md").read_text(encoding="utf-8")
    truth = tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))
    mistakes = set(truth.get("mistakes", []))
    pattern = read(text)
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    assert [key for key in truth if key.startswith("size_")] == [f"size_{k + 1}" for k in range(pattern.sizes)]
    bare = read(blanked(text, pattern))
    for fabric in fabrics:
        told = counts_told(truth[f"size_{fabric.size + 1}"])
        rows = rows_of(fabric)
        assert [(row.label, row.read) for row in rows if row.read != "whole"] == []
        assert wrong_counts(fabric, told) == []
        sure = [row for row, number in zip(rows, told, strict=True) if number is not None and row.label not in mistakes]
        assert [(row.label, row.worked) for row in sure if row.worked != "yes"] == []
        if not mistakes:
            assert wrong_counts(work(bare, size=fabric.size), told) == [], "with every stated count blanked"
    alarms = [finding for finding in proof(pattern, tuple(fabrics)) if finding.severity in ("error", "warning")]
    assert [(one.rule, one.row, one.message) for one in alarms if one.row not in mistakes] == []
    assert {one.row for one in alarms if one.severity == "error"} == mistakes


def test_there_are_many() -> None:
    assert len(NAMES) >= 60
