"""Several plain rows of which only the last is shaped: "Work 3 rows even, dec 2 sts evenly on last row", "in the last row inc 4 sc"."""

from __future__ import annotations

from ...pattern import Aside, Even, Make, Refer, Shape, Sized, Step
from .cursor import Cursor
from .numbers import number
from .spots import CLOSE

EXAMPLES = (
    ("work 3 rows even, dec 2 sts evenly on last row", "even, shape−2 evenly"),
    ("work 3 rows even, on the last one inc 4 sc evenly", "even, shape+4 evenly"),
)

_ROWS = frozenset(("row", "rnd", "around"))


def shaped_on_last(c: Cursor) -> list[Step] | None:
    """The shaping, marked as the last row's; None, the cursor unmoved, where it is told otherwise."""
    start = c.i
    found = None
    only_even = bool(c.out) and all(isinstance(step, Aside) for step in c.out) and c.t[start - 2].kind == "even"
    if only_even or any(isinstance(step, (Even, Refer)) or (isinstance(step, Make) and step.places == "rest") for step in c.out):
        led = _on_the_last(c)
        c.i += led and c.kind == ","
        found = _evenly(c)
        behind = found is not None and not led and _on_the_last(c)
        if not (led or behind) or c.kind not in CLOSE:
            found = None
    if found is None:
        c.i = start
        return None
    span = c.span(start)
    even = [Even(id=c.id(), span=c.span(start - 2, start - 1))] if only_even else []  # "Next 3 rows: Even, inc 2 sc in last row"
    return [*even, Aside(id=c.id(), span=span, kind="last"), Shape(id=c.id(), span=span, change=found, where="evenly")]


def _on_the_last(c: Cursor) -> bool:
    """Past "on (the) last row", "in the last one", "on the last of these"; False, unmoved, elsewhere."""
    begin = c.i
    if c.kind in ("in", "on", "at") and c.t[c.i].text.lower() in ("in", "on", "at"):
        c.i += 1
        c.drop("the")
        if c.take("last"):
            if c.kind == "of" and c.look().val in ("these", "them", "those"):
                c.i += 2
                return True
            if c.kind in _ROWS or c.t[c.i].text.lower() == "one":
                c.i += 1
                return True
            if c.kind in ("inc", "dec", ","):
                return True
    c.i = begin
    return False


def _evenly(c: Cursor) -> Sized[int] | None:
    """ "dec 2 sc evenly (spaced)", "increasing 4 sts": by how many."""
    shrinks = c.kind == "dec"
    if not c.take("inc", "dec"):
        return None
    told = number(c)
    if told is None:
        return None
    c.drop("st", "noun")
    c.drop("even")
    c.i += c.t[c.i].text.lower() in ("spaced", "apart")
    c.drop("around", "across") if c.look().kind in CLOSE else None
    return Sized(tuple(None if n is None else -n if shrinks else n for n in told.values))
