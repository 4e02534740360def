"""Text → Pattern: lining out, wording, phrasing, in this order. Never raises; what is not understood is kept as unread, with its place."""

from __future__ import annotations

from dataclasses import replace

from ..pattern import LIMITS, Pattern, Span, Trouble


def read(text: str, *, before: Pattern | None = None) -> Pattern:
    """The pattern that `text` is (Markdown with or without YAML front matter, or bare text).

    Never raises: words that are not understood become `Unread` steps and typed troubles. Spans are code points into `text` as given.
    `before`: the pattern of an earlier state of the same text; only a hint, rows that are the same are not read again.

    >>> read("Row 1: Ch 5, sc in 2nd ch from hook and in each ch across. (4 sc)").parts[0].rows[0].label
    'Row 1'
    """
    del before  # rows are remembered by their words and context, which serves the same end
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


def _read(text: str) -> Pattern:
    from .assemble import Assembly

    try:
        return Assembly(text).pattern()
    except RecursionError:
        return Pattern(
            source=text, troubles=(Trouble(kind="too-long", span=Span(0, len(text)), message="this text is nested too deeply to be read"),)
        )
