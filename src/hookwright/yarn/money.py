"""What a piece costs and earns: yarn as used and as bought, notions, packing, hours at a wage; the wage a price implies; what the pattern
itself cost to make and the sales that repay it. Amounts are in whatever currency is set; nothing is converted."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from .amounts import YarnError

DEFAULTS: Mapping[str, float] = {"notions": 0.0, "packing": 0.0, "overhead": 0.0, "wage": 0.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """One finished piece. All in `currency`; `working` is the sum, a line a step."""

    currency: str
    yarn_used: float
    yarn_bought: float
    materials: float
    labour: float
    whole: float
    wholesale: float
    retail: float
    implied_wage: float | None
    working: tuple[str, ...]


def piece_cost(
    yarns: Mapping[str, tuple[float, int, float]], hours: float, *, prices: Mapping[str, float], currency: str = "",
    price: float | None = None
) -> Cost:  # fmt: skip
    """The cost of one piece. `yarns`: {name: (balls used, balls to buy, price of a ball)}; `prices`: notions, packing, overhead, wage.

    `price`: what it is sold for; then the wage it implies. Wholesale is materials and labour; retail twice that (a maker's usual rule, an
    option, not advice).

    >>> c = piece_cost({"A": (1.5, 2, 8.0)}, 10, prices={"wage": 12, "packing": 2}, price=60)
    >>> c.yarn_used, c.yarn_bought, c.whole, c.implied_wage
    (12.0, 16.0, 134.0, 4.6)
    """
    given = {**DEFAULTS, **prices}
    for name, value in (*given.items(), ("price", price or 0), *((n, p) for n, (_, _, p) in yarns.items())):
        if value < 0 or not math.isfinite(value):
            raise YarnError(f"The {name} of {value:g} is less than nothing.")
    used = sum(balls * each for balls, _, each in yarns.values())
    bought = sum(buy * each for _, buy, each in yarns.values())
    materials = used + given["notions"] + given["packing"] + given["overhead"]
    labour = hours * given["wage"]
    whole = materials + labour
    wage = None if price is None else (price - materials) / hours if hours > 0 else None
    said = [f"yarn of {name}: {balls:.2f} balls x {each:.2f} = {balls * each:.2f}" for name, (balls, _, each) in yarns.items()]
    said += [f"{name}: {given[name]:.2f}" for name in ("notions", "packing", "overhead") if given[name]]
    said.append(f"hours: {hours:.1f} x {given['wage']:.2f} = {labour:.2f}")
    said.append(f"together: {whole:.2f} {currency}".rstrip())
    if wage is not None:
        said.append(f"sold at {price:.2f}: ({price:.2f} - {materials:.2f}) / {hours:.1f} h = {wage:.2f} an hour")
    return Cost(
        currency=currency, yarn_used=used, yarn_bought=bought, materials=materials, labour=labour, whole=whole, wholesale=whole,
        retail=2 * whole, implied_wage=wage, working=tuple(said),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternCost:
    """What making a pattern cost: the sum of its items (re-added here, whatever total was printed), hours at a wage, sales that repay
    it."""

    items: Mapping[str, float]
    whole: float
    printed: float | None
    sales_to_repay: int | None

    @property
    def sum_is_wrong(self) -> bool:
        """Whether a printed total differs from the sum of the items."""
        return self.printed is not None and abs(self.printed - self.whole) >= 0.005


def pattern_cost(
    items: Mapping[str, float], *, hours: float = 0.0, wage: float = 0.0, price: float | None = None, fee_percent: float = 0.0,
    printed: float | None = None,
) -> PatternCost:  # fmt: skip
    """Add up what a pattern cost. `fee_percent`: what the shop keeps of `price`.

    >>> pattern_cost({"edit": 100, "photos": 80}, price=6, fee_percent=10).sales_to_repay
    34
    """
    if any(value < 0 for value in (*items.values(), hours, wage, price or 0)) or not 0 <= fee_percent < 100:
        raise YarnError("Costs, hours, wage, price and fee of a pattern cannot be less than nothing, nor a fee all of the price.")
    whole = sum(items.values()) + hours * wage
    net = None if not price else price * (1 - fee_percent / 100)
    return PatternCost(items=dict(items), whole=whole, printed=printed, sales_to_repay=None if not net else math.ceil(whole / net - 1e-9))
