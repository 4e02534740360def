"""What is written down of a row that was worked: what it comes to, and what is wrong with its count or its reference."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import NOWHERE, Count, FastenOff, Refer, Shape
from .assumed import stated_total
from .basket import Basket
from .counting import EMPTY, Comparison, count
from .fabric import Begins, Counted, Role, RowTrouble, RowWork, Stitches
from .plan import Astray, Due
from .standing import Outcome, Standing


def goes_on_after(due: Due) -> bool:
    """ "Repeat last row 3 more times. Break off.": the yarn is cut after the last of these rows, not after each."""
    own = due.row.steps
    return due.k + 1 < due.of and any(isinstance(s, Refer) for s in own) and any(isinstance(s, FastenOff) for s in own)


NOT_BEGUN = "repeat-not-begun"
SPACE_PASSED = "space-passed"
RESTS_ON_PLACES = frozenset(("passed-unsaid", "top-not-counted", "no-target", "repeat-takes-nothing", NOT_BEGUN, SPACE_PASSED))
"""Troubles that mean something only where the row below is certain and every word of this one was understood."""


def excused(trouble: RowTrouble, due: Due, agrees: bool) -> bool:
    """Whether the row may well be meant so. A row that is worked again and again as the piece grows begins without its repeat; and a count
    that agrees says that none was meant, or that the space was."""
    if trouble.kind == NOT_BEGUN:
        return agrees or due.of != 1 or bool(due.from_row) or due.follow is not None
    return trouble.kind == SPACE_PASSED and agrees


def gone_past(now: int, before: int) -> bool:
    """Whether the count has gone past what it is worked to, or further away from it."""
    return now * before < 0 or abs(now) > abs(before)


def total_of(stitches: Stitches) -> int:
    return stitches.role.count(Role.STITCH) + stitches.role.count(Role.START_TOP)


def basket_of(s: Stitches) -> Basket:
    """A basket holding a copy of a row, to add to."""
    basket = Basket(s.colours[0] if s.colours else "")
    for name in s.names:
        basket.code(name)
    basket.colours = list(s.colours)
    basket.kind, basket.role, basket.step, basket.repeat = s.kind[:], bytearray(s.role), s.step[:], s.repeat[:]
    basket.feet, basket.back, basket.foot_at, basket.how = s.feet[:], s.foot_back[:], s.foot_at[:], bytearray(s.foot_how)
    basket.colour = s.colour[:]
    basket.stands = dict(s.stands)
    basket.groups = [(first, length, name) for first, (length, name) in s.groups.items()]
    return basket


def astray(reference: Astray) -> RowTrouble:
    return RowTrouble("reference-wrong", reference.span, reference.message, reference.working)


def count_trouble(due: Due, comparison: Sequence[Comparison], outcome: Outcome, carries_stated: bool) -> RowTrouble:
    told = next(c for c in comparison if c.differs)
    kind = "sts" if told.count.kind == "st" else told.count.kind
    working = [f"{d.so_far - d.made} + {d.made} = {d.so_far}" + (f" ({d.note})" if d.note else "") for d in outcome.derivation if d.made]
    working.append(f"worked {told.worked}, stated {told.stated}")
    which = "the rows after this one fit the stated count, so the words look wrong" if carries_stated else ""
    message = f"The row works out at {told.worked} {kind}; {told.stated} is stated" + (f" ({which})" if which else "")
    return RowTrouble(
        "count-differs", told.count.span if told.count.span != NOWHERE else due.row.span, message, tuple(working),
        {"worked": told.worked, "stated": told.stated, "kind": told.count.kind, "words_wrong": carries_stated},
    )  # fmt: skip


def rows_in_turn(due: Due) -> int:
    """Rows after which a count that stands still will stand still for ever: the rows repeated, or those between two shapings."""
    refers = [s for s in due.row.steps if isinstance(s, Refer)]
    shapes = [s.every for s in due.row.steps if isinstance(s, Shape)]
    return max([1, *(len(s.rows) if s.rows else s.last or 1 for s in refers), *shapes])


def counted_on_trust(outcome: Outcome, stitches: Stitches, stated: Sequence[Count], size: int) -> Counted:
    """What a row makes; where nobody counted its places ("sc evenly along the edge (20 sc)") what it states."""
    if outcome.uncounted and not outcome.unread and stated_total(stated, size) is not None:
        return count(stitches, slip_stitches=True)
    return outcome.counted


def ghost_row(state: Standing, due: Due, stitches: Stitches, index: int) -> RowWork:
    """A row that is only supposed, to try the rows after it."""
    return RowWork(
        label=due.label, number=due.number, written=due.row, index=index, made_in=due.row.made_in, side=state.side, side_because="",
        begins="A", turned=state.turned, direction=state.direction, stitches=stitches, offered=None, used=None, counted=EMPTY, stated=(),
        state="unstated", read="whole", worked="yes",
    )  # fmt: skip


def begins(due: Due, direction: int) -> Begins:
    """Where a row begins: at the join of a round, nowhere in a spiral, else at the edge from which it is worked."""
    if due.row.made_in == "spiral":
        return "spiral"
    if due.row.made_in in ("joined", "joined-turned"):
        return "join"
    return "A" if direction > 0 else "B"
