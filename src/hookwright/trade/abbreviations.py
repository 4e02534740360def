"""Abbreviations in use, US and UK side by side, and the forms that older books print."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ._load import records
from .kinds import base
from .terms import System, kind_of, name


@dataclass(frozen=True, slots=True, kw_only=True)
class Abbreviation:
    """One entry: how it is abbreviated in US and UK terms (customary form first), what it means, and the group it belongs to."""

    us: tuple[str, ...]
    uk: tuple[str, ...]
    meaning: str
    group: str
    source: str

    def short(self, system: System) -> str:
        """The customary form in `system`."""
        return (self.us if system == "US" else self.uk)[0]


@lru_cache(maxsize=1)
def abbreviations() -> tuple[Abbreviation, ...]:
    """Every entry, in the data file's order."""
    return tuple(
        Abbreviation(us=tuple(r["us"]), uk=tuple(r["uk"]), meaning=r["meaning"], group=r["group"], source=r["source"])
        for r in records("abbreviations", "abbreviation")
    )


@lru_cache(maxsize=1)
def older_forms() -> dict[str, str]:
    """What older books print → the stitch id it means today.

    >>> older_forms()["s d c"]
    'hdc'
    """
    return {r["words"]: r["us"] for r in records("abbreviations", "older")}


@lru_cache(maxsize=2)
def _by_short(system: System) -> dict[str, Abbreviation]:
    out: dict[str, Abbreviation] = {}
    for entry in abbreviations():
        for short in entry.us if system == "US" else entry.uk:
            out.setdefault(short.lower(), entry)
    return out


def meaning(short: str, system: System) -> str | None:
    """What an abbreviation means in `system`, in words; None when the trade has no such abbreviation.

    >>> meaning("tr", "UK"), meaning("tr", "US"), meaning("sk", "US"), meaning("miss", "UK"), meaning("FPtr", "UK"), meaning("qx", "US")
    ('treble', 'treble crochet', 'skip', 'skip', 'front post treble', None)
    """
    kind = kind_of(short, system)
    if kind is not None and (name(kind, system) != kind or base(kind) != kind):
        return name(kind, system)
    entry = _by_short(system).get(short.lower())
    return None if entry is None else entry.meaning
