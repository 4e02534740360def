"""The pattern asks for more than is worked.

What it checks: stitches in a row and in all, repeats inside repeats, rows, sizes, length of the text.

Why: a number typed wrong (a repeat of a billion) must not hang the machine; beyond the bounds nothing is checked.

Example:

    Row 2: *Sc in next st; rep from * 1000000000 times.

Message: This row holds more than 1,000,000 stitches; it was not worked.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .fits import plainly
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding for each bound that was reached."""
    for at, trouble in case.troubled("limit"):
        yield plainly(case, RULE, at, trouble)
    for _, trouble in case.loose("limit"):
        yield in_text(RULE, trouble.span, _sentence(trouble.message))
    for noticed in case.noticed("limit", "too-long"):
        yield in_text(RULE, noticed.span, _sentence(noticed.message))


def _sentence(message: str) -> str:
    message = message[:1].upper() + message[1:]
    return message if message.endswith(".") else f"{message}."


RULE = Rule("limit-reached", "warning", check)
