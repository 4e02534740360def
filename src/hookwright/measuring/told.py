"""A part's size and how it lies, in words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from .measures import PartMeasures
from .rounds import Lies

LIES: Final[dict[Lies, str]] = {
    "flat": "lies flat", "cups": "cups", "ruffles": "ruffles", "tube": "is a tube", "closed": "is closed", "unknown": "has no stitches yet",
}  # fmt: skip


def size_told(part: PartMeasures, say: Callable[[float], str]) -> str:
    """The measurements that matter for a part's kind: sides, across, or round and high. `say` puts a length in cm into words."""
    rounds = part.rounds
    if part.tiles is not None:
        return f"{say(part.width_cm)} x {say(part.length_cm)}"
    if part.chain_alone_cm:
        return f"a chain of {say(part.chain_alone_cm)}"
    if rounds is None:
        return f"{say(part.width_cm)} wide, {say(part.length_cm)} long"
    if part.lies in ("flat", "ruffles") and rounds.spine_cm:
        return f"{'a rectangle' if rounds.corners else 'an oval'} of {say(part.width_cm)} x {say(rounds.diameter_cm)}"
    if part.lies in ("flat", "ruffles"):
        return f"{say(rounds.diameter_cm)} across"
    return f"{say(rounds.girth_cm)} round, {say(rounds.height_cm or 0.0)} high"
