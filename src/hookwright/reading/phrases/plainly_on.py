"""Going on plainly: "work even", "in pattern across", "work across 12 sts for left shoulder", "work 12 sts in pattern"."""

from __future__ import annotations

from ...pattern import ONE, Aside, Colour, Even, Make, Repeat, Sized, Step, Together
from .cursor import Cursor
from .limits import limit
from .numbers import number
from .places import spot
from .spots import CLOSE
from .stripes_told import in_scheme
from .untils import until


def in_pattern(c: Cursor) -> list[Step] | None:
    """ "In pat, …": plainly, as the rows before."""

    start = c.i
    if not (c.kind == "in" and c.look().kind == "patt"):
        return None
    c.i += 2
    return _even(c, start, None)


def pattern_on(c: Cursor) -> list[Step] | None:
    """ "Patt. to last 5 sts", "patt. over 46 sts", "patt. to end": the noun as a verb."""
    start = c.i
    c.i += 1
    if c.kind not in ("to", "over", "across", "until") or c.look().kind not in ("n", "last", "end", "the", "next"):
        c.i = start
        return None
    got = _even(c, start, None)
    if c.i == start + 1 or c.kind not in (",", ".", ";", "", "turn", ":", "(", "["):
        c.i = start
        return None
    return got


def _even(c: Cursor, start: int, stitch: str | None) -> list[Step]:
    """Plainly on: over the row, over so many stitches, to the last n; until a length."""
    _as_elsewhere(c)
    but = limit(c)
    begin = c.i
    if but is None and c.kind in ("over", "across", "in"):
        found = spot(c)
        if found is None and c.kind == "across" and c.look().kind in ("o", "next", "n"):
            c.i += 1
            found = spot(c, bare=True)
        if found is not None and isinstance(found.places, Sized) and found.told:
            _sizes_note(c)
            _so_far(c)
            return [Make(id=c.id(), span=c.span(start), stitch=stitch or c.ctx.main or "sc", each=ONE, places=found.places, at=found.at)]
        if found is None:
            c.i = begin
    _sizes_note(c)
    _so_far(c)
    if but is not None and (but.values != (0,) or c.upto):
        return [Make(id=c.id(), span=c.span(start), stitch=stitch or c.ctx.main or "sc", places="rest", but=but, upto=c.upto)]
    return [Even(id=c.id(), span=c.span(start), stitch=stitch)]


def _as_elsewhere(c: Cursor) -> None:
    """Past "(in pattern) as for Back", "same as Front": whose pattern it is."""
    if c.t[c.i - 1].kind != "patt" and c.t[c.i - 1].text.lower() not in ("for", "as"):
        return
    begin = c.i
    c.i -= c.t[c.i - 1].kind != "patt"
    if c.t[c.i].kind in ("as", "same", "for") or c.t[c.i - 1].kind == "as":
        while c.kind in ("as", "same", "for", "in", "the"):
            c.i += 1
        words = c.i
        while c.kind in ("w", "front", "back", "piece", "other", "o", "side") and c.i - words < 4:
            c.i += 1
        if c.i > words and c.kind in (*CLOSE, "until", "for"):
            return
    c.i = begin


def _so_far(c: Cursor) -> None:
    """ "Until armhole measures 7 inches", "for 2 inches": how far the rows go on; "for left shoulder" only says what they are."""
    in_scheme(c)
    got = until(c) if c.kind in ("until", "for", "to") else None
    if got is not None:
        c.told["until"] = got
    elif c.kind == "for" and not any(t.kind in ("n", "st", "ch", "row", "rnd") for t in c.t[c.i + 1 : c.i + 4]):
        while c.kind not in (",", ";", ".", "", ")", "]", "("):
            c.i += 1


def _sizes_note(c: Cursor) -> None:
    if c.kind == "(" and c.look().kind in ("all", "both", "each") and c.close.get(c.i):
        c.i = c.close[c.i] + 1


def _so_many(c: Cursor, start: int) -> list[Step] | None:
    """ "Work 12 sts (in pattern), turn": so many, in the stitch that the piece is worked in."""
    begin = c.i
    told = number(c)
    if told is None or c.kind != "noun":
        c.i = begin
        return None
    c.i += 1
    if c.kind in ("in", "as") and (c.look().kind == "patt" or c.look().val in ("established", "set")):
        c.i += 2
    _so_far(c)
    if c.kind not in (",", ".", ";", "", "turn", ")"):
        c.i = begin
        return None
    return [Make(id=c.id(), span=c.span(start), stitch=c.ctx.main or "sc", places=told)]


def even(c: Cursor) -> list[Step] | None:
    """ "work even", "even in pat", "work in pattern across", "work in sc"."""

    start = c.i
    c.take("cont")
    worked = bool(c.take("work"))
    if worked and c.kind == "back" and c.look().kind == "in" and c.look(2).kind == "st":
        c.i += 1  # "work back in double crochet"
    if worked and limit_told(c):
        return _even(c, start, None)
    if worked and (far := _as_far_as_told(c, start)) is not None:
        return far
    if worked and c.kind in ("across", "over") and c.look().kind in ("n", "o", "next", "last"):
        got = _even(c, start, None)
        if isinstance(got[0], Make):
            return got
        c.i = start
        return None
    if worked and c.kind == "n" and (so_many := _so_many(c, start)) is not None:
        return so_many
    if c.kind == "even":
        c.i += 1
    elif not (worked or start != c.i):
        c.i = start
        return None
    stitch = None
    c.drop("idle", "as")
    while c.kind in ("in", "as", "patt", "w", "the", "across", "over", "even", "idle", "rem") and c.kind:
        if c.kind == "in" and in_scheme(c):
            break
        if c.kind == "w" and c.t[c.i].val not in ("established", "set", "est", "same", "manner"):
            break
        if c.kind == "in" and c.look().kind == "st":
            c.i += 1
            stitch = c.us(str(c.t[c.i].val))
            c.i += 1
            continue
        if c.kind == "in" and (c.look().kind not in ("patt", "the", "w", "same") or (c.look().kind == "the" and c.look(2).kind == "n")):
            break
        if c.kind in ("across", "over") and c.look().kind in ("o", "next", "n", "last"):
            break
        c.i += 1
    if not any(c.t[k].kind in ("even", "patt") or c.t[k].val in ("established", "est") for k in range(start, c.i)) and stitch is None:
        c.i = start
        return None
    if c.t[c.i - 1].text.lower() in ("these", "those") and c.take("noun", "st"):
        c.drop("idle")  # "work even on these sts for 5 more rows"
    if stitch is not None and c.t[c.i].text.lower() == "throughout" and not c.out:
        c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]  # "Work in d.c. throughout": a rule, no row
    if not c.out and c.kind in (",", "and") and c.look().kind in ("inc", "dec"):
        c.i += 1
        return [Aside(id=c.id(), span=c.span(start, c.i - 1))]  # "Continue in dc, decreasing 1 st at neck edge in every row 8 more times"
    if c.t[c.i].val == "follows":
        c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]  # "Now work in hdc as follows:"
    return _even(c, start, stitch)


def colour_alone(c: Cursor) -> list[Step] | None:
    """ "A only.", "All B.", "In A. (36)": a row of which no more is told than its colour goes on plainly in it."""
    start = c.i
    if c.out or len(c.frames) > 1 or start > 1 or (start == 1 and c.t[0].kind not in _OPENS_ROW):
        return None
    c.drop("in", "with", "all", "work", "a" if c.t[c.i].text.islower() else "with")
    token = c.t[c.i]
    if token.text.lower() not in c.ctx.colours or token.kind not in ("w", "a"):
        c.i = start
        return None
    c.i += 1
    colour = Colour(id=c.id(), span=c.span(c.i - 1), yarn=token.text)
    c.drop("idle", "all", "around", "across", "total", "color")
    if c.kind not in (".", "", "(", "[", "=", "-") or (c.kind in ("(", "[", "=", "-") and c.look().kind != "n"):
        c.i = start
        return None
    return [colour, Even(id=c.id(), span=c.span(start))]


_OPENS_ROW = frozenset((":", "-", ".", ","))


def limit_told(c: Cursor) -> bool:
    """ "(work) to within last 2 sts", "(work) to last 6 sts": how far is told at once."""
    begin = c.i
    told = limit(c) if c.kind in ("to", "until") else None
    c.i = begin
    return told is not None and (told.values != (0,) or bool(c.upto))


def _as_far_as_told(c: Cursor, start: int) -> list[Step] | None:
    """ "(…, 3 sc in centre,) work to end": on over what is left, in the piece's own stitch; a row of nothing else is an even one."""
    begin = c.i
    told = limit(c) if c.kind in ("to", "across") else None
    if told is None or told.values != (0,) or c.upto or c.kind not in (",", ".", ";", "", ")", "]", "turn", "foff"):
        c.i = begin
        return None
    if any(isinstance(step, (Make, Together, Repeat)) for step in c.out):
        return [Make(id=c.id(), span=c.span(start), stitch=c.ctx.main or "sc", places="rest")]
    return [Even(id=c.id(), span=c.span(start))]
