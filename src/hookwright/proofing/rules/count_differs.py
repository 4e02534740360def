"""A row makes another number of stitches than it says.

What it checks: every number stated at the end of a row against the stitches worked, kind by kind. Numbers told as "about", counts in the
middle of a row, and counts for one side or one repeat are left alone. A row that does not fit what it is offered has one finding, about
that; its count is told there, unless what it is offered is not certain and the row's own words give every number.

Why: a follower who counts and finds another number rips a row that was right, or works on with one that was wrong.

Example:

    Row 3: Ch 1, turn. 2 sc in first st, sc in each st across. (12 sc)

after a row of 12: the increase makes 13.

Message: Row 3 makes 13 sc, and 12 sc are stated.

Repair: where the rows above and below agree with the words, the number is put right (safe). Otherwise the worked number is offered.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...pattern import Count, Finding, Repair, Span
from ...working.counting import Comparison, compare
from ...working.in_full import counts_by_itself
from .arithmetic import derivation
from .fits import misfits, softened
from .rule import At, Case, Rule, at_row, replace


def check(case: Case) -> Iterator[Finding]:
    """A finding for each stated number that the row does not make."""
    for at in case.worked():
        if at.row.state != "differs" or not at.row.stated or (misfits(at) and not (at.row.doubt and counts_by_itself(at.row))):
            continue
        wrong = [item for item in comparisons(at) if item.differs]
        blamed = next((t for t in at.row.troubles if t.kind == "count-differs"), None)
        for item in wrong:
            yield _finding(case, at, item, bool(blamed and blamed.data.get("words_wrong")), alone=len(wrong) == 1)


def comparisons(at: At) -> tuple[Comparison, ...]:
    """Each stated number of a row beside the worked one."""
    below = at.below()
    before = below.counted.total if below else None
    return compare(at.row.counted, at.row.stated, at.fabric.size, before=before, chains_count=False)


def _finding(case: Case, at: At, item: Comparison, words_wrong: bool, *, alone: bool) -> Finding:
    assert item.worked is not None
    noun = _noun(item.count)
    worked, stated = _told(item.worked, noun, item.count.change), _told(item.stated, noun, item.count.change)
    verb = "changes the count by" if item.count.change else "makes"
    message = f"{at.name} {verb} {worked}, and {stated} {'is' if item.stated == 1 and noun else 'are'} stated."
    sums = [f"{at.name} {verb} {worked}; stated: {stated}."]
    if words_wrong:
        sums.append(f"The rows after it fit {item.stated}, so the words look wrong, not the count.")
    span = item.count.span if item.count.span.end > item.count.span.start else at.row.written.span
    repair = _repair(case, at, item, alone) if span == item.count.span and not words_wrong else None
    finding = at_row(RULE, at, span, message, working=(*derivation(at, case.source), *sums), repair=repair)
    return finding if counts_by_itself(at.row) else softened(finding, at)


def _noun(count: Count) -> str:
    return "" if count.kind == "st" else f"{{{count.kind}}}" if " " not in count.kind else count.kind


def _told(number: int, noun: str, change: bool) -> str:
    sign = "+" if change and number > 0 else ""
    several = "s" if number != 1 and noun.strip("{}") in _IN_FULL else ""
    return f"{sign}{number} {noun + several if noun else 'stitch' if number == 1 else 'stitches'}"


_IN_FULL = frozenset("block group loop shell petal picot cluster popcorn bobble fan knot point square pattern".split())  # noqa: SIM905
"""What is written out, and so has its plural; a short form has none."""


def _repair(case: Case, at: At, item: Comparison, alone: bool) -> Repair | None:
    where = number_span(case.source, item.count.span, item.count, at.fabric.size)
    if where is None or at.row.read != "whole" or item.worked is None:
        return None
    sure = alone and _confirmed(at) and len(at.row.written.numbers_at(at.fabric.size)) <= 1
    title = f"State {item.worked} instead of {item.stated}."
    return replace(where, str(item.worked), title, "safe" if sure else "asked")


def number_span(source: str, span: Span, count: Count, size: int) -> Span | None:
    """Where the number for `size` stands inside a stated count; None when the words hold no such digits."""
    stated = count.number.at(size)
    found = [match for match in re.finditer(r"\d+", span.of(source)) if int(match[0]) == stated]
    if not found or (len(found) > 1 and not count.number.many):
        return None
    match = found[0] if len(found) == 1 else found[sum(v == stated for v in count.number.values[:size])]
    return Span(span.start + match.start(), span.start + match.end())


def _confirmed(at: At) -> bool:
    """Whether the row above it and the row into it both agree with the words."""
    below, above = at.below(), at.next()
    if at.row.troubles and any(t.kind not in ("count-differs",) for t in at.row.troubles):
        return False
    if above is None or above.troubles or above.state == "differs" or above.read != "whole":
        return False
    return (below is None or below.state in ("agrees", "unstated", "uncompared")) and above.offered == at.row.counted.total == above.used


RULE = Rule("count-differs", "error", check)
