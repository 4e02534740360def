"""A row that says what it skips goes on past further stitches without a word.

What it checks: in a row that tells its skips, "next dc" (a stitch named by its kind) that does not follow where the skips end; and, as a
note, a run of so many stitches of a kind ("dc in next 7 dc") in which a space of chains lies, where no stated count agrees.

Why: the skip is one too few, or the stitch named is not the next. Lace goes past stitches to reach a space, and is not reported.

Example:

    Row 3: * Skip next 1 dc, sc in next dc, skip next 2 dc, 5 dc in next sc; rep from * across.   (over shells of 5 dc)

Message: In Row 3, “next sc” lies 1 stitch further on than the skips say.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .arithmetic import words
from .rule import Case, Rule, at_row


def check(case: Case) -> Iterator[Finding]:
    """A warning at each place named beyond the stitch that is next."""
    for at, trouble in case.troubled("passed-unsaid"):
        passed = int(str(trouble.data.get("passed", 1)))
        far = f"{passed} stitch{'es' if passed != 1 else ''}"
        message = f"In {at.name}, “next {{{trouble.data.get('what')}}}” lies {far} further on than the skips say."
        yield at_row(RULE, at, trouble.span, message)
    for at, trouble in case.troubled("space-passed"):
        said = words(case.source, trouble.span)
        yield at_row(RULE, at, trouble.span, f"In {at.name}, “{said}” goes past a space of chains that is not told.", severity="note")


RULE = Rule("stitches-passed-over", "warning", check)
