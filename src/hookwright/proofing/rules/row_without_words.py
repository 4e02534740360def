"""A row has a label and no instruction.

What it checks: every label ("Row 5:", "Rnd 3.") for words after it.

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

from ...pattern import Finding
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding for each label without words."""
    for trouble in case.noticed("row-without-text"):
        label = " ".join(trouble.span.of(case.source).strip(" :.-–—").split())
        number = next((int(word) for word in label.split() if word.isdigit()), None)
        yield in_text(RULE, trouble.span, f"{label or 'This row'} has no instruction.", row=label or None, number=number)


RULE = Rule("row-without-words", "warning", check)
