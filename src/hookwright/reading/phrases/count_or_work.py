"""A number of stitches at a row's end that is told nowhere to go: its count, or worked ("…, skip 6 sc, sc in 13 sc, 26 sc.")."""

from __future__ import annotations

from collections.abc import Sequence

from ...pattern import Aside, Choice, Count, Make, Step, Together
from ...trade.kinds import HEIGHT
from .counts_adding_up import made_of
from .cursor import Cursor

EXAMPLES = (("Sc in next 13 sc, 2 sc in next sc, sc in next 13 sc; 28 sc.", "sc×13@next sc, 2sc@next sc, sc×13@next sc | 28 sc"),)

QUESTION = "Is a number of stitches that ends a row and is told nowhere to go worked, or the row's count?"
CHANGES_YARN = frozenset(("pick", "drop", "attach", "change", "not"))
"""What is told behind a count of how the next row begins: another yarn, or that the work is not turned."""
_CLOSING = frozenset((".", "", "foff", ",", ";", "turn", "w", "and", "idle", "ch", "n", "-", "join"))
"""Kinds of words that end a row and work no more stitches."""


def ends_all(c: Cursor, end: int, found: list[Count]) -> bool:
    """ "…, sc in next 13 sc; 32 sc.": behind a semicolon at the row's end, where every stitch before was told where to go."""
    over = c.t[end].kind in (".", "") and all(not t.kind for t in c.t[end + 1 :])
    yarn = c.t[end].kind == "," and c.t[end + 1].kind in CHANGES_YARN  # "; 44 sts, pick up White"
    yarn = yarn and not any(t.kind in ("st", "ch", "skip", "rep", "inc", "dec") for t in c.t[end + 1 :])
    return len(found) == 1 and (over or yarn) and _all_placed(c)


def either(c: Cursor, start: int, end: int, found: list[Count]) -> list[Step] | None:
    """The number as a question, where it is as many as the row has made; else None."""
    count = found[0]
    made = _stitches_made(c.out)
    told = count.number.values[0] if not count.number.many else None
    plain = len(found) == 1 and count.kind in HEIGHT and not (count.change or count.per or count.running or count.approximate)
    if not plain or made is None or told != made or len(c.frames) > 1 or told <= 3:
        return None
    off = next((k for k in range(end, len(c.t)) if c.t[k].kind == "foff"), len(c.t))
    if any(t.kind not in _CLOSING for t in c.t[end:off]):
        return None
    step = Make(id=c.id(), span=c.span(start), stitch=count.kind, places=count.number)
    remark = Aside(id=c.id(), span=step.span)
    return [Choice(id=c.id(), span=step.span, question=QUESTION, answers=((step,), (remark,)))]


def _all_placed(c: Cursor) -> bool:
    """Whether the row's stitches, two runs of them at least, were each told where to go."""
    made = [step for step in c.out if isinstance(step, (Make, Together))]
    told = [t.start for t in c.t if t.kind in ("in", "next", "over", "around")]
    return len(made) > 1 and all(any(step.span.start <= at < step.span.end for at in told) for step in made)


def _stitches_made(steps: Sequence[Step]) -> int | None:
    """How many stitches steps make, chains not counted; None where some go on to the end, or as far as is not told in numbers."""
    made = made_of(steps)
    return None if made is None else sum(number for kind, number in made.items() if not kind.startswith(("ch", "sp")))
