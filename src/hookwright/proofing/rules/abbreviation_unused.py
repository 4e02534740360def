"""A stitch is listed among the abbreviations and never used.

What it checks: where a pattern has a list of abbreviations, that the stitches in it are worked somewhere. Other words (rep, sk, st …) are
left alone.

Why: usually the list was copied from another pattern; sometimes the row that used the stitch was lost.

Example:

    Abbreviations: ch = chain, sc = single crochet, tr = treble crochet

with no treble in any row.

Message: tr is in the list of abbreviations and is not used.

Repair: none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...pattern import Finding
from ...trade.kinds import base
from ...trade.terms import kind_of
from .abbreviations import listed, used
from .rule import Case, Rule, in_text
from .unread import unread_in


def check(case: Case) -> Iterator[Finding]:
    """A note at each listed stitch that no row works. Says nothing where rows were not fully read."""
    entries = listed(case.source)
    if len(entries) < 3 or any(unread_in.rows(case.pattern)):
        return
    kinds = {kind for kind, _ in used(case.pattern)}
    worked = kinds | {base(kind) for kind in kinds} | _in_definitions(case)
    if not kinds:
        return
    for entry in entries:
        kind = kind_of(entry.short, case.pattern.terms)
        if kind is not None and kind not in ("ch", "sl st") and kind not in worked:
            yield in_text(RULE, entry.span, f"{entry.short} is in the list of abbreviations and is not used.")


def _in_definitions(case: Case) -> set[str]:
    return {str(step.stitch) for special in case.pattern.defined.values() for step in special.steps if hasattr(step, "stitch")}


RULE = Rule("abbreviation-unused", "note", check)
