"""Filet: "3 sps", "2 bls over 2 sps", "sp over sp". A space is ch 2, skip 2, dc; a block is 3 dc (common practice, no source)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...pattern import Aside, Chain, Colour, Make, Place, Repeat, Sized, Skip, Span, Step, Times, Together, Turn
from ..wording.token import Token
from .cursor import Cursor
from .numbers import number
from .spots import Spot

EXAMPLES: tuple[tuple[str, str], ...] = ()
TWO, THREE, FIVE = Sized((2,)), Sized((3,)), Sized((5,))
_BLOCKS = frozenset(
    ("bl", "bls", "blk", "blks", "block", "blocks", "solid mesh", "filled mesh", "closed mesh", "sm", "fm", "cm", "cms", "sms", "fms")
)
_SPACES = frozenset(("om", "oms", "open mesh"))


def filet(c: Cursor) -> list[Step] | None:
    """Spaces or blocks, and over what; only in a part that speaks of both."""
    if not c.ctx.filet or _counts_a_repeat(c):
        return None
    if (alike := as_they_lie(c)) is not None:
        return alike
    start = c.i
    told = number(c)
    if told is None:
        c.take("a", "the", "all")
    c.drop("more", "idle", "other")
    made = _unit(c)
    if made is None:
        c.i = start
        return None
    if told is not None and c.t[c.i].text.lower() in ("made", "formed") and c.t[start - 1].kind == ".":
        c.i = start  # "…, repeat from * across. 6 sps made.": what the row came to
        return None
    if told is None and (to_last := _to_last(c)) is not None:
        return [_squares(c, start, made, Times(kind="to_last", number=to_last))]
    if (wide := _across(c)) and told is None:
        squares = _squares(c, start, made, Times(kind="rest"))
        return [*_turning(c, squares, made), squares]
    begin = c.i
    over = _over(c)
    below = c.t[begin : c.i]
    many = next((token.val for token in below if token.kind == "n"), None)
    if told is None and isinstance(many, int) and many > 1:
        told = Sized((many,))  # "bl over each of next 2 bls"
    every = told is None and any(token.kind in ("each", "all") for token in below)
    if every and _others_too(c, made):
        over = None  # "sp over each sp and over the bl": whatever lies under
    if c.kind in ("in", "of", "from") or (c.kind == "ch" and over is None and made == "sp"):
        c.i = start
        return None
    count = _and_more(c, told or Sized((1,)))
    dc = c.us("dc") if c.ctx.terms == "US" else "dc"
    if made == "sp":
        passed = Skip(id=c.id(), number=Sized((1,)), what="sp") if over == "sp" else Skip(id=c.id(), number=TWO, what="any")
        body: tuple[Step, ...] = (Chain(id=c.id(), number=TWO), passed, Make(id=c.id(), stitch=dc))
    elif over == "sp":
        body = (Make(id=c.id(), stitch=dc, each=TWO, at=Place(what="sp")), Make(id=c.id(), stitch=dc))
    else:
        body = (Make(id=c.id(), stitch=dc, places=THREE, at=Place(what="any")),)
    times = Times(kind="rest") if every else Times(kind="n", number=count)
    units = Repeat(id=c.id(), span=c.span(start), body=body, times=times)
    if every and not wide:
        c.take("around", "across")
    return [*_turning(c, units, made), units]


def _across(c: Cursor) -> bool:
    """Past "across", "all across", "all the way around", "to end (of row)" behind squares; False, unmoved, elsewhere."""
    begin = c.i
    while c.kind in ("all", "the", "way", "idle") or c.t[c.i].text.lower() == "way":
        c.i += 1
    if c.take("across", "around") or (c.kind == "to" and c.look().kind == "end"):
        c.i += 2 * (c.kind == "to")
        if c.kind == "of" and c.look().kind in ("row", "rnd"):
            c.i += 2
        if c.kind != "to":
            return True
    c.i = begin
    return False


def as_they_lie(c: Cursor) -> list[Step] | None:
    """ "Sps over sps and bls over bls", "bl over each bl, sp over each sp (across)": every square of the row below once more, where that is
    all that is left to tell of the row; None with the cursor unmoved."""
    start = c.i
    c.drop("work")
    first = _over_its_like(c)
    c.drop(",", ";", "and", "&", "with")
    second = _over_its_like(c) if first else None
    while c.kind in ("across", "around") or c.t[c.i].text.lower() in ("throughout", "along"):
        c.i += 1
    if not first or not second or first == second or c.kind not in (",", ";", ".", "", ")", "turn", "join"):
        c.i = start
        return None
    ends = next((k for k in range(c.i, len(c.t)) if c.t[k].kind == "."), len(c.t))
    if any(_is_square(token) or token.kind == "sp" for token in c.t[c.i : ends]):
        c.i = start
        return None  # one square after another is told
    k = c.i
    while c.t[k].kind in _AS_BEFORE:
        k += 1
    if c.t[k].kind in (".", ";", "") and any(token.kind in ("as", "before") for token in c.t[c.i : k]):
        c.i = k  # "…, as in last row"
    stitch = c.us("dc") if c.ctx.terms == "US" else "dc"
    solid = Make(id=c.id(), span=c.span(start), stitch=stitch, places="rest", at=Place(what=stitch))
    open_ = Together(id=c.id(), span=c.span(start), body=(Chain(id=c.id(), number=TWO),), at=Place(what="sp"), places="rest")
    return [solid, open_]


_AS_BEFORE = frozenset((",", "as", "in", "the", "last", "prev", "before", "row", "rnd", "idle"))


def _over_its_like(c: Cursor) -> str | None:
    """ "Sp over sp", "bls over each of the bls", "spaces above spaces": which square; None where a number or another square is told."""
    c.take("a", "the")
    made = _unit(c)
    if made is None or c.kind not in ("over", "above", "in"):
        return None
    c.i += 1
    c.drop("the", "each", "all", "every", "of", "a", "prev")
    return made if _unit(c) == made else None


def _to_last(c: Cursor) -> Sized[int] | None:
    """ "(Open meshes) to last 2 solid meshes", "across to last mesh": how many stitches they have; None with the cursor unmoved."""
    begin = c.i
    c.drop("across", "idle")
    to = c.take("to")
    c.i += c.t[c.i].text.lower() == "within"
    c.drop("the")
    if to and c.take("last"):
        many = number(c) or Sized((1,))
        if _unit(c) is not None or c.take("mesh"):
            return Sized(tuple(None if n is None else 3 * n for n in many.values))
    c.i = begin
    return None


def _squares(c: Cursor, start: int, made: str, times: Times) -> Repeat:
    """So many spaces, or blocks, over whatever lies under."""
    stitch = c.us("dc") if c.ctx.terms == "US" else "dc"
    space: tuple[Step, ...] = (
        Chain(id=c.id(), number=TWO), Skip(id=c.id(), number=TWO, what="any"), Make(id=c.id(), stitch=stitch)
    )  # fmt: skip
    block: tuple[Step, ...] = (Make(id=c.id(), stitch=stitch, places=THREE, at=Place(what="any")),)
    return Repeat(id=c.id(), span=c.span(start), body=space if made == "sp" else block, times=times)


def only_squares(inner: Sequence[Token]) -> bool:
    """ "(Bl, sp)", "(2 sps and 1 bl)": whether a bracket that is worked so often holds nothing but spaces and blocks."""
    return all(token.kind in ("sp", "n", "a", ",", "and", "&", "+", "over", "next", "mesh") or _is_square(token) for token in inner)


def tells_squares(c: Cursor, start: int, close: int) -> bool:
    """ "Bls over next 3 sps (2 dc in each sp, dc in each dc)": whether a bracket tells how the squares just named are made."""
    before = c.out[-1] if c.out else None
    inner = {token.kind for token in c.t[start + 1 : close]}
    if not isinstance(before, Repeat) or before.span.end != c.t[start - 1].end or {"st", "in", "each"} - inner or c.kind != "(":
        return False
    first = before.body[0]
    block = isinstance(first, Make) and (first.places == THREE or (first.each == TWO and first.at.what == "sp"))
    return (block or _is_space(before)) and c.t[close + 1].kind in (",", ";", ".", "")


def _is_square(token: Token) -> bool:
    return token.text.lower() in _BLOCKS or str(token.val).lower() in _BLOCKS or str(token.val).lower() in _SPACES


def told_in_bracket(c: Cursor) -> list[Step] | None:
    """ "Dc in each of next 3 ch (1 solid mesh), …", "(another sp made)": what the stitches before make up, in mid-row."""
    start, close = c.i, c.close.get(c.i)
    if not c.ctx.filet or close is None or c.t[close + 1].kind != "," or not c.out:
        return None
    c.i += 1
    _ = number(c) or c.take("o", "a", "the", "other")
    named = _unit(c) is not None
    c.i += c.t[c.i].text.lower() in ("made", "formed")
    while named and c.i < close and c.kind in ("at", "in", "the", "beg", "end", "of", "row"):
        c.i += 1  # "(1 sp made at beginning of row)"
    counts_row = c.t[close + 2].kind in ("ch", "turn", "join", "not") and any(
        t.kind in ("turn", "join") for t in c.t[close + 2 : close + 6]
    )
    if not named or c.i != close or counts_row:
        c.i = start
        return None
    c.i = close + 1
    return [Aside(id=c.id(), span=c.span(start))]


def _and_more(c: Cursor, told: Sized[int]) -> Sized[int]:
    """ "3 sps and 1 more": so many in all; the number told, the cursor unmoved, where no more are told."""
    begin = c.i
    c.drop("and", "&", ",")
    more = number(c) if c.kind == "n" else None
    if more is None or not c.take("more") or c.kind not in (",", ";", ".", "", "and", "turn", "("):
        c.i = begin
        return told
    return Sized(tuple(None if n is None else n + (more.at(k) or 0) for k, n in enumerate(told.values)))


def _others_too(c: Cursor, made: str) -> bool:
    """Pass over "and over the bl", "and sp over each bl" behind "sp over each sp"; False with the cursor unmoved."""
    start = c.i
    if c.take("and"):
        c.drop("the", "a")
        if (c.kind == "over" or _unit(c) == made) and _over(c) is not None:
            return True
    c.i = start
    return False


def _turning(c: Cursor, units: Repeat, made: str) -> list[Step]:
    """The chain that a row of squares begins with, where nobody tells it: 5 before a space, 3 before a block (common practice, no source).
    It stands on the squares' own words, by which `first_space_held` knows it."""
    if c.ctx.begins or c.ctx.on_chain or c.ctx.rounds or len(c.frames) > 1:
        return []
    if any(not isinstance(step, (Aside, Turn, Colour)) for step in c.out):
        return []
    chains, stands = (FIVE, ("dc", "ch 2")) if made == "sp" else (THREE, ("dc",))
    begun = Chain(id=c.id(), span=units.span, number=chains, counts=True, stands_for=stands)
    opened = [mark for mark in c.frames[-1].marks if mark.index == len(c.out)]
    if not opened:
        return [begun]
    c.out.append(begun)  # "* Bl, sp; repeat from * …": the row begins before its unit
    for mark in opened:
        mark.index += 1
    return []


def first_space_held(steps: Sequence[Step], before: Sequence[Step]) -> tuple[Step, ...]:
    """ "Ch 5, turn, 6 sps": the 5 chains are the first stitch and the 2 chains of the first space (common practice, no source). The chain
    may end the row before (`before`: its steps)."""
    at = next((k for k, step in enumerate(steps) if not isinstance(step, (Aside, Turn, Colour))), len(steps))
    chain = steps[at] if at < len(steps) else None
    told = next((step for step in reversed(before) if not isinstance(step, (Aside, Turn, Colour))), None)
    if isinstance(chain, Chain) and isinstance(told, Chain) and at + 1 < len(steps) and chain.span in _begins(steps[at + 1]):
        steps = (*steps[:at], *steps[at + 1 :])  # the row before told the chain itself
        chain = steps[at]
    if isinstance(chain, Chain):
        at = next((k for k in range(at + 1, len(steps)) if not isinstance(steps[k], (Aside, Turn, Colour))), len(steps))
    else:
        chain = told
    spaces = steps[at] if at < len(steps) else None
    if not isinstance(chain, Chain) or chain.foundation or chain.number != FIVE:
        return tuple(steps)
    if (pair := _as_they_lie(steps[at : at + 2])) is not None:
        solid, spaced = pair
        held = Skip(id=spaced.id, span=solid.span, number=TWO, what="any")
        return (*steps[:at], held, replace(solid, places=Sized((1,)), at=Place()), *steps[at:])
    if not isinstance(spaces, Repeat):
        return tuple(steps)
    if not _is_space(spaces):
        return tuple(steps)
    first = [replace(step, span=spaces.span) for step in spaces.body[1:]]
    if spaces.times.kind == "rest":
        return (*steps[:at], *first, *steps[at:])
    more = Sized(tuple(None if n is None else n - 1 for n in spaces.times.number.values))
    again = [replace(spaces, times=replace(spaces.times, number=more))] if (more.values[0] or 0) > 0 else []
    return (*steps[:at], *first, *again, *steps[at + 1 :])


def _as_they_lie(steps: Sequence[Step]) -> tuple[Make, Together] | None:
    """Squares over their like, as they are read here; None for other steps."""
    if len(steps) == 2 and isinstance(solid := steps[0], Make) and isinstance(spaced := steps[1], Together) and solid.span == spaced.span:
        return (solid, spaced) if solid.places == spaced.places == "rest" else None
    return None


def _begins(step: Step) -> tuple[Span, Span]:
    """Where a row's first squares stand, told alone or as the first of a unit."""
    return step.span, step.body[0].span if isinstance(step, Repeat) and step.body else step.span


def _is_space(step: Repeat) -> bool:
    """Filet spaces, as they are read here."""
    chain, skip = (*step.body, None, None)[:2]
    return (
        isinstance(chain, Chain)
        and chain.number == TWO
        and isinstance(skip, Skip)
        and len(step.body) == 3
        and step.times.kind in ("n", "rest")
    )


def _counts_a_repeat(c: Cursor) -> bool:
    """ "… (ch 2, skip 2, dc in next ch) 14 times. 15 sps": the spaces that the repeat before made, counted; no more of them."""
    if c.i < 2 or c.t[c.i - 1].kind != "." or c.t[c.i - 2].kind not in ("times", "once", "around", "across", "end"):
        return False
    return c.kind == "n" and c.look(2).kind in (".", "", ",", ")")


def _unit(c: Cursor) -> str | None:
    if c.kind == "sp":
        c.i += 1
        return "sp"
    mesh = c.t[c.i].text.lower() in _SORTS and c.look().kind == "mesh"
    word = f"{c.t[c.i].text.lower()} mesh" if mesh else str(c.t[c.i].val).lower()
    if c.kind in ("w", "group", "grp", "loop") or mesh:
        made = "sp" if word in _SPACES else "bl" if word in _BLOCKS or c.t[c.i].text.lower() in ("bl", "bls") else None
        c.i += (1 + mesh) if made else 0
        return made
    return None


_SORTS = frozenset(("open", "solid", "filled", "closed"))
"""Which mesh: a space or a block."""


def at_block(c: Cursor) -> Spot | None:
    """ "(Dc in) last dc of bl", "in 4th dc of next block", "in first tr of each bl": that one of the block the hand is in, or of the one it
    comes to; None with the cursor unmoved."""
    if not c.ctx.filet or c.kind not in ("o", "last"):
        return None
    begin, nth = c.i, -1 if c.kind == "last" else c.t[c.i].val
    c.i += 1
    what = str(c.t[c.i].val) if c.kind == "st" else "st" if c.kind == "noun" else ""
    c.i += 1
    if what and isinstance(nth, int) and c.take("of"):
        c.drop("the", "that", "a", "same", "each")
        following = c.take("next") is not None
        c.drop("n")
        if _unit(c) == "bl" and c.kind != "of":
            return Spot(Place(where="next" if following else "named", what=what, nth=nth, of="group"))
    c.i = begin
    return None


def _over(c: Cursor) -> str | None:
    """ "over next 2 bls", "over sp": what lies below."""
    begin = c.i
    if c.kind not in ("over", "in", "above"):
        return None
    c.i += 1
    c.drop("the", "next", "each", "all", "idle", "of", "o", "last")
    number(c)
    found = _unit(c)
    if found is None:
        c.i = begin
    return found
