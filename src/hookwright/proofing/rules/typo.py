"""A word is misspelt, and only one known word is meant.

What it checks: words that are no term of the trade and of which exactly one term is the near neighbour ("sx" for "sc").

Why: it was read as the word meant; a follower has to guess the same.

Example:

    Row 2: Sx in each st across.

Message: "Sx" was read as "sc".

Repair: the word meant is put in its place (safe).
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .arithmetic import words
from .rule import Case, Rule, in_text, replace


def check(case: Case) -> Iterator[Finding]:
    """A note for each word that was read as another."""
    for trouble in case.noticed("typo"):
        meant = trouble.data.get("meant")
        said = trouble.span.of(case.source)
        if not isinstance(meant, str) or not meant:
            yield in_text(RULE, trouble.span, trouble.message)
            continue
        as_written = meant.capitalize() if said[:1].isupper() and said[1:].islower() else meant
        repair = replace(trouble.span, as_written, f"Write “{as_written}”.", "safe")
        yield in_text(RULE, trouble.span, f"“{words(case.source, trouble.span)}” was read as “{meant}”.", repair=repair)


RULE = Rule("typo", "note", check)
