"""The cases of tests/cases/proof: every finding written beside a line is found on that line, and no other is."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import NamedTuple

import pytest

from hookwright.pattern import apply_edits
from hookwright.proofing import RULES, proof
from hookwright.proofing.report import Lines
from hookwright.reading import read
from hookwright.working import work

CASES = Path(__file__).parents[2] / "cases" / "proof"
_BLOCK = re.compile(r"^## (?P<title>[^\n]+)\n+```pattern\n(?P<body>.*?)^```", re.S | re.M)
_MARK = re.compile(r"[ \t]*<!--(?P<told>.*?)-->[ \t]*$")


class Expected(NamedTuple):
    line: int
    rule: str
    severity: str


def _cases() -> list[tuple[str, str, list[Expected]]]:
    out = []
    for path in sorted(CASES.glob("*.md")):
        for match in _BLOCK.finditer(path.read_text(encoding="utf-8")):
            lines, expected = [], []
            for number, line in enumerate(match["body"].splitlines(), 1):
                mark = _MARK.search(line)
                if mark:
                    for told in mark["told"].split(","):
                        rule, _, severity = told.strip().partition(" ")
                        expected.append(Expected(number, rule, severity))
                lines.append(_MARK.sub("", line))
            out.append((f"{path.stem}: {match['title']}", "\n".join(lines) + "\n", expected))
    return out


def _found(text: str) -> list[Expected]:
    pattern = read(text)
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    lines = Lines(text)
    return [Expected(lines.of(one.span.start)[0], one.rule, one.severity) for one in proof(pattern, fabrics)]


@pytest.mark.parametrize(("title", "text", "expected"), _cases(), ids=[title for title, _, _ in _cases()])
def test_findings_stand_beside_the_faulty_line(title: str, text: str, expected: list[Expected]) -> None:
    found = _found(text)
    assert Counter((one.line, one.rule) for one in found) == Counter((one.line, one.rule) for one in expected), found
    for one in expected:
        if one.severity:
            assert one in found


def test_every_rule_has_a_case() -> None:
    told = {one.rule for _, _, expected in _cases() for one in expected}
    assert told == {rule.name for rule in RULES}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_case_fails_without_the_rule(rule: object) -> None:
    name = getattr(rule, "name")  # noqa: B009
    text = next(text for _, text, expected in _cases() if any(one.rule == name for one in expected))
    pattern = read(text)
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    with_it = {one.rule for one in proof(pattern, fabrics)}
    without = {one.rule for one in proof(pattern, fabrics, rules=[one for one in RULES if one.name != name])}
    assert name in with_it and name not in without


@pytest.mark.parametrize(("title", "text"), [(title, text) for title, text, _ in _cases()], ids=[title for title, _, _ in _cases()])
def test_safe_repairs_bring_no_new_finding(title: str, text: str) -> None:
    """Applied until nothing changes, repairs end, and leave no finding that was not there before."""
    before = Counter(one.rule for one in _found(text))
    for _ in range(10):
        pattern = read(text)
        fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
        safe = [one.repair for one in proof(pattern, fabrics) if one.repair is not None and one.repair.grade == "safe"]
        if not safe:
            break
        totals = [row.counted.total for fabric in fabrics for part in fabric.parts for row in part.rows]
        text = apply_edits(text, safe[0].edits)
        after = read(text)
        again = [work(after, size=size) for size in range(after.sizes)]
        assert [row.counted.total for fabric in again for part in fabric.parts for row in part.rows] == totals, "the piece has changed"
    else:
        pytest.fail("repairs never come to an end")
    now = Counter(one.rule for one in _found(text))
    assert not now - before
