"""Every element of a row with its width and height: stitches, spaces, togethers, fans, arches of chains."""

from __future__ import annotations

import math
from array import array
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import accumulate

from ..pattern import FLAT
from ..working.fabric import RING_FOOT, How, PartWork, Role, RowWork, Stitches
from .scale import Scale

_WIDE = frozenset({Role.STITCH, Role.START_TOP, Role.CHAIN, Role.FOUNDATION})
_PLAIN_ROLES = frozenset({int(Role.STITCH)})


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """One row laid straight: `width_cm` and `centre_cm` of every element in worked order (the row starts at 0); all arrays of length n.

    `total_cm` is the width of the row, `height_cm` what it adds to the piece, `tail_cm` the length of a chain at its end that only later
    rows work into (an extension: not part of the row's own width).
    """

    width_cm: array[float]
    centre_cm: array[float]
    total_cm: float
    height_cm: float
    tail_cm: float = 0.0
    chain_cm: float = 0.0
    """Length of all chains of the row, as if laid straight."""


_NOTHING = Laid(array("d"), array("d"), 0.0, 0.0)


@dataclass(slots=True)
class Layer:
    """Lays rows out, remembering equal ones (rows share their arrays, so a plain blanket is laid out once)."""

    scale: Scale
    _seen: dict[tuple[int, int], Laid] = field(default_factory=dict)
    _same: dict[tuple[int, bytes], Laid] = field(default_factory=dict)

    def part(self, part: PartWork) -> tuple[Laid, ...]:
        """Every row of a part, laid out; index = row index."""
        laid: list[Laid] = []
        for row in part.rows:
            below = row.below if row.below is not None and 0 <= row.below < len(laid) else None
            if below is not None and is_trace(row, part.rows[below]):
                n = len(row.stitches)
                laid.append(Laid(array("d", bytes(8 * n)), array("d", bytes(8 * n)), 0.0, 0.0))
            else:
                laid.append(self.row(row, laid[below] if below is not None else None))
        return tuple(laid)

    def row(self, row: RowWork, base: Laid | None) -> Laid:
        st = row.stitches
        if not len(st):
            return _NOTHING
        chains = not row.foundation and any(role == Role.CHAIN for role in st.role)
        key = (id(st), id(base) if chains else 0)
        if key in self._seen:
            return self._seen[key]
        made = self._lay(row, (base or _NOTHING) if chains else None)
        made = self._same.setdefault((id(st), made.width_cm.tobytes()), made)
        self._seen[key] = made
        return made

    def _lay(self, row: RowWork, base: Laid | None) -> Laid:
        st = row.stitches
        widths, heights = self._by_kind(st)
        height = 0.0 if row.foundation else _mean(heights, widths, st)
        if base is None:
            centres, total = _centres(widths)
            return Laid(widths, centres, total, height)
        closed = row.made_in not in FLAT
        own = len(st) - (0 if closed else _tail(st))
        rise, chain_cm = _fit_chains(st, widths, base, own, closed)
        centres, total = _centres(widths)
        tail_cm = sum(widths[own:])
        return Laid(widths, centres, total - tail_cm, height + rise, tail_cm, chain_cm + tail_cm)

    def _by_kind(self, st: Stitches) -> tuple[array[float], array[float]]:
        width = [self.scale.width_cm(name) for name in st.names]
        height = [self.scale.height_cm(name) for name in st.names]
        widths = array("d", map(width.__getitem__, st.kind))
        heights = array("d", map(height.__getitem__, st.kind))
        if set(st.role) <= _PLAIN_ROLES:
            return widths, heights
        for i, role in enumerate(st.role):
            if role == Role.START_TOP:
                name = st.name(i)
                widths[i], heights[i] = self.scale.width_cm(name), self.scale.height_cm("dc" if name == "ch" else name)
            elif role not in _WIDE:
                widths[i] = heights[i] = 0.0
        return widths, heights


def is_trace(row: RowWork, below: RowWork) -> bool:
    """Whether a "row" is only a few slip stitches that finish the one below ("next rnd: sl st in next 2 sts"): it has no size."""
    made = row.counted.made
    return row.counted.total > 0 and set(made) == {"sl st"} and 2 * row.counted.total < below.counted.total


def _centres(widths: array[float]) -> tuple[array[float], float]:
    """The middle of every element when they stand side by side from 0, and the whole width."""
    ends = array("d", accumulate(widths))
    return array("d", (end - width / 2 for end, width in zip(ends, widths, strict=True))), ends[-1]


def _tail(st: Stitches) -> int:
    """How many chains stand at the very end of a row."""
    n = 0
    while n < len(st) and st.role[len(st) - 1 - n] == Role.CHAIN:
        n += 1
    return n if n < len(st) else 0


def _mean(heights: array[float], widths: array[float], st: Stitches) -> float:
    """Mean height over the stitches of a row, weighed by their width; stitches that reach further down count as the rest."""
    if len(st.names) == 1 and set(st.role) <= _PLAIN_ROLES:
        return heights[0]
    total = weight = 0.0
    for i, role in enumerate(st.role):
        if role in (Role.STITCH, Role.START_TOP):
            total += heights[i] * widths[i]
            weight += widths[i]
    return total / weight if weight else 0.0


def chain_runs(st: Stitches, end: int) -> Iterator[tuple[int, int]]:
    """(first, one past the last) of each run of chains inside a row, up to `end`."""
    i = 0
    while i < end:
        if st.role[i] != Role.CHAIN:
            i += 1
            continue
        first = i
        while i < end and st.role[i] == Role.CHAIN:
            i += 1
        yield first, i


def _fit_chains(st: Stitches, widths: array[float], base: Laid, end: int, closed: bool) -> tuple[float, float]:
    """Narrow each arch of chains to the room it spans (in place); gives the mean rise of the arches and the length of all chains.

    A run between two stitches that pass over places of the row below can be no wider than what it passes over, and bows upward by what it
    is too long: a shallow arc of length L over span s rises sqrt(3/8 s (L - s)).
    """
    risen = chain_cm = 0.0
    for first, last in chain_runs(st, end):
        length = sum(widths[first:last])
        chain_cm += length
        room = _room(st, widths, base, first, last, closed)
        if room is not None and room < length:
            for i in range(first, last):
                widths[i] *= room / length
            risen += math.sqrt(0.375 * room * (length - room)) * room
    total = sum(widths[:end])
    return (risen / total if total else 0.0), chain_cm


def _room(st: Stitches, widths: array[float], base: Laid, first: int, last: int, closed: bool) -> float | None:
    """The width that a run of chains spans on the row below, or None where it adds width of its own (nothing is passed over)."""
    before = _foot(st, base, first - 1, -1, closed)
    after = _foot(st, base, last, 1, closed)
    if before is None or after is None:
        return None
    apart = abs(after[0] - before[0])
    if closed:
        apart = min(apart, abs(base.total_cm - apart))
    own = (widths[before[1]] + widths[after[1]]) / 2
    return apart - own if apart > 1.5 * own else None


def _foot(st: Stitches, base: Laid, i: int, step: int, closed: bool) -> tuple[float, int] | None:
    """Where the nearest stitch from i on (walking by `step`) stands in the row below, and which stitch it is."""
    for _ in range(len(st)):
        if not 0 <= i < len(st):
            if not closed:
                return None
            i %= len(st)
        if st.role[i] == Role.CHAIN:
            return None
        if st.role[i] in (Role.STITCH, Role.START_TOP):
            for back, at, how in st.feet_of(i):
                if back == 1 and at != RING_FOOT and at < len(base.centre_cm) and how not in (How.SIDE, How.RING):
                    return base.centre_cm[at], i
            return None
        i += step
    return None
