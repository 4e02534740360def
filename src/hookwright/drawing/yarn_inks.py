"""Which ink a yarn is drawn in: one of the charts' few inks, the one most like its colour when the pattern tells it."""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import permutations

from ..yarn.hues import has_colour, oklab, rgb_for
from .inks import YARN_INK
from .marks import Chart

GREY = 0.04
"""OKLab chroma below which a colour is black, grey or white: it is drawn in black."""
FAR = 2.0
"""The cost of an ink that has nothing of the yarn's hue, in radians of hue."""


def inks(chart: Chart) -> tuple[str, ...]:
    """The ink of every yarn of a chart."""
    return inks_of((*chart.yarn_words, *[""] * (len(chart.yarns) - len(chart.yarn_words)))[: len(chart.yarns)])


@lru_cache(maxsize=256)
def inks_of(colours: tuple[str, ...]) -> tuple[str, ...]:
    """An ink for each yarn by its colour in words ("" where none is told), no two alike while there are inks enough.

    Yarns without a colour take the inks in their order.

    >>> inks_of(("deep blue", "gull white")) == (YARN_INK[1], YARN_INK[0])
    True
    """
    n = len(colours)
    if not 1 < n <= len(YARN_INK) or not any(has_colour(colour) for colour in colours):
        return tuple(YARN_INK[i % len(YARN_INK)] for i in range(n))
    costs = [
        [_unlike(colour, ink) if has_colour(colour) else 0.02 * abs(k - i) for k, ink in enumerate(YARN_INK)]
        for i, colour in enumerate(colours)
    ]
    best = min(permutations(range(len(YARN_INK)), n), key=lambda order: (round(sum(costs[i][k] for i, k in enumerate(order)), 6), order))
    return tuple(YARN_INK[k] for k in best)


def _unlike(colour: str, ink: str) -> float:
    lightness, a, b = oklab(rgb_for(colour))
    _, c, d = oklab(rgb_for(ink))
    grey, black = math.hypot(a, b) < GREY, math.hypot(c, d) < GREY
    if grey or black:
        return 0.5 * lightness if grey and black else FAR - 0.5 * lightness * (not black)
    return abs(math.remainder(math.atan2(b, a) - math.atan2(d, c), 2 * math.pi))
