"""A fact in the front matter cannot be used.

What it checks: every known key (hook, gauge, sizes, yarns …) for a value that it can hold: a number with a unit, a list as long as there
are sizes. Unknown keys are kept as notes and are no flaw.

Why: what cannot be used is left out of every answer: no gauge, no size; no yarn, no amount.

Example:

    hook: medium

Message: The hook cannot be used: "medium" is no size.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding for each fact that could not be taken, and for front matter that cannot be read at all."""
    for trouble in case.noticed("fact", "fact-unreadable"):
        yield in_text(RULE, trouble.span, f"This fact cannot be used: {_sentence(trouble.message)}", severity="warning")
    for trouble in case.noticed("yaml"):
        yield in_text(
            RULE,
            trouble.span,
            f"The front matter could not be read: {_sentence(trouble.message.partition('could not be read: ')[2] or trouble.message)}",
            severity="error",
        )


def _sentence(message: str) -> str:
    return message if message.endswith(".") else f"{message}."


RULE = Rule("fact-unclear", "error", check)
