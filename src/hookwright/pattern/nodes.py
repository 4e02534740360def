"""The steps a row is made of: what a maker is told to do, as a tree. No step knows what it stands on; that is working's part.

Every node has an `id` (unique in its pattern, in reading order, from 1), the `span` of its words and the sizes it belongs to
(`only`, `None` = all). Stitch names are the ids of `trade/` (US abbreviations) whatever the pattern's terms.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from .sizes import Sized
from .spans import NOWHERE, Span

ONE: Sized[int] = Sized((1,))
ZERO: Sized[int] = Sized((0,))

Where: TypeAlias = Literal[
    "next",  # the next place in the offer
    "same",  # the place last worked into ("same st", "same st as join", "base of ch-3")
    "first",  # the first place of the row below
    "last",  # the last place (or the last n places) of the row below
    "ring",  # the magic ring or the ring of chains; everything goes into it
    "from_hook",  # the `nth` chain from the hook
    "row_end",  # the side edge of rows ("evenly along edge", "in row ends")
    "under",  # the other side of the foundation chain
    "marked",  # a marked stitch
    "skipped",  # a place skipped earlier in this row, or k rows below
    "named",  # a place found by name alone: "top of ch-3", "tip of cluster"
    "hook",  # no place at all: the stitch is worked in the air (foundation stitches: fsc, fhdc, fdc)
]
Loop: TypeAlias = Literal["both", "front", "back", "third", "free_front", "free_back"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where to work.

    `what` names the target: "st" (any stitch), a stitch id ("dc", "FPdc"), "ch" (one chain), "sp" (any chain space), "ch-2 sp" (a
    space of that many chains), "shell", "cl", "ring" …; `nth` counts inside it ("2nd ch of ch-4", "3rd ch from hook", "center dc of
    shell" with nth = 0 meaning the middle); `below` how many rows further down than the row below (0 = row below);
    `row` a row named outright ("Row 18", "Body Row 40").
    """

    where: Where = "next"
    what: str = "st"
    nth: int | None = None
    loop: Loop = "both"
    post: Literal["", "front", "back"] = ""
    below: int = 0
    between: bool = False
    row: str | None = None
    of: str = ""
    """The figure the place lies in ("first loop of pineapple"): its own loops are meant, not those that lead up to it."""
    span: Span = field(default=NOWHERE, compare=False)


NEXT = Place()
RUN = "run"
"""`Place.of` where several stitches are told over stitches of a kind, not how many there are: one on each of as many side by side."""
THESE = "these"
"""`Place.of` where so many are told of the whole row ("work even on these 15 dc"): the chain that begins it is one of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    id: int = 0
    span: Span = field(default=NOWHERE, compare=False)
    only: frozenset[int] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Make(Node):
    """Work `each` stitches of one kind into every one of `places` places.

    "5 sc" is each 1, places 5; "2 dc in next st" each 2, places 1; "dc in each st to last 2" places "rest", but 2;
    "dc2tog over next 2 sts" stitch "dc2tog", closes 2, places 1 (each stitch then takes `closes` places). A together-stitch of n is named
    `<base><n>tog`. Post stitches are "FPdc", "BPdc" …; loop choices stand in `at.loop`, never in the name.
    `stitch` "inc" and "dec" appear only when the pattern's words name no stitch; `main` is then the stitch that working should take.
    """

    stitch: str
    each: Sized[int] = ONE
    places: Sized[int] | Literal["rest"] = ONE
    but: Sized[int] = ZERO
    at: Place = NEXT
    closes: int = 1
    main: str | None = None
    evenly: bool = False
    """"n dc evenly along …", "inc 4 evenly": the places are the maker's choice."""
    upto: str = ""
    """With places "rest": only as far as the next place of this kind ("ch-2 sp", "corner", "center"), or as the last `but` of another kind
    than the places ("last dc")."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Together(Node):
    """Several steps in one place: "(dc, ch 1, dc) in next st", "in next sp work 2 dc, ch 2 and 2 dc"."""

    body: tuple[Step, ...]
    at: Place = NEXT
    places: Sized[int] | Literal["rest"] = ONE
    but: Sized[int] = ZERO
    name: str | None = None
    """The group's own name when the pattern (or the trade) has one: "shell", "V-st", "corner"."""
    upto: str = ""
    """As for `Make`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain(Node):
    """`number` chains. `counts`: told (True/False) or not told (None). `stands_for`: what the chain counts as, e.g. ("dc", "ch 2")."""

    number: Sized[int]
    counts: bool | None = None
    stands_for: tuple[str, ...] = ()
    foundation: bool = False
    """A chain that begins a piece."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Skip(Node):
    """Pass over `number` places of kind `what` ("st", "ch", "sp", "dc" …); `row`: of a row named outright ("12 unworked sts of Row 18")."""

    number: Sized[int] = ONE
    what: str = "st"
    row: str | None = None
    first: bool = False
    """"Skip first st": the place that a counted starting chain stands in is meant, where there is one."""
    ordinal: bool = False
    """No skip was told: "in 2nd sc" names a place by counting its kind, and other kinds before it are passed over with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leave(Node):
    """Leave places unworked: `number`, or all that remain (None); of what kind ("st", "ch")."""

    number: Sized[int] | None = None
    what: str = "st"


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn(Node):
    """Turn the work. `no` = the words say "do not turn"."""

    no: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Join(Node):
    """Close the round with a slip stitch. `to` where told ("first sc", "top of ch-3"); `no` = "do not join"; `closing`: a chain-and-stitch
    ending ("ch 2, dc in first sc") given as steps instead of a slip stitch."""

    to: Place | None = None
    no: bool = False
    closing: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring(Node):
    """A magic ring, or the chain just made joined into a ring (`chains` of it)."""

    chains: Sized[int] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour(Node):
    """From here on (or for the stitches told) work with yarn `yarn`: a letter, a name. `join_in`: a new strand is joined, a tail more;
    `at` the place it is joined in, when told."""

    yarn: str
    join_in: bool = False
    at: Place | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenOff(Node):
    """The yarn is cut."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape(Node):
    """A shaping told by its effect: "inc 1 st each end", "dec 1 st at beg", "lose 1 st at both edges", "inc 6 evenly".

    `change` is stitches per `where` ("each_end" counts twice); `every` = on every k-th row of the range it stands in.
    """

    change: Sized[int]
    where: Literal["each_end", "beginning", "end", "evenly"]
    every: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Even(Node):
    """Work the row plainly over what there is: "work even", "sc across", "as established" (`stitch` None = as the row below)."""

    stitch: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """How often a repeat is worked.

    "n": `number` in all; "more": the words "repeat from * n times" (n more, or n in all: a question); "rest": to the end of the row;
    "to_last": until `number` places of kind `what` remain; "until": until `number` stitches are made (rare);
    "to_place": up to the next place of kind `what` ("corner", "ch-2 sp").
    """

    kind: Literal["n", "more", "rest", "to_last", "until", "to_place"]
    number: Sized[int] = ONE
    what: str = "st"
    loose: bool = False
    """The last repeat may break off anywhere: old books give one unit and let the row end where it will."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat(Node):
    """`body` worked again and again. `last`: the steps that replace the body's ending in the last repeat ("ending last rep with …", `**`)
    from body index `cut` on (None = the ending follows the whole body)."""

    body: tuple[Step, ...]
    times: Times
    last: tuple[Step, ...] = ()
    cut: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice(Node):
    """Two or more ways to read the same words. Choosing is working's business; custom first."""

    question: str
    answers: tuple[tuple[Step, ...], ...]


CHAIN_FIRST = "Is the chain at the beginning the first of the plain stitches between the shapings?"
"""`Choice.question` of "ch 3, increasing in every 7th st"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Refer(Node):
    """The steps of other rows are meant: "Repeat Row 2", "rep Rows 2 and 3", "as Row 5 but …".

    `rows`: labels' numbers in the order told, taken in turn over the range this row covers; `part`: another part's rows (its name);
    `last`: that many rows before this one ("repeat last 2 rows"); `changes`: steps told after "but"; `reverse`: reversed shaping.
    """

    rows: tuple[int, ...] = ()
    last: int = 0
    part: str | None = None
    changes: tuple[Step, ...] = ()
    stretch: bool = False
    reverse: bool = False
    rest: bool = False
    """Only what is left of that row: "complete round as for First Motif"."""
    grow: int = 0
    """So many stitches more (less) in the plain run between increases (decreases), each time the row is worked again."""
    longer: int = 0
    """So many chains more (less) between two groups that stand side by side ("1 ch more between the shells"), each time the row is worked
    again."""
    from_star: bool = False
    """Only from its star on: "ch 1, sc in first sc, then as 1st row from *"."""
    upto: str = ""
    """How far the other part is followed, in the words' own terms: "armhole", "underarm", "neck" … ("" = to its end)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Aside(Node):
    """Words that ask for nothing countable: a tip, "place marker", "stuff", "do not join" (kept for the writer)."""

    kind: Literal["note", "marker", "stuff", "close", "define", "sides", "last"] = "note"
    """ "sides": among the changes to a row named, how long the plain runs between its corners have grown. "last": of several rows told
    together, only the last ends with what is told behind it (nothing behind it: with the step before)."""
    nths: tuple[int, ...] = ()
    """Of a marker that is placed: the stitches of the row it goes into, by number (below zero: counted back from the last one made); none:
    the one just made. (0,): it is only moved."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unread(Node):
    """Words of an instruction that were not understood."""


Step: TypeAlias = (
    Make
    | Together
    | Chain
    | Skip
    | Leave
    | Turn
    | Join
    | Ring
    | Colour
    | FastenOff
    | Shape
    | Even
    | Repeat
    | Choice
    | Refer
    | Aside
    | Unread
)
