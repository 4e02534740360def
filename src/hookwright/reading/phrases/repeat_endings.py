"""How the last repeat ends: "ending last rep at **", "ending with 1 sc in last st", "omitting last ch 2"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, Aside, Join, Make, Repeat, Sized, Step, Turn
from . import endings_told
from .cursor import Cursor, Frame, Mark
from .last_replaced import comes_in_place
from .omitting import corner_of, omitted


def ending(c: Cursor, frame: Frame, mark: Mark) -> tuple[tuple[Step, ...], int | None]:
    """The steps that end the last repeat, and where it is cut."""
    _in_same_manner(c)
    begin = c.i
    got = _in_known_words(c, frame, mark)
    return (endings_told.told(c, frame, mark) if c.i == begin and got == ((), None) else None) or got


def _in_known_words(c: Cursor, frame: Frame, mark: Mark) -> tuple[tuple[Step, ...], int | None]:
    """ "ending last rep at **", "ending with 1 sc in last st", "end last rep with …"."""
    cut = c.told.pop("cut", None)
    begin = c.i
    c.drop(",", ";", "and", "but")
    if c.kind in ("end", "ending") and comes_in_place(c):
        return ((), cut if isinstance(cut, int) else None)  # told as the round's join
    if (stop := _stops_at_sign(c, frame, mark)) is not None:
        return ((), stop)
    if c.kind == "last" and c.look().kind == "rep" and c.look(2).kind in ("end", "ending"):
        c.i += 2
    elif _last_time(c):
        if steps := _ending_steps(c):
            return (tuple(steps), None)
        c.i = begin
        return ((), cut if isinstance(cut, int) else None)
    if c.kind == "last" and c.look().kind == "st" and c.look(2).kind in ("in", "over"):
        made = _last_stitch(c, frame.out[mark.index :])
        if made is not None:
            return made
        c.i = begin
    if (c.i > begin or c.kind in ("having", "with")) and (few := _but_few(c)):
        return (few, None)
    leaves_out = _leaves_out(c)
    if (not leaves_out and c.kind not in ("ending", "end", "w", "without")) or (
        not leaves_out and c.kind == "w" and c.t[c.i].val not in ("omitting", "omit", "finishing", "finish", "stopping", "stop")
    ):
        c.i = begin
        return ((), cut if isinstance(cut, int) else None)
    omit = (c.kind == "w" and str(c.t[c.i].val).startswith("omit")) or c.kind == "without" or leaves_out
    c.i += 1 + (leaves_out and c.look().text.lower() in ("out", "off"))
    while c.kind in ("the", "last", "rep", "row", "rnd", "on", "around", "at", "in", "with", "by", "idle", "to", "each") and not (
        c.kind == "in" and omit
    ):
        if c.kind == "last" and c.look().kind not in ("rep", "row", "rnd", "time", "times", "patt", "w", "with"):
            break
        if c.kind == "to" and c.look().kind != "w":
            break
        c.i += 1
    if not omit and (c.kind == "without" or (c.kind == "w" and c.t[c.i].val in ("omitting", "omit"))):
        omit = True  # "and finish the round without the last shell"
        c.i += 1
        c.drop("the")
    if c.kind == "*":
        sign = str(c.t[c.i].val)
        c.i += 1
        at = next((one for one in reversed(frame.marks) if one.sign == sign and one.index > mark.index), None)
        return ((), at.index - mark.index if at else None)
    if omit:
        return omitted(c, frame, mark)
    if c.kind == "before" and (at_corner := _before_corner(c, frame.out[mark.index :])) is not None:
        return ((), at_corner)
    if c.kind == "w" and c.t[c.i].val in ("correspond", "match", "before", "last"):
        c.i += 1
        return ((), None)
    if _ends_alike(c):
        return ((), None)
    if (begun := _as_begun(c, frame.out[mark.index :])) is not None:
        return (begun, None)
    steps = _ending_steps(c)
    if not steps:
        if not (c.kind in ("join", "turn", "not") or (c.kind in ("st", "a") and c.t[c.i - 1].kind == "with")):
            c.i = begin
        return ((), cut if isinstance(cut, int) else None)
    return (tuple(steps), None)


_MOST_LEFT = 12
"""Stitches told without a place that may end a last repeat; more of them are the row's count ("ending with 37 sc"; ours)."""


def ended_apart(c: Cursor) -> bool:
    """ "(…; rep from * across.) End with dc in tch.": told of the repeat before; False with the cursor unmoved."""
    begun = c.i
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not isinstance(last, Repeat) or last.times.kind != "rest" or last.last or last.cut is not None:
        return False
    c.i += 1
    c.drop("row", "rnd")
    counted = c.kind == "with" and c.look().kind == "n" and (c.look().val or 0) > _MOST_LEFT and c.look(3).kind in (".", ";", "", "(", ")")
    if counted or not c.take("with") or not (steps := _ending_steps(c)):
        c.i = begun
        return False
    c.out[c.out.index(last)] = replace(last, last=tuple(steps))
    return True


def _stops_at_sign(c: Cursor, frame: Frame, mark: Mark) -> int | None:
    """ "(Repeat from * across,) which brings you to **", "leaving off at **", "last time end at **", "(you will end at **)", "stop at **
    on last repeat": how much of the unit the last repeat has; None with the cursor unmoved."""
    start = c.i
    bracketed = c.take("(") is not None
    while c.kind in _LEADS and c.i - start < _LEAD:
        c.i += 1
    sign = str(c.t[c.i].val)
    at = next((one for one in reversed(frame.marks) if one.sign == sign and one.index > mark.index), None) if c.kind == "*" else None
    if at is None or c.i == start + bracketed:
        c.i = start
        return None
    c.i += 1
    if c.kind in ("on", "in", "for", "at") and c.look(1 + (c.look().kind == "the")).kind in ("last", "final"):
        while c.kind in ("on", "in", "for", "at", "the", "last", "final"):
            c.i += 1
        c.drop("rep", "time", "times")
    if bracketed and c.take(")") is None:
        c.i = start
        return None
    return at.index - mark.index


_LEAD = 12
_LEADS = frozenset(
    ("w", "idle", "the", "last", "end", "ending", "rep", "time", "times", "on", "at", "in", "with", "by", "to", "around", "across", "row",
     "rnd", "and", "but", "leave", "drop", ",", "not", "up", "until", "each")
)  # fmt: skip
"""Words that may lead to the sign at which the last repeat stops."""


def _leaves_out(c: Cursor) -> bool:
    """ "Leaving off the last corner", "leave out the last 2 chain", "skipping the last corner": the last unit ends without it."""
    k = 1 + (c.look().text.lower() in ("out", "off"))
    out = k == 2 or str(c.t[c.i].val).endswith(("off", "out"))
    led = out or str(c.t[c.i].val).endswith("ping")
    named = [token.kind for token in c.t[c.i + k : c.i + k + 4] if token.kind != "the"]
    if c.kind not in ("leave", "drop", "skip") or not led or named[:1] != ["last"]:
        return False
    return named[1] == "corner" or (out and (named[1] == "ch" or named[1:3] == ["n", "ch"]))  # "but leave out the last 2 chain"


def last_time_told(c: Cursor) -> bool:
    """Whether ", the last time …" follows the unit's second star."""
    start = c.i
    told = c.take(",", ";") is not None and _last_time(c)
    c.i = start
    return told


def _last_time(c: Cursor) -> bool:
    """Past "the last time", "on last repeat work", "making the last loop with", where what the last unit ends with is told behind it;
    False with the cursor unmoved."""
    start = c.i
    made = c.take("work") is not None
    c.drop("on", "in", "at", "for", "with") if not made else None
    c.take("the")
    if c.take("last"):
        named = c.take("rep", "time", "times") is not None or c.t[c.i].text.lower() in ("repeat", "time", "one")
        c.i += named and c.t[c.i - 1].kind not in ("rep", "time", "times")
        named = named or (made and c.take("lp", "sp") is not None)
        c.take("around", "across")
        c.drop(",", "work", "with", "by", "idle")
        if named and c.kind in ("ch", "n", "st", "grp", "(", "a"):
            return True
    c.i = start
    return False


def _before_corner(c: Cursor, unit: list[Step]) -> int | None:
    """ "(Ending last repeat) before corner", "before the corner group": where in the unit its corner stands; None, unmoved, where it has
    none."""
    at = corner_of(unit)
    begin = c.i
    c.i += 1
    c.drop("the", "last", "next", "first", "beg")
    if at is not None and c.take("corner"):
        c.drop("group", "grp", "sp", "st", "noun")
        return at
    c.i = begin
    return None


def _but_few(c: Cursor) -> tuple[Step, ...]:
    """ "…, but only work 1 sc in the last st", "…, with only 3 dc in last sc": other than the unit has it; () with the cursor unmoved."""
    start = c.i
    led = c.t[c.i].kind in ("with", "having", "work") or c.t[c.i].text.lower() in _PUTTING
    c.i += led
    only = c.t[c.i].text.lower() in ("only", "just", "but")
    c.i += only
    c.take("work") if only else None
    steps = _ending_steps(c) if (led or only) and c.kind == "n" and c.look().kind == "st" else []
    first = steps[0] if steps else None
    if steps and (only or (isinstance(first, Make) and first.at.where == "last")):
        return tuple(steps)
    c.i = start
    return ()


_PUTTING = frozenset("making putting placing work put make place".split())  # noqa: SIM905


def _in_same_manner(c: Cursor) -> None:
    """Past "(repeat from * all round) in the same manner": it says no more than the repeat."""
    if c.kind != "in":
        return
    k = c.i + 1 + (c.look().kind == "the")
    how = c.t[k].text.lower() in ("same", "like", "this", "similar") and c.t[k + 1].text.lower() in ("manner", "way", "fashion")
    if how and c.t[k + 2].kind in (",", ";", ".", "", "(", ")", "ending", "join"):
        c.i = k + 2


def _last_stitch(c: Cursor, body: list[Step]) -> tuple[tuple[Step, ...], int] | None:
    """ "(Repeat from *,) last sc in top of ch 3": the unit's last stitch has another place in the last repeat."""
    from .one_phrase import one

    c.i += 1
    got = one(c)
    last = body[-1] if body else None
    if not got or len(got) != 1 or not isinstance(got[0], Make) or not isinstance(last, Make) or got[0].stitch != last.stitch:
        return None
    several = last.places.values if isinstance(last.places, Sized) else ()
    if any((n or 0) > 1 for n in several):  # "… dc in next 2 dc; rep from * across, last dc in top of ch 3": the others stay
        if got[0].at.where == "last":
            return None  # one more of them, or the second of the two: see `lasts`
        return ((replace(last, id=c.id(), places=Sized(tuple(None if n is None else max(n - 1, 1) for n in several))), *got), len(body) - 1)
    return (tuple(got), len(body) - 1)


def _ends_alike(c: Cursor) -> bool:
    """ "Ending row same as last row", "ending like the previous round", "end as in the 5th row": the ending is told there."""
    begin = c.i
    if c.kind in ("same", "as") or c.t[c.i].val == "like":
        c.drop("same", "as", "in", "the", "of", "idle", "for", "w")
        nth = c.t[c.i].val if c.kind == "o" and c.look().kind in ("row", "rnd") else None
        if nth is None and c.kind in ("row", "rnd") and c.look().kind == "n":
            nth = c.look().val
        c.i += nth is not None
        if c.kind in ("last", "prev") or c.t[c.i].val in ("last", "previous"):
            c.i += 1
        if c.take("row", "rnd", "around", "before", "above") or (isinstance(nth, int) and c.take("n")):
            c.told["ends_alike"] = nth if isinstance(nth, int) else "last"
            return True
    c.i = begin
    return False


def _as_begun(c: Cursor, unit: list[Step]) -> tuple[Step, ...] | None:
    """ "Ending as you began(, with 1 sc)", "finish as at the beginning": with the unit's first stitch, where no other is told; None with
    the cursor unmoved."""
    start = c.i
    if not c.take("as"):
        return None
    while c.kind in ("idle", "the", "at", "in", "row", "rnd", "w") and c.i - start < 5:
        c.i += 1
    if not c.take("beg"):
        c.i = start
        return None
    if c.kind == "," and c.look().kind in ("with", "by"):
        c.i += 1
    if c.take("with", "by"):
        return tuple(_ending_steps(c))
    first = unit[0] if unit else None
    return (replace(first, id=c.id()),) if isinstance(first, Make) and first.places == ONE else ()


def _ending_steps(c: Cursor) -> list[Step]:
    """The steps told after "ending with", up to the clause's end."""
    from .one_phrase import one

    c.frames.append(Frame())
    found = c.frames[-1].out
    try:
        while c.kind and len(found) < 60:
            before = c.i
            if c.kind in ("turn", "join", "foff", "rep", "=", "not", "*", ")", "]", "}"):
                break
            if c.kind == "ch" and found and _turning(c):
                break
            got = one(c)
            if got is None:
                c.i = before
                break
            if any(isinstance(step, (Turn, Join)) for step in got):
                c.i = before
                break
            found.extend(got)
            if c.t[c.i].text.lower() == "instead" or (c.kind == "in" and c.look().text.lower() in ("place", "lieu")):
                while c.kind not in (",", ".", ";", "", ")", "]", "turn", "join", "("):
                    c.i += 1  # "with 2 sc in the last ch instead of 3"
            stop = c.i
            if c.kind in (".", ";"):
                break
            c.drop(",", "and", "then")
            if c.kind in ("", ")", "]") or c.i == before:
                c.i = stop
                break
        return found
    finally:
        c.frames.pop()


def _turning(c: Cursor) -> bool:
    """ "ch 1, turn" follows: it ends the row, not the repeat."""
    k = c.i + 1
    while c.t[k].kind in ("-", "n", ",", "(", ")", "to", "and", "counts", "as", "st", "the"):
        k += 1
    return c.t[k].kind == "turn" or c.t[k].kind == ""
