"""A piece that is meant to lie flat cups or ruffles.

What it checks: parts worked in rounds, where the pattern says it is to lie flat ("lies flat" in its words, a mat, a coaster, a rug): the
girth of every round beside that of a flat piece at the same reach, from the gauge. What fabric takes up, about 15 % either way, is called
flat. Toys, hats and baskets cup by intent and are never looked at, nor is a part in which any row is in doubt.

Why: too few stitches for the height of the rounds make a bowl, too many a frill; blocking does not cure it.

Example:

    Rnd 5: [dc in next st, 2 dc in next st] around. (72 dc)

Message: Rnd 5 has 15 stitches too many to lie flat: 57 would.

Repair: none; the number that lies flat is told.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...measuring import PartMeasures, RoundMeasure, first_cupped, first_ruffled, measure
from ...pattern import Finding
from ...working import Fabric
from .rule import At, Case, Rule, at_row, plural


def check(case: Case) -> Iterator[Finding]:
    """A finding for the first round of each part from which on it does not lie flat."""
    if case.pattern.facts.intended != "flat":
        return
    for fabric in case.fabrics:
        for part in measure(fabric).parts:
            found = _strays(part)
            if found is not None:
                yield _finding(fabric, part, found, case)


def _strays(part: PartMeasures) -> RoundMeasure | None:
    rows = [row for row in part.part.rows if not row.foundation]
    if len(rows) < 3:
        return None  # one growth tells neither a corner from a circle nor a frill from a ring drawn loosely
    if part.lies not in ("cups", "ruffles") or part.rounds is None or any(row.read != "whole" or row.worked != "yes" for row in rows):
        return None
    return first_ruffled(part.rounds.rounds) if part.lies == "ruffles" else first_cupped(part.rounds.rounds)


def _finding(fabric: Fabric, part: PartMeasures, each: RoundMeasure, case: Case) -> Finding:
    row = part.part.rows[each.index]
    terms = next((one.terms for one in case.pattern.parts if one.name == part.name), case.pattern.terms)
    word = "too many" if each.excess > 0 else "too few"
    message = f"{each.label} has {plural(abs(each.excess), 'stitch', 'stitches')} {word} to lie flat: {each.would_lie_flat} would."
    flat_cm = each.girth_cm / each.fullness
    working = (
        f"{each.stitches} stitches are {each.girth_cm:.1f} cm round",
        f"{each.reach_cm:.1f} cm from the middle a flat piece is {flat_cm:.1f} cm round",
        f"{each.girth_cm:.1f} / {flat_cm:.1f} = {each.fullness:.2f}; about 0.85 to 1.15 lies flat",
    )
    span = row.written.label_span if row.written.label_span.end else row.written.span
    return at_row(RULE, At(fabric, part.part, row, terms), span, message, working=working)


RULE = Rule("does-not-lie-flat", "warning", check)
