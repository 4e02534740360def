"""A flat piece from its outline: plan, pattern, account. What every flat family ends in."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import FinishedSize
from .asks import Custom
from .beyond import MOST_OUT, reached
from .compiling import facts_of, flat_part, pattern_of
from .flat import FITS, FlatPlan, fit_of, plan_flat, tolerance
from .outline import Outline
from .result import Draft, Obtained, View


def flat_draft(
    family: str,
    title: str,
    outline: Outline,
    custom: Custom,
    *,
    notes: Sequence[str] = (),
    across: str = "width",
    along: str = "length",
    name: str = "Body",
    most_out: float = MOST_OUT,
) -> Draft:
    """Draft an outline in rows. `across`, `along`: what the extent along a row and across the rows are called.

    Refuses an outline that stays out by more than `most_out` times what is allowed.
    """
    plan = plan_flat(outline, custom)
    sizes = flat_sizes(plan, custom, across, along)
    finished = [FinishedSize(what=what, cm=(round(size.cm, 1),)) for what, size in zip(("width", "length"), sizes, strict=True)]
    if sizes[0].cm > (plan.widest + 0.5) * custom.width_cm:
        finished = finished[1:]  # no row is as wide as the piece: its rows lie side by side
    view = View(title, plan.asked, plan.obtained)
    off = fit_of(plan, custom)
    reached(plan, off, custom, most_out)
    pattern = pattern_of(facts_of(custom, title, finished, "flat"), [flat_part(plan, custom, name)])
    return Draft(
        family=family,
        pattern=pattern,
        custom=custom,
        sizes=sizes,
        views=(view,),
        notes=(*custom.assumed, *notes, *parity_notes(plan, custom), *limit_notes(plan, off)),
        limited=off > FITS,
        tolerance=tolerance(custom),
        intended="flat",
        fit=off,
    )


def limit_notes(plan: FlatPlan, off: float) -> tuple[str, ...]:
    """What keeps the outline from lying within half a stitch and half a row of the one asked; nothing where it does."""
    if off <= FITS:
        return ()
    steepest = max((max(abs(row.a), abs(row.b)) for row in plan.rows[1:]), default=0)
    if steepest > 2:
        return (
            f"A row is as high at its end as in its middle: where the edge runs out by up to {steepest} stitches a row it goes in "
            "steps, and its sharpest corner is a row high.",
        )
    return (f"At its farthest, where it is narrowest or turns, the outline lies {off / 2:.1f} stitches or rows from the one asked.",)


def flat_sizes(plan: FlatPlan, custom: Custom, across: str = "width", along: str = "length") -> tuple[Obtained, ...]:
    """The two extents of a flat plan, beside those asked."""
    asked_wide = max(x for x, _ in plan.asked) - min(x for x, _ in plan.asked)
    wide = max(x for x, _ in plan.obtained) - min(x for x, _ in plan.obtained)
    rows = len(plan.rows)
    stitches = round(wide / custom.width_cm)
    return (
        Obtained(across, asked_wide, wide, custom.width_cm, custom.stitch, f"{stitches} {custom.stitch}"),
        Obtained(along, plan.rows_asked * custom.height_cm, rows * custom.height_cm, custom.height_cm, "row", f"{rows} rows"),
    )


def parity_notes(plan: FlatPlan, custom: Custom) -> tuple[str, ...]:
    if not custom.parity:
        return ()
    side = "right" if len(plan.rows) % 2 else "wrong"
    return (f"The number of rows is kept {custom.parity}, so that the last row is a {side}-side row.",)
