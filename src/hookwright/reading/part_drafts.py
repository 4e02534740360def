"""What the drafts of a part's rows tell before a word of them is read: whether it goes on from the part before, which labels follow."""

from __future__ import annotations

import re

from ..pattern import Refer, Row, Sized, Step
from .lining.labels import Label
from .lining.layout import PartDraft, RowDraft
from .lining.splitting import BEGUN_ANEW


def goes_on(text: str, draft: PartDraft) -> bool:
    """A part whose first row has a number above 1 goes on from the part before, unless it begins with a chain or ring of its own."""
    first = next((row for row in draft.rows[:3] if row.label is not None), None)
    if first is None or first.label is None or not first.label.numbers or not first.label.numbers[0] or first.label.numbers[0][0] < 2:
        return False
    before = text[draft.rows[0].start : first.label.start]
    return not _FOUNDS.search(text[first.start : first.end]) and not _BEGUN.search(before)


_FOUNDS = re.compile(r"(?i)from (?:the )?hook|\bring\b|\bmr\b|magic|\bch(?:ain)? ?\d{2}\b(?!,? (?:and )?(?:skip|sk|miss)\b)")
"""Words that begin a piece of its own; a chain over skipped stitches does not."""
_BEGUN = re.compile(r"(?i)\bch(?:ain)?\s?(?:of\s)?\d|\d\s?ch\b|magic|\bring\b")
"""The same above its first label."""


def edges_on(text: str, draft: PartDraft) -> bool:
    """An edge without a chain or ring of its own: along what was last made."""
    if not _EDGE.search(draft.heading) or not draft.rows:
        return False
    told = text[draft.rows[0].start : draft.rows[-1].end]
    return not _FOUNDS.search(told) and not _BEGUN.match(told)


_EDGE = re.compile(r"(?i)\b(?:border|edge|edging|trim|trimming|rim|brim|frill|hem|cuff)\b")


def above_first(text: str, draft: PartDraft) -> tuple[str, ...]:
    """The heading of a part, and what stands between it and the first label where that is no row: "Centre: work on the far side"."""
    first = draft.rows[0].label if draft.rows else None
    between = text[draft.start : first.start] if first is not None else ""
    return (draft.heading, between) if between.strip() != draft.heading and len(between) <= MOST_ABOVE else (draft.heading,)


MOST_ABOVE = 200
"""Characters between a heading and the first label that may tell where the piece begins, at most (ours)."""


def only_numbered(text: str, draft: PartDraft) -> bool:
    """Whether its rows are opened by bare numbers, which say neither row nor round."""
    labels = [row.label for row in draft.rows if row.label is not None]
    return all(not re.search(r"[A-Za-z]", text[label.start : label.label_end or label.end]) for label in labels)


def following(draft: PartDraft) -> list[Label | None]:
    """For every draft, the next label after it that has a number."""
    found: list[Label | None] = []
    after: Label | None = None
    for one in reversed(draft.rows):
        found.append(after)
        if one.label and one.label.numbers and one.label.numbers[0]:
            after = one.label
    found.reverse()
    return found


def free_to_go_on(label: Label, rows: Sized[int], after: Label | None) -> bool:
    """Whether so many rows told of one number ("Rnds 9+: sc around, 9 rounds") run into no label that comes after."""
    if label.kind != "number" or len(label.numbers) != 1 or len(label.numbers[0]) != 1:
        return False
    return after is None or label.open_end or after.numbers[0][0] >= label.numbers[0][0] + (rows.values[0] or 1)


def begun_anew(text: str, at: int) -> bool:
    """Whether the piece begins with its chain here, behind a stitch that was told first, for any length."""
    return any(match.end() == at for match in BEGUN_ANEW.finditer(text, max(0, at - 60), at + 120))


def between_numbered(draft: PartDraft, k: int, before: int, after: Label | None, many: Sized[int] | None) -> tuple[tuple[int, ...], ...]:
    """The numbers of rows that stand unnumbered between Row 5 and Row 7, where they are just so many: "Work 1 row plain." is Row 6."""
    rows = 1 if many is None else None if many.many else many.values[0]
    if not rows or not before or after is None or after.numbers[0][0] != before + rows + 1:
        return ()
    if draft.rows[k + 1].label is not after or k == 0 or draft.rows[k - 1].label is None:
        return ()
    return (tuple(range(before + 1, before + rows + 1)),)


def first_by_reference(steps: tuple[Step, ...]) -> bool:
    """ "Ch 15, work same as 1st row of back." before a 2nd row: one row of another piece, told for this one's first."""
    told = [step for step in steps if isinstance(step, Refer)]
    return len(told) == 1 and told[0].part is not None and len(told[0].rows) == 1


def labelled(rows: list[Row], draft: PartDraft) -> list[tuple[Row, RowDraft]]:
    """The rows that stand under a label of their own, each with its draft."""
    by_start = {one.label.start: one for one in draft.rows if one.label is not None}
    return [
        (row, by_start[row.label_span.start])
        for row in rows
        if row.label_span.start in by_start and row.label_span.end > row.label_span.start
    ]


WANTS_CHAIN = re.compile(
    r"(?i)(?!\s*(?:(?:with|using)\s[\w ]{1,20},?\s)?(?:ch(?:ain)?\s?\d|make|magic|mr\b|work\s\d+\sch))"
    r"(?:[^\n]{0,90}?\b(?:from\s(?:the\s|your\s)?hook|(?:each|every|next|rem\w*)\sch(?:ain)?)\b|\s*(?:miss|skip|sk)\s(?:\d|two|three|four|five)\b)"
)
"""A first row that stands on a chain told elsewhere."""
