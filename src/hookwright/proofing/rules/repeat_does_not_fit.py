"""A repeat does not come out even on what the row below offers.

What it checks: a repeat worked to the end (or a told number of times), with what stands before and after it, against the places offered.

Why: the most frequent real mistake in published patterns. The follower ends in the middle of a repeat.

Example:

    Rnd 3: *Sc in next 2 sts, 2 sc in next st; rep from * around.

over a round of 20: each repeat takes 3, and 20 = 6 × 3 + 2.

Message: The repeat takes 3 places, and 20 are offered: 6 repeats leave 2.

Repair: none; the numbers that would fit stand in the working.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from ...working import RowTrouble
from .fits import number_in, offered, plainly
from .rule import At, Case, Rule, plural


def check(case: Case) -> Iterator[Finding]:
    """A finding for each repeat that does not come out even, or that takes nothing and so never ends."""
    for at, trouble in case.troubled("repeat-does-not-fit"):
        yield plainly(case, RULE, at, trouble, _message(at, trouble))
    for at, trouble in case.troubled("repeat-takes-nothing"):
        yield plainly(case, RULE, at, trouble, f"{at.name}: the repeat uses no place of the row below, so it never ends.")


def _message(at: At, trouble: RowTrouble) -> str:
    unit, left = number_in(trouble, "unit", "takes"), number_in(trouble, "left", "over", "rest")
    around = number_in(trouble, "around", "outside", "fixed") or 0
    places = offered(at, trouble)
    if not unit or left is None or places is None:
        return ""
    times = max(0, (places - around - left) // unit)
    outside = f", {around} stand outside it" if around else ""
    leave = f"{plural(times, 'repeat')} {'leaves' if times == 1 else 'leave'} {left}"
    return f"{at.name}: the repeat takes {plural(unit, 'place')}{outside}, and {places} are offered: {leave}."


RULE = Rule("repeat-does-not-fit", "error", check)
