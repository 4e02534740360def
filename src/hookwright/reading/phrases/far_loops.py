"""The free loops of a beginning chain, from which a piece is worked the other way: "in unused loops of foundation ch", "in free loop of
each ch of starting chain"."""

from __future__ import annotations

from .cursor import Cursor

EXAMPLES = (
    ("working in free loops of beginning ch, sc in each ch around", "sc×rest@under ch"),
    ("20 sc in unused loops of foundation chain", "sc×20@under ch"),
    ("dc in each remaining loop of starting ch across", "dc×rest@under ch"),
)
_FREE = frozenset(("free", "unworked", "rem", "other"))
_BEGUN = frozenset(("foundation", "starting", "original", "beginning", "initial", "base", "first"))


def far_loops(c: Cursor) -> bool:
    """Pass over "(each) free loop(s) of the beginning chain"; False with the cursor unmoved."""
    begin = c.i
    c.drop("the", "each", "of")
    free = c.kind in _FREE
    c.drop(*_FREE)
    loops = c.take("lp") is not None
    free = free or (loops and c.kind in _FREE and c.t[c.i].val not in ("other",))
    c.drop("rem", "free", "unworked") if loops else None
    if free and loops and c.kind in ("of", "in", "along", "from"):
        c.i += 1
        if c.kind in ("each", "all", "o") and c.look().kind == "ch" and c.look(2).kind in ("of", "in"):
            c.i += 3
        if begun_chain(c):
            return True
    c.i = begin
    return False


def on_begun_chain(c: Cursor) -> bool:
    """Pass over "to (the edge of) the foundation chain", "in the beginning chain"; False with the cursor unmoved."""
    begin = c.i
    if c.take("in", "to", "at", "along") is not None:
        c.drop("the")
        if c.kind == "side" and c.look().kind == "of":
            c.i += 2
        if begun_chain(c):
            return True
    c.i = begin
    return False


def begun_chain(c: Cursor, after: str = "") -> bool:
    """Pass over (a preposition `after` which it stands and) "the foundation chain", "beg ch", "base ch-15 (edge)"; False, unmoved, else."""
    begin = c.i
    if after and c.take(after) is None:
        return False
    c.drop("the")
    told = False
    while c.t[c.i].val in _BEGUN or c.kind in ("beg", "base"):
        told = True
        c.i += 1
    if c.kind == "tch" or (c.kind == "ch" and (told or str(c.t[c.i].val).split(" ")[0] in _BEGUN or c.look().kind != "n")):
        c.i += 1
        if c.kind == "n" and not c.t[c.i].gap:
            c.i += 1
        elif c.kind in ("-", "n") and told and c.look().kind == "n":
            c.i += 2
        c.take("side")
        if c.kind != "of":
            return True  # (that of another piece or half is named by it)
    elif told and c.kind in ("row", "rnd"):
        c.i += 1
        return True
    c.i = begin
    return False
