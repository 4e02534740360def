"""Chains: "ch 3", "3 ch", "ch 3 (counts as dc)", the foundation, "ch 1, turn"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Colour, Make, Place, Ring, Sized, Step
from ...trade.kinds import HEIGHT
from .cursor import Cursor
from .numbers import number

EXAMPLES = (
    ("ch 3", "ch3"),
    ("3 ch", "ch3"),
    ("ch-3 (counts as dc)", "ch3=dc"),
    ("ch 1 (does not count as a st)", "ch1 not counted"),
    ("ch 5 (= dc + ch 2)", "ch5=dc+ch 2"),
    ("ch 25 plus 2", "ch27"),
)


def chain(c: Cursor) -> list[Step] | None:
    """A chain with its number before or after ("ch 3", "3 ch", "a ch of 3", "chain 25 plus 2"), and what it counts as."""
    start = c.i
    c.take("a")
    told = number(c)
    if told is not None:
        c.take("more")
        c.take("-")
    if c.kind != "ch":
        if told is not None and start == 0 and c.ctx.begins and c.kind in ("", ".") and not c.look().kind:
            return [Chain(id=c.id(), span=c.span(start), number=told, foundation=True)]  # "Starting chain: 24."
        c.i = start
        return None
    c.i += 1
    if told is None:
        c.drop("-", "of", "more", "idle", "a") if c.kind in ("-", "of", "more", "idle", "a") else None
        c.take("total")
        c.take("of")
        told = number(c)
        plus = c.t[c.i].val in ("plus", "+") and c.kind in ("and", "more", "*")  # "Ch 24 + 2"
        if told is not None and plus and c.look().kind == "n" and c.look(2).kind not in ("st", "grp", "inc"):
            c.i += 1
            more = number(c)
            if more is not None:
                told = Sized(tuple((a or 0) + (more.at(k) or 0) for k, a in enumerate(told.values)))
            c.take("more")
        c.drop("noun")
        c.i += c.t[c.i].text.lower() == "loops"  # "make a chain of 60 loops"
        if c.kind == "ch":
            c.i += 1
        _of_stitches(c)
    else:
        c.drop("noun")
        _of_stitches(c)
    if told is None:
        if c.kind in ("in", "over", "around"):
            c.i = start
            return None
        told = Sized((1,))
    c.drop("idle") if c.kind == "idle" and c.t[c.i].val != "which" else None
    if _so_long(c):
        return [Aside(id=c.id(), span=c.span(start))]  # "a ch 22 inches long": of how many chains is not told
    step: Step = Chain(id=c.id(), span=c.span(start), number=told, foundation=_opens_piece(c))
    step = counting(c, step, start)
    return [step]


def _of_stitches(c: Cursor) -> None:
    """ "(Ch 20 sts) long": so many chains; no long stitch is meant."""
    if c.t[c.i].val == "long" and c.t[c.i - 1].kind == "noun":
        c.i += 1


def foundation_of(c: Cursor) -> list[Step] | None:
    """ "On a foundation of 40 chain, work as follows"."""
    start = c.i
    if not c.ctx.begins or c.out:
        return None
    c.i += 1
    c.take("a", "the")
    if c.t[c.i].val != "foundation" or c.look().kind != "of":
        c.i = start
        return None
    c.i += 2
    told = number(c)
    if told is None or c.kind not in ("ch", "noun"):
        c.i = start
        return None
    c.i += 1
    return [Chain(id=c.id(), span=c.span(start), number=told, foundation=True)]


def commenced(c: Cursor) -> list[Step] | None:
    """ "Commence with 9 chain, unite", "begin with a ch of 40", "start with ch 3": the piece's (or the row's) first chain."""
    start = c.i
    c.i += 1
    if c.out or not c.take("with", "by"):
        c.i = start
        return None
    c.drop("work", "a")
    got = chain(c)
    if got is None:
        c.i = start
    return got


def with_chain(c: Cursor) -> list[Step] | None:
    """ "(Begin at the point) with 4 ch.": the piece's first chain, told after where it begins."""
    start = c.i
    c.i += 1
    if not c.ctx.begins or not c.out or any(not isinstance(step, Aside) for step in c.out):
        c.i = start
        return None
    got = chain(c)
    if got is None:
        c.i = start
    return got


def _so_long(c: Cursor) -> bool:
    """ "(ch 22) inches long": the number was a length. "(Ch 40) to measure 14 inches" tells a length beside the number; passed over."""
    begin = c.i
    if c.kind in ("to", "or", "(") and any(c.look(k).kind == "measures" for k in (1, 2)):
        while c.kind not in (",", ";", ".", ""):
            c.i += 1
        return False
    unit = str(c.t[c.i].val)
    if unit in ("inches", "inch", "in", "ins", "yards", "yard", "yds", "yd", "cm", "feet", "foot", '"', "''") and c.t[c.i - 1].kind == "n":
        c.i += 1
        if c.kind == "." and c.look().text[:1].islower():
            c.i += 1
        if c.t[c.i].val == "long" or c.kind in ("in", ",", ".", ";", "", "for"):
            while c.kind not in (",", ";", ".", "", "("):
                c.i += 1
            return True
    c.i = begin
    return False


def _opens_piece(c: Cursor) -> bool:
    """The first chain of a piece is its foundation."""
    if not c.ctx.begins or len(c.frames) > 1 or c.told.get("founded"):
        return False
    if c.elsewhere is not None and c.elsewhere.where in ("under", "row_end"):
        return False  # "working along the other side of the foundation chain, join yarn, ch 3"
    founded = all(type(step).__name__ in ("Colour", "Aside", "Unread") for step in c.out)
    if any(isinstance(step, Colour) and step.join_in and step.at is not None for step in c.out):
        return False  # "attach thread to first loop, ch 5": it begins a row on what there is
    if founded:
        c.told["founded"] = True
    return founded


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
        c.i += 1
    elif _stands_for(c) or (c.kind in ("to", "for", ",") and _stands_in(c)):
        clause = next((k for k in range(c.i, c.i + 8) if k >= len(c.t) or c.t[k].kind in (",", ";", ".", "")), c.i + 8)
        stood = _stitches(c, clause)
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
    told = _stands(c, close)
    if told is None or not isinstance(step, Chain):
        c.i = begin
        return step
    counts, stands = told
    if close is not None:
        c.i = close + 1
    return replace(step, counts=counts, stands_for=stands, span=c.span(start))


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
            told = _stitches(c, c.i + 2)
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


def _stands(c: Cursor, close: int | None) -> tuple[bool, tuple[str, ...]] | None:
    """What a counting remark says: (counts, as what), or None when it is no such remark."""
    end = close if close is not None else c.i + 14
    no = False
    said = False
    first = c.i
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
    stands = _stitches(c, end)
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


def _stitches(c: Cursor, end: int) -> tuple[str, ...]:
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


def _bare_number(c: Cursor) -> list[Step]:
    """ "MR 6 (6)": so many of the main stitch into the ring."""
    start = c.i
    c.take(",")
    if c.kind != "n" or c.look().kind not in ("", "(", "[", "{", ".", ",", "=") or not isinstance(c.t[c.i].val, int):
        c.i = start
        return []
    after = c.close.get(c.i + 1)
    if after is not None and c.t[after + 1].kind in ("st", "grp", "ch", "inc"):
        c.i = start  # "84 (92, 104) hdc in ring": a number for each size, and its stitch after it
        return []
    count = Sized((int(c.t[c.i].val),))
    c.i += 1
    kind = c.ctx.main or "sc"
    return [Make(id=c.id(), span=c.span(start), stitch=kind, each=count, at=Place(where="ring", what="ring"), main=kind)]


def a_multiple(c: Cursor) -> list[Step] | None:
    """ "Chain a multiple of 3 plus 2. I chained 50.": how long it may be, and perhaps how long the maker's own is."""
    start = c.i
    k = c.i + 1
    if c.t[k].kind == "a" or c.t[k].val in ("any", "in"):
        k += 1
    if c.kind == "multiple" and c.ctx.begins:
        k = c.i
    elif c.kind != "ch" or c.t[k].kind != "multiple":
        return None
    while c.t[k].kind:
        if c.t[k].kind == "ch" and c.t[k + 1].kind == "n" and c.t[k - 1].kind != "n" and isinstance(c.t[k + 1].val, int):
            c.i = k + 1
            told = number(c)
            return [Chain(id=c.id(), span=c.span(start), number=told or Sized((1,)), foundation=c.ctx.begins)]
        if c.t[k].kind == "n" and c.t[k + 1].kind == "ch" and c.t[k - 1].val in ("i", "used", "made", "with", "shown"):
            c.i = k
            told = number(c)
            c.i += 1
            return [Chain(id=c.id(), span=c.span(start), number=told or Sized((1,)), foundation=c.ctx.begins)]
        if (
            c.t[k].kind == "n"
            and c.t[k - 1].text.lower() in _DID
            and isinstance(c.t[k].val, int)
            and c.t[k + 1].kind in (")", ".", "", ",")
        ):
            c.i = k  # "(I did 42)"
            told = number(c)
            c.take(")")
            return [Chain(id=c.id(), span=c.span(start), number=told or Sized((1,)), foundation=c.ctx.begins)]
        if c.t[k].kind == "." and c.t[k + 1 + (c.t[k + 1].kind == "(")].text.lower() not in _OWN_LENGTH:
            break
        k += 1
    c.i = k
    return [Aside(id=c.id(), span=c.span(start))]


_DID = frozenset(("did", "chained", "made", "used"))
_OWN_LENGTH = frozenset(("i", "my", "the", "this", "mine", "sample", "for", "example", "here", "we"))
"""Words by which a maker goes on to tell her own length."""


def _slip_into_ring(c: Cursor) -> bool:
    """ "Ch 4, sl st in ring" of a petal: the ring is there already."""
    k = c.i
    while c.t[k].kind in (",", "a", "n") and c.t[k].val in (",", 1, "a", "an"):
        k += 1
    if not (c.t[k].kind == "st" and c.t[k].val == "sl st" and c.t[k + 1].kind == "in"):
        return False
    k += 2
    while c.t[k].kind in ("the", "a"):
        k += 1
    return c.t[k].kind in ("ring", "mring")


def in_magic_ring(c: Cursor) -> list[Step] | None:
    """ "In a magic circle, ch 2, 10 hdc": the ring is made, and what follows goes into it."""
    start = c.i
    c.i += 1
    c.drop("a", "the")
    if c.in_ring or not c.take("mring") or not c.take(",", ":", "work"):
        c.i = start
        return None
    c.in_ring = True
    return [Ring(id=c.id(), span=c.span(start))]


def ring(c: Cursor) -> list[Step] | None:
    """ "join to form a ring", "join into ring", "sl st in first ch to form ring": after a chain, the chain becomes a ring."""
    start = c.i
    before = c.out[-1] if c.out else None
    if c.kind == "mring":
        c.i += 1
        c.in_ring = True
        if c.kind == "with" and c.look().kind in ("n", "st", "a"):
            c.i += 1
        return [Ring(id=c.id(), span=c.span(start)), *_bare_number(c)]
    if not isinstance(before, Chain) or (not before.foundation and _slip_into_ring(c)):
        return None
    steps = 0
    saw_join = False
    while steps < 16 and c.kind and c.kind not in (".", ";", "(", "*"):
        if (
            c.kind in ("join", "attach")
            or (c.kind == "st" and c.t[c.i].val == "sl st")
            or (c.kind == "w" and c.t[c.i].val in ("form", "forming", "formed"))
        ):
            saw_join = True
        if (
            saw_join
            and before.foundation
            and c.kind in ("o", "beg")
            and c.look().kind in ("ch", "noun")
            and c.look(2).kind not in ("from", "of")
        ):
            c.i += 2
            if c.kind in ("to", "and") and c.look(2).kind != "ring" and c.look().val not in ("form", "forming"):
                return [Ring(id=c.id(), span=c.span(start), chains=before.number)]
            if c.kind in (",", ";", ".", "", "(", ")"):
                return [Ring(id=c.id(), span=c.span(start), chains=before.number)]
        if saw_join and (c.kind == "ring" or (c.t[c.i].text.lower() == "round" and c.t[c.i - 1].text.lower() in ("a", "the"))):
            c.i += 1
            if c.kind == "with" and (c.look().val == "sl st" or c.look(2).val == "sl st"):
                c.i += 2 if c.look().val == "sl st" else 3
            c.in_ring = True
            return [Ring(id=c.id(), span=c.span(start), chains=before.number)]
        if c.kind == "turn" or (c.kind == "n" and steps):
            break
        if c.kind in ("st",) and c.t[c.i].val != "sl st":
            break
        if c.kind == "," and steps:
            break
        c.i += 1
        steps += 1
    if (
        saw_join
        and before.foundation
        and steps <= 7
        and c.kind in (".", ";", "", ",")
        and not any(c.t[k].kind in ("in", "to") for k in range(start, c.i))
    ):
        return [Ring(id=c.id(), span=c.span(start), chains=before.number)]
    c.i = start
    return None
