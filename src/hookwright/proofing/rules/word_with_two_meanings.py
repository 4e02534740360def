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

import re
from collections.abc import Iterator

from ...pattern import Finding, Span
from .arithmetic import words
from .rule import Case, Rule, in_text

GROUPS = ("shell", "V-st", "cluster", "bobble", "puff", "popcorn", "picot", "fan", "petal", "corner")
"""Words of the trade whose make-up differs from pattern to pattern."""


def check(case: Case) -> Iterator[Finding]:
    """A finding at each second meaning."""
    for trouble in case.noticed("word-with-two-meanings", "two-meanings"):
        first = trouble.data.get("first")
        notes = ((first, "first defined here"),) if isinstance(first, Span) else ()
        message = trouble.message if trouble.message.endswith(".") else f"{trouble.message}."
        yield in_text(RULE, trouble.span, message, notes=notes)
    low = case.source.lower()
    for name in sorted({*case.pattern.defined, *GROUPS}):
        if not all(word in low for word in name.lower().split()):
            continue
        first, *more = _definitions(case.source, name) or [Span(0, 0)]
        for span in more:
            if _meaning(case.source, span) != _meaning(case.source, first):
                working = (f"First: {words(case.source, first)}", f"Here: {words(case.source, span)}")
                notes = ((first, "first defined here"),)
                yield in_text(RULE, span, f"“{name}” is defined a second time, differently.", working=working, notes=notes)


def _definitions(source: str, name: str) -> list[Span]:
    """Every line that defines `name`: the name, perhaps an abbreviation in brackets, a colon or equals sign, and what it is made of."""
    stem = re.escape(name).replace("\\ ", r"[ \t]+")
    line = rf"^[ \t>*_-]*(?:{stem})s?(?:[ \t]+(?:stitch|st))?(?:[ \t]*\([^)\n]*\))?[*_ \t]*[:=][*_ \t]*(?P<body>[^\n]*\d[^\n]*)$"
    return [Span(match.start(), match.end()) for match in re.finditer(line, source, re.I | re.M)]


def _meaning(source: str, span: Span) -> str:
    """What a definition says, without its looks."""
    body = re.split(r"[:=]", span.of(source), maxsplit=1)[-1]
    return " ".join(re.findall(r"[a-z0-9]+", body.lower()))


RULE = Rule("word-with-two-meanings", "warning", check)
