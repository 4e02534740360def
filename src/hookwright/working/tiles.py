"""Blocks of a piece worked from corner to corner, as its rows' stitches tell them."""

from __future__ import annotations

from .fabric import How, Role, Stitches


def tiles_in(stitches: Stitches) -> int:
    """The blocks of a row that is made of nothing else, each a chain with two or more stitches in one place (or along one chain) beside
    it, as pieces worked from corner to corner have them; 0 for other rows."""
    role, names, n = stitches.role, stitches.names, len(stitches)
    if Role.CHAIN not in role or Role.START_TOP in role or ("sl st" not in names and Role.HANGING not in role):
        return 0
    tiles = i = 0
    while i < n:
        if role[i] != Role.CHAIN:
            if role[i] == Role.STITCH and names[stitches.kind[i]] != "sl st":
                return 0
            i += 1
            continue
        while i < n and role[i] == Role.CHAIN:
            i += 1
        first = i
        while i < n and role[i] == Role.STITCH and names[stitches.kind[i]] != "sl st":
            i += 1
        if i - first < 2 or not (_in_one(stitches, first, i) or _along_own(stitches, first, i)):
            return 0
        tiles += 1
    return tiles


def _in_one(stitches: Stitches, first: int, end: int) -> bool:
    feet = tuple(stitches.feet_of(first))
    return bool(feet) and all(tuple(stitches.feet_of(i)) == feet for i in range(first + 1, end))


def _along_own(stitches: Stitches, first: int, end: int) -> bool:
    """Into chains of this very row, or of the foundation that the first row stands on."""
    return (
        all(any(back == 0 or how == How.TOP for back, _, how in stitches.feet_of(i)) for i in range(first, end))
        and Role.CHAIN in stitches.role[:first]
    )
