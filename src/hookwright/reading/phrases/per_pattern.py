"""A beginning chain told for a length, or by the pattern: "a chain of 480 stitches per yard, or 20 for each pattern, and 1 over"."""

from __future__ import annotations

from ...pattern import Sized
from .cursor import Cursor
from .numbers import number

EXAMPLES: tuple[tuple[str, str], ...] = ()
"""None here: only what begins a piece is so told."""

_UNITS = frozenset("pattern patterns patt scallop scallops point points vandyke vandykes repeat shell shells fan fans group".split())  # noqa: SIM905
_LENGTHS = frozenset(("yard", "yards", "metre", "meter", "foot"))


def per_length(c: Cursor, told: Sized[int]) -> Sized[int] | None:
    """How long the chain is, from behind its number; no values where it is told by the pattern alone; None, the cursor unmoved, for
    other words."""
    begin = c.i
    if c.kind in ("for", "to", "each"):
        c.drop("for", "to")
        c.drop("each", "a", "the")
        if c.t[c.i].text.lower() in _LENGTHS:
            c.i += 1
            c.drop("idle")
            return _with_over(c, told, _by_pattern(c))
    c.i = begin
    if _for_each(c) and _over(c) is not None:
        return Sized(())
    c.i = begin
    return None


def apportioned(c: Cursor) -> None:
    """Past what is said behind a beginning chain of how it is shared out: ", which gives 24 for each of the ten patterns, and 2 over",
    ": 24 chain for each point and 2 for the edge", ". Each pattern takes 24 stitches, and 2 over". Nothing is worked by it."""
    begin = c.i
    closed = c.close.get(c.i)
    c.i += c.kind in (",", ":", ";", ".", "(", "-")
    start, numbers, units, shared = c.i, 0, 0, False
    while c.kind not in (".", ";", "", ")"):
        word = c.t[c.i].text.lower()
        numbers += c.kind == "n"
        unit = c.kind == "patt" or word in _UNITS
        units += unit
        shared = shared or word in _SHARED or (unit and c.t[c.i - 1].kind in ("each", "a", "of", "n"))
        made = c.kind == "ch" and c.t[c.i - 1].kind != "n"
        if made or not (unit or c.kind in _OF_SHARES or word in _SHARED) or (unit and c.look().kind in ("in", "over", "st")):
            break
        c.i += 1
    said = numbers and units and shared and c.i > start and c.kind in (".", ";", "", ")") and (closed is None or closed == c.i)
    c.i = c.i + (c.kind == ")") if said else begin


_SHARED = frozenset("gives giving allows allowing takes taking makes needs requires being over extra besides spare".split())  # noqa: SIM905
_OF_SHARES = frozenset("n for to each w idle the of and or , noun over more a all ch counts patt in side times total turn".split())  # noqa: SIM905


def besides_to_turn(c: Cursor) -> int:
    """How many chains are told beside the beginning chain: ", and 1 to turn", "+ 3 for turning ch", "(plus 1 to turn)", ". Ch 3 more for
    turning"; 0 with the cursor unmoved."""
    begin = c.i
    bracket = c.close.get(c.i) if c.kind in ("(", "[") else None
    c.i += bracket is not None
    apart = c.take(",", ".", ";") is not None and bracket is None
    joined = c.kind == "and" or c.t[c.i].val == "plus" or c.t[c.i].text == "+"
    c.i += joined
    c.drop("then")
    alone = apart and c.take("ch") is not None  # "chain 30, chain 1 to turn"
    told = number(c) if joined or alone or apart else None
    alone = alone or (apart and c.kind == "ch")
    c.drop("more", "ch", "noun")
    last = c.kind == "tch" and joined
    to_turn = last or (c.kind in ("to", "for") and c.look(1 + (c.look().kind in ("the", "a"))).kind in ("turn", "tch"))
    if told is None or told.many or not to_turn or not (joined or alone):
        c.i = begin
        return 0
    c.i += 1
    c.drop("the", "a", "turn", "tch")
    c.drop("with", "ch", "noun")
    if bracket is not None and c.i == bracket:
        c.i += 1
    if c.kind not in (",", ";", ".", "", ")", ":"):
        c.i = begin
        return 0
    return told.values[0] or 0


def _with_over(c: Cursor, told: Sized[int], by_pattern: bool) -> Sized[int]:
    """The chains of so much length, with those that the pattern needs beyond its last repeat."""
    over = _over(c) if by_pattern else None
    return told if over is None else Sized(tuple(None if n is None else n + over for n in told.values))


def _by_pattern(c: Cursor) -> bool:
    """Past ", or 20 for each pattern"; False with the cursor unmoved."""
    begin = c.i
    c.take(",", "(")
    if c.take("or") and number(c) is not None:
        c.drop("noun")
        if _for_each(c):
            return True
    c.i = begin
    return False


def _for_each(c: Cursor) -> bool:
    """Past "for each pattern", "to a scallop"; False with the cursor unmoved."""
    begin = c.i
    if c.kind in ("for", "to", "each"):
        c.drop("for", "to")
        c.drop("each", "a", "the")
        if c.t[c.i].text.lower() in _UNITS and c.i > begin:
            c.i += 1
            return True
    c.i = begin
    return False


def _over(c: Cursor) -> int | None:
    """Past ", and 1 over", "and 3 more"; how many. None with the cursor unmoved."""
    begin = c.i
    c.take(",")
    c.take("and")
    told = number(c)
    c.drop("noun")
    behind = c.kind in ("over", "more") or c.t[c.i].text.lower() in ("extra", "besides")
    if told is None or told.many or not behind:
        c.i = begin
        return None
    c.i += 1
    c.take(")")
    return told.values[0]
