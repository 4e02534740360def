"""What tricot books tell beside the loops that are raised: what lies on the needle, how many there are, how they are closed."""

from __future__ import annotations

from ...pattern import Aside, Count, Make, Step
from .counts import add
from .cursor import Cursor
from .numbers import number
from .spots import CLAUSE
from .tricot import RAISE

EXAMPLES: tuple[tuple[str, str], ...] = ()


def how_many(c: Cursor) -> list[Step] | None:
    """ "(There will be) 15 loops on the needle", "three loops will be on the needle", "32 loops; work back": how many loops the way forward
    leaves."""
    start = c.i
    if not c.ctx.passes or not any(isinstance(step, Make) for step in c.out) or c.t[start - 1].text.lower() in RAISE:
        return None
    told = number(c)
    if told is None:
        c.i = start
        return None
    loops = c.take("lp") is not None
    if not loops:
        c.take("noun")
    elif any(c.look(k).kind == "hook" for k in range(1, 6)):
        while c.kind != "hook" and c.kind not in CLAUSE:
            c.i += 1
        c.take("hook")
    back = c.kind in (",", ";") and (c.look().kind in ("work", "to") or c.look().text.lower().startswith("work"))
    if c.kind not in CLAUSE or not (loops or back):
        c.i = start
        return None
    add(c, [Count(number=told, kind="sp" if loops else "st", span=c.span(start))], start)
    return []


def drawn_off(c: Cursor) -> list[Step] | None:
    """ "Draw the wool through all three and (fasten off)": how the last row is closed."""
    start = c.i
    if not c.ctx.passes or not any(isinstance(step, Make) for step in c.out):
        return None
    end = c.i
    while c.t[end].kind not in (",", ";", ".", "", "foff"):
        end += 1
    if c.t[end].kind != "foff" or not any(token.kind == "all" or token.text.lower() == "all" for token in c.t[start:end]):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


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


def by_taking(c: Cursor) -> list[Step] | None:
    """ "(Decrease at both ends) by taking two uprights together": how, told beside it."""
    start = c.i
    if not c.ctx.passes or c.look().text.lower() not in ("taking", "raising", "working", "drawing", "picking"):
        return None
    end = c.i
    while c.t[end].kind not in CLAUSE:
        end += 1
    words = c.t[start:end]
    if not any(token.kind == "tog" for token in words) or any(token.kind in ("rep", "skip", "turn", "each") for token in words):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]
