"""Spacing along one row: every post as near as can be to what it stands on, neighbours no nearer than their ink allows."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..trade.kinds import closes
from .symbols import PITCH_MM, plain

HALF_WIDTH_MM: dict[str, float] = {
    "bobble": 2.3,
    "cl": 2.0,
    "puff": 1.6,
    "popcorn": 1.6,
    "star": 1.65,
    "sl st": 0.75,
    "sc": 1.05,
    "esc": 1.05,
}
"""Half the ink of a symbol, across; others 1.1."""
LOW = ("sc", "esc", "sl st", "crab")
"""So low that two of them from one foot must part quickly."""
CLEAR_MM = 0.3
FAR = 1e6
"""An easy distance that never draws neighbours together."""
CUT_MM = 7.5
"""Left free where a wide row is cut."""
BREAK_ROWS_MM = 3.4
"""Left free where rows are left out."""
FAN = 0.77
"""Of the pitch: from top to top of stitches that share one foot."""


def half_width(kind: str) -> float:
    """Half the width a symbol needs at its top."""
    name = plain(kind)
    return HALF_WIDTH_MM.get(name, 1.15) if closes(kind) < 2 else 1.15


def least(kind: str, other: str, chains: int, pitch: float, *, fan: bool, apart: bool = False, seats: bool = False) -> float:
    """The least distance between the tops of two neighbours with so many chains between them.

    `fan`: they share their foot; `seats`: which is a space, where each stands by itself. `apart`: places were skipped between them, so
    that only their ink has to keep clear.
    """
    ink = half_width(kind) + half_width(other)
    if chains == 0 and fan and seats and plain(kind) in LOW and plain(other) in LOW:
        return ink + 0.6
    if chains == 0 and fan and (plain(kind) in LOW or plain(other) in LOW):
        return pitch * 1.02
    if chains == 0 and not fan:
        return ink + 0.5 if apart else max(pitch, ink + CLEAR_MM)
    if chains == 0:
        return max(FAN * pitch, ink - 0.1)
    return max(pitch, ink + chain_room(chains))


def chain_room(chains: int) -> float:
    """Room along the row that a run of chains needs before it must bow out further than looks well."""
    return (2.8, 4.0, 4.5, 4.9, 5.3, 5.7)[min(chains, 6) - 1]


def natural(chains: int, pitch: float, minimum: float) -> float:
    """The distance at which neighbours sit easily."""
    return minimum if chains == 0 else max(minimum, pitch * (chains + 1))


def spread(wanted: Sequence[float], gaps: Sequence[float], weights: Sequence[float]) -> list[float]:
    """Positions nearest to those wanted (weighted least squares) with at least `gaps[i]` from position i to i + 1.

    Pooling of adjacent violators (isotonic regression; Barlow, Bartholomew, Bremner and Brunk 1972, from memory). Linear in time.

    >>> spread([0, 0, 10], [2, 2], [1, 1, 1])
    [-1.0, 1.0, 10.0]
    """
    offset = [0.0]
    for gap in gaps:
        offset.append(offset[-1] + gap)
    means: list[float] = []
    masses: list[float] = []
    sizes: list[int] = []
    for want, weight, off in zip(wanted, weights, offset, strict=True):
        mean, mass, size = want - off, weight, 1
        while means and means[-1] > mean:
            before, heavy = means.pop(), masses.pop()
            mean = (mean * mass + before * heavy) / (mass + heavy)
            mass += heavy
            size += sizes.pop()
        means.append(mean)
        masses.append(mass)
        sizes.append(size)
    at: list[float] = []
    for mean, size in zip(means, sizes, strict=True):
        at.extend([mean] * size)
    return [mean + off for mean, off in zip(at, offset, strict=True)]


def drawn_together(wanted: Sequence[float], easy: Sequence[float], weights: Sequence[float], pull: float, push: float = 0.0) -> list[float]:
    """Wanted positions eased by springs: neighbours further apart than is easy come nearer (`pull`), nearer ones part (`push`).

    A tridiagonal system, linear in time.
    """
    n = len(wanted)
    springs = [pull if wanted[i + 1] - wanted[i] > easy[i] + 0.01 else (push if easy[i] < FAR else 0.0) for i in range(n - 1)]
    if not any(springs):
        return list(wanted)
    diagonal = list(weights)
    right = [w * x for w, x in zip(weights, wanted, strict=True)]
    for i, spring in enumerate(springs):
        diagonal[i] += spring
        diagonal[i + 1] += spring
        right[i] -= spring * easy[i]
        right[i + 1] += spring * easy[i]
    for i in range(1, n):
        share = -springs[i - 1] / diagonal[i - 1]
        diagonal[i] += share * springs[i - 1]
        right[i] -= share * right[i - 1]
    at = [0.0] * n
    for i in range(n - 1, -1, -1):
        at[i] = (right[i] + (springs[i] * at[i + 1] if i < n - 1 else 0.0)) / diagonal[i]
    return at


def settle(
    wanted: Sequence[float],
    gaps: Sequence[float],
    easy: Sequence[float],
    weights: Sequence[float],
    pull: float = 0.5,
    push: float = 0.0,
) -> list[float]:
    """Positions of one row in ascending order: drawn together where they gape, then spread to the least distances.

    >>> settle([0, 3, 6], [3, 3], [3, 3], [1, 1, 1])
    [0, 3, 6]
    """
    if not push and all(gap - 1e-6 <= b - a <= ease + 0.01 for (a, b), gap, ease in zip(pairwise(wanted), gaps, easy, strict=True)):
        return list(wanted)
    return spread(drawn_together(wanted, easy, weights, pull, push), gaps, weights)


PITCHES = {"sc": 3.0, "esc": 3.0, "sl st": 3.0, "crab": 3.0}


def pitch_of(kinds: Sequence[str]) -> float:
    """The pitch of a part: narrower when everything in it is single crochet or lower."""
    seen = {plain(kind) for kind in kinds if kind != "ch"}
    return max((PITCHES.get(kind, PITCH_MM) for kind in seen), default=PITCH_MM)
