"""Chains: "ch 3", "3 ch", the foundation, rings made of them."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from ...pattern import ONE, Aside, Chain, Colour, Make, Place, Ring, Sized, Step
from .back_on_chain import back_on_chain
from .chain_counts import counting
from .cursor import Cursor
from .lying_over import over_what
from .numbers import count_behind_dash, number
from .per_pattern import apportioned, besides_to_turn, per_length
from .things import WANTED

EXAMPLES = (
    ("ch 3", "ch3"),
    ("3 ch", "ch3"),
    ("ch 25 plus 2", "ch27"),
    ("ch 25, plus 1 turning ch", "ch26"),
)

_OVER = frozenset(("tch", "to", "for", "more", "turn", "idle", ".", ""))
"""What follows the number of chains that are told to be made over those the row stands on."""


def _any_length(c: Cursor) -> bool:
    """Past "(Ch) for desired length", "(a chain) the required length", "(chain) to the length wanted"; False, unmoved, elsewhere."""
    k = c.i
    while c.t[k].kind not in (",", ";", ".", "", "(", "turn") and k - c.i < 10:
        k += 1
    words = {token.text.lower() for token in c.t[c.i : k]}
    stop = next((j for j in range(k, len(c.t)) if c.t[j].kind in (".", "")), k)
    if any(token.kind == "n" for token in c.t[k:stop]):
        return False  # "…; for a trial, 49 stitches"
    if not words & {"length", "long"} or not words & _WANTED or any(token.kind == "n" for token in c.t[c.i : k]):
        return False
    c.i = k
    return True


_WANTED = frozenset("desired required wanted needed necessary any enough right correct suitable preferred".split())  # noqa: SIM905


def chain(c: Cursor) -> list[Step] | None:
    """A chain with its number before or after ("ch 3", "3 ch", "a ch of 3", "chain 25 plus 2"), and what it counts as."""
    start = c.i
    if c.kinds("a", "ch") and c.look(2).text.lower() == "any" and c.look(3).kind == "multiple":
        c.i += 1  # "(make) a chain any multiple of 3"
        return a_multiple(c)
    if c.kind == "ch" and start and c.t[start - 1].kind == "any":
        return None  # "in any ch-1 sp": a place
    c.take("a")
    told = number(c)
    if told is not None:
        c.take("more")
        c.take("-")
        if str(c.t[c.i].val) in _LENGTHS and c.look().kind == "ch":
            c.i += 2
            return [Aside(id=c.id(), span=c.span(start))]  # "a 12 inch chain"
    if c.kind != "ch":
        if told is not None and start == 0 and c.ctx.begins and c.kind in ("", ".") and not c.look().kind:
            return [Chain(id=c.id(), span=c.span(start), number=told, foundation=True)]  # "Starting chain: 24."
        c.i = start
        return None
    if told is None and c.out and count_behind_dash(c, 1):
        c.i = start
        return None
    c.i += 1
    if told is None and c.ctx.begins and all(isinstance(one, Aside) for one in c.out) and _any_length(c):
        return [Aside(id=c.id(), span=c.span(start))]
    if told is None:
        c.drop("-", "of", "more", "idle", "a") if c.kind in ("-", "of", "more", "idle", "a") else None
        c.take("total")
        c.take("of")
        told = number(c)
        c.i += c.kind == "," and c.look().val == "plus" and c.look(2).kind == "n" and c.look(3).kind in _OVER  # "Ch 25, plus 1 turning ch"
        plus = c.t[c.i].val in ("plus", "+") and c.kind in ("and", "more", "*")  # "Ch 24 + 2"
        if told is not None and plus and c.look().kind == "n" and c.look(2).kind not in ("st", "grp", "inc"):
            c.i += 1
            more = number(c)
            if more is not None:
                told = Sized(tuple((a or 0) + (more.at(k) or 0) for k, a in enumerate(told.values)))
            c.take("more")
            c.take("tch")
        c.drop("noun")
        c.i += c.t[c.i].text.lower() == "loops"  # "make a chain of 60 loops"
        if c.kind == "ch":
            c.i += 1
        _of_stitches(c)
    else:
        c.drop("noun")
        c.i += c.t[c.i].text.lower() == "loops" and c.ctx.begins and not c.out  # "make 60 chain loops"
        _of_stitches(c)
    if told is not None and c.ctx.begins and not c.out and (long := per_length(c, told)) is not None:
        if not long.values:
            return [Aside(id=c.id(), span=c.span(start))]  # "12 for each scallop, and 5 over": of how many is not told
        told = long
    if _so_long(c, told is not None):
        return [Aside(id=c.id(), span=c.span(start))]  # "a ch 22 inches long": of how many chains is not told
    if told is None and (wanted := _as_long_as_wanted(c)) is not None:
        if not wanted.values:
            return [Aside(id=c.id(), span=c.span(start))]
        told = wanted
    led = start > 0 and c.t[start - 1].kind in ("w", "side", "noun")
    if told is None:
        if c.kind in ("in", "over", "around") or (c.kind == "sp" and led):
            c.i = start
            return None
        told = Sized((1,))
    elif c.kind == "sp" and led and c.t[start].kind == "ch" and c.look().kind not in ("of", "between") and _hyphened(c, start):
        c.i = start
        return None  # "… in the odd ch-2 sp": what a place that was not understood ends in, and no chain
    c.drop("idle") if c.kind == "idle" and c.t[c.i].val != "which" else None
    step: Step = Chain(id=c.id(), span=c.span(start), number=told, foundation=_opens_piece(c, told))
    step = counting(c, step, start)
    over_what(c)
    if isinstance(step, Chain) and step.foundation:
        apportioned(c)
        if over := besides_to_turn(c):
            longer = Sized(tuple(None if n is None else n + over for n in step.number.values))
            step = replace(step, span=c.span(start), number=longer)
    return [step]


def _hyphened(c: Cursor, start: int) -> bool:
    return c.t[start + 1].kind == "-" and c.t[start + 1].val == "tight"


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
    c.drop("work", "a")
    got = chain(c)
    if got is None:
        c.i = start
    return got


def _as_long_as_wanted(c: Cursor) -> Sized[int] | None:
    """ "(A chain) the length required; for a trial, 97 stitches", "of the desired length": the number told with it, none (no values) where
    none is; None with the cursor unmoved where a chain's length is not told so."""
    begin = c.i
    while c.kind in ("of", "the", "a", "to", "as", "idle", "w") and c.i - begin < 6:
        c.i += 1
    words = {t.text.lower() for t in c.t[begin : c.i + 4]}
    if not (words & {"length", "long"} and words & WANTED) or not c.ctx.begins or c.out:
        c.i = begin
        return None
    told: Sized[int] | None = None
    while c.kind not in (".", "", "turn", "*"):
        if c.kind == "n" and c.look().kind in ("noun", "ch") and c.t[c.i - 1].kind not in ("of", "by") and told is None:
            told = number(c)
        c.i += 1
    return told or Sized(())


def _so_long(c: Cursor, told: bool) -> bool:
    """ "(ch 22) inches long", "(2 chains) each 8 inches long", "(a ch), about 20 cm long": what is told is a length, and not of how many
    chains. "(Ch 40) to measure 14 inches", "(ch 40), about 14 inches" tells a length beside the number; passed over."""
    begin = c.i
    if c.kind in ("to", "or", "(") and any(c.look(k).kind == "measures" for k in (1, 2)):
        while c.kind not in (",", ";", ".", ""):
            c.i += 1
        return False
    numbered = told and c.t[c.i - 1].kind in ("n", ")")
    beside = numbered and c.kind in (",", "(", "for", "or") and (c.look().kind == "around" or c.look().text.lower() in _ROUGHLY)
    if beside or not numbered:  # "make 2 chains, each 8 inches long": so many cords
        c.i += c.kind in (",", "(", "or")
        while c.kind in ("each", "for", "of", "around", "measures", "a") or c.t[c.i].text.lower() in _ROUGHLY:
            c.i += 1
        if c.kind != "n" or number(c) is None:
            c.i = begin
            return False
    c.take("-")
    if str(c.t[c.i].val) in _LENGTHS and not (c.kind == "in" and c.look().kind in _PLACES and c.look().val != "long"):
        c.i += 1
        if c.kind == "." and (c.look().text[:1].islower() or c.look().kind == "st"):
            c.i += 1
        if c.t[c.i].val == "long" or c.kind in ("in", ",", ".", ";", "", "for", "and"):
            while c.kind not in (",", ";", ".", "", "(", "and"):
                c.i += 1
            return not beside
        if beside and c.kind == ")":
            c.i += 1
            return False
    c.i = begin
    return False


_LENGTHS = frozenset("""inches inch in ins yards yard yds yd cm cms feet foot ft m metre " ''""".split())  # noqa: SIM905
_ROUGHLY = frozenset("approx approximately roughly nearly measuring some length".split())  # noqa: SIM905
_PLACES = frozenset(("next", "each", "the", "o", "last", "same", "st", "noun", "sp", "lp", "ch", "any", "n", "a", "ring", "tch"))


def _opens_piece(c: Cursor, told: Sized[int] = ONE) -> bool:
    """The first chain of a piece is its foundation."""
    if not c.ctx.begins or len(c.frames) > 1 or c.told.get("founded"):
        return False
    if c.elsewhere is not None and c.elsewhere.where in ("under", "row_end"):
        return False  # "working along the other side of the foundation chain, join yarn, ch 3"
    founded = all(type(step).__name__ in ("Colour", "Aside", "Unread") for step in c.out)
    if any(isinstance(step, Colour) and step.join_in and step.at is not None for step in c.out):
        return False  # "attach thread to first loop, ch 5": it begins a row on what there is
    if founded and (told.values[0] or 0) <= HEIGHTS and _stands_on_a_row(c):
        return False
    if founded:
        c.told["founded"] = True
    return founded


def _stands_on_a_row(c: Cursor) -> bool:
    """ "Ch 3, turn, dc2tog over next 2 sts, …", "Ch 4, skip next sc, dc in next sc": a piece told from its middle on, whose first row
    stands on one that is not told; no chain or ring is named to work into."""
    k = c.i + (c.kind in (",", "and"))
    rest = [token.kind for token in c.t[k:]]
    places = set(pairwise(rest))
    onto = {("each", "st"), ("next", "st"), ("in", "tch"), ("of", "tch"), ("ch", "sp"), ("last", "st")} & places
    skips = rest[0] == "skip" and "st" in rest[1:4]
    if not (skips or (rest[0] == "turn" and onto)) or {"hook", "ring", "mring"} & set(rest):
        return False
    begun = pairwise(rest[:_ADVICE])  # further on it is the chain of this row, joined to or passed
    return not any(b == "ch" and a in ("each", "next", "o", "the", "last", "first", "same", "of") for a, b in begun)


HEIGHTS = 6
"""Chains that stand for a stitch at a row's beginning, at most (from memory)."""


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
    """ "Chain a multiple of 3 plus 2. I chained 50.", "Ch an even number (mine has 26)": how long it may be, and perhaps how long the
    maker's own is."""
    start = c.i
    k = c.i + 1
    if c.t[k].kind == "a" or c.t[k].text.lower() in ("any", "in"):
        k += 1
    if c.kind == "multiple" and c.ctx.begins:
        k = c.i
    elif c.kind != "ch" or not (c.t[k].kind == "multiple" or (c.t[k].text.lower() in _PARITY and c.t[k + 1].text.lower() == "number")):
        return None
    while c.t[k].kind:
        if c.t[k].kind == "ch" and c.t[k + 1].kind == "n" and c.t[k - 1].kind != "n" and isinstance(c.t[k + 1].val, int):
            c.i = k + 1
            told = number(c)
            c.take(")")
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
        if c.t[k].kind == "n" and c.t[k - 1].kind in (",", ":", "(", "-", "=", ";") and _is_of_kind(c, k):
            c.i = k  # "Ch a multiple of 6 plus 2 (38)", "ch an even number, 24 here"
            told = number(c)
            c.i += c.t[c.i].text.lower() == "here"
            if c.kind == "for" and c.look().text.lower() in _OWN_LENGTH:
                c.i += 2
            c.take(")")
            return [Chain(id=c.id(), span=c.span(start), number=told or Sized((1,)), foundation=c.ctx.begins)]
        if c.t[k].kind == "." and c.t[k + 1 + (c.t[k + 1].kind == "(")].text.lower() not in _OWN_LENGTH:
            break
        k += 1
    c.i = k
    return [Aside(id=c.id(), span=c.span(start))]


def _is_of_kind(c: Cursor, k: int) -> bool:
    """Whether the number at `k` is such a one as was asked for: a multiple of 6 and 2 more, an even one."""
    words = c.t[c.i : k]
    asked = [token.val for token in words if token.kind == "n" and isinstance(token.val, int)]
    parity = next((token.text.lower() for token in words if token.text.lower() in _PARITY), None)
    every, over = (2, int(parity != "even")) if parity else (asked[0], sum(asked[1:])) if asked else (0, 0)
    told = c.t[k].val
    ends = c.t[k + 1].kind in (")", ".", "", ",", ";", "for") or c.t[k + 1].text.lower() == "here"
    return isinstance(told, int) and every > 1 and told > every + over and told % every == over % every and ends


_DID = frozenset(("did", "chained", "made", "used", "uses", "has"))
_PARITY = frozenset(("even", "odd", "uneven"))
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


def _to_close(c: Cursor, k: int) -> bool:
    """ "Sl st to join", "ss to close": what it is done for, and no place."""
    after = c.t[k + 1]
    return after.kind == "join" or after.text.lower() in ("close", "connect")


def _care_follows(c: Cursor) -> bool:
    """ "(sl st to first ch) making sure not to twist", "with care that it doesn't twist": advice, and all that is told of the ring."""
    k = c.i
    while k < c.i + _ADVICE and c.t[k].kind not in (".", ";", "", "st", "*"):
        if c.t[k].text.lower().startswith(("twist", "untwist")):
            return True
        k += 1
    return False


_ADVICE = 10
"""Words that an advice takes up, or that tell what a row begins on, at most."""


def _of_the_chain(c: Cursor, k: int) -> int:
    """How many words "of ch", "of the chain" takes up where the clause ends behind it ("sl st in 1st st of ch."); 0 elsewhere."""
    ahead = 1 + (c.t[k].kind == "of" and c.t[k + 1].kind == "the")
    whole = c.t[k].kind == "of" and c.t[k + ahead].kind == "ch" and c.t[k + ahead + 1].kind in (",", ";", ".", "", ")")
    return ahead + 1 if whole else 0


def _into_ring(c: Cursor) -> bool:
    """ "Loop into a ring", "tie to make a ring": whatever is done to the chain, it ends as a ring."""
    k = c.i + 1 if c.kind in ("in", "to") else 0
    k += bool(k) and c.t[k].text.lower() in ("make", "get", "give", "create")
    k += bool(k) and c.t[k].kind in ("a", "the")
    return bool(k) and c.t[min(k, len(c.t) - 1)].kind == "ring"


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
    if c.kind == "st" and back_on_chain(c) is not None:
        c.i = start
        return None  # "Ch 110 and slip stitch back": a cord
    steps = of_chain = 0
    saw_join = False
    while steps < 16 and c.kind and c.kind not in (".", ";", "*", ")", "]", "}"):
        if c.kind == "(":
            close = c.close.get(c.i, c.i)
            if not (saw_join and c.look().kind in ("with", "by") and c.t[close - 1].val == "sl st" and close - c.i <= 4):
                break
            c.i = close + 1  # "join (with sl st) to form ring"
            continue
        if (
            c.kind in ("join", "attach")
            or (c.kind == "st" and c.t[c.i].val == "sl st")
            or (c.kind == "w" and c.t[c.i].val in ("form", "forming", "formed"))
            or (before.foundation and _into_ring(c))
        ):
            saw_join = True
        if (
            saw_join
            and before.foundation
            and c.kind in ("o", "beg")
            and c.look().kind in ("ch", "noun")
            and (c.look(2).kind not in ("from", "of") or (of_chain := _of_the_chain(c, c.i + 2)))
        ):
            c.i += 2 + of_chain
            c.i += c.t[c.i].text.lower() in ("made", "worked")
            if c.kind in ("with", "by") and c.look(1 + (c.look().kind == "a")).val == "sl st":
                c.i += 2 + (c.look().kind == "a")  # "join to the first ch with a sl st"
            if c.kind in ("to", "and") and c.look(2).kind != "ring" and c.look().val not in ("form", "forming"):
                return [Ring(id=c.id(), span=c.span(start), chains=before.number)]
            if c.kind in (",", ";", ".", "", "(", ")") or _care_follows(c):
                return [Ring(id=c.id(), span=c.span(start), chains=before.number)]
        bare = c.kind == "o" and c.t[c.i].val == 1 and c.t[c.i - 1].kind == "to" and c.look().kind in ("with", ",", ".", ";", "")
        if saw_join and before.foundation and (bare or (c.kind == "tch" and c.look().kind in (",", ".", ";", "", "with"))):
            c.i += 1  # "join last ch to first", "join to beg ch"
            if c.kind == "with" and c.look(1 + (c.look().kind == "a")).val == "sl st":
                c.i += 2 + (c.look().kind == "a")
            return [Ring(id=c.id(), span=c.span(start), chains=before.number)]
        if saw_join and (c.kind == "ring" or (c.t[c.i].text.lower() == "round" and c.t[c.i - 1].text.lower() in ("a", "the"))):
            c.i += 1
            if c.kind in ("with", "by") and (c.look().val == "sl st" or c.look(2).val == "sl st"):
                c.i += 2 if c.look().val == "sl st" else 3
                if c.kind == "(" and c.look().val == "sl st" and c.close.get(c.i) == c.i + 2:
                    c.i += 3  # "by a single crochet (s.c.)": its short form
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
    if c.kind == "(" and c.look().val == "sl st" and c.close.get(c.i) == c.i + 2:
        c.i += 3  # "unite with a single crochet (s.c.)"
    if (
        saw_join
        and before.foundation
        and steps <= 7
        and c.kind in (".", ";", "", ",")
        and not any(c.t[k].kind in ("in", "to") and not _to_close(c, k) for k in range(start, c.i))
    ):
        return [Ring(id=c.id(), span=c.span(start), chains=before.number)]
    c.i = start
    return None
