"""Rows that a row's steps name besides the one it stands on: short rows taken up again ("sc in next 5 unworked sts of Row 3")."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from ..pattern import Choice, Colour, Make, Place, Repeat, Skip, Step, Together
from .fabric import RowWork
from .plan import Due


def row_named(steps: tuple[Step, ...]) -> str | None:
    """A row that the steps name outright as the one to work into ("Row 18", "Body Row 40")."""
    for step in steps:
        if isinstance(step, Skip) and step.row:
            return step.row
        if isinstance(step, (Make, Together)) and step.at.row:
            return step.at.row
        if isinstance(step, Colour) and step.at is not None and step.at.row:
            return step.at.row
        if isinstance(step, Repeat):
            inner = row_named(step.body)
            if inner:
                return inner
    return None


def stands_on_named(steps: Sequence[Step]) -> bool | None:
    """Whether the first step that finds a place names the row it lies in; None where no step finds one."""
    skipped = False  # "skip next st, join yarn in next st of Row 105": what is passed over lies where the yarn is joined
    for step in steps:
        if isinstance(step, Skip):
            if step.row:
                return True
            skipped = True
        if isinstance(step, (Make, Together)):
            return bool(step.at.row) and not skipped
        if isinstance(step, Colour) and step.at is not None:
            return bool(step.at.row)
        if isinstance(step, Repeat) and (inner := stands_on_named(step.body)) is not None:
            return inner
    return None


def rows_besides(steps: Sequence[Step]) -> tuple[str, ...]:
    """The rows named by a row whose own first step names none, in order."""
    if stands_on_named(steps) is not False:
        return ()
    return tuple(dict.fromkeys(step.at.row for step in steps if isinstance(step, Make) and step.at.row and not step.at.below))


def row_meant(name: str, due: Due, rows: Sequence[RowWork]) -> RowWork | None:
    """The worked row that a name means in row `due`; where that row repeats another, the row as far back as it was there."""
    number = row_number(name)
    if number is None:
        return None
    told = row_number(due.from_row) if due.from_row else None
    if told is not None and told != due.number:
        back = told - number
        return rows[-back] if 0 < back <= len(rows) else None
    return next((row for row in reversed(rows) if row.number == number), None)


def reached_down(steps: tuple[Step, ...], meant: Callable[[str], int | None], taken: Callable[[str], bool]) -> tuple[Step, ...]:
    """The steps, where stitches reach down past the row they stand over into a row named by its number ("FPdc around next dc of Row 1, sc
    in next 3 sc"), with that row told as so many rows below. The same steps where none does.

    `meant`: how many rows below the row below a name means (None: no row of this piece); `taken`: nothing of it was left unworked, so that
    what goes into its stitches covers those above. Posts always do. Where no stitch goes into the row below, the named one is built on.
    """
    named = [step for step in _makes(steps) if step.at.row]
    if not named or len(named) == len(list(_makes(steps))):
        return steps
    down = {
        name: below
        for name in dict.fromkeys(step.at.row for step in named if step.at.row)
        if (below := meant(name)) is not None
        and (taken(name) or all(step.stitch[:2] in ("FP", "BP") for step in named if step.at.row == name))
    }
    return tuple(_reaching(step, down) for step in steps) if down else steps


def slipped_on(steps: tuple[Step, ...], known: Callable[[str], bool]) -> tuple[Step, ...]:
    """The steps, where slip stitches behind others go into a row that is none of this piece's ("sc in next 4, sl st in next 2 sts of
    Rnd 14, turn"), with these told as joining it on. `known`: whether a name means a row of this piece."""
    besides = rows_besides(steps)
    if not besides or all(known(name) for name in besides):
        return steps
    on = Place(where="marked", what="piece")
    return tuple(
        replace(step, at=on) if isinstance(step, Make) and step.stitch == "sl st" and step.at.row and not known(step.at.row) else step
        for step in steps
    )


def _makes(steps: Sequence[Step]) -> list[Make]:
    found: list[Make] = []
    for step in steps:
        if isinstance(step, Make):
            found.append(step)
        elif isinstance(step, Repeat):
            found += _makes((*step.body, *step.last))
        elif isinstance(step, Choice):
            found += _makes([one for answer in step.answers for one in answer])
    return found


def _reaching(step: Step, down: dict[str, int]) -> Step:
    if isinstance(step, Make) and step.at.row in down and step.at.where in ("next", "first") and step.at.loop == "both":
        return replace(step, at=replace(step.at, row=None, below=down[step.at.row], where="next"))
    if isinstance(step, Repeat):
        return replace(step, body=tuple(_reaching(one, down) for one in step.body), last=tuple(_reaching(one, down) for one in step.last))
    if isinstance(step, Choice):
        return replace(step, answers=tuple(tuple(_reaching(one, down) for one in answer) for answer in step.answers))
    return step


def row_number(name: str) -> int | None:
    """The number that a row is called by."""
    found = re.search(r"\d+", name)
    return int(found[0]) if found else None
