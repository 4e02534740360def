"""What a chain lies over, told beside it: "3 dc under the ch, ch 3 to pass over the dc", "ch 3 over the dc". Nothing more is skipped.

Also which stitch the place worked into stands over: "sc in sc over dc".
"""

from __future__ import annotations

from ...pattern import Aside, Chain, Make, Together
from .cursor import Cursor
from .nouns import noun

EXAMPLES = (
    ("3 dc in next ch-3 sp, ch 3 to pass over the dc; repeat", "[3dc@next ch-3 sp, ch3]×rest"),
    ("3 dc in next ch-3 sp, ch 3 across the dc group; repeat", "[3dc@next ch-3 sp, ch3]×rest"),
    ("* sc in sc over dc, ch 4, skip 3 sc; repeat", "[sc@next sc, ch4, skip3 sc]×rest"),
    ("sc in next sc directly above next dc, ch 4", "sc@next sc, ch4"),
)

_ENDS = frozenset((",", ";", ".", "", "*", ")", "]", "rep"))


def over_what(c: Cursor) -> None:
    """Pass over "over the dc", "across the 3 long" behind a chain just read; unmoved where it is no such remark."""
    begin = c.i
    if c.kind not in ("over", "across") or c.t[c.i].text.lower() not in ("over", "across") or not _from_space_to_space(c):
        return
    c.i += 1
    the = c.take("the")
    c.take("n")
    if the is None or c.kind not in ("st", "noun", "group") or noun(c) is None or c.kind not in _ENDS:
        c.i = begin


def stands_over(c: Cursor) -> bool:
    """Past "(in next sc) over dc", "(in the sc) directly above next dc"; False with the cursor unmoved."""
    start = c.i
    c.i += c.kind == "idle" and c.t[c.i].text.lower() in ("directly", "right", "just", "straight")
    if c.t[c.i].text.lower() in ("over", "above"):
        c.i += 1
        c.drop("the", "next", "a", "same")
        if c.kind == "st" and c.t[c.i].val != "sl st" and noun(c) is not None and (c.kind in _ENDS or c.kind == "("):
            return True
    c.i = start
    return False


def passes_over(c: Cursor, start: int) -> bool:
    """Whether the skip read since `start` is only what the chain before it lies over ("3 chain to pass over the long")."""
    before = next((step for step in reversed(c.out) if not isinstance(step, Aside)), None)
    purpose = c.t[start - 1].kind == "to" or c.t[start].text.lower().startswith("passing")
    return purpose and c.t[c.i - 1].kind != "skip" and isinstance(before, Chain) and _from_space_to_space(c)


def _from_space_to_space(c: Cursor) -> bool:
    """The stitches told before go into a space, which is gone to from whatever lies before it."""
    made = next((step for step in reversed(c.out) if isinstance(step, (Make, Together))), None)
    return made is not None and made.at.where == "next" and made.at.what.endswith("sp")
