"""Small words beside a place: "at the back", "and the next", "at beg of round", "between petals"."""

from __future__ import annotations

from ...pattern import Sized
from .cursor import Cursor
from .nouns import count_noun_here, noun
from .numbers import number
from .spots import CLOSE, Spot


def and_the_next(c: Cursor) -> None:
    """Pass over "(between this petal) and the next (one)"."""
    begin = c.i
    if c.take("and"):
        c.drop("the")
        if c.take("next"):
            c.i += c.kind in ("noun", "grp", "group") or c.t[c.i].text.lower() == "one"
            if c.kind in CLOSE:
                return
    c.i = begin


def at_each_corner(c: Cursor) -> bool:
    """Past "(under the 3 chain) at each corner", "at the corners"; False with the cursor unmoved."""
    every = c.look().kind == "each" or (c.look().kind == "the" and c.look(2).text.lower() == "corners")
    if c.kind not in ("at", "in") or not every or c.look(2).kind != "corner":
        return False
    c.i += 3
    return True


def side_of_work(c: Cursor) -> None:
    """ "(In) back of work between 2 petals", "at the back of the petals, in …": the side it is worked from, before the place itself."""
    begin = c.i
    if c.t[begin - 1].kind == "around" and c.kind == "back":
        c.i += 1  # "sc from back around dc", "around back of next dc"
        c.take("of")
        return
    c.drop("the")
    if c.t[begin - 1].kind == "around" and _upright(c):
        return
    if c.kind == "back" and c.look().kind == "of" and c.look(2).kind in ("next", "same", "each") and c.t[begin - 1].kind == "in":
        c.i += 2
        return  # "sc in back of next dc of 1st rnd": behind it, into the same stitch
    if c.kind in ("back", "front") and (c.look().kind == "between" or (c.t[begin - 1].kind == "at" and c.look().kind in _PLACING)):
        c.i += 1
        return  # "at the back between this petal and the next", "at the back into the sc of 3rd row"
    if c.kind in ("back", "front") and c.look().kind == "of":
        c.i += 2
        c.drop("the", "idle")
        if c.kind in ("work", "piece", "grp", "group"):
            c.i += 1
            c.take(",")
            if c.kind in ("between", "in", "over", "around"):
                return
    c.i = begin


_PLACING = frozenset(("in", "over", "around", "on"))


def _upright(c: Cursor) -> bool:
    """Past "bar of", "base of", "stem of" before the stitch that is worked round; False with the cursor unmoved."""
    if (c.kind in ("bar", "base") or c.t[c.i].text.lower() in ("stem", "stems", "shank")) and c.look().kind == "of":
        k = 2 + (c.look(2).kind == "the")
        if c.look(k).kind in ("st", "next", "each", "same", "o", "noun", "n"):
            c.i += 2
            return True
    return False


def the_next(c: Cursor) -> None:
    """Pass over "next st", said of a place below it."""
    begin = c.i
    c.drop("the")
    if not (c.take("next") and c.take("st", "noun") and c.kind in (",", ";", ".", "", ")", "]", "*")):
        c.i = begin


def where_the_row_began(c: Cursor) -> None:
    """ "(3rd ch of 5 ch) at beg of round", "at the beginning of previous row": which chain it is; passed over."""
    begin = c.i
    if c.kind == "at":
        c.i += 1
        c.drop("the")
        if c.take("beg", "o"):
            c.drop("of", "the", "prev", "last", "idle", "same")
            if c.take("row", "rnd") or (c.t[c.i].val == "round" and c.take("around")):
                return
    c.i = begin


def begun_in(c: Cursor) -> bool:
    """Past "(in the sp) where you began", "you started in", "where the round started": the row's first one; False, unmoved, elsewhere."""
    begin = c.i
    while c.t[c.i].text.lower() in ("where", "that", "which", "you", "we", "i", "the", "this", "it", "round", "rnd", "row", "first"):
        c.i += 1
    starts = c.i > begin and c.t[c.i].text.lower() in ("began", "begun", "started", "start", "begin", "begins", "starts")
    c.i += starts
    c.take("in", "with") if starts and c.look().kind in (",", ";", ".", "", "(", "join") else None
    if not starts or c.kind not in (",", ";", ".", "", "(", "and", "join"):
        c.i = begin
        return False
    return True


def names_gap(c: Cursor) -> bool:
    """Whether the word just passed is "gap": between groups or stitches, where no chain need lie."""
    return c.t[c.i - 1].text.lower() in ("gap", "gaps")


def between_told(c: Cursor) -> None:
    """ "(in ring) between next 2 petals", "between petals": where in it, which changes nothing that is counted."""
    if c.kind not in ("between", "behind", "before"):
        return
    begin = c.i
    while c.kind and c.kind not in (",", ";", ".", ")", "]", "*", "("):
        c.i += 1
    if any(t.kind in ("st", "ch") for t in c.t[begin : c.i]) or c.i - begin > 7:
        c.i = begin


def used_before(c: Cursor) -> bool:
    """Past "(FPtr round FPdc) last used", "just used for the FPtr", "(the sp) you are in": the place worked into before; False, unmoved,
    elsewhere."""
    begin = c.i
    here = [c.t[k].text.lower() for k in range(c.i, min(c.i + 4, len(c.t)))]
    for said in (["you", "are", "in"], ["you", "are", "at"], ["you're", "in"], ["you're", "at"], ["where", "you", "are"]):
        if here[: len(said)] == said and c.t[c.i + len(said)].kind in CLOSE:
            c.i += len(said)
            return True
    while c.kind == "last" or c.t[c.i].text.lower() in ("just", "already", "previously"):
        c.i += 1
    if c.t[c.i].text.lower() != "used":
        c.i = begin
        return False
    c.i += 1
    while c.kind in ("last", "before", "idle") or c.t[c.i].text.lower() in ("before", "already"):
        c.i += 1
    if c.kind == "for":
        c.i += 1
        c.drop("the", "last", "prev", "idle")
        noun(c)
    return True


def how_many_under(c: Cursor) -> Sized[int] | None:
    """ "other side of 3 ch": how many chains; the cursor stays."""
    begin = c.i
    c.drop("of", "the", "next", "same", "first", "each")
    told = number(c) if c.kind == "n" and not count_noun_here(c) else None
    told = told if c.kind == "ch" else None
    c.i = begin
    return told


def loop_choice(c: Cursor) -> str:
    """A loop choice: "back loop only", "BLO"; "both loops"."""
    token = c.t[c.i]
    if token.kind != "loop":
        return ""
    c.i += 1
    if c.kind == "idle" and c.t[c.i].val == "only":
        c.i += 1
    close = c.close.get(c.i) if c.kind in ("(", "[") else None
    if close is not None and c.t[close + 1].kind == "of" and not any(t.kind in ("n", "st", "ch", "*") for t in c.t[c.i : close]):
        c.i = close + 1  # "in the 3rd loop (the bar behind) of each hdc": which loop, told again
    return str(token.val)


def past_those_chains(c: Cursor) -> bool:
    """Past "(the bottom) of each of the 5 chs"; False, unmoved, where the chains are told more shortly."""
    begin = c.i
    c.drop("of", "the", "each")
    if any(token.kind == "each" for token in c.t[begin : c.i]) and number(c) is not None and c.take("ch"):
        return True
    c.i = begin
    return False


def passed_over(c: Cursor, start: int, found: Spot) -> bool:
    """ "In next 2 skipped sts", "in first missed st": places passed over before in the row at hand, not those ahead."""
    told = any(token.kind == "skip" and token.text.lower() in _PASSED for token in c.t[start + 1 : min(c.i, start + 4)])
    return told and found.at.where in ("next", "first") and not found.at.below and found.at.row is None and found.places != "rest"


_PASSED = frozenset(("skipped", "missed"))
