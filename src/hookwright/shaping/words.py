"""Lengths in words."""

from __future__ import annotations

from ..trade.units import inches


def both(cm: float) -> str:
    """A length in cm and inches.

    >>> both(15.385)
    '15.4 cm (6 in)'
    """
    return f"{cm:.1f}".removesuffix(".0") + f" cm ({inches(round(cm, 4))} in)"


def in_cm(value: float) -> float:
    """A length for JSON: to a hundredth of a millimetre, never -0."""
    return round(value, 3) + 0.0
