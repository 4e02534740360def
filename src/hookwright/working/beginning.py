"""Where a piece begins that goes on with another: on its last row, or elsewhere in it ("sc in each skipped st")."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..pattern import FLAT, Aside, Chain, Colour, Make, Skip, Step, Together, Turn
from .fabric import Role, RowWork


def begins_elsewhere(steps: Sequence[Step], before: Sequence[RowWork]) -> bool:
    """Whether a piece's first row stands on stitches that earlier rows left, and not on the last of the rows `before` it."""
    joined = skipped = False
    for step in steps:
        if isinstance(step, Colour) and step.join_in and skipped:
            return True  # "skip the centre 14 sts and rejoin yarn": along a row that was divided
        skipped = skipped or isinstance(step, Skip)
        if isinstance(step, Colour):
            joined = joined or step.join_in
            if step.join_in and step.at is not None and step.at.row:
                number = re.search(r"\d+", step.at.row)
                return number is not None and bool(before) and before[-1].number != int(number[0])
        elif isinstance(step, (Make, Together)):
            if (
                step.at.what == "ch"
                and step.at.where == "next"
                and before
                and not any(before[-1].stitches.role[i] == Role.CHAIN for i in range(len(before[-1].stitches)))
            ):
                return True  # into chains, where the rows before left none: a chain of its own, whose length is not told
            return step.at.where == "skipped" or (joined and bool(step.at.row) and step.at.what == "skipped")
        elif not isinstance(step, (Chain, Aside, Turn, Skip)):
            return False
    return False


WIDEST_RING = 24
"""Chains of a ring, at most, that the first round fills as a whole; more of them are a tube, open at its beginning (from memory)."""


def tube_begun(steps: Sequence[Step], before: Sequence[RowWork]) -> RowWork | None:
    """The chain joined into a tube, where a new piece goes along its free side ("Neck edge: sc in each ch of starting chain")."""
    first = next((step for step in steps if not isinstance(step, (Colour, Aside, Chain))), None)
    if not isinstance(first, Make) or first.at.what != "ch" or first.at.where not in ("next", "under") or not before:
        return None
    chain, *rounds = before
    whole = chain.foundation and len(chain.stitches) > WIDEST_RING
    return chain if whole and rounds and all(row.made_in not in FLAT for row in rounds) else None
