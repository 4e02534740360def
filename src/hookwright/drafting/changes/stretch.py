"""A piece in a stitch pattern to a size: as many whole repeats wider and longer as come nearest. The words stay, the numbers change."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Pattern
from ..asks import Refused
from ..result import Draft
from .repeats import by_repeats, widths_of


def stretched(pattern: Pattern, across: float, along: float, *, must: bool = False) -> Draft:
    """The pattern `across` times as wide and `along` times as long, as near as whole repeats come.

    What grows by its rows alone (a triangle from its point, a disc) is made longer only, unless `must` says that the width is what counts.
    Refuses, in the words of the change that fails, what has no repeat either way.
    """
    stitches, repeat, rows, group = widths_of(pattern)
    wider, longer = round((across - 1) * stitches / repeat), round((along - 1) * rows / group)
    if not wider and not longer:
        return by_repeats(pattern)
    try:
        return by_repeats(pattern, wider=wider, longer=longer)
    except Refused as refusal:
        for way in ({"wider": wider}, {"longer": longer}):
            if any(way.values()) and not (must and "longer" in way):
                try:
                    return _alone(by_repeats(pattern, **way), way)
                except Refused:
                    continue
        raise refusal from None


def _alone(made: Draft, way: dict[str, int]) -> Draft:
    note = "Only its length is changed: its rows have no repeat to widen by." if "longer" in way else "Only its width is changed."
    return replace(made, notes=(*made.notes, note))


__all__ = ["stretched"]
