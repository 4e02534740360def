"""The slip made most often at each action, and how it looks in the fabric."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ._load import records


@dataclass(frozen=True, slots=True, kw_only=True)
class CommonSlip:
    """One slip: `at` the action it goes with, `slip` what is done, `looks` what is then seen."""

    at: str
    slip: str
    looks: str
    source: str


@lru_cache(maxsize=1)
def common_slips() -> dict[str, CommonSlip]:
    """Every slip by its action.

    >>> common_slips()["increase"].looks
    'the count is too low and the fabric draws together there'
    """
    return {r["at"]: CommonSlip(at=r["at"], slip=r["slip"], looks=r["looks"], source=r["source"]) for r in records("slips", "slip")}
