"""What is told about the words under the pointer: a row's count, a step's stitches, a term's meaning."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass

from ..pattern import Node, Part, Row, Span
from ..trade.stitches import how_to, stitch
from ..trade.terms import System, abbr, kind_of, name
from ..working import RowWork
from .document import Session
from .glossary import meaning, words_at
from .tally import said


@dataclass(frozen=True, slots=True, kw_only=True)
class Hover:
    """A small card: `head` in a few words, `lines` below it, for the words of `span`."""

    span: Span
    head: str
    lines: tuple[str, ...] = ()


def hover(session: Session, point: int) -> Hover | None:
    """What is known about the code point `point`; None where there is nothing to say."""
    found = session.row_at(point)
    if found is not None:
        part, row = found
        if row.label_span.start <= point <= row.label_span.end and row.label_span.end > row.label_span.start:
            return _row_card(session, part, row)
        term = term_card(session.text, point, part.terms)
        step = _step_card(session, part, row, point)
        if term and step:
            return Hover(span=term.span, head=term.head, lines=(*term.lines, "—", step.head, *step.lines))
        return term or step
    return term_card(session.text, point, session.read.terms)


def _row_card(session: Session, part: Part, row: Row) -> Hover:
    works = [done for _, done in session.worked(row)]
    if not works:
        return Hover(span=row.label_span, head=row.label, lines=("Not worked in this size.",))
    shown = works if len(works) <= 6 else [*works[:3], *works[-2:]]
    lines = [_row_line(done, part.terms) for done in shown]
    if len(works) > len(shown):
        lines.insert(3, f"… {len(works) - len(shown)} more")
    return Hover(span=row.label_span, head=f"{part.name + ' · ' if part.name else ''}{row.label}", lines=tuple(lines))


def _row_line(done: RowWork, terms: System) -> str:
    offered = "" if done.offered is None else f"; offered {done.offered}, used {done.used}"
    doubt = {"differs": " — not the count stated", "unread": " — not understood", "assumed": " — assumed"}.get(done.state, "")
    return f"{done.label}: {said(done.counted.by_kind, terms)}{offered}, {done.side}{doubt}"


def _step_card(session: Session, part: Part, row: Row, point: int) -> Hover | None:
    nodes = [node for node in nodes_of(row) if node.span.start <= point < node.span.end]
    if not nodes:
        return None
    node = min(nodes, key=lambda node: node.span.end - node.span.start)
    lines = []
    inside = {node.id} | {inner.id for inner in nodes_of(node)}
    for done in [done for _, done in session.worked(row)][:3]:
        made = Counter(done.stitches.name(i) for i in range(len(done.stitches)) if done.stitches.step[i] in inside)
        if made:
            lines.append(f"{done.label}: makes " + ", ".join(f"{count} {abbr(kind, part.terms)}" for kind, count in made.items()))
    return Hover(span=node.span, head=f"“{' '.join(node.span.of(session.text).split())[:80]}”", lines=tuple(lines)) if lines else None


def step_span(row: Row, step: int) -> Span | None:
    """The words of the step with this id, in a row; None when the row has no such step."""
    return next((node.span for node in nodes_of(row) if node.id == step and node.span.end > node.span.start), None)


def nodes_of(holder: object) -> Iterator[Node]:
    """Every step below a row or a step, itself left out."""
    if not is_dataclass(holder):
        return
    for field in fields(holder):
        yield from _nodes_in(getattr(holder, field.name))


def _nodes_in(value: object) -> Iterator[Node]:
    if isinstance(value, tuple):
        for item in value:
            yield from _nodes_in(item)
    elif isinstance(value, Node):
        yield value
        yield from nodes_of(value)


def term_card(text: str, point: int, terms: System) -> Hover | None:
    """What the word at `point` means in these terms: a stitch with how it is worked, or another word of the craft."""
    for phrase, low, high in words_at(text, point):
        kind = kind_of(phrase, terms)
        if kind is not None:
            return Hover(span=Span(low, high), head=f"{abbr(kind, terms)}: {name(kind, terms)}", lines=_stitch_lines(kind, terms))
        told = meaning(phrase)
        if told:
            return Hover(span=Span(low, high), head=told[0], lines=(told[1],))
    return None


def _stitch_lines(kind: str, terms: System) -> tuple[str, ...]:
    other: System = "UK" if terms == "US" else "US"
    lines = []
    if name(kind, other) != name(kind, terms):
        lines.append(f"In {other} terms: {abbr(kind, other)} ({name(kind, other)})")
    moves = how_to(kind)
    if moves:
        lines.append("; ".join(moves).capitalize() + ".")
    known = stitch(kind)
    if known and known.turning_chain:
        counts = {"yes": "usually counts as a stitch", "no": "does not usually count", "varies": "counts or not, by the pattern"}
        lines.append(f"Turning chain by custom: {known.turning_chain}; {counts.get(known.counts or '', 'see the pattern')}.")
    return tuple(lines)
