"""What a row needs to know besides its offer, and what ends a row before its time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..pattern import Chain, Limits
from .custom import Answers
from .fabric import How, Stitches
from .offer import Offer

CHAINS_ARE_STITCHES = "Do chains count as stitches to be worked into?"
POSTS_COVER = "Does a raised stitch around one further down cover a place of the row below?"
SLIPS_ARE_SPACES = "Is a slip stitch between two loops called a space?"
TIMES_MORE = "Does 'repeat from * n times' mean n times more, or n times in all?"

Foot = tuple[int, int, int]
"""Rows back, element there, how."""


class Overflow(Exception):
    """A repeat asked for more places than there are: that repeat is taken back."""


class TooMuch(Exception):
    """A bound of `Limits` was reached; its words say which."""


@dataclass(slots=True)
class Spot:
    """One target: places [start, end) of the offer, and how it is entered. `feet` overrides when the target lies elsewhere."""

    start: int
    end: int
    how: How
    feet: tuple[Foot, ...] | None = None


@dataclass(slots=True)
class Context:
    """What a row needs to know besides its offer."""

    size: int
    limits: Limits
    answers: Answers
    main: str
    """The stitch that "inc", "dec", "work even" mean when the words do not say."""
    deeper: tuple[Offer, ...] = ()
    """The offers of the rows further down: [0] is what the row below was offered, in this row's order."""
    turning: Mapping[tuple[str, int], bool] | None = None
    """(stitch, chains) → counts, as the front matter or the notes say."""
    in_round: bool = False
    spiral: bool = False
    joined: bool = False
    """The rounds are joined, and not turned: the hand stands on the stitch that the last one was joined to."""
    shapes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """What the pattern's own groups look like (`shells.shapes_of`)."""
    model: Stitches | None = None
    """The other piece's row that this one is to be finished as."""
    base: Chain | None = None
    """The foundation chain the row stands on, when what its skipped chains count as was told with it."""
    marks: tuple[int, ...] = ()
    """Places of the offer that are marked, in this row's order."""
    row_ends: int = 0
    """Rows of the flat piece, when this row puts its stitches into the end of each of them; 0 where that is not known."""
    far: bool = False
    """The row stands on the foundation chain of the piece before, met from its other side."""
    named: Mapping[str, Offer] = field(default_factory=dict)
    """What is left of rows that the steps name besides their own ("5 unworked sts of Row 3")."""
