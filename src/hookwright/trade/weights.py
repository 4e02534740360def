"""Yarn weights: the classes 0 to 7, what each is called, and the ranges custom gives it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from ._load import ranged, records

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnWeight:
    """One class. Ranges are (low, high): `gauge_per_10cm` stitches of `gauge_stitch`, hook in mm, wraps per inch, metres per 100 g."""

    number: int
    name: str
    us_names: tuple[str, ...]
    uk_names: tuple[str, ...]
    aunz_ply: tuple[str, ...]
    gauge_per_10cm: Range
    gauge_stitch: str
    hook_mm: Range
    wraps_per_inch: Range
    m_per_100g: Range
    source: str

    @property
    def m_per_100g_middle(self) -> float:
        """The geometric middle of the metres per 100 g: what to take when only the class is known."""
        low, high = self.m_per_100g
        return float((low * high) ** 0.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A crochet thread by number (a larger number is thinner)."""

    number: str
    near_weight: int | None
    hook_mm: Range | None
    us_steel: tuple[str, ...]
    source: str


@lru_cache(maxsize=1)
def weights() -> tuple[YarnWeight, ...]:
    """The eight classes, thinnest first."""
    return tuple(
        YarnWeight(
            number=r["number"],
            name=r["name"],
            us_names=tuple(r["us_names"]),
            uk_names=tuple(r["uk_names"]),
            aunz_ply=tuple(r.get("aunz_ply", ())),
            gauge_per_10cm=_range(r, "gauge_per_10cm"),
            gauge_stitch=r["gauge_stitch"],
            hook_mm=_range(r, "hook_mm"),
            wraps_per_inch=_range(r, "wraps_per_inch"),
            m_per_100g=_range(r, "m_per_100g"),
            source=r["source"],
        )
        for r in records("weights", "weight")
    )


@lru_cache(maxsize=1)
def threads() -> tuple[Thread, ...]:
    """Crochet threads, thickest first."""
    return tuple(
        Thread(
            number=r["number"],
            near_weight=r.get("near_weight"),
            hook_mm=ranged(r, "hook_mm"),
            us_steel=tuple(r.get("us_steel", ())),
            source=r["source"],
        )
        for r in records("weights", "thread")
    )


def named(text: str) -> tuple[YarnWeight, ...]:
    """The classes that the words may mean; two where the trade disagrees (4 ply), none where it knows no such name.

    >>> [w.number for w in named("worsted")], [w.number for w in named("4 ply")], [w.number for w in named("Aran weight, 10-ply")]
    ([4], [1, 2], [4])
    >>> [w.number for w in named("category 3")], [w.number for w in named("#5")], [w.number for w in named("DK")], named("fluff")
    ([3], [5], [3], ())
    """
    words = re.sub(r"(\d+)\s*-?\s*ply", r"\1ply", text.lower())
    number = re.search(r"(?:category|class|cyc|weight|#)\s*#?\s*([0-7])\b|^\s*([0-7])\s*$", words)
    if number:
        return (weights()[int(number[1] or number[2])],)
    ply = re.search(r"\b(\d+)ply\b", words)
    if ply:
        return tuple(weight for weight in weights() if ply[1] in _plies(weight))
    found = [(len(name), weight) for weight in weights() for name in _names(weight) if re.search(rf"\b{re.escape(name)}\b", words)]
    longest = max((length for length, _ in found), default=0)
    return tuple(dict.fromkeys(weight for length, weight in found if length == longest))


def likely(m_per_100g: float) -> YarnWeight:
    """The class whose metres per 100 g lie nearest.

    >>> likely(215 / 1.41).name, likely(400).number
    ('Medium', 1)
    """
    return min(weights(), key=lambda weight: _distance(m_per_100g, weight.m_per_100g))


def _distance(value: float, between: Range) -> tuple[float, float]:
    low, high = between
    outside = max(low / value, value / high, 1.0)
    middle = (low * high) ** 0.5
    return outside, max(value / middle, middle / value)


def _names(weight: YarnWeight) -> set[str]:
    return {name.lower() for name in (weight.name, *weight.us_names, *weight.uk_names)} - {"thread"}


_SOMETIMES_PLY = {2: ("4",)}
"""One UK chart puts 4 ply at class 2 (yarn_weights: see the head of weights.toml)."""


def _plies(weight: YarnWeight) -> set[str]:
    told = [name for name in (*weight.aunz_ply, *weight.uk_names) if name.endswith("ply")]
    out: set[str] = set(_SOMETIMES_PLY.get(weight.number, ()))
    for name in told:
        low, _, high = name.removesuffix("ply").strip().partition("-")
        out |= {str(n) for n in range(int(low), int(high or low) + 1)}
    return out


def _range(record: dict[str, object], key: str) -> Range:
    pair = ranged(record, key)
    assert pair is not None, f"{key} is missing in weights.toml"
    return pair
