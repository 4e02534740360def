"""A row leaves places unworked without saying so.

What it checks: the places left after a row's last step, unless its words say that some are left.

Why: either a stitch was forgotten in the words, or the piece grows narrower there without anyone meaning it.

Example:

    Row 2: Ch 1, turn. Sc in next 8 sts. Row 3: …

over a row of 10.

Message: Row 2 uses 8 of the 10 places of Row 1, and does not say that 2 are left unworked.

Repair: none; add the missing stitches, or say "leave the last 2 sts unworked".
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...pattern import FLAT, Finding, Leave, Refer, Turn
from ...working import Role, RowWork
from .fits import below_name, last_taken, number_in, offered, on_the_chain, plainly
from .rule import At, Case, Rule, plural


def check(case: Case) -> Iterator[Finding]:
    """A finding for each row that leaves places without a word."""
    for at, trouble in case.troubled("too-few"):
        if on_the_chain(at) or short_rows(at) or _hangs_outside(at) or _taken_up_later(at):
            continue
        places, left = offered(at, trouble), number_in(trouble, "left", "missing", "over")
        if places is None or left is None:
            yield plainly(case, RULE, at, trouble)
            continue
        tail = f"and does not say that {left} {'is' if left == 1 else 'are'} left unworked"
        message = f"{at.name} uses {places - left} of the {plural(places, 'place')} of {below_name(at)}, {tail}."
        yield plainly(case, RULE, at, trouble, message, last_taken(at))


def short_rows(at: At) -> bool:
    """Whether the row is one of several, one after another, that each turn early and state just what they work: short rows are often
    told without "leave the rest unworked" (heels, wedges, shoulders)."""
    rows = at.part.rows
    index = next((k for k, row in enumerate(rows) if row is at.row), 0)
    first = last = index
    while first > 0 and _turns_early(rows[first - 1]):
        first -= 1
    while last + 1 < len(rows) and _turns_early(rows[last + 1]):
        last += 1
    told = first > 0 and any(isinstance(step, Leave) for step in rows[first - 1].written.steps)
    below = at.below()
    leaves_the_round = (
        at.row.made_in in FLAT and at.row.below is not None and (below is None or below.made_in not in FLAT)
    )  # "Heel flap, in rows: Row 1: sc in next 14, turn."
    if leaves_the_round and _goes_on_alone(rows[index:]):
        return True
    return _turns_early(at.row) and (told or last - first >= 2 or leaves_the_round or _taken_up(rows[last + 1 : last + 3]))


def _taken_up(rows: Sequence[RowWork]) -> bool:
    """Whether one of the next rows goes on, past the row below it, into what is left: the second half of a heel."""
    return any(row.made_in in FLAT and not row.troubles and (row.used or 0) > (row.offered or 0) > 0 for row in rows)


def _hangs_outside(at: At) -> bool:
    """Whether what is left is open work at the row's end, and the repeated rows leave just as much again: the scallops of an edging hang
    outside its straight part without a word (common practice, no source)."""
    below = at.below()
    offered, used = at.row.offered, at.row.used
    if below is None or offered is None or used is None or at.row.made_in not in FLAT or offered - used < MIN_HANGING:
        return False
    turned = below.direction != at.row.direction
    left = below.stitches.role[: offered - used] if turned else below.stitches.role[used - offered :]
    later = (row for row in at.part.rows if row.index > at.row.index and any(isinstance(step, Refer) for step in row.written.steps))
    return Role.CHAIN in left and any((row.offered, row.used) == (offered, used) for row in later)


MIN_HANGING = 2
"""A stitch alone at the end is one forgotten."""


def _taken_up_later(at: At) -> bool:
    """Whether a later row goes on over all that is left ("2nd row: sc in 20 sc, turn. … 4th row: sc in each of 27 sc"): short rows."""
    below, row = at.below(), at.row
    if below is None or row.offered is None or row.used is None or row.made_in not in FLAT:
        return False
    taken: set[int] = set()
    for later in at.part.rows:
        if later.index > row.index:
            feet = zip(later.stitches.foot_back, later.stitches.foot_at, strict=True)
            taken.update(foot for back, foot in feet if back == later.index - below.index)
    return len(taken) >= row.offered - row.used > 0


def _goes_on_alone(rows: Sequence[RowWork]) -> bool:
    """ "Handle. Row 1: sc in each of first 6 sc, turn. Row 2: ch 1, sc in each of 6 sc, turn.": a piece headed for itself that begins on
    some stitches of a round, and is told on for just these."""
    turns = any(isinstance(step, Turn) and not step.no for step in rows[0].written.steps)
    return turns and len(rows) > 1 and rows[1].worked == "yes" and not rows[1].troubles and rows[1].counted.total == rows[0].counted.total


def _turns_early(row: RowWork) -> bool:
    leaves = any(trouble.kind == "too-few" for trouble in row.troubles)
    return leaves and row.state == "agrees" and any(isinstance(step, Turn) and not step.no for step in row.written.steps)


RULE = Rule("row-uses-too-few", "error", check)
