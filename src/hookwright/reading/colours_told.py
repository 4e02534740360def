"""The letters that a pattern calls its yarns by."""

from __future__ import annotations

import re
from typing import NamedTuple

from .pieces import anywhere, holds, pieces, remembered

_YARN = r"(?:[A-H]|MC|CC\d?|C\d)"
_LISTED = re.compile(
    r"(?im)^[ \t>*_#•-]*(?:colou?rs?|yarns?|shades?|materials?|you(?:'ll|\swill)?\sneed)"
    r"(?:\s(?:used|key|needed|list))?[*_]{0,2}\s?[:=-]\s?([^\n]{3,400})"
)
_LETTER = re.compile(rf"\b({_YARN})\b\s?(?:=|:|-|\(|\)(?=\s[a-z]))|\(({_YARN})\)")
"""A letter beside its yarn: "A = ecru", "(A) ecru", "ecru (A)"."""
_KEYED = re.compile(rf"(?m)^[ \t>*_•-]*({_YARN})\s?=\s?[A-Za-z(][^\n]{{1,160}}$")
"""A line that only tells a yarn by its letter: "MC = cream", "A = red, B = blue"."""
_NAMED = (
    r"\b[Ww]ith|\b[Uu]sing|\b(?:[Cc]olou?r|[Yy]arn|[Ss]hade)s?|\b[Jj]oin(?:ing)?|\b[Cc]hang(?:e|ing) to|\b[Ss]witch(?:ing)? to"
    r"|\b[Aa]ttach|\bto"
)
_USED = re.compile(rf"(?:{_NAMED})\s([B-H])\b(?=[\s,.:;)])")
_BLOCK = re.compile(rf"(?<![\w.])\d{{1,3}}\s?(?:(?:sc|dc|hdc)\s)?({_YARN})\b(?=\s*(?:[,;.)\]*+]|x\s?\d|\n|$|\())")
"""A block of colour in a row: "5B, 1A", "2 MC, 4 CC"."""
_TIMES = re.compile(r"(?:(?<=[\s,:(])\(?([A-Z])\)?\s?(?:x\s?)?\d{1,3}(?=\s*(?:[,;.)(\n]|$)))")
"""A block told letter first: "W x 2, R x 1", "(R) x 2", "W 1, R 2"."""
_charted = anywhere(
    re.compile(r"(?i)corner[- ]to[- ]corner|\bC2C\b|\btapestry\b|\bgraph(?:gan|s)?\b|\bintarsia\b|\bpixels?\b|\bcolou?r\s(?:chart|work)"),
    "corner", "c2c", "tapestry", "graph", "intarsia", "pixel", "colo",
)  # fmt: skip


def letters_told(text: str) -> frozenset[str]:
    """The yarns' letters, small: listed ("Colours: A = mustard"), keyed ("MC = cream"), used ("with B, …") or met as blocks of two of them.

    >>> sorted(letters_told("Row 3: 5B, 1A, 1B, 5A, turn.")), sorted(letters_told("Row 3: 5 sc, 1 dc."))
    (['a', 'b'], [])
    """
    told = list(_letters_in.told(pieces(text)))
    found = {letter for one in told for letter in one.found}
    used = {letter for one in told for letter in one.used}
    blocks = [letter for one in told for letter in one.blocks]
    if _charted(text):
        blocks += [letter for one in told for letter in one.times]
    if len(blocks) < 3 or len(set(blocks)) < 2:
        blocks = []
    return frozenset(found | used | set(blocks) | ({"a"} if used else set()))


class _Letters(NamedTuple):
    """The letters in a piece of text, small: told in a list or a key, used, and met as blocks told number first and letter first."""

    found: tuple[str, ...]
    used: tuple[str, ...]
    blocks: tuple[str, ...]
    times: tuple[str, ...]


@remembered
def _letters_in(text: str) -> _Letters:
    found: list[str] = []
    if holds(text, ("colo", "yarn", "shade", "material", "need")):
        found += [(match[1] or match[2]).lower() for line in _LISTED.finditer(text) for match in _LETTER.finditer(line[1])]
    if "=" in text:
        found += [(match[1] or match[2]).lower() for line in _KEYED.finditer(text) for match in _LETTER.finditer(line[0])]
    used = tuple(match[1].lower() for match in _USED.finditer(text))
    blocks = tuple(match[1].lower() for match in _BLOCK.finditer(text))
    return _Letters(tuple(found), used, blocks, tuple(match[1].lower() for match in _TIMES.finditer(text)))
