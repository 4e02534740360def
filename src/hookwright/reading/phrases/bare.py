"""Shorthand of toys in rounds: a number alone is so many plain stitches ("(3, inc) x 6"), and a repeat may stand in a bracket."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Colour, Make, Place, Ring, Sized, Step, Together, Turn
from .colours import NAMES
from .cursor import Cursor
from .nouns import TILES
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("(3, inc) x 6", "[sc×3, 2sc]×6"),
    ("*2 dc, 1 dc* 6 times", "[2dc, dc]×6"),
    ("[2, dec] 6 times", "[sc×2, sc2tog]×6"),
    ("4 blue, 2 gold; repeat", "[blue:, sc×4, gold:, sc×2]×rest"),
    ("3 sc, inc (rep x6)", "[sc×3, 2sc]×6"),
    ("3 sc, inc; repeat 6x", "[sc×3, 2sc]×6 more"),
)
_BEFORE = frozenset(("(", "[", "{", "*", ",", ""))
_AFTER = frozenset((",", ")", "]", "}", "*", "+", "around"))
AFTER_BLOCK = frozenset((*_AFTER, "", ".", ";", "(", "[", "and"))
_PIECES = frozenset("sew motif motifs square squares strip strips pieces ball balls skein skeins hanks".split())  # noqa: SIM905
"""Words of rows that tell how many pieces (or balls) there are of a colour, not how many stitches."""


def bare_number(c: Cursor) -> list[Step] | None:
    """ "3" before a comma, beside an increase or decrease, in the stitch of the piece."""
    token, before = c.t[c.i], c.t[c.i - 1].kind if c.i else ""
    if (ringed := _in_ring(c)) is not None:
        return ringed
    if not c.ctx.rounds or not c.ctx.main or not isinstance(token.val, int) or not 0 < token.val <= 200:
        return None
    counted = c.look().kind in ("(", "[", "{", "=") and c.look(2).kind == "n"
    alone = counted and c.i == 0 and c.look(2).val == token.val  # "9 (9)"
    if not alone and (before not in _BEFORE or not (counted or c.look().kind in _AFTER) or not _beside_shaping(c)):
        return None
    start = c.i
    c.i += 1
    return [make(c, start, c.ctx.main, found=Spot(Place(), Sized((token.val,))))]


def _in_ring(c: Cursor) -> list[Step] | None:
    """ "6 in a magic ring": so many of the piece's stitch, in a ring made first."""
    ahead = 1 + (c.look().kind == "in")
    ahead += c.look(ahead).kind in ("a", "the")
    if c.i or c.look().kind != "in" or c.look(ahead).kind != "mring" or not isinstance(c.t[c.i].val, int):
        return None
    start, many = c.i, Sized((c.t[c.i].val,))
    c.i += ahead + 1
    c.in_ring = True
    ring = Ring(id=c.id(), span=c.span(start + 1))
    return [ring, make(c, start, c.ctx.main or "sc", each=many, found=Spot(Place(where="ring", what="ring")))]


def colour_block(c: Cursor) -> list[Step] | None:
    """ "4A, 1B": so many plain stitches in that colour, where the pattern has such colours."""
    token, yarn = c.t[c.i], c.look()
    if not isinstance(token.val, int) or yarn.kind not in ("w", "a", "color") or c.look(2).kind not in AFTER_BLOCK:
        return None
    lettered = len(yarn.text) <= 3 and yarn.text.isupper() and yarn.text.lower() in c.ctx.colours
    if not lettered and (yarn.val not in NAMES or any(t.val in _PIECES for t in c.t)):
        return None
    start = c.i
    c.i += 2
    return in_yarn(c, start, Colour(id=c.id(), span=c.span(start + 1), yarn=yarn.text), token.val)


def in_yarn(c: Cursor, start: int, colour: Colour, many: int) -> list[Step]:
    """So many stitches (blocks, in work from corner to corner) in one yarn, told from token `start` on."""
    if c.ctx.tiles or _counted_in_tiles(c):
        return [colour, tile(c, start, many)]
    return [colour, make(c, start, c.ctx.main or _plain_so_far(c), found=Spot(Place(), Sized((many,))))]


def _counted_in_tiles(c: Cursor) -> bool:
    """ "Row 3: 2 E, 1 F (3 blocks)": a chart from corner to corner is told in blocks of three stitches, not in stitches."""
    words = c.t
    return any(
        words[k].kind in ("(", "[", "=", "-") and words[k + 1].kind == "n" and words[k + 2].text.lower().removesuffix("s") in TILES
        for k in range(len(words) - 2)
    )


def tile(c: Cursor, start: int, many: int) -> Together:
    """So many blocks of three dc (common practice, no source). How each hangs on the row below is told once, beside the chart, and no
    place is counted for it here."""
    inner = Make(id=c.id(), span=c.span(start), stitch="dc", each=Sized((3,)), at=Place(where="same"))
    return Together(
        id=c.id(), span=c.span(start), body=(inner,), at=Place(where="marked", what="piece"), places=Sized((many,)), name="block"
    )


def side_by_side(c: Cursor, body: tuple[Step, ...]) -> tuple[Step, ...]:
    """ "*2 dc, 1 dc*": nobody writes three plain stitches so; the two are an increase in one stitch, the one stands beside it."""
    makes = [step for step in body if not isinstance(step, Aside)]
    if len(makes) < 2 or not all(isinstance(step, Make) and step.at == Place() and step.each == ONE for step in makes):
        return body
    if len({step.stitch for step in makes if isinstance(step, Make)}) != 1:
        return body
    if any(t.kind in ("in", "each", "next", "over") for t in c.t if makes[0].span.start <= t.start < makes[-1].span.end):
        return body
    told = [step.places.values if isinstance(step, Make) and isinstance(step.places, Sized) else () for step in makes]
    if not any(one == (1,) for one in told) or not all(one in ((1,), (2,), (3,)) for one in told) or all(one == (1,) for one in told):
        return body
    return tuple(replace(step, each=step.places, places=ONE) if isinstance(step, Make) and step.places != "rest" else step for step in body)


def colour_times(c: Cursor) -> list[Step] | None:
    """ "MC x 30", "CC x3", "A 5" in a list of such blocks: so many plain stitches in that colour."""
    yarn = c.t[c.i]
    lettered = len(yarn.text) <= 3 and yarn.text.isupper() and yarn.text.lower() in c.ctx.colours
    if not lettered and yarn.val not in NAMES and not (c.ctx.tiles and yarn.text[:1].isupper()):
        return None
    start = c.i
    k = c.i + 1
    signed = c.t[k].val in ("x", "*") or c.t[k].kind == "x" or (lettered and c.t[k].kind in (":", "-"))
    k += signed
    many = c.t[k].val
    if not isinstance(many, int) or c.t[k].kind != "n" or c.t[k + 1].kind not in AFTER_BLOCK:
        return None
    if not signed and (not lettered or c.t[start - 1].kind not in ("", *_BEFORE)):
        return None
    c.i = k + 1
    return in_yarn(c, start, Colour(id=c.id(), span=c.span(start, start + 1), yarn=yarn.text), many)


_HARMLESS = frozenset((",", ".", ";", "", "with", "in", "color", "w", "idle", "the", "turn", "foff", "join", "and", "not", "loop"))


def nothing_else(c: Cursor) -> bool:
    """Whether the stitch just named is all the row tells ("Plain, with blue.", "sc = 30"): then it goes to the row's end."""
    begun = all(isinstance(step, (Turn, Colour, Aside)) or (isinstance(step, Chain) and not step.foundation) for step in c.out)
    if len(c.frames) > 1 or not begun:
        return False
    if c.kind in ("=", "(", "[", "{") and c.look().kind == "n":
        return c.ctx.rounds and not c.out
    if c.kind == "," and not c.out and c.look().text.lower() in _HOW:
        return True  # "Double crochet, decreasing in every 10th stitch"
    if c.kind == "." and c.ctx.rounds and c.look().kind == "st" and c.look().val == "sl st" and c.look(2).kind == "in":
        return True  # "Rnds 10-20: sc. Sl st in next 2."
    rest = c.t[c.i : _count_at_end(c)]
    join = next((k for k, token in enumerate(rest) if token.kind == "join"), len(rest))
    rest = rest[:join] if all(token.kind in _OF_JOIN for token in rest[join:]) else rest
    plainly = any(token.kind == "without" for token in rest)
    return all(token.kind in _HARMLESS or (plainly and token.kind in ("without", "inc", "dec")) for token in rest)


_OF_JOIN = frozenset(("join", "with", "a", "st", "in", "to", "o", "top", "of", "the", "beg", "noun", "tch", ".", "turn", "foff", ""))
_HOW = frozenset("taking working putting inserting without increasing decreasing widening narrowing".split())  # noqa: SIM905


def _count_at_end(c: Cursor) -> int:
    """Where the count that the row ends with begins ("sc. 32 sts", "sc without increasing = 30 sts"); the row's end when it states none."""
    k = c.end
    while k > c.i and c.t[k - 1].kind in (".", "noun", "st", "total", ")", "]", "}"):
        k -= 1
    if k - 1 > c.i and c.t[k - 1].kind == "n" and c.t[k - 2].kind in (".", "=", "-", "(", "[", "{", ":", ";"):
        return k - 2 if c.t[k - 2].kind != "." else k - 1
    return c.end + 1


def _plain_so_far(c: Cursor) -> str:
    """The stitch of the row so far; single crochet where none stands there (common practice in charts of colour, no source)."""
    return next((step.stitch for step in reversed(c.out) if isinstance(step, Make)), "sc")


def _beside_shaping(c: Cursor) -> bool:
    """An increase or decrease stands in the same unit."""
    near = c.t[max(0, c.i - 6) : c.i + 7]
    return any(token.kind in ("inc", "dec") for token in near)


def bracketed_repeat(c: Cursor) -> list[Step] | None:
    """ "(rep x6)", "(repeat 6 times)" after the words that are repeated."""
    from .repeats import repeat

    close = c.close.get(c.i)
    if close is None or c.look().kind != "rep" or not any(isinstance(step, Make) for step in c.out):
        return None
    start = c.i
    c.i += 1
    got = repeat(c)
    if got is None or c.i != close:
        c.i = start
        return None
    c.i = close + 1
    return got
