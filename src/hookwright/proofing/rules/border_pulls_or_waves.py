"""A border along row ends has too few or too many stitches for its edge.

What it checks: runs of stitches worked into row ends, where the pattern gives a gauge with rows: their width at the gauge beside the length
of the edge. More than 15 % too few pull the edge in, more than 15 % too many make it wave. Rows in doubt are left alone.

Why: a border is counted once, at the end, when the piece is already as long as it is.

Example:

    Row 60: … Edging: 90 sc evenly along the side of 60 dc rows

Message: Edging has 60 stitches along 86.0 cm of row ends: they pull the edge in; 120 would lie flat.

Repair: none; the number that lies flat is told.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...measuring import measure
from ...pattern import Finding
from ...working import How
from .rule import At, Case, Rule, at_row


def check(case: Case) -> Iterator[Finding]:
    """A finding for each border that does not lie flat."""
    if not any(gauge.rows for gauge in case.pattern.facts.gauge):
        return
    for fabric in case.fabrics:
        if not any(int(How.SIDE) in row.stitches.foot_how for part in fabric.parts for row in part.rows):
            continue
        for part in measure(fabric).parts:
            firm = all(row.read == "whole" and row.worked == "yes" for row in part.part.rows)
            terms = next((one.terms for one in case.pattern.parts if one.name == part.name), case.pattern.terms)
            for border in part.borders if firm else ():
                if border.lies != "flat":
                    row = part.part.rows[border.index]
                    span = row.written.label_span if row.written.label_span.end else row.written.span
                    wide = border.fullness * border.along_cm
                    working = (f"{border.stitches} stitches are {wide:.1f} cm, the edge is {border.along_cm:.1f} cm",)
                    yield at_row(RULE, At(fabric, part.part, row, terms), span, border.said, working=working)


RULE = Rule("border-pulls-or-waves", "warning", check)
