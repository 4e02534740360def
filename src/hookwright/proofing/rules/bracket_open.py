"""A bracket or a star is opened and never closed, or closed and never opened.

What it checks: round, square and curly brackets and repeat stars, row by row.

Why: where the group ends decides the count; a follower has to guess.

Example:

    Rnd 3: (Sc in next st, 2 sc in next st 6 times.

Message: Rnd 3: a bracket is opened here and not closed.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding, Part, Row, Span
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding for each bracket without its partner."""
    for trouble in case.noticed("bracket-open"):
        part, row = _row_at(case, trouble.span)
        label = row.label if row is not None else ""
        message = trouble.message[:1].lower() + trouble.message[1:] if label else trouble.message[:1].upper() + trouble.message[1:]
        said = f"{label}: {message}" if label else message
        numbers = row.numbers_at(0) if row is not None else ()
        said = said if said.endswith(".") else f"{said}."
        yield in_text(RULE, trouble.span, said, part=part, row=label or None, number=numbers[0] if numbers else None)


def _row_at(case: Case, span: Span) -> tuple[Part | None, Row | None]:
    for part in case.pattern.parts:
        for row in part.rows:
            if row.span.start <= span.start < max(row.span.end, row.span.start + 1):
                return part, row
    return None, None


RULE = Rule("bracket-open", "note", check)
