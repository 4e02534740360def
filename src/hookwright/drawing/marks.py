"""What an engraved chart is made of: marks (one for each stitch and chain), and the words and lines round them. Millimetres, y down."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from .narrowing import Cut
from .shapes import Capsule, Shape, placed


class Mark(NamedTuple):
    """One symbol. `glyph`: the name of its drawing in `Chart.glyphs`; `kind`: the stitch id it shows (as seen from the right side);
    `angle_deg` clockwise; `row`: index of its row in the part; `stitch`: index of its element in the row; `yarn`: index of its colour."""

    glyph: str
    kind: str
    x: float
    y: float
    angle_deg: float
    row: int
    stitch: int
    yarn: int


class Ties(NamedTuple):
    """What a mark has to do with others, and where on paper: its top, and each place it stands on as (row, element) → point.

    All stitches in one space stand on the space's first chain; a chain touches the stitches it hangs between."""

    top: tuple[float, float]
    feet: tuple[tuple[tuple[int, int], tuple[float, float]], ...]


class Label(NamedTuple):
    """Words. `what`: "row", "gap", "part", "key", "note"; `tone`: "ink" or "quiet"; `row`: the row it names."""

    words: str
    x: float
    y: float
    size_mm: float
    anchor: str
    what: str
    row: int | None = None
    bold: bool = False
    angle_deg: float = 0.0


class Ghost(NamedTuple):
    """A symbol of another piece, shown in grey where this one is joined to it or worked on it; drawn outright, it counts nowhere."""

    shape: Shape
    x: float
    y: float
    angle_deg: float


class Stroke(NamedTuple):
    """A line or shape that is no stitch: arrow, bracket, ring, break. `d`: path data; `filled`; `dashed`; `box`: its left, top, right and
    bottom, for what may stand outside everything else."""

    d: str
    what: str
    filled: bool = False
    dashed: bool = False
    weight_mm: float = 0.2
    box: tuple[float, float, float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Rows left out of the drawing: `rows` are indexes in the part; what each holds is told in `words`.

    `like`: where whole repeats are left out, the rows of the one drawn before them; empty where every row is told by its stitches."""

    rows: tuple[int, ...]
    words: str
    like: tuple[int, ...] = ()


@dataclass(slots=True, kw_only=True)
class Chart:
    """An engraved chart, placed and ready for any output. `box`: x, y, width, height of everything drawn."""

    part: int
    title: str
    form: str
    handed: str
    cross: str
    terms: str = "US"
    marks: list[Mark] = field(default_factory=list)
    ties: list[Ties] = field(default_factory=list)
    """One for each mark."""
    glyphs: dict[str, Shape] = field(default_factory=dict)
    key: list[tuple[str, float, float]] = field(default_factory=list)
    """The key's symbols: markup, x, y."""
    labels: list[Label] = field(default_factory=list)
    strokes: list[Stroke] = field(default_factory=list)
    ghosts: list[Ghost] = field(default_factory=list)
    others: dict[str, None] = field(default_factory=dict)
    """What `ghosts` show, as the key says it, in order."""
    gaps: list[Gap] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    """Stretches of wide rows that are told in words."""
    yarns: tuple[str, ...] = ("",)
    letters: tuple[str, ...] = ("",)
    """What stands beside a row's number for each yarn: its own letter, or one given to it when the pattern calls it by a word."""
    yarn_numbers: dict[str, int] = field(default_factory=dict)
    """Place in `yarns` of every colour of the fabric ("" where none is named)."""
    yarn_words: tuple[str, ...] = ("",)
    """What the key says of each yarn."""
    row_labels: dict[int, str] = field(default_factory=dict)
    described: str = ""
    box: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)
    options: dict[str, str] = field(default_factory=dict)
    """What `draw` was asked for, so that a chart can be counted back by drawing it again."""

    def body(self, mark: Mark) -> list[Capsule]:
        """The ink of a mark, in place."""
        return placed(self.glyphs[mark.glyph].body, mark.x, mark.y, mark.angle_deg)

    def bodies(self) -> Iterator[list[Capsule]]:
        """The ink of every mark and of what is shown of other pieces."""
        for mark in self.marks:
            yield self.body(mark)
        for ghost in self.ghosts:
            yield placed(ghost.shape.body, ghost.x, ghost.y, ghost.angle_deg)
