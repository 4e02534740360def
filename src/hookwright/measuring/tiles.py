"""Pieces worked from corner to corner: a grid of square blocks whose rows lean 45 degrees to the sides.

Row 1 is one block in a corner; every row is a diagonal. A block is three tall stitches with a chain at their side, and stands beside its
neighbours of the rows below with its stitches at right angles to theirs: rows are turned, and so is the grain from row to row.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise, takewhile
from typing import Final

from ..pattern import FLAT
from ..working.fabric import Role, RowWork, Stitches
from .outline import Point

TALL: Final = frozenset({"hdc", "dc", "tr"})
A_BLOCK: Final = 3
"""Tall stitches of a block."""
LEAST_CHAIN, LEAST_ROWS = 2, 3
SIDE_CHAIN: Final = 0.5
"""What the chain at the side of a block adds to its width, in stitches: half as thick as a post (from memory)."""
IN_BLOCKS: Final = frozenset({"block", "blocks", "tile", "tiles", "square", "squares"})
"""What a gauge of blocks is told in."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One block: its row (index), its place in the grid (column from the left, line from below, right side facing), its elements.

    `chain` the first and one past the last element of the chain at its side, `stitches` its tall stitches; `base` the chains of its own
    that it stands on (0: it stands on the block below).
    """

    row: int
    column: int
    line: int
    chain: tuple[int, int]
    stitches: tuple[int, ...]
    base: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiles:
    """All blocks of a part, in worked order; `side_cm` of one."""

    tiles: tuple[Tile, ...]
    side_cm: float

    @property
    def columns(self) -> int:
        return max(tile.column for tile in self.tiles) + 1

    @property
    def lines(self) -> int:
        return max(tile.line for tile in self.tiles) + 1

    def of_row(self, index: int) -> list[Tile]:
        return [tile for tile in self.tiles if tile.row == index]

    def outline(self) -> tuple[Point, ...]:
        """The outline as a closed polygon in cm, anticlockwise from the lower left corner of the first block.

        The edges of blocks that no other block lies at, end to end; where two ways lead on (blocks that touch by a corner only), the one
        to the right is taken, so that the polygon does not cross itself.
        """
        held = {(tile.column, tile.line) for tile in self.tiles}
        ways: dict[tuple[int, int], list[tuple[int, int]]] = {}
        for c, k in sorted(held):
            for beside, a, b in (
                ((c, k - 1), (c, k), (c + 1, k)), ((c + 1, k), (c + 1, k), (c + 1, k + 1)),
                ((c, k + 1), (c + 1, k + 1), (c, k + 1)), ((c - 1, k), (c, k + 1), (c, k)),
            ):  # fmt: skip
                if beside not in held:
                    ways.setdefault(a, []).append(b)
        start = (self.tiles[0].column, self.tiles[0].line)
        path = [start]
        while ways.get(path[-1]):
            on = ways[path[-1]]
            before = path[-2] if len(path) > 1 else path[-1]
            on.sort(key=lambda to: _turn(before, path[-1], to))
            path.append(on.pop(0))
            if path[-1] == start:
                break
        corners = [b for a, b, c in zip([path[-2], *path[:-2]], path[:-1], path[1:], strict=True) if _turn(a, b, c)]
        return tuple((x * self.side_cm, y * self.side_cm) for x, y in corners)


def _turn(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int]) -> int:
    """Negative where the way a, b, c turns right, positive where left."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def tiles_of(rows: Sequence[RowWork], side_cm: float) -> Tiles | None:
    """The grid of blocks that rows make; None for rows that are not worked so.

    Every row is a diagonal with one block more than the row before, as many, or one less. A row that begins with a block on a chain of its
    own grows where it begins; of as many blocks it then loses one at its end. Right-side rows run from the lower right to the upper left.
    """
    every = [row for row in rows if not row.foundation]
    found = list(takewhile(bool, (_blocks(row.stitches) for row in every)))
    worked, after = every[: len(found)], every[len(found) :]
    if len(worked) < LEAST_ROWS or len(found[0]) != 1:
        return None
    if any(row.made_in not in FLAT for row in worked) or any(row.made_in in FLAT for row in after):
        return None  # what follows the blocks may go round them, and nothing else
    counts = [len(blocks) for blocks in found]
    if any(b - a not in (1, 0, -1) for a, b in pairwise(counts)) or max(counts) < 2:
        return None
    made: list[Tile] = []
    left, r = 0, 0
    for i, (row, blocks) in enumerate(zip(worked, found, strict=True)):
        own = _stands_alone(row.stitches, blocks[0][1])
        if i:
            grown = counts[i] - counts[i - 1]
            begins_right = row.side == "RS"
            left += 1 if grown < 0 or (grown == 0 and own == begins_right) else 0
            r += 1
        columns = range(left, left + len(blocks))
        for column, (chain, tall) in zip(reversed(columns) if row.side == "RS" else columns, blocks, strict=True):
            base = _own_chains(row.stitches, chain[0]) if _stands_alone(row.stitches, tall) else 0
            made.append(Tile(row.index, column, r - column, chain, tall, base))
    low = min(tile.line for tile in made)
    return Tiles(
        tiles=tuple(Tile(t.row, t.column, t.line - low, t.chain, t.stitches, t.base) for t in made), side_cm=side_cm
    )  # fmt: skip


def _blocks(st: Stitches) -> list[tuple[tuple[int, int], tuple[int, ...]]]:
    """(chain, tall stitches) of every block of a row: a run of chains with exactly three tall stitches after it; none of any other row."""
    chains = frozenset({Role.CHAIN, Role.START, Role.START_TOP})
    kinds = ["ch" if st.role[e] in chains else "" if st.role[e] == Role.HANGING else st.name(e) for e in range(len(st))]
    runs = [(kind, [e for e, _ in group]) for kind, group in groupby(enumerate(kinds), key=lambda pair: pair[1])]
    out: list[tuple[tuple[int, int], tuple[int, ...]]] = []
    for (kind, run), (after, tall) in pairwise(runs):
        if kind == "ch" and len(run) >= LEAST_CHAIN and after in TALL and len(tall) == A_BLOCK:
            out.append(((run[0], run[-1] + 1), tuple(tall)))
    spare = sum(len(run) for kind, run in runs if kind not in ("", "ch", "sl st")) - A_BLOCK * len(out)
    return out if spare == 0 else []


def _stands_alone(st: Stitches, tall: Sequence[int]) -> bool:
    """Whether a block stands on a chain of its own row, and on no block below."""
    return all(back == 0 for e in tall for back, _, _ in st.feet_of(e))


def _own_chains(st: Stitches, first: int) -> int:
    """The chains right before a block's own that it stands on."""
    n = 0
    while first - n > 0 and st.role[first - n - 1] == Role.HANGING:
        n += 1
    return n


def block_cm(width_cm: float, height_cm: float) -> float:
    """The side of a block of stitches so wide and so tall: its two sides evened out, since neighbours lie at right angles.

    >>> round(block_cm(0.7, 1.4), 3)
    1.925
    """
    return ((A_BLOCK + SIDE_CHAIN) * width_cm + height_cm) / 2
