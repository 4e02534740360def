"""A row asks for more places than the row below offers.

What it checks: the places that every step takes, against the places offered. A repeat told too often is `repeat-does-not-fit`, a place
that is not there `stitch-target-missing`.

Why: the follower runs out of stitches before the words do, and cannot tell which of them to leave out.

Example:

    Row 2: Ch 1, turn. Sc in each of next 12 sts.

over a row of 10.

Message: Row 2 asks for 12 places, and Row 1 offers 10: 2 too many.

Repair: none; whether the words or the row below are wrong is the designer's to say.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .fits import below_name, number_in, offered, on_the_chain, overrunning_repeat, plainly, runs_out
from .rule import Case, Rule, plural
from .stitch_target_missing import missing_spaces


def check(case: Case) -> Iterator[Finding]:
    """A finding for each step that finds no place left."""
    for at, trouble in case.troubled("too-many"):
        if on_the_chain(at):
            continue
        if overrunning_repeat(case, at, offered(at, trouble) or 0) is not None or any(missing_spaces(case, at)):
            continue
        places, extra = offered(at, trouble), number_in(trouble, "missing", "extra", "over", "short")
        if places is None or extra is None:
            yield plainly(case, RULE, at, trouble)
            continue
        name = below_name(at)
        message = f"{at.name} asks for {plural(places + extra, 'place')}, and {name} offers {places}: {extra} too many."
        yield plainly(case, RULE, at, trouble, message, ran.span if (ran := runs_out(at, places)) else None)


RULE = Rule("row-uses-too-many", "error", check)
