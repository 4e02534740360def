"""The pieces of a garment's body in their places: their sides, their tops, and where they end in two."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from ..measuring import Placed, outer_run
from ..measuring.garments import upper_from
from .joined import Whole
from .piece import PartShape
from .rims import Rim, side_rim

SHOULDER: Final = 1 / 3
"""The share of a straight top edge that each shoulder seam takes where no neck is shaped (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Panel:
    """One piece of the body in its place: `first` its first node; `sides` its edges (whether B) at -x and at +x."""

    part: PartShape
    first: int
    sides: tuple[bool, bool]

    def rows(self, right: bool) -> list[Placed]:
        """The rows that reach furthest to a side, from the first upward."""
        it = self.part.measures
        standing = [row for row in it.placed if row.top != row.bottom and row.index not in it.edging]
        return outer_run([row for row in standing if len(self.part.cloth.rows[row.index].element)], high=self.sides[right])

    def top(self, right: bool) -> int:
        """The highest row at a side."""
        return self.rows(right)[-1].index

    @property
    def divided(self) -> bool:
        """Whether it ends in two sides, with a neck between them."""
        return self.top(False) != self.top(True)

    def side(self, right: bool) -> Rim:
        """Its edge at +x (`right`) or -x, whole, from below."""
        return side_rim(self.part, high=self.sides[right]).shifted(self.first)

    def split(self, right: bool, drop_cm: float) -> tuple[Rim, Rim]:
        """That edge below the armhole, and the armhole: from where it goes inward, or `drop_cm` of it below the shoulder."""
        rim = self.side(right)
        begins = upper_from(self.part.measures, high=self.sides[right])
        at = begins.bottom if begins is not None else float(rim.along[-1]) - drop_cm
        low = rim.along <= at + 1e-6
        high = ~low
        return Rim(rim.nodes[low], rim.along[low], rim.inset), Rim(rim.nodes[high], rim.along[high] - at, rim.inset)


def outward(whole: Whole, rim: Rim, right: bool) -> Rim:
    """A top edge from its end at that side."""
    at = whole.at
    sign = 1 if right else -1
    return rim if sign * at[rim.nodes[0], 0] >= sign * at[rim.nodes[-1], 0] else rim.turned()
