"""The free loops of a beginning chain, from which a piece is worked the other way: "in unused loops of foundation ch", "in free loop of
each ch of starting chain"."""

from __future__ import annotations

from ...pattern import Make
from ..wording.token import Token
from .cursor import FAR, Context, Cursor
from .numbers import number
from .spots import ONE, Spot

EXAMPLES = (
    ("working in free loops of beginning ch, sc in each ch around", "sc×rest@under ch"),
    ("20 sc in unused loops of foundation chain", "sc×20@under ch"),
    ("dc in each remaining loop of starting ch across", "dc×rest@under ch"),
    (
        "sc in 2nd ch from hook and next 4 ch, 3 sc in last ch, sc in the unused loop of each of the next 4 ch",
        "sc@from_hook ch#2, sc×4@next ch, 3sc@last ch, sc×4@under ch",
    ),
)
_FREE = ("free", "unworked", "rem")
_BEGUN = frozenset(("foundation", "starting", "original", "beginning", "initial", "base", "first"))
_BELOW = frozenset(("base", "beg", "lp", "opp", "tch"))
"""Kinds of words that tell a beginning chain from one worked in passing."""


def told_far(heading: list[Token]) -> bool:
    """Whether a heading says that its piece stands on a beginning chain: "Brim (worked in the free loops of the foundation chain)"."""
    c = Cursor(heading, Context(), {})
    while c.kind:
        begin = c.i
        c.i += 1
        if c.t[begin].kind not in ("in", "along", "from", "at", "on", "to"):
            continue
        c.drop("the", "other", "base", "opp", "of", "side")
        based = any(token.kind in ("base", "opp") for token in c.t[begin : c.i])
        found = far_loops(c) or begun_chain(c) or (based and c.take("ch") is not None)  # "on the base of the ch 15"
        if found and any(token.kind in _BELOW or str(token.val).split(" ")[0] in _BEGUN for token in heading[begin : c.i]):
            return True
    return False


def far_loops(c: Cursor) -> bool:
    """Pass over "(each) free loop(s) of the beginning chain", "loops left free of it", under a heading that told the chain also "(each)
    free loop"; False with the cursor unmoved."""
    begin = c.i
    c.drop("the", "each", "of", "other", *_FREE)
    if c.take("lp") is not None:
        c.drop(*_FREE)
        free = any(token.kind in ("other", *_FREE) for token in c.t[begin : c.i])
        if free and c.ctx.far and c.kind not in ("of", "in", "along", "from"):
            return True  # of the chain that the heading told
        if free and c.take("of", "in", "along", "from") is not None:
            if c.kind in ("each", "all", "o") and c.look().kind == "ch" and c.look(2).kind in ("of", "in"):
                c.i += 3  # "of each ch of it"
            if begun_chain(c):
                return True
    c.i = begin
    return False


def loops_of_so_many(c: Cursor) -> Spot | None:
    """ "(Sc in) the unused loop of each of the next 22 ch", "the remaining loops of the next 9 ch", behind the row along their other side;
    None with the cursor unmoved."""
    begin = c.i
    c.drop("the", "each", "other", *_FREE)
    free = any(token.kind in ("other", *_FREE) for token in c.t[begin : c.i]) and c.take("lp") is not None
    if free and c.take("of", "in") is not None and any(isinstance(step, Make) and step.at.where == "from_hook" for step in c.out):
        each = bool(c.take("each"))
        c.drop("of", "the", "next")
        told = number(c) if c.kind == "n" else None
        if told is not None and c.take("ch"):
            return Spot(FAR, told, each=each, told=True)
    c.i = begin
    return None


def base_of_chain(c: Cursor) -> Spot | None:
    """ "(Join to the base) of a ch", "of any foundation ch", "(sc in the base) of each ch around": on the other side of the beginning
    chain; None with the cursor unmoved, as for "base of ch-3"."""
    begin = c.i
    if c.take("of"):
        c.drop("the")
        every = c.kind in ("each", "all")
        one = c.kind in ("a", "any") or (c.kind == "o" and c.t[c.i].val == 1)
        c.drop("each", "all", "a", "any", "o", "next")
        plain = c.kind == "ch" and c.look().kind not in ("n", "-")
        if (every or one) and plain:
            c.i += 1
            return Spot(FAR, "rest" if every else ONE, each=every)
        if str(c.t[c.i].val).split(" ")[0] in ("foundation", "original", "base") and begun_chain(c) and c.t[c.i - 1].kind == "ch":
            return Spot(FAR, ONE if one else "rest", each=every)
    c.i = begin
    return None


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


def begun_chain(c: Cursor) -> bool:
    """Pass over "(the) foundation chain", "beg ch", "base ch-15", "starting row", "foundation edge"; False, the cursor unmoved."""
    begin = c.i
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
    elif told and (c.kind in ("row", "rnd") or (c.kind == "side" and c.t[c.i - 1].val in _BEGUN)):
        c.i += 1
        return True
    c.i = begin
    return False
