"""How repeated rows change, told beside a repeat that says so already: "each row having one block more", "increasing 2 sts each row"."""

from __future__ import annotations

from itertools import pairwise

from ...pattern import ONE, Aside, Make, Refer, Repeat, Step, Together
from .cursor import Cursor

EXAMPLES = (
    ("Repeat Row 3, increasing 2 sts each row", "as rows 3"),
    ("Rep Row 3, each row having one block more", "as rows 3"),
    ("Repeat Row 3, adding 6 dc on every row", "as rows 3"),
    ("Repeat Row 3. Each row grows by 2 sts.", "as rows 3"),
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


def growth_beside(c: Cursor) -> list[Step] | None:
    """ "(Repeat Row 3), adding 6 dc on every row", "each row grows by 2 sts", "(2 sts added per round)": the sum of what the rows do,
    told beside their repeat. None where it tells where the stitches go: that is an instruction."""
    start, end = c.i, c.i
    inside = c.kind in ("(", "[")
    if inside:
        end = c.close.get(start, start)
        words = c.t[start + 1 : min(end, start + LONGEST_SUM + 1)]
    else:
        while c.t[end].kind not in _CLAUSE_STOPS and end - start < LONGEST_SUM:
            if c.t[end].kind not in _SUM:
                return None
            end += 1
        words = c.t[start:end]
    if not 3 <= len(words) < LONGEST_SUM or not all(t.kind in _SUM for t in words):
        return None
    every = any(
        a.kind == "each" or a.text.lower() in ("a", "per", "each")
        for a, b in pairwise(words)
        if b.kind in ("row", "rnd", "around", "times")
    )
    if not every or not any(t.kind in ("inc", "dec", "more") or t.text.lower() in _GROWS for t in words):
        return None
    if words[0].kind in ("n", "st", "inc", "dec") and not (inside or any(t.text.lower() in _GROWS for t in words)):
        return None
    if not _repeats(c) and (words[0].kind in ("inc", "dec") or not _shapes(c)):
        return None
    c.i = end + inside
    return [Aside(id=c.id(), span=c.span(start))]


LONGEST_SUM = 15
"""Words of such a remark, at the most."""
_GROWS = frozenset(
    """
    add adding added adds gain gaining gained gains grow grows growing grown lose losing lost loses less fewer smaller larger bigger wider
    narrower up down increases decreases increasing decreasing
    """.split()  # noqa: SIM905
)
_SUM = frozenset(
    """
    w n st noun each row rnd around times the a on of in by to and idle inc dec more total counts counter along grp group sp it skip
    """.split()  # noqa: SIM905
)


_CLAUSE_STOPS = frozenset((*_STOPS, ",", "(", "["))


def _stop(c: Cursor) -> int:
    end = c.i
    while c.t[end].kind not in _STOPS:
        end += 1
    return end


def _shapes(c: Cursor) -> bool:
    """Whether the row has told where it widens or narrows."""
    told = [inner for step in c.out for inner in (step.body if isinstance(step, Repeat) else (step,))]
    return any(isinstance(step, Together) or (isinstance(step, Make) and (step.each != ONE or step.closes > 1)) for step in told)


def _repeats(c: Cursor) -> bool:
    return any(isinstance(step, Refer) for step in c.out)
