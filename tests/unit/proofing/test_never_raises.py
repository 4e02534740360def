"""Whatever the text, proofing ends with findings whose spans lie in it, in order, the same on a second run; the report keeps its schema."""

from __future__ import annotations

import re
from pathlib import Path

import jsonschema
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hookwright.proofing import RULES, proof
from hookwright.proofing.opened_row import show_row
from hookwright.proofing.report import report, schema
from hookwright.proofing.terminal import show_findings
from hookwright.reading import read
from hookwright.working import work

CASES = Path(__file__).parents[2] / "cases" / "proof"
TEXTS = [
    body for path in sorted(CASES.glob("*.md")) for body in re.findall(r"```pattern\n(.*?)```", path.read_text(encoding="utf-8"), re.S)
]
SCHEMA = jsonschema.Draft202012Validator(schema("proof/1"))


@st.composite
def mangled(draw: st.DrawFn) -> str:
    """A pattern of the cases with a few lines cut, doubled, swapped, and a few characters changed."""
    text = draw(st.sampled_from([text for text in TEXTS if "9000000" not in text]))
    lines = text.splitlines()
    for _ in range(draw(st.integers(0, 3))):
        at = draw(st.integers(0, max(0, len(lines) - 1)))
        match draw(st.sampled_from(["cut", "double", "swap", "half"])):
            case "cut" if lines:
                del lines[at]
            case "double" if lines:
                lines.insert(at, lines[at])
            case "swap" if len(lines) > 1:
                lines[at], lines[at - 1] = lines[at - 1], lines[at]
            case "half" if lines:
                lines[at] = lines[at][: len(lines[at]) // 2]
    text = "\n".join(lines)
    for _ in range(draw(st.integers(0, 3))):
        at = draw(st.integers(0, len(text)))
        text = (
            text[:at]
            + draw(st.sampled_from(["", "(", ")", "*", "0", "9", " ", "é", "🧶", "\r\n", "in", "cm", '"', "½", "-"]))
            + text[at + 1 :]
        )
    return text


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(mangled())
def test_any_text_ends_in_findings(text: str) -> None:
    pattern = read(text)
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    found = proof(pattern, fabrics)
    names = {rule.name for rule in RULES}
    for finding in found:
        assert finding.rule in names and finding.message and not re.search(r"\{[\w -]+\}", finding.message)
        assert 0 <= finding.span.start <= finding.span.end <= len(text)
        for edit in finding.repair.edits if finding.repair else ():
            assert finding.repair is not None and 0 <= edit.span.start <= edit.span.end <= len(text)
    assert [finding.span.start for finding in found] == sorted(finding.span.start for finding in found)
    assert proof(pattern, fabrics) == found
    SCHEMA.validate(report(pattern, fabrics, found))
    show_findings(pattern, found)
    for fabric in fabrics[:1]:
        for part in fabric.parts:
            for row in part.rows[:3]:
                show_row(pattern, fabric, part, row)
