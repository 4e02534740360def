"""Rows whose numbers bear the letter of their piece ("Rnd H1", "Row B2"): the letter tells which piece's they are, and is no number."""

from __future__ import annotations

import re

_NOUN = r"(?i:rows?|rounds?|rnds?|rds?)"
_LABEL = re.compile(rf"(?m)^[ \t]{{0,6}}[*_=#>]{{0,3}}\s?{_NOUN}\s([A-Z])-?(?=\d{{1,3}}\b)")
LEAST = 2
"""So many labels with one letter make it the letter of a piece."""


def unlettered(text: str) -> str:
    """The text with such letters left out, in labels and wherever rows are named by them, filled up with blanks to be equally long.

    >>> unlettered("Rnd H1 - 6 sc in ring\\nRnds H2-H4 - as Rnd H1\\nSize H3 hook")
    'Rnd 1  - 6 sc in ring\\nRnds 2-4   - as Rnd 1 \\nSize H3 hook'
    >>> unlettered("Row R1: sc across")
    'Row R1: sc across'
    """
    found = [match[1] for match in _LABEL.finditer(text)]
    letters = "".join(sorted({letter for letter in found if found.count(letter) >= LEAST}))
    if not letters:
        return text
    named = re.compile(rf"\b{_NOUN}\s[{letters}]-?\d{{1,3}}(?:\s?(?:-|to|thru|through|and|&|,|, and)\s?[{letters}]-?\d{{1,3}})*\b")
    one = re.compile(rf"(?<![A-Za-z])[{letters}]-?(?=\d)")
    return named.sub(lambda match: one.sub("", match[0]).ljust(len(match[0])), text)
