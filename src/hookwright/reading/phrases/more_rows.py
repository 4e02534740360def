"""More rows of the same: "Work 5 more rows in same manner", "continue for 6 more rows", "work 4 rows like Row 2"."""

from __future__ import annotations

from ...pattern import Refer, Step
from .cursor import Cursor
from .numbers import number
from .shaping_rows import keep_rows

EXAMPLES = (
    ("Work 5 more rows in same manner", "as last 1"),
    ("Continue for 6 more rows", "as last 1"),
    ("Make 4 rows like Row 2", "as rows 2"),
    ("Work 3 more rows the same way", "as last 1"),
)

_ROW = ("row", "rnd")
_MANNERS = frozenset("same this manner way fashion the alike like in that thus similarly last preceding previous".split())  # noqa: SIM905
_ENDS = frozenset((".", ";", ",", "", "(", ")", "["))


def more_rows(c: Cursor) -> list[Step] | None:
    """So many rows as the one before, or as the one named; None with the cursor unmoved."""
    start = c.i
    going_on = c.kind == "cont"
    c.i += 1
    if going_on:
        _manner(c)
        if not c.take("for"):
            c.take("work")
    c.drop("the", "idle")
    told = number(c)
    more = bool(c.take("more"))
    if told is None or not c.take(*_ROW):
        c.i = start
        return None
    more = bool(c.take("more")) or more
    rows = _named(c)
    same = _manner(c)
    if c.kind not in _ENDS or not (rows or same or (going_on and more)):
        c.i = start
        return None
    step = Refer(id=c.id(), span=c.span(start), rows=rows) if rows else Refer(id=c.id(), span=c.span(start), last=1)
    keep_rows(c, step, told)
    return [step]


def _manner(c: Cursor) -> bool:
    """Past "in same manner", "the same way", "alike"."""
    begin = c.i
    while (c.t[c.i].text.lower() in _MANNERS or c.kind == "the") and c.kind not in _ENDS and c.look().kind not in _ROW:
        c.i += 1
    if c.kind in _ROW and c.t[c.i - 1].kind in ("last", "prev"):
        c.i += 1
    said = {t.text.lower() for t in c.t[begin : c.i]}
    if c.i > begin and said & {"same", "manner", "way", "fashion", "alike", "thus", "similarly", "last", "preceding", "previous"}:
        return True
    c.i = begin
    return False


def _named(c: Cursor) -> tuple[int, ...]:
    """Past "like Row 2", "as Row 2", "same as Row 2"."""
    begin = c.i
    c.drop("same")
    if c.kind == "as" and c.look().kind in _ROW and c.look(2).kind == "n" and isinstance(c.look(2).val, int):
        c.i += 3
        return (int(c.t[c.i - 1].val),)
    c.i = begin
    return ()
