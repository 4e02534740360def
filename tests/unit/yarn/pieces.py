"""Small pieces with yarns, for the tests of yarn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from tests.fabrics import Piece, across, fabric

from hookwright.measuring import measure
from hookwright.pattern import Facts, Gauge, Swatch, Trim, Yarn
from hookwright.working import Fabric, PartWork
from hookwright.yarn import Asked, Estimate, estimate

GAUGE = (Gauge(stitch="dc", stitches=14, rows=7),)
BALL = Yarn(id="A", colour="blue", ball_m=200, ball_g=100)


def facts(
    *, yarns: Mapping[str, Yarn] | None = None, hook: float | None = 5.0, trims: Sequence[Trim] = (), swatches: Sequence[Swatch] = (),
    gauge: Sequence[Gauge] = GAUGE, notes: Mapping[str, object] | None = None,
) -> Facts:  # fmt: skip
    return Facts(hook_mm=hook, gauge=tuple(gauge), yarns={"A": BALL} if yarns is None else yarns, trims=tuple(trims),
    swatches=tuple(swatches),
                 notes=notes or {})  # fmt: skip


def striped(colours: Sequence[str], stitches: int = 20, kind: str = "dc") -> PartWork:
    """A rectangle whose rows are worked in these colours, after a foundation chain."""
    piece = Piece().foundation(stitches)
    for colour in colours:
        piece.row(across(stitches, kind), colour=colour)
    return piece.part()


def found(piece: Fabric | PartWork, told: Facts | None = None, asked: Asked | None = None) -> Estimate:
    whole = piece if isinstance(piece, Fabric) else fabric(piece, facts=told or facts())
    if told is not None and isinstance(piece, Fabric):
        whole = fabric(*piece.parts, facts=told)
    return estimate(whole, measure(whole), asked or Asked())
