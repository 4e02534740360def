"""Tidying a pattern's spaces and brackets without touching what is worked.

Each line is tidied by itself, and an edit is only given out when the tidied pattern gives the same counts as before: formatting may never
change a piece.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from ..pattern import LIMITS, Edit, Limits, Pattern, Span
from ..reading import read
from ..working import work
from .document import Session
from .utf16 import lines_of

_RULES: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r"[ \t]+$"), ""),
    (re.compile(r"(?<=\S)[ \t]{2,}(?=\S)"), " "),
    (re.compile(r"(?<=\S) +(?=[,;](?:\s|$))"), ""),
    (re.compile(r"(?<=[^\s,]),(?=[A-Za-z(])"), ", "),
    (re.compile(r"\((?: +)(?=\S)"), "("),
    (re.compile(r"(?<=\S) +\)"), ")"),
    (re.compile(r"(?i)^(\s*(?:Row|Rnd|Round)s? \d+(?:-\d+)?)\s*:\s*(?=\S)"), r"\1: "),
)


def tidied_line(line: str) -> str:
    """A line with its spaces put right. Tables, indented blocks and Markdown's own line breaks (two spaces) stay.

    >>> tidied_line("Row 2 :ch 1,sc in  each st ( 12 sc )   ")
    'Row 2: ch 1, sc in each st (12 sc)'
    """
    if line.startswith(("    ", "\t", "|")):
        return line
    indent = len(line) - len(line.lstrip())
    body = line[indent:]
    for rule, put in _RULES:
        body = rule.sub(put, body)
    return line[:indent] + body


def format_edits(session: Session, limits: Limits = LIMITS) -> tuple[Edit, ...]:
    """The edits that tidy the document; lines whose tidying would change a count are left as they are."""
    edits = _line_edits(session.text)
    if not edits:
        return ()
    before = _counts(session.read, limits)

    def harmless(some: tuple[Edit, ...]) -> bool:
        return _counts(read(session.with_edits(some), before=session.read), limits) == before

    return _harmless_of((), edits, harmless)


def _harmless_of(kept: tuple[Edit, ...], edits: tuple[Edit, ...], harmless: Callable[[tuple[Edit, ...]], bool]) -> tuple[Edit, ...]:
    """`kept` with those of the edits that do no harm beside them; halves are tried until the harmful line is found."""
    if harmless((*kept, *edits)):
        return (*kept, *edits)
    if len(edits) == 1:
        return kept
    half = len(edits) // 2
    return _harmless_of(_harmless_of(kept, edits[:half], harmless), edits[half:], harmless)


def _line_edits(text: str) -> tuple[Edit, ...]:
    edits = []
    in_front = False
    for number, (at, line) in enumerate(lines_of(text)):
        fence = line.strip("\ufeff \t")
        if number == 0 and fence == "---":
            in_front = True
        elif in_front:
            in_front = fence not in ("---", "...")
        elif (tidy := tidied_line(line)) != line:
            edits.append(Edit(Span(at, at + len(line)), tidy))
    return tuple(edits)


def _counts(pattern: Pattern, limits: Limits) -> list[object]:
    fabric = work(pattern, limits=limits)
    return [(row.label, row.counted.total, dict(row.counted.by_kind), row.read) for part in fabric.parts for row in part.rows]
