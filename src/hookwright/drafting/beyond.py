"""Outlines that rows cannot follow: which corner they miss, and the nearest outline whose corners they reach.

Where an edge runs out to a corner by more stitches a row than a slanted row can, the corner is reached only from the middle of a row's
height (`phase`). A piece with several such corners at heights that no beginning of the rows suits keeps some of them out. Up to
`MOST_OUT` (`CORNERS_OUT` where corners were told) that is a limit which the draft names; beyond it the piece is refused, and its corners
are moved to where rows end.
"""

from __future__ import annotations

import math

from .asks import Custom, Refused
from .fit import farthest
from .flat import FITS, FlatPlan, fit_of, plan_flat
from .outline import Outline, Point, turned
from .result import View

MOST_OUT = 1.5
"""Three quarters of a stitch or a row: a corner farther out than this is not the corner asked. Our own measure, no source."""
CORNERS_OUT = 1.25
"""The same for corners that were told one by one: five eighths of a stitch or a row."""
_CORNERS_TOLD = 24


def reached(plan: FlatPlan, off: float, custom: Custom, most_out: float) -> None:
    """Refuses a plan that leaves a corner out by more than `most_out`, says which and why, and offers the nearest that can be worked."""
    if off <= most_out:
        return
    x, y = _corner(plan, custom)
    steepest = max((max(abs(row.a), abs(row.b)) for row in plan.rows[1:]), default=0)
    why = (
        f"its edge runs out faster than rows can slant, and a row is as high at its end as in its middle ({custom.height_cm:.1f} cm)"
        if steepest > custom.most
        else f"it is finer than a stitch ({custom.width_cm:.1f} cm) or a row ({custom.height_cm:.1f} cm)"
    )
    raise Refused(
        f"The outline cannot be followed near {x:.1f} cm across, {y:.1f} cm up, where {why}: the nearest rows stay {off / 2:.1f} rows or "
        "stitches off.",
        _nearest(plan, custom),
    )


def _corner(plan: FlatPlan, custom: Custom) -> Point:
    """The corner asked that lies nearest to where the outlines are farthest apart."""
    worst = farthest(View("", plan.asked, plan.compared), custom)
    return min(plan.asked, key=lambda p: math.hypot((p[0] - worst[0]) / custom.width_cm, (p[1] - worst[1]) / custom.height_cm))


def _nearest(plan: FlatPlan, custom: Custom) -> str:
    if len(plan.asked) <= _CORNERS_TOLD:
        moved = in_middles(plan.asked, custom)
        if _fits(moved, custom):
            corners = ", ".join(f"{x:.2f} {y:.2f}" for x, y in moved)
            return f'The nearest that rows reach: draft polygon --points "{corners} cm".'
    if _fits(turned(plan.asked, 90), custom):
        return "Turned by 90° it can be worked: add --turn 90."
    return "Work it in a shorter stitch, or with fewer corners so near each other."


def in_middles(outline: Outline, custom: Custom) -> Outline:
    """The outline of whole rows, every corner between its first and its last moved up or down to the middle of one."""
    h = custom.height_cm
    top = max(y for _, y in outline)
    rows = max(1, round(top / h))

    def level(y: float) -> float:
        if y < 1e-9 or y > top - 1e-9:
            return 0.0 if y < 1e-9 else rows * h
        return (min(max(0, math.floor(y / h)), rows - 1) + 0.5) * h

    return tuple((round(x, 2), round(level(y), 2)) for x, y in outline)


def _fits(outline: Outline, custom: Custom) -> bool:
    try:
        plan = plan_flat(outline, custom)
    except Refused:
        return False
    return fit_of(plan, custom) <= FITS


__all__ = ["CORNERS_OUT", "MOST_OUT", "in_middles", "reached"]
