"""Lengths in words."""

from __future__ import annotations

from ..trade.units import inches


def both(cm: float) -> str:
    """A length in cm and inches.

    >>> both(15.385)
    '15.4 cm (6 in)'
    """
    return f"{cm:.1f}".removesuffix(".0") + f" cm ({inches(round(cm, 4))} in)"
