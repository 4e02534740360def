"""A round joins to, or a row works into, the top of a chain that does not count as a stitch.

What it checks: "join to top of ch-2", "dc in top of turning ch", where that chain is said (or, by custom, known) not to be a stitch.

Why: it adds a stitch every row without a word, or leaves a hole beside the join.

Example:

    Rnd 2: Ch 2 (does not count), 2 dc in each st around, join to top of ch-2.

Message: Rnd 2 joins to the top of a ch-2 that does not count as a stitch; join to the first dc.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .fits import plainly
from .rule import Case, Rule


def check(case: Case) -> Iterator[Finding]:
    """A finding for each such join or stitch."""
    for at, trouble in case.troubled("joins-uncounted-chain", "top-not-counted"):
        yield plainly(case, RULE, at, trouble)


RULE = Rule("joins-uncounted-chain", "warning", check)
