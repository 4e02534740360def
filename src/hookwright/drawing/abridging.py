"""Breaking long charts as publishers do: of a run of equal plain rows the first and last are drawn, the rest told in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..working.fabric import How, PartWork, Role, RowWork
from .marks import Gap

SHORTEST_RUN = 9
"""Equal plain rows from which on a run is broken."""
DRAWN_BEFORE = 3
DRAWN_AFTER = 2


@dataclass(frozen=True, slots=True)
class Abridged:
    """`kept`: indexes of the rows to draw; `gaps`: those left out, in runs."""

    kept: tuple[int, ...]
    gaps: tuple[Gap, ...]


def abridge(part: PartWork) -> Abridged:
    """Which rows of a part to draw. Only plain rows are left out: one stitch on one stitch, like the row before, told apart by nothing."""
    rows = part.rows
    drop: set[int] = set()
    gaps: list[Gap] = []
    start = 0
    while start < len(rows):
        end = start + 1
        while end < len(rows) and _as_before(rows, end):
            end += 1
        plain_from = start + 1
        if end - plain_from >= SHORTEST_RUN:
            out = _even(range(plain_from + DRAWN_BEFORE, end - DRAWN_AFTER))
            drop.update(out)
            gaps.append(Gap(rows=tuple(out), words=_words(rows, out)))
        start = end
    return Abridged(tuple(r for r in range(len(rows)) if r not in drop), tuple(gaps))


def _even(out: range) -> range:
    """An even number of rows, so that the row after the break still faces the way it would."""
    return out if len(out) % 2 == 0 else out[:-1]


def _as_before(rows: Sequence[RowWork], r: int) -> bool:
    """Whether a row repeats the row before stitch for stitch, plainly."""
    row, before = rows[r], rows[r - 1]
    mine, theirs = row.stitches, before.stitches
    if row.foundation or before.foundation or row.below != before.index or len(mine) != len(theirs):
        return False
    if mine.colours != theirs.colours or mine.kind != theirs.kind or mine.names != theirs.names or mine.role != theirs.role:
        return False
    return all(_plainly(row, e) for e in range(len(mine))) and _one_to_one(row)


def _plainly(row: RowWork, e: int) -> bool:
    made = row.stitches
    role = made.role[e]
    if role in (Role.START, Role.START_TOP, Role.JOIN):
        return True
    if role != Role.STITCH or made.feet[e + 1] - made.feet[e] != 1:
        return False
    f = made.feet[e]
    return made.foot_back[f] == 1 and made.foot_how[f] == How.TOP


def _one_to_one(row: RowWork) -> bool:
    made = row.stitches
    ats = [made.foot_at[made.feet[e]] for e in made.counted() if made.feet[e + 1] > made.feet[e]]
    return len(set(ats)) == len(ats)


def _words(rows: Sequence[RowWork], out: Sequence[int]) -> str:
    first, last = rows[out[0]], rows[out[-1]]
    noun, _, number = first.label.rpartition(" ")
    made = ", ".join(f"{n} {kind}" for kind, n in first.counted.made.items())
    span = f"{noun or 'Row'}s {number}-{last.label.rpartition(' ')[2]}" if len(out) > 1 else first.label
    return f"{span}: {made} each" if len(out) > 1 else f"{span}: {made}"
