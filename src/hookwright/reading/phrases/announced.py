"""What is only announced ("dec over next 7 sc as follows: …"), and pairs that take turns to the row's end."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import ONE, ZERO, Aside, Make, Refer, Repeat, Step, Times
from .cursor import Cursor

EXAMPLES = (
    ("dec over next 7 sc as follows: (sc2tog) 3 times, sc in next sc", "[sc2tog]×3, sc@next sc"),
    ("decrease: (sc, sc2tog) 6 times", "[sc, sc2tog]×6"),
    ("increase round – sc in next 2 sts, 2 sc in next st", "sc×2, 2sc"),
    ("repeat Row 2, then continue as follows:", "as rows 2"),
    ("work a row of sc along side edge, making 2 sc in end of each row", "2sc×rest@row_end row"),
    ("sc in dc, dc in sc across", "[sc@next dc, dc@next sc]×rest"),
)
_FOLLOWS = frozenset(("foll", "follows", "following", "follow", "below"))
REACH = 12
"""How many words an announcement may have."""


def as_follows(c: Cursor) -> list[Step] | None:
    """ "Dec over next 7 sts as foll:", "inc in corner as follows:": nothing is worked by it."""
    start = c.i
    if _headed_so(c):
        return [Aside(id=c.id(), span=c.span(start))]
    end = next((k for k in range(start + 1, min(start + REACH, len(c.t))) if c.t[k].kind == ":"), None)
    if end is None or c.t[end - 1].text.lower() not in _FOLLOWS or c.t[end - 2].kind != "as":
        return None
    if any(c.t[k].kind in (",", ".", ";", "(", "[", "*") for k in range(start, end)):
        return None
    c.i = end + 1
    return [Aside(id=c.id(), span=c.span(start))]


def _headed_so(c: Cursor) -> bool:
    """Past "decrease:", "increase round –", "start decreasing now:" before a round's first stitch: what is done is told behind it."""
    end = c.i + 1
    end += c.t[end].kind in ("row", "rnd", "around")
    end += c.t[end].text.lower() == "now"
    sign = c.t[end]
    if any(not isinstance(step, Aside) for step in c.out) or len(c.frames) > 1 or sign.kind not in (":", "-") or sign.val == "tight":
        return False
    first, second = c.t[end + 1], c.t[end + 2] if end + 2 < len(c.t) else c.t[-1]
    worked = first.kind in ("*", "(", "[", "st", "inc", "dec") or (first.kind == "n" and second.kind in ("st", "inc", "dec"))
    if not worked or not any(token.kind in ("st", "inc", "dec") for token in c.t[end:]):
        return False
    c.i = end + 1
    return True


def goes_on_as_told(c: Cursor) -> list[Step] | None:
    """ "(Work as for Small through Rnd 3,) then continue as follows:": what comes after is told in rows of its own."""
    start = c.i
    if not (c.out and isinstance(c.out[-1], Refer)) or c.look().kind != "as" or c.look(2).text.lower() not in _FOLLOWS:
        return None
    if c.look(3).kind not in (".", ":", ";", ""):
        return None
    c.i += 3
    c.take(":")
    return [Aside(id=c.id(), span=c.span(start))]


def along_told(c: Cursor, steps: list[Step]) -> None:
    """ "Work a row of sc along side edge, 2 sc in end of each row": the row is told by its last words; those before them announce it."""
    told = steps[0] if steps else None
    at = next((k for k in range(len(c.out) - 1, -1, -1) if not isinstance(c.out[k], Aside)), None)
    run = c.out[at] if at is not None else None
    if at is None or not isinstance(told, Make) or told.at.where != "row_end" or told.evenly:
        return
    if not isinstance(run, Make) or not run.evenly or run.places != "rest" or run.stitch != told.stitch:
        return
    words = [token for token in c.t if run.span.start <= token.start < run.span.end]
    if not any(token.kind == "around" for token in words):
        c.out[at] = Aside(id=run.id, span=run.span)


def taken_in_turn(c: Cursor, steps: list[Step]) -> None:
    """ "Dc in sc, sc in dc across": two stitches, each into the other, take turns to the row's end; the run told last alone goes to it."""
    if len(c.frames) > 1 or not steps:
        return
    last, before = steps[-1], c.out[-1] if c.out else None
    if not isinstance(last, Make) or not isinstance(before, Make) or last.places != "rest" or before.places != ONE:
        return
    if (last.stitch, last.at.what) != (before.at.what, before.stitch) or last.stitch == before.stitch or last.each != before.each:
        return
    c.out.pop()
    kept = Times(kind="to_last", number=last.but) if any(last.but.values) else Times(kind="rest")
    steps[-1] = Repeat(id=c.id(), span=last.span, body=(before, replace(last, places=ONE, but=ZERO)), times=kept)
