"""What the records give out: plain frozen values, no rows of a database."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

LogKind: TypeAlias = Literal["row", "ripped", "grams", "minutes", "hook", "note"]
KINDS: tuple[LogKind, ...] = ("row", "ripped", "grams", "minutes", "hook", "note")


class RecordsTrouble(Exception):
    """The records cannot be read or written just now; the message is a sentence for the maker."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """A pattern's text at one moment (`at`: UTC seconds). `counts`: row label with part → its count in words."""

    id: int
    pattern: str
    at: float
    why: str
    text: str = ""
    counts: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class LogEntry:
    """One thing told at the hook.

    "row": row number `row` is done, `value` its stitches when counted, `words` how it was worked when told; "ripped": back to `row`;
    "grams": the scale shows `value`; "minutes": `value` minutes worked; "hook": now `value` mm; "note": `words`.
    """

    kind: LogKind
    at: float
    id: int = 0
    row: int | None = None
    value: float | None = None
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SwatchRecord:
    """A swatch as measured: so many stitches and rows of `stitch`, its size in cm, its weight in grams, where known."""

    stitch: str
    stitches: float
    rows: float
    at: float
    id: int = 0
    yarn: str = "A"
    width_cm: float | None = None
    height_cm: float | None = None
    grams: float | None = None
    hook_mm: float | None = None
    words: str = ""
