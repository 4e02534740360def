"""A border along row ends, or round a whole piece, has too few or too many stitches for its edge.

What it checks: runs of stitches worked into row ends, edgings along one side of another piece where the words tell which, and the first
round of a border that goes round a piece worked in rows or round motifs laid out to a blanket, where the pattern gives a gauge with rows:
their width at the gauge beside the length of the edge. More than 15 % too few pull the edge in, more than 15 % too many make it wave. Rows
in doubt are left alone.

Why: a border is counted once, at the end, when the piece is already as long as it is.

Example:

    Row 60: … Edging: 90 sc evenly along the side of 60 dc rows

Message: Edging has 60 stitches along 86.0 cm of row ends: they pull the edge in; 120 would lie flat.

Repair: none; the number that lies flat is told.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...measuring import Assembled, Border, Measures, edgings_along, measure, put_together
from ...pattern import Finding
from ...working import Fabric, How
from .rule import At, Case, Rule, at_row


def check(case: Case) -> Iterator[Finding]:
    """A finding for each border that does not lie flat."""
    if not any(gauge.rows for gauge in case.pattern.facts.gauge):
        return
    for fabric in case.fabrics:
        sides = any(int(How.SIDE) in row.stitches.foot_how for part in fabric.parts for row in part.rows)
        round_it = any(part.rows and part.rows[0].below is None and part.rows[0].made_in != "rows" for part in fabric.parts[1:])
        if not sides and not round_it:
            continue
        measures = measure(fabric)
        yield from _along_row_ends(case, fabric, measures) if sides else ()
        yield from _along_other_parts(case, fabric, measures) if sides else ()
        for thing in put_together(measures) if round_it else ():
            yield from _round_the_piece(case, fabric, measures, thing)


def _along_row_ends(case: Case, fabric: Fabric, measures: Measures) -> Iterator[Finding]:
    for part in measures.parts:
        firm = all(row.read == "whole" and row.worked == "yes" for row in part.part.rows)
        for border in part.borders if firm else ():
            if border.lies != "flat":
                yield _finding(case, fabric, fabric.parts.index(part.part), border)


def _along_other_parts(case: Case, fabric: Fabric, measures: Measures) -> Iterator[Finding]:
    """Edgings that are parts of their own, where the words tell the edge and all of it was read and worked without a doubt."""
    for along in edgings_along(measures):
        parts = [measures.parts[k].part for k in {along.part, *(edge.part for edge in along.edges)}]
        firm = all(row.read == "whole" and row.worked == "yes" and not row.troubles for part in parts for row in part.rows)
        if firm and along.told and along.rows and along.rows[0].lies != "flat":
            yield _finding(case, fabric, along.part, along.rows[0])


def _round_the_piece(case: Case, fabric: Fabric, measures: Measures, thing: Assembled) -> Iterator[Finding]:
    """The first round of a border, its count told, round pieces that were all read and worked without a doubt."""
    if thing.border is None or thing.border_part is None or not thing.border.rounds or thing.misfits:
        return
    inner = [measures.parts[i].part for i in thing.parts if i != thing.border_part]
    firm = all(row.read == "whole" and row.worked == "yes" and not row.troubles for part in inner for row in part.rows)
    first = thing.border.rounds[0]
    row = fabric.parts[thing.border_part].rows[first.index]
    if firm and first.lies != "flat" and (row.stated or row.worked == "yes") and not row.troubles:
        yield _finding(case, fabric, thing.border_part, first)


def _finding(case: Case, fabric: Fabric, part: int, border: Border) -> Finding:
    work = fabric.parts[part]
    row = work.rows[border.index]
    terms = next((one.terms for one in case.pattern.parts if one.name == work.name), case.pattern.terms)
    span = row.written.label_span if row.written.label_span.end else row.written.span
    wide = border.fullness * border.along_cm
    working = (f"{border.stitches} stitches are {wide:.1f} cm, the edge is {border.along_cm:.1f} cm",)
    return at_row(RULE, At(fabric, work, row, terms), span, border.said, working=working)


RULE = Rule("border-pulls-or-waves", "warning", check)
