"""The words close the row in more than one way.

What it checks: rows where two readings both use up what is offered and give the stated count, or give different counts and none is stated;
rows that end inside a repeat without saying so; and pieces begun on a chain of which nobody tells how long it is.

Why: followers will be of two minds too. The reading that custom prefers was taken.

Example:

    Row 3: *Dc in next st, ch 1, skip 1; rep from * 5 times.

Message: Row 3 can be read two ways; the one taken stands in the working.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .fits import plainly
from .rule import Case, Rule, at_row


def check(case: Case) -> Iterator[Finding]:
    """A note for each row of two readings."""
    for at in case.worked():
        if at.row.worked == "two-readings":
            span = at.row.written.span
            yield at_row(RULE, at, span, f"{at.name} can be read two ways; the one taken stands below.", working=at.row.readings)
    for at, trouble in case.troubled("part-of-repeat", "two-readings"):
        yield plainly(case, RULE, at, trouble)


RULE = Rule("two-readings", "note", check)
