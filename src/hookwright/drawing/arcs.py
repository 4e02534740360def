"""Chains along a line or an arc between two points: where each oval lies, which way it points, how long it is."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

from .symbols import CHAIN_MM

Point = tuple[float, float]


SHORTEST_STEP = 2.3
PICOT_GAP = 1.7
"""Radians of a picot's loop left open at its foot."""
ROOM_FOR_BOW = 1.16
"""Chains of an arc are drawn shorter rather than let it bow out much further than this, as length over chord."""


FEWEST_OF_A_DROP, DROP = 7, 3.2
"""So many chains from and to places so near (length over chord) hang as a drop: a circle would lie on what stands beside its foot."""
DROP_HALF = math.radians(28)
"""Half the angle at a drop's point."""


class Oval(NamedTuple):
    """One chain: its centre, the direction of its long axis (degrees, counter-clockwise from x, y up), its length in mm."""

    x: float
    y: float
    angle_deg: float
    length: float


@lru_cache(maxsize=2048)
def _half_angle(thousandths: int) -> float:
    """Half the angle of the arc whose chord is so many thousandths of its length: the root of sin(t)/t = ratio, by bisection."""
    ratio = thousandths / 1000
    low, high = 1e-4, math.pi * 0.94
    for _ in range(40):
        t = (low + high) / 2
        low, high = (t, high) if math.sin(t) / t > ratio else (low, t)
    return (low + high) / 2


def along(p: Point, q: Point, chains: int, out: Point, *, least_bow: float = 0.0, size: float = CHAIN_MM) -> list[Oval]:
    """Ovals for `chains` chains from p to q, bowing towards `out` (a unit vector) when they are longer than the way.

    `least_bow`: the bow they must have in any case (a run along a circle), in mm.
    """
    dx, dy = q[0] - p[0], q[1] - p[1]
    chord = math.hypot(dx, dy)
    step = min(size + 0.4, max(SHORTEST_STEP, ROOM_FOR_BOW * chord / chains))
    length = max(chains * step, chord)
    if least_bow > 0 and chord > 0:
        length = max(length, chord * (1 + 8 / 3 * (least_bow / chord) ** 2))
    if chord < 0.2:
        dx, dy, chord = out[1] * 0.2, -out[0] * 0.2, 0.2
        p = (p[0] - dx / 2, p[1] - dy / 2)
    if length <= chord * 1.004:
        return _straight(p, dx, dy, chord, chains, size)
    if chains >= FEWEST_OF_A_DROP and length > DROP * chord and not least_bow > chord:
        return _drop(p, (dx, dy), chord, length, chains, out, size)
    return _bowed(p, (dx, dy), chord, length, chains, out, size)


def _straight(p: Point, dx: float, dy: float, chord: float, chains: int, size: float) -> list[Oval]:
    angle = math.degrees(math.atan2(dy, dx))
    long = min(size, chord / chains - (0.36 if chains > 1 else 0.1))
    return [Oval(p[0] + dx * (i + 0.5) / chains, p[1] + dy * (i + 0.5) / chains, angle, max(long, 0.8)) for i in range(chains)]


def _drop(p: Point, d: Point, chord: float, length: float, chains: int, out: Point, size: float) -> list[Oval]:
    """A long loop from and to (nearly) one place: two straight sides that part, and the arc that joins them."""
    ux, uy = d[0] / chord, d[1] / chord
    side = 1.0 if -uy * out[0] + ux * out[1] >= 0 else -1.0
    nx, ny = -uy * side, ux * side
    s, c, turn = math.sin(DROP_HALF), math.cos(DROP_HALF), math.pi + 2 * DROP_HALF
    # Length = two tangents and the arc between them: solved for the distance of the arc's middle from that of the chord.
    far = (length + chord * s - chord / 2 * c * turn) / (2 * c + s * turn)
    radius, straight = far * s + chord / 2 * c, far * c - chord / 2 * s
    long = min(size, length / chains - 0.4)
    ovals = []
    for i in range(chains):
        way = length * (i + 0.5) / chains
        if way < straight or way > length - straight:
            first = way < straight
            t = way if first else length - way
            u, v = (-s * t, c * t) if first else (chord + s * t, c * t)
            angle = math.atan2(c, -s) if first else math.atan2(-c, -s)
        else:
            a = math.pi + DROP_HALF - (way - straight) / radius
            u, v = chord / 2 + radius * math.cos(a), far + radius * math.sin(a)
            angle = a - math.pi / 2
        x, y = p[0] + ux * u + nx * v, p[1] + uy * u + ny * v
        along_x, along_y = math.cos(angle), math.sin(angle)
        ovals.append(Oval(x, y, math.degrees(math.atan2(uy * along_x + ny * along_y, ux * along_x + nx * along_y)), long))
    return ovals


def _bowed(p: Point, d: Point, chord: float, length: float, chains: int, out: Point, size: float) -> list[Oval]:
    half = _half_angle(max(30, min(999, round(chord / length * 1000))))
    radius = chord / (2 * math.sin(half))
    length = 2 * half * radius
    ux, uy = d[0] / chord, d[1] / chord
    side = 1.0 if -uy * out[0] + ux * out[1] >= 0 else -1.0
    nx, ny = -uy * side, ux * side
    cx = p[0] + d[0] / 2 - nx * radius * math.cos(half)
    cy = p[1] + d[1] / 2 - ny * radius * math.cos(half)
    long = min(size, length / chains - 0.4)
    ovals = []
    for i in range(chains):
        t = -half + 2 * half * (i + 0.5) / chains
        st, ct = math.sin(t), math.cos(t)
        along_x, along_y = ux * ct - nx * st, uy * ct - ny * st
        ovals.append(
            Oval(cx + radius * (ux * st + nx * ct), cy + radius * (uy * st + ny * ct), math.degrees(math.atan2(along_y, along_x)), long)
        )
    return ovals


def loop_radius(chains: int, size: float = 2.0) -> float:
    """The radius of a picot's loop, to the middle of its chains."""
    return max(chains * (size + 0.3) / (2 * math.pi - PICOT_GAP), 0.85)


def loop(at: Point, chains: int, out: Point, *, size: float = 2.0) -> list[Oval]:
    """A picot: chains bent into a loop that starts and ends at `at` and hangs towards `out`."""
    gap, radius = PICOT_GAP, loop_radius(chains, size)
    cx, cy = at[0] + out[0] * (radius + 0.25), at[1] + out[1] * (radius + 0.25)
    base = math.atan2(-out[1], -out[0])
    long = min(size, (2 * math.pi - gap) * radius / chains - 0.3)
    ovals = []
    for i in range(chains):
        t = base + gap / 2 + (2 * math.pi - gap) * (i + 0.5) / chains
        ovals.append(Oval(cx + radius * math.cos(t), cy + radius * math.sin(t), math.degrees(t) + 90, long))
    return ovals
