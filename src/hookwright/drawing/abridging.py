"""Breaking long charts as publishers do: of a run of equal plain rows the first and last are drawn, the rest told in words.

The same of rows that repeat in turn (a cable every fourth row, stripes of three colours): whole repeats are left out, and what stood on
one of them stands on its like, the same row of the last repeat drawn before the break.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from ..working.fabric import How, PartWork, Role, RowWork
from .marks import Gap

SHORTEST_RUN = 9
"""Equal plain rows from which on a run is broken."""
DRAWN_BEFORE = 3
DRAWN_AFTER = 2
LONGEST_PERIOD = 16
"""Rows of a repeat at most."""
FEWEST_OUT = 6
"""Rows that leaving out repeats must save."""
SHORT_PERIOD = 4
"""Repeats of no more rows are drawn twice before the break, longer ones once with two rows of the next."""


@dataclass(frozen=True, slots=True)
class Abridged:
    """`kept`: indexes of the rows to draw; `gaps`: those left out, in runs."""

    kept: tuple[int, ...]
    gaps: tuple[Gap, ...]
    like: dict[int, int] = field(default_factory=dict)
    """Rows left out with whole repeats → the row drawn that is worked stitch for stitch as they are, on the same."""


def abridge(part: PartWork) -> Abridged:
    """Which rows of a part to draw. Left out are plain rows (one stitch on one stitch, like the row before) and whole repeats of rows."""
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
    like: dict[int, int] = {}
    for repeats in _repeats(rows, drop):
        for k, r in enumerate(repeats.rows):
            like[r] = repeats.like[k % len(repeats.like)]
        gaps.append(repeats)
    drop.update(like)
    gaps.sort(key=lambda gap: gap.rows)
    return Abridged(tuple(r for r in range(len(rows)) if r not in drop), tuple(gaps), like)


def _repeats(rows: Sequence[RowWork], drop: Collection[int]) -> list[Gap]:
    """Whole repeats of rows that may be left out, from below: the repeat that leaves out most, of those that do the shortest."""
    if any(How.SIDE in row.stitches.foot_how for row in rows):
        return []  # an edging along the row ends needs all of them
    told = [None if r in drop or rows[r].number is None or rows[r].foundation else _told(rows[r]) for r in range(len(rows))]
    found: list[Gap] = []
    start = 0
    while start < len(rows):
        best: range | None = None
        period = 0
        for p in range(1, min(LONGEST_PERIOD, (len(rows) - start) // 2) + 1):
            end = start
            while end + p < len(rows) and told[end] is not None and told[end] == told[end + p]:
                end += 1
            stretch = end + p - start if end > start else 0
            before = 2 * p if p <= SHORT_PERIOD else p + 2
            out = (stretch - max(before, 4) - max(min(p, SHORT_PERIOD), 2)) // p * p
            if out >= FEWEST_OUT and (best is None or out > len(best)):
                best, period = range(start + max(before, 4), start + max(before, 4) + out), p
        if best is None:
            start += 1
            continue
        like = tuple(range(best.start - period, best.start))
        found.append(Gap(rows=tuple(best), words=_repeat_words(rows, best, like), like=like))
        start = best.stop
    return found


def _told(row: RowWork) -> tuple[object, ...]:
    """A row in terms of itself and of how far back it stands: equal rows are worked alike, on the same, from the same side."""
    made = row.stitches
    arrays = (made.kind, made.feet, made.foot_back, made.foot_at, made.colour)
    below = None if row.below is None else row.index - row.below
    seen = (row.side, row.made_in, below, made.names, made.colours, made.role, made.foot_how, tuple(sorted(made.stands.items())))
    return *seen, *(array.tobytes() for array in arrays)


def _repeat_words(rows: Sequence[RowWork], out: range, like: Sequence[int]) -> str:
    times = len(out) // len(like)
    return f"{_span(rows[out[0]], rows[out[-1]])}: {times} times {_span(rows[like[0]], rows[like[-1]])}"


def _span(first: RowWork, last: RowWork) -> str:
    """Two rows as a span: "Rows 4-9"."""
    noun = first.label.rpartition(" ")[0] or "Row"
    return f"{noun}s {first.number}-{last.number}" if last is not first else f"{noun} {first.number}"


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
