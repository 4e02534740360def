"""The areal model: how many metres of a yarn lie in a square centimetre of fabric, and how far hands differ.

    metres = area x K x (M/200)^1/4 x (5/hook)^1/2 x lace^openness x relief^relief_share

M is metres per 100 g (of all strands held together), the hook in mm. Metres per area is one over a length; the law says that this length is
the geometric mean of the diameters of yarn and hook. Three constants are fitted on 53 published pieces (`builders/yarn_model.py`, which
also chooses this form inside the left-out loop); the pieces and their sources stand in `authorities/yarn_pieces.csv`.
"""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from .amounts import YarnError

Z90 = 1.6448536269514722
"""Half width of the middle 90 % of a normal law, in standard deviations."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Constants:
    """What the builder found. `*_90`: 5th and 95th percentile when whole sources are drawn again; lengths in m and cm."""

    k_m_per_cm2: float
    k_90: tuple[float, float]
    lace: float
    lace_90: tuple[float, float]
    relief: float
    relief_90: tuple[float, float]
    interval_90: float
    sibling_sd: float
    usual_hook_mm_at_200: float
    usual_hook_exponent: float
    chain_per_length: float
    end_m: float
    pieces: int
    left_out_mdape_percent: float

    @property
    def sd(self) -> float:
        """Standard deviation of log(actual / estimate) for a maker nobody has measured."""
        return math.log(self.interval_90) / Z90


@lru_cache(maxsize=1)
def constants() -> Constants:
    """The shipped constants."""
    told = tomllib.loads((Path(__file__).parent / "data" / "areal.toml").read_text(encoding="utf-8"))
    kept: dict[str, Any] = {name: told[name] for name in Constants.__dataclass_fields__}
    shaped: dict[str, Any] = {name: tuple(value) if isinstance(value, list) else value for name, value in kept.items()}
    return Constants(**shaped)


@dataclass(frozen=True, slots=True)
class Range:
    """Low, likely and high: the actual amount lies between low and high in nine hands of ten."""

    low: float
    likely: float
    high: float

    @classmethod
    def around(cls, likely: float, sd: float, *, fixed: float = 0.0) -> Range:
        """`likely` spread by a log-normal law of standard deviation `sd`, plus a `fixed` amount that is known.

        >>> r = Range.around(100, 0.2067, fixed=10)
        >>> round(r.low), r.likely, round(r.high)
        (81, 110, 150)
        """
        factor = math.exp(Z90 * sd)
        return cls(likely / factor + fixed, likely + fixed, likely * factor + fixed)

    def times(self, factor: float) -> Range:
        return Range(self.low * factor, self.likely * factor, self.high * factor)


def metres_per_cm2(m_per_100g: float, hook_mm: float, *, openness: float = 0.0, relief: float = 0.0) -> float:
    """Metres of yarn in one square centimetre. `openness` 1 = chain-space lace, `relief` 1 = post stitches, bobbles, carried yarn.

    Raises YarnError for a yarn or hook that is not greater than nothing.

    >>> round(metres_per_cm2(200, 5) * 100, 1)
    12.1
    """
    if not (m_per_100g > 0 and hook_mm > 0):
        raise YarnError("Metres per 100 g and the hook must both be greater than nothing.")
    c = constants()
    return float(c.k_m_per_cm2 * (m_per_100g / 200) ** 0.25 * (5 / hook_mm) ** 0.5 * c.lace**openness * c.relief**relief)


def usual_hook_mm(m_per_100g: float) -> float:
    """The hook usual for a yarn: the middles of the council's crochet hooks for categories 1 to 6, as a power law.

    >>> round(usual_hook_mm(175), 1), round(usual_hook_mm(400), 1)
    (5.7, 3.2)
    """
    c = constants()
    return float(c.usual_hook_mm_at_200 * (m_per_100g / 200) ** c.usual_hook_exponent)


TRIED_M_PER_100G = (13.0, 550.0)
TRIED_HOOK_MM = (2.5, 11.5)
"""Between which yarns and hooks the model was tried on published pieces."""


def outside_the_tried(m_per_100g: float, hook_mm: float) -> str:
    """A sentence when yarn or hook lie outside what the model was tried on, else empty.

    >>> outside_the_tried(700, 1.5)
    'This yarn (700 m per 100 g) and hook (1.5 mm) lie outside what the model was tried on (13-550 m per 100 g, 2.5-11.5 mm).'
    """
    low, high = TRIED_M_PER_100G
    thin, thick = TRIED_HOOK_MM
    told = [f"yarn ({m_per_100g:.0f} m per 100 g)"] if not low <= m_per_100g <= high else []
    told += [f"hook ({hook_mm:g} mm)"] if not thin <= hook_mm <= thick else []
    if not told:
        return ""
    lies = "lies" if len(told) == 1 else "lie"
    return (
        f"This {' and '.join(told)} {lies} outside what the model was tried on ({low:.0f}-{high:.0f} m per 100 g, {thin:g}-{thick:g} mm)."
    )
