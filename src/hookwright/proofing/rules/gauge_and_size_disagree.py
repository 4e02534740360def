"""The finished size does not follow from the gauge and the counts.

What it checks: for a piece of one part worked flat in the stitch the gauge was measured in: the stitches of its widest row at the gauge,
against the stated width; its rows at the gauge, against the stated length. For flat rounds in one stitch: rounds at the gauge against the
stated diameter. Pieces with lace, several parts, edgings or trims are left alone: there the size does not follow so simply.

Why: gauge, counts and size are three numbers of which two make the third; a follower who meets the gauge must meet the size.

Tolerance: 12 % (a swatch of 10 cm read to half a stitch is uncertain by 4 %, blocking and edges add to it). Common practice, no source.

Example:

    Gauge: 14 dc and 7 rows = 10 cm. Finished width: 40 cm. Every row: (42 dc)

Message: 42 dc at 14 to 10 cm are 30 cm wide, and 40 cm is stated.

Repair: none.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from ...pattern import FLAT, NOWHERE, Finding, FinishedSize, Gauge, Span
from ...trade.terms import spelled
from ...trade.units import decimal
from ...working import Fabric, PartWork, RowWork
from .rule import Case, Rule, in_text

TOLERANCE = 0.12
MOST_OF_IT = 0.9


def check(case: Case) -> Iterator[Finding]:
    """A finding for each stated measure that the counts do not give."""
    facts = case.pattern.facts
    for fabric in case.fabrics:
        part = _only_part(fabric)
        if part is None:
            continue
        for index, stated in enumerate(facts.finished):
            cm = _for_size(stated, fabric.size)
            made = None if cm is None else _made(part, stated.what, facts.gauge)
            if cm is not None and made is not None and abs(made[0] - cm) > max(TOLERANCE * cm, 1.0):
                yield _finding(case, fabric, stated, index, cm, made)


def _only_part(fabric: Fabric) -> PartWork | None:
    parts = [part for part in fabric.parts if any(not row.foundation for row in part.rows)]
    if len(parts) != 1 or parts[0].copies != 1 or fabric.pattern.facts.trims:
        return None
    rows = _rows(parts[0])
    whole = all(row.read == "whole" and row.worked == "yes" and not row.troubles for row in rows)
    return parts[0] if whole and rows else None


def _rows(part: PartWork) -> list[RowWork]:
    return [row for row in part.rows if not row.foundation]


def _for_size(stated: FinishedSize, size: int) -> float | None:
    if not stated.cm:
        return None
    return stated.cm[min(size, len(stated.cm) - 1)]


def _made(part: PartWork, what: str, gauges: tuple[Gauge, ...]) -> tuple[float, str] | None:
    """(cm, the sum in words) of what the counts give, or None where it does not follow."""
    rows = _rows(part)
    kinds: Counter[str] = Counter()
    for row in rows:
        kinds.update(row.counted.by_kind)
    stitch, number = kinds.most_common(1)[0] if kinds else ("", 0)
    gauge = next((gauge for gauge in gauges if gauge.stitch == stitch and gauge.stitches), None)
    if gauge is None or number < MOST_OF_IT * sum(kinds.values()):
        return None
    flat = all(row.made_in in FLAT for row in rows)
    if what == "width" and flat:
        widest = max(row.counted.total for row in rows)
        return widest * gauge.width_cm, f"{widest} {{{stitch}}} at {_per(gauge.stitches, gauge.over_cm)}"
    if gauge.height_cm is None:
        return None
    if what == "length" and flat:
        return len(rows) * gauge.height_cm, f"{len(rows)} rows at {_per(gauge.rows or 0, gauge.over_rows_cm or gauge.over_cm)}"
    if what == "diameter" and not flat and all(row.made_in not in FLAT for row in rows) and _grows(rows):
        return 2 * len(rows) * gauge.height_cm, f"{len(rows)} rounds at {_per(gauge.rows or 0, gauge.over_rows_cm or gauge.over_cm)}, twice"
    return None


def _per(number: float, over_cm: float) -> str:
    return f"{decimal(number, 1)} to {decimal(over_cm, 1)} cm"


def _grows(rows: list[RowWork]) -> bool:
    totals = [row.counted.total for row in rows]
    return all(later > earlier for earlier, later in pairwise(totals))


def _finding(case: Case, fabric: Fabric, stated: FinishedSize, index: int, cm: float, made: tuple[float, str]) -> Finding:
    spans = case.pattern.facts.spans
    span = (
        spans.get(f"finished.{index}") or spans.get(f"finished.{stated.what}") or spans.get("finished") or spans.get("gauge.0") or NOWHERE
    )
    sums = spelled(made[1], case.pattern.terms)
    message = f"{sums} make a {stated.what} of {decimal(made[0], 1)} cm, and {decimal(cm, 1)} cm is stated."
    finding = in_text(RULE, Span(*span), message, working=(f"{sums} = {decimal(made[0], 1)} cm",))
    return finding if len(case.fabrics) < 2 else replace(finding, size=fabric.size)


RULE = Rule("gauge-and-size-disagree", "warning", check)
