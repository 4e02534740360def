"""How large `hookwright shape` says a part is: by arithmetic, or as it lies relaxed where its rows bend or are too full."""

from __future__ import annotations

from ..measuring import size_told
from .outlines import relaxed_outline
from .piece import PartShape
from .words import both


def gathered(part: PartShape) -> bool:
    """Whether its rows are worked flat but too full to lie so: how wide it is, is what the fabric relaxed to."""
    return not part.measures.in_rounds and part.lies == "ruffles"


def flat_size_cm(part: PartShape) -> tuple[float, float]:
    """(width, length) in cm of a part as it lies."""
    if gathered(part):
        return part.width_cm, part.length_cm
    bent = relaxed_outline(part)
    return (part.measures.width_cm, part.measures.length_cm) if bent is None else (bent.width_cm, bent.length_cm)


def part_size_told(part: PartShape) -> str:
    """Its size in words."""
    if not gathered(part) and relaxed_outline(part) is None:
        return size_told(part.measures, both)
    wide, long = flat_size_cm(part)
    return f"{both(wide)} wide, {both(long)} long as it lies"
