"""What a row's steps are like, asked at every row of every pass and so asked once: the answer is kept by the identity of the steps."""

from __future__ import annotations

from dataclasses import dataclass

from ..pattern import Colour, Make, Refer, Repeat, Shape, Step, Together, Unread
from ..pattern.walking import inside
from .markers import asks_for_markers
from .needs import asks_for_work
from .round_the_edge import sole_row_end, starts_on_row_ends
from .rows_named import row_named, stands_on_named
from .strands_left import strands_asked


@dataclass(frozen=True, slots=True)
class Nature:
    """What steps ask for that decides how their row is met."""

    works: bool
    """Some step works a stitch."""
    unread: bool
    shapes: bool
    """Shaping told for rows of its own is among them."""
    deep: bool
    """Some step looks further down than the row below."""
    markers: bool
    named: str | None
    """A row named outright as the one to work into."""
    stands_on_named: bool | None
    strands: str
    """The loop that some row has left free and the first stitch goes into, no row being named; "" where it goes elsewhere."""
    from_row_ends: bool
    """The first stitch goes into the end of a row."""
    from_beyond: bool
    """The first stitch goes into the other side of the foundation chain."""
    row_end: Make | Repeat | None
    """The one step there is, where it goes into every row end."""
    side_again: Refer | None
    """The step by which the row stands for the whole side worked before."""
    as_piece: Refer | None
    """The step by which the row is finished as that of another piece."""


def nature_of(steps: tuple[Step, ...]) -> Nature:
    """What `steps` are like."""
    refers = [step for step in steps if isinstance(step, Refer)]
    return Nature(
        works=asks_for_work(steps),
        unread=any(isinstance(step, Unread) for step in steps),
        shapes=any(isinstance(step, Shape) for step in steps),
        deep=any(map(_looks_deeper, steps)),
        markers=asks_for_markers(steps),
        named=row_named(steps),
        stands_on_named=stands_on_named(steps),
        strands=strands_asked(steps),
        from_row_ends=starts_on_row_ends(steps),
        from_beyond=_from_beyond(steps),
        row_end=sole_row_end(steps),
        side_again=next((step for step in refers if step.upto == "side"), None),
        as_piece=next((step for step in refers if step.rest), None),
    )


def _from_beyond(steps: tuple[Step, ...]) -> bool:
    joined = False
    told = iter(inside(steps))
    for step in told:
        if isinstance(step, Colour):
            joined = joined or (step.at is not None and step.at.where == "under")
        elif isinstance(step, (Make, Together)):
            at = step.at
            goes = joined or any(isinstance(after, Make) and after.at.where == "under" for after in told)
            plainly = at.what == "ch" or (joined and at.what == "st")
            return at.where == "under" or (goes and plainly and at.where in ("next", "first", "same"))
    return False


def _looks_deeper(step: Step) -> bool:
    if isinstance(step, Make):
        return step.at.below > 0 or step.at.where == "skipped" or step.at.row is not None
    if isinstance(step, (Repeat, Together)):
        return any(map(_looks_deeper, step.body))
    return False
