"""An estimate before any pattern exists: from a size, a hook and a ball."""

from __future__ import annotations

from dataclasses import dataclass

from ..measuring.ratios import WIDTH_OVER_HOOK, height_over_width
from ..pattern import Yarn
from .amounts import Ball, Extent, YarnError
from .balls import JOIN_M, count_balls
from .calibrate import Hand, unmeasured
from .estimating import YarnUse
from .model import Range, constants, metres_per_cm2, outside_the_tried, usual_hook_mm
from .supply import Supplied
from .timing import Hours, hours


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A plan: the yarn, hours if worked in dc, and what stands behind it."""

    use: YarnUse
    hours: Hours
    because: tuple[str, ...]


def plan_area(
    extent: Extent, ball: Ball, hook_mm: float | None = None, *, openwork: bool = False, relief: bool = False, strands: int = 1,
    hand: Hand | None = None, pace: dict[str, float] | None = None,
) -> Planned:  # fmt: skip
    """Yarn for a size. `hook_mm` None takes the hook usual for the yarn; `strands` held together.

    Raises YarnError for less than one strand.

    >>> from .amounts import ball, extent
    >>> p = plan_area(extent("86 x 86 cm"), ball("100 g = 200 m"), 5)
    >>> round(p.use.metres.low), round(p.use.metres.likely), round(p.use.metres.high), p.use.balls.buy
    (639, 898, 1261, 7)
    """
    if strands < 1:
        raise YarnError("At least one strand is worked with.")
    hand = hand or unmeasured()
    c = constants()
    worked = ball.m_per_100g / strands
    hook = hook_mm if hook_mm is not None else usual_hook_mm(worked)
    density = strands * metres_per_cm2(worked, hook, openness=float(openwork), relief=float(relief)) * hand.factor
    rows = extent.area_cm2 * density
    width = extent.width_cm if extent.width_cm is not None else extent.area_cm2**0.5
    chain = strands * c.chain_per_length * width / 100 * hand.factor
    ends = 2 * strands * c.end_m
    balls = count_balls(ball, rows + chain, hand.sd, ends)
    joined = JOIN_M * max(0, -(-(rows + chain + ends) // ball.metres) - 1)
    metres = Range.around(rows + chain, hand.metres_sd, fixed=ends + joined)
    supplied = Supplied(id="A", yarn=Yarn(id="A", ball_m=ball.metres, ball_g=ball.grams, strands=strands), ball=ball,
                        m_per_100g=ball.m_per_100g, strands=strands)  # fmt: skip
    use = YarnUse(
        supplied=supplied, metres=metres, balls=balls, hand=hand,
        grams=Range.around(rows + chain, hand.sd, fixed=ends + joined).times(100 / ball.m_per_100g),
        of_which={"rows": rows, "chains": chain, "ends": ends, "trims": 0.0, "joins": joined}, apart={"swatch": 225 * density},
    )  # fmt: skip
    return Planned(
        use=use,
        hours=_hours(extent, hook, pace or {}),
        because=tuple(_because(extent, ball, worked, hook, hook_mm, openwork, relief, strands, use)),
    )


def _hours(extent: Extent, hook: float, pace: dict[str, float]) -> Hours:
    width = hook / 10 * WIDTH_OVER_HOOK
    return hours({"dc": extent.area_cm2 / (width * width * height_over_width("dc"))}, pace=pace, ends=2)


def _because(
    extent: Extent, ball: Ball, worked: float, hook: float, told: float | None, openwork: bool, relief: bool, strands: int, use: YarnUse
) -> list[str]:
    c = constants()
    factors = [f"{c.k_m_per_cm2:.4f}", f"({worked:.0f}/200)^¼", f"√(5/{hook:.3g})"]
    factors += [f"{c.lace:.2f} for openwork"] if openwork else []
    factors += [f"{c.relief:.2f} for relief"] if relief else []
    factors += [f"{strands} strands"] if strands > 1 else []
    said = [] if told is not None else [f"No hook told: {hook:.1f} mm taken, usual for {worked:.0f} m per 100 g."]
    said.append(f"{extent.area_cm2:.0f} cm² x {' x '.join(factors)} = {use.of_which['rows'] / use.hand.factor:.0f} m.")
    width = "its width" if extent.width_cm is not None else "the root of its area"
    said.append(
        f"Foundation chain: {c.chain_per_length:g} x {width} = {use.of_which['chains']:.1f} m; two ends a strand: "
        f"{use.of_which['ends']:.1f} m."
    )
    said += use.hand.because
    outside = outside_the_tried(worked, hook)
    if outside:
        said.append(outside)
    said.append("Trims and a swatch are not in it. Hours: as if worked in dc at the gauge usual for the hook.")
    if use.balls is not None and use.balls.buy > 1:
        said.append("Buy all balls of a colour from one dye lot.")
    return said
