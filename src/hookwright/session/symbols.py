"""The document's outline: its parts and their rows."""

from __future__ import annotations

from dataclasses import dataclass

from ..pattern import Span
from .document import Session
from .tally import tallies


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """A part or a row: `name`, `detail` (its count), where it stands whole and where its name stands, and what is inside it."""

    name: str
    detail: str
    span: Span
    name_span: Span
    inside: tuple[Symbol, ...] = ()


def symbols(session: Session) -> tuple[Symbol, ...]:
    """Parts in the order of the text; a part without rows is left out."""
    counts = tallies(session)
    found = []
    for number, part in enumerate(session.read.parts):
        rows = tuple(
            Symbol(name=tally.label, detail=tally.full, span=_cover(tally.span, tally.label_span), name_span=tally.label_span)
            for tally in counts
            if tally.part == number
        )
        if rows:
            whole = Span(min(part.span.start, rows[0].span.start), max(part.span.end, rows[-1].span.end))
            title = part.name or session.read.facts.title or "Rows"
            found.append(
                Symbol(name=title, detail=f"{len(rows)} rows written", span=whole, name_span=Span(whole.start, whole.start), inside=rows)
            )
    return tuple(found)


def _cover(span: Span, inner: Span) -> Span:
    return Span(min(span.start, inner.start), max(span.end, inner.end)) if inner.end > inner.start else span
