"""The first row does not fit the foundation chain.

What it checks: chains made, chains skipped at the start, and the stitches that Row 1 puts into the rest.

Why: one chain too many or too few is found only after a whole row, and by then it sits under everything.

Example:

    Ch 30. Row 1: Dc in 4th ch from hook, dc in each of next 30 ch.

Message: Row 1 needs 34 chains, and the foundation chain has 30.

Repair: none where both may be wrong. Chains needed: N = S + t - c (S stitches, t chains skipped, c = 1 if they count as a stitch).
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .fits import last_taken, number_in, offered, on_the_chain, plainly, runs_out
from .rule import At, Case, Rule, plural


def check(case: Case) -> Iterator[Finding]:
    """A finding for each row on the foundation chain that asks for more chains, or leaves some, without a word."""
    for at, trouble in case.troubled("too-many", "too-few", "foundation-chain-wrong"):
        places = offered(at, trouble)
        if not on_the_chain(at) or _starts_a_round(at, places):
            continue
        number = number_in(trouble, "missing", "left", "extra", "over", "short")
        message = ""
        if places is not None and number is not None:
            sign = 1 if trouble.kind == "too-many" else -1
            uses = plural(places + sign * number, "chain")
            message = f"{at.name} uses {uses}, and the foundation chain has {places}: {number} {'short' if sign > 0 else 'left over'}."
        ran = runs_out(at, places) if places is not None and trouble.kind == "too-many" else None
        span = ran.span if ran else last_taken(at) if trouble.kind == "too-few" else None
        yield plainly(case, RULE, at, trouble, message, span)


def _starts_a_round(at: At, places: int | None) -> bool:
    """Whether a short chain only begins a round ("ch 2, 6 sc in 2nd ch from hook"): the chains beside the one worked into are no places."""
    return places is not None and places <= 6 and (at.row.used or 0) <= 2


RULE = Rule("foundation-chain-wrong", "error", check)
