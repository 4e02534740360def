"""A repeat does not come out even on what the row below offers.

What it checks: a repeat worked to the end (or a told number of times), with what stands before and after it, against the places offered,
and whether it is worked at all.
A flat row may end on the first stitch of its repeat without a word ("* dc in next, ch 1, skip 1; rep across"): that is custom, not a flaw.

Why: the most frequent real mistake in published patterns. The follower ends in the middle of a repeat.

Example:

    Rnd 3: *Sc in next 2 sts, 2 sc in next st; rep from * around.

over a round of 20: each repeat takes 3, and 20 = 6 × 3 + 2.

Message: The repeat takes 3 places, and 20 are offered: 6 repeats leave 2.

Repair: where a repeat is told too often and another number would come out even, that number is offered.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...pattern import Finding, Repair, Span
from ...working import Derived, RowTrouble
from .fits import below_name, number_in, offered, on_the_chain, overrunning_repeat, plainly
from .rule import At, Case, Rule, plural, replace


def check(case: Case) -> Iterator[Finding]:
    """A finding for each repeat that does not come out even, or that takes nothing and so never ends."""
    for at, trouble in case.troubled("repeat-does-not-fit"):
        places = offered(at, trouble)
        over = overrunning_repeat(case, at, places) if places is not None else None
        if over is not None and places is not None:
            yield _too_often(case, at, trouble, places, *over)
        else:
            yield plainly(case, RULE, at, trouble, _message(at, trouble))
    for at, trouble in case.troubled("too-many"):
        places = offered(at, trouble)
        over = None if places is None or on_the_chain(at) else overrunning_repeat(case, at, places)
        if over is not None and places is not None:
            yield _too_often(case, at, trouble, places, *over)
    for at, trouble in case.troubled("repeat-takes-nothing"):
        yield plainly(case, RULE, at, trouble, f"{at.name}: the repeat uses no place of the row below, so it never ends.")
    for at, trouble in case.troubled("repeat-not-begun"):
        left = {"too-few", "count-differs"} & {other.kind for other in at.row.troubles}
        if not left:  # else the places that it leaves are told already
            yield plainly(case, RULE, at, trouble)


def _message(at: At, trouble: RowTrouble) -> str:
    unit, left = number_in(trouble, "unit"), number_in(trouble, "left")
    places, times = offered(at, trouble), number_in(trouble, "times")
    if not unit or left is None or places is None:
        return ""
    around = places - left - unit * (times or 0)
    outside = f" {around} stand outside it," if times and around > 0 else ""
    leave = f"{plural(times, 'repeat')} {'leaves' if times == 1 else 'leave'} {left}" if times else f"{left} are left"
    return f"{at.name}: the repeat takes {plural(unit, 'place')},{outside} and {places} are offered: {leave}."


def _too_often(case: Case, at: At, trouble: RowTrouble, places: int, step: Derived, times: int) -> Finding:
    unit = step.took // times
    outside = sum(other.took for other in at.row.derivation) - step.took
    room = places - outside
    fits, over = divmod(max(room, 0), unit)
    head = f"{at.name}: {times} repeats of {plural(unit, 'place')}" + (f" and {outside} beside them" if outside else "")
    message = f"{head} make {step.took + outside}, and {below_name(at)} offers {places}."
    less = f"{places} − {outside} = {room}" if outside else str(places)
    even = f"{less} = {fits} × {unit}" + (f" + {over}" if over else f": {fits} repeats would come out even")
    repair = _repair(case, step, times, fits) if not over and fits else None
    return plainly(case, RULE, at, trouble, message, step.span, sums=(f"{even}.",), repair=repair)


def _repair(case: Case, step: Derived, times: int, fits: int) -> Repair | None:
    """The told number, put right: only where the words hold it once, as a digit number after the repeat's body."""
    found = [match for match in re.finditer(r"(?<![\d-])\d+", step.span.of(case.source)) if int(match[0]) == times]
    if not found:
        return None
    last = found[-1]
    tail = step.span.of(case.source)[last.end() :]
    if not re.match(r"\s*(?:more\s+)?times?\b|\s*[x×]|\s*$|[.;,)]", tail, re.I):
        return None
    where = Span(step.span.start + last.start(), step.span.start + last.end())
    return replace(where, str(fits), f"Repeat {fits} times instead of {times}.", "asked")


RULE = Rule("repeat-does-not-fit", "error", check)
