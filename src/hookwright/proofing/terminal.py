"""Findings, running counts and derivations as text for a terminal 80 columns wide."""

from __future__ import annotations

import textwrap
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..pattern import Finding, Pattern, Severity, Span
from ..trade.terms import spelled
from ..working import Fabric, PartWork, RowWork
from ..working.round_the_edge import counted_by_nobody
from .report import Lines

WIDE = 80
MARGIN = 7
_SIGN: dict[Severity, str] = {"error": "✗", "warning": "!", "note": "·"}


@dataclass(frozen=True, slots=True)
class Ink:
    """Terminal sequences; all empty for plain text."""

    bold: str = ""
    dim: str = ""
    red: str = ""
    yellow: str = ""
    green: str = ""
    blue: str = ""
    off: str = ""

    def of(self, severity: Severity) -> str:
        """The colour of a severity."""
        return {"error": self.red, "warning": self.yellow, "note": self.blue}[severity]


PLAIN = Ink()


def show_findings(pattern: Pattern, findings: Sequence[Finding], ink: Ink = PLAIN) -> str:
    """Every finding with its line, the words underlined, the arithmetic and the repair."""
    lines = Lines(pattern.source)
    return "\n\n".join("\n".join(_finding(pattern, finding, lines, ink)) for finding in findings)


def _finding(pattern: Pattern, finding: Finding, lines: Lines, ink: Ink) -> Iterator[str]:
    line, _ = lines.of(finding.span.start)
    colour = ink.of(finding.severity)
    where = f"line {line}" if pattern.source else ""
    head = f"{_SIGN[finding.severity]} {finding.severity}: {finding.rule}"
    yield f"{colour}{ink.bold}{head}{ink.off}{ink.dim}{where.rjust(WIDE - width(head))}{ink.off}"
    yield from (f"  {ink.bold}{part}{ink.off}" for part in wrap(finding.message, 2))
    if pattern.source and finding.span.end > finding.span.start:
        yield ""
        yield from excerpt(pattern.source, finding.span, lines, colour, ink)
    for span, text in finding.notes:
        if span.end > span.start:
            yield f"  {ink.dim}{text}:{ink.off}"
            yield from excerpt(pattern.source, span, lines, ink.blue, ink)
    if finding.working:
        yield ""
        yield from _working(finding.working, ink)
    if finding.repair is not None:
        grade = {"safe": " (safe)", "asked": "", "shown": ""}[finding.repair.grade]
        yield from labelled("Repair", finding.repair.title + grade, ink.green, ink)


def excerpt(source: str, span: Span, lines: Lines, colour: str, ink: Ink, most: int = 3) -> Iterator[str]:
    """The lines a span stands on, its words underlined; a long line is shown around the words, a long span by its first lines."""
    number, column = lines.of(span.start)
    start = span.start - column + 1
    shown = 0
    while start < span.end and shown < most:
        end = source.find("\n", start)
        end = len(source) if end < 0 else end
        text = source[start:end].rstrip("\r")
        first, last = max(0, span.start - start), min(len(text), span.end - start)
        if text.strip():
            yield from _line(number, text, first, last, colour, ink)
            shown += 1
        start, number = end + 1, number + 1
    if start < span.end:
        yield f"{ink.dim}{'':>{MARGIN - 3}} │ …{ink.off}"


def _line(number: int, text: str, first: int, last: int, colour: str, ink: Ink) -> Iterator[str]:
    room = WIDE - MARGIN
    text = text.replace("\t", " ")
    if width(text) > room:
        text, first, last = _window(text, first, last, room)
    before, under = width(text[:first]), max(1, width(text[first:last]))
    yield f"{ink.dim}{number:>{MARGIN - 3}} │{ink.off} {text}"
    yield f"{ink.dim}{'':>{MARGIN - 3}} │{ink.off} {' ' * before}{colour}{'^' * under}{ink.off}"


def _window(text: str, first: int, last: int, room: int) -> tuple[str, int, int]:
    """A part of a long line around the marked words, with the marks moved along."""
    middle = first if last - first > room - 16 else (first + last) // 2
    begin = max(0, min(middle - room // 2, len(text) - room + 2))
    if last - first > room - 16:
        begin = max(0, first - 8)
    end = min(len(text), begin + room - 2)
    head, tail = "…" if begin else "", "…" if end < len(text) else ""
    cut = head + text[begin:end] + tail
    move = len(head) - begin
    return cut, max(len(head), first + move), min(len(cut) - len(tail), last + move)


def _working(working: Sequence[str], ink: Ink) -> Iterator[str]:
    for at, line in enumerate(working):
        yield from labelled("Working" if at == 0 else "", line, ink.dim, ink)


def labelled(label: str, text: str, colour: str, ink: Ink) -> Iterator[str]:
    for at, part in enumerate(wrap(text, 11)):
        shown = f"{label:<8}" if at == 0 else " " * 8
        yield f"  {colour}{shown}{ink.off} {part}"


def wrap(text: str, indent: int) -> list[str]:
    return textwrap.wrap(text, WIDE - indent, break_long_words=False, break_on_hyphens=False) or [""]


def width(text: str) -> int:
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


# --- running counts ---------------------------------------------------------------------------------------------------------------


def show_counts(pattern: Pattern, fabric: Fabric, ink: Ink = PLAIN) -> str:
    """The running count of every instruction: its rows, what they make, and how that stands to what is stated."""
    out: list[str] = []
    for index, part in enumerate(fabric.parts):
        terms = pattern.parts[index].terms if index < len(pattern.parts) else pattern.terms
        times = f" (make {part.copies})" if part.copies > 1 else ""
        out.append(f"{ink.bold}{part.name or 'Piece'}{times}{ink.off}")
        out += [_counted(group, part, terms, fabric.size, ink) for group in _instructions(part)]
    return "\n".join(out)


def _instructions(part: PartWork) -> Iterator[list[RowWork]]:
    """Rows that one instruction covers, together; the foundation chain by itself."""
    group: list[RowWork] = []
    for row in part.rows:
        if group and (group[-1].written.id != row.written.id or row.foundation or group[-1].foundation):
            yield group
            group = []
        group.append(row)
    if group:
        yield group


def _counted(group: list[RowWork], part: PartWork, terms: str, size: int, ink: Ink) -> str:
    first, last = group[0], group[-1]
    if first.foundation:
        return f"  {'Chain':<12} {len(first.stitches):>9}" if len(first.stitches) else f"  {ink.dim}Ring{ink.off}"
    label = first.label if len(group) == 1 else _range(group)
    totals = [row.counted.total for row in group]
    number = str(totals[0]) if len(set(totals)) == 1 else f"{totals[0]} → {totals[-1]}"
    if all(map(counted_by_nobody, group)):
        return f"  {fit(label, 12)} {'evenly':>9} {fit('as many as the edge takes', 31)} {_standing(group, size, ink)}".rstrip()
    only = _only_kind(last)
    kinds = spelled(f"sts: {kinds_told(last)}" if only is None else braced(only), "UK" if terms == "UK" else "US")
    standing = _standing(group, size, ink)
    return f"  {fit(label, 12)} {number:>9} {fit(kinds, 31)} {standing}".rstrip()


def _range(group: list[RowWork]) -> str:
    first, last = group[0], group[-1]
    if first.number is None or last.number is None:
        return f"{first.label} … ({len(group)})"
    noun = first.label.split()[0]
    steps = {b.number - a.number for a, b in pairwise(group) if a.number is not None and b.number is not None}
    return f"{noun}s {first.number}-{last.number}" if steps == {1} else f"{noun}s {first.number}, …, {last.number}"


def kinds_told(row: RowWork) -> str:
    kinds = [(number, kind) for kind, number in row.counted.by_kind.items() if kind not in ("sp",) and number]
    if not kinds:
        return ""
    return ", ".join(f"{number} {braced(kind)}" for number, kind in sorted(kinds, key=lambda pair: ("ch" in pair[1], -pair[0], pair[1])))


def _only_kind(row: RowWork) -> str | None:
    """The kind of a row that holds one kind alone, so that its number need not be said twice."""
    kinds = [(kind, number) for kind, number in row.counted.by_kind.items() if number]
    return kinds[0][0] if len(kinds) == 1 and kinds[0][1] == row.counted.total else None


def braced(kind: str) -> str:
    return f"{{{kind}}}" if kind != "ch" and not kind.startswith("ch-") else kind


def _standing(group: list[RowWork], size: int, ink: Ink) -> str:
    """One word for the whole instruction: the worst of its rows."""
    for state, colour, said in (
        ("differs", ink.red, "differs"),
        ("unread", ink.yellow, "unread"),
        ("assumed", ink.yellow, "assumed"),
    ):
        hit = next((row for row in group if row.state == state), None)
        if hit is not None:
            told = next((count.number.at(size) for count in hit.stated if not count.running), None)
            tail = f" ({told} stated)" if state == "differs" and told is not None else ""
            return f"{colour}{said}{tail}{ink.off}"
    if any(row.worked == "unworkable" for row in group):
        return f"{ink.red}does not fit{ink.off}"
    if any(row.state == "agrees" for row in group):
        return f"{ink.green}agrees{ink.off}"
    if any(row.state == "uncompared" for row in group):
        return f"{ink.dim}not compared{ink.off}"
    return f"{ink.dim}–{ink.off}"


def fit(text: str, room: int) -> str:
    if width(text) <= room:
        return text + " " * (room - width(text))
    return text[: room - 1].rstrip(", ") + "…" + " " * max(0, room - 1 - len(text[: room - 1].rstrip(", ")))


# --- closing ------------------------------------------------------------------------------------------------------------------------


def show_summary(summary: dict[str, int], findings: Sequence[Finding], ink: Ink = PLAIN) -> str:
    """The closing lines: rows worked and how their counts stand, findings by severity."""
    rows = f"{summary['worked_rows']} rows worked from {summary['written_rows']} written"
    told = [
        f"{summary['agrees']} agree" if summary["agrees"] else "",
        f"{summary['differs']} differ{'s' if summary['differs'] == 1 else ''}" if summary["differs"] else "",
        f"{summary['unstated']} state no count" if summary["unstated"] else "",
        f"{summary['uncompared']} state what was not counted" if summary["uncompared"] else "",
        f"{summary['assumed']} assumed" if summary["assumed"] else "",
        f"{summary['unread']} unread" if summary["unread"] else "",
    ]
    counts = ", ".join(part for part in told if part)
    number = {severity: sum(finding.severity == severity for finding in findings) for severity in ("error", "warning", "note")}
    found = [f"{count} {severity}{'' if count == 1 else 's'}" for severity, count in number.items() if count]
    colour = ink.red if number["error"] else ink.yellow if number["warning"] else ink.green
    verdict = ", ".join(found) if found else "nothing found"
    return f"{rows}: {counts}.\n{colour}{ink.bold}{verdict[:1].upper()}{verdict[1:]}.{ink.off}"
