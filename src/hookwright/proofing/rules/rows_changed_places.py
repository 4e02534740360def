"""The second row begins the piece, and the first one needs a piece to work into.

What it checks: a first numbered row that makes no beginning of its own (no chain, no ring) where the part has none, before a second
one that does and goes into nothing else. A row told to go into another piece, or to join its yarn where a piece stands before it, has what
it needs.

Why: rows that changed places in the text, or a first row that was lost, make a piece nobody can begin.

Example:

    Rnd 1: 2 dc in each st around, join. (24 dc)
    Rnd 2: Ch 4, join to form a ring; 12 dc in ring, join. (12 dc)

Message: Rnd 2 begins the piece, and Rnd 1 has nothing to be worked into: have they changed places?

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Chain, Colour, Finding, Make, Part, Ring, Row, Step, Together
from ...pattern.walking import walk
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding at the first of two such rows."""
    taken = {(at.part.name, at.row.written.id) for at in case.worked() if at.row.worked == "assumed"}
    for part in case.pattern.parts:
        pair = _first_two(part)
        if pair is None or (part.name, pair[0].id) not in taken:
            continue
        first, second = pair
        if (
            _begins(second.steps)
            and not _works_on(second.steps)
            and not _begins(first.steps)
            and not _elsewhere(first.steps, part is not case.pattern.parts[0])
        ):
            message = f"{second.label} begins the piece, and {first.label} has nothing to be worked into: have they changed places?"
            yield in_text(RULE, first.label_span, message, part=part, row=first.label, number=1)


def _first_two(part: Part) -> tuple[Row, Row] | None:
    """Rows 1 and 2, where the part begins with them and they stand one behind the other."""
    numbered = [row for row in part.rows if row.numbers and row.numbers[0]]
    if len(numbered) < 2 or numbered[0].numbers[0][0] != 1 or numbered[1].numbers[0][0] != 2:
        return None
    return numbered[0], numbered[1]


def _begins(steps: tuple[Step, ...]) -> bool:
    """Whether a row's words make what they are worked into, or work into a ring or a beginning chain."""
    for step in walk(steps):
        if isinstance(step, Ring) or (isinstance(step, Chain) and step.foundation):
            return True
        if isinstance(step, (Make, Together)):
            return step.at.where in ("ring", "from_hook", "hook")
    return False


def _works_on(steps: tuple[Step, ...]) -> bool:
    """Whether a row that begins with a chain goes on into stitches too: "ch 7, sc in 2nd ch from hook …, sl st in next 2 sc" is a rib."""
    if any(isinstance(step, Ring) for step in steps):
        return False
    made = [step for step in walk(steps) if isinstance(step, (Make, Together))]
    return any(
        step.at.where not in ("ring", "from_hook", "hook", "same") and step.at.what != "ch" and step.places != "rest" for step in made
    )


def _elsewhere(steps: tuple[Step, ...], pieces_before: bool) -> bool:
    """Whether a row goes into something else: another piece, or where it joins its yarn, if there is a piece before it to join to."""
    for step in walk(steps):
        if isinstance(step, Colour) and step.join_in and pieces_before:
            return True
        if isinstance(step, (Make, Together)) and (step.at.where in ("row_end", "marked") or step.at.what == "piece" or step.at.of):
            return True
    return False


RULE = Rule("rows-changed-places", "warning", check)
