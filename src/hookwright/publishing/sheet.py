"""Everything a published pattern says, as plain data in reading order. Booklet, page and plain text all set this, so they cannot differ."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

Terms: TypeAlias = Literal["US", "UK"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """One instruction. `anchor` names it in every output; `rows` how many rows it covers (0 for an instruction that is no row)."""

    anchor: str
    label: str
    words: str
    count: str
    steps: tuple[str, ...] = ()
    """The words step by step; joined they are `words`."""
    rows: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart:
    anchor: str
    heading: str
    rows: tuple[SheetRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Short:
    """An abbreviation: its meaning, and what the other terms call it where they differ."""

    short: str
    meaning: str
    other: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table with a header row; the first column names its row."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A drawing. `file` its name without ending; `mirror` the same for a left-hander, where it differs."""

    kind: Literal["chart", "schematic"]
    file: str
    title: str
    alt: str
    svg: str
    width_mm: float
    height_mm: float
    mirror: str = ""
    caption: str = ""
    """The sentence printed below it; `alt` says everything for those who do not see it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A photograph as published (JPEG). `row` the row it shows, "" for the piece."""

    file: str
    alt: str
    row: str
    data: bytes = field(repr=False)
    width_px: int
    height_px: int

    @property
    def caption(self) -> str:
        return f"{self.row}: {self.alt}" if self.row else self.alt


@dataclass(frozen=True, slots=True, kw_only=True)
class Aloud:
    """The words for a reader of screens: whole words, one size (named in `size` where there are several)."""

    size: str
    gauge: tuple[str, ...]
    specials: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    parts: tuple[SheetPart, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """The words of one set of terms."""

    terms: Terms
    gauge: tuple[str, ...]
    abbreviations: tuple[Short, ...]
    specials: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    parts: tuple[SheetPart, ...]
    sizes: tuple[tuple[str, Mapping[str, SheetRow]], ...] = ()
    """Of a pattern in several sizes: size name → the rows as that size alone works them, by anchor."""
    drawings: tuple[Drawn, ...] = ()
    """Charts and schematics, their words in these terms."""
    aloud: tuple[Aloud, ...] = ()
    choices: Table | None = None
    """Wider, longer, another gauge; None where it was not asked."""

    @property
    def gauge_word(self) -> str:
        return "Gauge" if self.terms == "US" else "Tension"

    @property
    def other(self) -> Terms:
        return "UK" if self.terms == "US" else "US"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A published pattern. `stamp` is on every output: the version, and a figure that changes with any word or count of it."""

    title: str
    designer: str
    version: str
    stamp: str
    language: str
    terms: Terms
    """The terms shown first."""
    description: str = ""
    level: str = ""
    skills: tuple[str, ...] = ()
    measures: Table | None = None
    materials: tuple[tuple[str, str], ...] = ()
    """Pairs of what and which: ("Hook", "5 mm (US H-8)")."""
    yarns: Table | None = None
    finishing: tuple[str, ...] = ()
    care: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    rights: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    """The designer's own notes, as written."""
    editions: Mapping[Terms, Edition] = field(default_factory=dict)
    hero: Drawn | None = None
    """The drawing of the title page, where there is no photograph of the piece."""
    photos: tuple[Photo, ...] = ()

    @property
    def portrait(self) -> Photo | None:
        """The photograph of the piece as a whole."""
        return next((photo for photo in self.photos if not photo.row), None)

    @property
    def edition(self) -> Edition:
        return self.editions[self.terms]

    @property
    def line(self) -> str:
        """The line that stands at the foot of everything."""
        return f"{self.title} · {self.stamp}"
