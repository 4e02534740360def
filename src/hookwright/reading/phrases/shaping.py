"""Increases and decreases: "inc", "2 dec", "inc in each st around", "dec 1 st each end", "inc 6 sts evenly"."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from ...pattern import CHAIN_FIRST, ONE, Aside, Chain, Choice, Even, Make, Place, Refer, Repeat, Shape, Sized, Step, Times
from ...trade.kinds import as_high
from .cursor import Cursor
from .limits import limit, limit_spot_rest
from .middles import shaped_at_middle
from .nouns import noun
from .numbers import number, times_word
from .places import PREPS, spot
from .shaped_by import alone_so_often, decreased_by, same_again, same_way, so_many_in_one
from .shaped_groups import over_groups, shaped_once_more
from .shapes import make
from .shaping_rows import every_rows, in_rows_of_their_own, next_rows, recurring
from .shaping_spots import first_and_last, so_many_at
from .spots import CLOSE, Spot
from .tog import times_after
from .uncounted import edge
from .which_places import every_one

EXAMPLES = (
    ("inc", "2sc"),
    ("6 inc", "2sc×6"),
    ("inc x 6", "2sc×6"),
    ("inc in each st around", "2sc×rest"),
    ("dec", "sc2tog"),
    ("dec over next 2 sts", "sc2tog"),
    ("dec 1 st each end", "shape−1 each_end"),
    ("inc 6 sts evenly", "shape+6 evenly"),
    ("3 sc, inc all around", "[sc×3, 2sc]×rest"),
    ("inc every 8 sts", "[sc×7, 2sc]×rest"),
    ("inc 1 sc in every 4th sc", "[sc×3, 2sc]×rest"),
    ("dec in every 4th and 5th st", "[sc×3, sc2tog]×rest"),
    ("dec 1 st in this manner at same edge every other row", "shape−1 end every 2"),
    ("increasing 6 sc", "shape+6 evenly"),
)


def change(c: Cursor) -> list[Step] | None:
    start = c.i
    if c.kind in ("inc", "dec") and (again := shaped_once_more(c)) is not None:
        return again
    if c.kind == "dec" and over_groups(c):
        return None
    loop = ""
    if c.kind == "loop":
        loop = str(c.t[c.i].val)
        c.i += 1
    told = number(c)
    if told is None:
        c.take("a")
    elif c.kind == "w" and c.t[c.i].val == "x":
        c.i += 1
    stitch = None
    if c.kind == "st" and c.look().kind in ("inc", "dec"):
        stitch = c.us(str(c.t[c.i].val))
        c.i += 1
    if c.kind not in ("inc", "dec"):
        c.i = start
        return None
    word = c.t[c.i]
    more = word.kind == "inc"
    c.i += 1
    titled = c.kind in ("row", "rnd") or (c.kind == "around" and c.t[c.i].text.lower() == "round")
    if told is None and stitch is None and titled and c.look().kind in (":", "-", ",", ".", ")", ""):
        c.i += 1  # "Inc row:": what kind of row it is
        return [Aside(id=c.id(), span=c.span(start))]
    if c.kind == "-":
        c.i += 1 if c.t[c.i].val == "tight" else 0
    if told is None and c.kind == "n" and c.t[c.i].val == 1 and c.look().kind == "st" and _ends_or_where(c, 2):
        c.i += 1  # "dec 1 s c, …", "inc 1 sc in every 4th sc", "dec 1 sc over next 2 sc": one, in that stitch
    c.i += 2 * (not more and told is None and _twice_as_many(c))
    if not more and told is None and (two_by_two := _each_two(c, start, stitch or c.main)) is not None:
        return two_by_two
    shaped = _shape(c, start, more) if told is None else None
    if shaped is not None:
        return in_rows_of_their_own(c, shaped)
    if stitch is None and c.kind == "st" and (more or c.look().kind != "tog"):
        stitch = c.us(str(c.t[c.i].val))
        c.i += 1
    main = stitch or c.main
    if told is None and c.kind == "n" and c.t[c.i].val == 3 and not c.t[c.i].gap and c.look().kind in CLOSE:
        c.i += 1
        return _threefold(c, start, more, main, loop)
    several = told is not None and told != ONE and c.t[c.i - 1].kind in ("inc", "dec")
    if several and told is not None and c.kind in ("around", "across") and c.look().kind in (*CLOSE, "join", "turn"):
        c.i += 1  # "6 inc around": where, is the maker's choice
        by = Sized(tuple(None if n is None else n if more else -n for n in told.values))
        return [Shape(id=c.id(), span=c.span(start), change=by, where="evenly")]
    goes_round = c.kind in ("around", "all") and c.ctx.rounds
    step, every = _one(c, start, more, main, told, loop)
    if goes_round and step.places == "rest" and _a_unit(c):
        body = (*(one for one in c.out if isinstance(one, Make)), replace(step, places=ONE))
        c.out.clear()
        return [Repeat(id=c.id(), span=c.span(0), body=body, times=Times(kind="rest"))]
    if every == 1 and told is None and c.t[c.i - 2].val == "x" and c.kind in _ROW_ENDS and _a_unit(c):
        return [_whole_or_last(c, start, step)]
    if every == 1 and c.t[c.i - 1].kind == "times" and c.kind in (".", "", ";") and not any(isinstance(one, Make) for one in c.out):
        by = Sized(tuple(None if n is None else n if more else -n for n in _number_of(step).values))
        spread = Shape(id=c.id(), span=c.span(start), change=by, where="evenly")
        return [Choice(id=c.id(), span=c.span(start), question=SPREAD, answers=((step,), (spread,)))]
    if step.places == "rest" and every == 1:
        _run_told_before(c, step.main or main)
    return every_so_many(c, start, step, every, main) if every > 1 and main else shaped_at_middle(c, step)


_ENDS_DEC = frozenset((",", ".", ";", ")", "]", "(", "[", "-", ":", "=", "", "turn", "*", "join", "and"))


def _ends_or_where(c: Cursor, ahead: int) -> bool:
    """Whether the shaping is over there, or its place follows ("over next 2 sc", "in every 4th sc")."""
    kind = c.look(ahead).kind
    return kind in (*_ENDS_DEC, "in", "each") or (
        kind in ("over", "across") and c.look(ahead + 1).kind in ("next", "last", "n", "o", "the")
    )


def _twice_as_many(c: Cursor) -> bool:
    """ "(Dec) 2 sc over next 4 sc": the places alone say how many decreases these are."""
    over = c.look(2).kind in ("over", "across", "in") and c.look(3).kind in ("next", "last", "o") and c.look(4).kind == "n"
    return over and c.kind == "n" and c.look().kind == "st" and c.look(4).val == 2 * c.t[c.i].val


def _each_two(c: Cursor, start: int, main: str | None) -> list[Step] | None:
    """ "Dec in each 2 sts all around", "dec over each 2 sc": every two of them become one; None with the cursor unmoved."""
    begin = c.i
    c.drop("in", "over", "at")
    two = c.kind == "each" and c.look().val == 2 and c.look(2).kind in ("noun", "st") and c.i > begin
    c.i += 3 * two
    while two and (c.kind in ("all", "the", "way", "around", "across") or c.t[c.i].text.lower() == "way"):
        c.i += 1
    if not two or main is None or c.kind not in (*CLOSE, "join", "turn", "foff", "and"):
        c.i = begin
        return None
    return [Make(id=c.id(), span=c.span(start), stitch=f"{main}2tog", closes=2, places="rest", main=main)]


def _threefold(c: Cursor, start: int, more: bool, main: str | None, loop: str) -> list[Step]:
    """ "inc3", "dec3": three of them (as "sc6" is six), or one in which three stitches stand or are closed; what fits the row decides."""
    three = Sized((3,))
    if main is None:
        return [_one(c, start, more, main, three, loop)[0]]
    found = Spot(Place(loop=loop) if loop else Place())  # type: ignore[arg-type]
    one, _ = _one(c, start, more, main, three, loop)
    name = main if more else f"{main}3tog"
    wide = make(c, start, name, each=three if more else ONE, found=found, closes=1 if more else 3, main=main)
    row_so_far = [step for step in c.out if isinstance(step, Make)]
    glued = any(step.places not in ("rest", ONE) and not _number_first(c, step) for step in row_so_far)
    answers = ((one,), (wide,)) if glued or not row_so_far else ((wide,), (one,))
    return [Choice(id=c.id(), span=c.span(start), question=THREE, answers=answers)]


def _number_first(c: Cursor, step: Make) -> bool:
    """ "6 sc", not "sc 6"."""
    first = next((token for token in c.t if token.start >= step.span.start), None)
    return first is not None and first.kind == "n"


THREE = "Three of them, or three stitches in one?"
SPREAD = "Are so many told one after another, or spread over the row?"
HOW_MUCH = "Is all that is told before it worked so often, or only the last stitch?"
_ROW_ENDS = frozenset((".", "", "(", "[", "=", "-", ";"))


def _whole_or_last(c: Cursor, start: int, step: Make) -> Choice:
    """ "2 sc, inc x 8": eight increases, or both of them eight times; what fits the row decides."""
    before = tuple(one for one in c.out if isinstance(one, Make))
    c.out[:] = [one for one in c.out if not isinstance(one, Make)]
    once = replace(step, id=c.id(), places=ONE)
    whole = Repeat(id=c.id(), span=c.span(start), body=(*before, once), times=Times(kind="n", number=_number_of(step)))
    return Choice(id=c.id(), span=c.span(start), question=HOW_MUCH, answers=((*before, step), (whole,)))


def _number_of(step: Make) -> Sized[int]:
    return step.places if isinstance(step.places, Sized) else ONE


def doubled(c: Cursor) -> list[Step] | None:
    """ "Double every stitch", "double every 3rd stitch": increases, as translations have them."""
    start = c.i
    if c.t[c.i].text.lower() not in ("double", "doubling") or c.look().kind not in ("each", "next"):
        return None
    main = c.main or "sc"
    c.i += 1
    each = c.take("each") is not None
    if each and c.kind == "o" and c.look().kind in ("noun", "st"):
        every = int(c.t[c.i].val)
        c.i += 2
        limit(c)
        return every_so_many(c, start, make(c, start, main, each=Sized((2,)), found=Spot(Place())), every, main)
    found = Spot(Place(), "rest", each=True) if each else spot(c, bare=True)
    if each and not c.take("noun", "st"):
        c.i = start
        return None
    if found is None:
        c.i = start
        return None
    limit(c)
    return [make(c, start, main, each=Sized((2,)), found=found, main=main)]


def _a_unit(c: Cursor) -> bool:
    """ "3 sc, inc around": a few plain stitches before the shaping are a unit with it, which goes round."""
    plain = [one for one in c.out if not isinstance(one, Aside)]
    few = all(
        isinstance(one, Make) and one.places != "rest" and replace(one.at, loop="both") == Place() and one.closes == 1 for one in plain
    )
    return 0 < len(plain) <= 4 and few and not c.frames[-1].marks and len(c.frames) == 1


def _run_told_before(c: Cursor, main: str | None) -> None:
    """ "sc around, increasing in every st": the run told before is this very row."""
    last = c.out[-1] if c.out else None
    if isinstance(last, Make) and last.places == "rest" and last.stitch == main and last.but == Sized((0,)) and not last.upto:
        c.out.pop()


def every_so_many(c: Cursor, start: int, step: Make, every: int, main: str) -> list[Step]:
    """ "increasing in every 7th st": six plain, one shaped, to the end; "sc around" told before is this very row."""
    run = c.out[-1] if c.out else None
    even = isinstance(run, Even) and run.stitch is not None  # "work in sc increasing in every 2nd sc"
    if even or (isinstance(run, Make) and run.places == "rest" and run.closes == 1 and run.each == ONE):
        c.out.pop()
        main = getattr(run, "stitch", None) or main  # "sc in each st, increasing in every 3rd st"
        step = replace(step, stitch=f"{main}{step.closes}tog" if step.closes > 1 else main, main=main)
    plain = Make(id=c.id(), span=c.span(start), stitch=main, places=Sized((every - step.closes,)) if every > step.closes else ONE)
    shaped = Make(id=step.id, span=step.span, stitch=step.stitch, each=step.each, closes=step.closes, main=step.main)
    body = (plain, shaped) if every > step.closes else (shaped,)
    units = Repeat(id=c.id(), span=c.span(start), body=body, times=Times(kind="rest"))
    chains = [one for one in c.out if isinstance(one, Chain) and not one.foundation]
    if every <= step.closes or not chains:
        return [units]
    passed = every - step.closes - 1
    fewer: tuple[Step, ...] = (replace(plain, id=c.id(), places=Sized((passed,))),) if passed else ()
    begun = (*fewer, replace(shaped, id=c.id()), units)
    counts = chains[0].counts is not False and as_high(chains[0].number.at(0) or 0, main)
    return [Choice(id=c.id(), span=c.span(start), question=CHAIN_FIRST, answers=(begun, (units,)) if counts else ((units,), begun))]


def _one(c: Cursor, start: int, more: bool, main: str | None, told: Sized[int] | None, loop: str) -> tuple[Make, int]:
    closes = 1 if more else 2
    if not more and c.kind == "(" and c.close.get(c.i, 0) - c.i <= 5 and any(t.kind == "tog" for t in c.t[c.i : c.close.get(c.i, c.i)]):
        c.i = c.close[c.i] + 1
    name = (main or "inc") if more else (f"{main}2tog" if main else "dec")
    each = Sized((2,)) if more and main else ONE
    three = not more and told is None and main is not None and _over_three(c)
    if more and told is None:
        each = so_many_in_one(c, main) or each
    found = (decreased_by(c) if not more and told is None else None) or where_shaped(c, more)
    if three and found is not None:
        name, closes = f"{main}3tog", 3
    if found is not None and told is None and found.places == ONE and found.at.where == "next" and alone_so_often(c):
        found.places = times_after(c) or ONE  # "dec in next 2 sts 16 times"
    if found is None:
        same_again(c)
        count = told if told is not None else times_after(c)
        c.take("noun")
        found = where_shaped(c, more) if c.kind in PREPS and c.kind not in ("to", "from", "for", "of") else None
        if found is not None and count is not None and more:
            each = Sized(tuple(None if n is None else n + 1 for n in count.values)) if main else count
        found = found or Spot(Place(), count or ONE)
    elif told is not None and found.places == ONE:
        found.places = told
    elif told is None and not more:
        limit_spot_rest(c, found)
    if loop:
        found.at = Place(where=found.at.where, what=found.at.what, loop=loop)  # type: ignore[arg-type]
    return make(c, start, name, each=each, found=found, closes=closes, main=main), found.every


def _on_next_rows(c: Cursor) -> None:
    """ "(dec 6 sts evenly) on next 2 rounds": so many rows."""
    begin = c.i
    if c.kind in ("in", "of") and c.look().kind in ("next", "each", "the"):
        c.i += 1
        if (own := next_rows(c)) is not None:
            c.told["shaping_rows"] = own
            return
        c.drop("each", "of", "the")
        c.drop("next")
        told = number(c)
        if told is not None and c.take("row", "rnd"):
            c.told.setdefault("rows_count", told)
            return
    c.i = begin


def _over_three(c: Cursor) -> bool:
    """ "Dec in the 3 sts": all three become one."""
    at = next((k for k in range(1, 4) if c.look(k).kind == "n"), None)
    return c.kind in ("in", "over") and at is not None and c.look(at).val == 3 and c.look(at + 1).kind in ("st", "noun")


def where_shaped(c: Cursor, more: bool) -> Spot | None:
    if c.kind in ("around", "across", "to", "along") or (c.kind == "all" and c.look().kind in ("around", "across")):
        c.take("all")
        but = limit(c)
        if but is not None:
            return Spot(Place(), "rest", but, each=True, upto=c.upto)
    begin = c.i
    if c.kind == "in" and c.look().text.lower() == "every" and c.look(2).kind == "n":
        c.i += 1
    every = c.t[c.i + 2] if c.t[c.i].text.lower() == "every" and c.look().kind == "n" else None
    c.i = c.i if every is not None else begin
    if every is not None and every.kind in ("noun", "st") and isinstance(c.look().val, int):
        count = c.look().val
        c.i += 3
        return Spot(Place(), every=count if isinstance(count, int) else 1)
    if c.kind == "total" and c.t[c.i].val == "in all" and c.look().kind in ("n", "noun", "st", "the"):
        return every_one(c)
    if c.kind in PREPS or c.kind in ("next", "each", "last", "same", "o"):
        found = spot(c, bare=True)
        if found is None:
            return None
        if not more and isinstance(found.places, Sized):
            found.places = Sized(tuple(None if n is None else max(1, n // 2) for n in found.places.values))
        if found.every > 1:
            return found
        return found
    return None


def going_on(c: Cursor) -> list[Step] | None:
    """ "Continue to inc 8 sc in each rnd", "continue increasing 6 sts evenly": the shaping itself."""
    start = c.i
    c.take("cont")
    c.take("to")
    got = change(c) if c.kind in ("inc", "dec") and c.i > start else None
    if got is None or not isinstance(got[0], Shape) or c.kind not in CLOSE:
        c.i = start
        return None
    _until_told_later(c)
    return got


def _until_told_later(c: Cursor) -> None:
    """ ", having 1 more sc between increases each time, until there are 72 sc": how it is spread, and where it ends."""
    from .untils import until

    begin = c.i
    c.take(",")
    if c.kind == "having" and any(t.kind == "between" for t in c.t[c.i : c.i + 9]):
        while c.kind not in CLOSE and c.kind != "until":
            c.i += 1
        c.take(",")
    got = until(c) if c.kind == "until" and "until" not in c.told else None
    if got is None:
        c.i = begin
        return
    c.told["until"] = got


def _shape(c: Cursor, start: int, more: bool) -> Shape | None:
    """ "inc 1 st each end", "dec 1 st at beg and end of row", "inc 3 sc evenly", "lose 1 st at both edges"."""
    begin = c.i
    c.take("a")
    spread = c.kind == "even" and c.t[c.i].val == "evenly" and c.look().kind == "n"
    c.i += spread  # "inc evenly 6 sts"
    told = number(c)
    placed = c.kind == "st" and c.look().kind in ("in", "tog") and not (c.look(2).kind == "each" and c.look(3).kind in ("rnd", "around"))
    placed = placed and not _in_round(c, 2)  # "dec 4 sc in rnd"
    placed = placed and not first_and_last(c, c.i + 2)
    what = noun(c) if c.kind in ("noun", "st") and not placed else None
    if c.kind == "for" and c.look().kind not in ("n", "a"):
        while c.kind not in (*CLOSE, "each", "in", "at", "even"):
            c.i += 1  # "inc 2 sts for thumb gore every other rnd"
    same_way(c)
    many = so_many_at(c, told)
    if many is not None:
        by = many if more else Sized(tuple(None if n is None else -n for n in many.values))
        return Shape(id=c.id(), span=c.span(start), change=by, where="evenly", every=every_rows(c))
    told = told or (Sized((often,)) if (often := times_word(c)) is not None else None)  # "inc once each end of row"
    told_at = c.i
    where = _where_shaped(c) or _over_the_round(c, told) or ("evenly" if spread and c.kind in CLOSE else None)
    if where == "evenly" and told is not None and _at_both_edges(c, told_at):
        told = Sized(tuple(None if n is None else 2 * n for n in told.values))
    if where is None or (told is None and where != "each_end" and what is None and where == "evenly"):
        c.i = begin
        return None
    same_way(c)
    every = every_rows(c)
    sign = 1 if more else -1
    change_by = Sized(tuple(None if n is None else sign * n for n in (told or ONE).values))
    return Shape(id=c.id(), span=c.span(start), change=change_by, where=where, every=every)


def _in_round(c: Cursor, ahead: int) -> int:
    """How many tokens "(in) the round", "(on) next rnd" takes up, so many tokens ahead, where the clause ends behind it; 0 elsewhere."""
    k = ahead
    while c.look(k).kind in ("the", "idle", "next") or c.look(k).text.lower() == "this":
        k += 1
    if not (c.look(k).kind == "rnd" or c.look(k).val == "round"):
        return 0
    after = c.look(k + 1)
    return k + 1 - ahead if after.kind in CLOSE or after.text.lower() == "so" else 0


def _over_the_round(c: Cursor, told: Sized[int] | None) -> Literal["evenly"] | None:
    """ "3rd round: Increasing 6 dc.": all that is told of a round; "dec 4 sts around": which stitches they are is the maker's choice."""
    several = told is not None and told != ONE and c.t[c.i - 1].kind in ("noun", "st")
    if several and c.kind in ("around", "across") and c.look().kind in (*CLOSE, "join", "turn"):
        c.i += 1
        return "evenly"
    alone = not any(not isinstance(step, (Aside, Chain, Refer)) for step in c.out) and (
        c.kind in (".", "", ";", "(", "[", "join") or c.kinds(",", "join")
    )
    return "evenly" if alone and told is not None and told != ONE and c.ctx.rounds and not c.ctx.begins else None


def _at_both_edges(c: Cursor, start: int) -> bool:
    """Whether "around each curved edge", "along both neck edges" was told since: of a piece that has two of them."""
    kinds = [token.kind for token in c.t[start : c.i]]
    if kinds[-2:-1] in (["each"], ["both"]) and kinds[-1] in ("end", "ends"):
        return True  # "evenly spaced around each end" of a sole
    return len(kinds) > 1 and kinds[0] in ("around", "along", "over", "across") and kinds[1] in ("each", "both") and "side" in kinds[2:]


def _each_end(c: Cursor) -> bool:
    return c.kind in ("each", "both") and c.look().kind in ("end", "ends")


def _where_shaped(c: Cursor) -> Literal["each_end", "beginning", "end", "evenly"] | None:
    begin = c.i
    if c.kind == "even" and c.t[c.i].val in ("evenly", "evenly spaced", "evenly across"):
        c.i += 1
        c.take("at", "on") if c.look().kind in ("each", "both") else None
        while c.kind in ("around", "across", "along", "in", "row", "rnd", "the", "over", "all", "even", "w") and c.kind:
            if c.kind == "in" and c.look().kind == "next" and c.look(2).kind == "n":
                break
            if c.kind == "w" and c.t[c.i].val not in ("spaced", "apart"):
                break
            c.i += 1
        c.i += 2 * _each_end(c)
        _on_next_rows(c)
        return "evenly"
    if c.kind in ("around", "over", "across") and c.look().kind in ("each", "both") and c.look(2).kind in ("end", "ends"):
        c.i += 3
        return "evenly"  # "inc 3 sts around each end" of a sole
    if c.kind in ("around", "along", "over", "across") and edge(c):
        return "evenly"  # "inc 3 sts around curved edges": where, is the maker's choice
    c.drop("in", "at", "on")
    if (behind := first_and_last(c, c.i)) > 0:
        c.i = behind
        _rows(c)
        return "each_end"
    if c.kind == "each" and c.look().kind in ("rnd", "around") and c.look(2).kind in CLOSE:
        c.i += 2
        return "evenly"  # "inc 8 sc in each rnd": where, is the maker's choice
    ahead = 1 + (c.look().kind in ("other", "alt", "o"))
    if c.kind == "each" and c.look(ahead).kind in ("rnd", "around", "row") and c.look(ahead + 1).kind in (*CLOSE, "until"):
        return "evenly"  # "inc 8 sts every other rnd until …": `every_rows` reads which
    if c.kind in ("each", "next") and c.t[c.i - 1].kind == "in" and (told := next_rows(c)) is not None:
        c.told["shaping_rows"] = told
        return "evenly"  # "inc 8 sts in each of next 3 rnds"
    if c.t[c.i - 1].kind == "in" and (round_told := _in_round(c, 0)):
        c.i += round_told
        return "evenly"  # "increasing 10 sts in rnd"
    c.drop("the", "idle")
    if c.kind in ("w", "front", "back", "same", "side") and c.look().kind == "side":
        c.i += 2  # "at neck edge", "at front edge", "at same edge": one of the two ends
        _on_next_rows(c)
        return "end"
    if c.t[c.i - 1 - (c.t[c.i - 1].kind == "the")].text.lower() == "at" and (tip := _tip(c)):
        c.i += tip
        _on_next_rows(c)
        return "end"
    if c.kind == "side" and c.t[c.i - 1].text.lower() in ("this", "that"):
        c.i += 1  # "dec 1 st at this edge every row"
        return "end"
    both = c.kind in ("each", "both")
    if both:
        c.i += 1
        c.take("the")
    if both and c.kind in ("end", "side", "ends"):
        c.i += 1
        _rows(c)
        return "each_end"
    if c.kind in ("beg", "end", "ends", "side", "o"):
        first = c.kind
        if first == "o" and c.t[c.i].val != 1:
            c.i = begin
            return None
        if first == "side" or (first == "o" and c.look().kind != "end"):
            c.i = begin
            return None
        c.i += 1
        if c.kind in ("and", "&") and c.look().kind in ("end", "ends", "at", "the", "beg"):
            c.i += 1
            c.drop("at", "the")
            if c.take("end", "ends", "beg"):
                _rows(c)
                return "each_end"
        _rows(c)
        return "beginning" if first in ("beg", "o") else "end"
    if c.kind == "last" and c.look().kind == "end":
        c.i += 2
        return "end"
    c.i = begin
    return None


def _tip(c: Cursor) -> int:
    """How many words "finger tip", "the point", "toe" takes up, where such an end of the rows is named; 0 elsewhere."""
    k = c.look().text.lower() in _TIPS and c.kind in ("w", "top", "end")
    return k + 1 if c.look(int(k)).text.lower() in _TIPS and c.look(k + 1).kind not in ("noun", "st", "ch", "sp") else 0


_TIPS = frozenset("tip point toe heel neck armhole underarm thumb".split())  # noqa: SIM905
"""Ends of rows that are called by what they become."""


def _rows(c: Cursor) -> None:
    begin = c.i
    if c.kind in ("of", "on", "in"):
        c.i += 1
        if recurring(c):
            c.i = begin
            return  # `every_rows` reads which and how often
        if (told := next_rows(c)) is not None:
            c.told["shaping_rows"] = told
            return
        if c.kind == "each" and c.look().kind in ("row", "rnd") and c.look(2).kind in ("until", "n"):
            c.i = begin  # "of every row until 20 sts remain": which rows, and how many, is read with the words
            return
        c.drop("the", "each", "next", "same")
        told = number(c)
        if c.take("row", "rnd", "around", "needle"):
            if told is not None:
                c.told.setdefault("rows_count", told)  # "dec 1 st at each end of next 3 rows"
            return
    c.i = begin
