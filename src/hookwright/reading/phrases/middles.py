"""More stitches in the middle of a row that is plain otherwise: "dc in each st, working 2 in the st at middle of back"."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from ...pattern import ONE, Aside, Make, Place, Repeat, Sized, Step, Together
from .cursor import Cursor
from .numbers import number
from .references import how_long
from .row_lists import ROW

EXAMPLES = (
    ("dc in each st, working 3 dc in the center st", "dc×rest to center, 3dc, dc×rest"),
    ("sc in each st, increasing in the middle stitch of each row", "sc×rest to center, 2sc@next st#0, sc×rest"),
)


def more_at_middle(c: Cursor) -> list[Step] | None:
    """ "Working 2 in the st at the middle of the back", "making 3 dc in center st": the run told before it goes up to there and on
    from there. None with the cursor unmoved."""
    start = c.i
    last = c.out[-1] if c.out else None
    if not isinstance(last, Make) or not _goes_to_the_end(last) or not c.take("work"):
        c.i = start
        return None
    told = number(c)
    c.take("st")
    if told is None or not c.take("in", "over"):
        c.i = start
        return None
    c.drop("the", "a")
    middle = bool(c.take("center"))
    if c.kind in ("st", "noun"):
        c.i += 1
    if not middle and c.kind in ("in", "at", "over"):
        c.i += 1
        c.drop("the")
        middle = bool(c.take("center"))
    if middle and c.kind == "of":
        c.i += 1
        c.drop("the")
        c.i += c.kind == "each" and c.look().kind in ROW
        c.i += c.kind not in (",", ";", ".", "", "-", "(")
    if not middle or c.kind not in (",", ";", ".", "", "-", "(", "=", "turn", "join"):
        c.i = start
        return None
    c.out[-1] = replace(last, upto="center")
    there = Make(id=c.id(), span=c.span(start), stitch=last.stitch, each=told, places=ONE, at=last.at)  # the run stops right before it
    return [there, replace(last, id=c.id(), span=c.span(start))]


def shaped_at_middle(c: Cursor, step: Make) -> list[Step]:
    """ "(Sc in each st,) increasing in the middle stitch", "increase in the middle of each row" of a row that tells nothing else: plain up
    to there and on from there. The step as it is where its place is another."""
    if step.at.nth != 0 or step.at.what != "st" or step.at.of or step.places != ONE:
        return [step]
    told = [token.kind for token in c.t if step.span.start <= token.start < step.span.end]
    each_row = any(a == "each" and b in ROW for a, b in pairwise(told))
    made = at_centre(c, [step])
    if made is None and each_row and step.main and not any(isinstance(one, (Make, Repeat, Together)) for one in c.frames[0].out):
        plain = Make(id=c.id(), span=step.span, stitch=step.main, places="rest", upto="center")
        made = [plain, step, replace(plain, id=c.id(), upto="")]
    if made is None:
        return [step]
    if each_row:
        how_long(c, 1)
    return made


def at_centre(c: Cursor, got: list[Step] | None) -> list[Step] | None:
    """ "Dc in each st across, having 5 dc in center dc": the run goes up to the middle, and on from there. So do runs told of several
    kinds of places ("sc in each dc and in each ch-1 sp across, working 3 sc in the center ch-2 sp")."""
    if not got or len(got) != 1:
        return None
    once = got[0]
    if not isinstance(once, (Make, Together)) or once.at.where != "next" or once.at.nth != 0 or once.at.of or once.places != ONE:
        return None
    runs = runs_told(c.out)
    if not runs or any(run.upto or run.but != Sized((0,)) for run in runs):
        return None
    first = next(k for k, step in enumerate(c.out) if step is runs[0])
    middle = f"center {once.at.what}" if once.at.what.endswith("sp") else "center"
    c.out[first:] = [replace(step, upto=middle) if isinstance(step, Make) else step for step in c.out[first:]]
    again = [replace(run, id=c.id(), span=once.span, at=Place(where="next", what=run.at.what)) for run in runs]
    return [once, *again]


def runs_told(out: list[Step]) -> list[Make]:
    """The runs to the row's end that stand last, one behind the other."""
    runs: list[Make] = []
    for step in reversed(out):
        if isinstance(step, Aside):
            continue
        if not isinstance(step, Make) or step.places != "rest":
            break
        runs.insert(0, step)
    return runs


def _goes_to_the_end(run: Make) -> bool:
    return run.places == "rest" and not run.upto and not any(run.but.values)
