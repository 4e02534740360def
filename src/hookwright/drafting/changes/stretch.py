"""A piece in a stitch pattern to a size: as many whole repeats wider and longer as come nearest. The words stay, the numbers change."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ...pattern import Pattern
from ..asks import Refused
from ..result import Draft
from .repeats import by_repeats, by_rows, stretches, widths_of

_ROWS_TRIED = 4
"""Even numbers of rows to either side of the one wished that are tried: the side that the last row shows is kept."""
_CUT = 0.25
"""What it costs to end inside a repeat, in repeats of distance from the length wished."""


def stretched(pattern: Pattern, across: float, along: float) -> Draft:
    """The pattern `across` times as wide and `along` times as long, as near as whole repeats come.

    What grows by its rows alone (a triangle from its point) is made longer only, by whole row repeats, or else by as many rows as its last
    rows allow. Refuses, in the words of the change that fails, what has no repeat either way.
    """
    stitches, repeat, rows, group = widths_of(pattern)
    wider, longer = round((across - 1) * stitches / repeat), round((along - 1) * rows / group)
    if not wider and not longer and abs(along - 1) * rows < 1:
        stretches(pattern)
        return by_repeats(pattern)
    try:
        return by_repeats(pattern, wider=wider, longer=longer)
    except Refused as refusal:
        ways: tuple[Callable[[], Draft], ...] = (
            lambda: by_length(pattern, (along - 1) * rows, group),
            lambda: _alone(by_repeats(pattern, wider=wider), "width"),
        )
        for made in ways:
            try:
                return made()
            except Refused:
                continue
        raise refusal from None


def by_length(pattern: Pattern, wanted: float, group: int) -> Draft:
    """The pattern longer by rows alone, `wanted` rows as near as works out: whole repeats first, then an even number of rows.

    Refuses what works out with none of the numbers near it.
    """
    whole = round(wanted / group) * group
    near = range(2 * round(wanted / 2) - 2 * _ROWS_TRIED, 2 * round(wanted / 2) + 2 * _ROWS_TRIED + 1, 2)
    tried = [whole, *sorted((n for n in near if n != whole), key=lambda n: (abs(n - wanted) + (_CUT * group if n % group else 0), n))]
    refused: Refused | None = None
    for more in tried[: 2 * _ROWS_TRIED]:
        try:
            made = _alone(by_rows(pattern, more), "length")
        except Refused as refusal:
            refused = refused or refusal
            continue
        ended = f"Its rows end inside a repeat of {group} rows." if more % group else ""
        return replace(made, notes=(*made.notes, ended)) if ended else made
    raise refused or Refused("The piece has no rows that repeat.")


def _alone(made: Draft, what: str) -> Draft:
    note = "Only its length is changed: its rows have no repeat to widen by." if what == "length" else "Only its width is changed."
    return replace(made, notes=(*made.notes, note))


__all__ = ["by_length", "stretched"]
