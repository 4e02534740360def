"""Rows are to be repeated until a number is reached, and it never is.

What it checks: "repeat Row 2 until 6 sts remain", worked on row by row.

Why: the follower passes the number and cannot tell where to stop.

Example:

    Next rows: Repeat Row 3 until 5 sts remain.

where each row takes two stitches away and the row below has 20.

Message: Worked on, the count comes to 4 and never to 5.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .fits import plainly
from .rule import Case, Rule


def check(case: Case) -> Iterator[Finding]:
    """A finding for each number that is never reached."""
    for at, trouble in case.troubled("until-not-reached"):
        yield plainly(case, RULE, at, trouble)


RULE = Rule("until-not-reached", "warning", check)
