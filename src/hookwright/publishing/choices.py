"""The table "wider, longer, another gauge" of a published pattern: for each choice chain, stitches, rows, size and yarn."""

from __future__ import annotations

from ..drafting import Choice, Refused, choices_of
from ..pattern import Pattern
from ..trade.units import YARD_M, both_lengths
from .sheet import Table, Terms

_HEAD = ("Choice", "Chain", "Stitches", "Rows", "Size", "Yarn, likely")


def choices_table(pattern: Pattern, terms: Terms) -> Table | None:
    """The table in the words of `terms`; None for a pattern that states no gauge, whose sizes nothing could be reckoned from."""
    try:
        told = choices_of(pattern, terms=terms)
    except Refused:
        return None
    names = pattern.facts.size_names
    size = f"The size is {names[0]}. " if len(names) > 1 else ""
    note = size + "Reckoned by working each choice through: the stitches are those of the widest row." + _left_out(told.refused)
    rows = tuple(_cells(choice) for choice in told.lines)
    return Table(caption="Wider, longer, another gauge", head=_HEAD, rows=rows, note=note)


def _cells(choice: Choice) -> tuple[str, ...]:
    yarn = "-" if choice.yarn_m is None else f"{choice.yarn_m:.0f}\u00a0m ({choice.yarn_m / float(YARD_M):.0f}\u00a0yd)"
    size = f"{both_lengths(choice.width_cm)} × {both_lengths(choice.length_cm)}"
    return choice.what.capitalize(), str(choice.chain or "-"), str(choice.stitches), str(choice.rows), size, yarn


def _left_out(refused: tuple[str, ...]) -> str:
    return " Not in the table: " + " ".join(refused) if refused else ""
