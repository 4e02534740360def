"""Lines that keep the rows after them for some sizes: "For Child and Adult sizes only:", "Size L only: Rnd 9: …", "All sizes:"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from .sizes_only import known_sizes

_LINE = re.compile(
    r"(?im)^[ \t>*_=#(•-]{0,6}(?P<all>(?:for\s+)?(?:all|both|every)\s+sizes?(?:\s+again)?)[ \t]*[:.)*_]{0,4}"
    r"|^[ \t>*_=#(•-]{0,6}(?:for\s+)?(?:the\s+)?(?P<names>[A-Za-z0-9][\w/&+,. ½¼¾-]{0,60}?)(?P<only>\s+only)?[ \t]*(?:[:)*_]{1,4}|$)"
)
_BLANK = re.compile(r"\n[ \t]*\n")
_HEADING = re.compile(r"(?m)^[ \t]*(?:#|\*\*[^*\n]+\*\*[ \t]*$)")


@dataclass(frozen=True, slots=True)
class Kept:
    """Rows that begin in [start, end) belong to the sizes `only`."""

    start: int
    end: int
    only: frozenset[int]


def kept_for_sizes(text: str, start: int, names: Sequence[str]) -> list[Kept]:
    """The stretches of a text whose rows are told for some sizes only.

    >>> [(k.start, sorted(k.only)) for k in kept_for_sizes("For M and L only:\\nRnd 8: sc around.\\n\\nRnd 9: sc.", 0, ("S", "M", "L"))]
    [(17, [1, 2])]
    """
    if len(names) < 2:
        return []
    found: list[Kept] = []
    for match in _LINE.finditer(text, start):
        if match["all"]:
            found = [_closed(one, match.start()) for one in found]
            continue
        words = match["names"]
        told = match["only"] or re.search(r"(?i)\bsizes?\b", words) or match[0].lstrip("*_= ").lower().startswith("for ")
        only = known_sizes(words, names)
        if told and only and len(only) < len(names):
            found = [_closed(one, match.start()) for one in found]
            found.append(Kept(match.end(), _end(text, match.end()), only))
    return found


def _closed(one: Kept, at: int) -> Kept:
    return one if one.end <= at else Kept(one.start, max(one.start, at), one.only)


def _end(text: str, at: int) -> int:
    """The end of the line where an instruction follows on it; else of the block of rows that follows."""
    line_end = text.find("\n", at)
    line_end = len(text) if line_end < 0 else line_end
    if text[at:line_end].strip():
        return line_end
    first = line_end
    while first < len(text) and text[first].isspace():
        first += 1
    blank, heading = _BLANK.search(text, first), _HEADING.search(text, first)
    return min(blank.start() if blank else len(text), heading.start() if heading else len(text))
