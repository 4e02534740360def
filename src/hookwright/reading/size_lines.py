"""Lines that keep the rows after them for some sizes: "For Child and Adult sizes only:", "Size L only: Rnd 9: …", "All sizes:"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from .size_sentences import told_by_size
from .sizes_only import known_sizes

_LINE = re.compile(
    r"(?im)^[ \t>*_=#(•-]{0,6}(?P<all>(?:for\s+)?(?:all|both|every)\s+sizes?(?:\s+again)?)[ \t]*[:.)*_]{0,4}"
    r"|^[ \t>*_=#(•-]{0,6}(?:for\s+)?(?:the\s+)?(?P<names>[A-Za-z0-9][\w/&+,. ½¼¾'-]{0,60}?)(?P<only>\s+only)?[ \t]*(?:[:)*_]{1,4}|$)"
)
_ROW = re.compile(r"(?i)[ \t]*[*_]{0,3}(?:rows?|rounds?|rnds?|rds?|r)[ \t]?\d")
_BLANK = re.compile(r"\n[ \t]*\n")
_HEADING = re.compile(r"(?m)^[ \t]*(?:#|\*\*[^*\n]+\*\*[ \t]*$)")


_ON_TO = r"(?:skip|go|jump|proceed|move|continue|head)(?:\s(?:ahead|on|straight|directly|right|now))*\s(?:to|with|at)\s(?:the\s)?"
_TARGET = (
    r"(?P<to>(?:(?:rows?|rounds?|rnds?|rds?|r)\s?\d{1,3})\b|[A-Za-z][A-Za-z' -]{2,30}?)"
    r"(?:\s(?:section|part|instructions|directions|now))?"
)
_SKIPS = re.compile(
    rf"(?im)(?:^|[.;(]\s?)[ \t>*_=#(•-]{{0,6}}(?:(?:if|when)\s(?:you\sare\s|you're\s)?(?:making|working|crocheting)\s)?(?:for\s)?(?:the\s)?"
    rf"(?P<names>[A-Za-z0-9][\w/&+, ½¼¾-]{{0,60}}?)(?:\s(?:only|stops?\s(?:here)?(?:\sand)?|ends?\shere(?:\sand)?))?[,:;]?\s"
    rf"(?:now\s|then\s|and\s)?{_ON_TO}{_TARGET}(?=[.;:)*_!,\n]|$)"
)
""" "Baby skip to Body", "For sizes S and M go straight to the brim": the rows in between are none of theirs. """


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
    >>> text = "Rnd 5: sc around.\\nSize S skip to Brim.\\nRnd 6: sc around.\\nBrim\\nRnd 7: sc around."
    >>> [(k.start, k.end, sorted(k.only)) for k in kept_for_sizes(text, 0, ("S", "M", "L"))]
    [(37, 57, [1, 2])]
    """
    if len(names) < 2:
        return []
    beside = told_by_size(text, start)
    found: list[Kept] = []
    for match in _LINE.finditer(text, start):
        if any(one.at <= match.end() - 1 < one.end for one in beside):
            found = [_closed(one, match.start()) for one in found]
            continue
        if match["all"]:
            found = [_closed(one, match.start()) for one in found]
            continue
        words = match["names"]
        told = match["only"] or re.search(r"(?i)\bsizes?\b", words) or match[0].lstrip("*_= ").lower().startswith("for ")
        only = known_sizes(words, names)
        told = told or (bool(only) and _ROW.match(text, match.end()))  # "Adult: Row 6: …"
        if told and only and len(only) < len(names):
            found = [_closed(one, match.start()) for one in found]
            found.append(Kept(match.end(), _end(text, match.end()), only))
    apart = [Kept(one.begins, one.end, known_sizes(one.called, names)) for one in beside]
    return found + [one for one in apart if one.only] + _passed_over(text, start, names)


def _passed_over(text: str, start: int, names: Sequence[str]) -> list[Kept]:
    """The stretches that some sizes are told to pass over, up to the heading or the row that they go on with."""
    found: list[Kept] = []
    for match in _SKIPS.finditer(text, start):
        passing = known_sizes(match["names"], names)
        if not passing or len(passing) == len(names):
            continue
        to = r"\s+".join(map(re.escape, match["to"].split()))
        goal = re.compile(rf"(?im)^[ \t>*_=#(•-]{{0,6}}(?:the\s)?{to}\b(?!\s{{0,2}}[-&]\s?\d)").search(text, match.end())
        if goal is not None:
            found.append(Kept(match.end(), goal.start(), frozenset(range(len(names))) - passing))
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
