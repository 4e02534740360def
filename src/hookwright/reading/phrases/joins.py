"""How a round is closed: "join with sl st to first sc", "sl st in top of ch-3 to join", "do not join"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Colour, Even, Join, Make, Place, Refer, Repeat, Ring, Sized, Step, Together, Turn
from .cursor import Cursor
from .nouns import noun
from .places import spot
from .spots import moved
from .turns import mark_beginning, this_and_following

EXAMPLES = (
    ("join with sl st to first sc", "join"),
    ("sl st in top of ch-3 to join", "join"),
    ("do not join", "no join"),
    ("join each round with sl st in first sc", "join"),
    ("join with sl st at end of every round", "join"),
)


_HOW_TIGHT = 6
"""Words of "do not close (the ring) too tightly yet", at most (ours)."""


def join(c: Cursor) -> list[Step] | None:
    """ "join", "join with sl st to first sc", "do not join", "sl st to join", "close with a sl st"."""
    start = c.i
    no = False
    if c.kind == "not" and c.look().kind == "join":
        no = True
        c.i += 1
    if c.kind != "join":
        c.i = start
        return None
    if c.kind == "join" and c.look().kind in ("color", "n", "colour") and not no:
        c.i = start
        return None
    c.i += 1
    if no:
        if c.kind == "or" and c.look().kind == "turn":
            c.i += 2
            this_and_following(c)
            return [Join(id=c.id(), span=c.span(start), no=True), Turn(id=c.id(), span=c.span(start), no=True)]
        tight = next((k for k in range(1, _HOW_TIGHT) if c.look(k).kind in (".", ";", ",", "")), _HOW_TIGHT)
        if any(token.text.lower() in ("tight", "tightly", "completely", "fully") for token in c.t[c.i : c.i + tight]):
            c.i += tight
            return [Aside(id=c.id(), span=c.span(start))]  # "do not close it too tight": the magic ring
        c.drop("idle")
        c.take("rnd", "around", "row")
        this_and_following(c)
        mark_beginning(c)
        onward = c.i + (c.kind in (",", ".", ";", "and", "but"))
        if c.t[onward].kind == "turn" or (c.t[onward].text.lower() == "just" and c.t[onward + 1].kind == "turn"):
            return [Aside(id=c.id(), span=c.span(start))]  # "do not join, turn": rows, and no spiral
        return [Join(id=c.id(), span=c.span(start), no=True)]
    standing = _joined_with(c)
    if standing is not None:
        return standing
    loop = _last_loop(c)
    to = _join_tail(c)
    _as_before(c)
    told = c.out[-1] if c.out and isinstance(c.out[-1], Colour) and c.out[-1].at is None else None
    opens = len(c.frames) == 1 and all(isinstance(step, (Aside, Turn)) for step in c.out if step is not told)
    anywhere = {"a", "any"} & {t.kind for t in c.t[start : c.i]}
    if opens and not loop and to is not None and anywhere and to.what.endswith(("sp", "corner")):
        if told is not None:
            c.out.remove(told)  # "New color: join with sl st in any sp"
        yarn = told.yarn if isinstance(told, Colour) else "new"
        return [Colour(id=c.id(), span=c.span(start), yarn=yarn, join_in=True, at=to)]  # "Join with sl st in any sp, ch 3, …"
    return [*loop, Join(id=c.id(), span=c.span(start), to=to)]


def _last_loop(c: Cursor) -> list[Step]:
    """ "*ch 5, tr in next 3 tr; repeat from * around. Join last ch-5 to …": the last unit is its chain alone."""
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if c.kind != "last" or c.look().kind != "ch" or not isinstance(last, Repeat) or last.times.kind != "rest" or last.last:
        return []
    first, end = last.body[0], last.body[-1]
    inner = max((k for k, step in enumerate(last.body[:-1]) if isinstance(step, Chain)), default=0)
    if inner and not isinstance(end, Chain) and last.cut is None:
        c.out[c.out.index(last)] = replace(last, cut=inner + 1)  # "*ch 5, sc in next sp, ch 5, cluster; …": the last unit ends there
        return []
    if not isinstance(first, Chain) or isinstance(end, Chain) or len(c.frames) > 1:
        return []
    return [Chain(id=c.id(), span=c.span(c.i, c.i + 2), number=first.number)]


def _joined_with(c: Cursor) -> list[Step] | None:
    """ "join with sc in first st", "join with a dc to first leg": a stitch like any other, which meets another piece."""
    start = c.i
    if c.kind in ("with", "by"):
        c.i += 1
        c.drop("a")
        if c.kind == "st" and c.t[c.i].val != "sl st" and not _worked(c):
            from .stitches import stitch

            got = stitch(c)
            tie = all(isinstance(step, Aside) or (isinstance(step, Chain) and step.foundation) for step in c.out) and bool(c.out)
            if got is not None and tie:
                return [Aside(id=c.id(), span=c.span(start))]  # "ch 50, join with sc at front corner": the chain is a tie
            if got is not None:
                return got
    c.i = start
    return None


def _join_tail(c: Cursor) -> Place | None:
    """After "join": "with (a) sl st", "rnd", "to top of ch-3", "in first st", "together"."""
    to: Place | None = None
    loop_told = c.look().kind in ("ch", "lp", "sp") or (c.look().kind == "n" and c.look(2).kind in ("-", "ch"))
    if c.kind == "last" and loop_told:  # "join last ch-2 with sl st to …": what is joined, not where
        begin = c.i
        c.i += 1
        if noun(c, chains=True) is None:
            c.i = begin
    for _ in range(6):
        if _every_round(c):
            continue
        if (
            c.kind in ("with", "by", "the", "a", "idle", "off", "rnd", "up", "around")
            or (c.kind == "w" and c.t[c.i].val in ("off", "up"))
            or (c.kind == "st" and c.t[c.i].val == "sl st")
        ):
            c.i += 1
        elif c.t[c.i].val == "single" and c.look().kind in ("in", "to"):
            c.i += 1  # "closing with a single into the first": the slip stitch of older books
        elif c.kind == "n" and c.t[c.i].val == 1 and c.look().val == "sl st":
            c.i += 1  # "join with 1 ss"
        elif c.kind == "(" and c.look().kind == "with" and c.close.get(c.i):
            c.i = c.close[c.i] + 1
        elif c.kind in ("to", "in", "at", "over", "between", "on") and to is None:
            found = spot(c)
            if found is None:
                break
            to = found.at
        elif c.kind in ("o", "top", "beg") and to is None:
            found = spot(c, bare=True)
            if found is None:
                break
            to = found.at
        else:
            break
    return to


def _as_before(c: Cursor) -> bool:
    """Past "as before", "same as the last round", "as for Rnd 2", told of the join that ends a round; False with the cursor unmoved."""
    start = c.i
    c.take(",")
    c.drop("in", "the") if c.kind == "in" and c.look().kind in ("the", "same") else None
    same = c.take("same") is not None
    led = c.take("as") is not None or c.t[c.i].text.lower() == "like"
    c.i += led and c.t[c.i].text.lower() == "like"
    if same or led:
        c.drop("for", "in", "on", "at", "the", "idle", "of")
        told = c.take("before", "prev", "last", "row", "rnd", "around") is not None or c.t[c.i].text.lower() in _MANNERS
        c.i += c.t[c.i].text.lower() in _MANNERS
        while c.kind in ("row", "rnd", "around", "n"):
            c.i += 1
        if told and c.kind in _ENDS:
            return True
    c.i = start
    return False


_MANNERS = frozenset(("before", "above", "previously", "way", "manner", "always", "usual"))


def _every_round(c: Cursor) -> bool:
    """Past "each round", "every time", "at (the) end of each rnd": of rounds told together, or of all. False, unmoved, elsewhere."""
    k = c.i + (c.kind in ("at", "on", "in", "for"))
    k += c.t[k].kind == "the"
    k += 2 * (c.t[k].kind == "end" and c.t[k + 1].kind == "of")
    if c.t[k].kind not in ("each", "all") or c.t[k + 1].kind not in ("rnd", "row", "around", "times"):
        return False
    c.i = k + 2
    return True


def ended_with_slip(c: Cursor) -> list[Step] | None:
    """ "End the round with a single stitch on the first", "finish with a single in the first stitch": the round's join, as old books tell
    it; None with the cursor unmoved."""
    start = c.i
    if c.t[c.i].text.lower() not in ("end", "ending", "finish", "finishing", "close", "closing", "complete") or not c.out:
        return None
    c.i += 1
    c.drop("the", "each", "rnd", "around", "row", "off")
    if not c.take("with", "by"):
        c.i = start
        return None
    c.drop("a", "n")
    slip = c.kind == "st" and c.t[c.i].val == "sl st"
    single = c.t[c.i].text.lower() == "single"
    c.i += slip or single
    if single:
        c.take("noun")
    to = spot(c) if (slip or single) and c.kind in ("in", "over", "to") else None
    if not (single or (slip and c.t[start].text.lower() in ("end", "close", "closing"))) or c.kind not in _ENDS:
        c.i = start
        return None
    return [Join(id=c.id(), span=c.span(start), to=to.at if to is not None and to.at.where in ("first", "named") else None)]


def closing(c: Cursor) -> list[Step] | None:
    """ "sl st to first sc to join", "sl st in top of ch-3": a slip stitch that closes the round."""
    start = c.i
    c.take("a")
    if c.kind == "n" and c.t[c.i].val == 1:
        c.i += 1
    if not (c.kind == "st" and c.t[c.i].val == "sl st"):
        c.i = start
        return None
    c.i += 1
    c.i += c.t[c.i].text.lower() in ("loosely", "neatly", "tightly", "once")
    if c.kind == "to" and c.look().text.lower() in ("finish", "close") and c.look(2).kind in (",", ".", ";", ""):
        c.i += 2
        return [Join(id=c.id(), span=c.span(start))]  # "s.s. to finish"
    to_join = c.kinds("to", "join") or c.kinds("to", "the", "join")
    if to_join:
        c.i += 2
        to = _join_tail(c)
        return [Join(id=c.id(), span=c.span(start), to=to)]
    if c.kind == "join":
        c.i += 1
        to = _join_tail(c)
        return [Join(id=c.id(), span=c.span(start), to=to)]
    if _worked(c) and _as_before(c):
        return [Join(id=c.id(), span=c.span(start))]  # "sl st as before"
    if (top := _own_chain(c)) is not None:
        return [Join(id=c.id(), span=c.span(start), to=top)]
    found = spot(c) if c.kind in ("to", "in", "into", "at", "over") else None
    if found is not None:
        if found.at.where == "first" and found.at.what.endswith("sp") and _joined(c):
            return [Make(id=c.id(), span=c.span(start), stitch="sl st", at=moved(found.at, where="next"))]  # "join, sl st into 1st sp": on
        if c.kinds("to", "join") or c.kinds("to", "the", "join") or c.kind == "join":
            c.drop("to", "the", "join")
            c.drop("rnd", "around")
            return [Join(id=c.id(), span=c.span(start), to=found.at)]
        if c.t[start + 1].kind == "to" and _closes(c, found.at) and _near_end(c) and (_worked(c) or c.ctx.begins):
            return [Join(id=c.id(), span=c.span(start), to=found.at)]
        if found.at == Place() and (c.ctx.rounds or c.kinds(",", "foff")) and _gone_round(c) and _near_end(c):
            return [Join(id=c.id(), span=c.span(start), to=None)]  # "… around, sl st in next st": a spiral's end
        if _closes(c, found.at) and (c.ctx.rounds or c.in_ring) and c.out and _near_end(c) and _worked(c):
            return [Join(id=c.id(), span=c.span(start), to=found.at)]
        if found.at.where == "first" and _gone_round(c) and (_into_tube(c) or _near_end(c)):
            return [Join(id=c.id(), span=c.span(start), to=found.at)]  # "sc across, do not turn, sl st in first sc": a row made a round
    elif (
        (c.ctx.rounds or c.in_ring)
        and c.out
        and _near_end(c)
        and (c.t[start - 1].kind in _ENDED or (c.t[start - 1].kind == "n" and c.t[start - 2].val in ("x", "*")))
        and _worked(c)
        and (
            c.kind in ("", ".", "(", "[", "{")
            or (c.kind in ("=", "-") and c.look().kind == "n")
            or (c.kind in (",", "and") and c.look().kind == "foff")
        )
    ):
        return [Join(id=c.id(), span=c.span(start))]
    c.i = start
    return None


def _own_chain(c: Cursor) -> Place | None:
    """ "Ss to 3ch.", "ss to the 3 ch.": to the top of the chain that stands for the round's first stitch."""
    if c.kind not in ("to", "in") or not _worked(c):
        return None
    k = c.i + 1 + (c.look().kind == "the")
    number, chain = c.t[k], c.t[min(k + 1, len(c.t) - 1)]
    if number.kind != "n" or chain.kind != "ch" or c.t[min(k + 2, len(c.t) - 1)].kind not in _ENDS:
        return None
    own = next((step for step in c.frames[0].out if not isinstance(step, (Aside, Colour, Turn, Ring, Join))), None)
    stands = isinstance(own, Chain) and own.number.values[0] == number.val and own.number.values != (1,)
    if not stands and (chain.gap or k > c.i + 1):
        return None
    c.i = k + 2
    return Place(where="named", what=f"ch-{number.val}")


_ENDS = frozenset((",", ".", ";", "", "(", "[", "{", "=", "-"))
_ENDED = frozenset((",", ".", ";", "with", "and", "*", ")", "]", "}", "times", "around", "across"))


def _closes(c: Cursor, at: Place) -> bool:
    if at.what == "piece":
        return False  # of another piece: joined as it is made
    return at.where in ("first", "named", "marked") or (at.where == "next" and at.what == "tch")


def _into_tube(c: Cursor) -> bool:
    """Take "of (this) row", "to form a tube", "forming a circle" behind the stitch that is joined to. False with the cursor unmoved."""
    start = c.i
    if c.kind == "of":
        c.i += 1
        c.drop("the", "this", "same")
        if not c.take("row", "rnd"):
            c.i = start
    c.drop(",")
    c.drop("to", "so", "as", "thus")
    if c.t[c.i].text.lower() in _FORMING:
        c.i += 1
        c.drop("a", "the", "into")
        if c.kind in ("ring", "rnd", "mring") or c.t[c.i].text.lower() in _ROUND_THINGS:
            c.i += 1
            return True
    c.i = start
    return False


_FORMING = frozenset(("form", "forming", "make", "making"))
_ROUND_THINGS = frozenset(("tube", "circle", "cylinder", "loop", "ring", "round", "band"))


def _gone_round(c: Cursor) -> bool:
    """The last stitches already go to the round's end."""
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside) and not (isinstance(step, Turn) and step.no)), None)
    if isinstance(last, Repeat):
        return last.times.kind == "rest"
    whole_row = isinstance(last, Refer) and not last.changes and not last.upto  # "as Rnd 51. Sl st in next st."
    return (
        whole_row
        or isinstance(last, Even)
        or (isinstance(last, (Make, Together)) and last.places == "rest" and last.but == Sized((0,)) and not last.upto)
    )


def _joined(c: Cursor) -> bool:
    """The round has been joined just before."""
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    return isinstance(last, Join) and not last.no


def _worked(c: Cursor) -> bool:
    return any(type(step).__name__ in ("Make", "Together", "Repeat", "Even", "Refer") for step in c.frames[0].out)


def _near_end(c: Cursor) -> bool:
    """Nothing but ends follows: counts, turns, fastening off, asides."""
    k = c.i
    while k < len(c.t) and k < c.i + 3:
        kind = c.t[k].kind
        if kind in ("", "foff", "turn", "join", "(", "[", "=", "{"):
            return True
        if kind == "." and c.t[k + 1].kind in ("w", "the", "total", "n", "idle", "rep", "counts", "counter"):
            return True  # a new sentence: a count, a remark
        if kind == "ch" or (kind == "st" and c.t[k].val == "sl st"):
            return True
        if kind in (":", "-") and c.t[k + 1].kind == "n":
            return True  # ": 8 ch-5 lps"
        if kind not in (",", ".", ";", "-", "and", ":", "to", "not", "with", "the"):
            return False
        k += 1
    return True
