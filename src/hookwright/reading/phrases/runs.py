"""Rows told only by what they are worked in and how long: "work back and forth in d c for 9 rows", "work 4 rounds even", "work on these 4
sts only for 12 rows", "work in rows of sc until the band measures 4 inches"."""

from __future__ import annotations

from ...pattern import THESE, Aside, Even, Make, Place, Refer, Sized, Step
from .cursor import Cursor
from .limits import limit
from .numbers import number
from .row_lists import ROW
from .spots import ONE, as_loop
from .untils import until

EXAMPLES = (
    ("Work back and forth in dc for 9 rows", "even dc"),
    ("Work 4 rounds even", "even"),
    ("Work 2 more rows in sc", "even sc"),
    ("Work in rows of sc until collar measures 4 inches", "even sc"),
    ("Work on these 4 sts only for 12 rows", "sc×4@next st"),
    ("Work 10 more rnds in same manner", "as last 1"),
    ("Work around in sc for 3 rounds", "even sc"),
    ("Work in sc in back loops for 80 rows", "sc×rest@next st/back"),
)

_FORTH = frozenset(("forth", "backwards", "forwards", "backward", "forward"))
_PLAIN = frozenset(("inc", "dec", "shaping", "turn", "join"))
_PASSED = frozenset(("the", "idle", "a", "same", "patt", "of", "as", "stitch"))


class _Run:
    """What the words of one run have told so far."""

    def __init__(self) -> None:
        self.stitch: str | None = None
        self.loop = ""
        self.places: Sized[int] | None = None
        self.rows: Sized[int] | None = None
        self.even = self.lasts = self.all_over = self.alike = False

    @property
    def told(self) -> bool:
        """Enough to be a run and not the beginning of another instruction."""
        return self.even or self.lasts or (self.all_over and self.stitch is not None)


def run(c: Cursor) -> list[Step] | None:
    """The rows that a run is, as one step; how many and until when are told of the row. None with the cursor unmoved."""
    start = c.i
    kept = dict(c.told)
    if not (c.take("work", "cont") or c.kind == "n"):
        return None
    found = _Run()
    if c.kind == "for" and not (c.look().kind == "n" or c.look().kind in ROW):
        _for_what(c)
    for _ in range(8):
        if not _word(c, found):
            break
    if found.lasts and c.kind == "for" and not any(t.kind == "n" for t in c.t[c.i : c.i + 4]):
        while c.kind not in (",", ";", ".", "", "(", ")"):
            c.i += 1  # "5 rounds for the band"
    if not found.told or c.kind not in (",", ";", ".", "", ")", "]", "(", "join", "turn", "foff", "and", "then", "ending", "*"):
        c.i = start
        c.told.clear()
        c.told.update(kept)
        return None
    if found.rows is not None:
        c.told.setdefault("rows_count", found.rows)
    if found.alike:
        return [Refer(id=c.id(), span=c.span(start), last=1)]
    main = found.stitch or c.ctx.main or "sc"
    if found.places is not None:
        if any(token.text.lower() in ("these", "those") for token in c.t[start : c.i]):
            c.told["on_these"] = found.places
        return [Make(id=c.id(), span=c.span(start), stitch=main, places=found.places, at=Place(of=THESE))]
    loop = found.loop or c.loop
    if loop and loop != "both":
        return [Make(id=c.id(), span=c.span(start), stitch=main, each=ONE, places="rest", at=Place(loop=as_loop(loop)))]
    if c.ctx.old and found.stitch:
        return [
            Make(id=c.id(), span=c.span(start), stitch=found.stitch, places="rest")
        ]  # over lace: `rows` sets it on stitch and chain alike
    return [Even(id=c.id(), span=c.span(start), stitch=found.stitch)]


def back_and_forth(c: Cursor) -> list[Step] | None:
    """ "Working back and forth 1 d c in each of next 14 d c": how the rows to come go, before this one's stitches."""
    start = c.i
    c.i += 1
    if not _how(c, _Run()) or not (c.t[c.i - 1].val in _FORTH or c.t[c.i - 1].text.lower() == "fro") or c.kind not in ("n", "st", "*", "a"):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def _for_what(c: Cursor) -> None:
    """Pass over "(work) for the end (ten rounds)", "for the band"; unmoved where no number follows."""
    begin = c.i
    c.i += 1
    while c.kind in ("the", "w", "end", "top", "base", "idle", "side", "beg") and c.i - begin < 5:
        c.i += 1
    if c.kind != "n":
        c.i = begin


def _word(c: Cursor, found: _Run) -> bool:
    """One more of the things a run may tell; False with the cursor unmoved when what stands here is none of them."""
    return any(one(c, found) for one in (_how, _so_many, _in_what, _on_what, _how_long, _without, _turned))


def _how(c: Cursor, found: _Run) -> bool:
    """ "even", "back and forth", "backwards and forwards", "around", "all round", "in rows"."""
    start = c.i
    if c.take("even"):
        found.even = True
        return True
    if c.kind == "back" or c.t[c.i].val in _FORTH:
        while c.kind in ("back", "and", "&") or c.t[c.i].val in _FORTH:
            c.i += 1
        if c.t[c.i - 1].val in _FORTH:
            found.all_over = True
            return True
    elif c.kind == "to" and c.look().kind == "and" and c.look(2).text.lower() == "fro":
        c.i += 3
        found.all_over = True
        return True
    elif c.kind in ("around", "across"):
        if c.look().kind in ("in", ",", ".", ";", "", "for", "until", "even"):
            c.i += 1
            found.all_over = True
            return True
    elif (
        c.kind == "in"
        and c.look().kind in ROW
        and (c.look(2).kind in ("of", "in", "for", "until", "without") or c.look(3).kind == "without")
    ):
        c.i += 2
        found.all_over = True
        c.take("of") if c.look().kind == "st" else None
        return True
    c.i = start
    return False


def _turned(c: Cursor, found: _Run) -> bool:
    """ ", always turning with 1 ch,", ", making 1 ch to turn each time,": how every one of the rows turns."""
    start = c.i
    if not c.take(","):
        return False
    end = c.i
    while c.t[end].kind not in (",", ";", ".", "", "(", ")"):
        end += 1
    kinds = [token.kind for token in c.t[c.i : end]]
    if "turn" in kinds and set(kinds) <= _TURNED and (c.t[end].kind != "," or c.t[end + 1].kind in ("for", "until")):
        c.i = end + (c.t[end].kind == ",")
        return True
    c.i = start
    return False


_TURNED = frozenset("turn with n ch idle having each times work to a at end row rnd the of and always w".split())  # noqa: SIM905


def _so_many(c: Cursor, found: _Run) -> bool:
    """ "4 rows", "2 more rounds", "9 rows more", "one row"."""
    start = c.i
    told = number(c) if c.kind == "n" else None
    c.drop("more", "idle")
    c.i += c.t[c.i].val in ("complete", "full", "whole", "plain")
    if told is None or not (c.take("row", "rnd") or (c.kind == "around" and c.t[c.i].val == "round" and c.take("around"))):
        c.i = start
        return False
    if c.kind == "of" and c.look().val == "plain" and c.look(2).kind == "st":
        c.i += 2  # "ten rounds of plain double crochet": plain says no more
        found.stitch = c.us(str(c.t[c.i].val))
        c.i += 1
    c.drop("more", "of") if c.kind == "more" or (c.kind == "of" and c.look().kind == "st") else None
    found.rows = told
    found.lasts = True
    return True


def _in_what(c: Cursor, found: _Run) -> bool:
    """ "in sc", "in pattern", "in back loops", "of dc"; the stitch of a bare "rows of sc"."""
    start = c.i
    if c.kind == "st" and found.all_over and c.t[start - 1].kind in ("of", *ROW):
        found.stitch = c.us(str(c.t[c.i].val))
        c.i += 1
        return True
    if not c.take("in", "of"):
        return False
    c.drop(*_PASSED)
    if c.kind == "st" and c.t[c.i].val != "sl st" and c.t[c.i - 1].kind in ("in", "of", "the", "a", "same"):
        found.stitch = c.us(str(c.t[c.i].val))
        c.i += 1
        c.drop("noun")
        return True
    if c.kind == "loop":
        found.loop = str(c.t[c.i].val)
        c.i += 1
        c.drop("idle")
        return True
    if c.t[c.i - 1].kind == "patt":
        found.even = True
        return True
    if c.t[c.i - 1].kind == "same" and c.t[c.i].val in ("manner", "way", "fashion"):
        c.i += 1
        found.alike = True
        return True
    c.i = start
    return False


def _on_what(c: Cursor, found: _Run) -> bool:
    """ "on these 4 sts only", "on 15 sts", "over these 8 sts"."""
    start = c.i
    if not (c.take("over") or c.take("in") or c.take("on")) or c.t[start].val in ("into", "inside", "within", "upon"):
        c.i = start
        return False
    c.drop("the", "idle")
    if c.t[c.i - 1].text.lower() in ("these", "those") and c.kind == "noun":
        c.i += 1  # "8 rows on these stitches"
        return True
    told = number(c) if c.kind == "n" else None
    if told is None or c.kind not in ("st", "noun"):
        c.i = start
        return False
    if c.kind == "st":
        found.stitch = found.stitch or c.us(str(c.t[c.i].val))
    c.i += 1
    c.drop("idle", "noun")
    found.places = told
    found.all_over = True
    return True


def _how_long(c: Cursor, found: _Run) -> bool:
    """ "for 9 rows more", "for 4 inches", "until …", "to end of row"."""
    start = c.i
    if c.take("for"):
        c.drop("the", "next")
        told = number(c)
        c.drop("more", "idle")
        c.i += c.t[c.i].val in ("complete", "full", "whole", "plain")
        if told is not None and c.take("row", "rnd"):
            c.drop("more")
            found.rows = told
            found.lasts = True
            return True
        c.i = start
    if c.kind in ("until", "for"):
        got = until(c)
        if got is not None:
            c.told["until"] = got
            found.lasts = True
            return True
    if c.kind in ("across", "to"):
        but = limit(c)
        if but is not None and but.values == (0,):
            found.all_over = True
            return True
    c.i = start
    return False


def _without(c: Cursor, _found: _Run) -> bool:
    """ "without increasing", "without further shaping", "without joining"."""
    start = c.i
    c.i += c.kinds(",", "without")
    if c.take("without"):
        c.drop("idle", "more", "the", "a", "any")
        if c.kind in _PLAIN:
            c.drop(*_PLAIN, "or", "and", "&")
            _found.even = _found.even or c.t[c.i - 1].kind in ("inc", "dec", "shaping")
            return True
    c.i = start
    return False
