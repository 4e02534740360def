"""What a chain counts as: "ch 3 (counts as dc)", "ch 1 (does not count as a st)", "3 ch for the first treble"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Chain, Step
from ...trade.kinds import HEIGHT
from .cursor import Cursor

EXAMPLES = (
    ("ch-3 (counts as dc)", "ch3=dc"),
    ("ch 1 (does not count as a st)", "ch1 not counted"),
    ("ch 5 (= dc + ch 2)", "ch5=dc+ch 2"),
)
_STAND = frozenset(("stand", "serve", "represent", "replace", "form"))


def counting(c: Cursor, step: Step, start: int) -> Step:
    """ "(counts as dc)", "counts as first dc", "= dc, ch 2", "does not count" after a chain; the chain with what it stands for."""
    begin = c.i
    close: int | None = None
    if c.kind == "," and isinstance(step, Chain) and (first := _first_of_which(c, step)):
        return replace(step, counts=True, stands_for=first, span=c.span(start))
    if c.kind in ("(", "[", "{"):
        close = c.close.get(c.i)
        if close is None:
            return step
        if isinstance(step, Chain) and _how_made_up(c, step, close):
            c.i = close + 1
            return replace(step, span=c.span(start))
        c.i += 1
    elif _stands_for(c) or (c.kind in ("to", "for", ",") and _stands_in(c)):
        clause = next((k for k in range(c.i, c.i + 8) if k >= len(c.t) or c.t[k].kind in (",", ";", ".", "")), c.i + 8)
        stood = as_what(c, clause)
        if stood and isinstance(step, Chain):
            return replace(step, counts=True, stands_for=stood, span=c.span(start))
        c.i = begin
        return step
    elif c.kind == "-" and c.look().kind in ("counts", "not"):
        close = next((k for k in range(c.i + 1, min(c.i + 12, len(c.t))) if c.t[k].kind in ("-", ".", ";", "")), None)
        close = close if close is not None and c.t[close].kind == "-" else None
        c.i += 1
    elif c.kind in (",", ";", ".") and _said_of_it(c):
        pass
    elif c.kind == ",":
        if c.look().kind in ("counts", "not"):
            c.i += 1
        else:
            return step
    told = stands(c, close)
    if told is None or not isinstance(step, Chain):
        c.i = begin
        return step
    counts, stood = told
    if close is not None:
        c.i = close + 1
    return replace(step, counts=counts, stands_for=stood, span=c.span(start))


def _how_made_up(c: Cursor, chain: Chain, close: int) -> bool:
    """ "(Ch 26) (25 sts + 1 to turn)", "(= 25 sts plus 1)", "(25 and 1 turning ch)": what a foundation's chains are for, and no work."""
    inner = c.t[c.i + 1 : close]
    numbers = [token.val for token in inner if token.kind == "n" and isinstance(token.val, int)]
    long = chain.number.values[0] or 0
    if not chain.foundation or not numbers or not all(token.kind in _MADE_UP for token in inner):
        return False
    told = inner[0].kind == "=" or (inner[0].kind == "n" and len(inner) > 3)
    if len(numbers) == 1:
        return [token.kind for token in inner[:2]] == ["=", "n"] and 0 <= long - numbers[0] <= MOST_OVER
    return told and sum(numbers) == long


_MADE_UP = frozenset("n st noun ch tch and more , for to turn the a first o row rnd * - = w idle beg .".split())  # noqa: SIM905
MOST_OVER = 4
"""Chains over the stitches of the first row: they turn it (common practice)."""


def _first_of_which(c: Cursor, step: Chain) -> tuple[str, ...]:
    """ "(6 chain,) the first 3 of which stand for a treble": that stitch, and a space of the others; () with the cursor unmoved."""
    begin = c.i
    c.i += 1
    c.drop("the")
    if c.take("o") and c.kind == "n" and c.look().kind == "of" and c.look(2).text.lower() == "which":
        high = c.t[c.i].val
        c.i += 3
        if c.kind == "counts" or c.t[c.i].val in _STAND:
            c.i += 1
            c.drop("as", "for", "a", "the", "o")
            told = as_what(c, c.i + 2)
            over = (step.number.values[0] or 0) - (high if isinstance(high, int) else 0)
            if told:
                return (*told[:1], f"ch {over}") if over > 0 else told[:1]
    c.i = begin
    return ()


def _said_of_it(c: Cursor) -> bool:
    """ "(Chain three); this will count as your first double crochet", "(ch 3). This counts as a dc": the cursor then stands before it."""
    begin = c.i
    c.i += 1
    if c.t[c.i].text.lower() in ("this", "it", "that", "these", "which"):
        c.i += 1
        c.drop("idle")
        if c.kind in ("counts", "not"):
            return True
    c.i = begin
    return False


def _stands_for(c: Cursor) -> bool:
    """ "(ch 3) for first dc", "for a dc": the cursor then stands before the stitch."""
    if not (c.kind == "for" and c.look().kind in ("a", "o", "the", "n") and c.look(2).kind in ("st", "o", "noun")):
        return False
    c.i += 2
    c.take("o")
    return True


def _stands_in(c: Cursor) -> bool:
    """ "(ch 3) to count as 1st dc", "to stand for 1 dc", ", which counts as a dc": the cursor then stands before the stitch."""
    begin = c.i
    if c.kind == "," and c.look().val != "which":
        return False
    c.i += 1
    c.drop("idle")
    if not (c.kind == "counts" or c.t[c.i].val in ("stand", "serve", "represent", "replace", "form", "make", "take")):
        c.i = begin
        return False
    c.i += 1
    while c.kind in ("as", "for", "the", "a", "o", "idle", "place", "of"):
        c.i += 1
    if c.kind not in ("st", "n") or (c.kind == "n" and c.look().kind != "st"):
        c.i = begin
        return False
    return True


ARE = ("are", "being")
"""How it may be said what a chain is: "(the 3 chain missed are a treble)"."""


def stands(c: Cursor, close: int | None) -> tuple[bool, tuple[str, ...]] | None:
    """What a counting remark says: (counts, as what), or None when it is no such remark."""
    end = close if close is not None else c.i + 14
    no = False
    first = c.i
    said = c.t[c.i].text.lower() in ARE
    c.i += said
    while c.i < end and c.kind in (
        "not",
        "counts",
        "=",
        "as",
        "to",
        "the",
        "idle",
        "always",
        "a",
        "in",
        "w",
        "o",
        "for",
        "here",
        "only",
        "having",
        "then",
        "of",
        "beg",
    ):
        kind = c.kind
        word = c.t[c.i].val
        if kind == "w" and word in _STAND:
            said = True  # "(to stand for 1 tr. and 1 ch.)"
        elif kind == "w" and word not in ("does", "do", "will", "it", "instead", "substitutes", "considered", "used", "first", "also"):
            break
        no = no or kind == "not"
        said = said or kind in ("counts", "=")
        c.i += 1
    stands = as_what(c, end)
    if stands and c.i < end and c.t[c.i].val in ("made", "worked", "complete", "completed"):
        c.i += 1
    c.i += bool(stands) and close is not None and c.i == end - 1 and c.kind == "."
    if not said and not (
        close is not None
        and stands
        and c.i >= end
        and (first == c.i - _length(c, first) or c.t[first].kind in ("a", "o", "the", "beg") or _for_one(c, first))
    ):
        return None
    if close is None and not stands and not no and not said:
        return None
    if said and not stands and close is None and not no:
        return None
    if (
        close is not None
        and stands
        and not said
        and c.t[first].kind not in ("a", "o", "the", "as", "beg")
        and not _for_one(c, first)
        and not _as_high(c, first, stands)
    ):
        return None
    return (not no, () if no else stands)


def _for_one(c: Cursor, first: int) -> bool:
    """ "(for 1st tr)", "(for a dc)": what the chain is."""
    return c.t[first].kind == "for" and (c.t[first + 1].kind in ("a", "o", "the") or c.t[first + 1].val == 1)


def _as_high(c: Cursor, first: int, stands: tuple[str, ...]) -> bool:
    """ "Ch 5 (dc and ch 2)": just as many chains as that takes."""
    chain = next((c.t[k].val for k in range(first - 1, max(first - 4, -1), -1) if c.t[k].kind == "n"), None)
    over = sum(int(word[3:]) for word in stands if word.startswith("ch "))
    high = [HEIGHT[word] for word in stands if word in HEIGHT]
    return over > 0 and len(high) == 1 and chain == over + high[0]


def _length(c: Cursor, first: int) -> int:
    return c.i - first


def as_what(c: Cursor, end: int) -> tuple[str, ...]:
    """The stitches, and chains over them, that are named up to `end`: "a dc and a ch-2 space"."""
    found: list[str] = []
    while c.i < end:
        token = c.t[c.i]
        if token.kind == "n" and c.look().kind in ("st", "ch", "noun", "grp"):
            c.i += 1
            continue
        if token.kind == "st":
            found.append(c.us(str(token.val)))
            c.i += 1
        elif token.kind == "noun":
            found.append("st")
            c.i += 1
        elif token.kind == "tch":
            c.i += 1
        elif token.kind == "ch":
            c.i += 1
            c.take("-")
            size = 1
            if c.kind == "n":
                size = c.t[c.i].val
                c.i += 1
            elif c.i >= 2 and c.t[c.i - 2].kind == "n" and c.t[c.i - 2].val:
                size = c.t[c.i - 2].val
            c.drop("sp", "lp")
            found.append(f"ch {size}")
        elif token.kind in ("and", "+", ",", "the", "a", "o", "*", "-", "with") and (found or token.kind in ("the", "a", "o")):
            if token.kind == "," and c.look().kind not in ("ch", "n", "st"):
                break
            c.i += 1
        else:
            break
    return tuple(found)
