"""Tunisian rows as older books tell them: loops are raised, and taken together; the way back is told apart ("tricot")."""

from __future__ import annotations

from ...pattern import ONE, Aside, Make, Place, Refer, Sized, Step
from .counts import add
from .counts_listed import listed
from .cursor import Cursor
from .limits import limit
from .numbers import number
from .passes import drawn_up

EXAMPLES: tuple[tuple[str, str], ...] = ()
_RAISE = frozenset(("raise", "raising", "take", "taking", "pick", "picking"))
_BARS = frozenset(("perpendicular", "upright", "vertical", "front", "raised", "loop", "loops", "bars", "bar"))
_STOPS = frozenset((",", ";", ".", "", "(", ")", "and", "*", "then", "-"))


def raised(c: Cursor) -> list[Step] | None:
    """ "Raise 3", "raise a loop in each", "raise loops to within 5 of the end", "take the next two loops together"."""
    start = c.i
    if not c.ctx.passes:
        return None
    c.i += c.t[c.i].text.lower() == "so"
    if c.t[c.i].text.lower() not in _RAISE and c.kind != "pick":
        c.i = start
        return None
    c.i += 1
    c.take("along")
    got = _together(c, start) or _loops(c, start)
    if got is None:
        c.i = start
    return got


def _together(c: Cursor, start: int) -> list[Step] | None:
    """ "(take) the next two perpendicular loops together", "(take) 2 together"."""
    begin = c.i
    c.drop("the", "next")
    told = _listed(c) or number(c)
    if c.take("of"):
        c.drop("the", "rem")  # "two of these together"
    _pass_bars(c)
    if told is None or told.many or not c.take("tog") or not 1 < (told.values[0] or 0) < 6:
        c.i = begin
        return None
    n = told.values[0] or 2
    if c.kinds("as", "n"):
        c.i += 2  # "together as one"
    return [Make(id=c.id(), span=c.span(start), stitch=f"tss{n}tog", closes=n)]


def _listed(c: Cursor) -> Sized[int] | None:
    """ "The second and third", "the fourth and fifth": so many loops, one after another; None with the cursor unmoved."""
    begin, many = c.i, 0
    while c.kind == "o":
        many += 1
        c.i += 1
        c.drop("and", ",", "the") if c.look(0).kind in ("and", ",") and (c.look().kind == "o" or c.look(2).kind == "o") else None
    if many > 1:
        return Sized((many,))
    c.i = begin
    return None


def put_through(c: Cursor) -> list[Step] | None:
    """ "Put the needle in the second chain, draw the wool through, and keep it on; do the same in every chain": a loop raised in each, told
    as it is done. To the end of the sentence."""
    start = c.i
    if not c.ctx.passes or not any(c.look(k).kind == "hook" for k in (1, 2)):
        return None
    end = next((k for k in range(c.i, len(c.t)) if c.t[k].kind in (".", "")), c.i)
    words = c.t[start:end]
    at = next((k for k, token in enumerate(words) if token.kind in ("in", "over", "under")), None)
    drawn = next((k for k, token in enumerate(words) if token.kind == "pull" or token.val in ("draw", "bring")), None)
    if at is None or drawn is None or at > drawn or any(token.kind in ("st", "grp", "skip", "tog") for token in words):
        return None
    place = words[at:drawn]
    chain = any(token.kind == "ch" for token in place)
    again = any(token.kind in ("each", "all", "same") or token.text.lower() == "so" or token.kind == "rep" for token in words[drawn:])
    every = again or any(token.kind == "each" for token in place)
    if any(token.kind == "n" for token in words[at:drawn]):
        return None
    c.i = end
    second = chain and any(token.kind == "o" and token.val == 2 for token in place)
    first = [Make(id=c.id(), span=c.span(start), stitch="tss", at=Place(where="from_hook", what="ch", nth=2))] if second else []
    if not every:
        return [*first] or [Make(id=c.id(), span=c.span(start), stitch="tss")]
    return [*first, Make(id=c.id(), span=c.span(start), stitch="tss", places="rest", at=Place(what="ch") if chain else Place())]


def loop_left(c: Cursor) -> list[Step] | None:
    """ "Keep the loop on the needle,": what every row begins with."""
    start = c.i
    if (
        not c.ctx.passes
        or c.t[c.i].text.lower() not in ("keep", "keeping", "leave", "leaving", "retain")
        or not c.kinds("cont", "the", "lp")
    ):
        return None
    while c.kind not in (",", ";", ".", ""):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))] if any(t.kind == "hook" for t in c.t[start : c.i]) else None


def the_others(c: Cursor) -> list[Step] | None:
    """ "(Take up the second and third together,) the fourth and fifth together", "then the last": the verb goes on."""
    start = c.i
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not c.ctx.passes or not isinstance(before, Make) or not before.stitch.startswith("tss"):
        return None
    c.take("the")
    if c.kind == "last" and c.look().kind in (",", ";", ".", ""):
        c.i += 1
        return [Make(id=c.id(), span=c.span(start), stitch="tss")]
    got = _together(c, start) if c.kind in ("o", "next", "n") else None
    if got is None:
        c.i = start
    return got


def drawn_off(c: Cursor) -> list[Step] | None:
    """ "(When) three loops will be on the needle", "Draw the wool through all three and (fasten off)": how the last row is closed."""
    start = c.i
    if not c.ctx.passes or not any(isinstance(step, Make) for step in c.out):
        return None
    end = c.i
    while c.t[end].kind not in (",", ";", ".", "", "foff"):
        end += 1
    words = c.t[start:end]
    loops = c.kind == "n" and c.look().kind == "lp" and any(token.kind == "hook" for token in words)
    off = c.kind == "pull" and any(token.kind == "all" or token.text.lower() == "all" for token in words) and c.t[end].kind == "foff"
    if not loops and not off:
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def _loops(c: Cursor, start: int) -> list[Step] | None:
    """ "(raise) 3", "(raise) a loop in each of the remaining chain", "(raise) loops to within 5 of the end"."""
    rest = c.kind == "rem" or (c.kind == "the" and c.look().kind in ("rem", "other"))
    if rest or (c.kind == "each" and c.look().kind in ("other", "lp", "bar", "noun", "rem")):
        c.i += c.kind in ("each", "the")  # "each of the others to the last three", "the rest"
        c.drop("other", "rem")
        _pass_bars(c)
        but = limit(c)
        return [Make(id=c.id(), span=c.span(start), stitch="tss", places="rest", but=but or Sized((0,)))]
    told = number(c)
    c.take("a", "the")
    c.take("lp")
    if told is not None and c.kind in _STOPS:
        return [Make(id=c.id(), span=c.span(start), stitch="tss", places=told)]
    but = limit(c)
    if but is not None and told is None:
        return [Make(id=c.id(), span=c.span(start), stitch="tss", places="rest", but=but)]
    if c.kind not in ("in", "over", "under") or c.look().kind not in ("each", "all", "the", "rem", "next"):
        return None
    c.i += 1
    single = c.kind == "next" or (c.kind == "the" and c.look().kind == "next")
    chain = False
    while c.kind not in _STOPS:
        if c.kind in ("st", "grp", "rep", "skip", "n"):
            return None
        chain = chain or c.kind == "ch"
        c.i += 1
    at = Place(what="ch") if chain else Place()
    return [Make(id=c.id(), span=c.span(start), stitch="tss", places=ONE if single else "rest", at=at)]


def bars_together(c: Cursor) -> list[Step] | None:
    """ "Insert hook under next 2 bars tog, yrh and draw lp through, yrh": two drawn through as one, and the loop told after them."""
    start = c.i
    if not c.ctx.passes:
        return None
    c.i += 1
    c.drop("hook", "the", "a")
    if not c.take("in", "under", "over"):
        c.i = start
        return None
    c.take("under")
    made = _together(c, start)
    if made is None:
        c.i = start
        return None
    drawn_up(c)
    begin = c.i
    if c.take(",") and c.take("yo") and c.kind in (";", "rep", ")", ".", "", "*"):
        return [*made, Make(id=c.id(), span=c.span(begin), stitch="tss", at=Place(where="hook"))]
    c.i = begin
    return made


def _pass_bars(c: Cursor) -> None:
    while c.kind in ("lp", "bar", "post", "noun", "front") or c.t[c.i].text.lower() in _BARS:
        c.i += 1


def loop_there(c: Cursor) -> list[Step] | None:
    """ "The loop on the needle counts for the first stitch": told of every row, and always so."""
    start = c.i
    if not c.ctx.passes or c.look().kind != "lp" or not any(c.look(k).kind == "hook" for k in range(2, 6)):
        return None
    end = start
    while c.t[end].kind not in (",", ";", ".", ""):
        end += 1
    if not any(t.kind == "counts" for t in c.t[start:end]):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def loops_told(c: Cursor) -> list[Step] | None:
    """ "(raise a loop in each,) 32 loops; work back": how many the way forward leaves, told before the way back."""
    start = c.i
    if not c.ctx.passes or not any(isinstance(step, Make) for step in c.out):
        return None
    end = c.i + 1 + (c.look().kind in ("lp", "noun"))
    if end + 1 >= len(c.t) or c.t[end].kind not in (",", ";"):
        return None
    if c.t[end + 1].kind not in ("work", "to") and not c.t[end + 1].text.lower().startswith("work"):
        return None
    found = listed(c, end)
    if found is None or c.i != end:
        c.i = start
        return None
    add(c, found, start)
    return []


def from_second(c: Cursor) -> list[Step] | None:
    """ "(Pick up a loop through each stitch,) beginning with the second from hook", "skipping the first": the first is on the hook."""
    start = c.i
    last = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not c.ctx.passes or not isinstance(last, Make) or last.places != "rest":
        return None
    c.i += 1
    c.take("with", "in", "at")
    c.drop("the")
    nth = c.t[c.i].val if c.kind == "o" else None
    if not c.take("o"):
        c.i = start
        return None
    c.drop("noun", "ch", "o")
    if c.t[start].kind == "skip" and nth == 1:
        while c.kind not in (".", ";", "", ","):
            c.i += 1
        return [Aside(id=c.id(), span=c.span(start))]
    if c.t[start].kind != "beg" or nth != 2 or not (c.take("from") and (c.take("the") or True) and c.take("hook")):
        c.i = start
        return None
    at = next(k for k in range(len(c.out) - 1, -1, -1) if c.out[k] is last)
    c.out[at : at + 1] = [Make(id=c.id(), span=last.span, stitch="tss", at=Place(where="from_hook", what="ch", nth=2)), last]
    return [Aside(id=c.id(), span=c.span(start))]


def loops_until(c: Cursor) -> list[Step] | None:
    """ "Until there are 25 loops, counting the one on the hook", after a run of them; how they are worked off ("the first one singly")."""
    start = c.i
    if not c.ctx.passes or not any(isinstance(step, Make) for step in c.out):
        return None
    end = c.i
    while c.t[end].kind not in (",", ".", ";", ""):
        end += 1
    words = c.t[start:end]
    loops = any(t.kind == "lp" for t in words) and any(t.kind == "n" for t in words)
    one = c.kind in ("the", "counts") and any(t.text.lower() in ("one", "last", "both") for t in words)
    if not (c.kind == "until" and loops) and not (one and not any(t.kind in ("st", "noun", "ch") for t in words)):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def to_work_back(c: Cursor) -> list[Step] | None:
    """ "To work back, draw the wool through 1 loop, then * …": to the end of the sentence."""
    start = c.i
    if not c.ctx.passes or c.look().kind != "work" or c.look(2).kind != "back":
        return None
    while c.kind not in (".", ""):
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]


def nearest_missed(c: Cursor) -> list[Step] | None:
    """ "Miss the chain nearest the needle": the next loop is raised in the second chain from it."""
    start = c.i
    words = [c.look(k) for k in range(1, 6)]
    if not c.ctx.passes or not any(t.text.lower() in ("nearest", "next-to") for t in words) or not any(t.kind == "hook" for t in words):
        return None
    while c.kind not in (",", ";", ".", ""):
        c.i += 1
    c.start_at = Place(where="from_hook", what="ch", nth=2)
    return [Aside(id=c.id(), span=c.span(start))]


def plain(c: Cursor) -> list[Step] | None:
    """ "11th Row: Plain.": a loop in every stitch."""
    if not c.ctx.passes or c.i or c.t[0].val != "plain" or c.look().kind not in (".", "", ",", ";"):
        return None
    c.i = 1
    return [Make(id=c.id(), span=c.span(0), stitch="tss", places="rest")]


def shaped_as_row(c: Cursor) -> list[Step] | None:
    """ "Decrease as in the tenth row", "increase as in Row 4": that row again."""
    start = c.i
    c.i += 1
    if not c.take("as") or not c.take("in", "for", "over"):
        c.i = start
        return None
    c.take("the")
    row: object = None
    if c.kind == "o" and c.look().kind in ("row", "rnd"):
        row = c.t[c.i].val
    elif c.kind in ("row", "rnd") and c.look().kind == "n":
        row = c.look().val
    if not isinstance(row, int):
        c.i = start
        return None
    c.i += 2
    changes = run_between(c) if c.ctx.passes else ()
    return [Refer(id=c.id(), span=c.span(start), rows=(row,), changes=changes)]


def run_between(c: Cursor) -> tuple[Step, ...]:
    """ "(Decrease as in the 3rd row,) but raising 7 loops between instead of 9": how long the plain run is now; nothing, the cursor
    unmoved, where something else is told."""
    begin = c.i
    c.drop(",", "but", "with", "having")
    if c.t[c.i].text.lower() in _RAISE:
        c.i += 1
    told = number(c)
    c.drop("lp", "noun")
    if told is None or not c.take("between"):
        c.i = begin
        return ()
    if c.t[c.i].text.lower() == "instead":
        while c.kind not in (",", ";", ".", ""):
            c.i += 1
    return (Make(id=c.id(), span=c.span(begin), stitch="tss", places=told, at=Place(what="inc", between=True)),)
