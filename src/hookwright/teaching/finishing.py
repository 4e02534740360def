"""What is filmed after the last row: seams, ends, trims (each kind once), blocking."""

from __future__ import annotations

from collections.abc import Iterator

from ..pattern import Pattern
from ..working import Fabric
from . import pacing

_SHOWS = {
    "fringe": "one bundle of fringe cut, knotted in and trimmed; then where the {number} go",
    "tassel": "one tassel wound, tied, bound and cut; then where it is sewn on ({number} in all)",
    "pompom": "one pompom wound, tied, cut and trimmed; then tied on ({number} in all)",
    "cord": "the cord made, its ends knotted; then where it is drawn in ({number} in all)",
    "drawstring": "the drawstring made and drawn in ({number} in all)",
    "button": "one button sewn on through both layers ({number} in all)",
}


def finishing_of(pattern: Pattern, fabric: Fabric) -> Iterator[tuple[str, str, float]]:
    """(title, what the camera shows, seconds) for each thing done after the rows."""
    pieces = sum(part.copies for part in fabric.parts)
    if pattern.seams or pieces > 1:
        told = [" ".join(seam.words.split()).rstrip(".") for seam in pattern.seams]
        words = "; ".join(one for one in told if one and len(one) <= 120 and "=" not in one)
        shows = f"the first 5 cm of the seam close, then the rest at speed{f': {words}' if words else f' ({pieces} pieces)'}"
        yield "Joining the pieces", shows, pacing.FINISHING_S["seam"]
    for kind in dict.fromkeys(trim.kind for trim in pattern.facts.trims):
        number = sum(trim.number for trim in pattern.facts.trims if trim.kind == kind)
        shows = _SHOWS.get(kind, f"one {kind} made and put on ({number} in all)").format(number=number)
        yield kind.capitalize(), shows, pacing.FINISHING_S.get(kind, pacing.FINISHING_OTHER_S)
    yield "Weaving in the ends", "one end woven in there and back on the wrong side, close", pacing.FINISHING_S["ends"]
    if pattern.facts.notes.get("finishing") or any(gauge.blocked for gauge in pattern.facts.gauge):
        yield "Laying out to dry", "the damp piece pinned to its measures beside a ruler", pacing.FINISHING_S["blocking"]
