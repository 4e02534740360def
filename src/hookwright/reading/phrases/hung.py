"""Chains worked round, named by how many they are or by nothing: "under the chain", "under every 6 chain", "under the next 7 chain"."""

from __future__ import annotations

from typing import cast

from ...pattern import Place
from ...pattern.nodes import Where
from .cursor import Cursor
from .numbers import number
from .spots import CLOSE, Spot

EXAMPLES = (
    ("3 treble under the next 7 chain", "3tr@next ch-7 sp"),
    ("2 dc under the first 5 chain", "2dc@next ch-5 sp"),
)
LISTED = CLOSE | {"work"}


def of_last_row(c: Cursor, ahead: int) -> bool:
    """Whether "of (the) last round", "of previous row" stands so many tokens ahead: what every row is worked into anyhow."""
    k = ahead + 1 + (c.look(ahead + 1).kind == "the")
    return c.look(ahead).kind == "of" and c.look(k).kind in ("last", "prev") and c.look(k + 1).text.lower() in _A_ROW


def pass_last_row(c: Cursor) -> None:
    """Past "of (the) last round" at the cursor."""
    if of_last_row(c, 0):
        c.i += 3 + (c.look().kind == "the")


_A_ROW = frozenset(("row", "round", "rnd"))
ALONG = frozenset(("all", "along", "around", "across", "to"))
_BEHIND = LISTED | {"for", "to", "and", "then", "of"}


def under_a_chain(c: Cursor, prep: str) -> Spot | None:
    """ "Under the first chain", "under the next": a chain is worked round, though no number is told. None with the cursor unmoved."""
    begin = c.i
    c.drop("the")
    if (counted := _so_many(c) or several_rows(c)) is not None:
        return counted
    if prep != "under":
        c.i = begin
        return None
    if c.in_ring and c.kind in ("ch", "sp") and c.look().kind in LISTED:
        c.i += 1
        return Spot(Place(where="ring", what="ring"))  # "18 sc under the chain", which the row before joined into a ring
    if c.kind == "ch" and c.look().kind == "at" and _at_the_end(c):
        return Spot(Place(where="last", what="sp"))
    first = c.kind == "tch" and c.t[c.i].text.lower().startswith(("first", "1st"))
    if first or (c.kind == "next" and c.look().kind in _BEHIND):
        c.i += 1
        return Spot(Place(what="sp"))
    c.i = begin
    return None


def _at_the_end(c: Cursor) -> bool:
    """Past "ch at (the) end of row"; False with the cursor unmoved."""
    k = 2 + (c.look(2).kind == "the")
    if c.look(k).kind != "end":
        return False
    k += 1
    if c.look(k).kind == "of":
        k += 1 + (c.look(k + 1).kind in ("the", "last", "prev"))
        k += c.look(k).kind in ("row", "rnd")
    if c.look(k).kind not in CLOSE:
        return False
    c.i += k
    return True


def so_many_chains(c: Cursor) -> Spot | None:
    """ "(In) the first 5 chain", "last 3 chain": `_so_many` where nothing but these words follows the preposition."""
    begin = c.i
    c.drop("the")
    named = c.kind in ("o", "last") and (c.ctx.old or c.look(2).text.lower() == "chain")
    found = _so_many(c) if named else None
    c.i = begin if found is None else c.i
    return found


def _so_many(c: Cursor) -> Spot | None:
    """ "(Under) the next 7 chain", "the last 5 ch": one space, made of so many chains; None with the cursor unmoved."""
    begin = c.i
    where = {"next": "next", "last": "last", "same": "same"}.get(c.kind) or ("next" if c.kind == "o" and c.t[c.i].val == 1 else None)
    chains = c.look()
    if where is None or chains.kind != "n" or c.look(2).kind != "ch" or c.look(3).kind not in _BEHIND or not isinstance(chains.val, int):
        c.i = begin
        return None
    c.i += 3
    if c.kind == "of" and c.look(1 + (c.look().kind == "the")).kind in ("group", "grp"):
        c.i += 2 + (c.look().kind == "the")  # "under next 1 ch. of scallop"
    return Spot(Place(where=cast(Where, where), what=f"ch-{chains.val} sp"))


def several_rows(c: Cursor) -> Spot | None:
    """ "(Around the) chains of the 1st and 2d rows", "the 3 ch-4 loops of the last 3 rows", "all 3 loops": loops one above another, caught
    as one; the cursor unmoved where one row alone is named."""
    begin = c.i
    c.drop("around", "the", "all")
    definite = any(token.kind in ("the", "all") for token in c.t[max(0, begin - 1) : c.i])
    loops = number(c)
    all_told = definite and loops is not None and (loops.values[0] or 0) > 1
    long = c.look(1 + (c.look().kind == "-"))
    chains = long.val if c.kind == "ch" and long.kind == "n" else None
    if chains is not None:
        c.i += 2 + (c.look().kind == "-")
    several_told = c.t[c.i].text.lower().endswith("s")
    if not c.take("lp", "sp", *(("ch",) if chains is None else ())):
        c.i = begin
        return None
    what = "sp" if chains is None else f"ch-{chains} sp"
    c.i += c.kind == "below" and all_told
    c.i += c.t[c.i].text.lower() == "together" and all_told
    if c.kind != "of":
        if all_told and several_told and c.kind in CLOSE and c.t[c.i - 1].kind != "ch":
            return Spot(Place(what=what))  # "s c over the 3 ch-4 loops": of so many rows, and not one in each
        c.i = begin
        return None
    first = c.i = c.i + 1
    while c.kind in ("the", "o", "n", "and", ",", "last", "prev", "both", "below", "row", "rnd", "idle", "next") and c.t[c.i].text != ",":
        c.i += 1
    told = c.t[first : c.i]
    several = sum(token.kind in ("o", "n") for token in told) > 1 or any(
        token.kind == "both" or token.text.lower() in _ROWS for token in told
    )
    if not several or not any(token.kind in ("row", "rnd") for token in told) or c.kind not in CLOSE:
        c.i = begin
        return None
    return Spot(Place(what=what))


_ROWS = frozenset(("rows", "rounds", "rnds"))


def each_chain(c: Cursor) -> Spot | None:
    """ "under every 1 chain", "over each 3 ch": one space after another, each under so many chains."""
    told = number(c)
    c.i += 1
    if told is None or told.many:
        return None
    return Spot(Place(what=f"ch-{told.values[0]} sp"), "rest", each=True)


def chain_of(c: Cursor) -> Spot | None:
    """ "(under every) chain of five": the loops of so many chains; None with the cursor unmoved."""
    begin = c.i
    c.i += 1
    if c.take("of") and c.kind == "n" and c.look().kind not in ("ch", "st", "noun", "grp"):
        told = number(c)
        if told is not None and not told.many:
            return Spot(Place(what=f"ch-{told.values[0]} sp"), "rest", each=True)
    c.i = begin
    return None
