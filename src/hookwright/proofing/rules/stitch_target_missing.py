"""The words name a place that the row below does not have.

What it checks: every named target ("in the ch-5 sp", "in next FPdc", "in the center dc of the shell") against what lies below.

Why: usually one of the two rows was changed and the other was not.

Example:

    Rnd 4: *Shell in next ch-3 sp; rep from * around.

over a round that made ch-2 spaces.

Message: Rnd 4 works into a ch-3 sp, and the row below has none.

Repair: none; the nearest thing there is stands in the working.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from .fits import below_name, plainly
from .rule import Case, Rule


def check(case: Case) -> Iterator[Finding]:
    """A finding for each named place that is not there."""
    for at, trouble in case.troubled("no-target"):
        what = trouble.data.get("what")
        if isinstance(what, str) and what:
            named = f"{{{what}}}" if " " not in what else what
            yield plainly(case, RULE, at, trouble, f"{at.name} works into a {named}, and {below_name(at)} has none there.")
        else:
            yield plainly(case, RULE, at, trouble)


RULE = Rule("stitch-target-missing", "error", check)
