"""A round worked along the edge of a finished piece: row ends, tops and joins that nobody counted, so its own stated count is taken."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import (
    FLAT,
    LIMITS,
    ONE,
    ZERO,
    Aside,
    Chain,
    Colour,
    Make,
    Part,
    Pattern,
    Place,
    Repeat,
    Row,
    Skip,
    Step,
    Together,
    Turn,
)
from .fabric import RowWork


def goes_along_the_edge(steps: Sequence[Step]) -> bool:
    """Whether a row spreads its stitches along an edge ("sc evenly around")."""
    return any(isinstance(step, Make) and step.evenly and step.places == "rest" for step in steps)


def counted_by_nobody(row: RowWork) -> bool:
    """Whether a row goes evenly along an edge that no row counted, and states no number: how many it holds is the maker's to find."""
    return row.offered is None and not row.stated and goes_along_the_edge(row.written.steps)


def turns_corners(steps: Sequence[Step]) -> bool:
    """Whether a row is told round corners ("sc evenly around, 3 sc in each corner"): where rows lie flat, those of the piece."""
    return any(
        (isinstance(step, (Make, Together)) and "corner" in (step.at.what, step.upto))
        or (isinstance(step, Repeat) and turns_corners(step.body))
        for step in steps
    )


_MEETING = (Place(where="marked", what="piece"), Place(where="marked", what="piece", between=True))


def leaves_the_rows(row: Row, steps: Sequence[Step], before: RowWork | None) -> bool:
    """Whether a round goes evenly, or round its corners, round a piece that was worked in rows until now, or begins a part where two pieces
    meet ("Attach White between any 2 motifs"): what lies along there was not counted."""
    if before is None:
        return any(isinstance(step, Colour) and step.join_in and step.at in _MEETING for step in steps)
    if row.made_in in FLAT or before.foundation or before.made_in not in FLAT:
        return False
    return goes_along_the_edge(steps) or turns_corners(steps)


def starts_on_row_ends(steps: Sequence[Step]) -> bool:
    """Whether a row's first stitch goes into the end of a row: what it meets round the piece was not counted."""
    for step in steps:
        if isinstance(step, (Make, Together)):
            return step.at.where == "row_end"
        if isinstance(step, Skip):
            if step.what != "row":
                return False
        elif isinstance(step, Repeat):
            return starts_on_row_ends(step.body)
        elif isinstance(step, Colour) and step.join_in and step.at is not None and step.at.where == "row_end":
            return True
        elif not isinstance(step, (Chain, Colour, Aside, Turn)):
            return False
    return False


def turns_off_the_row(steps: Sequence[Step]) -> bool:
    """Whether a row works so many stitches, so many along the ends of rows, and so many again beyond them ("sc in next 12 sc, 7 sc along
    side of instep, sc in next 12 sc"): what lies beyond is no part of the row below."""
    made = [step for step in steps if isinstance(step, (Make, Together, Repeat))]
    ends = [k for k, step in enumerate(made) if isinstance(step, Make) and step.at.where == "row_end"]
    told = all(isinstance(step, Make) and step.places != "rest" for step in made)
    return told and bool(ends) and ends[0] > 0 and ends[0] + 1 < len(made)


def sole_row_end(steps: Sequence[Step]) -> Make | Repeat | None:
    """The one step of a row that puts its stitches into the end of each row, and into nothing else: a run, or a unit told again and again
    ("* sc in the end of a row, 5 dc in the end of the next; repeat"); or the first of the two runs along both sides of a piece."""
    made = [step for step in steps if isinstance(step, (Make, Together, Repeat, Skip))]
    step = made[0] if len(made) == 1 else _down_and_up(steps)
    if isinstance(step, Repeat):
        return step if step.times.kind == "rest" and not step.last and step.cut is None and ends_in_unit(step.body) else None
    if not isinstance(step, Make) or step.at.where != "row_end" or step.places != "rest" or step.evenly:
        return None
    return step


def _down_and_up(steps: Sequence[Step]) -> Make | None:
    """The first run of a row told down one side of a piece and up the other ("2 sc in end of each row down to point, 3 sc in point, 2 sc in
    end of each row along other side"), with nothing between them but the stitches at the corner."""
    made = [step for step in steps if not isinstance(step, (Chain, Colour, Turn))]
    while made and isinstance(made[-1], Aside):
        made.pop()
    runs = [step for step in made if isinstance(step, Make) and step.places == "rest"]
    whole = all(step.at.where == "row_end" and not step.evenly and not step.upto and step.but == ZERO for step in runs)
    if len(runs) != 2 or not whole or not made or made[0] is not runs[0] or not all(isinstance(step, (Make, Together)) for step in made):
        return None
    return runs[0] if runs[-1] is not made[1] else None


def _all_told(steps: Sequence[Step], rows: int) -> int:
    """How many stitches such a row makes of a piece of so many rows; 0 where one of its steps says nothing certain."""
    whole = 0
    for step in steps:
        if isinstance(step, Together) or (isinstance(step, Make) and step.closes > 1):
            return 0
        if isinstance(step, Make):
            many = rows if step.places == "rest" else step.places.values[0] or 1
            whole += (step.each.values[0] or 1) * many
    return whole


def ends_in_unit(body: Sequence[Step]) -> int:
    """How many row ends a unit goes into, one after another; 0 where it goes elsewhere too, or says nothing certain of it."""
    made = [step for step in body if not isinstance(step, (Chain, Aside))]
    sure = all(isinstance(step, Make) and step.at.where == "row_end" and step.at.what == "row" and step.places == ONE for step in made)
    return len(made) if sure else 0


def row_ends(step: Make | Repeat, steps: Sequence[Step], rows: Sequence[RowWork], stated: int | None) -> int:
    """How many row ends a row goes into whose one step goes into the end of each row: as many as the flat piece has rows. 0 where that is
    not sure: rows worked until it measures so much, another number stated (an end may take more than one)."""
    worked = [row for row in rows if not row.foundation]
    if not worked or any(row.made_in not in FLAT or row.written.until is not None or row.read != "whole" for row in worked):
        return 0
    if isinstance(step, Repeat):
        units, over = divmod(len(worked), ends_in_unit(step.body))
        made = sum((s.each.values[0] or 1) for s in step.body if isinstance(s, Make))
        return len(worked) if not over and stated in (None, units, units * made) else 0
    if step is _down_and_up(steps):
        return len(worked) if stated in (None, _all_told(steps, len(worked))) else 0
    whole = len(worked) * (step.each.values[0] or 1)
    if stated == whole + 1:
        return len(worked) + 1  # a counted chain stands before them all; it takes one of the ends as any such chain does
    return len(worked) if stated in (None, whole) else 0


def stands_on_pieces_joined(pattern: Pattern, part: Part, before: Part, size: int) -> bool:
    """Whether a part goes round several pieces put together (motifs, or copies), not on the last row of the part before it."""
    if not part.rows or (part.rows[0].made_in in FLAT and not goes_along_the_edge(part.rows[0].steps)):
        return False
    joined = {name for seam in pattern.seams if seam.kind == "motifs" for name in seam.parts}
    several = 1 < (before.copies.at(size) or 1) <= LIMITS.stitches
    laid_out = any(seam.kind == "motifs" and not seam.parts for seam in pattern.seams)
    return several or before.name in joined or laid_out
