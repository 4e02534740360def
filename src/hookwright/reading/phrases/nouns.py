"""Names of what is worked into: "st", "next dc", "ch-2 sp", "3-ch loop", "shell"."""

from __future__ import annotations

from .cursor import Cursor
from .things import GARMENT_PARTS

SPACES = frozenset(("sp", "lp", "mesh"))
TILES = frozenset(("block", "tile", "square", "pixel"))
"""Names of the unit of work from corner to corner."""
PLACING = frozenset(("in", "over", "under", "each", "next", "same", "around", "last", "all"))
"""Kinds of words that tell where a stitch is worked."""


NOUNS = frozenset(
    ("st", "noun", "sp", "lp", "mesh", "group", "ring", "tch", "corner", "marker", "place", "row", "rnd", "bar", "piece", "side", "ends", "grp",  # noqa: E501
     "ch", "post", "inc", "dec", "base", "top", "opp", "mring", "patt", "join")
)  # fmt: skip


_ADJECTIVES = frozenset(
    (
        "corner",
        "free",
        "raised",
        "unworked",
        "skip",
        "idle",
        "rem",
        "beg",
        "marker",
        "turn",
        "join",
        "end",
        "single",
        "same",
        "color",
        "side",
        "opp",
    )
)


_TELLING = frozenset("standing single lone separate odd small large big little larger smaller turning connecting".split())  # noqa: SIM905


def noun(c: Cursor, *, chains: bool = False) -> str | None:
    """The name of what is worked into ("st", "dc", "ch-2 sp", "shell" …), or None. `chains`: a bare "ch 3" may be a noun here."""
    start = c.i
    while (c.kind in _ADJECTIVES or _coloured(c) or _of_garment(c)) and _noun_ahead(c):
        c.i += 1
    corner = any(c.t[k].kind == "corner" for k in range(start, c.i))
    what = _noun_head(c, chains)
    if what is None:
        if corner:
            return "corner"
        c.i = start
        return None
    if corner and c.t[start - 1].kind == "each" and what in ("st", *CORNER_STITCHES):
        return CORNER_STITCH  # "3 sc in each corner st": not in every stitch
    return "corner" if corner and what in ("sp", "group") else what


CORNER_STITCH = "corner st"
"""The stitch in the middle of a corner, as a noun; `tail` makes a place of it."""
CORNER_STITCHES = ("sc", "hdc", "dc", "tr")


def _coloured(c: Cursor) -> bool:
    """ "last Green sc", "White loop", "single d c": the colour, or how it stands, tells which."""
    return c.kind == "w" and (c.t[c.i].val in c.ctx.colours or c.t[c.i].text[:1].isupper() or c.t[c.i].val in _TELLING)


def _of_garment(c: Cursor) -> bool:
    """ "each sleeve dc", "first underarm ch", "the neck edge": which of them, by the garment's part."""
    return c.kind == "w" and c.t[c.i].text.lower() in GARMENT_PARTS and c.look().kind in ("st", "noun", "ch", "sp", "lp", "mesh")


def _noun_ahead(c: Cursor) -> bool:
    t = c.look()
    if t.kind == "-" and t.val == "tight" and c.kind == "corner":
        return False
    if c.kind == "side" and c.t[c.i].text.lower() == "edge" and t.kind == "st" and c.t[c.i - 1].kind in ("the", "of", "n", "each", "last"):
        return True  # "to the foot of the edge d c"
    if c.kind in ("side", "opp"):
        return t.kind in ("ch", "sp", "lp")
    return t.kind in NOUNS or t.kind in ("st", "noun", "grp", "n", "corner", "free", "raised", "tch", "single")


def _noun_head(c: Cursor, chains: bool) -> str | None:
    token = c.t[c.i]
    kind = token.kind
    if kind == "ch":
        return _chain_noun(c, chains)
    if kind == "n":
        return _count_noun(c)
    if kind == "noun":
        c.i += 1
        return "st"
    if kind == "st":
        c.i += 1
        name = c.us(str(token.val))
        if c.kind in SPACES and not (c.kind == "lp" and c.t[c.i].val in ("arc", "arcs")):
            c.i += 1
            return "sp"
        if c.kind == "group":
            c.i += 1
            return "group"
        if c.kind == "n" and c.look().kind == "tog" and not c.t[c.i].gap:
            c.i += 2  # "in first dc3tog"
        c.drop("noun", "post")
        return name
    if kind == "leave" and token.text.lower() == "leaves":
        c.i += 1  # "between the leaves", "8 leaves": those of a flower
        return "petal"
    if kind == "grp":
        c.i += 1
        if c.kind in SPACES:
            c.i += 1
            return "sp" if token.val != "picot" else "picot"
        c.drop("noun")
        return str(token.val)
    if kind in SPACES:
        c.i += 1
        if c.kind == "sp":
            c.i += 1
        return "sp"
    if (
        token.text.lower() in _OPENINGS
        and c.t[c.i - 1].kind in ("n", "each", "next", "o", "last", "same")
        and c.look().kind in _CLAUSE_ENDS
    ):
        c.i += 1  # "miss one opening", "1 long in every opening": the hole of open work
        return "sp"
    if kind == "mring":
        c.i += 1
        return "ring"
    simple = {"group": "group", "ring": "ring", "tch": "tch", "corner": "corner", "marker": "marker", "place": "st", "row": "row", "rnd": "row",  # noqa: E501
              "bar": "bar", "free": "st", "inc": "inc", "dec": "dec", "patt": "group", "piece": "piece", "post": "st", "ends": "row", "side": "side"}  # fmt: skip  # noqa: E501
    if kind == "side" and c.look().kind in SPACES:
        c.i += 2  # "in the side space": one that lies on a side of the square, no edge of the piece
        return "sp"
    if kind in simple:
        c.i += 1
        if kind == "tch" and (
            (c.kind == "n" and not (c.look().kind == "st" and c.t[c.i].gap))
            or (c.kind == "-" and c.t[c.i].val == "tight" and c.look().kind == "n")
        ):
            c.drop("-")
            c.i += 1
        if kind == "tch" and c.kind in SPACES:
            c.i += 1
            return "tch sp"
        if kind == "corner":
            c.drop("-")
            return noun(c) or "corner"
        if kind in ("inc", "dec") and c.kind == "noun":
            c.i += 1
        return simple[kind]
    if kind == "join" and token.val in ("join", "joining", "joined"):
        c.i += 1
        if c.kind in ("st", "noun", "ch"):
            c.i += 1
        return "join"
    return None


_OPENINGS = frozenset(("opening", "openings"))
_CLAUSE_ENDS = frozenset((",", ";", ".", "", "*", ")", "]", "and", "around", "across"))


def _chain_noun(c: Cursor, chains: bool) -> str:
    """From a token "ch": "ch-2 sp", "ch sp", "ch-3", "ch"."""
    c.i += 1
    start = c.i
    tight = c.take("-")
    size = c.t[c.i]
    if size.kind == "n" and isinstance(size.val, int):
        after = c.look()
        space = (
            after.kind in SPACES
            or (after.kind == "-" and c.look(2).kind in SPACES)
            or after.kind == "corner"
            or after.text.lower() == "point"
        )
        counts_what_follows = after.kind == "st" and size.gap and not tight  # "into the first chain 3 treble"
        if space or (tight and tight.val == "tight") or (not size.gap) or (chains and not counts_what_follows):
            c.i += 1
            if space:
                c.drop("-", "corner")
                c.drop(*SPACES)
                c.i += c.t[c.i].text.lower() == "point"  # "the ch-2 point" of a shawl
                return f"ch-{size.val} sp"
            c.take("group")
            return f"ch-{size.val}"
    if c.kind in SPACES:
        c.i += 1
        return "sp"
    c.i = start
    if c.kind == "group":
        c.i += 1
    return "ch"


def _count_noun(c: Cursor) -> str | None:
    """From a number: "3-ch loop", "5-dc group", "3 chain" (of an old book)."""
    size = c.t[c.i]
    if not isinstance(size.val, int):
        return None
    start = c.i
    c.i += 1
    c.take("-")
    if c.kind == "ch":
        c.i += 1
        if c.kind == "-" and (c.look().kind in SPACES or c.look().kind in ("group", "corner")):
            c.i += 1
        if c.kind == "corner":  # "6 2-ch corners"
            c.i += 1
        if c.kind in SPACES or c.kind == "group":
            c.i += 1
            return f"ch-{size.val} sp"
        return f"ch-{size.val} sp"
    if c.kind in ("st", "noun", "grp", "lp"):
        c.i += 1
        c.take("-")
        if c.kind in ("group", "grp", "lp", "sp", "mesh"):
            c.i += 1
            return "group"
    c.i = start
    return None


_SEVERAL = frozenset(("sps", "spaces", "loops", "lps"))


def count_noun_here(c: Cursor) -> bool:
    """ "3-ch loop": the number belongs to the name, but for "next 9 ch-sps": there are so many of several next ones."""
    after = c.look()
    if after.kind == "ch" and after.gap and c.t[c.i - 1].kind == "next" and c.look(2 + (c.look(2).kind == "-")).text.lower() in _SEVERAL:
        return False
    if after.kind == "-" and after.val == "tight":
        return c.look(2).kind in ("ch", "st", "noun", "grp", "lp")
    named = c.look(3 if c.look(2).kind == "-" else 2).kind
    return after.kind == "ch" and (named in SPACES or named == "corner")
