"""A group told once for several places: "(2 dc, ch 2, 2 dc) in same sp and in each ch-2 sp around"."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Step, Together
from .cursor import Cursor
from .places import PREPS, spot

EXAMPLES = (
    ("(sc, ch 3, sc) in same sp and in each ch-2 sp around", "{sc, ch3, sc}@same sp, {sc, ch3, sc}×rest@next ch-2 sp"),
    ("(dc, ch 1, dc) in first ch-2 sp and each ch-2 sp around", "{dc, ch1, dc}@first ch-2 sp, {dc, ch1, dc}×rest@next ch-2 sp"),
    ("shell in same st and in next 3 sts", "shell{}@same st, shell{}×3"),
)
_NEW_WORK = frozenset(("st", "n", "work", "ch", "(", "grp", "inc", "dec"))


def and_elsewhere(c: Cursor, steps: list[Step]) -> list[Step]:
    """The steps, and their last group again in every further place that the words go on to name."""
    group = steps[-1] if steps else None
    while isinstance(group, Together) and c.kind == "and" and (c.look().kind in PREPS or c.look().kind in ("each", "next")):
        begin = c.i
        c.i += 1
        found = spot(c, bare=c.kind not in PREPS)
        if found is None or c.kind in _NEW_WORK:
            c.i = begin
            break
        again = replace(group, id=c.id(), span=c.span(begin), at=found.at, places=found.places, but=found.but, upto=found.upto)
        steps = [*steps, again]
    return steps
