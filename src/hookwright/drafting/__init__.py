"""Measurements and a swatch to a pattern; an existing pattern to another gauge, size, side, or amount of yarn."""

from .asks import Custom, Refused, custom_of, gauge_of, length_cm
from .changes import Choice, Choices, by_repeats, choices_of, graded, largest_for, mirrored_pattern, regauged, table_of
from .drafts import draft, unknown_family
from .families import families
from .result import Draft, Family, Obtained, View
from .spread import Spread, spread

__all__ = [
    "Choice", "Choices", "Custom", "Draft", "Family", "Obtained", "Refused", "Spread", "View", "by_repeats", "choices_of", "custom_of",
    "draft", "families", "gauge_of", "graded", "largest_for", "length_cm", "mirrored_pattern", "regauged", "spread", "table_of",
    "unknown_family",
]  # fmt: skip
