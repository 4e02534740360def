"""Rows that one row's words hold besides it: a foundation of stitches, shaping for rows of its own, what is told after the yarn is cut."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from ..pattern import Count, FastenOff, Join, Make, Row, Span, Step, Turn, Unread, once
from ..pattern.walking import walk
from .phrases.shaping_rows import Block

if TYPE_CHECKING:
    from .assemble import Assembly


def rows_apart(assembly: Assembly, row: Row, blocks: list[Block]) -> list[Row]:
    """The row, and the rows that its words told with it, in order."""
    if not blocks and not _may_hold_more(row.steps):
        return [row]
    return [
        known
        for founded in _foundation_apart(assembly, row)
        for apart in _blocks_apart(assembly, founded, blocks)
        for ended in _end_apart(assembly, apart)
        for known in _unread_apart(assembly, ended)
    ]


@once
def _may_hold_more(steps: tuple[Step, ...]) -> bool:
    return any(type(step) in (FastenOff, Unread) or (type(step) is Make and step.at.where == "hook") for step in steps)


def _foundation_apart(assembly: Assembly, row: Row) -> list[Row]:
    """ "Row 1: 30 fsc. Ch 1, turn. Sc across.": the foundation stitches are a row, and Row 1 stands on them."""
    if not any(type(step) is Make and step.at.where == "hook" for step in row.steps):
        return [row]
    first = next((k for k, step in enumerate(row.steps) if isinstance(step, Make) and step.at.where == "hook"), None)
    turn = next((k for k, step in enumerate(row.steps) if isinstance(step, Turn) and not step.no), None)
    if (
        first is None
        or turn is None
        or turn < first
        or not any(type(step).__name__ in ("Make", "Repeat", "Together") for step in row.steps[turn + 1 :])
    ):
        return [row]
    before = row.steps[: turn + 1]
    end = before[-1].span.end
    assembly.row_ids += 1
    early = tuple(count for count in row.stated if count.span.end <= end)
    late = tuple(count for count in row.stated if count.span.end > end)
    base = replace(row, label="Foundation", numbers=(), steps=before, stated=early, span=Span(row.span.start, end))
    return [base, replace(row, id=assembly.row_ids, steps=row.steps[turn + 1 :], stated=late, span=Span(end, row.span.end))]


def moved(block: Block, by: int) -> Block:
    """The block, told so many characters further on."""
    until = block.until
    if until is not None:
        until = replace(until, span=Span(until.span.start + by, until.span.end + by))
    return replace(block, start=block.start + by, until=until)


def _blocks_apart(assembly: Assembly, row: Row, blocks: list[Block]) -> list[Row]:
    """ "Work 3 rows even, then dec 1 st at beg of next 4 rows.": the rows that have a shaping of their own."""
    rows = [row]
    for block in blocks:
        last = rows[-1]
        cut = next((k for k, step in enumerate(last.steps) if step.span.start >= block.start), None)
        if cut is None or cut == 0:
            continue
        assembly.row_ids += 1
        rows[-1] = replace(last, steps=last.steps[:cut], span=Span(last.span.start, block.start))
        rows.append(
            replace(
                last,
                id=assembly.row_ids,
                label="Next row",
                numbers=(),
                rows_count=block.rows,
                steps=last.steps[cut:],
                until=block.until,
                side=None,
                span=Span(block.start, last.span.end),
                label_span=Span(block.start, block.start),
            )
        )
        rows[-2] = replace(rows[-2], stated=())
    return rows


_WORKING = frozenset(("Make", "Together", "Repeat", "Unread", "Even"))


def _end_apart(assembly: Assembly, row: Row) -> list[Row]:
    """ "… across. Fasten off. Make a loop at each end: …": what is told after the yarn is cut is no part of the row."""
    cut = next((k for k, step in enumerate(row.steps) if type(step) is FastenOff), None)
    if cut is None or assembly.layout.wrapped or not any(type(step).__name__ in _WORKING for step in row.steps[:cut]):
        return [row]
    after = row.steps[cut + 1 :]
    sentence = assembly.text[row.steps[cut].span.end : row.span.end].lstrip()[:1] in (".", "")
    if not sentence or not any(type(step).__name__ in _WORKING for step in after):
        return [row]
    assembly.row_ids += 1
    end = row.steps[cut].span.end
    early = tuple(count for count in row.stated if count.span.end <= end or not any(c.span.end <= end for c in row.stated))
    late = tuple(count for count in row.stated if count not in early)
    return _parted(assembly, row, cut, (early, late))


def _parted(assembly: Assembly, row: Row, cut: int, stated: tuple[tuple[Count, ...], tuple[Count, ...]]) -> list[Row]:
    """The row as far as step `cut`, and what follows as a row of its own."""
    end = row.steps[cut].span.end
    rest = replace(
        row, id=assembly.row_ids, label="Next row", numbers=(), rows_count=None, steps=row.steps[cut + 1 :], stated=stated[1], until=None,
        side=None, span=Span(end, row.span.end), label_span=Span(end, end),
    )  # fmt: skip
    return [replace(row, steps=row.steps[: cut + 1], stated=stated[0], span=Span(row.span.start, end)), rest]


def _unread_apart(assembly: Assembly, row: Row) -> list[Row]:
    """ "…, join. (A sentence that was not understood.)": the round is closed before it, and known by itself."""
    first = next((k for k, step in enumerate(row.steps) if type(step) is Unread), 0)
    cut = next((k for k in range(first - 1, 0, -1) if type(row.steps[k]) in _CLOSES and _ends_sentence(assembly, row.steps[k])), None)
    if cut is None or row.until is not None or not any(type(step).__name__ in _WORKING for step in row.steps[:cut]):
        return [row]
    end = row.steps[cut].span.end
    if any(isinstance(step, Unread) for step in walk(row.steps[:cut])) or any(count.span.end > end for count in row.stated):
        return [row]
    assembly.row_ids += 1
    return _parted(assembly, row, cut, (row.stated, ()))


_CLOSES = (Join, Turn, FastenOff)


def _ends_sentence(assembly: Assembly, step: Step) -> bool:
    return assembly.text[step.span.end : step.span.end + 1] in (".", ";")
