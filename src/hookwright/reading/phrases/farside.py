"""Going on along the far side of the foundation chain: "turn to work along the other side", "rotate and work in opposite side"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Make, Place, Repeat, Sized, Step, Together
from .cursor import FAR, Cursor
from .places import spot

EXAMPLES = (
    (
        "sc in next 6 ch, 3 sc in last ch, now go down other side of ch with 1 sc in next 6 ch",
        "sc×6@next ch, 3sc@last ch, sc×6@under ch",
    ),
    (
        "sc in next 6 ch, 3 sc in last ch, rotate to work along the other side of the ch, sc in next 6 ch",
        "sc×6@next ch, 3sc@last ch, sc×6@under ch",
    ),
    ("Work this row on the other side of the foundation, for the hem: sc in next 2 ch, dc in next ch", "sc×2@under ch, dc@under ch"),
)
_GOING = frozenset(("go", "move", "proceed", "going", "come", "coming", "return", "returning"))
_TURNING = frozenset(("rotate", "pivot", "rotating", "swivel", "spin", "swing", "swinging"))


def far_side(c: Cursor, start: int) -> list[Step] | None:
    """After "turn"/"rotate": what follows goes along the far side, and the work is not turned over; None where nothing says so."""
    if c.kind not in ("to", "and", ",", "the", "work", "piece", "so", "w", "idle", "around", "in", "along", "over", "opp"):
        return None
    k = next((k for k in range(c.i, min(c.i + 9, len(c.t))) if c.t[k].kind == "opp"), None)
    if k is None or any(t.kind in ("st", "n", ".") for t in c.t[c.i : k]):
        return None
    c.i = k
    spot(c, bare=True)
    c.elsewhere = FAR
    c.drop(",", ":")
    c.i += c.kind == "with" and c.look().kind in ("n", "st", "a") and (c.look(2).kind in ("st", "in", "noun"))  # "… with sc in next 11 ch"
    return [Aside(id=c.id(), span=c.span(start))]


def back_along(c: Cursor) -> list[Step] | None:
    """ "(3 sc in last ch;) work back along the other side", "then back down the opposite side": the far side, from here on."""
    start = c.i
    c.i += c.kind == "work"
    if c.kind != "back" or c.look().kind not in ("along", "in", "over", "across", "around"):
        c.i = start
        return None
    c.i += 1
    got = far_side(c, start) or _down_own_chain(c, start)
    if got is None:
        c.i = start
    return got


def _down_own_chain(c: Cursor, start: int) -> list[Step] | None:
    """ "(Ch 5,) working back along the ch: sc in 2nd ch from hook": the chain just made, which the stitches to come name themselves."""
    made = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    c.drop("along", "in", "over", "across", "the", "that", "this")
    if not isinstance(made, Chain) or made.foundation or not c.take("ch") or c.kind not in (":", ",", ";", ".", "with", "st", "n", "from"):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def same_there(c: Cursor) -> list[Step] | None:
    """ "(Sc in each ch,) then do the other side of the ch too", "the same on the other side": the far side, from here on; what is worked
    there, where nothing else is told, `too` says. None with the cursor unmoved."""
    start = c.i
    same = c.kind in ("same", "rep") or (c.kind == "the" and c.look().kind == "same") or c.t[c.i].text.lower() in ("do", "work", "crochet")
    row = c.i + (c.kind == "work")  # "work this row on the other side", "this row is worked on the other side"
    if c.t[row].text.lower() == "this" and c.t[row + 1].kind in ("row", "rnd"):
        c.i, same = row + 2, True
        c.i += c.kind == "counts"
    while same and (c.kind in _SAME_THERE or c.t[c.i].val == "on"):
        c.i += 1
    if not same or c.kind != "opp" or spot(c, bare=True) is None:
        c.i = start
        return None
    c.drop("idle")
    c.i += 2 * (c.kind == "as" and c.look().text.lower() == "well")
    if c.kind == "," and c.look().kind == "for":
        stop = next((k for k in range(c.i + 1, min(c.i + 7, len(c.t))) if c.t[k].kind in (":", ",", ";", ".", "st", "n")), c.i)
        c.i = stop if c.t[stop].kind == ":" else c.i  # ", for the ribbon:"
    if c.kind not in (":", ",", ";", ".", "", "(", "[", "=", "-", "join", "not", "turn", "and"):
        c.i = start
        return None
    c.elsewhere = FAR
    return [Aside(id=c.id(), span=c.span(start))]


def over_there(c: Cursor) -> list[Step] | None:
    """ "(Sc in each ch.) Other side: sc in each", "opposite side of ch – 6 sc": the far side, named by itself, from here on."""
    start = c.i
    along = any(isinstance(step, Make) and step.at.where == "from_hook" for step in c.out)
    if not along or spot(c, bare=True) is None or c.kind not in (":", "-", ",") or c.t[c.i].val == "tight":
        c.i = start
        return None
    c.i += 1
    c.elsewhere = FAR
    return [Aside(id=c.id(), span=c.span(start))]


_SAME_THERE = frozenset(("work", "the", "same", "back", "rep", "in", "along", "on", "over", "across", "idle"))


def too(c: Cursor) -> list[Step]:
    """The row's steps; where it goes along its chain and then told to go along the far side, with nothing told of what is done there, the
    same stitch in each."""
    out = c.out
    if c.elsewhere != FAR or c.ctx.far:
        return out
    opened = next((token.kind for token in c.t if token.kind in ("opp", "st", "inc")), "")
    if opened == "opp":  # told before any stitch: "on the other side of the foundation: 1 treble, 1 chain, miss 1"
        out = c.out[:] = [_beyond(step) for step in out]
    made = [step for step in out if isinstance(step, (Make, Repeat, Together))]
    last, first = (made[-1], made[0]) if made else (None, None)
    if not isinstance(last, Make) or not isinstance(first, Make) or last.places != "rest":
        return out
    if last.at.where != "next" or last.at.what not in ("ch", "st"):
        return out
    if first.at.where != "from_hook" or last.but != Sized((0,)) or last.upto:
        return out
    at = next(k for k in range(len(out), 0, -1) if isinstance(out[k - 1], Aside) or out[k - 1] is last)
    return [*out[:at], Make(id=c.id(), span=out[at - 1].span, stitch=last.stitch, each=last.each, places="rest", at=FAR), *out[at:]]


def _beyond(step: Step) -> Step:
    """The step with every stitch that names no place on the far side."""
    if isinstance(step, Repeat):
        return replace(step, body=tuple(map(_beyond, step.body)), last=tuple(map(_beyond, step.last)))
    if isinstance(step, (Make, Together)) and step.at == Place():
        return replace(step, at=FAR)
    return step


def rotated(c: Cursor) -> list[Step] | None:
    """ "Rotate to work along the other side …", "rotate the piece 90 degrees": turned in the plane, not over."""
    start = c.i
    if c.t[c.i].val in _GOING:
        c.i += 1
        c.take("back")
        c.drop("along", "around") if c.look().kind in ("the", "opp", "in") else None
        return far_side(c, start)
    if c.t[c.i].val not in _TURNING:
        return None
    c.i += 1
    got = far_side(c, start)
    if got is not None:
        return got
    while c.kind in ("the", "work", "piece", "idle", "w", "n", "to", "your", "around", "side", "down", "along") and c.t[c.i].val not in (
        "sc",
    ):
        if c.kind == "n" and c.look().kind in ("st", "ch", "inc"):
            break
        c.i += 1
    return [Aside(id=c.id(), span=c.span(start))]
