"""Work a pattern: every step of every row, on what the row below offers."""

from ..pattern import LIMITS, Limits, Pattern
from .fabric import Fabric


def work(pattern: Pattern, *, size: int = 0, before: Fabric | None = None, limits: Limits = LIMITS) -> Fabric:
    """The fabric of `pattern` in `size` (from 0). Never raises; bounded by `limits`."""
    return Fabric(pattern=pattern, size=size, parts=())
