"""What a rule is, and what it is given to look at."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, NamedTuple

from ...pattern import Edit, Finding, Part, Pattern, Repair, Severity, Span, Step, Trouble
from ...trade.terms import spelled
from ...working import Fabric, PartWork, RowTrouble, RowWork

Terms = Literal["US", "UK"]


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: its name (its identity, for ever), and the check that yields its findings. Its page is the docstring of its module."""

    name: str
    severity: Severity
    """The severity of its gravest finding."""
    check: Callable[[Case], Iterable[Finding]]


class At(NamedTuple):
    """Where a worked row stands: the fabric, the part, the row."""

    fabric: Fabric
    part: PartWork
    row: RowWork
    terms: Terms

    @property
    def name(self) -> str:
        """The row's name in a sentence: "Row 4", "The first row"."""
        return self.row.label or "This row"

    def below(self) -> RowWork | None:
        """The row that was offered to this one."""
        at = self.row.below
        return None if at is None or not 0 <= at < len(self.part.rows) else self.part.rows[at]

    @property
    def firm(self) -> bool:
        """Whether a flaw in this row can be proved: the row was read whole, and so was the row it stands on, which itself fits.

        A row on an unread one is sure only of what that one states; a row on one that does not fit is its follower; and
        where rows are worked "until it measures …" without a count, what they end with is not told.
        """
        if self.row.read != "whole" or self.row.worked == "assumed":
            return False
        below = self.below()
        if below is None or below.foundation:
            return True
        if below.worked == "unworkable" or (below.written.until is not None and not below.stated):
            return False
        return (below.read == "whole" and below.state not in ("assumed", "unread")) or bool(below.stated)

    def next(self) -> RowWork | None:
        """The row worked into this one."""
        return next((row for row in self.part.rows[self.row.index + 1 :] if row.below == self.row.index), None)


class Case:
    """A pattern and the fabrics worked from it, one for each size."""

    def __init__(self, pattern: Pattern, fabrics: Sequence[Fabric]) -> None:
        self.pattern = pattern
        self.fabrics = tuple(fabrics)

    @property
    def source(self) -> str:
        """The text that every span slices."""
        return self.pattern.source

    def worked(self) -> Sequence[At]:
        """Every worked row of every size."""
        return self._worked

    @cached_property
    def _worked(self) -> tuple[At, ...]:
        return tuple(
            At(fabric, part, row, terms)
            for fabric in self.fabrics
            for index, part in enumerate(fabric.parts)
            for terms in (self._terms(index, part),)
            for row in part.rows
        )

    def troubled(self, *kinds: str) -> Iterator[tuple[At, RowTrouble]]:
        """Every trouble of these kinds that working noticed, with its row."""
        wanted = frozenset(kinds)
        return ((at, trouble) for at, trouble in self._troubles if trouble.kind in wanted)

    def noticed(self, *kinds: str) -> Iterator[Trouble]:
        """Every trouble of these kinds that reading noticed."""
        return (trouble for trouble in self.pattern.troubles if trouble.kind in kinds)

    def loose(self, *kinds: str) -> Iterator[tuple[Fabric, RowTrouble]]:
        """Troubles of working that belong to no single row."""
        return ((fabric, trouble) for fabric in self.fabrics for trouble in fabric.troubles if trouble.kind in kinds)

    @cached_property
    def _troubles(self) -> tuple[tuple[At, RowTrouble], ...]:
        return tuple((at, trouble) for at in self.worked() if at.row.troubles for trouble in at.row.troubles)

    def step(self, number: int) -> Step | None:
        """The step of that id, where it stands in a row itself (not inside another step)."""
        return self._steps.get(number)

    @cached_property
    def _steps(self) -> dict[int, Step]:
        return {step.id: step for part in self.pattern.parts for row in part.rows for step in row.steps}

    def _terms(self, index: int, worked: PartWork) -> Terms:
        parts = self.pattern.parts
        if index < len(parts) and parts[index].name == worked.name:
            return parts[index].terms
        return next((part.terms for part in parts if part.name == worked.name), self.pattern.terms)


def at_row(
    rule: Rule,
    at: At,
    span: Span,
    message: str,
    *,
    working: Iterable[str] = (),
    notes: tuple[tuple[Span, str], ...] = (),
    repair: Repair | None = None,
    severity: Severity | None = None,
) -> Finding:
    """A finding in a worked row. Stitch ids in braces (`{dc}`) are written in the terms of the row's part.

    It stands in the row's own words: where the flaw lies in those of another row that this one repeats, at the words that repeat it.
    """
    own = at.row.written.span
    if not own.start <= span.start <= own.end and own.end > own.start:
        span = own
    return Finding(
        rule=rule.name,
        severity=severity or rule.severity,
        span=span,
        message=spelled(message, at.terms),
        working=tuple(spelled(line, at.terms) for line in working),
        notes=notes,
        repair=repair,
        part=at.part.name,
        row=at.row.label,
        number=at.row.number,
        size=at.fabric.size,
    )


def in_text(
    rule: Rule,
    span: Span,
    message: str,
    *,
    part: Part | None = None,
    working: Iterable[str] = (),
    notes: tuple[tuple[Span, str], ...] = (),
    repair: Repair | None = None,
    severity: Severity | None = None,
    row: str | None = None,
    number: int | None = None,
) -> Finding:
    """A finding in the text, whatever the size. Stitch ids in braces are written in the terms of the part."""
    terms: Terms = "US" if part is None else part.terms
    return Finding(
        rule=rule.name,
        severity=severity or rule.severity,
        span=span,
        message=spelled(message, terms),
        working=tuple(spelled(line, terms) for line in working),
        notes=notes,
        repair=repair,
        part=None if part is None else part.name,
        row=row,
        number=number,
    )


def replace(span: Span, text: str, title: str, grade: Literal["shown", "asked", "safe"]) -> Repair:
    """A repair of one edit."""
    return Repair(grade=grade, title=title, edits=(Edit(span, text),))


def plural(number: int, one: str, many: str | None = None) -> str:
    """A number with its noun.

    >>> plural(1, "stitch", "stitches"), plural(3, "place"), plural(0, "place")
    ('1 stitch', '3 places', '0 places')
    """
    return f"{number} {one}" if number == 1 else f"{number} {many or one + 's'}"
