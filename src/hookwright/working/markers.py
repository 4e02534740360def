"""Markers: placed in a stitch of the row, met again in the next row, and moved up to the middle of what is worked there.

That a marker moves up to the middle stitch, or the space, of what is worked into its stitch is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..pattern import Choice, Make, Repeat, Step, Together
from .basket import Basket
from .corners import centres
from .fabric import Role, Stitches
from .offer import Offer

MARKER = "marker"
"""The kind of place that a run "to next marker" goes up to."""
_COUNTED = (Role.STITCH, Role.START_TOP)


def asks_for_markers(steps: Iterable[Step]) -> bool:
    """Whether any step goes to a marker or into a marked stitch."""
    for step in steps:
        if isinstance(step, (Make, Together)) and (step.upto == MARKER or (step.at.where == "marked" and step.at.what != "piece")):
            return True
        if isinstance(step, Repeat) and (step.times.what == MARKER or asks_for_markers((*step.body, *step.last))):
            return True
        if isinstance(step, Together) and asks_for_markers(step.body):
            return True
        if isinstance(step, Choice) and any(asks_for_markers(answer) for answer in step.answers):
            return True
    return False


def marked_places(offer: Offer, marks: Sequence[int]) -> tuple[int, ...]:
    """Where an offer's marked stitches stand, in this row's order; nobody having placed any, the middles of its increases."""
    if not marks:
        return tuple(spot.start for spot in centres(offer))
    wanted = set(marks)
    return tuple(i for i in range(offer.n) if offer.at[i] in wanted)


def placed_in(basket: Basket, nths: Sequence[int]) -> list[int]:
    """The elements that markers are placed in: the row's stitches of these numbers (below zero: from the last), or the one just made."""
    if not nths:
        return [len(basket) - 1] if len(basket) else []
    stitches = [k for k, role in enumerate(basket.role) if role in _COUNTED]
    return [stitches[n - 1 if n > 0 else n] for n in nths if n and abs(n) <= len(stitches)]


def moved_up(stitches: Stitches, back: int, marks: Sequence[int]) -> tuple[int, ...]:
    """The elements that the markers of the row `back` rows below move up to: the middle of those that stand in a marked stitch."""
    wanted: dict[int, list[int]] = {mark: [] for mark in marks}
    if not wanted:
        return ()
    for k in range(len(stitches)):
        if stitches.role[k] == Role.JOIN:
            continue
        for f in range(stitches.feet[k], stitches.feet[k + 1]):
            if stitches.foot_back[f] == back and stitches.foot_at[f] in wanted:
                wanted[stitches.foot_at[f]].append(k)
    return tuple(sorted({(found[0] + found[-1]) // 2 for found in wanted.values() if found}))
