"""How sure each difference is in the light of the whole film: a speaker slips once; what she does again and again is her way of telling.

Every rule adds to the log-odds of a difference. The weights are ours, taken from what was right and what was wrong at first sight in 94
narrations of our own (docs/teach.md): there 1 of 17 names of the other terms was a slip where a film had more than one, and none of nine
rows never said beside another that was never said either.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from .findings import Heard, plus
from .row_slips import never_said
from .units import Unit

TWICE, OFTEN = -1.2, -2.5
"""Names of the other terms in two rows, and in more: the speaker mixes them, or explains."""
SEVERAL_ROWS = -0.8
"""A written range of rows unsaid: told in words not known for it, as a rule."""
IN_A_BLOCK = -2.0
"""A row unsaid beside another unsaid: told in another way, or in another order."""
MANY_ROWS = -1.0
"""Three rows or more unsaid: the rows are named in a way that is not understood."""
MANY = -0.35
"""For every difference in a film beyond a few: rather the film is not understood than a speaker slips so often."""
FEW = 4
"""So many slips a film of a few minutes may well have (ours)."""


def judged(found: Sequence[Heard], units: Sequence[Unit]) -> list[Heard]:
    """The same differences, each as sure as the whole film lets it be."""
    sure = [h for h in found if not h.doubtful]
    kinds = Counter(h.kind for h in sure)
    named = len({h.row for h in sure if h.kind == "dialect" and h.row})
    unsaid = {h.message for h in found if h.kind == "row never said"}
    many = max(0, len(sure) - FEW)
    out = []
    for h in found:
        weight = MANY * many
        if h.kind == "dialect" and h.row and named > 1:
            weight += TWICE if named == 2 else OFTEN
        if h.kind == "row never said" and not h.doubtful:
            weight += _unsaid(h, units, unsaid) + (MANY_ROWS if kinds[h.kind] >= 3 else 0.0)
        out.append(replace(h, sure=round(plus(h.sure, weight), 2)) if weight else h)
    return out


def _unsaid(h: Heard, units: Sequence[Unit], unsaid: set[str]) -> float:
    place = next((k for k, unit in enumerate(units) if h.message == never_said(unit)), None)
    if place is None:
        return 0.0
    unit = units[place]
    beside = [units[k] for k in (place - 1, place + 1) if 0 <= k < len(units) and units[k].part == unit.part]
    weight = SEVERAL_ROWS if len(unit.numbers) > 1 else 0.0
    return weight + (IN_A_BLOCK if any(never_said(one) in unsaid for one in beside) else 0.0)
