"""Work told from its other end: what stood first stands last."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .nodes import Make, Repeat, Step, Times, Together
from .sizes import Sized

_SWAP = {"first": "last", "last": "first"}


def told_backwards(steps: Sequence[Step]) -> list[Step]:
    """The steps from the last to the first; a run or repeat that went up to what followed it now leaves what is told after it.

    "Sc to last 2 sts, sc2tog" is "sc2tog, sc to end", and the other way round.
    """
    turned = [_swapped(step) for step in reversed(steps)]
    runs = [k for k, step in enumerate(turned) if _is_run(step)]
    if len(runs) != 1:
        return turned
    at = runs[0]
    used = _used(turned[at + 1 :])
    return turned if used is None else [*turned[:at], _leaving(turned[at], used), *turned[at + 1 :]]


def _is_run(step: Step) -> bool:
    """A run of stitches to the end or to a place, or a repeat to a place."""
    return (isinstance(step, Make) and step.places == "rest") or (isinstance(step, Repeat) and step.times.kind == "to_place")


def _leaving(step: Step, used: int) -> Step:
    if isinstance(step, Make):
        return replace(step, but=Sized((used,)), upto="")
    assert isinstance(step, Repeat)
    return replace(step, times=Times(kind="to_last", number=Sized((used,))) if used else Times(kind="rest"))


def _used(steps: Sequence[Step]) -> int | None:
    """How many places the steps take; None where that is not told."""
    used = 0
    for step in steps:
        if isinstance(step, (Make, Together, Repeat)):
            if not isinstance(step, Make) or step.at.where not in ("next", "last") or not isinstance(step.places, Sized):
                return None
            used += max(step.closes, 1) * (step.places.values[0] or 0)
    return used


def _swapped(step: Step) -> Step:
    if isinstance(step, (Make, Together)) and step.at.where in _SWAP:
        return replace(step, at=replace(step.at, where=_SWAP[step.at.where]))  # type: ignore[arg-type]
    if isinstance(step, Repeat):
        return replace(step, body=tuple(_swapped(inner) for inner in reversed(step.body)))
    return step
