"""What is kept between rows and between passes: the standing of the work, row outcomes, the row cache."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..pattern import Chain, Step
from .basket import content_key
from .fabric import Counted, Derived, RowTrouble, Side, Stitches
from .plan import Shaped


@dataclass(slots=True)
class Outcome:
    """One row worked on one offer: what the row cache keeps."""

    stitches: Stitches
    offered: int | None
    used: int | None
    misfits: float
    troubles: tuple[RowTrouble, ...]
    derivation: tuple[Derived, ...]
    counted: Counted
    unread: bool
    uncounted: bool
    partial: bool
    chains_moved: int
    consulted: dict[str, int]
    stretched: bool = False
    keep: tuple[object, ...] = ()


@dataclass(slots=True)
class Standing:
    """Where the work stands between two rows."""

    below: Stitches | None = None
    below_index: int | None = None
    ring: bool = False
    foundation: bool = False
    direction: int = 1
    side: Side = "RS"
    turned: bool = False
    around: bool = False
    carried: Chain | None = None
    yarn: str = ""
    total: int | None = None
    assumed: bool = False
    fastened: bool = False
    base: Chain | None = None
    """The foundation chain below."""


@dataclass(slots=True)
class Shared:
    """What all passes over a part share: the row cache and the interned rows."""

    rows: dict[tuple[object, ...], list[Outcome]] = field(default_factory=dict)
    interned: dict[tuple[object, ...], Stitches] = field(default_factory=dict)
    shaped: dict[int, tuple[tuple[Step, ...], Shaped]] = field(default_factory=dict)
    carried: dict[tuple[int, int], tuple[Step, ...]] = field(default_factory=dict)
    spelled: dict[tuple[int, int, str], tuple[Step, ...]] = field(default_factory=dict)
    made: int = 0

    def intern(self, stitches: Stitches) -> Stitches:
        return self.interned.setdefault(content_key(stitches), stitches)
