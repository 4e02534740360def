"""The place named first: "in next sp work 2 dc, ch 2 and 2 dc", "in each st (sc, ch 2)", "working in back loops, …"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Make, Place, Repeat, Sized, Step, Times, Together
from ...trade.kinds import HEIGHT
from .bound_back import bind_back, has_place
from .bracket_remarks import skipped_before, which_place
from .cursor import Cursor, Frame
from .old_books import lies_on, on_middle
from .picots_told import closes_picot, on_other_piece, pass_name
from .places import PREPS, spot
from .shapes import amount, times
from .spots import ONE, Spot, moved
from .tails import of_what

EXAMPLES = (
    ("in next sp work 2 dc, ch 2 and 2 dc", "{dc×2, ch2, dc×2}@next sp"),
    ("in corner sp (3 dc, ch 2, 3 dc)", "{dc×3, ch2, dc×3}@next corner"),
    ("6 chain, 4 long, to come over the middle of the 8 long", "ch6, skip2, dc×4, skip2"),
    ("working in BLO, sc in each st across", "sc×rest@next st/back"),
)


def at_place(c: Cursor) -> list[Step] | None:
    """A clause that opens with its place."""
    start = c.i
    goes_on = c.kind == "cont" and c.look().kind in ("along", "around", "in", "over")
    worked = c.kind == "work" or goes_on
    if worked:
        c.i += 1
        _as_listed(c)
        c.drop("idle", "the")
    if c.kind == "loop" and c.look().kind in (",", ":", ";", "w", ".", "idle", "", "of", "throughout"):
        return loop_rule(c, start)
    if (c.kind in ("in", "over") and c.look().kind == "loop") or (
        c.kind in ("in", "over") and c.look().kind == "the" and c.look(2).kind == "loop"
    ):
        got = _loop_first(c, start)
        if got is not None:
            return got
    if c.kind == "last" and c.look().kind == "st" and c.look(2).kind in ("in", "over"):
        from .stitches import stitch

        c.i += 1
        return stitch(c)
    if c.kind in ("from", "beg"):
        return _start_at(c, start)
    if c.kind not in PREPS and c.kind not in ("next", "each", "last", "same"):
        c.i = start
        return None
    if c.kind in ("of", "for", "from", "to"):
        c.i = start
        return None
    bare = c.kind not in PREPS
    where = c.i
    found = spot(c, bare=bare)
    if found is None:
        c.i = start
        return None
    if found.at.row is not None and found.at.loop == "both" and _free_loops(c, where):
        found.at = moved(found.at, loop="free_front")  # what the row worked through the back loops left free
    if goes_on and found.at.where != "under":
        c.i = start
        return None
    if found.at.where == "from_hook" and c.kind in ("(", "["):
        skipped_before(c)
    begun = c.i
    if which_place(c) and found.at.what == "sp" and any(token.kind == "between" for token in c.t[begun : c.i]):
        found.at = moved(found.at, between=True)
    said = c.i
    if goes_on and c.kind == "with":
        c.i += 1  # "continue down the other side with sc in next 12 ch"
        return _elsewhere(c, start, found)
    c.drop(",", ":", ";") if c.kind in (",", ":") else None
    made = bool(c.take("work"))
    c.drop("idle")
    if made:
        _as_listed(c)
    if worked and not made and c.t[said].kind == ",":
        return _elsewhere(c, start, found)
    if c.kind in ("(", "[", "{"):
        if c.t[said].kind == "," and _placed_later(c):
            at, c.i = c.i, said
            bound = bind_back(c, start, found)
            if bound is not None:
                return bound
            c.i = at
        return _bracket(c, start, found)
    if made or c.kind in ("n", "st", "grp", "ch", "a"):
        if found.at.where == "under" or (found.at.row is not None and found.at.loop != "both"):
            return _elsewhere(c, start, found)
        return _told_how(c, found, made) or _items(c, start, found, made)
    if found.at.where in ("under", "row_end") or (found.at.row is not None and found.at.loop != "both"):
        steps = _elsewhere(c, start, found)
        return steps
    bound = bind_back(c, start, found)
    if bound is None and c.i > said and c.t[said].kind == ",":
        after, c.i = c.i, said  # "dc, ch 1 in each st around, join": the clause ends there
        bound = bind_back(c, start, found) if c.t[after].kind in ("join", "turn", "foff", "rep") else None
    if bound is not None:
        return bound
    c.i = start
    return None


def all_at_place(c: Cursor) -> list[Step] | None:
    """ "(3 d c, ch 2, 3 d c,) all in next st": the place of everything that stands before it in the list."""
    start = c.i
    if start == 0 or c.t[start - 1].kind not in (",", "st", ")", "noun") or c.look().kind not in ("in", "over", "under"):
        return None
    c.i += 1
    found = spot(c)
    bound = bind_back(c, start, found) if found is not None and found.places == ONE else None
    if bound is None:
        c.i = start
    return bound


def _as_listed(c: Cursor) -> None:
    """Pass over ":", "the following:", "as follows:" before what goes into a place."""
    begin = c.i
    c.take("as")
    c.drop("the", "idle")
    said = c.t[c.i].val in ("follow", "follows", "following", "foll") or c.kind == "follow"
    if said:
        c.i += 1
    elif c.i > begin:
        c.i = begin
        return
    c.take(":", "-")


def _free_loops(c: Cursor, begin: int) -> bool:
    """ "In free loops of Rnd 2", "in the unused loops of 3rd round"."""
    said = c.t[begin : c.i]
    return any(t.kind in ("free", "unworked") for t in said) and any(t.kind == "lp" for t in said)


def _start_at(c: Cursor, start: int) -> list[Step] | None:
    """ "Starting in 2nd ch from hook, …", "from the second loop off the hook: …": the next stitch's place."""
    c.drop("from", "beg", "with", "in", "at")
    c.take("the")
    found = spot(c, bare=True)
    c.i += found is not None and c.t[c.i].val == "again" and c.look().kind in (",", ".", ":", "")
    if (
        found is None
        or found.at.where not in ("from_hook", "first", "last", "named", "next", "same", "marked")
        or c.kind not in (",", ":", ";", "work", "st", "n", "inc", ".")
    ):
        c.i = start
        return None
    if found.at.where == "from_hook" or found.at.nth == 0:
        first_of_groups = found.at.nth == 0 and found.at.where == "first"
        c.start_at = moved(found.at, where="next") if first_of_groups else found.at
    c.drop(",", ":", ";")
    return [Aside(id=c.id(), span=c.span(start))]


def _elsewhere(c: Cursor, start: int, found: Spot) -> list[Step] | None:
    """ "working along opposite side of ch,", "working in ends of rows,": what follows goes there."""
    if found.at.where in ("under", "row_end", "ring") or found.at.row is not None:
        c.elsewhere = found.at
    elif found.at.loop != "both":
        c.loop = found.at.loop
    return [Aside(id=c.id(), span=c.span(start))]


_RULES = frozenset("w idle of noun for the row rnd each all on st around across ws from now here in".split())  # noqa: SIM905


def loop_rule(c: Cursor, start: int) -> list[Step] | None:
    """ "BLO:", "working in back loops only throughout,": holds for the row, or from here on."""
    c.loop = str(c.t[c.i].val)
    if c.loop == "both":
        c.loop = ""
    c.i += 1
    begin = c.i
    while c.kind in _RULES:
        if c.kind in ("st", "each") and c.look().kind in ("in", "n", "noun"):
            break
        c.i += 1
    words = {t.val for t in c.t[begin : c.i]}
    before = c.frames[0].out
    founded = any(isinstance(step, Chain) and step.foundation for step in before) and all(
        isinstance(step, (Chain, Aside)) for step in before
    )
    if founded or words & {"throughout", "hereafter", "always", "now on", "all"}:
        c.told["hereafter_loop"] = c.loop or "both"
    c.drop(":", ",")
    return [Aside(id=c.id(), span=c.span(start))]


def _loop_first(c: Cursor, start: int) -> list[Step] | None:
    """ "In back loops only, sc in each st": a loop with no place is a rule for what follows."""
    begin = c.i
    c.i += 1
    c.take("the")
    after = c.look()
    throughout = after.kind == "of" and c.look(2).kind in ("noun", "st") and c.look(3).val in ("throughout", "only", "always")
    if (
        throughout
        or after.kind in (",", ":", "", ".", ";")
        or (after.kind == "idle" and c.look(2).kind in (",", ":", "."))
        or (after.kind in ("throughout", "w") and c.look(1).val in ("throughout", "hereafter", "only"))
    ):
        return loop_rule(c, start)
    if after.kind in ("n", "st", "a", "inc", "dec"):
        loop = str(c.t[c.i].val)
        c.i += 1
        old, c.loop = c.loop, loop
        from .one_phrase import one

        got = one(c)
        c.loop = old
        if got is not None:
            return got
    c.i = begin
    return None


def _bracket(c: Cursor, start: int, found: Spot) -> list[Step] | None:
    from .groups import inside

    close = c.close.get(c.i)
    if close is None:
        c.i = start
        return None
    if c.look().kind in ("counts", "=", "total") or (c.look().kind == "n" and close == c.i + 2):
        c.i = start
        return None
    body: list[Step] = inside(c, close)
    c.i = close + 1
    if not any(isinstance(step, (Make, Chain, Together, Repeat)) for step in body):
        c.i = start
        return None
    often = times(c)
    if often is not None and often.kind in ("n", "more"):
        body = [Repeat(id=c.id(), span=c.span(start), body=tuple(body), times=Times(kind="n", number=often.number))]
        if c.kind == "and" and c.look().kind in ("st", "grp", "n", "a"):
            c.i += 1
            body += _more(c)
        elif c.kind in (",", "and") and isinstance(_last_of(body[0]), Chain):
            body += _left_of_it(c, start, found)
        elif c.kind in (",", "and") and c.look().kind == "ch":
            body += _begun_again(c, start, found, body[0])
    if c.kind == "and" and c.look().kind in ("st", "grp") and often is None and c.look(2).kind in (",", ";", "."):
        c.i += 1
        body += _more(c)
    return [Together(id=c.id(), span=c.span(start), body=tuple(body), at=found.at, places=found.places, but=found.but, upto=found.upto)]


def _last_of(step: Step) -> Step:
    """The last step of a repeat's unit."""
    return step.body[-1] if isinstance(step, Repeat) and step.body else step


def _left_of_it(c: Cursor, start: int, found: Spot) -> list[Step]:
    """ "In next sp (3 dc, ch 1) 3 times, 2 dc": what is told no place of its own behind units that end in a chain goes into the same."""
    begin = c.i
    c.i += 1
    got = _items(c, start, found, False) if c.kind in ("n", "st", "grp") else None
    step = got[0] if got else None
    if isinstance(step, Together):
        return list(step.body)
    if isinstance(step, Make) and isinstance(step.each, Sized) and not step.upto:
        return [replace(step, places=step.each, each=ONE, at=Place())]
    c.i = begin
    return []


def _begun_again(c: Cursor, start: int, found: Spot, units: Step) -> list[Step]:
    """ "In the same ch (ch 2, 3 dc) twice, ch 2, 2 dc": a chain and a stitch as in the units, told no place of their own, go there too."""
    begin = c.i
    unit = units.body if isinstance(units, Repeat) else ()
    c.i += 1
    got = _items(c, start, found, False) if found.places == ONE and len(unit) == 2 and isinstance(unit[0], Chain) else None
    body = got[0].body if got and isinstance(got[0], Together) else ()
    alike = len(body) == 2 and isinstance(body[0], Chain) and body[0].number == unit[0].number  # type: ignore[union-attr]
    if alike and isinstance(body[1], Make) and isinstance(unit[1], Make) and body[1].stitch == unit[1].stitch and c.kind in _CLAUSE_ENDS:
        return list(body)
    c.i = begin
    return []


_CLAUSE_ENDS = frozenset((".", ";", "", "join", ",", ")", "turn"))


def _more(c: Cursor) -> list[Step]:
    from .one_phrase import one

    return one(c) or []


def _told_how(c: Cursor, found: Spot, made: bool) -> list[Step] | None:
    """ "(In next sp work) a Cluster as follows: …": one group of that name goes there, whatever places its own telling names."""
    from .one_phrase import one

    begin = c.i
    c.take("a", "the")
    colon = next((t.kind == ":" for t in c.t[c.i + 1 : c.i + 6] if t.kind in (":", ",", ".", ";", "(")), False)
    got = one(c) if made and c.kind == "grp" and colon else None
    group = got[0] if got is not None and len(got) == 1 else None
    if isinstance(group, (Make, Together)) and (isinstance(group, Make) or group.name):
        return [replace(group, at=found.at, places=found.places, but=found.but, upto=found.upto)]
    c.i = begin
    return None


def _items(c: Cursor, start: int, found: Spot, made: bool) -> list[Step] | None:
    """Stitches and chains told after their place, up to the last one ("… and 2 dc") or the clause's end."""
    from .groups import bracket
    from .one_phrase import one

    c.frames.append(Frame())
    body = c.frames[-1].out
    last_and = False
    stop = c.i
    caught: tuple[int, int] | None = None
    try:
        while len(body) < 40:
            if c.kind in ("(", "[") and c.close.get(c.i):
                got = bracket(c)
            elif c.kind in ("st", "n", "ch", "grp", "a", "inc", "dec", "more"):
                before = c.i
                got = one(c)
                if got and any(has_place(c, step) for step in got) and not closes_picot(got, body):
                    if caught is None and on_other_piece(got, body):
                        caught = len(body), stop  # "3 sc, ch 2, sl st in next picot on First Motif, ch 2 … and 3 sc"
                    elif not on_other_piece(got, body):
                        c.i = before
                        got = None
            else:
                got = _bead(c)
            if not got:
                break
            body.extend(got)
            pass_name(c, body)
            stop = c.i
            if last_and:
                break
            if c.kind == "and":
                last_and = True
            elif c.kind == "n" and c.look().kind in ("st", "ch") and (made or _goes_on(c, body)):
                continue  # "into each loop work 1 d.c. 3 tr. and 1 d.c."
            elif c.kind != ",":
                break
            c.drop(",", "and", "then")
            last_and = last_and or c.t[c.i - 1].kind == "and"
    finally:
        c.frames.pop()
    if caught is not None and not last_and:
        del body[caught[0] :]
        stop = caught[1]
    c.i = stop
    if not last_and and len(body) > 1:
        while body and isinstance(body[-1], Chain):
            body.pop()
            c.i = _before_last(c, stop)
            stop = c.i
    if not body:
        c.i = start
        return None
    if len(body) == 1 and isinstance(body[0], Make) and body[0].places != "rest":
        only = body[0]
        return [Make(id=only.id, span=c.span(start), stitch=only.stitch, each=only.places if only.each.values == (1,) and isinstance(only.places, Sized) else only.each, places=found.places,  # noqa: E501
                     but=found.but, upto=found.upto, at=found.at, closes=only.closes, main=only.main)]  # fmt: skip
    return [Together(id=c.id(), span=c.span(start), body=tuple(body), at=found.at, places=found.places, but=found.but, upto=found.upto)]


def _goes_on(c: Cursor, body: list[Step]) -> bool:
    """Whether "(in each loop 1 d.c.) 3 tr. 1 d.c." goes on without a comma: a stitch other than the last (a count names that)."""
    made = [step for step in body if isinstance(step, Make)]
    return len(made) > 1 or (len(made) == len(body) == 1 and c.look().kind == "st" and c.us(str(c.look().val)) != made[0].stitch)


_BEADS = frozenset(("bead", "beads", "sequin", "sequins", "spangle", "spangles", "pearl", "pearls"))


def _bead(c: Cursor) -> list[Step] | None:
    """ "(3 dc, 2 ch,) push up a bead, (2 ch, 3 dc)": a bead slid to the hook among the stitches."""
    start = c.i
    while c.kind in ("w", "along", "a", "the", "idle", "pull", "place", "insert"):
        c.i += 1
    if c.i > start and c.t[c.i - 1].text.lower() in _BEADS and c.kind in (",", "and"):
        return [Aside(id=c.id(), span=c.span(start))]
    c.i = start
    return None


def _before_last(c: Cursor, stop: int) -> int:
    """Index of the comma before the last item that ended at `stop`."""
    k = stop - 1
    while k > 0 and c.t[k].kind != ",":
        k -= 1
    return k


def worked_in(c: Cursor) -> list[Step] | None:
    """ "these 6 stitches are made in the 4 chain", "the 3 plain stand in the middle of the 7 chain", "coming in the centre of the 6 long",
    "so that these 2 come over the 5 chain": the place, told afterwards."""
    start = c.i
    while c.t[c.i].text.lower() in _LEADS_IN and c.i - start < 4:
        c.i += 1
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    number = amount(last) if isinstance(last, Make) and last.places != "rest" else 0
    noun_told = False
    if c.take("the"):
        if c.kind == "st" and lies_on(c):
            return [Aside(id=c.id(), span=c.span(start))]
        if c.kind != "n":
            c.i = start
            return None
        number = c.t[c.i].val
        c.i += 1
        noun_told = c.take("st", "noun") is not None and c.t[c.i - 1].kind == "noun"
    verb = c.i
    while c.t[c.i].text.lower() in _COMES:
        c.i += 1
    if c.i == verb or not number or c.t[c.i - 1].text.lower() in ("to", "must", "should", "will", "always"):
        c.i = start
        return None
    c.take("work")
    at = len(c.out) - 1
    while at > 0 and isinstance(c.out[at], Aside):
        at -= 1
    if isinstance(last, Make) and number == amount(last) and (middle := on_middle(c, start, last.stitch, number)) is not None:
        c.out[at : at + 1] = middle
        return [Aside(id=c.id(), span=c.span(start))]
    found = spot(c)
    if found is None or (found.at.where == "under" and c.kind not in (",", ";", ".", "", ")", "]")):
        c.i = start
        return None  # "go down other side of ch with 1 sc in next 6 ch" tells where the work goes on
    if c.kind in ("in", "of"):
        of_what(c, {})  # "... of the 6 chain in the 7th round": which round's they are
    if found.told and found.at.what in HEIGHT:
        return [Aside(id=c.id(), span=c.span(start))]  # "the 3 treble come upon the 3 treble": one on each, as they are told
    out = c.out
    if isinstance(last, Repeat) and not last.last:
        body = list(last.body)  # "(miss 1, 1 plain, 4 treble, 1 plain) 7 times: these 6 stitches are worked in the 4 chain"
        if _gathered_last(c, body, number, noun_told, found, start):
            out[at] = replace(last, body=tuple(body))
    else:
        _gathered_last(c, out, number, noun_told, found, start)
    return [Aside(id=c.id(), span=c.span(start))]


_LEADS_IN = frozenset(("so", "that", "which", "taking", "care", "as"))
_COMES = frozenset("are is be being come comes coming go were to must should will always fall falls falling".split())  # noqa: SIM905


def _gathered_last(c: Cursor, out: list[Step], number: int, noun_told: bool, found: Spot, start: int) -> bool:
    """Put the last so many stitches, with the chains between them, into the one place; False where they are not so many."""
    first = len(out)
    have = 0
    while first and have < number and isinstance(out[first - 1], (Make, Chain)):
        first -= 1
        step = out[first]
        have += amount(step) if isinstance(step, Make) else 0
    if first == len(out) or not (have == number or noun_told):
        return False
    body = tuple(step for step in out[first:] if not isinstance(step, Aside))
    out[first:] = [Together(id=c.id(), span=c.span(start), body=body, at=found.at)]
    return True


def _placed_later(c: Cursor) -> bool:
    """After the bracket here comes a place of its own ("(2 tr, ch 3, 2 tr) ch 2, in corner sp")."""
    k = c.close.get(c.i, c.i) + 1
    while c.t[k].kind in ("ch", "n", ",", "-", "all"):
        k += 1
    return c.t[k].kind == "in"
