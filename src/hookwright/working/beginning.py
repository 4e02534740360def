"""Where a piece begins that goes on with another: on its last row, or elsewhere in it ("sc in each skipped st")."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..pattern import Aside, Chain, Colour, Make, Repeat, Skip, Step, Together, Turn
from ..pattern.walking import walk
from .fabric import Role, RowWork
from .needs import is_space


def on_the_chain(steps: Sequence[Step], before: Sequence[RowWork]) -> bool:
    """Whether a piece's first row stands on the beginning chain of the piece before it, met from the other side: in its free loops, or
    "in each ch", yarn being joined, where the last of the rows `before` it has no chain."""
    bare = bool(before) and Role.CHAIN not in before[-1].stitches.role
    joined = told = far = False
    if any(isinstance(step, (Make, Colour)) and step.at is not None and step.at.where == "skipped" for step in walk(tuple(steps))):
        return False  # round an opening: its own chain is meant, and what was skipped beside it
    for step in walk(tuple(steps)):
        if isinstance(step, (Make, Together)):
            if is_space(step.at.what):
                return False
            return far or step.at.where == "under" or (step.at.what == "ch" and step.at.where == "next" and bare and (joined or not told))
        if isinstance(step, Aside):
            told = True  # "make a chain 20 inches long, sl st in each ch back": a chain of its own
        elif isinstance(step, Colour):
            far = far or (step.at is not None and step.at.where == "under")
            joined = joined or step.join_in
        elif not isinstance(step, (Chain, Repeat, Skip)):
            return False
    return False


def row_stood_on(steps: Sequence[Step]) -> int | None:
    """The number of the earlier row whose loops a piece begins in: where its yarn is joined, or where its first stitches are told to go
    ("Join green to the back loops left from Rnd 10"). None where no row is named."""
    told = [step.at for step in steps if isinstance(step, (Make, Together, Colour)) and step.at is not None]
    if any("skipped" in (at.what, at.where) for at in told):
        return None  # what an opening has left, and no row's loops
    for step in steps:
        at = step.at if isinstance(step, (Make, Together, Colour)) else None
        if at is not None and at.row and (number := re.search(r"\d+", at.row)):
            return int(number[0])
        if isinstance(step, Repeat):
            return row_stood_on(step.body)
        if isinstance(step, (Make, Together)):
            return None
    return None


def begins_elsewhere(steps: Sequence[Step], before: Sequence[RowWork]) -> bool:
    """Whether a piece's first row stands on stitches that earlier rows left, and not on the last of the rows `before` it."""
    joined = skipped = False
    for step in steps:
        if isinstance(step, Colour) and step.join_in and skipped:
            return True  # "skip the centre 14 sts and rejoin yarn": along a row that was divided
        skipped = skipped or isinstance(step, Skip)
        if isinstance(step, Colour):
            joined = joined or step.join_in
            if step.at is not None and step.at.where == "under":
                return True  # along the beginning chain, into spaces that nobody counted on that side
            if step.join_in and step.at is not None and step.at.where == "skipped":
                return True
            if step.join_in and step.at is not None and step.at.row:
                number = re.search(r"\d+", step.at.row)
                return number is not None and bool(before) and before[-1].number != int(number[0])
        elif isinstance(step, (Make, Together)):
            if step.at.what == "ch" and step.at.where == "next" and before and Role.CHAIN not in before[-1].stitches.role:
                return True  # into chains, where the rows before left none: a chain of its own, whose length is not told
            return step.at.where == "skipped" or (joined and bool(step.at.row) and step.at.what == "skipped")
        elif not isinstance(step, (Chain, Aside, Turn, Skip)):
            return False
    return False
