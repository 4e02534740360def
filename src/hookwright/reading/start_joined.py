"""What a starting chain stands for, seen from where the round is joined to it: "ch 7, dtr in next sc, …, sl st in 4th st of 7-ch"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Aside, Chain, Choice, Colour, Join, Make, Repeat, Ring, Step, Together, Turn
from ..trade.kinds import HEIGHT, base

LOWEST = 3
"""The stitch that a chain stands for where its 3rd chain or a higher one is joined to; below that no stitch is meant for certain."""


def stands_by_join(steps: Sequence[Step], rounds: bool) -> list[Step]:
    """The steps, the starting chain told as its stitch and the chains beyond it, where the join names the chain that ends the stitch
    and custom would count otherwise (common practice, no source)."""
    out = list(steps)
    at = next((k for k, step in enumerate(out) if not isinstance(step, (Aside, Colour, Turn))), None)
    chain = out[at] if at is not None else None
    if at is None or not isinstance(chain, Chain) or chain.foundation or chain.counts is not None or chain.stands_for or chain.number.many:
        return out
    chains, nth = chain.number.values[0] or 0, _joined_to(out, chain.number.values[0] or 0, rounds)
    stitch = _first(out[at + 1 :])
    if stitch is None or nth is None or not LOWEST <= nth < chains or nth == HEIGHT.get(stitch, 3):
        return out
    out[at] = replace(chain, counts=True, stands_for=(stitch, f"ch {chains - nth}"))
    return out


def _joined_to(steps: Sequence[Step], chains: int, rounds: bool) -> int | None:
    """The number of the chain that the round is joined to, when it is one of the starting chain's own."""
    last = next((step for step in reversed(steps) if not isinstance(step, (Aside, Turn)) and type(step).__name__ != "FastenOff"), None)
    place = last.to if isinstance(last, Join) and not last.no else None
    if place is None and rounds and isinstance(last, Make) and last.stitch == "sl st":
        place = last.at
    if place is None or place.where != "named" or place.what != f"ch-{chains}":
        return None
    return place.nth


def _first(steps: Sequence[Step]) -> str | None:
    """The first stitch after the chain, where it is a tall one."""
    for step in steps:
        if isinstance(step, Make):
            return base(step.stitch) if HEIGHT.get(base(step.stitch), 0) >= LOWEST else None
        if isinstance(step, (Together, Repeat)):
            return _first(step.body)
        if not isinstance(step, (Aside, Colour, Chain, Ring)) or isinstance(step, Choice):
            return None
    return None
