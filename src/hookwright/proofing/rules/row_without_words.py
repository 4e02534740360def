"""A row has a label and no instruction.

What it checks: every label ("Row 5:", "Rnd 3.") for words after it; a count alone is no instruction, unless most rows are told so.

Why: the words were lost in layout, or a template line was left in; the row cannot be worked.

Example:

    Row 4: Ch 1, turn, sc in each st across.
    Row 5:
    Row 6: Ch 1, turn, sc in each st across.

Message: Row 5 has no instruction.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Aside, Chain, Colour, FastenOff, Finding, Join, Step, Turn, once
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding for each label without words."""
    for trouble in case.noticed("row-without-text"):
        label = " ".join(trouble.span.of(case.source).strip(" :.-–—").split())
        number = next((int(word) for word in label.split() if word.isdigit()), None)
        yield in_text(RULE, trouble.span, f"{label or 'This row'} has no instruction.", row=label or None, number=number)
    yield from _only_counts(case)


def _only_counts(case: Case) -> Iterator[Finding]:
    """A finding for each numbered row that states a count and asks for no stitch, where most rows of its part do ask for some."""
    for part in case.pattern.parts:
        silent = [row for row in part.rows if row.stated and row.numbers and row.numbers[0] and _silent(row.steps)]
        if len(silent) > 1 and len(silent) * 3 > sum(bool(row.numbers and row.numbers[0]) for row in part.rows):
            continue  # a list of counts alone: a style, not a slip
        for row in silent:
            message = f"{row.label} states a count and has no instruction."
            yield in_text(RULE, row.label_span, message, part=part, row=row.label, number=row.numbers[0][0])


@once
def _silent(steps: tuple[Step, ...]) -> bool:
    return not any(map(_asks, steps))


def _asks(step: Step) -> bool:
    """Whether a step works something, or may do."""
    if isinstance(step, Chain):
        return step.foundation or (step.number.values[0] or 0) > 6
    return not isinstance(step, (Aside, Colour, FastenOff, Join, Turn))


RULE = Rule("row-without-words", "warning", check)
