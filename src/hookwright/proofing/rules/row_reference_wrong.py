"""A row refers to a row that is not there, or that cannot be meant.

What it checks: "repeat Row n", "as Row n", "rep Rows 2 and 3": the row must stand before this one, and the references must not go round in
a circle.

Why: references are what goes wrong when rows are inserted late; the follower looks for a row that is not there.

Example:

    Row 4: Repeat Row 6.

Message: Row 4 repeats Row 6, which comes later.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .rule import Case, Rule, at_row


def check(case: Case) -> Iterator[Finding]:
    """A finding for each reference that leads nowhere."""
    for at, trouble in case.troubled("reference-wrong"):
        yield at_row(RULE, at, trouble.span, f"{at.name}: {trouble.message}.", working=trouble.working)


RULE = Rule("row-reference-wrong", "error", check)
