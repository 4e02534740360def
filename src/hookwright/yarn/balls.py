"""Metres into balls: how many likely, how many to buy, in how many hands they suffice; another yarn instead; a part ball by weight."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from .amounts import Ball, YarnError
from .model import Range, metres_per_cm2

ENOUGH = 0.95
"""To buy: the fewest balls that suffice in 19 hands of 20."""
JOIN_M = 0.30
"""Yarn lost where one ball is joined to the next: two ends of 15 cm (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Balls:
    """`likely` as a fraction of balls used, `buy` whole balls; `chances`: (balls, chance that they suffice), rising."""

    likely: float
    buy: int
    chances: tuple[tuple[int, float], ...]

    @property
    def said(self) -> str:
        """ "2 balls suffice in 19 of 20 hands; 3 in 199 of 200." """
        told = [f"{n} {'ball' if n == 1 else 'balls'} {'suffices' if n == 1 else 'suffice'} in {hands(p)}" for n, p in self.chances[:1]]
        told += [f"{n} in {hands(p)}" for n, p in self.chances[1:]]
        return "; ".join(told) + "."


_ODDS = (
    (1, 200),
    (1, 20),
    (1, 10),
    (1, 5),
    (1, 3),
    (1, 2),
    (2, 3),
    (3, 4),
    (4, 5),
    (9, 10),
    (19, 20),
    (39, 40),
    (99, 100),
    (199, 200),
    (999, 1000),
)


def hands(chance: float) -> str:
    """A chance in hands, rounded down to a plain fraction: never up to certainty.

    >>> hands(0.951), hands(0.53), hands(0.9953), hands(0.99996), hands(0.001)
    ('19 of 20 hands', '1 of 2 hands', '199 of 200 hands', '999 of 1,000 hands', 'fewer than 1 of 200 hands')
    """
    told = [(n, of) for n, of in _ODDS if n / of <= chance + 1e-9]
    return f"{told[-1][0]} of {told[-1][1]:,} hands" if told else "fewer than 1 of 200 hands"


def chance_enough(have_m: float, likely_m: float, sd: float, fixed_m: float = 0.0) -> float:
    """The chance that `have_m` metres suffice for a fabric of `likely_m` (log-normal, `sd`) and `fixed_m` of known extras."""
    left = have_m - fixed_m
    if likely_m <= 0:
        return 1.0 if left >= 0 else 0.0
    if left <= 0:
        return 0.0
    return 0.5 * (1 + math.erf(math.log(left / likely_m) / (sd * math.sqrt(2)))) if sd > 0 else float(left >= likely_m)


def count_balls(ball: Ball, likely_m: float, sd: float, fixed_m: float = 0.0) -> Balls:
    """How many balls of this yarn. `likely_m` the fabric, `fixed_m` ends and trims; every further ball costs a join.

    >>> b = count_balls(Ball(100, 200), 350, 0.2067, 12)
    >>> round(b.likely, 2), b.buy
    (1.81, 3)
    """
    if likely_m + fixed_m > ball.metres * 100_000:
        raise YarnError("More than 100,000 balls would be needed: the ball or the piece cannot be right.")
    likely = (likely_m + fixed_m) / ball.metres

    def chance(n: int) -> float:
        return chance_enough(n * ball.metres - JOIN_M * (n - 1), likely_m, sd, fixed_m)

    buy = _fewest(chance, max(1, math.ceil(likely)))
    first = max(1, min(buy, math.ceil(likely)))
    told = sorted({first, buy} | ({buy + 1} if chance(buy) < 0.999 else set()))
    return Balls(likely=likely, buy=buy, chances=tuple((n, chance(n)) for n in told))


def _fewest(chance: Callable[[int], float], start: int) -> int:
    """The fewest balls with a chance of ENOUGH, found by doubling and halving (a big blanket may need hundreds)."""
    low, high = 0, start
    while chance(high) < ENOUGH:
        low, high = high, high * 2
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if chance(middle) >= ENOUGH else (middle, high)
    return high


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap:
    """Another yarn instead: balls of it for the same length, and for the same size; what the gauge would become; warnings."""

    balls_same_length: Balls
    balls_same_size: Balls
    metres_same_size: float
    thickness_ratio: float
    stitches_per_10cm_factor: float
    hook_mm: float
    warnings: tuple[str, ...]


def swap(
    old: Ball, new: Ball, hook_mm: float, fabric: Range, sd: float, *, fixed_m: float = 0.0, fibres: tuple[str, str] = ("", "")
) -> Swap:
    """Substitute by length. When the thickness differs the gauge follows it (as the root of mass per length), and so does the amount.

    The new hook keeps the looseness: hook over yarn diameter. A difference of more than 8 % in thickness (about half a weight class) warns.
    """
    ratio = math.sqrt(old.m_per_100g / new.m_per_100g)
    hook = hook_mm * ratio
    same_size = fabric.likely * metres_per_cm2(new.m_per_100g, hook) / metres_per_cm2(old.m_per_100g, hook_mm)
    told = []
    if abs(math.log(ratio)) > math.log(1.08):
        thicker = "thicker" if ratio > 1 else "thinner"
        told.append(
            f"The new yarn is {abs(ratio - 1):.0%} {thicker} ({new.m_per_100g:.0f} m against {old.m_per_100g:.0f} m per 100 g): "
            "with the same looseness "
            f"14 stitches to 10 cm become {14 / ratio:.1f}, on a hook of about {round(hook * 2) / 2:g} mm. Same counts give a "
            f"piece {ratio:.2f} times as wide."
        )
    if fibres[0] and fibres[1] and fibres[0].lower() != fibres[1].lower():
        told.append(f"{fibres[1]} instead of {fibres[0]}: drape, stretch and washing differ; make and wash a swatch first.")
    return Swap(
        balls_same_length=count_balls(new, fabric.likely, sd, fixed_m), balls_same_size=count_balls(new, same_size, sd, fixed_m),
        metres_same_size=same_size, thickness_ratio=ratio, stitches_per_10cm_factor=1 / ratio, hook_mm=hook, warnings=tuple(told),
    )  # fmt: skip


def part_ball(ball: Ball, grams: float) -> float:
    """Metres in a part ball by its weight (weigh it without its core and band).

    >>> part_ball(Ball(50, 125), 32)
    80.0
    """
    if grams < 0:
        raise YarnError(f"A part ball of {grams:g} g is less than nothing.")
    return ball.metres_of(grams)


def lost_label(weighed_g: float, length_m: float) -> float:
    """Metres per 100 g of a yarn without its label, from a measured length and its weight.

    >>> lost_label(2.5, 5)
    200.0
    """
    if not (weighed_g > 0 and length_m > 0):
        raise YarnError("To find a lost label, measure a length of the yarn and weigh it: both must be greater than nothing.")
    return length_m / weighed_g * 100
