"""One edge of a flat piece in whole stitches, row by row: close to the edge asked, in as few simple rates as that allows.

An edge is a staircase of whole stitches. Rounding each row by itself keeps it within half a stitch, but reads as noise: +1 after three
rows, after four, after three … A maker writes "every 4th row, 9 times". So the edge is cut into stretches of one simple rate each (so
many stitches every so many rows), each as long as the staircase stays within half a stitch and half a row of the edge asked. Which
rates, and where one gives way to the next, is a shortest path (Dijkstra): the fewest lines of text, then the least distance.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby, pairwise
from math import ceil, floor
from typing import Any

from .outline import Side

_PERIOD = 8
"""The longest rhythm of rows that one rate may have. Longer ones fit better and are worse to follow."""
_FAR = 0.02
"""Lines of text that one stitch of distance in one row is worth: enough to choose between equals."""
_AHEAD = 48
"""Rows looked ahead at once; the rhythms that hold so long are followed further one by one."""
_PHASES = 3
"""Phases of one rate that are followed: those that hold longest."""
_STATES = 2500
"""Places looked at before the search takes the nearest stitch in each row that is left."""


_STEEPER = 0.005
"""By how much an edge may be steeper than a slanted row before its rows are cut square. After a square row it must be a stitch less steep:
that row ends half a row short of where a slanted one begins."""
_SHORT = 2
"""Stitches by which a row may fall short of a turn of its edge where its own corners would stand out farther."""
_TOO_FAR = 4.0
"""What a slanted row that must be cut square after all costs, in lines of text."""


@dataclass(frozen=True, slots=True)
class Band:
    """What an edge may be at the top of each row, 1 … rows, in stitches: `low` ≤ place ≤ `high`, `ideal` between them.

    `block[r]`: the edge changes so fast in row r that the row is cut off square (chained on, or left) instead of slanted.
    """

    low: tuple[float, ...]
    high: tuple[float, ...]
    ideal: tuple[float, ...]
    block: tuple[bool, ...]
    most: int = 2
    """The most a slanted row moves its edge by (2 = three stitches in one, three together)."""


def band_of(asked: Side, rows: int, *, most: int, outward: int, corners: bool) -> Band:
    """The band of an edge, given in stitches across and rows along.

    `outward`: +1 for a right edge, −1 for a left one. `corners`: the edge has few corners, and at the row nearest to each the place is
    within half a stitch of it. A square row lies half way between its bottom and its top, but where the edge comes furthest out it goes
    all the way: a piece asked 50 cm wide is 50 cm wide, if only for one row.
    """
    tight = _corner_rows(asked, rows, sharp=not corners)
    low, high, ideal = [], [], []
    block: list[bool] = []
    for row in range(1, rows + 1):
        bottom, top, stepped = _row_edge(asked, row)
        square = stepped or abs(top - bottom) > most + _STEEPER or _turns_within(asked, row, bottom, most)
        if square:
            place = _square_place(asked, row, rows, bottom, top, outward)
            least, greatest = (place - 0.5, place + 0.5) if stepped else square_room(asked, row, place)
        elif row in tight:
            place = tight[row]
            least, greatest = place - 0.5, place + 0.5
        else:
            place = top
            near = [place, *(_row_value(asked, row, y) for y in (row - 0.45, row + 0.45))]
            least, greatest = min(near) - 0.5, max(near) + 0.5
        low.append(least)
        high.append(greatest)
        ideal.append(place)
        block.append(square)
    return Band(tuple(low), tuple(high), tuple(ideal), tuple(block), most)


def square_room(side: Side, row: int, place: float) -> tuple[float, float]:
    """Where a square row may stand: within half a stitch of its place, both its corners within half a row of the edge, if any is."""
    below, above = side.span(row - 1.5, row - 0.5), side.span(row - 0.5, row + 0.5)
    low = max(below[0], above[0], place) - 0.5
    high = min(below[1], above[1], place) + 0.5
    return (low, high) if ceil(low - 1e-9) <= high + 1e-9 else (place - 0.5, place + 0.5)


def _row_edge(side: Side, row: int) -> tuple[float, float, bool]:
    """The edge at the bottom and the top of a row, and whether a step lies at its bottom; steps are moved to the nearest row line."""
    steps = [(y, a, b) for y, a, b in _steps(side) if row - 1.5 <= y < row + 0.5]
    bottom, top = side.at(row - 1, above=True), side.at(row)
    stepped = False
    for y, below, above in steps:
        if y < row - 0.5:
            stepped = stepped or abs(above - below) >= 1.0
            if y >= row - 1:
                bottom = above
        elif y <= row:
            top = below
    return bottom, top, stepped and row > 1


def _row_value(side: Side, row: int, y: float) -> float:
    """The edge at height y near the top of a row, not beyond a step there."""
    for at, below, above in _steps(side):
        if row - 0.5 <= at <= y:
            return below
        if y <= at < row - 0.5:
            return above
    return side.at(y)


@lru_cache(maxsize=64)
def _steps(side: Side) -> list[tuple[float, float, float]]:
    """(height, place below, place above) of every level stretch between two risers."""
    c = side.corners
    found: list[tuple[float, float, float]] = []
    for (x0, y0), (x1, y1) in pairwise(c):
        if abs(y1 - y0) < 1e-9 and abs(x1 - x0) > 1e-9:
            if found and abs(found[-1][0] - y0) < 1e-9:
                found[-1] = (y0, found[-1][1], x1)
            else:
                found.append((y0, x0, x1))
    return found


def _corner_rows(side: Side, rows: int, *, sharp: bool) -> dict[int, float]:
    """Row nearest to each corner that is no step, and where the corner lies; the last row and the end of the edge among them.

    `sharp`: only corners where the edge turns back.
    """
    levels = {y for y, _, _ in _steps(side)}
    found: dict[int, float] = {}
    for x, y in side.corners:
        row = min(rows, ceil(y - 0.5 - 1e-6))
        if row >= 1 and y not in levels and not (sharp and not _turns_at(side, x, y)):
            found[row] = x
    found[rows] = side.corners[-1][0]
    return found


def _square_place(side: Side, row: int, rows: int, bottom: float, top: float, outward: int) -> float:
    """Where a square row stands: where the edge is at half its height, but all the way to a turn of the edge that it holds."""
    turns = [x for x, y in side.corners if row - 1 < y <= row and _turns_at(side, x, y)]
    if turns:
        return _at_turn(side, row, max(turns, key=lambda x: abs(x - (bottom + top) / 2)))
    if row == rows and (side.corners[-1][0] - bottom) * outward > 0:
        return side.corners[-1][0]
    if (bottom - top) * outward > 0 and row == 1:
        return bottom
    return side.at(row - 0.5)


def _at_turn(side: Side, row: int, tip: float) -> float:
    """Where a square row that holds a turn stands: all the way to it, or the whole stitch short of it whose corners stand out least."""
    if max(_apart(side, tip, row - 1), _apart(side, tip, row)) <= 0.5:
        return tip
    near = range(floor(tip) - _SHORT, ceil(tip) + _SHORT + 1)
    return float(min(near, key=lambda x: (max(abs(x - tip), _apart(side, x, row - 1), _apart(side, x, row)), abs(x - tip))))


def _apart(side: Side, x: float, y: float) -> float:
    """How far a corner lies from the edge, in stitches across or rows along, whichever is more; to a twentieth, one at the most."""
    for k in range(1, 20):
        low, high = side.span(y - k / 20, y + k / 20)
        if low - k / 20 <= x <= high + k / 20:
            return k / 20
    return 1.0


def _turns_within(side: Side, row: int, bottom: float, most: int) -> bool:
    """Whether a row holds a turn that the edge comes to faster than a slanted row can follow."""
    held = ((x, y) for x, y in side.corners if row - 1 < y < row)
    return any(abs(x - bottom) > (most + _STEEPER) * (y - row + 1) and _turns_at(side, x, y) for x, y in held)


def _turns_at(side: Side, x: float, y: float) -> bool:
    """Whether the edge goes the same way from a corner down as up."""
    below, above = side.at(y - 0.25) - x, side.at(y + 0.25, above=True) - x
    return below * above > 0


def plan_edge(band: Band, first: int, *, alike: bool = False) -> tuple[int, ...]:
    """The whole-number place of the edge at the top of every row. `first`: where it starts, at the foundation.

    `alike`: the other edge does the same in the same row, so that a rhythm of an odd number of rows reads as it stands; else the edge
    lies at the end of one row and at the beginning of the next, and an odd rhythm takes twice its rows to be told.
    """
    search = _Search(band, alike)
    return search.path(first)


class _Search:
    """The shortest path from the foundation to the last row, over (row, place of the edge)."""

    def __init__(self, band: Band, alike: bool) -> None:
        import numpy as np

        self.band = band
        self.rows = len(band.ideal)
        self.alike = alike
        self.low, self.high, self.ideal = (np.asarray(values) for values in (band.low, band.high, band.ideal))
        self.rhythms: dict[int, tuple[int, tuple[tuple[int, int], ...]]] = {}
        self.turns = np.flatnonzero(np.diff(np.asarray(band.block, int))) + 1

    def path(self, first: int) -> tuple[int, ...]:
        queue: list[tuple[float, int, int]] = [(0.0, 0, first)]
        cost = {(0, first): 0.0}
        came: dict[tuple[int, int], tuple[int, int, tuple[int, ...]]] = {}
        done: set[tuple[int, int]] = set()
        while queue and len(done) < _STATES:
            spent, negative_row, at = heapq.heappop(queue)
            row = -negative_row
            if (row, at) in done:
                continue
            done.add((row, at))
            if row == self.rows:
                return self._walked(came, row, at)
            for places, price in self._moves(row, at):
                there = (row + len(places), int(places[-1]))
                if spent + price < cost.get(there, float("inf")) - 1e-12:
                    cost[there] = spent + price
                    came[there] = (row, at, tuple(int(p) for p in places))
                    heapq.heappush(queue, (cost[there], -there[0], there[1]))
        row, at = max(came) if came else (0, first)
        return (*self._walked(came, row, at), *self._rounded(row, at))

    def _walked(self, came: dict[tuple[int, int], tuple[int, int, tuple[int, ...]]], row: int, at: int) -> tuple[int, ...]:
        stretches: list[tuple[int, ...]] = []
        while row:
            row, at, places = came[row, at]
            stretches.append(places)
        return tuple(p for places in reversed(stretches) for p in places)

    def _rounded(self, row: int, at: int) -> Iterator[int]:
        for k in range(row, self.rows):
            at = _nearest(self.band, at, k)
            yield at

    def _moves(self, row: int, at: int) -> Iterator[tuple[Sequence[int], float]]:
        """(places, price) of every way on: one step, or a stretch of one rhythm as far as it holds."""
        import numpy as np

        near = _nearest(self.band, at, row)
        for place in {near, *(p for p in range(near - 2, near + 3) if self.low[row] <= p <= self.high[row])}:
            fits = self.band.block[row] or abs(place - at) <= self.band.most
            if place == near or fits:
                yield (place,), (1.0 if fits else _TOO_FAR) + _FAR * abs(place - float(self.ideal[row]))
        end, keys = self._rhythms(row)
        if not keys:
            return
        patterns, table = _table(keys)
        width = min(end - row, table.shape[1])
        places = table[:, :width] + at
        good = (places >= self.low[row : row + width] - 1e-9) & (places <= self.high[row : row + width] + 1e-9)
        stops = np.where(good.all(axis=1), width, good.argmin(axis=1))
        for k in _best_phases(patterns, stops):
            pattern, run = patterns[k], places[k, : stops[k]]
            if stops[k] == width and row + width < end:
                run = self._hold(row, at, end, pattern)
            yield from self._stretches(row, pattern, run)

    def _rhythms(self, row: int) -> tuple[int, tuple[tuple[int, int], ...]]:
        """The row that a stretch from `row` on ends at, and the (period, change) of the rates that may hold there."""
        if row not in self.rhythms:
            end = next((int(t) for t in self.turns if t > row), self.rows)
            steepest = self.rows * 10**6 if self.band.block[row] else self.band.most
            self.rhythms[row] = (
                end,
                tuple(
                    (period, change)
                    for period in range(1, min(_PERIOD, end - row) + 1)
                    for period, change in _rates(self.band, row, period)
                    if abs(change) <= steepest * period
                ),
            )
        return self.rhythms[row]

    def _stretches(self, row: int, pattern: tuple[int, ...], run: Any) -> Iterator[tuple[Sequence[int], float]]:
        """A held rhythm as it may be used: whole, or one period shorter."""
        period = len(pattern)
        full = len(run) - (len(run) % period if row + len(run) < self.rows else 0)
        for length in (full, full - period):
            if length >= period and length > 1:
                far = float(abs(run[:length] - self.ideal[row : row + length]).sum())
                yield run[:length], self._lines(pattern, length) + _FAR * far

    def _hold(self, row: int, at: int, end: int, pattern: tuple[int, ...]) -> Any:
        """The places from `row` on while the rhythm stays inside the band."""
        import numpy as np

        places = at + np.cumsum(np.tile(np.asarray(pattern), (end - row) // len(pattern) + 1))[: end - row]
        wrong = (places < self.low[row:end] - 1e-9) | (places > self.high[row:end] + 1e-9)
        stop = int(wrong.argmax()) if wrong.any() else end - row
        return places[:stop]

    def _lines(self, pattern: tuple[int, ...], length: int) -> float:
        """How many lines the stretch takes to tell: the rhythm once, and "repeat" where it comes again."""
        period = len(pattern)
        told = period if self.alike or period % 2 == 0 or not any(pattern) else 2 * period
        return _told_lines(pattern, min(told, length), length > told, self.alike)


@lru_cache(maxsize=4096)
def _told_lines(pattern: tuple[int, ...], told: int, again: bool, alike: bool) -> float:
    changes = (pattern * 2)[:told]
    words = changes if alike else tuple((c, k % 2) if c else (0, 0) for k, c in enumerate(changes))
    return sum(1 for _ in groupby(words)) + (1.0 if again and len(set(words)) > 1 else 0.0)


def _rates(band: Band, row: int, period: int) -> list[tuple[int, int]]:
    """(period, change) of the rates that fit the slope here, near and further on."""
    start = max(0, row - 1)
    found: dict[tuple[int, int], None] = {}
    for reach in (2 * period, 6 * period):
        end = min(len(band.ideal) - 1, row + reach)
        slope = (band.ideal[end] - band.ideal[start]) / max(1, end - start)
        for change in (floor(slope * period), ceil(slope * period)):
            if period == 1 or not _reducible(change, period):
                found[period, change] = None
    return list(found)


@lru_cache(maxsize=2048)
def _table(keys: tuple[tuple[int, int], ...]) -> tuple[tuple[tuple[int, ...], ...], Any]:
    """The rhythms of some rates in every phase, and their running sums, a row each."""
    import numpy as np

    patterns = tuple(dict.fromkeys(p for key in keys for p in _phases(*key)))
    sums = np.array([np.cumsum((pattern * (_AHEAD // len(pattern) + 1))[:_AHEAD]) for pattern in patterns])
    return patterns, sums


@lru_cache(maxsize=2048)
def _phases(period: int, change: int) -> tuple[tuple[int, ...], ...]:
    """One rate spread evenly over its period, begun at every row of it."""
    steps = [(change * (k + 1)) // period - (change * k) // period for k in range(period)]
    return tuple(dict.fromkeys(tuple(steps[phase:] + steps[:phase]) for phase in range(period)))


def _best_phases(patterns: tuple[tuple[int, ...], ...], stops: Any) -> list[int]:
    """The phases of every rate that hold longest."""
    best: dict[tuple[int, int], list[int]] = {}
    for k, pattern in enumerate(patterns):
        if stops[k] >= max(2, len(pattern)):
            best.setdefault((len(pattern), sum(pattern)), []).append(k)
    return [k for group in best.values() for k in sorted(group, key=lambda k: -int(stops[k]))[:_PHASES]]


def _nearest(band: Band, at: int, row: int) -> int:
    """The place nearest to the edge, staying where it is when that is as good."""
    ideal = band.ideal[row]
    below, above = floor(ideal), ceil(ideal)
    if abs(ideal - at) <= 0.5:
        return at
    return below if abs(ideal - below) < abs(above - ideal) or (abs(ideal - below) == abs(above - ideal) and at <= below) else above


@lru_cache(maxsize=4096)
def _reducible(change: int, period: int) -> bool:
    return any(change % d == 0 and period % d == 0 for d in range(2, period + 1))
