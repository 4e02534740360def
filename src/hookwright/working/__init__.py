"""`Pattern` × size → `Fabric`: every stitch worked."""

from .fabric import (
    RING_FOOT,
    Begins,
    Counted,
    Derived,
    Fabric,
    How,
    PartWork,
    Role,
    RowTrouble,
    RowWork,
    SeamWork,
    Side,
    State,
    Stitches,
    Taken,
)
from .work import work

__all__ = [
    "RING_FOOT", "Begins", "Counted", "Derived", "Fabric", "How", "PartWork", "Role", "RowTrouble", "RowWork", "SeamWork", "Side", "State",
    "Stitches", "Taken", "work",
]  # fmt: skip
