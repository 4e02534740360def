"""Stitches and where they go: "5 sc", "sc 5", "2 dc in next st", "dc2tog over next 2 sts", "FPdc around next dc"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Choice, Colour, Even, Make, Place, Repeat, Sized, Skip, Step, Times, Together, Turn
from ...trade.kinds import AIRY, FOUNDATION_STITCHES
from ..wording.terms import us_id
from .around_posts import around_post, round_a_side
from .back_to_skipped import pass_back
from .bare import nothing_else
from .beside import in_colour, loop_after, loop_before, other_terms, post_before, ring_first, terms_said, with_between
from .closers import closed_as_before
from .counted_groups import group_of
from .cursor import Cursor
from .edges import how_the_thread_goes
from .kinds_listed import another_kind
from .nouns import noun
from .numbers import number, times_word
from .onset import counted_from_start
from .pieces import on_a_piece
from .places import spot
from .posts_beside import side_of_post
from .shaped_groups import twice_in_one
from .shapes import make, unplaced
from .so_many_places import one_each, ordinals_from_hook, over_loop_just_made, over_own_chain
from .specials import named
from .spot_behind import CLAUSE_ENDS, and_place, spot_after
from .spots import Spot
from .tog import times_after, with_loop, worked_together
from .told_in_brackets import as_named, define, name_before_place
from .two_strands import second_strand
from .widened import widened

EXAMPLES = (
    ("5 sc", "sc×5"),
    ("sc 5", "sc×5"),
    ("2 dc in next st", "2dc"),
    ("1 sc in each of next 3 sts", "sc×3"),
    ("sc in next st, 2 sc in next st", "sc, 2sc"),
    ("dc2tog over next 2 sts", "dc2tog"),
    ("sc next 2 sts tog", "sc2tog"),
    ("2 sc tog", "sc2tog"),
    ("sc around", "sc×rest"),
    ("sc in 2nd ch from hook and in each ch across", "sc@from_hook ch#2, sc×rest@next ch"),
    ("FPdc around next dc", "FPdc@next dc"),
    ("sc in every other st around", "[sc, skip]×rest"),
    ("Double crochet, 1 in every st and 3 under every ch-3", "dc×rest, 3dc×rest@next ch-3 sp"),
    ("Plain single crochet, putting 1 in each st and 1 under each ch-1", "sc×rest, sc×rest@next ch-1 sp"),
)


def stitch(c: Cursor) -> list[Step] | None:
    """A stitch instruction; the number, when there is one, has not been read yet."""
    start = c.i
    early_loop = loop_before(c)
    if c.kind == "a" and c.look().kind == "n" and c.look(2).kind == "-" and c.look(3).kind in ("st", "grp"):
        c.i += 1  # "a 3-tr cluster": one group, told with what it is made of
    told = number(c)
    one = False
    if told is None and c.kind == "a":
        c.i += 1
        one = True
    again = (told is not None or one) and c.kind == "more"
    if told is not None or one:
        c.drop("more", "idle", "x") if c.kind in ("more", "idle", "x") else None
        if c.kind == "w" and c.t[c.i].val == "x":
            c.i += 1
        if c.kind == "-" and c.t[c.i].val == "tight":
            c.i += 1
    early_loop = early_loop or loop_before(c)
    terms = terms_said(c)
    if told is not None and c.kind == "w" and c.look().kind == "st":
        return _coloured(c, start, told)
    post = post_before(c)
    if c.kind == "grp":
        group = named(c, start, told)
        return with_between(c, start, group) if group else group
    if (
        c.kind in ("in", "under", "over")
        and told is not None
        and c.out
        and isinstance(c.out[-1], Make)
        and c.look().kind in ("next", "the", "same", "each", "o", "last", "center")
    ):
        return _same_again(c, start, told)
    if c.kind != "st":
        c.i = start
        return None
    group = group_of(c, start, told)
    if group is not None:
        return group
    if c.t[c.i].val == "plain" and c.look().kind == "st":
        c.i += 1  # "plain double crochet": that stitch and no other
    raw = str(c.t[c.i].val)
    if raw == "sl st" and c.look().kind in ("st",) and c.look().val == "sl st":
        c.i += 1
    c.i += 1
    kind = us_id(raw, terms) if terms else c.us(raw)
    if terms:
        other_terms(c)
    loop = {"bsc": "back", "bhdc": "back", "bdc": "back", "flsc": "front"}.get(raw, "")
    if loop:
        kind = c.us(raw.removeprefix("b").removeprefix("fl"))
    if post:
        kind = post + kind
        c.drop("front", "back")  # "raised dc front around next dc"
    how_the_thread_goes(c)
    pass_back(c)
    c.drop("noun", "idle") if c.kind == "noun" or (c.kind == "idle") else None
    if c.kind == "(" and c.look().text.lower() == "instead" and c.i in c.close:
        c.i = c.close[c.i] + 1  # "2 sc (instead of 3) in last ch"
    _said_again(c, kind)
    if not post and c.kind == "around" and ("post" in (c.look().kind, c.look(2).kind, c.look(3).kind) or round_a_side(c)):
        return around_post(c, start, kind, told)
    loop = loop or early_loop or loop_after(c)
    if told is None and c.look().kind == "in" and (often := times_word(c)) is not None:
        told = Sized((often,))  # "double crochet twice in the next st"
    colour = in_colour(c)
    steps = worked_together(c, start, kind, told, loop) or in_places(c, start, kind, told, loop) or []
    if again and len(steps) == 1 and isinstance(steps[0], Make) and steps[0].at.where == "last":
        steps = [replace(steps[0], at=replace(steps[0].at, where="same"))]  # "1 more dc in last st": that stitch has one already
    steps = colour + ring_first(c, start, steps) + steps
    return closed_as_before(c, steps) or with_between(c, start, steps)


def picked_up_and_worked(c: Cursor) -> list[Step] | None:
    """ "Pick up 12 sc evenly around opening", "pick up and sc 12 sts": so many stitches worked along an edge; no loops on a hook."""
    start = c.i
    after = c.look(2 + (c.look(2).kind == "-"))
    if c.ctx.passes or c.look().kind != "n" or after.kind != "st" or after.val == "sl st":
        return None
    c.i += 1
    got = stitch(c)
    if got is None:
        c.i = start
    return got


def once_more(c: Cursor) -> list[Step] | None:
    """ "(Dc once in the next st), then twice in the one after": the stitch before, said once."""
    if c.look().kind != "in" or not c.out or not isinstance(c.out[-1], Make):
        return None
    start = c.i
    got = _same_again(c, start, Sized((times_word(c) or 1,)))
    if got is not None and len(got) == 1 and isinstance(got[0], Make) and c.t[start - 1].kind == "st":
        return twice_in_one(c, got[0]) or got
    return got


def begun_group(c: Cursor) -> list[Step] | None:
    """ "Beg cluster in same st": the first of its kind, told with the chain that begins it."""
    if c.look().kind != "grp" or f"beg {c.look().val}" in c.specials:
        return None
    c.i += 1
    return named(c, c.i - 1, None)


def _coloured(c: Cursor, start: int, told: Sized[int]) -> list[Step] | None:
    """ "6 dark dc, 3 light dc": a block of colour in the row."""
    from .colours import name

    begin = c.i
    yarn = name(c)
    if yarn is None or c.kind != "st":
        c.i = start
        return None
    colour = Colour(id=c.id(), span=c.span(begin), yarn=yarn)
    kind = c.us(str(c.t[c.i].val))
    c.i += 1
    return [colour, *(in_places(c, start, kind, told, "") or [])]


def _same_again(c: Cursor, start: int, told: Sized[int]) -> list[Step] | None:
    """ "8 plain, and 3 in the 9th stitch", "sc in next 3, 2 in next": the stitch before, said once."""
    before = c.out[-1]
    assert isinstance(before, Make)
    c.take("in")
    found = spot(c, bare=True)  # "a double in each treble and 1 under each chain"
    if found is None:
        c.i = start
        return None
    if found.skip:
        found.skip = 0
    if found.places == "rest" and _only_named(c, before, start):
        c.out.pop()
    return _placed(c, start, before.stitch, told, found)


def _only_named(c: Cursor, before: Make, end: int) -> bool:
    """ "Double crochet, one in every stitch": the stitch is told first, and how it lies behind; the name alone works nothing."""
    if not unplaced(c, before) or before.places != ONE or before.each != ONE:
        return False
    words = [token for token in c.t[:end] if token.start >= before.span.start]
    named = next((k for k, token in enumerate(words) if token.kind == "st" and token.val != "plain"), len(words))
    behind = words[named + 1 :]
    alone = all(token.val in ("plain", "all") or token.kind in ("all", "a") for token in words[:named])
    return alone and bool(behind) and all(token.kind in (",", ";", ":", "noun", "work") or token.text.lower() in _LAID for token in behind)


_LAID = frozenset("taking putting placing working making".split())  # noqa: SIM905


def laid(c: Cursor) -> list[Step] | None:
    """ "(Double crochet,) putting one in each stitch, and three under every chain": the stitch just named, and how it lies."""
    start = c.i
    named = c.out[-1] if c.out else None
    if c.t[start].text.lower() not in _LAID or c.look().kind not in ("n", "a"):
        return None
    run = isinstance(named, Even) and named.stitch is not None
    run = run or (isinstance(named, Make) and named.each == ONE and named.at in (Place(), Place(what="any")))
    if not run or not (isinstance(named, Even) or (isinstance(named, Make) and named.places in (ONE, "rest"))):
        return None
    c.i += 1
    told = number(c) or ONE
    found = spot(c) if c.kind in ("in", "under", "over") else None
    if found is None or found.places != "rest":
        c.i = start
        return None
    c.out.pop()
    return _placed(c, start, str(named.stitch), told, found)


def in_places(c: Cursor, start: int, kind: str, told: Sized[int] | None, loop: str) -> list[Step] | None:
    """The stitch `kind` in the places told behind it, and in those told behind "and"; None where no place is told."""
    if told is None and (several := ordinals_from_hook(c, start, kind)) is not None:
        return several
    c.i += kind == "sl st" and c.kind == "back" and c.look().kind == "in"  # "turn, sl st back in last sp"
    name = name_before_place(c)
    if (
        told is not None
        and c.kinds("in", "each")
        and c.look(2).text.lower() in ("round", "rnd", "rd")
        and c.look(3).kind in CLAUSE_ENDS | {"("}
    ):
        c.i += 3  # "Rnds 8-12: 6 sc in each round": so many, and no place
    if c.kind == "o" and c.look().kind == "ch" and c.look(2).kind == "from":
        found = spot(c, bare=True)
    else:
        c.kinds_apart = True
        found = spot_after(c)
        c.kinds_apart = False
    if name and told is not None and found is not None:
        define(c, name, (Make(id=c.id(), span=c.span(start), stitch=kind, each=told, at=Place(where="same")),), start)
    if found is None:
        return [_no_place(c, start, kind, told, loop)]
    kind = side_of_post(c, kind, found)
    if told is not None and found.at.where == "row_end" and found.at.what == "ch":
        return [make(c, start, kind, each=told, found=Spot(Place(where="row_end", what="row")))]
    if told is not None and over_own_chain(c, start, found, told):
        found, told = Spot(Place(what="ch"), told, told=True), None
    if told is not None and over_loop_just_made(c, found, told):
        found.at = Place(where="same", what="made")
    if told is not None and told != ONE and one_each(c, found, told):
        found.places, told = told, None
    second_strand(c, found)
    steps = _placed(c, start, kind, told, with_loop(found, loop) or found)
    steps = [as_named(c, step, name) for step in steps] if name else steps
    last = found
    while True:
        begin = c.i
        more = another_kind(c, last) or and_place(c)
        if more is None:
            break
        if last.at.where == more.at.where == "row_end" and last.places == ONE and more.places == "rest":
            steps.pop()  # "in end of next row and of each row across": all along
        last = more
        if more.upto and more.places == "rest":  # "in each dc and in each ch-1 sp to center sp": both go as far
            steps = [replace(one, upto=more.upto) if isinstance(one, Make) and one.places == "rest" else one for one in steps]
        steps += _placed(c, begin, kind, told, with_loop(more, loop) or more)
    return steps


def _between_plain(c: Cursor, start: int, kind: str, inner: Make, every: int) -> Choice:
    """ "2 sc into every 3rd st": an increase, the stitches between worked plainly; or they are passed over, where only that fits."""
    plain = Make(id=c.id(), span=c.span(start), stitch=kind, places=Sized((every - 1,)))
    skip = Skip(id=c.id(), span=c.span(start), number=Sized((every - 1,)))
    bodies: tuple[tuple[Step, ...], ...] = ((plain, inner), (inner, skip))
    if kind == "dc":
        bodies = bodies[::-1]  # in open work they are passed over more often
    answers = tuple((Repeat(id=c.id(), span=c.span(start), body=body, times=Times(kind="rest")),) for body in bodies)
    return Choice(id=c.id(), span=c.span(start), question=PLAIN_BETWEEN, answers=answers)


PLAIN_BETWEEN = "Are the stitches between those told worked plainly?"


def qualified(c: Cursor) -> list[Step] | None:
    """ "1 border sc", "2 edge dc", "1 plain ch": a word that says which stitch of the row it is, and nothing of how it is made."""
    start = c.i
    if c.look().text.lower() not in _QUALIFIES or c.look(2).kind not in ("st", "ch"):
        return None
    if c.look().kind == "st" and c.look(2).kind != "st":
        return None
    number, word = c.t[start], c.t[start + 1]
    c.t[start + 1] = number
    c.i = start + 1
    got = stitch(c)
    c.t[start + 1] = word
    if got is None or c.i == start + 1:
        c.i = start
        return None
    return got


_QUALIFIES = frozenset("border edge plain regular normal ordinary selvedge selvage edging".split())  # noqa: SIM905


def own_stitch(c: Cursor) -> list[Step] | None:
    """ "Waistcoat st in each st around", "Knit stitch (kst) around": a stitch that nobody told, one in a place, of the piece's own kind."""
    start = c.i
    if (
        c.kind != "w"
        or c.look().kind != "noun"
        or c.t[c.i].val in _NO_STITCH
        or len(c.t[c.i].text) < 3
        or (start and c.t[start - 1].kind not in _OPENING)
    ):
        return None
    c.i += 2
    close = c.close.get(c.i)
    if c.kind == "(" and close is not None and close - c.i <= 3 and c.look().kind == "w":
        c.i = close + 1
    if c.kind not in ("in", "around", "across", "each"):
        c.i = start
        return None
    return in_places(c, start, c.ctx.main or "sc", None, "")


_OPENING = frozenset(("", ",", ".", ";", ":", "*", "(", "["))
_NO_STITCH = frozenset(
    (
        "work",
        "make",
        "this",
        "that",
        "first",
        "last",
        "each",
        "any",
        "same",
        "marked",
        "few",
        "some",
        "many",
        "no",
        "which",
        "whole",
        "edge",
    )
)


def goes_on(c: Cursor) -> list[Step] | None:
    """ "dc in 4th ch from hook (skipped ch count as dc) and in each ch across": the stitch goes on after an aside in brackets."""
    at = c.i
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if at == 0 or c.t[at - 1].kind != "and" or not isinstance(last, Make) or not isinstance(c.out[-1], Aside):
        return None
    c.i = at - 1
    found = and_place(c)
    if found is None:
        c.i = at
        return None
    return _placed(c, at, last.stitch, None, found)


def _said_again(c: Cursor, kind: str) -> None:
    """Past the same stitch by another name: "crab stitch (reverse sc) around"."""
    close = c.close.get(c.i)
    if c.kind == "(" and close == c.i + 2 and c.look().kind == "st" and c.us(str(c.look().val)) == kind:
        c.i = close + 1
    c.i += c.kind == "back" and c.look().kind in ("across", "along")  # "reverse sc back across"
    apart = c.kind in (",", ":") and c.look().val == 1 and c.look(2).kind == "in" and c.look(3).kind in ("each", "all")
    c.i += 2 * (apart and not any(isinstance(step, (Make, Together)) for step in c.frames[0].out))  # "Plain, 1 in every chain"


def _no_place(c: Cursor, start: int, kind: str, told: Sized[int] | None, loop: str) -> Step:
    count = told
    if c.kind == "each" and c.look().kind in ("row", "rnd", "around") and c.look(2).kind in ("", ".", ",", ";", "(", "[", "="):
        c.i += 2  # "30 sc each round"
    if count is None:
        count = times_after(c)
        c.take("noun")
    elif c.kind == "w" and c.t[c.i].val == "x" and c.look().kind == "n":
        count = times_after(c) or count
    if kind in FOUNDATION_STITCHES or kind in AIRY:
        return make(c, start, kind, found=Spot(Place(where="hook"), count or ONE))
    if c.in_ring and not loop:
        c.last_place = None
        return make(c, start, kind, each=count or ONE, found=Spot(Place(where="ring", what="ring")))
    later = spot_after(c) if told is None and count is not None else None
    if later is not None and later.at.what == "piece" and count is not None:
        later.places = count
        return make(c, start, kind, found=with_loop(later, loop))
    if later is not None and count is not None and over_own_chain(c, start, later, count):
        return _placed(c, start, kind, None, Spot(Place(what="ch"), count, told=True))[0]
    if later is not None and count is not None:
        return _placed(c, start, kind, count, with_loop(later, loop) or later)[0]
    if kind == "rsc" and count is None and c.t[start - 1].kind in ("work", "a") and c.kind in ("(", ",", ".", ";", ""):
        return make(c, start, kind, found=Spot(Place(), "rest"))  # "work reverse sc (left to right)": all along
    if count is None and c.kind == "back" and c.look().kind in (".", ";", "") and not c.out:
        c.i += 1
        return make(c, start, kind, found=with_loop(Spot(Place(), "rest"), loop))  # "S c back."
    if count is None and not c.ctx.begins and nothing_else(c):
        return make(c, start, kind, found=with_loop(Spot(Place(), "rest"), loop))  # "rnd 6) sc = 30"
    found = with_loop(Spot(Place(), count or ONE), loop)
    return make(c, start, kind, found=found)


def _along(c: Cursor, start: int) -> bool:
    """ "Dc 22 up the other side", "22 dc along the opposite side": so many there, and not all in one place."""
    return any(token.kind in ("along", "across", "around", "over") for token in c.t[start : c.i])


def _placed(c: Cursor, start: int, kind: str, told: Sized[int] | None, found: Spot) -> list[Step]:
    """The Make (or Choice, or Skip and Make) for a stitch with its place."""
    before: list[Step] = []
    bare_run = found.places == "rest" and found.at == Place() and found.but == Sized((0,)) and not found.evenly
    if told is not None and bare_run and _as_many(c, start):
        found = Spot(Place(), told, told=True)  # "4 tr to finish": as many as are left
    if found.skip:
        passed = Skip(id=c.id(), span=c.span(start), number=Sized((found.skip,)), what=found.at.what, ordinal=True)
        before += counted_from_start(c, passed, gap=found.at.between)
    if (wider := widened(c, start, kind, told, found)) is not None:
        return [*before, *wider]
    told_run = next((one for one in reversed(c.out) if not isinstance(one, Aside)), None)
    on_way = isinstance(told_run, Make) and (told_run.places, told_run.stitch) == ("rest", kind)
    if found.told and found.each and found.at == Place(what="ch") and on_way:
        found.places = "rest"  # "hdc in each st around and 1 hdc in each of the 5 ch over thumb": those that the run meets
    over = any(token.kind in ("around", "over") for token in c.t[start + 1 : start + 4])
    if over and found.places == "rest" and found.at == Place(what="ch") and (told or ONE).at(0) not in (1, None):
        found.at = Place(what="sp")  # "6 sc around each handle chain": the loops, and not each of their chains
    each, note = told or ONE, False
    if kind == "sl st" and found.at.where == "next" and found.places != "rest" and on_a_piece(c):
        found.at = Place(where="marked", what="piece")  # "sl st in next 2 sts of body": the row is joined on as it is made
    if found.at.what == "piece" and found.places == "rest" and told is not None:
        found.places, each = told, ONE
    elif (
        found.at.where == "under" and found.places == "rest" and told is not None and not found.each
        and (c.t[c.i - 1].kind in ("ch", "tch", "side", "lp") or (c.t[c.i - 1].kind == "opp" and _along(c, start)))
    ):  # fmt: skip
        found.places, each = told, ONE  # "work 30 sc along the bottom of the chain"
    unit = c.out[-1] if c.out else None
    told_between = c.kind == "between" and c.look().kind in CLAUSE_ENDS and found.each
    goes_on = told in (None, ONE) and found.places == "rest" and found.at == Place(what=found.at.what)
    if (
        (told_between or (goes_on and found.but == Sized((0,)) and not found.evenly))
        and isinstance(unit, Repeat)
        and unit.times.kind == "rest"
    ):
        first, *others = unit.body
        if (
            len(others) == 1
            and isinstance(others[0], Skip)
            and isinstance(first, Make)
            and (told_between or first.each != ONE)
            and found.at.what in ("st", kind, first.at.what)
        ):
            c.i += told_between  # "2 dc in every 2nd st, 1 dc in each st between", "2 dc in every other dc, dc around"
            between = make(c, start, kind, found=Spot(found.at, others[0].number))
            c.out[-1] = replace(unit, body=(first, between), times=replace(unit.times, loose=True))
            return [Aside(id=c.id(), span=c.span(start))]
    if _into_next_chains(c, told, found):
        found = Spot(Place(what=f"ch-{found.places.values[0]} sp"))  # type: ignore[union-attr]
    if told is not None and found.places == ONE and found.at.loop != "both" and c.t[c.i - 1].kind in ("loop", "idle"):
        found.places, each = told, ONE  # "24 sc in BLO"
    if found.evenly and told is not None:
        found.places, each = told, ONE
    elif (
        told is not None
        and found.told
        and not found.each
        and isinstance(found.places, Sized)
        and found.at.where in ("next", "first", "last")
    ):
        if told == found.places and told != ONE:
            each, note = ONE, told == Sized((2,))
        elif told != ONE and found.places != ONE and found.at.where != "next":
            each = told
    if found.every > 1:
        inner = make(c, start, kind, each=each, found=Spot(found.at))
        run = c.out[-1] if c.out else None
        if isinstance(run, Make) and run.places == "rest" and run.each == ONE and found.at.what in (run.at.what, "st", kind):
            c.out.pop()  # "1 dc in each st, making 2 dc in every 6th st"
            plain = replace(run, places=Sized((found.every - 1,)))
            around = Repeat(id=c.id(), span=c.span(start), body=(plain, inner), times=Times(kind="rest", loose=True))
            opening = next((one for one in reversed(c.out) if not isinstance(one, (Aside, Colour, Turn))), None)
            if isinstance(opening, Chain) and found.every > 2 and (opening.number.values[0] or 0) > 1:
                first = replace(plain, id=c.id(), places=Sized((found.every - 2,)))
                return [first, replace(inner, id=c.id()), around]  # the chain is the first of them
            return [around]
        if (
            told == Sized((2,))
            and (kind in ("sc", "hdc") or (kind == "dc" and (c.kind != "," or c.look().kind == "join")))
            and found.at == Place(what=found.at.what, span=found.at.span)
            and found.at.what in ("st", kind)
            and not any(isinstance(one, (Make, Repeat)) for one in c.out)
        ):
            return [_between_plain(c, start, kind, inner, found.every)]
        skip = Skip(id=c.id(), span=c.span(start), number=Sized((found.every - 1,)), what=found.at.what)
        return [Repeat(id=c.id(), span=c.span(start), body=(inner, skip), times=Times(kind="rest"))]
    step = make(c, start, kind, each=each, found=found)
    c.last_place = step.at
    if c.told.pop("both_ends", None):
        c.at_the_end = replace(step, id=c.id(), at=Place(where="last", what=step.at.what))
    if note:
        both = make(c, start, kind, each=told or ONE, found=found)
        return [*before, Choice(id=c.id(), span=c.span(start), question="n in next n", answers=((step,), (both,)))]
    return [*before, step]


def _into_next_chains(c: Cursor, told: Sized[int] | None, found: Spot) -> bool:
    """ "3 tr. into the next 2 ch." of British print, where numbers stand first: into the space that they make."""
    if told is None or told.many or found.places == "rest" or found.places.many or found.each or found.at != Place(what="ch"):
        return False
    return (told.values[0] or 0) > 2 and found.places.values[0] in (2, 3) and told != found.places and c.ctx.terms == "UK"


def _as_many(c: Cursor, start: int) -> bool:
    """ "4 tr to end", "7 sc in remaining stitches": no "each" is said, and the end is."""
    said = {token.kind for token in c.t[start : c.i]}
    if said & {"each", "all", "over"}:
        return False
    many = next((token.val for token in c.t[start : c.i] if token.kind == "n"), 0)
    if said & {"across", "around", "along"} and not said & {"in", "n in"} and isinstance(many, int) and many > 5:
        return True  # "30 dc across back": so many along it, not in each
    return "rem" in said or ("to" in said and "end" in said and "in" not in said)


__all__ = ["EXAMPLES", "Make", "noun", "stitch"]
