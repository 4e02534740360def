"""The one record of bounds. Over a bound: a finding, never a hang or a crash."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    stitches: int = 2_000_000
    """Stitches of one piece of work, in all its rows and readings."""
    row_stitches: int = 1_000_000
    steps: int = 200_000
    """Steps done in working one row, each repeat's steps anew."""
    rows: int = 20_000
    depth: int = 40
    readings: int = 4
    sizes: int = 12
    seconds: float = 20.0
    source: int = 10_000_000
    """Characters of source text that reading takes."""


LIMITS = Limits()
