"""A row number is left out.

What it checks: the numbers of a part's rows, in order. Numbers filled by unnumbered rows ("Next 3 rows"), by ranges, by "all even rows",
by words such as "repeat the last 2 rounds once more" and by a part that goes on from another are not missing; nor are those of rows kept
for other sizes, nor the first number, where the first row is told with the chain.

Why: either a row was dropped from the text, or the numbering slipped and every later reference points one row off.

Example:

    Row 1: …
    Row 2: …
    Row 4: …

Message: Row 4 comes after Row 2: there is no Row 3.

Repair: none. A warning where the rows on both sides fit together, an error where they do not.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...pattern import Aside, Chain, Colour, Finding, Join, Make, Part, Refer, Ring, Row, Severity, Shape, Together, Turn
from .rule import Case, Rule, in_text

_MISFIT = frozenset(("too-many", "too-few", "repeat-does-not-fit", "no-target", "count-differs"))


def check(case: Case) -> Iterator[Finding]:
    """A finding at the row after each gap."""
    for part in case.pattern.parts:
        for size in range(case.pattern.sizes):
            yield from _gaps(case, part, size)


def _gaps(case: Case, part: Part, size: int) -> Iterator[Finding]:
    rows = [row for row in part.rows if row.only is None or size in row.only]
    covered: set[int] = set()
    highest: int | None = None
    spare = 0
    before: Row | None = None
    if not _gapped(rows, size) or _alternate(case, rows):
        return
    everything = {number for row in rows for number in row.numbers_at(size)}
    everything |= {number for row in part.rows for other in row.only or () for number in row.numbers_at(other)}  # kept for other sizes
    for row in rows:
        numbers = row.numbers_at(size)
        if not numbers:
            spare += _unnumbered(row, size)
            continue
        lowest = min(numbers)
        if highest is None and lowest == 2 and _nothing_worked(case, part, rows, row):
            yield _finding(case, part, row, 0, [1])
        if highest is not None and lowest > highest + 1:
            missing = [number for number in range(highest + 1, lowest) if number not in everything]
            if len(missing) > spare and not _absorbed(case, before, row):
                yield _finding(case, part, row, highest, missing)
        covered.update(numbers)
        before = row
        highest = max(highest or 0, *numbers) if lowest > 1 else max(numbers)
        spare = 10_000 if row.until is not None else 0  # "Row 4 and so on. Rep Row 3 until …": it stands for those that follow


def _gapped(rows: list[Row], size: int) -> bool:
    """Whether a number is passed over anywhere, or the first one is 2."""
    last = None
    for row in rows:
        for number in row.numbers_at(size):
            if number != 1 and (last is None or number != last + 1):
                return True
            last = number
    return False


def _nothing_worked(case: Case, part: Part, rows: list[Row], first: Row) -> bool:
    """Whether all that stands before the first numbered row is a ring, or a chain, that it works on as on a finished row."""
    before = rows[: rows.index(first)]
    ring = any(isinstance(step, Ring) for row in before for step in row.steps)
    worked = any(not isinstance(step, (Ring, Chain, Aside, Colour, Join)) for row in before for step in row.steps)
    into = any(isinstance(step, (Make, Together)) and step.at.where == "ring" for step in first.steps)
    if ring or worked or not before:
        return ring and not worked and not into and not any(isinstance(step, Ring) for step in first.steps)
    founded = any(isinstance(step, Chain) and step.foundation for row in before for step in row.steps)
    turns = isinstance(next((step for step in first.steps if not isinstance(step, (Aside, Colour))), None), (Chain, Turn))
    return founded and turns and not any(isinstance(step, (Make, Together)) and step.at.where == "from_hook" for step in first.steps)


_MORE = re.compile(
    r"\b(?:rep(?:eat(?:ing|ed)?)?|cont(?:inue)?|until|more (?:rows|rounds|rnds)|every|alternat\w*|even (?:rows|rnds|rounds))\b", re.I
)


_ALTERNATE = re.compile(
    r"\b(?:all|every|each)\b[^:\n]{0,30}\b(?:even|odd|other|alternate|following|[RW]S)\b|\b(?:even|odd)[\w-]* (?:rows|rounds|rnds)\b", re.I
)


def _alternate(case: Case, rows: list[Row]) -> bool:
    """Whether one instruction stands for every second row ("Row 2 and all even rows")."""
    return any(_ALTERNATE.search(case.source[row.span.start : row.span.start + 60].split(":")[0]) for row in rows)


def _absorbed(case: Case, before: Row | None, row: Row) -> bool:
    """Whether the words between two numbered rows tell of rows that have no label of their own."""
    if before is None or not case.source or before.span.end > row.span.start + 1:
        return False
    said = case.source[before.label_span.end : row.label_span.start]
    body = re.sub(r"\brep(?:eat)?\s+(?:from\s+)?(?:\*|across|around|between|to)", "", said, flags=re.I)
    body = re.sub(r"\buntil\s+(?:only\s+)?(?:\d+|one)\s+(?:loops?|lps?)\b", "", body, flags=re.I)
    own = any(isinstance(step, Refer) or (isinstance(step, Shape) and step.every > 1) for step in before.steps) or before.until is not None
    return len(_MORE.findall(body)) > own


def _unnumbered(row: Row, size: int) -> int:
    """How many numbers an unnumbered instruction may stand for."""
    if row.until is not None:
        return 10_000
    return (row.rows_count.at(size) or 1) if row.rows_count is not None else 1


def _finding(case: Case, part: Part, row: Row, before: int, missing: list[int]) -> Finding:
    noun = "Rnd" if row.noun == "round" else "Row"
    gone = f"{noun} {missing[0]}" if len(missing) == 1 else f"{noun}s {missing[0]}-{missing[-1]}"
    misfit = _misfit(case, part, row)
    after = f"comes after {noun} {before}" if before else "is the first"
    message = f"{row.label.split(':')[0].strip() or noun} {after}: there {'are' if gone.split()[0].endswith('s') else 'is'} no {gone}."
    working = ("The row after the gap does not fit the row before it.",) if misfit else ("The rows on both sides of the gap fit together.",)
    span = row.label_span if row.label_span.end > row.label_span.start else row.span
    severity: Severity = "error" if misfit else "warning"
    return in_text(RULE, span, message, part=part, working=working, severity=severity, row=row.label, number=missing[0])


def _misfit(case: Case, part: Part, row: Row) -> bool:
    works = [at.row for at in case.worked() if at.part.name == part.name and at.row.written.id == row.id]
    return any(work.state == "differs" or any(t.kind in _MISFIT for t in work.troubles) for work in works[:1])


RULE = Rule("row-number-missing", "error", check)
