"""The worked fabric: every stitch, what it stands on, its row, side and colour; and what each row was offered and used.

A row's stitches are kept as arrays (`Stitches`), in the order they were worked, and shared by rows that are equal. "Element" below means
one entry of these arrays: a stitch, or one single chain. Rows are numbered from 0 in worked order inside their part.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import IntEnum
from itertools import compress
from typing import Literal, TypeAlias

from ..pattern import Count, MadeIn, Pattern, Row, Seam, Span

Side: TypeAlias = Literal["RS", "WS"]
Begins: TypeAlias = Literal["A", "B", "join", "spiral"]
State: TypeAlias = Literal["agrees", "differs", "unstated", "uncompared", "unread", "assumed"]
"""How a row stands to its stated count. "uncompared": it states one, of something that nobody could count in it ("5 petals"), or only one
so far, about, or for each repeat."""


class Role(IntEnum):
    """What an element is to its row."""

    STITCH = 0
    """A stitch: counts, offers its top."""
    CHAIN = 1
    """One chain inside the row: neighbours make a space; each is also a place by itself."""
    START = 2
    """A chain of the starting chain that nobody works into and nobody counts."""
    START_TOP = 3
    """The chain of a counted starting chain that stands for a stitch (`Stitches.stands` tells which): counts 1, offers its top."""
    JOIN = 4
    """The slip stitch that closes a round."""
    TRAVEL = 5
    """A slip stitch that only moves along; offers nothing."""
    FOUNDATION = 6
    """A chain of the foundation."""
    HANGING = 7
    """Worked into another element of the same row and closed on it (a picot's chains and slip stitch): offers nothing unless named."""


_COUNTED = bytes(role in (Role.STITCH, Role.START_TOP) for role in range(256))


class How(IntEnum):
    """How an element is worked into what it stands on."""

    TOP = 0
    FRONT_LOOP = 1
    BACK_LOOP = 2
    THIRD_LOOP = 3
    FRONT_POST = 4
    BACK_POST = 5
    SPACE = 6
    """Into the space that the foot element (one of its chains) belongs to."""
    RING = 7
    UNDER = 8
    """Into the other side of the foundation chain."""
    SIDE = 9
    """Into the side edge of a row."""
    BETWEEN = 10
    """Between the foot element and the one after it."""


_HOWS = tuple(How)
"""By number: looking one up is much quicker than making it, and a big piece is asked for millions."""

RING_FOOT = -1
"""`foot_at` of an element worked into the ring (or with no element below: row ends)."""


@dataclass(frozen=True, slots=True, eq=False)
class Stitches:
    """The elements of one row, as arrays of length n. Feet are in CSR form: the feet of element i are entries feet[i] … feet[i+1]-1.

    `foot_back` is rows back inside the part: 0 = this row, 1 = the row below …; `foot_at` the element's index in that row (or RING_FOOT).
    A together-stitch of n has n feet; a chain has none. `repeat` is the iteration of the innermost repeat (0 outside one).
    """

    names: tuple[str, ...]
    """The kinds that occur: trade ids as worked ("dc", "dc2tog", "FPdc", "ch", "sl st", "puff")."""
    kind: array[int]
    """'H': index into `names`."""
    role: bytes
    """Role of each element."""
    step: array[int]
    """'i': id of the step that made it."""
    repeat: array[int]
    """'i'."""
    feet: array[int]
    """'I', n + 1 entries."""
    foot_back: array[int]
    """'h'."""
    foot_at: array[int]
    """'i'."""
    foot_how: bytes
    colour: array[int]
    """'H': index into `colours`."""
    colours: tuple[str, ...] = ("",)
    stands: Mapping[int, str] = field(default_factory=dict)
    """START_TOP elements: the stitch they stand for."""
    groups: Mapping[int, tuple[int, str]] = field(default_factory=dict)
    """First element of a named group ("shell", "V-st", "picot") → (number of elements, name)."""

    def __len__(self) -> int:
        return len(self.kind)

    def name(self, i: int) -> str:
        """The kind of element i as worked; a counted starting chain answers with what it stands for."""
        if self.role[i] == Role.START_TOP:
            return self.stands.get(i, "ch")
        return self.names[self.kind[i]]

    def feet_of(self, i: int) -> Iterator[tuple[int, int, How]]:
        """(rows back, element there, how) for each foot of element i."""
        for f in range(self.feet[i], self.feet[i + 1]):
            yield self.foot_back[f], self.foot_at[f], _HOWS[self.foot_how[f]]

    def counted(self) -> Iterator[int]:
        """The elements that are stitches of the row, in worked order (stitches and counted starting chains)."""
        return compress(range(len(self.role)), self.role.translate(_COUNTED))


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """What a row holds: `total` stitches, `by_kind` by plain kind, `made` by exact kind (see the section "Counting" of docs/design)."""

    total: int
    by_kind: Mapping[str, int]
    made: Mapping[str, int]
    stitches: Stitches | None = field(default=None, compare=False, repr=False)
    """The row itself, where a count needs a closer look: "(10 V-sts, 2 dc)" leaves out the stitches that stand in groups."""


@dataclass(frozen=True, slots=True)
class RowTrouble:
    """Something working noticed in a row. `kind`: a short id; `data`: the numbers behind it; `working`: the arithmetic, a line a step."""

    kind: str
    span: Span
    message: str
    working: tuple[str, ...] = ()
    data: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Derived:
    """One line of a row's derivation: the words' span, places taken, stitches made, both running."""

    step: int
    span: Span
    took: int
    made: int
    so_far: int
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowWork:
    """One row as worked."""

    label: str
    """"Row 4", "Rnd 2", "Foundation": one row even where a range was written."""
    number: int | None
    written: Row
    """The instruction it came from (its label may be a range)."""
    index: int
    """Place in its part, from 0; the foundation chain, when there is one, is a row of its own with number None."""
    made_in: MadeIn
    side: Side
    side_because: str
    begins: Begins
    turned: bool
    """The work was turned before this row."""
    direction: int
    """+1: worked the way Row 1 was, seen from the right side; −1: the other way."""
    stitches: Stitches
    offered: int | None
    used: int | None
    counted: Counted
    stated: tuple[Count, ...]
    """The counts that apply to this very row (in a range: see DESIGN)."""
    state: State
    read: Literal["whole", "partly", "no"]
    worked: Literal["yes", "unworkable", "two-readings", "assumed"]
    decided_by: Literal["count", "custom", "next-row"] | None = None
    readings: tuple[str, ...] = ()
    """Which answers were taken to which questions, as sentences."""
    derivation: tuple[Derived, ...] = ()
    troubles: tuple[RowTrouble, ...] = ()
    yarn: str = ""
    """The colour the row begins with."""
    doubt: int = 0
    """How doubtful an alarm about this row is: 0 certain, 1 doubtful (the row below or its stitches' places are not certain), 2 more so."""
    below: int | None = None
    """Index of the row that was offered (usually index − 1; an earlier one after a rejoin; None on ring, chain, row ends)."""
    foundation: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PartWork:
    name: str
    copies: int
    rows: tuple[RowWork, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """An answer that holds for a part: the question, the answer, and why."""

    question: str
    answer: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamWork:
    """A seam and the parts it joins (indices into `Fabric.parts`): of a base (base, body). Motifs lie in `rows` of `across` where known."""

    seam: Seam
    parts: tuple[int, ...] = ()
    rows: int | None = None
    across: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabric:
    """A pattern worked in one size. `links`: feet that stand in another part: (part, row, element) → (part, row, element)."""

    pattern: Pattern
    size: int
    parts: tuple[PartWork, ...]
    links: Mapping[tuple[int, int, int], tuple[int, int, int]] = field(default_factory=dict)
    seams: tuple[SeamWork, ...] = ()
    """How the parts are put together, in the order told."""
    taken: Mapping[str, Taken] = field(default_factory=dict)
    troubles: tuple[RowTrouble, ...] = ()
    """Troubles that belong to no single row."""
    memory: object = field(default=None, compare=False, repr=False)
    """What `work(…, before=this)` takes over from it."""

    @property
    def stitch_count(self) -> int:
        """Stitches of one copy of every part."""
        return sum(row.counted.total for part in self.parts for row in part.rows if not row.foundation)
