"""Whole-number stitches for every round of a profile: the best there are, by dynamic programming over the rounds.

Rounding each round by itself comes closest to every girth, but gives increases that cannot be spread evenly (7 into 25) and changes
that come and go. So every round n after p stitches is priced:

    (n − wanted)²  +  uneven × r(k − r)/k²  +  shaped   (the last two only where n ≠ p)

with k = |n − p| changes in a round of min(n, p) … stitches, r = what is left over when the round is cut into k equal parts: r(k − r)/k²
is the variance of the gaps between the changes (0 when they are all alike, ¼ at worst). The least sum over all rounds is found exactly:
the table holds every count within `reach` of the girth wanted, and the reach is widened until no path outside it could be cheaper.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import floor

from .asks import Refused


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """What makes one plan dearer than another, in squared stitches of girth. `multiple`: counts are kept to multiples of this."""

    uneven: float = 2.0
    shaped: float = 0.02
    multiple: int = 1
    most_up: int | None = None
    """The most stitches a round may gain; None: as many as it has (every stitch doubled)."""
    most_down: int | None = None
    """The most it may lose; None: half of what it has."""


@dataclass(frozen=True, slots=True)
class Best:
    """The stitches of every round and the price of the whole."""

    counts: tuple[int, ...]
    price: float


def best_counts(
    wanted: Sequence[float],
    *,
    first: Sequence[int] = (),
    last: Sequence[int] = (),
    least: int = 3,
    prices: Prices | None = None,
    bands: Sequence[tuple[float, float]] = (),
) -> Best:
    """The counts of least price. `wanted`: stitches each round should have; `first`, `last`: what the ends may be (any, when empty).

    `bands`: least and most of every round; where no plan stays inside them all, they are left out of account.

    Refuses a profile that no bounded change can follow, and says at which round.
    """
    prices = prices or Prices()
    if bands:
        inside = _within(wanted, first, last, least, prices, 0, bands)
        if inside is not None:
            return inside
    reach = 2 * prices.multiple + 1
    top = int(max(wanted)) + 4 * prices.multiple + 4
    while True:
        best = _within(wanted, first, last, least, prices, reach)
        if best is not None and (best.price <= _outside(wanted, prices, reach) or reach > top):
            return best
        if reach > top:
            raise _cannot(wanted, prices)
        reach *= 2


def price_of(counts: Sequence[int], wanted: Sequence[float], prices: Prices | None = None) -> float:
    """The price of given counts, term by term as the heading says: what `best_counts` makes least."""
    prices = prices or Prices()
    total = sum((n - w) ** 2 for n, w in zip(counts, wanted, strict=True))
    return total + sum(_step(p, n, prices) for p, n in pairwise(counts))


def _step(before: int, now: int, prices: Prices) -> float:
    change = abs(now - before)
    if change == 0:
        return 0.0
    over = min(before, now) % change
    return prices.shaped + prices.uneven * over * (change - over) / change**2


def allowed(before: int, now: int, prices: Prices) -> bool:
    """Whether a round of `now` stitches can be worked on `before`."""
    up = before if prices.most_up is None else min(before, prices.most_up)
    down = before // 2 if prices.most_down is None else min(before // 2, prices.most_down)
    return -down <= now - before <= up


def _outside(wanted: Sequence[float], prices: Prices, reach: int) -> float:
    """No plan that leaves the table anywhere can be cheaper than this: one round off by more than the reach, the rest as near as can be."""
    m = prices.multiple
    nearest = [(round(w / m) * m - w) ** 2 for w in wanted]
    return sum(nearest) - max(nearest) + (reach + 0.5) ** 2


def _within(
    wanted: Sequence[float],
    first: Sequence[int],
    last: Sequence[int],
    least: int,
    prices: Prices,
    reach: int,
    bands: Sequence[tuple[float, float]] = (),
) -> Best | None:
    import numpy as np

    m = prices.multiple
    columns = []
    for k, w in enumerate(wanted):
        given = first if k == 0 and len(first) else last if k == len(wanted) - 1 and len(last) else None
        if given is None:
            lowest, most = (floor(bands[k][0]), floor(bands[k][1] + 1e-9)) if bands else (int(w) - reach, int(w) + 1 + reach)
            if bands and lowest < bands[k][0] - 1e-9:
                lowest += 1
            low = max(-(-least // m) * m, -(-max(1, lowest) // m) * m)
            given = range(low, max(low, most) + 1, m)
        columns.append(np.asarray(list(given), dtype=np.int64))
    price = (columns[0] - wanted[0]) ** 2.0
    back: list[np.ndarray] = []
    for k in range(1, len(columns)):
        before, now = columns[k - 1][:, None], columns[k][None, :]
        table = price[:, None] + _steps(np, before, now, prices)
        chosen = table.argmin(axis=0)
        price = table[chosen, np.arange(table.shape[1])] + (columns[k] - wanted[k]) ** 2.0
        back.append(chosen)
    if not np.isfinite(price.min()):
        return None
    at = int(price.argmin())
    total = float(price[at])
    counts = [int(columns[-1][at])]
    for k in range(len(columns) - 1, 0, -1):
        at = int(back[k - 1][at])
        counts.append(int(columns[k - 1][at]))
    return Best(tuple(reversed(counts)), total)


def _steps(np, before, now, prices: Prices):  # type: ignore[no-untyped-def]
    """The price of every step from a column of counts to the next; infinite where it cannot be worked."""
    change = np.abs(now - before)
    safe = np.maximum(change, 1)
    over = np.minimum(before, now) % safe
    price = np.where(change > 0, prices.shaped + prices.uneven * over * (safe - over) / safe**2.0, 0.0)
    up = before if prices.most_up is None else np.minimum(before, prices.most_up)
    down = before // 2 if prices.most_down is None else np.minimum(before // 2, prices.most_down)
    return np.where((now - before > up) | (before - now > down), np.inf, price)


def _cannot(wanted: Sequence[float], prices: Prices) -> Refused:
    for k, (p, n) in enumerate(pairwise(wanted), start=2):
        up = p if prices.most_up is None else min(p, prices.most_up)
        if n > p + up + 1 or n < p / 2 - 1:
            grows = n > p
            return Refused(
                f"Round {k} would have to go from about {p:.0f} to {n:.0f} stitches, {'more than double' if grows else 'less than half'}.",
                "Make that slope longer, or begin with a larger ring.",
            )
    return Refused("No counts follow this profile with the changes allowed.", "Allow a larger change in a round.")
