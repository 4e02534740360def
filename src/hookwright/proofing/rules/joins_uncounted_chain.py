"""A round joins to, or a row works into, the top of a chain that does not count as a stitch.

What it checks: "join to top of ch-2", "dc in top of turning ch", where that chain is said not to be a stitch (a warning); a stitch into the
top of a chain that only custom does not count is a note.

Why: it adds a stitch every row without a word, or leaves a hole beside the join.

Example:

    Rnd 2: Ch 2 (does not count), 2 dc in each st around, join to top of ch-2.

Message: Rnd 2 joins to the top of a ch-2 that does not count as a stitch; the first stitch is a dc.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...pattern import Chain, Finding, Join, Step, once
from ...trade.kinds import base
from ...working import Role, RowWork
from .fits import plainly
from .rule import Case, Rule, at_row


def check(case: Case) -> Iterator[Finding]:
    """A warning for each such join or stitch where the words say that the chain does not count; a note where only custom does."""
    for at, trouble in case.troubled("joins-uncounted-chain", "top-not-counted"):
        below = at.below()
        told = trouble.kind == "joins-uncounted-chain" or (below is not None and _told_not(case, below))
        yield replace(plainly(case, RULE, at, trouble), severity="warning" if told else "note")
    for at in case.worked():
        join = _join(at.row.written.steps)
        if join is None or join.to is None or at.row.foundation or not _uncounted(case, at.row):
            continue
        first = _first_stitch(at.row)
        to = f"; the first stitch is a {{{first}}}" if first else ""
        message = f"{at.name} joins to the top of a {join.to.what} that does not count as a stitch{to}."
        yield at_row(RULE, at, join.span, message, working=at.row.readings)


@once
def _join(steps: tuple[Step, ...]) -> Join | None:
    """The first join, where it goes to the top of a chain."""
    join = next((step for step in steps if isinstance(step, Join)), None)
    return join if join is not None and join.to is not None and join.to.what.startswith("ch") else None


def _uncounted(case: Case, row: RowWork) -> bool:
    """Whether the row begins with a chain that is told not to count, and nothing of it counts or makes a space."""
    role = row.stitches.role
    return bool(role) and role[0] == Role.START and Role.START_TOP not in role[:12] and _told_not(case, row)


def _told_not(case: Case, row: RowWork) -> bool:
    """Whether the row's own words, or the pattern's notes, say that its starting chain is no stitch."""
    chain = next((step for step in row.written.steps if isinstance(step, Chain) and not step.foundation), None)
    if chain is None or chain.counts is not None:
        return chain is not None and chain.counts is False
    custom = case.pattern.facts.turning_chains.get(_first_stitch(row) or "")
    return custom is not None and custom.chains == chain.number.at(0) and not custom.counts


def _first_stitch(row: RowWork) -> str | None:
    at = next((i for i, role in enumerate(row.stitches.role) if role == Role.STITCH), None)
    return None if at is None else base(row.stitches.name(at))


RULE = Rule("joins-uncounted-chain", "warning", check)
