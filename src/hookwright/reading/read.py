"""Text → Pattern: lining out, wording, phrasing, in this order. Never raises; what is not understood is kept as unread, with its place."""

from __future__ import annotations

from dataclasses import replace

from ..pattern import LIMITS, Pattern, Row, Span, Trouble


def read(text: str, *, before: Pattern | None = None) -> Pattern:
    """The pattern that `text` is (Markdown with or without YAML front matter, or bare text).

    Never raises: words that are not understood become `Unread` steps and typed troubles. Spans are code points into `text` as given.
    `before`: the pattern of an earlier state of the same text; only a hint: rows that stand where they stood are its very rows again.
    What decides a row is its words and its context, and readings are remembered by these, so that an edit costs its own rows.

    >>> read("Row 1: Ch 5, sc in 2nd ch from hook and in each ch across. (4 sc)").parts[0].rows[0].label
    'Row 1'
    """
    if before is not None:
        return kept(_bounded(text), before)
    return _bounded(text)


def _bounded(text: str) -> Pattern:
    if len(text) > LIMITS.source:
        short = text[: LIMITS.source]
        pattern = _read(short)
        trouble = Trouble(
            kind="too-long",
            span=Span(LIMITS.source, len(text)),
            message=f"only the first {LIMITS.source:,} characters were read",
            data={"limit": LIMITS.source},
        )
        return replace(pattern, source=text, troubles=(*pattern.troubles, trouble))
    return _read(text)


def kept(pattern: Pattern, before: Pattern) -> Pattern:
    """The same pattern, with the very rows of `before` where nothing about them has changed (their places neither)."""
    old = {row.span: row for part in before.parts for row in part.rows}
    parts = []
    for part in pattern.parts:
        rows = tuple(
            known if (known := old.get(row.span)) is not None and known is not row and _same(row, known) else row for row in part.rows
        )
        parts.append(replace(part, rows=rows))
    return replace(pattern, parts=tuple(parts))


def _same(row: Row, known: Row) -> bool:
    """Equal, places and all: steps and counts that were placed alike are the same objects."""
    return (
        row.steps is known.steps
        and row.label_span == known.label_span
        and len(row.stated) == len(known.stated)
        and all(a is b for a, b in zip(row.stated, known.stated, strict=True))
        and row == known
        and (row.until is None or known.until is None or row.until.span == known.until.span)
    )


def _read(text: str) -> Pattern:
    from .assemble import Assembly

    return Assembly(text).pattern()
