"""Everything that can be asked about a text, asked: the check that properties, cut texts and the fuzz target share."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

from hookwright.pattern import Limits, Pattern, Span, apply_edits
from hookwright.proofing import proof
from hookwright.proofing.opened_row import show_row
from hookwright.proofing.report import report, to_text
from hookwright.proofing.terminal import show_counts, show_findings
from hookwright.reading import read, rows
from hookwright.session import Session, complete, format_edits, hover, symbols, tallies
from hookwright.working import Fabric, work
from hookwright.writing import write

ROOT = Path(__file__).parent
rows.CAUGHT = rows.LOOKED_TOO_FAR  # a fault in a phrase is to be seen here
SMALL = Limits(row_stitches=20_000, stitches=100_000)
"""Bounds small enough that a test which reaches them ends soon."""


def texts_of_ours() -> list[Path]:
    """Our own patterns: whole pieces, examples, and pieces with planted flaws."""
    folders = (ROOT / "cases" / "reading", ROOT / "cases" / "proof", ROOT / "cases" / "teach", ROOT.parent / "examples")
    return [path for folder in folders for path in sorted(folder.glob("*.md"))]


def spans_in(value: Any) -> Iterator[Span]:
    """Every place told anywhere in a record, the unplaced left out."""
    if isinstance(value, Span):
        if value.end:
            yield value
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            yield from spans_in(getattr(value, field.name))
    elif isinstance(value, (tuple, list)):
        for one in value:
            yield from spans_in(one)
    elif isinstance(value, dict):
        for one in value.values():
            yield from spans_in(one)


def read_and_proofed(text: str, limits: Limits = SMALL) -> tuple[Pattern, tuple[Fabric, ...]]:
    """Read, work in every size and proof a text; every place told lies in it, and every repair can be made."""
    pattern = read(text)
    assert pattern.source == text
    fabrics = tuple(work(pattern, size=size, limits=limits) for size in range(pattern.sizes))
    findings = proof(pattern, fabrics)
    for span in spans_in((pattern.parts, pattern.troubles, pattern.notes, pattern.seams, pattern.defined, findings)):
        assert 0 <= span.start <= span.end <= len(text), span
    for finding in findings:
        if finding.repair is not None and finding.repair.edits:
            apply_edits(text, finding.repair.edits)
    return pattern, fabrics


def ask_everything(text: str, limits: Limits = SMALL) -> None:
    """All that the command line and the editor can ask of one text."""
    pattern, fabrics = read_and_proofed(text, limits)
    findings = proof(pattern, fabrics)
    to_text(report(pattern, fabrics, findings))
    show_findings(pattern, findings)
    for fabric in fabrics[:2]:
        show_counts(pattern, fabric)
        for part in fabric.parts:
            for row in part.rows[:20]:
                show_row(pattern, fabric, part, row)
    write(pattern)
    write(pattern, terms="UK")
    session = Session(text, limits=limits)
    tallies(session), symbols(session)
    session.with_edits(format_edits(session))
    for point in range(0, len(text) + 1, max(1, len(text) // 5)):
        hover(session, point), complete(session, point)
