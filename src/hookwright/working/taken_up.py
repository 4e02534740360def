"""Short rows taken up again without a word: "2nd row: sc in 20 sc, turn. 3rd row: sc in 20 sc. 4th row: sc in each of 27 sc"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import ONE, Aside, Chain, Leave, Make, Place, Sized, Step, Turn
from .fabric import RowWork


def row_left(rows: Sequence[RowWork]) -> int | None:
    """How far back the last row lies that a short row has left a part of; None where the last rows are whole."""
    for back in range(2, min(len(rows), MOST_BACK) + 1):
        row, over = rows[-back], rows[-back + 1]
        short = over.offered is not None and over.used is not None and over.used < over.offered
        if not row.foundation and (short or any(isinstance(step, Leave) for step in over.written.steps)):
            return back
    return None


LEAST_LEFT = 3
"""Fewer are stitches forgotten sooner than a part left on purpose."""
MOST_BACK = 5
"""Rows between the one left and the one that takes it up again."""


def over_the_rest(steps: tuple[Step, ...], name: str, left: int) -> tuple[Step, ...] | None:
    """The steps, the last plain run going on over so many places of the row called `name`; None where the row ends in no such run."""
    at = next((k for k in range(len(steps) - 1, -1, -1) if not isinstance(steps[k], (Aside, Turn, Chain))), None)
    run = steps[at] if at is not None else None
    if at is None or not isinstance(run, Make) or run.at.row or run.at.where not in ("next", "first") or run.each != ONE or run.closes != 1:
        return None
    rest = replace(run, places=Sized((left,)), at=Place(what=run.at.what, row=name))
    if run.places == "rest":
        return (*steps[: at + 1], rest, *steps[at + 1 :])
    number = run.places.values[0] or 0
    if number <= left or run.places.many:
        return None
    return (*steps[:at], replace(run, places=Sized((number - left,))), rest, *steps[at + 1 :])
