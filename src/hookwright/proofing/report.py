"""The report that programs can rely on: `hookwright/proof/1` (JSON Schema in schemas/proof-1.json)."""

from __future__ import annotations

import json
from bisect import bisect_right
from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from ..pattern import Count, Finding, Pattern, Repair, Span
from ..working import Counted, Fabric, PartWork, RowWork

SCHEMA = "hookwright/proof/1"
_SCHEMAS = Path(__file__).parent / "schemas"
STATES = ("agrees", "differs", "unstated", "uncompared", "unread", "assumed")

Json = dict[str, Any]


class Lines:
    """Turns code points of a text into lines and columns, both from 1, the end excluded. "\\n", "\\r\\n" and "\\r" end a line."""

    def __init__(self, source: str) -> None:
        self._starts = [0]
        at = source.find("\n")
        while at >= 0:
            self._starts.append(at + 1)
            at = source.find("\n", at + 1)
        if "\r" in source:
            lone = [i + 1 for i, c in enumerate(source) if c == "\r" and source[i + 1 : i + 2] != "\n"]
            self._starts = sorted({*self._starts, *lone})

    def of(self, at: int) -> tuple[int, int]:
        """Line and column of a code point.

        >>> Lines("ab\\ncd").of(4)
        (2, 2)
        """
        line = bisect_right(self._starts, at)
        return line, at - self._starts[line - 1] + 1

    def span(self, span: Span) -> Json:
        """The four keys of a span."""
        line, column = self.of(span.start)
        end_line, end_column = self.of(span.end)
        return {"line": line, "column": column, "end_line": end_line, "end_column": end_column}


def report(pattern: Pattern, fabrics: Sequence[Fabric], findings: Sequence[Finding]) -> Json:
    """The public report of one pattern: every row worked, every finding, the summary. Keys as in the schema; plain JSON values only."""
    lines = Lines(pattern.source)
    return {
        "schema": SCHEMA,
        "terms": pattern.terms,
        "terms_because": pattern.terms_because,
        "language": pattern.language,
        "sizes": list(pattern.facts.size_names),
        "counting": _counting(fabrics),
        "parts": _parts(fabrics, lines, many=pattern.sizes > 1),
        "findings": [finding_json(finding, lines) for finding in findings],
        "summary": summary(pattern, fabrics),
    }


def finding_json(finding: Finding, lines: Lines) -> Json:
    """One finding as in the schema."""
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "part": finding.part,
        "row": finding.row,
        "number": finding.number,
        "size": finding.size,
        **lines.span(finding.span),
        "message": finding.message,
        "working": list(finding.working),
        "notes": [{**lines.span(span), "text": text} for span, text in finding.notes],
        "repair": None if finding.repair is None else _repair(finding.repair, lines),
    }


def summary(pattern: Pattern, fabrics: Sequence[Fabric]) -> dict[str, int]:
    """How many rows are written and worked, and how their counts stand; every row worked is in exactly one of the states."""
    rows = [row for fabric in fabrics for part in fabric.parts for row in part.rows if not row.foundation]
    states: Counter[str] = Counter(row.state for row in rows)
    chains = {row.written.id for fabric in fabrics for part in fabric.parts for row in part.rows if row.foundation}
    chains -= {row.written.id for row in rows}
    written = sum(row.id not in chains for part in pattern.parts for row in part.rows)
    return {"written_rows": written, "worked_rows": len(rows), **{state: states[state] for state in STATES}}


def schema(name: str) -> Json:
    """A published schema: "proof/1", "yarn/1" or "shape/1"."""
    loaded: Json = json.loads((_SCHEMAS / f"{name.replace('/', '-')}.json").read_text(encoding="utf-8"))
    return loaded


def _repair(repair: Repair, lines: Lines) -> Json:
    edits = [{**lines.span(edit.span), "text": edit.text} for edit in repair.edits]
    return {"grade": repair.grade, "title": repair.title, "edits": edits}


def _counting(fabrics: Sequence[Fabric]) -> Json:
    """What starting chains and chains were taken to be, from the worked rows: the custom first met of each stitch."""
    out: Json = {}
    chains = False
    for fabric in fabrics[:1]:
        for stitch, custom in fabric.pattern.facts.turning_chains.items():
            out[stitch] = {"chains": custom.chains, "counts": custom.counts}
        for part in fabric.parts:
            for row in part.rows:
                _started(row, out)
        chains = any("count chains" in question and taken.answer == "yes" for question, taken in fabric.taken.items())
    return {**out, "chains": chains}


def _started(row: RowWork, out: Json) -> None:
    from ..working import Role

    roles = row.stitches.role
    chains = 0
    while chains < len(roles) and roles[chains] in (Role.START, Role.START_TOP):
        chains += 1
    if not chains:
        return
    tops = [i for i in range(chains) if roles[i] == Role.START_TOP]
    stitch = row.stitches.stands.get(tops[0]) if tops else _first_stitch(row, chains)
    if stitch:
        out.setdefault(stitch, {"chains": chains, "counts": bool(tops)})


def _first_stitch(row: RowWork, start: int) -> str | None:
    from ..trade.kinds import base
    from ..working import Role

    at = next((i for i in range(start, len(row.stitches)) if row.stitches.role[i] == Role.STITCH), None)
    return None if at is None else base(row.stitches.name(at))


def _parts(fabrics: Sequence[Fabric], lines: Lines, *, many: bool) -> list[Json]:
    """One entry for each part, holding the rows of every size in turn."""
    parts: dict[str, list[Json]] = {}
    for fabric in fabrics:
        names: Counter[str] = Counter()
        for part in fabric.parts:
            names[part.name] += 1
            key = part.name if names[part.name] == 1 else f"{part.name} ({names[part.name]})"
            rows = parts.setdefault(key, [])
            rows += [_row(row, part, lines, fabric.size if many else None) for row in part.rows if not row.foundation]
    return [{"name": name, "rows": rows} for name, rows in parts.items()]


def _row(row: RowWork, part: PartWork, lines: Lines, size: int | None) -> Json:
    return {
        "label": row.label,
        "number": row.number,
        "written": row.written.label,
        **lines.span(row.written.span),
        "size": size,
        "copy": 1,
        "made_in": row.made_in,
        "side": row.side,
        "side_because": row.side_because,
        "begins": row.begins,
        "turned": row.turned,
        "offered": row.offered,
        "used": row.used,
        "counted": _counted(row.counted),
        "made": dict(sorted(row.counted.made.items())),
        "stated": _stated(row, size or 0),
        "state": row.state,
        "read": row.read,
        "worked": row.worked,
        "decided_by": row.decided_by,
    }


def _counted(counted: Counted) -> Json:
    return {"total": counted.total, "by_kind": dict(sorted(counted.by_kind.items()))}


def _stated(row: RowWork, size: int) -> Json | None:
    """What the row states: the total where the noun is st/sts or missing, every other number under its own kind."""
    told = [(count, count.number.at(size)) for count in row.stated if not count.running]
    numbers = [(count, number) for count, number in told if number is not None]
    if not numbers:
        return None
    total = next((number for count, number in numbers if count.kind == "st" and not count.per and not count.change), None)
    kinds = {count.kind: number for count, number in numbers if count.kind != "st" and not count.per and not count.change}
    return {"total": total, "by_kind": kinds, "form": _form([count for count, _ in numbers])}


def _form(counts: Sequence[Count]) -> str:
    first = counts[0]
    if first.change:
        return "change"
    if first.per:
        return f"per {first.per}"
    if any(count.approximate for count in counts):
        return "about"
    return "total" if all(count.kind == "st" for count in counts) else "by kind"


def to_text(data: Mapping[str, Any]) -> str:
    """The report as JSON text, two spaces, non-ASCII as it is, keys in the order of the schema."""
    return json.dumps(data, ensure_ascii=False, indent=2)
