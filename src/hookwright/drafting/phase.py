"""Where the first row begins against the outline asked: up to half a row lower or higher, so that its tips fall in the middle of a row.

A row cut square is as high at its end as in its middle. Where an edge runs out to a tip and back by s stitches a row, the row that holds
the tip reaches it only if the tip lies in the middle of the row's height: its corners are then half a row from the outline. A tip that
lies e rows from there leaves a corner s × e stitches too far out, unless a whole stitch happens to end so much nearer. So of all
beginnings within half a row, of the numbers of rows nearest to the length, and of the places where a stitch may begin, the first is taken
that leaves no corner out, or least of it. Slanted rows need none of this.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from .outline import Side

_GRID = 24
"""Places tried to half a row on either side."""
_KEPT = 5
"""Beginnings kept for each number of rows: what they leave out is reckoned at the tips alone, and a later one may come out better."""
_OFF = 0.4
"""What it costs, in stitches at a tip, to begin elsewhere than the width asked would have it: the piece comes out up to a stitch off."""


@dataclass(frozen=True, slots=True)
class Tip:
    """A turn of an edge: its place and height, and by how many stitches a row the edge comes to it and leaves it.

    `way`: +1 where the edge is farthest right, −1 where it is farthest left.
    """

    x: float
    at: float
    way: int
    comes: float
    leaves: float


@dataclass(frozen=True, slots=True)
class Phase:
    """So many rows, the first begun `low` rows above the lowest corner asked (below it when less than nothing), stitches from `off`."""

    rows: int
    low: float
    off: float


def tips_of(side: Side, outward: int, most: int) -> list[Tip]:
    """The turns of an edge (in stitches and rows) that rows can miss: the steep ones, and an outward end at either end of the piece."""
    corners = side.corners
    bottom, top = corners[0][1], corners[-1][1]
    found = []
    for k, (x, y) in enumerate(corners):
        into = _run(side, x, y, -1.0) if y > bottom + 1e-9 else 0.0
        out = _run(side, x, y, 1.0) if y < top - 1e-9 else 0.0
        if y <= bottom + 1e-9:
            turn = (k == 0 and out * outward < 0) or (k > 0 and corners[k - 1][1] == y and out * outward < 0)
            into = 0.0
        elif y >= top - 1e-9:
            turn, out = into * outward < 0, 0.0
        else:
            turn = into * out >= 0 and (into or out) != 0
        steep = max(abs(into), abs(out)) > most or (y <= bottom + 1e-9 and abs(out) > 0.5)
        if turn and steep:
            found.append(Tip(x, y, -1 if into + out > 0 else 1, abs(into), abs(out)))
    return found


def _run(side: Side, x: float, y: float, rows: float) -> float:
    """How far the edge lies from `x` half a row below (rows < 0) or above y, taken for a whole row."""
    here = side.at(y + rows / 2) if rows < 0 else side.at(y + rows / 2, above=True)
    return 2 * (here - x)


def phases(tips: list[Tip], height: float, rows: list[int], offs: list[float], *, within: float = 0.5) -> list[Phase]:
    """The ways to lay rows over a piece `height` rows long that are worth planning, the best first.

    `rows`: the numbers of rows there may be, `offs`: where a stitch may begin, the best first.
    """
    found: list[tuple[float, Phase]] = []
    for rank, n in enumerate(rows):
        lowest, highest = max(-within, height - n - within), min(within, height - n + within)
        if lowest > highest + 1e-9:
            continue
        lows = _lows(tips, lowest, highest)
        farther = 0.2 if abs(n - height) > 0.5 + 1e-9 else 0.0
        for some, dear in ((offs[:1], 0.0), (offs[1:], _OFF)):
            tried = [(_missed(tips, n, low, off) + 0.02 * abs(low), low, off) for low in lows for off in some]
            for price, low, off in _apart(tried):
                found.append((price + farther + dear + 0.001 * rank, Phase(n, low, off)))
    found.sort(key=lambda entry: entry[0])
    return [phase for _, phase in found]


def _apart(tried: list[tuple[float, float, float]]) -> list[tuple[float, float, float]]:
    """The best few beginnings, none nearer to another than a twentieth of a row."""
    kept: list[tuple[float, float, float]] = []
    for entry in sorted(tried, key=lambda entry: entry[0]):
        if all(abs(entry[1] - other[1]) >= 0.05 for other in kept):
            kept.append(entry)
        if len(kept) == _KEPT:
            break
    return kept


def _lows(tips: list[Tip], lowest: float, highest: float) -> list[float]:
    """Beginnings to try: an even grid, none at all, and those that put a tip into the middle of a row."""
    middles = [(tip.at + 0.5) % 1.0 for tip in tips]
    exact = [m - 1.0 if m > 0.5 else m for m in middles]
    grid = [lowest + (highest - lowest) * k / _GRID for k in range(_GRID + 1)]
    return [low for low in dict.fromkeys([0.0, *exact, *grid]) if lowest - 1e-9 <= low <= highest + 1e-9]


def _missed(tips: list[Tip], rows: int, low: float, off: float) -> float:
    """The most stitches by which a row that holds a tip stands out at one of its corners, or short of the tip."""
    worst = 0.0
    for tip in tips:
        up = tip.at - low
        row = min(max(0.0, up - 1e-9) // 1.0, rows - 1.0)
        past = up - (row + 0.5)
        short = past * tip.comes if past > 0 else -past * tip.leaves
        nearest, farthest = sorted((tip.x - tip.way * (short - 0.5), tip.x - tip.way * 0.5))
        stitch = min(max(round((nearest + farthest) / 2 - off), ceil(nearest - off - 1e-9)), floor(farthest - off + 1e-9)) + off
        worst = max(worst, nearest - stitch, stitch - farthest, min(short - 1.0, 1.0))
    return max(0.0, worst)


__all__ = ["Phase", "Tip", "phases", "tips_of"]
