"""The state of the hand while it works a row."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence

from ..pattern import NOWHERE, Span, Step
from .basket import Basket
from .context import Context, Overflow, Spot, TooMuch
from .fabric import Derived, Role, RowTrouble
from .needs import Needs
from .offer import Offer


class Holding(ABC):
    """What the hand holds: the offer and where it is in it, the elements made, what was missed, skipped and passed over."""

    @abstractmethod
    def step(self, step: Step, tail: Sequence[Step]) -> str | None:
        """Work one step; `tail` are the steps after it on its level. Returns a remark for the derivation."""

    def run(self, steps: Sequence[Step]) -> None:
        for i, step in enumerate(steps):
            self.step(step, steps[i + 1 :])

    def __init__(self, offer: Offer, context: Context, yarn: str) -> None:
        self.offer = offer
        self.context = context
        self.size = context.size
        self.basket = Basket(yarn)
        self.yarn = 0
        self.pos = 0
        self.last: Spot | None = None
        self.inside: Spot | None = None
        self.started = False
        self.origin = 0
        """The place the row begins at: its first, or the one the yarn was joined in."""
        self.strict = 0
        self.in_run = False
        """Several places of one kind are gone to one after another."""
        self.iteration = 0
        self.missing = 0
        self.gap = 0
        self.spaced = False
        self.begun_here = False
        """The row's first stitches went into the place that it began in."""
        self.told_times = False
        """A repeat is worked that tells how often."""
        self.home = 0
        """The repeat in which a slip stitch came round to that place."""
        self.gapped = False
        """Gaps between groups were worked into."""
        self.done = 0
        """Steps done, each repeat's steps anew."""
        self.loose = False
        """Places were found by name (a space, a shell, a stitch further on), so that what was passed over is not all accounted for."""
        self.misnamed = 0
        """Places taken that are of another kind than the words say, where all of that kind lie behind."""
        self.by_name = 0
        self.by_name_between = 0
        """Stitches that a place told by its kind was reached over, chains lying before them."""
        """The most stitches of other kinds passed over at once on the way to a stitch named by its kind."""
        self.by_group = 0
        """The most spaces passed over at once on the way to the space of a group ("in ch-1 sp of next V-st")."""
        self.leaves = False
        self.met_piece = False
        """Another piece was worked into."""
        self.unread = False
        self.uncounted = False
        self.partial = False
        self.stood = False
        self.hung = False
        """The row began with a loop of chains, which hangs on its first place."""
        self.travelled: Spot | None = None
        self.extra_offered = 0
        self.single_ends = 0
        self.turned_first = False
        """The far side ends at a chain that was turned round with three stitches or more before."""
        """Ends of a chain worked on both sides in which one stitch stands, or a turn of three: the far side may take or leave them."""
        self.skips = 0
        """How many places the last skip that was told passes over."""
        self.spaces_skipped = 0
        """How many spaces the last skip of spaces passes over."""
        self.placed: list[int] = []
        """Elements that markers were placed in."""
        self.first_taken: Spot | None = None
        """The first place that was gone to by name."""
        self.needs = Needs(context.size, offer.plain)
        self.before: Sequence[Step] = ()
        """The row's steps before the one at hand."""
        self.runs: dict[str, list[tuple[int, int]]] = {}
        """Groups of the offer found by their look, by name ("" = stitches in one place)."""
        self.group_places: dict[str, tuple[Offer, list[tuple[int, int]]]] = {}
        """The groups of an offer by what they are called, in the order they are met."""
        self.chains_moved = 0
        self.led_by = 0
        """Places that the unit of the last repeat passes over before its first stitch."""
        self.reaching = False
        """A repeat is being worked that goes up to a place."""
        self.skipped: list[int] = []
        self.taken_of: dict[str, int] = {}
        """How many of the places left in a row named outright were taken."""
        self.troubles: list[RowTrouble] = []
        self.derivation: list[Derived] = []
        self.repeats: tuple[int, int, Span] | None = None
        self.rest_of_row: Sequence[Step] = ()
        self.taken_in_turn: set[int] = set()
        """Ids of the steps that were worked together with the run before them, wherever each found its places."""
        self.turns: tuple[object, list[Spot]] | None = None
        """The offer's corners, once they have been asked for."""
        self.between: tuple[object, tuple[int, ...]] | None = None
        """The offer's gaps between groups, once they have been asked for."""
        self.here = NOWHERE
        """The words of the row's step at hand."""

    def _stitches(self) -> int:
        role = self.basket.role
        return role.count(Role.STITCH) + role.count(Role.START_TOP)

    def _bound(self, number: int) -> None:
        if len(self.basket) + number > self.context.limits.row_stitches:
            raise TooMuch(f"holds more than {self.context.limits.row_stitches:,} stitches")

    def _overflow(self, places: int) -> None:
        if self.strict:
            raise Overflow
        self.missing += places

    def _trouble(self, kind: str, span: Span, message: str, **data: object) -> None:
        if not any(t.kind == kind and t.span == span for t in self.troubles):
            self.troubles.append(RowTrouble(kind, span, message, (), data))
