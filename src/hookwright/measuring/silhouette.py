"""The outline of a part worked in rounds: a disc, a polygon with corners, or the side view of a cup, a tube, a ball."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .rounds import RoundsMeasure

Point = tuple[float, float]
_ROUND_POINTS = 72


def profile(rounds: RoundsMeasure) -> tuple[Point, ...]:
    """(radius, height) in cm where the rounds begin and at the top of every round, as a surface of revolution; the first height is 0."""
    radius, z = rounds.start_girth_cm / math.tau, 0.0
    points = [(radius, z)]
    for each in rounds.rounds:
        out = each.girth_cm / math.tau - radius
        z += math.sqrt(max(0.0, each.height_cm**2 - out**2))
        radius = each.girth_cm / math.tau
        points.append((radius, z))
    return tuple(points)


def silhouette(rounds: RoundsMeasure, view: Sequence[Point] = ()) -> tuple[Point, ...]:
    """The outline as a closed polygon, anticlockwise, from (0, 0).

    Flat and ruffled pieces from above (a ruffled one at its reach), the rest from the side: a cup with its first round at the top, as a
    hat is worn; tubes and closed pieces with it at the bottom. `view`: (radius, height) of rounds that lie otherwise than by `profile`.
    """
    if rounds.lies in ("flat", "ruffles"):
        return _drawn_out(_from_above(rounds.diameter_cm, rounds.corners), rounds.spine_cm, rounds.ends_cm)
    sides = [(r, -z if rounds.from_top else z) for r, z in view or profile(rounds)]
    low = min(z for _, z in sides)
    wide = max(r for r, _ in sides)
    right = [(wide + r, z - low) for r, z in sides]
    left = [(wide - r, z - low) for r, z in reversed(sides)]
    around = [*right, *left]
    if rounds.from_top:
        around.reverse()
    return tuple(_without_doubles(around))


def _from_above(diameter: float, corners: int) -> tuple[Point, ...]:
    """A circle, or a regular polygon standing on a side, `diameter` across (between sides, or from side to corner)."""
    if corners < 3:
        r = diameter / 2
        turns = [math.tau * (i + 0.5) / _ROUND_POINTS - math.pi / 2 for i in range(_ROUND_POINTS)]
        return tuple((r + r * math.cos(turn), r + r * math.sin(turn)) for turn in turns)
    r = diameter / 2 / math.cos(math.pi / corners)
    turns = [math.pi / corners + math.tau * i / corners - math.pi / 2 for i in range(corners)]
    points = [(r * math.cos(turn), r * math.sin(turn)) for turn in turns]
    left, bottom = min(x for x, _ in points), min(y for _, y in points)
    return tuple((x - left, y - bottom) for x, y in points)


def _drawn_out(points: tuple[Point, ...], spine: float, ends: float) -> tuple[Point, ...]:
    """A round piece as an oval, a square one as a rectangle: as long as its two ends, then its right half moved away by the length of the
    chain in its middle."""
    if spine <= 0:
        return points
    middle = (min(x for x, _ in points) + max(x for x, _ in points)) / 2
    along = ends / (2 * middle) if middle > 0 else 1.0
    return tuple((x * along + (spine if x > middle else 0.0), y) for x, y in points)


def _without_doubles(points: Sequence[Point]) -> list[Point]:
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(point, kept[-1]) > 1e-6:
            kept.append(point)
    if len(kept) > 1 and math.dist(kept[0], kept[-1]) <= 1e-6:
        kept.pop()
    return kept
