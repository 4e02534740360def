"""Where phrasing stands in a row: the tokens, the steps read so far, and what the pattern has told before."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields

from ...pattern import Count, Make, Place, Span, Special, Step, Trouble
from ..wording.terms import Terms, us_id
from ..wording.token import Token


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What holds for a row before its first word: part of the key under which a row's reading is remembered."""

    terms: Terms = "US"
    main: str | None = None
    """The part's main stitch, for "inc" and "dec" that name none."""
    sizes: int = 1
    size_names: tuple[str, ...] = ()
    colours: frozenset[str] = frozenset()
    """Colour names and letters of the pattern, in small letters."""
    parts: tuple[str, ...] = ()
    """Names of the pattern's pieces, for "same as Front"."""
    filet: bool = False
    """The part is filet: it speaks of blocks and spaces."""
    passes: bool = False
    """The part is Tunisian: loops are picked up going and worked off coming back."""
    tiles: bool = False
    """The pattern is worked from corner to corner, in blocks: its charts of colour count these."""
    rounds: bool = False
    loop: str = ""
    """A loop told to hold from here on ("hereafter work in back loops")."""
    old: bool = False
    """An old book's round that gives one unit only: it goes round."""
    begins: bool = False
    """The row begins a piece: a chain that opens it is its foundation."""
    magic: bool = False
    """The row before ended with a ring still to be filled: what names no place goes into it."""
    on_chain: bool = False
    """The row is the first one on a foundation chain that a row before told."""
    far: bool = False
    """The piece is told to stand on the beginning chain of the piece before, worked into from its other side."""
    _hash: int = field(default=0, init=False, compare=False, repr=False)

    def __hash__(self) -> int:
        """Told once and kept: rows are looked up by it."""
        if not self._hash:
            object.__setattr__(self, "_hash", hash(tuple(getattr(self, one.name) for one in fields(self) if one.compare)) or 1)
        return self._hash


_PLAIN = frozenset(("sc", "hdc", "dc", "tr", "dtr", "htr"))
_AS_PLACE = frozenset(("in", "each", "next", "of", "last", "same", "o", "first", "all", "over", "around", "the", "top", "st"))
"""Words before a stitch that is a place, not worked."""


FAR = Place(where="under", what="ch")
"""On the other side of the beginning chain."""


@dataclass(slots=True)
class Frame:
    """The steps of one level (the row, or the inside of one bracket) and the marks (stars) that stand among them."""

    out: list[Step] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    whole_from: int = 0


@dataclass(slots=True)
class Mark:
    sign: str
    index: int
    """How many steps stood before it."""
    token: int
    used: bool = False
    closed: int | None = None
    """Index where a second star closed the unit."""
    body: tuple[Step, ...] | None = None
    """The unit itself, once a repeat that it stands in has swallowed it: it can still be told again by its sign."""
    stops: dict[str, int] = field(default_factory=dict)
    """Other signs inside the unit, and how many of its steps stand before them."""


@dataclass(slots=True)
class Run:
    """So many stitches of the row below that the words count along."""

    frame: Frame
    first: int
    """The step of the frame that came first on them."""
    number: int
    kind: str

    def goes_on(self, c: Cursor, number: int) -> bool:
        """Whether the words are still on the same stitches."""
        return self.frame is c.frames[-1] and self.number == number and self.first <= len(self.frame.out)


PAST_END = 16
"""So many more marks of the end stand behind the last word: a phrase may look so far beyond it."""


class Cursor:
    """Tokens, a place among them, and what was made of those before it."""

    def __init__(self, tokens: list[Token], context: Context, specials: Mapping[str, Special]) -> None:
        self.t = [*tokens, *(tokens[-1:] * PAST_END)]
        self.end = len(tokens) - 1
        """Where the words are over."""
        self.i = 0
        self.ctx = context
        self.specials = specials
        self.frames: list[Frame] = [Frame()]
        self.counts: list[Count] = []
        self.troubles: list[Trouble] = []
        self.close: dict[int, int] = {}
        self.stops: list[int] = []
        """For every token, the next one that ends its sentence."""
        self.depth = 0
        self.loop = context.loop
        self.row_loop = context.loop
        self.in_ring = context.magic
        self.last_place: Place | None = None
        self.elsewhere: Place | None = FAR if context.far else None
        """A place told to hold for what follows: the other side of the chain, free loops of an earlier round, row ends."""
        self.start_at: Place | None = None
        """Where the next stitch goes, told beforehand ("starting in 2nd ch from hook")."""
        self.at_the_end: Make | None = None
        """What goes into the last stitch of the row as well as into the first."""
        self.below = 0
        """Rows further down that what follows is worked into ("on 2nd row below, …")."""
        self.upto = ""
        """The kind of place that the limit just read ends at ("to corner")."""
        self.last_of = ""
        """What the limit just read leaves the last of ("to last sp")."""
        self.excepted = 0
        """Where the words ended that left the row's last places on purpose ("in each sc but the last"); 0 where none did."""
        self.told: dict[str, object] = {}
        """What the words say about the row itself: side, made_in, until, rows_count, hereafter …"""
        self.defined: dict[str, Special] = {}
        self.kinds_apart = False
        """Whether further kinds after "in each dc" ("and ch-1 sp") are left for runs of their own."""
        self.run: Run | None = None
        """The stitches that a place was told to be one of ("in 1st of 7 dc"): others of the same may follow."""
        self.layered: bool | None = None
        """Whether the row speaks of layers; None until it is asked."""
        self.nodes = 0
        self._row_main: str | None = None

    # ---- looking -------------------------------------------------------------------------------------------------------------
    @property
    def kind(self) -> str:
        return self.t[self.i].kind

    def look(self, ahead: int = 1) -> Token:
        at = self.i + ahead
        return self.t[at] if at < len(self.t) else self.t[-1]

    def kinds(self, *kinds: str) -> bool:
        """The next tokens are of these kinds."""
        t, i = self.t, self.i
        if i + len(kinds) > len(t):
            return False
        return all(t[i + k].kind == kind for k, kind in enumerate(kinds))

    def take(self, *kinds: str) -> Token | None:
        """The next token when it is of one of these kinds, else None."""
        token = self.t[self.i]
        if token.kind in kinds and token.kind:
            self.i += 1
            return token
        return None

    def drop(self, *kinds: str) -> None:
        """Pass over any tokens of these kinds."""
        t = self.t
        while t[self.i].kind in kinds and t[self.i].kind:
            self.i += 1

    # ---- making --------------------------------------------------------------------------------------------------------------
    @property
    def out(self) -> list[Step]:
        return self.frames[-1].out

    def span(self, start: int, end: int | None = None) -> Span:
        """From token `start` up to (not with) token `end`."""
        last = (self.i if end is None else end) - 1
        if last < start:
            last = start
        return Span(self.t[start].start, max(self.t[last].end, self.t[start].end))

    @property
    def main(self) -> str | None:
        """The stitch of an "inc" or "dec" that names none: the only plain one that this row works, else the part's."""
        if self.ctx.main is None:
            return None
        if self._row_main is None:
            kinds = {
                self.us(str(one.val))
                for before, one in zip([self.t[-1], *self.t], self.t, strict=False)
                if one.kind == "st" and one.val in _PLAIN and before.kind not in _AS_PLACE
            }
            only = next(iter(kinds)) if len(kinds) == 1 else ""
            self._row_main = only if only in _PLAIN else ""
        return self._row_main or self.ctx.main

    def us(self, raw: str) -> str:
        return us_id(raw, self.ctx.terms)

    def id(self) -> int:
        self.nodes += 1
        return self.nodes

    def trouble(self, kind: str, span: Span, message: str, **data: object) -> None:
        self.troubles.append(Trouble(kind=kind, span=span, message=message, data=data))
