"""US and UK terms stand side by side in one part.

What it checks: words that exist in one system only (sc, hdc, fsc … are US; htr, ttr … are UK), in the rows of one part.

Why: dc and tr are stitches of different height in the two systems; where both are used nobody can tell which is meant.

Example:

    Row 1: Sc in each ch. Row 2: Htr in each st.

Message: "htr" is a UK term, and "sc" in Row 1 is a US term.

Repair: none; write the whole part in one system.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...pattern import Finding, Part, Row, Span
from ...reading.pieces import pieces, remembered
from ...trade.terms import ONLY_UK, ONLY_US
from .rule import Case, Rule, in_text

_WORD = re.compile(rf"(?<![\w-])\d*(?P<word>{'|'.join(sorted((*ONLY_US, *ONLY_UK), key=len, reverse=True))})(?![\w-])", re.I)
_US = {word.lower() for word in ONLY_US}


def check(case: Case) -> Iterator[Finding]:
    """A finding at the first word of the other system in each part, or where reading could not tell the terms."""
    systems = {word.lower() in _US for told in _told.told(pieces(case.source)) for word, _, _ in told}
    found = [finding for part in case.pattern.parts for finding in _part(case.source, part)] if len(systems) > 1 else []
    yield from found
    if not found:
        for trouble in case.noticed("terms-mixed", "mixed-terms"):
            message = trouble.message[:1].upper() + trouble.message[1:]
            yield in_text(RULE, trouble.span, message if message.endswith(".") else f"{message}.")


def _part(source: str, part: Part) -> Iterator[Finding]:
    first: tuple[str, Span, Row] | None = None
    for row in part.rows:
        for word, span in _words(source, row.span):
            if first is None:
                first = (word, span, row)
            elif (word.lower() in _US) != (first[0].lower() in _US):
                here, there = ("US", "UK") if word.lower() in _US else ("UK", "US")
                message = f"“{word}” is a {here} term, and “{first[0]}” in {first[2].label or 'the row before'} is a {there} term."
                numbers = row.numbers_at(0)
                notes = ((first[1], f"a {there} term"),)
                yield in_text(RULE, span, message, part=part, notes=notes, row=row.label, number=numbers[0] if numbers else None)
                return


def _words(source: str, span: Span) -> Iterator[tuple[str, Span]]:
    for word, a, b in _told(span.of(source)):
        yield word, Span(span.start + a, span.start + b)


@remembered
def _told(row: str) -> tuple[tuple[str, int, int], ...]:
    """The words of one system only in a row's text (or a piece of the source), and where they stand in it."""
    return tuple((match["word"], match.start("word"), match.end("word")) for match in _WORD.finditer(row))


RULE = Rule("terms-mixed", "warning", check)
