"""One word means two different things in the pattern.

What it checks: stitches and groups that the pattern defines twice, differently; and a definition that gives a word of the trade another
meaning without saying which is meant in the rows before it.

Why: a shell of five here and of seven there makes every count doubtful.

Example:

    Shell: 5 dc in one st.
    …
    Shell: 7 dc in one st.

Message: "shell" is defined a second time, differently.

Repair: none; give the second one a name of its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding, Span
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding at each second meaning."""
    for trouble in case.noticed("word-with-two-meanings", "two-meanings"):
        first = trouble.data.get("first")
        notes = ((first, "first defined here"),) if isinstance(first, Span) else ()
        message = trouble.message if trouble.message.endswith(".") else f"{trouble.message}."
        yield in_text(RULE, trouble.span, message, notes=notes)


RULE = Rule("word-with-two-meanings", "warning", check)
