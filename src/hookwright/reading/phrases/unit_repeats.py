"""Repeats of the unit told so far, with no star: "2 sc, inc, x 6", "2 sc, inc around", "… repeat this 6 times", "continue in this way"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Chain, Colour, Make, Repeat, Skip, Step, Times, Together
from .begun_round import comes_again
from .cursor import Cursor, Frame, Mark
from .places import spot
from .repeat_endings import ending
from .repeats import folded, row_so_far
from .shapes import times

EXAMPLES = (
    ("2 sc, inc, repeat this 6 times", "[sc×2, 2sc]×6"),
    ("2 sc, dec, continue in this way to the end of the round", "[sc×2, sc2tog]×rest"),
    ("6 sc, inc (x3), 15 sc", "sc×6, 2sc×3, sc×15"),
)


def _times_in_place(c: Cursor, start: int, frame: Frame, got: Times) -> list[Step] | None:
    """ "4 chain, and 1 treble 6 times in the 8 chain": all of it in one place."""
    found = spot(c)
    if found is None or len(c.frames) < 2:
        c.i = start
        return None
    body = tuple(frame.out)
    frame.out.clear()
    again = Repeat(id=c.id(), span=c.span(start), body=body, times=got)
    return [Together(id=c.id(), span=c.span(start), body=(again,), at=found.at, places=found.places, but=found.but, upto=found.upto)]


def whole_times(c: Cursor) -> list[Step] | None:
    """ ", x 6", ", 6 times", "and so round": everything since the row (or the bracket) began is worked so often."""
    start = c.i
    frame = c.frames[-1]
    if not frame.out:
        return None
    if c.kind == "w" and c.t[c.i].val == "so":
        c.i += 1
        if c.kind in ("around", "across", "in") and c.look().kind in (",", ";", ".", "", "=", "(", "[", "around", "across", "*"):
            c.i += 1
            c.drop("around", "across")
            if gone_round(frame):
                return [Aside(id=c.id(), span=c.span(start))]
            got: Times | None = Times(kind="rest")
        elif c.kinds("in", "to") and (far := _to_the_end(c)) is not None:
            got = far
        else:
            c.i = start
            return None
    elif (
        (c.kind == "w" and c.t[c.i].val == "x" and c.look().kind == "n")
        or (c.kind == "n" and (c.look().kind == "times" or c.look().val == "x") and not _said_of_next(c))
        or c.kind == "once"
    ):
        got = times(c)
        if got is not None and c.kind == "in":
            return _times_in_place(c, start, frame, got)
        if got is None or (c.kind in ("in", "st", "ch", "[") and c.look().kind != "n"):
            c.i = start
            return None
    else:
        return None
    mark = row_so_far(c, frame)
    live = [one for one in frame.marks if not one.used]
    if live:
        mark = live[-1]
    if mark.index >= len(frame.out) or got is None:
        c.i = start
        return None
    return folded(c, frame, mark, got, ((), None))


def _to_the_end(c: Cursor) -> Times | None:
    """ "(And so) on to the end of the row"; None with the cursor unmoved."""
    begin = c.i
    c.i += 1
    got = times(c)
    if got is None or got.kind != "rest":
        c.i = begin
        return None
    return got


def _said_of_next(c: Cursor) -> bool:
    """ "2 sc, 3 x inc", "6 times (sc, inc)": the number is said of what follows it."""
    after = c.look(2)
    if after.kind in ("inc", "dec", "st", "grp"):
        return bool(c.look().val == "x")
    close = c.close.get(c.i + 2)
    return close is not None and any(token.kind in ("inc", "dec", "in", "skip") for token in c.t[c.i + 3 : close])


def bracketed_times(c: Cursor) -> list[Step] | None:
    """ "2 sc, inc (x8)", "2 sc, inc (8 times)": the row so far, so often; in mid-row ("6 sc, inc (x3), 15 sc") the last step."""
    start, close = c.i, c.close.get(c.i)
    if close != c.i + 3 or not any(t.val == "x" or t.kind == "times" for t in c.t[c.i + 1 : close]):
        return None
    c.i += 1
    goes_on = c.t[close + 1].kind in (",", ";") and c.t[close + 2].kind in ("n", "st", "inc", "dec", "skip", "(", "[")
    last = c.out[-1] if c.out else None
    if goes_on and isinstance(last, Make) and last.places == ONE:
        got = times(c)
        if got is not None and got.number is not None and c.i == close:
            c.i += 1
            c.out[-1] = replace(last, places=got.number)
            return []
        c.i = start + 1
    got_whole = whole_times(c)
    if got_whole is None or c.i != close:
        c.i = start
        return None
    c.i += 1
    return got_whole


def goes_round(c: Cursor) -> list[Step] | None:
    """ "2 sc, inc, around": the few stitches told so far go round."""
    frame = c.frames[-1]
    after = c.look()
    if after.kind not in (".", "", "(", "[", "<", "=") or len(c.frames) > 1 or any(not one.used for one in frame.marks):
        return None
    mark = row_so_far(c, frame)
    unit = frame.out[mark.index :]
    makes = [step for step in unit if not isinstance(step, Colour)]
    if len(makes) < 2 or not all(isinstance(step, Make) and step.places != "rest" and step.at.where == "next" for step in makes):
        return None
    c.i += 1
    return folded(c, frame, mark, Times(kind="rest"), ((), None))


def _once(step: Step) -> Step:
    return replace(step, places=ONE) if isinstance(step, (Make, Together)) and step.places == "rest" else step


def alternated(c: Cursor) -> list[Step] | None:
    """ "Alternate sc and 2 sc in a stitch all the way around": one after the other, as far as is told."""
    from .one_phrase import one

    start = c.i
    frame = c.frames[-1]
    if c.t[start].text.lower() not in ("alternate", "alternating"):
        return None
    c.i += 1
    c.take("between")
    counted = len(frame.out)
    rests = False
    for _ in range(2):
        got = one(c)
        if got is None or not all(isinstance(step, (Make, Together, Chain, Skip)) for step in got):
            del frame.out[counted:]
            c.i = start
            return None
        rests = rests or any(getattr(step, "places", None) == "rest" for step in got)
        frame.out.extend(_once(step) for step in got)
        c.drop("and", "then", ",")
    if rests:
        return folded(c, frame, Mark("", counted, start), Times(kind="rest"), ((), None))
    got_times = times(c)
    return folded(c, frame, Mark("", counted, start), got_times or Times(kind="rest"), ((), None))


_LIKE_THIS = frozenset(
    """
    thus this manner way around like in on so all the same fashion across round to end until going you run out are get
    reach come have start doing rest going working repeating same-way that
    """.split()  # noqa: SIM905
)


def carried_on(c: Cursor) -> list[Step] | None:
    """ "*dc in next st, ch 1; continue across": the unit that was opened, as far as is told."""
    start = c.i
    frame = c.frames[-1]
    mark = next((one for one in reversed(frame.marks) if not one.used and one.index < len(frame.out)), None)
    if mark is None:
        return None
    c.i += 1
    c.i += c.t[c.i].text.lower() in ("going", "on", "repeating", "doing", "working")
    if c.kind == "from" and c.look().kind == "*":
        c.i += 2
    got = times(c)
    if got is None or got.kind == "n":
        c.i = start
        return None
    return folded(c, frame, mark, got, ending(c, frame, mark))


def for_each(c: Cursor) -> list[Step] | None:
    """ "*4 sc in loop, ch 3, rep in each loop", "… repeat for each side": the unit as often as there are such places; None, unmoved, where
    rows are told again."""
    start = c.i
    frame = c.frames[-1]
    if c.look().kind not in ("in", "for", "over", "at", "on") or c.look(2).kind != "each":
        return None
    c.i += 3
    while c.kind in _PLACES_EACH or c.t[c.i].text.lower() in ("petal", "heart", "leaf", "arch", "wedge"):
        c.i += 1
    mark = next((one for one in reversed(frame.marks) if not one.used), None) or row_so_far(c, frame)
    if c.i == start + 3 or c.kind not in (",", ";", ".", "", "(", ")", "join", "then", "and") or len(frame.out) - mark.index < 1:
        c.i = start
        return None
    return folded(c, frame, mark, Times(kind="rest"), ending(c, frame, mark))


_PLACES_EACH = frozenset(("lp", "sp", "side", "corner", "top", "grp", "group", "around", "across", "other", "rem", "of", "the", "edge"))


def ends_unit(c: Cursor) -> list[Step] | None:
    """ "*3 sc in next, sc in 8, sk 2, sc in 8; end 3 sc in next, sc in 8": the unit that was opened, to the row's end, though nobody says
    that it is repeated. None with the cursor unmoved."""
    start = c.i
    frame = c.frames[-1]
    mark = next((one for one in reversed(frame.marks) if not one.used and one.closed is None and one.index < len(frame.out)), None)
    if mark is None or c.t[start - 1].kind != ";":
        return None
    ends = ending(c, frame, mark)
    if c.i == start or (not ends[0] and c.kind not in (",", ";", ".", "")):
        c.i = start
        return None
    return folded(c, frame, mark, Times(kind="rest"), ends)


_SO = frozenset("doing repeating working going like this these that in the same so on as manner way fashion sequence pattern".split())  # noqa: SIM905
_SO_KINDS = frozenset(("w", "rep", "the", "idle", "as", "same", "patt", "in", "on", "work", "for"))


def unit_again(c: Cursor) -> list[Step] | None:
    """ "2 sc, dec. Repeat this around", "… continue in this way to the end of the round", "… keep doing this 6 times": the unit told so
    far, where the row so far is no more than that (nothing in it goes to the row's end, nothing turns or joins)."""
    start = c.i
    frame = c.frames[-1]
    c.i += 1
    said = False
    while c.kind in _SO_KINDS and (c.kind == "rep" or str(c.t[c.i].val) in _SO | {"patt"}):
        said = said or c.t[c.i].text.lower() in ("this", "these", "that", "so", "thus")
        c.i += 1
    pair = next((one for one in frame.marks if not one.used and one.closed == len(frame.out)), None)  # "*sc, inc.* Repeat this around"
    mark = pair or row_so_far(c, frame)
    unit = frame.out[mark.index :]
    plain = all(
        isinstance(step, (Make, Together, Chain, Skip, Repeat))
        and getattr(step, "places", None) != "rest"
        and not (isinstance(step, Repeat) and step.times.kind != "n")
        for step in unit
    )
    if not said or len(c.frames) > 1 or any(not one.used and one is not pair for one in frame.marks) or len(unit) < 2 or not plain:
        c.i = start
        return None
    got = times(c)
    if got is None:
        c.i = start
        return None
    return folded(c, frame, mark, got, ending(c, frame, mark))


def go_on(c: Cursor) -> list[Step] | None:
    """ "Continue thus around", "go on like this", "carry on from * to * until you are back at the start": the unit told so far (without
    what only begins the row) is worked to its end."""
    start = c.i
    frame = c.frames[-1]
    c.i += 1
    said = False
    while c.kind and c.kind not in _CLAUSE_ENDS:
        word = c.t[c.i]
        if word.kind not in _ON_KINDS or not (word.kind in _ON_KINDS_ALONE or str(word.val) in _LIKE_THIS):
            c.i = start
            return None
        said = said or word.val in ("thus", "this", "that", "manner", "way", "like", "same-way") or word.kind == "*"
        c.i += 1
    said = said or _plainly_round(c, start, frame)
    if not said and not (c.t[start + 1].kind in ("in", "w") and any(t.kind == "until" for t in c.t[start : c.i])):
        c.i = start
        return None
    limit = any(t.kind in ("*", "around", "across", "end", "until") or t.val == "round" for t in c.t[start : c.i])
    if limit and gone_round(frame):
        return [Aside(id=c.id(), span=c.span(start))]
    if any(map(_goes_through, frame.out)):
        c.i = start
        return None
    mark = next((one for one in reversed(frame.marks) if not one.used and one.index < len(frame.out)), None) or row_so_far(c, frame)
    while (
        comes_again(frame.out) is None
        and mark.index < len(frame.out)
        and isinstance(first := frame.out[mark.index], Together)
        and first.body
        and isinstance(first.body[0], Chain)
    ):
        mark = Mark("", mark.index + 1, 0)
    if mark.index >= len(frame.out) or len(c.frames) > 1:
        c.i = start
        return None
    if (runs := _told_of_each(c, frame.out[mark.index :])) is not None:
        del frame.out[mark.index :]
        return runs
    return folded(c, frame, mark, Times(kind="rest"), ((), None))


def _plainly_round(c: Cursor, start: int, frame: Frame) -> bool:
    """ "2 hdc in next st, hdc in next st, continue around": nothing but how far, of a row of several stitches told one by one."""
    made = [step for step in frame.out if isinstance(step, (Make, Together))]
    only = [token.kind for token in c.t[start + 1 : c.i]] in (["around"], ["across"])
    return only and len(made) > 1 and all(step.places != "rest" for step in made)


def _told_of_each(c: Cursor, begun: list[Step]) -> list[Step] | None:
    """ "2 dc in next sp, dc in next dc, and continue thus, making 2 dc in each sp and 1 dc in each dc to corner": the runs that
    the stitches told before only begin; None with the cursor unmoved."""
    from .one_phrase import one

    start = c.i
    runs: list[Step] = []
    if c.take(",") and c.take("work"):
        while True:
            runs += one(c) or []
            if not c.take("and"):
                break
    made = {(run.stitch, run.each) for run in runs if isinstance(run, Make) and run.places == "rest"}
    if len(made) < 1 or len(runs) > len(begun) or not all(isinstance(one, Make) and (one.stitch, one.each) in made for one in begun):
        c.i = start
        return None
    return runs


def _goes_through(step: Step) -> bool:
    """Whether a step goes to the row's end by itself; one that goes "to next corner" does not."""
    run = getattr(step, "places", None) == "rest" and not getattr(step, "upto", "")
    return run or (isinstance(step, Repeat) and step.times.kind == "rest")


def gone_on(c: Cursor) -> list[Step] | None:
    """ "*2 sc, inc.* Carry on like this all the way round": said again of a unit that already goes round; "*sc in each st to corner, 3 sc
    in corner. Go on like this.": of one that a star has opened and nothing has closed."""
    frame = c.frames[-1]
    if c.kind == "w" and c.t[c.i].val not in ("go", "proceed"):
        return None
    begun = any(one.closed is None and not one.used and one.index < len(frame.out) for one in frame.marks)
    return go_on(c) if begun or gone_round(frame) else None


_CLAUSE_ENDS = frozenset((",", ";", ".", ")", "]", "(", "=", "["))
_ON_KINDS_ALONE = frozenset(
    ("around", "across", "end", "rnd", "row", "*", "from", "until", "beg", "of", "at", "noun", "back", "rem", "not", "more", "-", "alt")
)
_ON_KINDS = _ON_KINDS_ALONE | {"the", "w", "idle", "in", "as", "to", "same", "all", "on"}


def gone_round(frame: Frame) -> bool:
    """The unit between two stars already goes to the row's end ("*sc, inc* and so on around")."""
    last = next((step for step in reversed(frame.out) if not isinstance(step, Aside)), None)
    return isinstance(last, Repeat) and last.times.kind == "rest"
