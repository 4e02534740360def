"""An existing pattern changed: to another gauge, wider or longer, the other side of a pair, other sizes, a given amount of yarn."""

from .ballful import largest_for
from .grade import graded
from .mirror import mirrored_pattern
from .regauge import regauged
from .repeats import by_repeats
from .table import Choice, Choices, choices_of, table_of

__all__ = ["Choice", "Choices", "by_repeats", "choices_of", "graded", "largest_for", "mirrored_pattern", "regauged", "table_of"]
