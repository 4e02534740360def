"""What is kept between rows and between passes: the standing of the work, row outcomes, the row cache."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from ..pattern import Chain, Pattern, Span, Step
from .basket import content_key
from .fabric import Counted, Derived, RowTrouble, RowWork, Side, Stitches
from .plan import Shaped


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
    epoch: int = 0
    """The state of the text its spans belong to."""


@dataclass(slots=True)
class Standing:
    """Where the work stands between two rows."""

    below: Stitches | None = None
    below_index: int | None = None
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
    base: Chain | None = None
    """The foundation chain below."""


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
    made: int = 0
    epoch: int = 0
    spans: dict[int, Span] = field(default_factory=dict)
    """Where each step stands now (filled when something older is met)."""

    def intern(self, stitches: Stitches) -> Stitches:
        return self.interned.setdefault(content_key(stitches), stitches)

    def again(self) -> Shared:
        """The same memory for the next state of the text; a new one when it has grown too large."""
        if len(self.rows) > MOST_ROWS:
            return Shared(size=self.size)
        self.made, self.epoch, self.spans = 0, self.epoch + 1, {}
        return self

    def today(self, known: Outcome, pattern: Pattern) -> Outcome:
        """An outcome of an earlier state of the text with its derivation where the words stand now."""
        if not self.spans:
            self.spans = spans_of(pattern)
        lines = tuple(replace(line, span=self.spans.get(line.step, line.span)) for line in known.derivation)
        return replace(known, derivation=lines, epoch=self.epoch)


def spans_of(pattern: Pattern) -> dict[int, Span]:
    """The span of every step, by its id."""
    found: dict[int, Span] = {}

    def walk(steps: tuple[Step, ...]) -> None:
        for step in steps:
            found[step.id] = step.span
            for name in ("body", "last", "closing", "changes"):
                inner = getattr(step, name, ())
                if isinstance(inner, tuple):
                    walk(inner)
            for answer in getattr(step, "answers", ()):
                walk(answer)

    for part in pattern.parts:
        for row in part.rows:
            walk(row.steps)
    return found
