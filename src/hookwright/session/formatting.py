"""Tidying a pattern's spaces and brackets without touching what is worked.

Each line is tidied by itself, and an edit is only given out when the tidied pattern gives the same counts as before: formatting may never
change a piece.
"""

from __future__ import annotations

import re

from ..pattern import LIMITS, Edit, Limits, Pattern, Span
from ..reading import read
from ..working import work
from .document import Session

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
    if not edits or _same_piece(session, edits, limits):
        return edits
    kept: tuple[Edit, ...] = ()
    for edit in edits[:400]:
        if _same_piece(session, (*kept, edit), limits):
            kept = (*kept, edit)
    return kept


def _line_edits(text: str) -> tuple[Edit, ...]:
    edits, at, in_front = [], 0, text.startswith("---\n")
    for number, line in enumerate(text.split("\n")):
        if in_front:
            in_front = number == 0 or line.strip() not in ("---", "...")
        else:
            bare = line.removesuffix("\r")
            tidy = tidied_line(bare)
            if tidy != bare:
                edits.append(Edit(Span(at, at + len(bare)), tidy))
        at += len(line) + 1
    return tuple(edits)


def _same_piece(session: Session, edits: tuple[Edit, ...], limits: Limits) -> bool:
    after = read(session.with_edits(edits), before=session.read)
    return _counts(session.read, limits) == _counts(after, limits)


def _counts(pattern: Pattern, limits: Limits) -> list[object]:
    fabric = work(pattern, limits=limits)
    return [(row.label, row.counted.total, dict(row.counted.by_kind), row.read) for part in fabric.parts for row in part.rows]
