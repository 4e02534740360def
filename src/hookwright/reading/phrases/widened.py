"""More stitches over a run than it has, no place told for those over: "6 dc upon the 4 dc", "3 dc on the 2 dc"."""

from __future__ import annotations

from ...pattern import ONE, Aside, Make, Sized, Step
from .cursor import Cursor
from .shapes import make
from .spots import Spot

EXAMPLES = (
    ("6 dc upon the 4 dc, ch 3", "2dc@next dc, dc×2@next dc, 2dc@next dc, ch3"),
    ("4 dc on the 2 dc, ch 3", "2dc×2@next dc, ch3"),
    ("4 dc upon the 3 dc, 2 being in the first, ch 3", "2dc@next dc, dc×2@next dc, ch3"),
)


def widened(c: Cursor, start: int, kind: str, told: Sized[int] | None, found: Spot) -> list[Step] | None:
    """As many in each as goes evenly; else two in the first and in the last (in the last alone where one is over), as such groups are
    widened (common practice, no source), or where the words say; None where the words are of another kind."""
    if told is None or told.many or not isinstance(found.places, Sized) or found.places.many or found.each or found.at.where != "next":
        return None
    many, run = told.values[0] or 0, found.places.values[0] or 0
    if not found.told or not 1 < run < many or not _upon_the(c, start):
        return None
    if many % run == 0:
        return [make(c, start, kind, each=Sized((many // run,)), found=found)]
    if many - run > 2:
        return None
    first, last = (True, True) if many - run == 2 else _where_told(c)
    plain = Sized((run - first - last,))
    steps: list[Step] = []
    for wanted, each, places in ((first, Sized((2,)), ONE), (plain != Sized((0,)), ONE, plain), (last, Sized((2,)), ONE)):
        if wanted:
            made = make(c, start, kind, each=each, found=Spot(found.at, places))
            assert isinstance(made, Make)
            steps.append(made)
    return steps


def _upon_the(c: Cursor, start: int) -> bool:
    """Whether the place is told as "upon the 4 dc": a run known from the row below."""
    words = c.t[start : c.i]
    return any(a.kind in ("in", "over") and b.kind == "the" and n.kind == "n" for a, b, n in zip(words, words[1:], words[2:], strict=False))


def _where_told(c: Cursor) -> tuple[bool, bool]:
    """Whether the one over goes in the run's first stitch or in its last; the last where nothing is said."""
    end = c.i
    while c.t[end].kind not in (";", ".", "", "*") and end - c.i < 14:
        end += 1
    words = c.t[c.i : end]
    at = next((k for k, token in enumerate(words) if token.kind == "last" or (token.kind == "o" and token.val == 1)), None)
    told = at is not None and any(token.kind in ("in", "over") for token in words[:at]) and not any(t.kind == "ch" for t in words[:at])
    first = told and at is not None and words[at].kind == "o"
    return first, not first


def so_laid(c: Cursor) -> list[Step] | None:
    """ "(7 dc upon the 5 dc,) two being in the first and two in the last", "2 of them in the first": where those told before lie."""
    start = c.i
    if c.look().text.lower() not in ("being", "of", "coming", "falling"):
        return None
    if not isinstance(next((step for step in reversed(c.out) if not isinstance(step, Aside)), None), Make):
        return None
    if c.look().kind == "of" and c.look(2).text.lower() not in ("them", "these", "which"):
        return None
    where = False
    while c.kind in _LAID or c.t[c.i].text.lower() in ("being", "coming", "falling", "them", "these", "which"):
        where = where or c.kind in ("o", "last", "each")
        c.i += 1
    if not where or c.kind not in (",", ";", ".", "", ")", "*"):
        c.i = start
        return None
    return [Aside(id=c.id(), span=c.span(start))]


_LAID = frozenset(("n", "in", "over", "the", "o", "last", "first", "and", "of", "each", "end", "st", "noun", "w", "work"))
