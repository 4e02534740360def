"""How repeated rows change, told beside a repeat that says so already: "each row having one block more", "increasing 2 sts each row"."""

from __future__ import annotations

from ...pattern import Aside, Refer, Step
from .cursor import Cursor

EXAMPLES = (
    ("Repeat Row 3, increasing 2 sts each row", "as rows 3"),
    ("Rep Row 3, each row having one block more", "as rows 3"),
)

_STOPS = frozenset((".", ";", "", ")", "]"))


def having_more(c: Cursor) -> list[Step] | None:
    """ "each row having one block more"."""
    start = c.i
    end = _stop(c)
    if c.look().kind not in ("row", "rnd") or end - start < 4 or not _repeats(c):
        return None
    if any(c.t[k].kind in ("st", "ch", "skip", "turn", "join") for k in range(start, end)):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def growing_told(c: Cursor) -> list[Step] | None:
    """ "increasing 2 sts each row", "decreasing by 6 sts every round": the sum of what the repeated row does. Where at each end or
    at the beginning is told, it is an instruction."""
    start = c.i
    end = _stop(c)
    words = c.t[start:end]
    if not c.t[start].text.lower().endswith("ing") or not _repeats(c) or len(words) > 9:
        return None
    each = any(t.kind == "each" and words[k + 1].kind in ("row", "rnd") for k, t in enumerate(words[:-1]))
    if not each or any(t.kind in ("end", "ends", "side", "beg", "ch", "skip", "around") for t in words):
        return None
    c.i = end
    return [Aside(id=c.id(), span=c.span(start))]


def _stop(c: Cursor) -> int:
    end = c.i
    while c.t[end].kind not in _STOPS:
        end += 1
    return end


def _repeats(c: Cursor) -> bool:
    return any(isinstance(step, Refer) for step in c.out)
