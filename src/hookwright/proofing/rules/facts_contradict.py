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
    """A finding for each pair of facts that disagree."""
    for trouble in case.noticed("facts-contradict"):
        message = trouble.message[:1].upper() + trouble.message[1:]
        yield in_text(RULE, trouble.span, message if message.endswith(".") else f"{message}.")


RULE = Rule("facts-contradict", "warning", check)
