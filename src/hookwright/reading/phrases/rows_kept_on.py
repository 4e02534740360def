"""Rows gone on with in the words of blogs: "Keep going w/ row 2", "stay with rows 3 and 4, 2 rows per colour, till it's long enough"."""

from __future__ import annotations

from ...pattern import Refer, Step, Until
from .cursor import Cursor
from .references import how_long, in_colours
from .row_lists import ROW, row_numbers
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
