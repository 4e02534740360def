"""Letters for yarns: what stands beside a row's number, so that colour is never told by hue alone."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import Facts

LONGEST = 2
"""Characters of a yarn's name that still stand beside a number."""
_ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def letters_of(yarns: Sequence[str]) -> tuple[str, ...]:
    """A letter for each yarn: its own name when that is as short, else the first letter that is free.

    >>> letters_of(("MC", "Nile Green", "A", "White"))
    ('MC', 'B', 'A', 'C')
    """
    taken = {yarn for yarn in yarns if len(yarn) <= LONGEST}
    free = iter(letter for letter in _ALPHABET if letter not in taken)
    return tuple(yarn if len(yarn) <= LONGEST else next(free, yarn) for yarn in yarns)


def colour_of(yarn: str, facts: Facts) -> str:
    """What a key says of a yarn: its colour when the pattern tells it, else its name, when that is a word; else what only it is called."""
    known = facts.yarns.get(yarn)
    if known is not None and known.colour:
        return known.colour
    if len(yarn) > LONGEST or known is None or not known.name:
        return yarn if len(yarn) > LONGEST else ""
    return known.name if sum(each.name == known.name for each in facts.yarns.values()) == 1 else ""
