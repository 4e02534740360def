"""Words of a row were not understood.

What it checks: nothing in the pattern; it says what was left unchecked. The rest of the row, and the rows after it, are still worked: a
row that cannot be worked keeps its stated count, and is called assumed.

Why: silence about words that were not understood would look like approval.

Example:

    Row 7: Ch 1, wibble 3 sts, sc in each st to end.

Message: "wibble 3 sts" was not understood, so Row 7 is not fully checked.

Repair: none; the nearest known word is offered where there is one.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from difflib import get_close_matches
from functools import lru_cache
from itertools import accumulate

from ...pattern import Finding, Part, Row, Span, Step, Unread, once
from ...pattern.walking import inside
from ...trade.abbreviations import abbreviations
from .arithmetic import words
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A note for each stretch of words that was not understood."""
    told: list[Span] = []
    for part, row, unread in unread_in.rows(case.pattern):
        for step in unread:
            told.append(step.span)
            yield _finding(case, step.span, part, row)
    starts, ends = _reach(told)
    for trouble in case.noticed("unread"):
        at = bisect_right(starts, trouble.span.start) - 1
        if at < 0 or ends[at] < trouble.span.end:
            yield in_text(RULE, trouble.span, f"“{words(case.source, trouble.span)}” was not understood.")


def _reach(spans: list[Span]) -> tuple[list[int], list[int]]:
    """Where each of the spans begins, in order, and how far those up to it reach."""
    spans.sort()
    return [span.start for span in spans], list(accumulate((span.end for span in spans), max))


@once
def unread_in(steps: tuple[Step, ...]) -> tuple[Unread, ...]:
    """Every unread node in a tree of steps."""
    return tuple(step for step in inside(steps) if isinstance(step, Unread))


def _finding(case: Case, span: Span, part: Part, row: Row) -> Finding:
    said = words(case.source, span)
    numbers = row.numbers_at(0)
    near = ((word, _near(word, part.terms)) for word in said.split()[:4])
    working = tuple(f"Did you mean “{known}” where it says “{word}”?" for word, known in near if known)
    message = f"“{said}” was not understood, so {row.label or 'this row'} is not fully checked."
    return in_text(RULE, span, message, part=part, working=working, row=row.label, number=numbers[0] if numbers else None)


@lru_cache(maxsize=1024)
def _near(word: str, terms: str) -> str:
    """The abbreviation that a word comes near to; "" where there is none."""
    if len(word) < 3:
        return ""
    known = [short for entry in abbreviations() for short in (entry.us if terms == "US" else entry.uk)]
    near = get_close_matches(word.strip(".,;:").lower(), known, n=1, cutoff=0.75)
    return near[0] if near and near[0] != word.lower() else ""


RULE = Rule("unread", "note", check)
