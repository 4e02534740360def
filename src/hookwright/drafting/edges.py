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
from itertools import groupby
from math import ceil, floor
from typing import Any

from .outline import Side

_PERIOD = 8
"""The longest rhythm of rows that one rate may have. Longer ones fit better and are worse to follow."""
_FAR = 0.02
"""Lines of text that one stitch of distance in one row is worth: enough to choose between equals."""
_STATES = 2500
"""Places looked at before the search takes the nearest stitch in each row that is left."""


@dataclass(frozen=True, slots=True)
class Band:
    """What an edge may be at the top of each row, 1 … rows, in stitches: `low` ≤ place ≤ `high`, `ideal` between them.

    `block[r]`: the edge changes so fast in row r that the row is cut off square (chained on, or left) instead of slanted.
    """

    low: tuple[float, ...]
    high: tuple[float, ...]
    ideal: tuple[float, ...]
    block: tuple[bool, ...]


def band_of(asked: Side, fitted: Side, rows: int, *, most: int, outward: int, tight: frozenset[int] = frozenset()) -> Band:
    """The band of an edge. `asked` and `fitted` are in stitches across and rows along; `fitted` has its corners on whole rows.

    `outward`: +1 for a right edge, −1 for a left one. `tight`: rows whose place must be within half a stitch of `fitted`, whatever half
    a row would allow (corners and the last row). A square row lies half way between its bottom and its top, but where the edge comes
    furthest out it goes all the way: a piece asked 50 cm wide is 50 cm wide, if only for one row.
    """
    low, high, ideal, block = [], [], [], []
    for row in range(1, rows + 1):
        bottom, top = fitted.at(row - 1, above=True), fitted.at(row)
        step = row > 1 and abs(bottom - fitted.at(row - 1)) >= 1.0
        square = step or abs(top - bottom) > most + 0.05
        middle = _square_place(fitted, row, rows, bottom, top, outward) if square else top
        near = [asked.at(y, above=up) for y, up in ((row - 0.45, True), (row, False), (row + 0.45, False))]
        inside = not square and row not in tight
        low.append(min([*near, middle] if inside else [middle]) - 0.5)
        high.append(max([*near, middle] if inside else [middle]) + 0.5)
        ideal.append(middle)
        block.append(square)
    return Band(tuple(low), tuple(high), tuple(ideal), tuple(block))


def _square_place(fitted: Side, row: int, rows: int, bottom: float, top: float, outward: int) -> float:
    if (top - bottom) * outward > 0 and (row == rows or (fitted.at(min(rows, row + 0.5)) - top) * outward <= 0):
        return top
    if (bottom - top) * outward > 0 and row == 1:
        return bottom
    return (bottom + top) / 2


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
        self.turns = np.flatnonzero(np.diff(np.asarray(band.block, int))) + 1
        self.rhythms: dict[tuple[int, ...], tuple[Any, int]] = {}

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
        near = _nearest(self.band, at, row)
        for place in {near, *(p for p in range(near - 1, near + 2) if self.low[row] <= p <= self.high[row])}:
            yield (place,), 1.0 + _FAR * abs(place - float(self.ideal[row]))
        end = next((int(t) for t in self.turns if t > row), self.rows)
        for period in range(1, min(_PERIOD, end - row) + 1):
            for pattern in _patterns(self.band, row, period):
                places = self._hold(row, at, end, pattern)
                full = len(places) - (len(places) % period if row + len(places) < self.rows else 0)
                for length in (full, full - period):
                    if length >= period and length > 1:
                        far = float(abs(places[:length] - self.ideal[row : row + length]).sum())
                        yield places[:length], self._lines(pattern, length) + _FAR * far

    def _hold(self, row: int, at: int, end: int, pattern: tuple[int, ...]) -> Any:
        """The places from `row` on while the rhythm stays inside the band."""
        import numpy as np

        if pattern not in self.rhythms:
            whole = np.tile(np.asarray(pattern), self.rows // len(pattern) + 1)
            self.rhythms[pattern] = (np.cumsum(whole), 0)
        places = at + self.rhythms[pattern][0][: end - row]
        wrong = (places < self.low[row:end] - 1e-9) | (places > self.high[row:end] + 1e-9)
        stop = int(wrong.argmax()) if wrong.any() else end - row
        return places[:stop]

    def _lines(self, pattern: tuple[int, ...], length: int) -> float:
        """How many lines the stretch takes to tell: the rhythm once, and "repeat" where it comes again."""
        period = len(pattern)
        told = period if self.alike or period % 2 == 0 or not any(pattern) else 2 * period
        changes = (pattern * 2)[: min(told, length)]
        words = changes if self.alike else tuple((c, k % 2) if c else (0, 0) for k, c in enumerate(changes))
        return sum(1 for _ in groupby(words)) + (1.0 if length > told and len(set(words)) > 1 else 0.0)


def _nearest(band: Band, at: int, row: int) -> int:
    """The place nearest to the edge, staying where it is when that is as good."""
    ideal = band.ideal[row]
    below, above = floor(ideal), ceil(ideal)
    if abs(ideal - at) <= 0.5:
        return at
    return below if abs(ideal - below) < abs(above - ideal) or (abs(ideal - below) == abs(above - ideal) and at <= below) else above


def _patterns(band: Band, row: int, period: int) -> list[tuple[int, ...]]:
    """The rhythms of `period` rows that fit the slope here: changes spread evenly, in every phase."""
    found: dict[tuple[int, ...], None] = {}
    for slope in _slopes(band, row, period):
        for change in {floor(slope * period), ceil(slope * period)}:
            if period > 1 and _reducible(change, period):
                continue
            steps = [(change * (k + 1)) // period - (change * k) // period for k in range(period)]
            for phase in range(period):
                found[tuple(steps[phase:] + steps[:phase])] = None
    return list(found)


def _slopes(band: Band, row: int, period: int) -> list[float]:
    """The slope of the edge over the next rows, near and further."""
    start = max(0, row - 1)
    slopes = []
    for reach in (2 * period, 6 * period):
        end = min(len(band.ideal) - 1, row + reach)
        slopes.append((band.ideal[end] - band.ideal[start]) / max(1, end - start))
    return slopes


def _reducible(change: int, period: int) -> bool:
    return any(change % d == 0 and period % d == 0 for d in range(2, period + 1))
