"""Bias: columns of stitches lean, since a stitch's top does not sit over the middle of its post; turning the work cancels it.

Sources: in spiral rounds of sc the marker must move one stitch every second round to run straight (gruendl-wolle.de, re-cotton bag);
fronts lean to the right (entrelac.meowingdog.net, October 2007). For other stitches no figure was found: they are taken to move alike.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from ..working.fabric import RowWork
from .elements import Laid
from .scale import Scale

STITCHES_A_ROW: Final = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Bias:
    """How far columns wander. `rows` counts the rows worked the same way as the row below, less those turned back."""

    rows: int
    stitches: float
    shift_cm: float
    lean_deg: float
    """Lean of a column from upright; to the right for a right-hander, to the left for a left-hander."""

    @property
    def matters(self) -> bool:
        return self.stitches >= 2


def bias_of(rows: Sequence[RowWork], laid: Sequence[Laid], scale: Scale) -> Bias:
    """The bias of a part: each row worked on the same side as the row below adds half a stitch, turned rows none."""
    worked = [row for row in rows if not row.foundation]
    unturned = sum(row.direction == below.direction and not row.turned for below, row in pairwise(worked))
    height = sum(laid[row.index].height_cm for row in worked) / len(worked) if worked else 0.0
    width = scale.unit_cm
    stitches = STITCHES_A_ROW * unturned
    share = unturned / max(1, len(worked) - 1)
    lean = math.degrees(math.atan2(share * STITCHES_A_ROW * width, height)) if height else 0.0
    return Bias(rows=unturned, stitches=stitches, shift_cm=stitches * width, lean_deg=lean)
