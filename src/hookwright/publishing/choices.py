"""The table "wider, longer, another gauge" of a published pattern: for each choice chain, stitches, rows, size and yarn."""

from __future__ import annotations

from ..drafting import Choice, Choices
from ..pattern import Pattern
from ..trade.units import both_yarn_lengths, centimetres, inches
from .sheet import Table, Terms

_HEAD = ("Choice", "Chain", "Stitches", "Rows", "Size", "Yarn, likely")


def choices_table(pattern: Pattern, told: Choices, terms: Terms) -> Table:
    """The table in the words of `terms`."""
    names = pattern.facts.size_names
    size = f"The size is {names[0]}. " if len(names) > 1 else ""
    note = size + "Reckoned by working each choice through: the stitches are those of the widest row." + _left_out(told.left_out(terms))
    rows = tuple(_cells(choice, terms) for choice in told.lines)
    return Table(caption="Wider, longer, another gauge", head=_HEAD, rows=rows, note=note)


def _cells(choice: Choice, terms: Terms) -> tuple[str, ...]:
    yarn = "-" if choice.yarn_m is None else both_yarn_lengths(choice.yarn_m)
    wide, long = choice.width_cm, choice.length_cm
    size = f"{centimetres(wide)} × {centimetres(long)} cm ({inches(wide)} × {inches(long)} in)"
    size, yarn = (_unbroken(cell) for cell in (size, yarn))
    return _capital(choice.way.told(terms)), str(choice.chain or "-"), str(choice.stitches), str(choice.rows), size, yarn


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _unbroken(cell: str) -> str:
    """The cell with a line break before its bracket only."""
    return cell.replace(" ", "\u00a0").replace("\u00a0(", " (")


def _left_out(refused: tuple[str, ...]) -> str:
    return " Not in the table: " + " ".join(refused) if refused else ""
