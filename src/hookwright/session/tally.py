"""The running count that stands beside every row, as a maker would note it in the margin."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from ..pattern import Row, Span
from ..trade.terms import System, abbr
from ..working import RowWork, State
from ..working.round_the_edge import counted_by_nobody
from .document import Session

WORST: tuple[State, ...] = ("unread", "differs", "assumed", "agrees", "uncompared", "unstated")
"""Of the rows of a range, the first of these that occurs is shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """One written row's count. `text`: short ("28", "6 → 28"); `full`: a sentence's worth; `rows`: (part, row) indices in the fabric."""

    part: int
    part_name: str
    label: str
    span: Span
    label_span: Span
    text: str
    full: str
    state: State
    worked: str
    rows: tuple[tuple[int, int], ...]


def tallies(session: Session) -> tuple[Tally, ...]:
    """The count of every written row, in the order of the text, in the session's size."""
    by_span: dict[Span, list[tuple[int, RowWork]]] = {}
    for number, part in enumerate(session.fabric().parts):
        for done in part.rows:
            by_span.setdefault(done.written.span, []).append((number, done))
    found = []
    for number, written_part in enumerate(session.read.parts):
        for row in written_part.rows:
            rows = by_span.get(row.span, [])
            found.append(_tally(number, written_part.name, row, rows, written_part.terms))
    return tuple(found)


def _tally(number: int, part_name: str, row: Row, works: list[tuple[int, RowWork]], terms: System) -> Tally:
    counted = [(at, done) for at, done in works if not done.foundation] or works
    first, last = (counted[0][1], counted[-1][1]) if counted else (None, None)
    if first is None or last is None:
        text, full = "", "not worked in this size"
    elif last.foundation:
        text, full = "", "the foundation"
    elif all(counted_by_nobody(done) for _, done in counted):
        text, full = "", "as many as the edge takes"
    elif first.counted.total == last.counted.total:
        text, full = str(last.counted.total), said(last.counted.by_kind, terms)
    else:
        text, full = (
            f"{first.counted.total} → {last.counted.total}",
            f"{said(first.counted.by_kind, terms)} → {said(last.counted.by_kind, terms)}",
        )
    states = {done.state for _, done in counted}
    return Tally(
        part=number,
        part_name=part_name,
        label=row.label,
        span=row.span,
        label_span=row.label_span,
        text=text,
        full=full,
        state=next((state for state in WORST if state in states), "unread"),
        worked=_worst_worked(done.worked for _, done in counted),
        rows=tuple((at, done.index) for at, done in works),
    )


def _worst_worked(worked: Iterable[str]) -> str:
    there = set(worked)
    return next((word for word in ("unworkable", "two-readings", "assumed", "yes") if word in there), "no")


def said(by_kind: Mapping[str, int], terms: System) -> str:
    """Counts by kind in words, as a maker writes them: spaces by their chains, and not their chains again.

    >>> said({"dc": 12, "ch": 8, "ch-2 sp": 4, "sp": 4}, "UK"), said({"sc": 1, "ch-1 sp": 1}, "US"), said({}, "US")
    ('12 tr, 4 ch-2 sps', '1 sc, 1 ch-1 sp', 'nothing')
    """
    there = {kind: count for kind, count in by_kind.items() if count}
    if any(kind.startswith("ch-") for kind in there):
        there = {kind: count for kind, count in there.items() if kind not in ("ch", "sp")}
    return (
        ", ".join(f"{count} {abbr(kind, terms)}{'s' if kind.endswith(' sp') and count > 1 else ''}" for kind, count in there.items())
        or "nothing"
    )
