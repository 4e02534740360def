"""Sizes of heads, blankets, scarves and busts as printed by makers and councils, in cm. Presets to edit: for most there is no standard."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ._load import ranged, records


@dataclass(frozen=True, slots=True, kw_only=True)
class Preset:
    """One printed size: (low, high) of a girth, or (width, length) of a flat piece, in cm."""

    kind: str
    name: str
    cm: tuple[float, float]
    source: str


_KEYS = {"head": "who", "blanket": "name", "scarf": "name", "ease": "fit"}


@lru_cache(maxsize=1)
def presets() -> tuple[Preset, ...]:
    """Every printed size. Kinds: "head" (girth), "blanket", "scarf" (width × length), "bust" (girth), "ease" (added to the body).

    >>> next(p for p in presets() if p.kind == "blanket" and p.name == "throw").cm
    (127.0, 152.4)
    """
    out = [
        Preset(kind=kind, name=r[key], cm=ranged(r, "cm") or (0, 0), source=r["source"])
        for kind, key in _KEYS.items()
        for r in records("bodies", kind)
    ]
    busts = [Preset(kind="bust", name=r["size"], cm=(r["cm"], r["cm"]), source=r["source"]) for r in records("bodies", "bust")]
    return (*out, *busts)


def printed(kind: str, name: str) -> tuple[Preset, ...]:
    """All printed sizes of that kind and name: they often disagree, and choosing is the designer's business.

    >>> [p.cm for p in printed("blanket", "crib")]
    [(91.4, 132.1), (114.3, 152.4)]
    """
    return tuple(preset for preset in presets() if preset.kind == kind and preset.name == name)
