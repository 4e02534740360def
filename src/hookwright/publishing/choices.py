"""The table "wider, longer, another gauge" of a published pattern: for each choice chain, stitches, rows, size and yarn."""

from __future__ import annotations

from ..drafting import Choice, Refused, choices_of
from ..pattern import Pattern
from ..trade.units import both_yarn_lengths, centimetres, inches
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
    yarn = "-" if choice.yarn_m is None else both_yarn_lengths(choice.yarn_m)
    wide, long = choice.width_cm, choice.length_cm
    size = f"{centimetres(wide)} × {centimetres(long)} cm ({inches(wide)} × {inches(long)} in)"
    size, yarn = (_unbroken(cell) for cell in (size, yarn))
    return choice.what.capitalize(), str(choice.chain or "-"), str(choice.stitches), str(choice.rows), size, yarn


def _unbroken(cell: str) -> str:
    """The cell with a line break before its bracket only."""
    return cell.replace(" ", "\u00a0").replace("\u00a0(", " (")


def _left_out(refused: tuple[str, ...]) -> str:
    return " Not in the table: " + " ".join(refused) if refused else ""
