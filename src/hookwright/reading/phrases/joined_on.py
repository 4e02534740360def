"""Places on pieces joined as they are made, or joined before: "join next picot to next picot on 1st Block", "between any 2 motifs"."""

from __future__ import annotations

from ...pattern import ONE, Aside, Make, Place, Sized, Step
from .cursor import Cursor

EXAMPLES = (
    ("5 sc in next lp, join next picot to next picot on 1st Block, 5 sc in same lp", "5sc@next sp, sl st@marked piece, 5sc@same sp"),
    ("3 dc between next 2 motifs, ch 3, sc in joining of motifs", "3dc@marked piece between, ch3, sc@marked piece"),
)

PIECES = frozenset(
    "motif motifs block blocks square squares medallion medallions wheel wheels strip strips hexagon hexagons octagon octagons flower "  # noqa: SIM905
    "flowers rosette rosettes doily star stars diamond diamonds".split()
)
ON_A_PIECE = Place(where="marked", what="piece")
_BEFORE = frozenset(("the", "idle", "next", "any", "a", "n", "o", "last", "same", "corner", "each", "both", "other", "prev", "of", "all"))
_JOINED = frozenset(("st", "noun", "grp", "sp", "lp", "mesh", "group", "ch", "corner", "center", "n", "o", "last", "free", "beg", "-"))
MOST = 26
"""Words, at most, that tell what is joined to what."""


def between_pieces(c: Cursor) -> bool:
    """Pass over "(between) any 2 motifs", "(in) joining of 2 blocks"; False with the cursor unmoved. The preposition stands before."""
    start = c.i
    joining = c.kind == "join"
    if joining:
        c.i += 1
        if not c.take("of", "between"):
            c.i = start
            return False
    elif c.t[c.i - 1].kind != "between":
        return False
    c.drop(*_BEFORE)
    if _is_piece(c):
        c.i += 1
        return True
    c.i = start
    return False


def loops_of_a_thing(c: Cursor) -> bool:
    """Pass over "(thru) all 5 lps of one petal": the strands of a thing that was wound or woven, taken together; nobody counted it."""
    start = c.i
    c.i += 1
    c.drop("the", "n")
    if not (c.take("lp") and c.take("of")):
        c.i = start
        return False
    c.drop("the", "next", "n", "a", "same", "each")
    if c.kind not in ("grp", "group", "w"):
        c.i = start
        return False
    c.i += 1
    return True


def joins_to_piece(c: Cursor) -> list[Step] | None:
    """From "join": so many slip stitches into another piece where the words name one, "… to (corresponding) … on 1st Block"."""
    start = c.i
    c.i += 1
    told: int | None = None
    first = c.i
    while c.kind in _JOINED or c.kind in ("the", "next", "idle", "and", "of", "in", "each") or (_is_piece(c) or c.t[c.i].val == "petal"):
        if c.kind == "n" and told is None and isinstance(c.t[c.i].val, int) and c.look().kind != "-":
            told = c.t[c.i].val
        if c.kind == "and" and c.look().kind == "o":
            told = 2  # "2d and 3d picots"
        c.i += 1
    if c.i == first or not any(t.kind in ("grp", "sp", "lp", "st", "noun", "group", "ch") for t in c.t[first : c.i]):
        c.i = start
        return None
    manner = c.i
    while c.kind in ("in", "the", "same", "idle", "as") or c.t[c.i].val in ("way", "manner"):
        c.i += 1
    if c.kind != "to":
        c.i = manner
    if not c.take("to"):
        c.i = start
        return None
    end = c.i
    while c.t[end].kind not in (",", ";", ".", "") and end - start < MOST and not (c.t[end].kind == "and" and _goes_on(c, end + 1)):
        end += 1
    if not any(_piece_at(c, k) for k in range(c.i, end)):
        c.i = start
        return None
    c.i = end
    return [Make(id=c.id(), span=c.span(start), stitch="sl st", each=Sized((told or 1,)), places=ONE, at=ON_A_PIECE)]


def like_first(c: Cursor) -> list[Step] | None:
    """ "with each corner like first one", "making all corners the same": how the others are worked; nothing more."""
    start = c.i
    c.i += 1
    c.drop("each", "all", "the", "other")
    if not c.take("corner", "group", "side"):
        c.i = start
        return None
    c.drop("counts", "work", "idle")
    if not c.take("as", "like", "same"):
        c.i = start
        return None
    c.drop("the", "same", "as", "o", "idle", "corner")
    c.i += c.t[c.i].text.lower() in ("one", "ones")
    if c.kind not in (",", ";", ".", ""):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def _goes_on(c: Cursor, k: int) -> bool:
    return c.t[k].kind in ("st", "ch", "n", "join", "turn", "foff", "rep") or c.t[k].val in ("complete", "finish")


def _is_piece(c: Cursor) -> bool:
    return _piece_at(c, c.i)


def _piece_at(c: Cursor, k: int) -> bool:
    return c.t[k].text.lower() in PIECES
