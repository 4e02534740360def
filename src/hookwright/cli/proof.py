"""`hookwright proof`: work every stitch of a pattern and report what does not add up."""

from __future__ import annotations

import re
import sys
import time
from typing import TYPE_CHECKING, Annotated, Any

from cyclopts import Parameter

from .common import LOG, CannotDo, Colours, Source, load, sizes_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..pattern import Finding, Pattern
    from ..working import Fabric, PartWork, RowWork


def proof(
    *files: Annotated[str, Parameter(name="FILE")],
    row: str | None = None,
    json: Annotated[bool, Parameter(negative=())] = False,
    size: str | None = None,
    quiet: Annotated[bool, Parameter(name=["--quiet", "-q"], negative=())] = False,
) -> int:
    """Work every stitch of a pattern and report what does not add up.

    Parameters
    ----------
    files
        Patterns (Markdown or plain text), or - for standard input.
    row
        Show the whole derivation of one row, by its label: "Rnd 4".
    json
        Print the report as JSON (hookwright/proof/1); a list for several files.
    size
        Work one size only, by its name or its number from 1.
    quiet
        Findings only, no running counts.
    """
    if not files:
        raise CannotDo("Give a pattern file: `hookwright proof FILE`.")
    reports: list[dict[str, Any]] = []
    worst = 0
    for at, name in enumerate(files):
        source, pattern = load(name)
        fabrics = _work(pattern, sizes_of(pattern, size))
        if row is not None:
            worst = max(worst, _show_row(pattern, fabrics, row, at))
            continue
        from ..proofing import proof as findings_of

        findings = findings_of(pattern, fabrics)
        worst = max(worst, int(any(finding.severity == "error" for finding in findings)))
        if json:
            from ..proofing.report import report

            reports.append(report(pattern, fabrics, findings))
        else:
            print(("\n\n" if at else "") + _page(source, pattern, fabrics, findings, quiet=quiet))
    if json and row is None:
        from ..proofing.report import to_text

        print(to_text(reports[0]) if len(files) == 1 else "[" + ",\n".join(to_text(one) for one in reports) + "]")
    return worst


def _work(pattern: Pattern, sizes: Sequence[int]) -> list[Fabric]:
    from ..working import work

    fabrics = []
    for size in sizes:
        started = time.perf_counter()
        fabrics.append(work(pattern, size=size))
        LOG.info("size %d: %d stitches worked in %.0f ms", size + 1, fabrics[-1].stitch_count, (time.perf_counter() - started) * 1000)
    return fabrics


def _page(source: Source, pattern: Pattern, fabrics: Sequence[Fabric], findings: Sequence[Finding], *, quiet: bool) -> str:
    from ..proofing.report import summary
    from ..proofing.terminal import show_counts, show_findings, show_summary

    ink = _ink()
    parts = [f"{ink.bold}{pattern.facts.title or shortened(source.name)}{ink.off}\n{ink.dim}{_facts(source, pattern)}{ink.off}"]
    if not quiet:
        for fabric in fabrics:
            name = pattern.facts.size_names[fabric.size] if len(fabrics) > 1 and pattern.facts.size_names else ""
            parts.append((f"{ink.bold}Size {name}{ink.off}\n" if name else "") + show_counts(pattern, fabric, ink))
    if findings:
        parts.append(show_findings(pattern, findings, ink))
    parts.append(show_summary(summary(pattern, fabrics), findings, ink))
    return "\n\n".join(parts)


def _facts(source: Source, pattern: Pattern) -> str:
    import textwrap

    sizes = f"{pattern.sizes} sizes" if pattern.sizes > 1 else ""
    terms = f"{pattern.terms} terms" + (f" ({pattern.terms_because})" if pattern.terms_because else "")
    name = shortened(source.name) if pattern.facts.title else ""
    return "\n".join(textwrap.wrap(" · ".join(part for part in (name, sizes, terms) if part), 80))


def shortened(name: str, room: int = 60) -> str:
    """A file's name that fits, its end kept.

    >>> shortened("a/very/long/path/to/the/folder/of/a/studio/seat-pad.md", 20)
    '…/studio/seat-pad.md'
    """
    return name if len(name) <= room else f"…{name[-room + 1 :]}"


def _show_row(pattern: Pattern, fabrics: Sequence[Fabric], label: str, at: int) -> int:
    from ..proofing.opened_row import show_row

    found = [(fabric, part, row) for fabric in fabrics for part, row in find_rows(fabric, label)]
    if not found:
        labels = [row.label for fabric in fabrics[:1] for part in fabric.parts for row in part.rows if not row.foundation]
        first, last = (labels[0], labels[-1]) if labels else ("none", "none")
        raise CannotDo(f"There is no row {label}: the rows go from {first} to {last}.")
    print(("\n\n" if at else "") + "\n\n".join(show_row(pattern, fabric, part, row, _ink()) for fabric, part, row in found))
    wrong = any(row.state == "differs" or row.worked == "unworkable" for _, _, row in found)
    return int(wrong)


def find_rows(fabric: Fabric, label: str) -> list[tuple[PartWork, RowWork]]:
    """The rows that a label means: "Rnd 4", "round 4", "4", "Body Row 4", "Foundation"; one for each part that has such a row."""
    wanted = _plain(label)
    out = []
    for part in fabric.parts:
        for row in part.rows:
            names = {_plain(row.label), _plain(f"{part.name} {row.label}")}
            if row.number is not None:
                names.add(str(row.number))
            if wanted in names:
                out.append((part, row))
    return out


def _plain(label: str) -> str:
    text = re.sub(r"\b(?:rounds?|rnds?|rows?|r)\b\.?\s*", "row ", label.lower().strip(" :."))
    return " ".join(re.sub(r"^r(?=\d)", "row ", text).split())


def _ink() -> Any:
    from ..proofing.terminal import Ink

    colours = Colours.of(sys.stdout)
    return Ink(colours.bold, colours.dim, colours.red, colours.yellow, colours.green, colours.blue, colours.off)
