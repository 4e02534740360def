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

from ...pattern import Finding, Make, Part, Row
from ...pattern.walking import inside
from ...trade.kinds import closes
from ...trade.terms import abbr
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding at each together-stitch whose two numbers differ."""
    for part in case.pattern.parts:
        for row in part.rows:
            for step in inside(row.steps):
                if isinstance(step, Make):
                    yield from _differing(part, row, step)


def _differing(part: Part, row: Row, step: Make) -> Iterator[Finding]:
    named = closes(step.stitch)
    if named > 1 and step.closes > 1 and step.closes != named:
        message = f"{abbr(step.stitch, part.terms)} takes {named} stitches, and the words give it {step.closes}."
        yield in_text(RULE, step.span, message, part=part, row=row.label)


RULE = Rule("together-contradicts", "error", check)
