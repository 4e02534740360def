"""A row uses a yarn that the materials do not list.

What it checks: yarns called by a letter in the rows (A, B, C …, MC, CC) against the yarns of the facts, where those are lettered too.

Why: a colour that is not in the list is not bought.

Example:

    yarns: A, B
    Row 9: With C, …

Message: Row 9 works with C, and the yarns are A and B.

Repair: none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...pattern import Colour, Finding, Part, Row
from ...pattern.walking import inside
from .rule import Case, Rule, in_text

_LETTER = re.compile(r"[A-Z]|[MC]C\d?")


def check(case: Case) -> Iterator[Finding]:
    """A finding at the first use of each unknown yarn."""
    listed = tuple(case.pattern.facts.yarns)
    if len(listed) < 2 or not all(_LETTER.fullmatch(name) for name in listed):
        return
    known = set(listed)
    for part in case.pattern.parts:
        for row in part.rows:
            for step in inside(row.steps):
                if isinstance(step, Colour) and _LETTER.fullmatch(step.yarn) and step.yarn not in known:
                    known.add(step.yarn)
                    yield _finding(step, part, row, listed)


def _finding(step: Colour, part: Part, row: Row, listed: tuple[str, ...]) -> Finding:
    numbers = row.numbers_at(0)
    names = f"{', '.join(listed[:-1])} and {listed[-1]}"
    message = f"{row.label or 'This row'} works with {step.yarn}, and the yarns are {names}."
    return in_text(RULE, step.span, message, part=part, row=row.label, number=numbers[0] if numbers else None)


RULE = Rule("colour-unknown", "warning", check)
