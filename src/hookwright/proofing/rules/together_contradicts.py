"""A together-stitch is told over another number of stitches than its name says.

What it checks: the number in the name ("dc3tog") against the number of stitches it is told to be worked over ("over next 2 sts").

Why: one of the two is wrong, and each makes another count.

Example:

    Row 2: Dc in first st, dc3tog over next 2 sts, dc in each st across.

Message: dc3tog takes 3 stitches, and the words give it 2.

Repair: none: which number is meant, only the next rows can tell.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding, Make, Step, once
from ...pattern.walking import inside
from ...trade.kinds import closes
from ...trade.terms import abbr
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding at each together-stitch whose two numbers differ."""
    for part, row, differing in _differing.rows(case.pattern):
        for step in differing:
            message = f"{abbr(step.stitch, part.terms)} takes {closes(step.stitch)} stitches, and the words give it {step.closes}."
            yield in_text(RULE, step.span, message, part=part, row=row.label)


@once
def _differing(steps: tuple[Step, ...]) -> tuple[Make, ...]:
    made = (step for step in inside(steps) if isinstance(step, Make))
    return tuple(step for step in made if step.closes > 1 and closes(step.stitch) not in (0, 1, step.closes))


RULE = Rule("together-contradicts", "error", check)
