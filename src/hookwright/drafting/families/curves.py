"""Crescents and wings, worked from side to side: the rows run across the depth."""

from __future__ import annotations

import math

from ..asks import Custom, Refused
from ..flatdraft import flat_draft
from ..outline import Outline, Point
from ..result import Asked, Draft, Family

_STEPS = 96


def arc(chord: float, rise: float, steps: int = _STEPS) -> list[Point]:
    """Points (x, y) of a circle's arc over a chord along y from 0 to `chord`, bulging `rise` to the right."""
    radius = (chord * chord / 4 + rise * rise) / (2 * rise)
    half = math.asin(min(1.0, chord / 2 / radius))
    turn = [half * (2 * k / steps - 1) for k in range(steps + 1)]
    return [(radius * math.cos(a) - (radius - rise), chord / 2 + radius * math.sin(a)) for a in turn]


def crescent_outline(length: float, depth: float, curve: float) -> Outline:
    """Two arcs over one chord: the inner rises `curve`, the outer `curve + depth`."""
    outer = arc(length, curve + depth)
    inner = [(0.0, k * length / _STEPS) for k in range(_STEPS + 1)] if curve <= 1e-9 else arc(length, curve)
    return tuple(outer + inner[-2:0:-1])


def crescent(asked: Asked, custom: Custom) -> Draft:
    """A shawl between two arcs, tip to tip."""
    length, depth = asked.cm("length"), asked.cm("depth")
    curve = asked.get("curve", min(depth / 3, max(0.0, length / 2 - depth)))
    if curve + depth > length / 2 + 1e-9:
        most = max(0.0, length / 2 - depth)
        nearest = (
            f"The deepest curve here is {most:.1f} cm (--curve {most:.1f}cm)." if most > 0.1 else f"The deepest is {length / 2:.1f} cm."
        )
        raise Refused(
            f"A crescent {length:.0f} cm from tip to tip that curves {curve + depth:.0f} cm bends back on itself, so rows cannot follow.",
            nearest,
        )
    return flat_draft("crescent", "Crescent", crescent_outline(length, depth, curve), custom, across="across", along="length")


def wing(asked: Asked, custom: Custom) -> Draft:
    """From a point, one edge straight, the other sweeping out to the full depth."""
    length, depth = asked.cm("length"), asked.cm("depth")
    sweep = {"straight": 1.0, "gentle": 1.4, "deep": 2.0}[asked.word("sweep", "gentle", ("straight", "gentle", "deep"))]
    edge = [(depth * (k / _STEPS) ** sweep, length * k / _STEPS) for k in range(_STEPS + 1)]
    outline = (*edge, (0.0, length)) if sweep > 1 else ((0.0, 0.0), (depth, length), (0.0, length))
    return flat_draft("wing", "Wing", outline, custom, across="depth", along="length")


FAMILIES = (
    Family(
        name="crescent",
        what="a crescent worked from tip to tip",
        make=crescent,
        needs=("length", "depth"),
        lengths={
            "length": "straight from tip to tip",
            "depth": "at the middle",
            "curve": "how far the inner edge bends (left out: a third of the depth)",
        },
    ),
    Family(
        name="wing",
        what="a long wing: one edge straight, the other sweeping out from a point",
        make=wing,
        needs=("length", "depth"),
        lengths={"length": "of the straight edge", "depth": "of the last row"},
        words={"sweep": "straight, gentle, deep"},
    ),
)
