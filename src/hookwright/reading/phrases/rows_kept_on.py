"""Rows gone on with in the words of blogs: "Keep going w/ row 2", "stay with rows 3 and 4, 2 rows per colour, till it's long enough"."""

from __future__ import annotations

from ...pattern import Aside, Colour, Even, Refer, Step, Until
from .cursor import Cursor
from .numbers import number
from .references import how_long
from .row_lists import ROW, row_numbers
from .stripes_told import in_colours
from .untils import until

EXAMPLES = (
    ("Keep going w/ row 2, 4 rows of each color, till it is long enough", "as rows 2"),
    ("Stay with rows 3 and 4 for another 10 rows", "as rows 3, 4"),
    ("Continue with Row 2 as long as your yarn lasts", "as rows 2"),
)

_VERBS = frozenset("keep carry continue cont stay stick go proceed".split())  # noqa: SIM905
_VERBS_ON = frozenset("going on working doing crocheting repeating along up to it".split())  # noqa: SIM905
_AS_LONG = (("as", "long"), ("as", "many"), ("as", "often"), ("however", "long"), ("however", "many"))


def kept_on(c: Cursor) -> list[Step] | None:
    """The rows named, again and again; None with the cursor unmoved."""
    start = c.i
    if c.t[c.i].text.lower() not in _VERBS:
        return None
    c.i += 1
    while c.t[c.i].text.lower() in _VERBS_ON or (c.kind == "," and c.look().text.lower() in _VERBS_ON):
        c.i += 1
    if c.take("with"):
        c.drop("/")
    elif c.t[c.i - 1].text.lower() not in ("doing", "repeating", "working"):
        c.i = start
        return None
    c.drop("the")
    if c.kind not in ROW or c.look().kind != "n":
        c.i = start
        return None
    c.i += 1
    rows = row_numbers(c)
    in_colours(c)
    how_long(c, max(1, len(rows)))
    in_colours(c)
    if (c.t[c.i].text.lower(), c.look().text.lower()) in _AS_LONG:
        begin = c.i
        c.i = c.stops[c.i]
        c.told["until"] = Until(span=c.span(begin))
    elif c.kind == "," and c.look().kind == "until":
        c.i += 1
        if (told := until(c)) is not None:
            c.told["until"] = told
    return [Refer(id=c.id(), span=c.span(start), rows=tuple(rows))]


def kept_going(c: Cursor) -> list[Step] | None:
    """ "Keep going back and forth on those 6 sts till it is 24\" long", "continue for 10 more rows": the row before, as long as is told;
    None, unmoved, where the row has work of its own or no end is told."""
    start = c.i
    if c.t[c.i].text.lower() not in _VERBS or any(not isinstance(step, (Aside, Colour)) for step in c.out):
        return None
    c.i += 1
    while c.t[c.i].text.lower() in _VERBS_ON or c.t[c.i].text.lower() in _TO_AND_FRO or c.kind in ("back", "and"):
        c.i += 1
    c.drop("on", "the", "idle")
    told = number(c) if c.t[c.i - 1].text.lower() in ("these", "those") else None
    if told is not None:
        c.drop("st", "noun", "rem")
    if c.kind not in ("until", "for"):
        c.i = start
        return None
    c.i += c.kind == "for" and c.look().kind == "n"
    how_long(c, 1)
    if not {"until", "rows_count"} & set(c.told):
        c.i = start
        return None
    if c.t[c.i].text.lower() == "long":
        c.i += 1
    told_length = isinstance(end := c.told.get("until"), Until) and end.length_cm is not None
    return [Even(id=c.id(), span=c.span(start)) if told_length else Refer(id=c.id(), span=c.span(start), last=1)]


_TO_AND_FRO = frozenset("back forth fro rows in and to".split())  # noqa: SIM905
