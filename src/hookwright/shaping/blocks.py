"""Pieces worked from corner to corner as cloth: every block in its place in the grid, its stitches at right angles to its neighbours'."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from ..measuring import PartMeasures, Tile, Tiles
from .cloth import Cloth, Floats, Ints, Sheet


def cloth_of_blocks(measures: PartMeasures, tiles: Tiles) -> tuple[Cloth, Floats]:
    """The cloth of a part worked from corner to corner, and its places (n x 3, cm; x and y along its sides).

    The chain at a block's side and the tops of its stitches lie along two of its edges; the stitches stand on the chain of the block they
    are worked into, so that every length is the block's own.
    """
    rows = measures.part.rows
    sides = {row.index: row.side for row in rows}
    places: list[tuple[float, float]] = []
    chains: dict[tuple[int, int], list[int]] = {}
    bases: dict[tuple[int, int], list[int]] = {}
    sheets: list[Sheet] = []
    first = [0]
    own_sheets: dict[int, tuple[list[int], list[tuple[int, Tile, int]]]] = {}
    for row in rows:
        elements: list[int] = []
        stands: list[tuple[int, Tile, int]] = []
        for tile in tiles.of_row(row.index):
            upright = sides[tile.row] == "RS"
            key = (tile.column, tile.line)
            thirds = _thirds(tile.chain, 3)
            if tile.base or _below(tile, upright) not in chains:
                bases[key] = list(range(len(places), len(places) + 3))
                elements += _thirds((tile.chain[0] - tile.base, tile.chain[0]), 3) if tile.base else [tile.chain[0]] * 3
                places += [_at(tile, upright, (k + 0.5) / 3, 0.0) for k in range(3)]
            chains[key] = list(range(len(places), len(places) + 3))
            elements += thirds
            places += [_at(tile, upright, 1.0, (k + 0.5) / 3) for k in range(3)]
            for k, e in enumerate(tile.stitches):
                stands.append((len(places), tile, k))
                elements.append(e)
                places.append(_at(tile, upright, 1 - (k + 0.5) / 3, 1.0))
        own_sheets[row.index] = (elements, stands)
        first.append(len(places))
    at = np.array(places) * tiles.side_cm if places else np.zeros((0, 2))
    for row in rows:
        elements, stands = own_sheets[row.index]
        sheets.append(_sheet(tiles, sides, elements, stands, at, first[row.index], chains, bases))
    cloth = Cloth(
        measures=measures, rows=tuple(sheets), first=np.array(first, dtype=np.int64), base=tuple(row.index for row in rows),
        closed=tuple(False for _ in rows), ring=-1, nodes=len(places), 
        braces=tuple((a, b, float(np.linalg.norm(at[a] - at[b]))) for a, b in _braces(tiles, sides, chains)),
    )  # fmt: skip
    return cloth, np.column_stack([at, np.zeros(len(at))])


def _braces(tiles: Tiles, sides: Mapping[int, str], chains: Mapping[tuple[int, int], list[int]]) -> Iterator[tuple[int, int]]:
    """Across every block, from its chain to its stitches, and from its last stitch to the block beside, which it is slip-stitched to."""
    for tile in tiles.tiles:
        chain = chains[tile.column, tile.line]
        tops = range(chain[2] + 1, chain[2] + 4)
        yield from ((chain[0], tops[2]), (chain[1], tops[0]), (chain[2], tops[1]))
        upright = sides[tile.row] == "RS"
        beside = chains.get((tile.column - 1, tile.line) if upright else (tile.column, tile.line - 1))
        if beside is not None:
            yield from ((tops[2], beside[2] + 1), (tops[1], beside[2] + 1), (tops[2], beside[2] + 2))


def _below(tile: Tile, upright: bool) -> tuple[int, int]:
    """The block that a block's stitches stand on: below it where they are upright, to its left where they lie."""
    return (tile.column, tile.line - 1) if upright else (tile.column - 1, tile.line)


def _at(tile: Tile, upright: bool, along: float, up: float) -> tuple[float, float]:
    """A place in the grid, `along` its stitches' feet and `up` its stitches, both from 0 to 1."""
    return (tile.column + along, tile.line + up) if upright else (tile.column + up, tile.line + along)


def _thirds(run: tuple[int, int], many: int) -> list[int]:
    """`many` elements spread over a run of them."""
    first, end = run
    return [first + min(k * (end - first) // many, end - first - 1) for k in range(many)]


def _sheet(
    tiles: Tiles, sides: Mapping[int, str], elements: list[int], stands: list[tuple[int, Tile, int]], at: Floats, first: int,
    chains: dict[tuple[int, int], list[int]], bases: dict[tuple[int, int], list[int]],
) -> Sheet:  # fmt: skip
    """One diagonal. Feet are told from the row's own first node, since they lie on other rows and on chains of its own."""
    n = len(elements)
    mine = at[first : first + n]
    steps = np.linalg.norm(np.diff(mine, axis=0), axis=1) if n > 1 else np.zeros(0)
    centre = np.concatenate([[0.0], np.cumsum(steps)]) if n else np.zeros(0)
    standing, foot = np.zeros(n, dtype=bool), np.zeros((n, 2), dtype=np.int64)
    for node, tile, k in stands:
        key = (tile.column, tile.line)
        under = bases.get(key) or chains[_below(tile, sides[tile.row] == "RS")]
        standing[node - first] = True
        foot[node - first] = under[2 - k] - first
    height = np.full(n, tiles.side_cm)
    most = np.append(steps, 0.0) if n else np.zeros(0)
    element: Ints = np.array(elements, dtype=np.int64)
    whole = float(centre[-1]) if n else 0.0
    none = np.zeros(n, dtype=bool)
    return Sheet(element, centre, height, standing, foot, np.zeros(n), centre, most, whole, most, none, none)
