"""Where the first and the last stitch of a row go: told at the beginning, and again whenever it differs from what was told last."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from ..pattern import FLAT
from ..trade.terms import System
from ..trade.terms import name as full_name
from ..working import How, PartWork, Role, RowWork

First: TypeAlias = Literal["after counted", "with counted", "after uncounted", "past first", "first", "space", "later", ""]
Last: TypeAlias = Literal["top of the chain", "last", "space", "leaves some", ""]


@dataclass(frozen=True, slots=True)
class Edges:
    """Where the first and the last stitch of a row go. `passed` places before the first, `left` places after the last; `last_kind` what
    the last stitch is; `chains` in the starting chain."""

    first: First
    last: Last
    passed: int = 0
    left: int = 0
    chains: int = 0

    def words(self, row: RowWork, terms: System) -> tuple[str, ...]:
        """Both as sentences, figures kept; none where nothing is to be said."""
        kinds = [row.stitches.name(i) for i in row.stitches.counted() if row.stitches.role[i] == Role.STITCH]
        if not kinds:
            return ()
        plain = self.first == "first" and row.made_in not in FLAT
        first = "" if plain else _FIRST[self.first].format(stitch=full_name(kinds[0], terms), passed=self.passed, chains=self.chains)
        last = _LAST[self.last].format(stitch=full_name(kinds[-1], terms), left=self.left, s="" if self.left == 1 else "es")
        return tuple(words for words in (first, last) if words)


_FIRST: dict[str, str] = {
    "after counted": "The starting chain counts and stands in the first stitch, so the first {stitch} goes in the second stitch.",
    "with counted": "The starting chain counts, and one more goes in the very first stitch, at its foot: that is an increase.",
    "after uncounted": "The starting chain does not count, so the first {stitch} goes in the very first stitch.",
    "past first": "The first {stitch} goes in the second stitch; the first one is passed over.",
    "first": "The first {stitch} goes in the first stitch.",
    "space": "The first {stitch} goes in the chain space, not in a stitch.",
    "later": "Pass over {passed} stitches before the first {stitch}.",
    "": "",
}
_LAST: dict[str, str] = {
    "top of the chain": "The last {stitch} goes in the top of the starting chain of the row below.",
    "last": "The last {stitch} goes in the last stitch.",
    "space": "The last {stitch} goes in the last chain space.",
    "leaves some": "Stop with {left} stitch{s} left unworked.",
    "": "",
}


def edges_of(part: PartWork, row: RowWork) -> Edges:
    """The edges of a row, found in what its stitches stand on."""
    if row.below is None or row.below >= row.index or not len(row.stitches):
        return Edges("", "")
    below = part.rows[row.below]
    if below.foundation:
        return Edges("", "")
    places = _places(row, below)
    return _edges(row, below, places)


def _places(row: RowWork, below: RowWork) -> list[int]:
    """The stitches of the row below in the order in which this row meets them."""
    found = list(below.stitches.counted())
    return found[::-1] if row.turned else found


def _edges(row: RowWork, below: RowWork, places: list[int]) -> Edges:
    st = row.stitches
    worked = [i for i in st.counted() if st.role[i] == Role.STITCH]
    if not worked or not places:
        return Edges("", "")
    chains = sum(role in (Role.START, Role.START_TOP) for role in st.role)
    counted = Role.START_TOP in st.role
    first, passed = _first(row, below, places, worked[0], counted, chains)
    last, left = _last(row, below, places, worked[-1])
    return Edges(first, last, passed, left, chains)


def _foot(row: RowWork, below: RowWork, i: int, *, last: bool = False) -> tuple[int, How] | None:
    feet = [(at, how) for back, at, how in row.stitches.feet_of(i) if back == row.index - below.index]
    return (feet[-1] if last else feet[0]) if feet else None


def _first(row: RowWork, below: RowWork, places: list[int], i: int, counted: bool, chains: int) -> tuple[First, int]:
    foot = _foot(row, below, i)
    if foot is None:
        return "", 0
    at, how = foot
    if how is How.SPACE or (0 <= at < len(below.stitches) and below.stitches.role[at] == Role.CHAIN):
        return ("space", 0)
    if at not in places:
        return "", 0
    place = places.index(at)
    if counted:
        return ("after counted" if place == 1 else "with counted" if place == 0 else "later"), place
    if chains:
        return ("after uncounted" if place == 0 else "past first" if place == 1 else "later"), place
    return ("first" if place == 0 else "past first" if place == 1 else "later"), place


def _last(row: RowWork, below: RowWork, places: list[int], i: int) -> tuple[Last, int]:
    if row.made_in == "spiral":
        return "", 0
    foot = _foot(row, below, i, last=True)
    if foot is None:
        return "", 0
    at, how = foot
    if how is How.SPACE or (0 <= at < len(below.stitches) and below.stitches.role[at] == Role.CHAIN):
        return "space", 0
    if at not in places:
        return "", 0
    left = len(places) - 1 - places.index(at)
    if left:
        return ("leaves some", left) if row.made_in in FLAT else ("", 0)
    if below.stitches.role[at] == Role.START_TOP and row.made_in in FLAT:
        return "top of the chain", 0
    return "last", 0
