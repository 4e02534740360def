"""Where the last stitch of a run goes, told after the run: "…; rep from * across, working last dc in top of ch-3"."""

from __future__ import annotations

from ...pattern import Aside, Make, Repeat, Step, Together
from .cursor import Cursor
from .places import spot

EXAMPLES = (
    ("*dc in next sp, dc in next dc; rep from * across, working last dc in top of ch-3", "[dc@next sp, dc@next dc]×rest"),
    ("sc in each st across, with last sc in top of tch", "sc×rest"),
)

_VERBS = frozenset(("work", "with", "place", "having", "ending"))
_OPEN = frozenset(("rest", "to_last", "more", "n"))


def last_of_run(c: Cursor) -> list[Step] | None:
    """ "working (the) last dc in …", "with last dc worked in …": a remark where the run before ends with such a stitch."""
    start = c.i
    run = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    if not (isinstance(run, Repeat) and run.times.kind in _OPEN) and not (isinstance(run, (Make, Together)) and run.places == "rest"):
        return None
    if c.kind in _VERBS or (c.kind == "w" and c.t[c.i].val in ("placing", "the")):
        c.i += 1
    c.drop("the")
    if c.kind != "last":
        c.i = start
        return None
    c.i += 1
    if c.kind not in ("st", "noun", "grp", "inc"):
        c.i = start
        return None
    named = c.us(str(c.t[c.i].val)) if c.kind == "st" else ""
    c.i += 1
    c.drop("idle")
    c.i += c.t[c.i].val in ("being", "is")
    c.take("work")
    c.drop("idle")
    if c.kind not in ("in", "over", "around", "at") or not (_last_stitch(run) and named in ("", _last_stitch(run))) or spot(c) is None:
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


def _last_stitch(step: Step) -> str:
    """The kind of the last stitch a step works."""
    if isinstance(step, Make):
        return step.stitch
    if isinstance(step, (Repeat, Together)):
        made = [inner for inner in step.body if not isinstance(inner, Aside)]
        return _last_stitch(made[-1]) if made else ""  # a body that ends in a chain leaves its last stitch to be told
    return ""
