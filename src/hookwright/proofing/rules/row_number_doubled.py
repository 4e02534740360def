"""A row number is used twice.

What it checks: the numbers of a part's rows. A part that starts again at its beginning, rows that belong to different sizes, a version
told beside another ("Larger hat: as above to Round 5") and the second side of a piece that was divided are left alone. A section that
goes on counting begins with the next number.

Why: "repeat Row 5" then means two different rows.

Example:

    Row 5: …
    Row 5: …

Message: Row 5 is numbered a second time.

Repair: none; whether the number or the row is one too many is the designer's to say.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from ...pattern import Finding, Part, Row, Span
from .rule import Case, Rule, in_text


def check(case: Case) -> Iterator[Finding]:
    """A finding at the second row of each number."""
    for part in case.pattern.parts:
        for size in range(case.pattern.sizes):
            yield from _doubled(case, part, size)
    yield from _across_sections(case)


def _across_sections(case: Case) -> Iterator[Finding]:
    """A section that goes on counting ("Decrease rows") with the very number that the section before ended on."""
    for part, following in pairwise(case.pattern.parts):
        last = next((row for row in reversed(part.rows) if row.numbers), None)
        first = next((row for row in following.rows if row.numbers), None)
        if last is None or first is None or not last.numbers_at(0) or not first.numbers_at(0):
            continue
        number = first.numbers_at(0)[0]
        if number > 2 and number == max(last.numbers_at(0)) and first is following.rows[0] and not _another_version(case, last, first):
            yield _finding(following, first, last, [number])


_VERSION = re.compile(
    r"\b(?:(?:second|2nd|left|right|other)\s(?:\w+\s)?(?:shoulder|side|half|strap|front|back|leg|sleeve|ear|flap|cup|point|thumb|neck)|"
    r"(?:re-?)?(?:join|attach)(?:ing)?\s(?:\w+\s)?(?:yarn|thread|wool|cotton)|"
    r"sizes?|as above|as for|same as|until|like|up to|bigger|smaller|larger|version|variation|option|only|instead|or)\b",
    re.I,
)


def _doubled(case: Case, part: Part, size: int) -> Iterator[Finding]:
    seen: dict[int, Row] = {}
    before: Row | None = None
    rows = [row for row in part.rows if row.only is None or size in row.only]
    told = [number for row in rows for number in row.numbers_at(size)]
    if len(set(told)) == len(told):
        return
    for k, row in enumerate(rows):
        numbers = row.numbers_at(size)
        if numbers and (
            _starts_again(numbers[0], seen) or _another_version(case, before, row) or (numbers[0] in seen and _side_again(rows, k, size))
        ):
            seen = {}
        before = row
        again = [number for number in numbers if number in seen]
        if again and not _one_row_in_two(row, seen[again[0]]):
            yield _finding(part, row, seen[again[0]], again)
        seen.update({number: row for number in numbers})


def _starts_again(number: int, seen: dict[int, Row]) -> bool:
    """Whether a new piece begins: at 1, or at 2 where its first row has no number."""
    return bool(seen) and ((number == 1 and len(seen) > 1) or (number == 2 and max(seen) > 3))


def _side_again(rows: Sequence[Row], k: int, size: int) -> bool:
    """Whether the numbers step back here and go on from there: the second shoulder's Rows 41 to 45 after the first one's. A number told
    twice by a slip is followed by those that follow the first."""
    numbers = rows[k].numbers_at(size)
    before = next((row.numbers_at(size) for row in reversed(rows[:k]) if row.numbers_at(size)), ())
    after = next((row.numbers_at(size) for row in rows[k + 1 :] if row.numbers_at(size)), ())
    return bool(before and after) and numbers[0] < before[-1] and after[0] == numbers[-1] + 1 <= before[-1]


def _another_version(case: Case, before: Row | None, row: Row) -> bool:
    """Whether the words just before the label tell of another size or version."""
    if before is None or not case.source or before.span.end > row.label_span.start:
        return False
    return _VERSION.search(case.source[before.span.end : row.label_span.start]) is not None


def _one_row_in_two(row: Row, before: Row) -> bool:
    """A second line for the same row: the number told again with nothing new to work."""
    return row.numbers == before.numbers and not row.steps


def _finding(part: Part, row: Row, before: Row, again: list[int]) -> Finding:
    noun = "Rnd" if row.noun == "round" else "Row"
    label = f"{noun} {again[0]}" if len(again) == 1 else f"{noun}s {again[0]}-{again[-1]}"
    verb = "is" if len(again) == 1 else "are"
    notes = ((_label(before), "first used here"),)
    earlier = f"“{before.label or noun}” has used {'number' if len(again) == 1 else 'the numbers'} {_range(again)}"
    working = (f"{earlier}; “{row.label or noun}” uses {'it' if len(again) == 1 else 'them'} again.",)
    return in_text(
        RULE, _label(row), f"{label} {verb} numbered a second time.", part=part, notes=notes, working=working, row=f"{noun} {again[0]}",
        number=again[0],
    )  # fmt: skip


def _range(numbers: list[int]) -> str:
    return str(numbers[0]) if len(numbers) == 1 else f"{numbers[0]} to {numbers[-1]}"


def _label(row: Row) -> Span:
    return row.label_span if row.label_span.end > row.label_span.start else row.span


RULE = Rule("row-number-doubled", "error", check)
