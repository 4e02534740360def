"""The other kinds of place that one run goes into: "in each dc, ch-2 sp and tch", "in each sc and each sp across"."""

from __future__ import annotations

from ...pattern import Place
from .cursor import Cursor
from .limits import limit_spot
from .nouns import SPACES, noun
from .parts_of import part_of
from .spots import CLOSE, Spot
from .upto import is_space_ahead

EXAMPLES = (
    ("sc in each dc, each ch-1 sp and tch", "sc×rest@next dc, sc×rest@next ch-1 sp, sc@named tch"),
    ("sc in each sc and ch-2 sp across", "sc×rest@next sc, sc×rest@next ch-2 sp"),
    ("FPdc around each FPdc and BPdc around each BPdc across", "FPdc×rest@next FPdc, BPdc×rest@next BPdc"),
)

_ROUND_A_POST = frozenset(("each", "next", "post", "all", "first", "last", "same", "the", "n"))
_GOES_ON = CLOSE | {"and", "around", "across", "along", "to", "turn", "join"}


def another_kind(c: Cursor, before: Spot) -> Spot | None:
    """The next kind of place in a list after "in each …"; None with the cursor unmoved.

    Each kind is a run of its own, since a space takes one stitch whatever the number of its chains.
    """
    if not before.each or before.places != "rest" or before.at.where != "next" or before.at.loop != "both" or before.every > 1:
        return None
    start = c.i
    if not (comma := bool(c.take(","))) and not c.take("and"):
        return None
    comma = not c.take("and") and comma
    prep = bool(c.take("in", "over"))
    each = bool(c.take("each", "all"))
    c.drop("of", "the")
    found = None if each else _turning_chain(c)
    if found is None and (what := _kind(c, each, comma, prep)) is not None:
        found = Spot(Place(what=what), "rest", each=True)
        if not limit_spot(c, found) and c.kind == "," and c.look().kind in ("to", "around", "across"):
            c.i += 1  # "in every sc, and each space, to end"
            c.i -= not limit_spot(c, found)
    if found is None or c.kind not in _GOES_ON:
        c.i = start
        return None
    return found


def _kind(c: Cursor, each: bool, comma: bool, prep: bool) -> str | None:
    """A space by its name, or a stitch where "each" is said or "and" joins it ("each dc and sc"); else None."""
    if c.kind in SPACES or (c.kind in ("ch", "n") and is_space_ahead(c)):
        what = noun(c, chains=True)
        return what if each or c.t[c.i - 1].kind in SPACES else None
    plain = c.kind in ("st", "grp") and (each or not (comma or prep)) and c.look().kind in CLOSE | {"around", "across", "and"}
    if plain and not each and c.look().kind == "around" and c.look(2).kind in _ROUND_A_POST:
        return None  # "FPdc around each FPdc and BPdc around each BPdc": a stitch of its own
    return noun(c) if plain else None


def _turning_chain(c: Cursor) -> Spot | None:
    """ "tch", "top of tch", "turning chain": the last place of the row."""
    start = c.i
    if c.kind == "top" and (found := part_of(c)) is not None and found.at.what == "tch":
        return found
    c.i = start
    if c.kind == "tch" and noun(c) == "tch":
        return Spot(Place(where="named", what="tch"))
    c.i = start
    return None
