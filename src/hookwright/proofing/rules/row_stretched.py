"""A row that is repeated was written for its own width.

What it checks: "Repeat Row 2" where Row 2 says "dc in next 25 sts" and the row below now has another number. Where the row has one plain
run, and the stated counts close that way, the run is taken to the end of the row, and this says so.

Why: a follower who takes the words as they stand stops short.

Example:

    Row 2: Ch 3, turn, 2 dc in first st, dc in each of next 25 sts.
    Rows 3-10: Repeat Row 2.

Message: Row 3 repeats Row 2, which was written for its own width; its plain run was taken to the end.

Repair: none; write "dc in each st to end" in the row that is repeated.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...pattern import Finding
from .fits import plainly
from .rule import Case, Rule


def check(case: Case) -> Iterator[Finding]:
    """A finding for each row that was stretched."""
    for at, trouble in case.troubled("stretched"):
        found = replace(plainly(case, RULE, at, trouble), span=trouble.span)  # the words that were stretched, told once
        # A second side told as the first one ("work other side to correspond") has its own width, and nothing in the words is amiss.
        yield replace(found, severity="note") if at.row.doubt >= 2 else found


RULE = Rule("row-stretched", "warning", check)
