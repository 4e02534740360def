"""Each piece of `tests/cases/ways`, said in every one of its ways, comes out row by row as its maker has it; mixtures mostly do."""

from __future__ import annotations

import pytest
from tests.ways import WAYS, Piece, amiss, by_chance, one_by_one, pieces

PIECES = [piece for path in sorted(WAYS.glob("*.txt")) for piece in pieces(path)]


@pytest.mark.parametrize("piece", PIECES, ids=lambda piece: piece.name)
def test_every_way_of_saying_it_comes_out(piece: Piece) -> None:
    assert [(said, wrong) for said, text in one_by_one(piece) if (wrong := amiss(piece, text))] == []


@pytest.mark.parametrize("piece", PIECES, ids=lambda piece: piece.name)
def test_ways_mixed_by_chance_mostly_come_out(piece: Piece) -> None:
    mixed = [amiss(piece, text) for _, text in by_chance(piece, 20)]
    assert sum(map(bool, mixed)) <= 3, list(filter(None, mixed))
