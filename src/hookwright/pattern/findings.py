"""What proofing reports, and the only way a file changes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from .spans import Span

Severity: TypeAlias = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True)
class Edit:
    """Replace the text of `span` by `text`."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """A cure. `shown`: only told; `asked`: done on request; `safe`: same piece, comments kept. `title` says it in a sentence."""

    grade: Literal["shown", "asked", "safe"]
    title: str
    edits: tuple[Edit, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing a maker should look at. `working` is the arithmetic, a line a step."""

    rule: str
    severity: Severity
    span: Span
    message: str
    working: tuple[str, ...] = ()
    notes: tuple[tuple[Span, str], ...] = ()
    repair: Repair | None = None
    part: str | None = None
    row: str | None = None
    number: int | None = None
    size: int | None = None


def apply_edits(source: str, edits: tuple[Edit, ...]) -> str:
    """The text with all edits made. Edits must not overlap; raises ValueError if they do."""
    last = len(source) + 1
    for edit in sorted(edits, key=lambda edit: edit.span.start, reverse=True):
        if edit.span.end > last:
            raise ValueError("two edits touch the same words")
        source = source[: edit.span.start] + edit.text + source[edit.span.end :]
        last = edit.span.start
    return source
