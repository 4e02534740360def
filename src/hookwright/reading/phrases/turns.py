"""Turning the work, said or forbidden: "turn", "do not turn", "turn with 3 chain"."""

from __future__ import annotations

from ...pattern import Aside, Join, Step, Turn
from ..wording.token import Token
from .cursor import Cursor
from .farside import far_side
from .toys import folded_over

EXAMPLES = (
    ("turn", "turn"),
    ("do not turn", "no turn"),
    ("turn with 3 ch, 1 dc in the next st", "turn, ch3, dc"),
    ("turn, with 3 ch", "turn, ch3"),
    ("sc across, turning each row with 1 chain, not counted", "sc×rest"),
    ("turn, sl st back in last sp, turn", "turn, sl st@last sp, turn"),
    ("sc across. Turn to work along one edge.", "sc×rest"),
)


def turn(c: Cursor) -> list[Step] | None:
    start = c.i
    if (told := folded(c)) is not None:
        return told  # "turn cuff up on Round 19"
    no = bool(c.take("not"))
    if no and c.kind == "join" and c.look().kind == "," and c.look(2).kind == "turn":
        c.i = start
        return None  # "do not join, turn"
    if no:
        c.drop("join", "or", ",", "and")
    if not c.take("turn"):
        c.i = start
        return None
    if not no and (along := far_side(c, start)) is not None:
        return along
    if not no and (any(_in_the_plane(token) for token in c.t[c.i : c.i + 5]) or _to_an_edge(c)):
        while c.kind not in (",", ".", ";", "", "(", "ch") and not (c.kind == "n" and c.look().kind in ("st", "ch")):
            c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]  # "Turn your work 90 degrees so you're working down the side."
    if no and c.t[start + 1].kind == "join":
        this_and_following(c)
        mark_beginning(c)
        return [Join(id=c.id(), span=c.span(start), no=True), Turn(id=c.id(), span=c.span(start), no=True)]
    c.drop("the", "piece") if c.kind in ("the", "piece") else None
    if c.kind == "and" and c.look().kind == "turn":
        c.i += 2
        while c.kind not in (",", ";", ".", "", ")", "]"):
            c.i += 1
    if c.kind in ("around", "back") and c.look().kind in (",", ";", ".", "", "and"):
        c.i += 1  # "turn back and work in double crochet"
    if not no and c.kind == "at":
        _at_which_end(c)
    if not no and c.kind == "," and {c.look(2).kind, c.look(3).kind} == {"n", "ch"} and c.look().kind in ("with", "by"):
        c.i += 1  # "turn, with 4 chain"
    if not no and _with_chains(c):
        c.i += 1
    if no and c.t[c.i].kind in ("after", "at") and _at_the_last(c):
        return [Aside(id=c.id(), span=c.span(start))]  # "Do not turn after last row.": the other rows are turned
    if no or c.kind in ("each", "all"):
        this_and_following(c)  # "do not turn this or following rounds", "ch 1, turn every row"
    return [Turn(id=c.id(), span=c.span(start), no=no)]


def with_chain_each_row(c: Cursor) -> list[Step] | None:
    """ "Turning every row with 1 chain, not reckoned in the stitches", "beginning each row with one chain": told for all rows, which then
    need not tell it. A longer one that nobody says is not counted stands for a stitch, which the rows must tell."""
    start = c.i
    if not c.take("turn", "beg"):
        return None
    while c.kind in ("at", "the", "ends", "end", "beg", "of"):
        c.i += 1
    if not (c.take("each", "all") and c.take("row") and c.kind in ("with", "by") and c.look(2).kind == "ch" and c.look().kind == "n"):
        c.i = start
        return None
    one = c.look().val == 1
    c.i += 3
    if not (_not_counted(c) or one):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def _not_counted(c: Cursor) -> bool:
    """Past ", not reckoned in the stitches", "(not counted)", "which does not count as a st"; False with the cursor unmoved."""
    begin = c.i
    c.i += c.kind in (",", "(")
    while c.kind in ("idle", "counts", "w", "the") and c.t[c.i].text.lower() in ("which", "that", "is", "are", "it"):
        c.i += 1
    if c.take("not"):
        while c.kind in ("w", "counts", "to", "idle", "as", "in", "the", "a", "noun", "st"):
            c.i += 1
        if c.t[c.i - 1].kind != "not" and c.kind in (",", ";", ".", "", ")"):
            c.i += c.kind == ")"
            return True
    c.i = begin
    return False


def folded(c: Cursor) -> list[Step] | None:
    """ "Fold the brim up on Round 3", "roll cuff back": the making up, to the end of its sentence; None with the cursor unmoved."""
    start = c.i
    if not folded_over(c):
        return None
    while c.kind not in (";", ".", ""):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


_IN_THE_PLANE = frozenset(("degrees", "degree", "°", "clockwise", "anticlockwise", "counterclockwise", "sideways"))


def _in_the_plane(token: Token) -> bool:
    return token.text.lower() in _IN_THE_PLANE or token.text.endswith("°")


_ALONG = frozenset(("along", "in", "over", "across", "around", "down", "up"))
_EDGES = frozenset(("side", "edge", "ends", "end"))


def _to_an_edge(c: Cursor) -> bool:
    """Whether the clause goes on "(turn) to work along one edge of the tube", "the ribbing on its side to work into the row ends": turned
    in the plane, and no stitch told yet."""
    words = c.t[c.i : next((k for k in range(c.i, len(c.t)) if c.t[k].kind in (",", ".", ";", "", "(")), c.i)]
    if any(token.kind in ("st", "ch", "opp", "n", "inc", "dec") and token.text.lower() != "one" for token in words):
        return False
    if c.kind in ("at", "after", "each", "all", "with", "by") or not words:
        return False
    edge = next((k for k, token in enumerate(words) if token.kind in _EDGES or token.text.lower() in _EDGES), None)
    return edge is not None and any(token.kind in _ALONG or token.text.lower() in _ALONG for token in words[:edge])


def _at_the_last(c: Cursor) -> bool:
    """Pass over "after last row", "at the end of the last row", "at end of Row 24"."""
    begin = c.i
    while c.kind in ("after", "at", "the", "end", "of", "your", "idle"):
        c.i += 1
    if c.kind in ("row", "rnd") and c.look().kind == "n" and c.look(2).kind in (".", ";", "", ",", ")", "("):
        c.i += 2
        return True
    if c.take("last") and c.take("row", "rnd"):
        return True
    c.i = begin
    return False


def _at_which_end(c: Cursor) -> None:
    """Past "(making ch 4 to turn) at end of 6th row": of several rows, the one whose turning differs."""
    begin = c.i
    c.i += 1
    c.drop("the")
    if c.take("end") and c.take("of"):
        c.drop("the", "last", "o", "n")
        if c.take("row", "rnd") and c.kind in (".", ";", "", ",", ")"):
            return
    c.i = begin


def _with_chains(c: Cursor) -> bool:
    """ "(turn) with 5 chain", "(turn) with ch 3": the chains that begin the row are told with the turning."""
    return c.kind in ("with", "by") and {c.look().kind, c.look(2).kind} == {"n", "ch"}


def this_and_following(c: Cursor) -> None:
    """ "this or following rounds", "this and next row", "all rows", "each round": the rule holds on."""
    begin = c.i
    while c.kind in ("the", "or", "and", "next", "all", "each", "rnd", "row", "around", "at", "end", "of", "unless", "rem", "any"):
        if c.kind in ("rnd", "row", "around"):
            c.i += 1
            c.told["hereafter"] = True
            return
        c.i += 1
    c.i = begin


def mark_beginning(c: Cursor) -> None:
    begin = c.i
    c.drop(",", "and", ".")
    if c.kind == "marker" and c.look().kind in ("beg", "end", "o"):
        while c.kind in ("marker", "beg", "of", "rnd", "row", "around", "each", "end", "o", "noun", "the", "with", "w") and c.kind:
            c.i += 1
        return
    c.i = begin
