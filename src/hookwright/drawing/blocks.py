"""Pieces worked from corner to corner as publishers draw them: a grid of blocks whose rows lean, each block a chain at its side and tall
stitches that spread from one place, at right angles to those of the row before.

Seen from the right side a right-side row runs from the lower right to the upper left: its blocks stand upright, their chain at the right,
worked first. The next row stands on those chains: its blocks lie on their side, from top to bottom, their chain above.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..measuring import Tile, tiles_of
from ..working.fabric import Role, RowWork
from .arcs import Oval, Point
from .cloth import Line
from .placed import Placed
from .spacing import pitch_of
from .symbols import CHAIN_MM, height_mm

BESIDE_MM = 2.2
"""What a block is wider than its tall stitches are high."""
INSET_MM = 0.95
"""From the edge of a block to the middle of the chain along it."""
FIRST_MM, LAST_MM = 3.0, 1.35
"""From the chain's edge to the first tall stitch, and from the last one to the other edge."""
LEAST_MM = 2.5
"""The least distance between the tops of a block's stitches."""
SPREAD = 0.55
"""Stitches in one place: how far apart their feet stand, against their tops."""
DOT_STEP_MM = 1.6
"""From one slip stitch to the next into the same chain."""
DOT_MM = 0.65
"""A slip stitch over a tall stitch lies so far above its top."""


def grows_from_a_corner(lines: Sequence[Line]) -> bool:
    """Whether a part is made of blocks worked from corner to corner, and of nothing else."""
    rows = [line.row for line in lines]
    found = tiles_of(rows, 1.0)
    return found is not None and all(row.foundation or found.of_row(row.index) for row in rows)


class _Cell:
    """A block's place: `at(a, b)` is the point a millimetres along its row from where the block begins, b above its foot."""

    def __init__(self, tile: Tile, row: RowWork, side: float) -> None:
        self.tile, self.side = tile, side
        upright = row.side == "RS"
        self.begin = ((tile.column + 1) * side, tile.line * side) if upright else (tile.column * side, (tile.line + 1) * side)
        self.along: Point = (-1.0, 0.0) if upright else (0.0, -1.0)
        self.up: Point = (0.0, 1.0) if upright else (1.0, 0.0)

    def at(self, a: float, b: float) -> Point:
        (x, y), (ax, ay), (ux, uy) = self.begin, self.along, self.up
        return x + a * ax + b * ux, y + a * ay + b * uy

    def angle_up(self) -> float:
        return math.degrees(math.atan2(self.up[1], self.up[0]))


def place_blocks(lines: list[Line]) -> Placed:
    """Set every block in its place in the grid."""
    found = tiles_of([line.row for line in lines], 1.0)
    assert found is not None
    pitch = pitch_of([kind for line in lines for kind in set(line.kinds)])
    placed = Placed(lines=lines, pitch=pitch, form="blocks", out=lambda _: (0.0, 1.0))
    tall = max(height_mm(line.kinds[e]) for line in lines for e in line.posts)
    side = max(tall + BESIDE_MM, FIRST_MM + LAST_MM + 2 * LEAST_MM)
    cells: dict[int, list[_Cell]] = {}
    for line in lines:
        cells[line.index] = [_Cell(tile, line.row, side) for tile in found.of_row(line.row.index)]
    for line in lines:
        line.rightwards = line.row.side == "WS"
        begin = _beginning(line, cells[line.index])
        if begin is not None:
            placed.begins[line.index] = begin
        for k, cell in enumerate(cells[line.index]):
            _lay_block(placed, line, cell, first=k == 0 and line.index == 1 and lines[0].foundation)
        _lay_between(placed, line, cells)
        placed.place_the_rest(line)
    return placed


def _lay_block(placed: Placed, line: Line, cell: _Cell, *, first: bool) -> None:
    """One block; the very first stands on the chain that the piece begins with."""
    tile, side = cell.tile, cell.side
    below = placed.lines[0] if first else line
    own = list(range(len(below))) if first else list(range(tile.chain[0] - tile.base, tile.chain[0]))
    n = len(tile.stitches)
    step = (side - FIRST_MM - LAST_MM) / max(n - 1, 1)
    for k, e in enumerate(own):
        x, y = cell.at(side - LAST_MM - k * (side - FIRST_MM - LAST_MM) / max(len(own) - 1, 1), INSET_MM)
        long = min(CHAIN_MM, step - 0.3)
        _chain(placed, below, e, Oval(x, y, cell.angle_up() + 90, long), (x + cell.up[0] * 0.72, y + cell.up[1] * 0.72))
    low = 2 * INSET_MM if own else 1.0
    chains = range(*tile.chain)
    share = (side - 0.5 - low) / max(len(chains), 1)
    for k, e in enumerate(chains):
        x, y = cell.at(INSET_MM, low + share * (k + 0.5))
        _chain(placed, line, e, Oval(x, y, cell.angle_up(), min(CHAIN_MM, share - 0.3)), (x, y))
    middle = FIRST_MM + step * (n - 1) / 2
    for k, e in enumerate(tile.stitches):
        a = FIRST_MM + step * k
        foot = a if own else middle + (a - middle) * SPREAD
        placed.feet[line.index][e] = (cell.at(foot, INSET_MM + 0.8 if own else 0.1),)
        placed.top[line.index][e] = cell.at(a, side - 0.5)


def _chain(placed: Placed, line: Line, e: int, oval: Oval, top: Point) -> None:
    placed.ovals[line.index][e] = oval
    placed.top[line.index][e] = top


def _lay_between(placed: Placed, line: Line, cells: dict[int, list[_Cell]]) -> None:
    """Slip stitches: into the chain at a block's side, where the next block begins; or over the stitches of the row's last block."""
    under = cells.get(line.index - 1, [])
    met: dict[tuple[int, int], int] = {}
    for e in range(len(line)):
        if line.kinds[e] != "sl st" or e in placed.dots[line.index]:
            if line.roles[e] in (Role.START, Role.CHAIN, Role.HANGING) and e not in placed.ovals[line.index] and under:
                x, y = under[-1].at(under[-1].side + INSET_MM, under[-1].side - 1.5)
                _chain(placed, line, e, Oval(x, y, under[-1].angle_up(), 2.4), (x, y))
            continue
        foot = next((foot for foot in line.feet[e] if foot.line >= 0), None)
        below = cells.get(foot.line, []) if foot is not None else []
        cell = next((cell for cell in below if foot is not None and cell.tile.chain[0] <= foot.at < cell.tile.chain[1]), None)
        if foot is None:
            continue
        if cell is not None:
            x, y = _where_the_next_begins(cell)
            again = met[cell.tile.chain] = met.get(cell.tile.chain, -1) + 1
            point = x - cell.up[0] * DOT_STEP_MM * again, y - cell.up[1] * DOT_STEP_MM * again
        else:
            top = placed.top[foot.line][foot.at]
            lying = next((cell for cell in below if foot.at in cell.tile.stitches), None)
            if top is None or lying is None:
                continue
            point = top[0] + lying.up[0] * DOT_MM, top[1] + lying.up[1] * DOT_MM
        placed.dots[line.index][e] = point
        placed.top[line.index][e] = point


def _where_the_next_begins(cell: _Cell) -> Point:
    """The corner of the block that stands on this one's chain: above its beginning, as its own row's next row runs the other way."""
    x, y = cell.at(0.0, cell.side)
    return x - cell.up[0] * INSET_MM, y - cell.up[1] * INSET_MM


def _beginning(line: Line, cells: Sequence[_Cell]) -> tuple[Point, Point] | None:
    """Outside the piece beside a row's first block, and the direction into the piece."""
    if not cells:
        return None
    cell = cells[0]
    if cell.tile.base or line.index <= 1:
        return cell.at(cell.side / 2, 0.0), cell.up
    return cell.at(-0.9, cell.side / 2), cell.along
