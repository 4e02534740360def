"""A round whose last stitch is its join: "repeat from * around, joining with sl st in place of the last sc"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Aside, Chain, Join, Make, Repeat, Step
from .cursor import Cursor
from .places import spot

EXAMPLES = (
    ("*skip 1 st, 5 dc in next, skip 1, sc in next; rep from * around, joining with sl st in place of the last sc",
     "[skip, 5dc, skip, sc]×rest cut 3, join"),
    ("*miss 1, 3 dc in next, miss 1, sc in next; rep from * around, working a ss in the first sc instead of the last sc",
     "[skip, 3dc, skip, sc]×rest cut 3, join"),
    ("*ch 5, sc in next loop; rep from * 4 times, but end with a sl st in the first sc instead of the last sc",
     "[ch5, sc@next sp]×4 more cut 1, join"),
    ("*ch 5, sc in next sp; rep from * around, the last sc being replaced by a sl st in first sc", "[ch5, sc@next sp]×rest cut 1, join"),
    ("*ch 5, sc in next sp; rep from * around, in place of last sc work sl st in first sc", "[ch5, sc@next sp]×rest cut 1, join"),
    ("(ch 3, dc in next sp) 6 times, making last dc a slip stitch in the first", "[ch3, dc@next sp]×6 cut 1, join"),
    ("*ch 5, sc in next sp; rep from * around, working last sc as a sl st", "[ch5, sc@next sp]×rest cut 1, join"),
    ("*ch 5, sc in next sp; rep from * around, the last sc being omitted", "[ch5, sc@next sp]×rest cut 1"),
)  # fmt: skip


def comes_in_place(c: Cursor) -> bool:
    """Whether the clause at the cursor tells of a slip stitch in place of the last stitch ("but end with s.s. in first dc instead of the
    last dc")."""
    k, slipped = c.i, False
    while c.t[k].kind not in (".", ";", "", ")", "]") and k < c.i + 24:
        slipped = slipped or (c.t[k].kind == "st" and c.t[k].val == "sl st")
        if c.t[k].text.lower() in ("instead", "place", "lieu") and c.t[k + 1].kind == "of":
            return slipped and "last" in (c.t[k + 2].kind, c.t[min(k + 3, len(c.t) - 1)].kind)
        k += 1
    return False


def _repeat_told(c: Cursor) -> Repeat | None:
    """The repeat that was just told, where nothing is told yet of how it ends."""
    run = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    plain = isinstance(run, Repeat) and run.times.kind in ("rest", "n", "more") and not run.last and run.cut is None
    return run if isinstance(run, Repeat) and plain else None


def last_replaced(c: Cursor) -> list[Step] | None:
    """The repeat before ends without its last stitch, and is joined there; None with the cursor unmoved."""
    start = c.i
    run = _repeat_told(c)
    if run is None:
        return None
    c.i += 1
    c.drop("with", "a", "n", "by", "work", "last", "rep", "the")
    if not (c.kind == "st" and c.t[c.i].val == "sl st"):
        c.i = start
        return None
    c.i += 1
    if c.kind in ("in", "to") and c.look().kind not in ("place", "lieu") and spot(c) is None:
        c.i = start
        return None
    instead = c.t[c.i].text.lower() == "instead"
    c.i += 2 if c.kind == "in" and c.look().text.lower() in ("place", "lieu") else instead
    c.drop("of", "the")
    if c.kind != "last" or c.look().kind not in ("st", "noun"):
        c.i = start
        return None
    c.i += 2
    return _joined_there(c, start, run)


def _joined_there(c: Cursor, start: int, run: Repeat) -> list[Step] | None:
    """The repeat cut before its last stitch, and the join; None, the cursor at `start`, where it does not end in a stitch."""
    at = max((k for k, step in enumerate(run.body) if isinstance(step, Make)), default=-1)
    if at < 1 or any(not isinstance(step, Aside) for step in run.body[at + 1 :]):
        c.i = start
        return None
    c.out[max(k for k, step in enumerate(c.out) if step is run)] = replace(run, cut=at)
    return [Join(id=c.id(), span=c.span(start))]


def slips_for_last(c: Cursor) -> list[Step] | None:
    """ "…, the last sc being replaced by a sl st in first sc", "the last sc being a sl st in the first", "in place of the last sc work a sl
    st in first sc", "making the last sc a sl st"; None with the cursor unmoved."""
    start = c.i
    run = _repeat_told(c)
    if run is None:
        return None
    made_so = c.take("work") is not None
    c.drop("with", "but", "and", "in")
    instead = c.t[c.i].text.lower() in ("instead", "place", "lieu")
    c.i += instead
    c.drop("of", "the")
    if c.kind != "last" or c.look().kind not in ("st", "noun"):
        c.i = start
        return None
    c.i += 2
    c.take(",")
    said = c.i
    while c.t[c.i].text.lower() in _REPLACED or (instead and c.kind in ("work", "join")):
        c.i += 1
    replaced = c.i > said or made_so
    c.drop("by", "with", "a", "n") if not made_so else c.drop("as", "in", "a", "n")
    if not replaced or not (c.kind == "st" and c.t[c.i].val == "sl st"):
        c.i = start
        return None
    c.i += 1
    if c.kind in ("in", "to") and c.t[c.i + 1].text.lower() == "that":
        while c.kind not in (",", ";", ".", "", "(", ")"):
            c.i += 1  # "into that with which the thread was joined"
    elif c.kind in ("in", "to") and spot(c) is None:
        c.i = start
        return None
    return _joined_there(c, start, run)


def last_omitted(c: Cursor) -> list[Step] | None:
    """ "…, the last shell being omitted", "with the last 5 ch left out": the repeat before ends without it; None, the cursor unmoved."""
    start = c.i
    run = _repeat_told(c)
    if run is None:
        return None
    c.drop("with", "the", "but", "and")
    if not c.take("last"):
        c.i = start
        return None
    c.take("n")
    named = c.take("st", "noun", "grp", "ch", "group")
    c.take("n")
    c.i += c.t[c.i].text.lower() in ("being", "is", "are", "to")
    c.i += c.t[c.i].text.lower() == "be"
    left_out = c.kind == "skip" and c.t[c.i].val == "leave out"
    gone = (
        left_out or c.t[c.i].text.lower() in ("omitted", "dropped") or (c.t[c.i].text.lower() == "left" and c.look().text.lower() == "out")
    )
    at = next((k for k in range(len(run.body) - 1, -1, -1) if not isinstance(run.body[k], Aside)), 0)
    if named is None or not gone or at < 1 or isinstance(run.body[at], Chain) != (named.kind == "ch"):
        c.i = start
        return None
    c.i += 2 if c.t[c.i].text.lower() == "left" else 1
    c.out[max(k for k, step in enumerate(c.out) if step is run)] = replace(run, cut=at)
    return [Aside(id=c.id(), span=c.span(start))]


_REPLACED = frozenset("being is be should will to replaced represented formed made substituted".split())  # noqa: SIM905
