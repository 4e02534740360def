"""Two edges that are joined to each other are not equally long.

What it checks: the edges that a sentence of sewing or joining brings together: the rows it names, the sides of two pieces worked straight,
a base and the rim of its body, motif beside motif. Their stitches at the gauge; more than 5 % apart is told, with the stitches the longer
edge would have to match the shorter. A note only where the sentence itself tells of easing, gathering or leaving open, where no gauge is
given and the edges are of different stitches, or where an edge's count follows from the words alone. Rows in doubt are left alone.

Why: pieces are counted one by one; that two of them meet is seen only when both are made.

Example:

    Back, Row 60: … (44 sc) … Front, Row 60: … (40 sc) … Sew the last row of Back to the last row of Front.

Message: The last row of Back is 10 % longer than that of Front it is joined to: 44 stitches beside 40. 40 would match.

Repair: none; which of the two pieces is right is the maker's to say.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...measuring import Measures, SeamEdge, UnequalEdges, measure, unequal_edges
from ...pattern import Finding, Severity
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding for each pair of joined edges that do not match, in the first size in which they do not."""
    told: set[tuple[object, ...]] = set()
    for fabric in case.fabrics:
        if not fabric.seams:
            continue
        measures = measure(fabric)
        for found in unequal_edges(measures):
            long, short = found.longer, found.shorter
            key = (found.seam.seam.span, *sorted([(long.part, long.which), (short.part, short.which)]))
            if key not in told and all(_firm(edge, measures) for edge in (long, short)):
                told.add(key)
                yield _finding(case, measures, found)


def _firm(edge: SeamEdge, measures: Measures) -> bool:
    """Whether an edge is what its rows say: the row, or every row of a side worked straight, was read whole and fits."""
    rows = measures.parts[edge.part].part.rows
    asked = [rows[edge.row]] if edge.row is not None else [row for row in rows if not row.foundation]
    straight = edge.row is not None or edge.plain
    return straight and all(row.read == "whole" and row.worked == "yes" and not row.troubles and row.doubt < 2 for row in asked)


def _finding(case: Case, measures: Measures, found: UnequalEdges) -> Finding:
    long, short, seam = found.longer, found.shorter, found.seam.seam
    same = long.which == short.which and long.which != "edge"
    other = f"that of {short.name}" if same and short.name else _called(short)
    ease = long.steps - found.right
    message = f"{_called(long)} is {found.more:.0%} longer than {other}, to which it is joined: {_steps(long)} beside {_steps(short)}."
    message += f" {found.right} {long.unit} would match; else {ease} {'have' if ease > 1 else 'has'} to be eased in."
    working = [f"{edge.name}: {_steps(edge)}, {edge.long_cm:.1f} cm" for edge in (long, short)]
    if not case.pattern.facts.gauge:
        working.append("no gauge is given: stitches of one kind are taken to be equally wide")
    return in_text(
        RULE, seam.span, message[0].upper() + message[1:], working=working, severity=_severity(case, measures, found)
    )  # fmt: skip


def _severity(case: Case, measures: Measures, found: UnequalEdges) -> Severity:
    counted = all(_stated(edge, measures) for edge in (found.longer, found.shorter))
    alike = found.longer.plain and found.shorter.plain and found.longer.unit == found.shorter.unit
    sure = counted and not found.seam.seam.eased and (alike or bool(case.pattern.facts.gauge))
    return "warning" if sure else "note"


def _stated(edge: SeamEdge, measures: Measures) -> bool:
    return edge.row is None or bool(measures.parts[edge.part].part.rows[edge.row].stated)


def _steps(edge: SeamEdge) -> str:
    return f"{edge.steps} {edge.unit if edge.steps != 1 else edge.unit[:-1] if edge.unit == 'rows' else 'stitch'}"


def _called(edge: SeamEdge) -> str:
    return f"the {edge.which} of {edge.name}" if edge.name else f"the {edge.which}"


RULE = Rule("seam-edges-differ", "warning", check)
