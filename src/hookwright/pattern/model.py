"""The pattern as written: facts, parts, rows. What reading and drafting produce and everything else takes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from .facts import Facts
from .nodes import Step
from .sizes import Sized
from .spans import NOWHERE, Span

SeamKind: TypeAlias = Literal["told", "motifs", "fold", "tube", "base", "edges", "attached"]
MadeIn: TypeAlias = Literal["rows", "joined", "joined-turned", "spiral", "passes"]
FLAT: tuple[MadeIn, ...] = ("rows", "passes")
"""Worked to and fro, not round and round."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """One number the pattern states at a row's end.

    `kind`: "st" (the noun is st/sts or missing), a stitch id, "ch-2 sp", "sp", "shell" …, translated to US ids. `per`: "" for the whole
    row, else "side", "repeat", "section". `change`: +n / −n told instead of a total. `chains`: chains told to be included. `approximate`.
    """

    number: Sized[int]
    kind: str = "st"
    per: str = ""
    change: bool = False
    chains: bool | None = None
    turning_chain: bool | None = None
    approximate: bool = False
    running: bool = False
    """A count in the middle of the row ("33 sts so far"): never the row's total."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One instruction as written: a row, a round, or a range of them.

    `label` as it stands in the text ("Rows 4-26", "2nd row"), normalised noun first ("Row 2", "Rnd 4", "Foundation", "Next row");
    `numbers` the rows it covers, in order, for each size (one tuple when equal for all); empty when the label has no number.
    `rows_count`: for "Next 3 rows" and "repeat … 9 times" rows without numbers. `side` as told ("RS"/"WS").
    `until`: told instead of a number ("until 6 sts remain", "until piece measures 9 in").
    """

    id: int
    label: str
    numbers: tuple[tuple[int, ...], ...] = ()
    rows_count: Sized[int] | None = None
    made_in: MadeIn = "rows"
    noun: Literal["row", "round"] = "row"
    side: Literal["RS", "WS"] | None = None
    steps: tuple[Step, ...] = ()
    stated: tuple[Count, ...] = ()
    until: Until | None = None
    only: frozenset[int] | None = None
    span: Span = field(default=NOWHERE, compare=False)
    label_span: Span = field(default=NOWHERE, compare=False)

    def numbers_at(self, size: int) -> tuple[int, ...]:
        """The row numbers this instruction covers in `size`."""
        if not self.numbers:
            return ()
        return self.numbers[min(size, len(self.numbers) - 1)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Until:
    """A run of rows with no number: until so many stitches remain, or the piece measures so much."""

    stitches: Sized[int] | None = None
    what: str = "st"
    """What `stitches` counts: stitches, spaces ("until 1 loop remains") or tiles of a piece worked from corner to corner."""
    length_cm: Sized[float] | None = None
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A piece or a section: "Body", "Sleeve (make 2)". `continues`: worked on from the part before, the yarn not cut."""

    name: str
    of: str = ""
    """The heading above it, where that piece is told in several headed sections ("Body" of "BACK")."""
    copies: Sized[int] = Sized((1,))
    rows: tuple[Row, ...] = ()
    terms: Literal["US", "UK"] = "US"
    only: frozenset[int] | None = None
    continues: bool = False
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Special:
    """A stitch or group the pattern defines: its name as an id, its words, what it is made of (empty = only described)."""

    name: str
    steps: tuple[Step, ...] = ()
    counts: int = 1
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """Pieces (or edges of one) joined, as one sentence tells it.

    `kind`: "motifs" (many copies laid out in `rows` of `across`), "fold" (one piece folded in half, `edges` closed), "tube" (a piece's ends
    or sides joined to each other), "base" (a bottom to the rim of another piece), "edges" (piece to piece along `edges`), "attached" (one
    piece set on another), "told" (anything else: words only). `parts`: the parts named, as they are called in the pattern, in the order
    told; `number` the pieces told in all; `how`: "sewn", "whipstitch", "mattress stitch", or a stitch id ("sc", "sl st").
    """

    words: str
    kind: SeamKind = "told"
    parts: tuple[str, ...] = ()
    edges: tuple[str, ...] = ()
    """"sides", "shoulders", "bottom", "top", "ends", "long edges", "all round"; "lengthwise" where a fold is told to run so."""
    rows: int | None = None
    across: int | None = None
    number: int | None = None
    how: str = "sewn"
    meets: tuple[str, ...] = ()
    """For each of `parts`, where told, the edge that is joined: "first" row, "last" row, or "side"."""
    eased: bool = False
    """Whether the words themselves say that one edge is longer: eased in, gathered, stretched, left open in part."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Something reading noticed, typed, for proofing to judge. `kind` is a short id ("unread", "sizes-unequal", "yaml", "typo" …)."""

    kind: str
    span: Span
    message: str
    data: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A whole pattern. `source` is the text every span slices; a drafted pattern has `source` "" and NOWHERE spans."""

    source: str = ""
    language: str = "en"
    terms: Literal["US", "UK"] = "US"
    terms_because: str = ""
    facts: Facts = field(default_factory=Facts)
    defined: Mapping[str, Special] = field(default_factory=dict)
    parts: tuple[Part, ...] = ()
    seams: tuple[Seam, ...] = ()
    notes: tuple[Span, ...] = ()
    """Prose set aside: tips, captions, materials."""
    troubles: tuple[Trouble, ...] = ()

    @property
    def sizes(self) -> int:
        """How many sizes the pattern has (at least 1)."""
        return max(1, len(self.facts.size_names))
