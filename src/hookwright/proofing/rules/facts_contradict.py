"""Two places say different things about the same fact.

What it checks: front matter against the prose (hook, gauge, terms, sizes, yarn). The front matter is believed.

Why: a follower reads one of them, and buys the wrong hook.

Example:

    hook: 5 mm          (front matter)
    Hook: 5.5 mm        (materials)

Message: The hook is 5 mm in the front matter and 5.5 mm here.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding for each pair of facts that disagree, and for front matter that cannot be read."""
    for trouble in case.noticed("facts-contradict"):
        yield in_text(RULE, trouble.span, _sentence(trouble.message))
    for trouble in case.noticed("yaml", "fact-unreadable"):
        yield in_text(RULE, trouble.span, f"The front matter could not be read: {_sentence(trouble.message)}")


def _sentence(message: str) -> str:
    return message if message.endswith(".") else f"{message}."


RULE = Rule("facts-contradict", "warning", check)
