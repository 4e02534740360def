"""The sum behind a row, in the row's own words: what rules show as their working."""

from __future__ import annotations

from ...pattern import NOWHERE, Span
from .rule import At, plural

MOST_LINES = 14


def derivation(at: At, source: str) -> tuple[str, ...]:
    """A line for every step that takes a place or makes a stitch, and the total; a long row is shortened in the middle."""
    lines = [_line(words(source, step.span), step.took, step.made, step.so_far, step.note) for step in at.row.derivation]
    if len(lines) > MOST_LINES:
        left_out = len(lines) - MOST_LINES + 1
        lines = [*lines[: MOST_LINES // 2], f"… {left_out} more steps …", *lines[-MOST_LINES // 2 + 1 :]]
    return (*_offer(at), *lines)


def _offer(at: At) -> tuple[str, ...]:
    below = at.below()
    if below is None or at.row.offered is None:
        return ()
    name = "The foundation chain" if below.foundation else below.label
    return (f"{name} offers {plural(at.row.offered, 'place')}; {at.name} uses {at.row.used if at.row.used is not None else '?'}.",)


def _line(said: str, took: int, made: int, so_far: int, note: str) -> str:
    told = f"“{said}”" if said else "A step"
    tail = f" ({note})" if note and note not in said else ""
    if not took and not made:
        return f"{told}{tail or ': nothing to count'}"
    return f"{told} takes {took}, makes {made}: {so_far} so far{tail}"


def words(source: str, span: Span, most: int = 60) -> str:
    """The very words of a span on one line, shortened in the middle.

    >>> words("dc in next st", Span(0, 13)), words("", Span(0, 0))
    ('dc in next st', '')
    """
    if span == NOWHERE:
        return ""
    text = " ".join(span.of(source).split())
    return text if len(text) <= most else f"{text[: most - 20].rstrip()} … {text[-16:].lstrip()}"
