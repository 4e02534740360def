"""What is kept between rows and between passes: the standing of the work, row outcomes, the row cache."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ..pattern import NOWHERE, Chain, Pattern, Span, Step, once
from ..pattern.walking import walk
from .assumed import as_below
from .basket import content_key
from .fabric import Counted, Derived, RowTrouble, RowWork, Side, Stitches
from .in_order import Shaped
from .nature import Nature, nature_of
from .offer import Offer, offer_of
from .plan import Due

if TYPE_CHECKING:
    from .row_again import Known


@dataclass(slots=True)
class Outcome:
    """One row worked on one offer: what the row cache keeps."""

    stitches: Stitches
    offered: int | None
    used: int | None
    misfits: float
    troubles: tuple[RowTrouble, ...]
    derivation: tuple[Derived, ...]
    counted: Counted
    unread: bool
    uncounted: bool
    partial: bool
    loose: bool
    chains_moved: int
    consulted: dict[str, int]
    asked: dict[str, tuple[str, ...]] = field(default_factory=dict)
    stretched: bool = False
    keep: tuple[object, ...] = ()
    cost: int = 0
    """Stitches that it takes as long as (`Shared.made` adds them up, once in each state of the text)."""
    epoch: int = 0
    """The state of the text its spans belong to."""
    placed: tuple[int, ...] = ()
    """Elements that markers were placed in."""
    reached: int = 0
    """The place after the last one that it came to."""


@dataclass(slots=True)
class Standing:
    """Where the work stands between two rows."""

    below: Stitches | None = None
    below_index: int | None = None
    marks: tuple[int, ...] = ()
    """Elements of the row below that carry a marker."""
    ring: bool = False
    foundation: bool = False
    direction: int = 1
    side: Side = "RS"
    turned: bool = False
    around: bool = False
    carried: Chain | None = None
    travel: tuple[Step, ...] = ()
    yarn: str = ""
    total: int | None = None
    assumed: bool = False
    fastened: bool = False
    uncounted: bool = False
    """The row below went along an edge whose places nobody counted: how many it holds is not known."""
    sure: bool = True
    """Whether the row below is known for certain: its count agreed, or every place was accounted for since one that did."""
    opened: dict[str, Chain] = field(default_factory=dict)
    """Labels of rows → the starting chain that the row before told for them: a repeat of such a row begins with it too."""
    on: tuple[int, int] | None = None
    """(part, row) of the row of an earlier part that the piece begins in, where that is not the last one."""
    base: Chain | None = None
    """The foundation chain below."""
    far: bool = False
    """What is below is the foundation chain of the piece before, met from its other side."""


MOST_ROWS = 20_000
"""Row outcomes kept from one state of a text to the next; beyond that memory is begun anew."""


@dataclass(slots=True)
class Shared:
    """What all passes over a part share, and what one state of a text hands to the next: the row cache and the interned rows.

    Keys hold `id()`s of step tuples; every such tuple is kept alive by a value of the same `Shared`.
    """

    size: int = 0
    rows: dict[tuple[object, ...], list[Outcome]] = field(default_factory=dict)
    interned: dict[tuple[object, ...], Stitches] = field(default_factory=dict)
    shaped: dict[int, tuple[tuple[Step, ...], Shaped]] = field(default_factory=dict)
    carried: dict[tuple[int, int], tuple[Step, ...]] = field(default_factory=dict)
    spelled: dict[tuple[int, int, str], tuple[Step, ...]] = field(default_factory=dict)
    written: dict[tuple[Step, ...], tuple[Step, ...]] = field(default_factory=dict)
    """Equal rows of different states of a text → one tuple."""
    whole: dict[tuple[int, ...], tuple[Step, ...]] = field(default_factory=dict)
    """Ids of steps put together by references → their tuple."""
    joined: dict[tuple[int, int], tuple[Stitches, Stitches]] = field(default_factory=dict)
    """A round and its slip stitch → the round with it."""
    pieces: dict[str, tuple[RowWork, ...]] = field(default_factory=dict)
    """The rows of the pieces worked before this one, by name in small letters."""
    widths: dict[tuple[int, int], tuple[Stitches, Stitches]] = field(default_factory=dict)
    """Rows taken to be as wide as the row below them, by that row and how many rows down it lies."""
    offers: dict[tuple[object, ...], Offer] = field(default_factory=dict)
    """What a row offers, by the row and the way it is met."""
    natures: dict[int, tuple[tuple[Step, ...], Nature]] = field(default_factory=dict)
    """What steps are like, by their id."""
    alike: dict[int, tuple[tuple[Step, ...], tuple[Step, ...]]] = field(default_factory=dict)
    """A row's steps, by id → those and the tuple of `written` that they equal."""
    alone: dict[int, Due] = field(default_factory=dict)
    """What is due of a row that stands for itself alone, by the row's id."""
    plain: dict[tuple[object, ...], Known] = field(default_factory=dict)
    """Plain rows by what they rest on."""
    numbers: dict[tuple[object, ...], int] = field(default_factory=dict)
    """What parts rest on, numbered."""
    made: int = 0
    """Stitches worked in this state of the text, in all readings tried."""
    epoch: int = 0
    spans: dict[int, Span] = field(default_factory=dict)
    """Where each step stands now (filled when something older is met)."""

    def intern(self, stitches: Stitches) -> Stitches:
        return self.interned.setdefault(content_key(stitches), stitches)

    def number(self, basis: tuple[object, ...]) -> int:
        """A number of its own for everything that rows may rest on."""
        return self.numbers.setdefault(basis, len(self.numbers))

    def as_below(self, below: Stitches, back: int) -> Stitches:
        """A row taken to be as wide as the row below, which is interned."""
        key = (id(below), back)
        known = self.widths.get(key)
        if known is None:
            known = self.widths[key] = (below, self.intern(as_below(below, back)))
        return known[1]

    def nature(self, steps: tuple[Step, ...]) -> Nature:
        """What steps are like; they are kept, so that their id is their own."""
        known = self.natures.get(id(steps))
        if known is None:
            known = self.natures[id(steps)] = (steps, nature_of(steps))
        return known[1]

    def offer(self, stitches: Stitches, turned: bool, around: bool, back: int, foundation: bool) -> Offer:
        """What a worked row offers; the row is interned, so that its id is its own."""
        key = (id(stitches), turned, around, back, foundation)
        known = self.offers.get(key)
        if known is None:
            known = self.offers[key] = offer_of(stitches, turned=turned, around=around, back=back, foundation=foundation)
        return known

    def again(self) -> Shared:
        """The same memory for the next state of the text; a new one when it has grown too large."""
        if len(self.rows) > MOST_ROWS:
            return Shared(size=self.size)
        if len(self.plain) > MOST_ROWS:
            self.plain = {}
        if len(self.alone) > MOST_ROWS:
            self.alone = {}
        if len(self.alike) > MOST_ROWS:
            self.alike = {}
        if len(self.natures) > MOST_ROWS:
            self.natures = {}
        if len(self.offers) > MOST_ROWS:
            self.offers = {}
        self.made, self.epoch, self.spans = 0, self.epoch + 1, {}
        self.pieces = {}  # those of the earlier text, and their order, are none of this one's
        return self

    def today(self, known: Outcome, now: Mapping[int, Span]) -> Outcome:
        """An outcome of an earlier state of the text with its derivation where the words stand now."""
        for line in known.derivation:
            if now.get(line.step, line.span) != line.span:
                lines = ((line, now.get(line.step, line.span)) for line in known.derivation)
                known.derivation = tuple(Derived(one.step, span, one.took, one.made, one.so_far, one.note) for one, span in lines)
                break
        self.met(known)
        return known

    def met(self, known: Outcome) -> None:
        """An outcome whose words stand where they stood is met in this state of the text."""
        known.epoch = self.epoch
        self.made += known.cost

    def moves(self, work: tuple[Step, ...], pattern: Pattern) -> dict[Span, Span]:
        """Where the words of steps, and of the places in them, stand now; equal rows share the steps of an earlier state of the text."""
        if not self.epoch:
            return {}
        now = self.now(pattern)
        moved: dict[Span, Span] = {}
        for step in walk(work):
            moved[step.span] = now.get(step.id, step.span)
            place = getattr(step, "at", None)
            if place is not None and place.span != NOWHERE:
                moved.setdefault(place.span, now.get(-step.id, place.span))
        return moved

    def now(self, pattern: Pattern) -> Mapping[int, Span]:
        """Where every step of the pattern stands."""
        if not self.spans:
            self.spans = spans_of(pattern)
        return self.spans


def spans_of(pattern: Pattern) -> dict[int, Span]:
    """The span of every step, by its id; of the place it names, by its id with a minus."""
    found: dict[int, Span] = {}
    for part in pattern.parts:
        for row in part.rows:
            found.update(spans_in(row.steps))
    return found


@once
def spans_in(steps: tuple[Step, ...]) -> Mapping[int, Span]:
    """The same of one row's steps."""
    found: dict[int, Span] = {}
    for step in walk(steps):
        found[step.id] = step.span
        place = getattr(step, "at", None)
        if place is not None and place.span != NOWHERE:
            found[-step.id] = place.span
    return found
