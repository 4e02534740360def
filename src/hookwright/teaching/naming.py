"""What rows and parts are called aloud: whatever goes round is a round, and among many parts none is without a name."""

from __future__ import annotations

import re

from ..pattern import FLAT, Pattern
from ..working import Fabric, RowWork

_HEAD = re.compile(r"(?m)^# +(.+?)#*$")


def label_of(row: RowWork) -> str:
    """The row's label as it is said: "Round 5" for "Rnd 5", and for "R5" of a spiral that the reader took for a row."""
    label = row.label.replace("Rnd", "Round").replace("rnd", "round")
    if label in ("Repeat", "Start", "Fasten off"):
        label = "Next row"  # what the reader calls an instruction that has no name of its own
    if row.made_in not in FLAT and not row.foundation:
        label = label.replace("Row ", "Round ").replace(" row", " round")
    return label


def part_names(fabric: Fabric) -> tuple[str, ...]:
    """How each part is called on cards and aloud; "" where there is only one."""
    if len(fabric.parts) < 2:
        return tuple("" for _ in fabric.parts)
    return tuple(name_of(part.name) or f"Piece {k}" for k, part in enumerate(fabric.parts, start=1))


def title_told(pattern: Pattern) -> str:
    """The title of the piece: told, or its text's first and only heading of the first rank; else the name of its only part, or ""."""
    named = [part.name for part in pattern.parts if part.name]
    heads = _HEAD.findall(pattern.source)
    heading = heads[0].strip() if len(heads) == 1 and pattern.source.lstrip().startswith("#") else ""
    return pattern.facts.title or heading or (name_of(named[0]) if len(pattern.parts) == 1 and named else "")


def name_of(name: str) -> str:
    """A part's name without its capitals.

    >>> name_of("HEAD AND BODY"), name_of("Tail fin"), name_of("B")
    ('Head and body', 'Tail fin', 'B')
    """
    return name.capitalize() if name.isupper() and len(name) > 2 else name


def title_of(first: str, last: str) -> str:
    """Labels as said, from the first row to the last: "Row 4", "Rounds 5 to 13".

    >>> title_of("Round 5", "Round 13"), title_of("Row 2", "Row 2"), title_of("Next row", "Next row")
    ('Rounds 5 to 13', 'Row 2', 'Next row')
    """
    if first == last:
        return first
    noun, _, number = first.partition(" ")
    other, _, end = last.partition(" ")
    if noun == other and number.isdigit() and end.isdigit():
        return f"{noun}s {number} {'and' if int(end) == int(number) + 1 else 'to'} {end}"
    return f"{first} to {last}"
