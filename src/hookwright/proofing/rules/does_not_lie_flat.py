"""A piece that is meant to lie flat cups or ruffles.

What it checks: parts worked in rounds, where the pattern says it is to lie flat ("lies flat" in its words, a mat, a coaster, a rug): the
girth of every round beside that of a flat piece at the same reach, from the gauge. What fabric takes up, about 15 % either way, is called
flat; a polygon (increases in 3 to 8 corners) may be longer by n tan(pi / n) / pi, plain geometry. Fewer than three rounds are not judged.
Toys, hats and baskets cup by intent and are never looked at, nor is a part in which any row is in doubt.

Why: too few stitches for the height of the rounds make a bowl, too many a frill; blocking does not cure it.

Example:

    Rnd 5: [dc in next st, 2 dc in next st] around. (72 dc)

Message: Rnd 5 has 15 stitches too many to lie flat: 57 would.

Repair: none; the number that lies flat is told.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence

from ...measuring import PartMeasures, RoundMeasure, first_cupped, first_ruffled, measure
from ...pattern import Finding
from ...working import Fabric, How, RowWork
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
    if part.lies == "cups":
        return first_cupped(part.rounds.rounds)
    found = first_ruffled(part.rounds.rounds)
    if found is None:
        return None
    most = GIVE * _polygon(rows)
    return found if any(each.fullness > most for each in part.rounds.rounds if each.index >= found.index) else None


def _polygon(rows: Sequence[RowWork]) -> float:
    """How much longer the edge of a flat polygon is than a circle of its inner radius: n tan(pi / n) / pi for n corners (a square 1.27),
    1 where the increases do not stand in corners (three or more stitches in one place, as often in every round that has them)."""
    corners = {n for row in rows if (n := _corners(row))}
    n = max(corners, default=0)
    return n * math.tan(math.pi / n) / math.pi if 3 <= n <= 8 else 1.0


def _corners(row: RowWork) -> int:
    """How many places of the row below hold three or more of this row's stitches (the ring is no place)."""
    stitches = row.stitches
    held = Counter(at for i in stitches.counted() for _, at, how in stitches.feet_of(i) if at >= 0 and how != How.RING)
    return sum(1 for number in held.values() if number >= 3)


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


GIVE = 1.15
"""How far beyond flat fabric takes up the length of a round."""

RULE = Rule("does-not-lie-flat", "warning", check)
