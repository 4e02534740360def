"""What the list of abbreviations of a pattern says, and what its rows use: shared by two rules."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from ...pattern import Make, Pattern, Span
from ...pattern.walking import inside
from ...reading.pieces import anywhere

_HEADING = re.compile(
    r"^[#*_ \t]*(?:stitches and |special )?abbreviations?(?: used| key)?\b[^\n:]{0,30}[:*_ \t]*(?P<rest>[^\n]*)$", re.I | re.M
)
_headed = anywhere(_HEADING, "abbreviation")
_ENTRY = re.compile(
    r"(?:^|[;,\n•*-])[ \t]*[*_`]*(?P<short>[A-Za-z][\w-]*(?: sts?| st\(s\))?)[*_`]*(?:\([a-z]+\))?"
    r"[ \t]*(?:=|:|–|—|[ \t]-[ \t])[ \t]*(?P<long>[A-Za-z][^;,\n]{2,60})"
)
_ROW = re.compile(r"^[#*_ \t]*(?:row|rnd|round|foundation)\b", re.I | re.M)


@dataclass(frozen=True, slots=True)
class Listed:
    """One entry of the list: the abbreviation, what it is said to mean, where it stands."""

    short: str
    long: str
    span: Span


def listed(source: str) -> tuple[Listed, ...]:
    """The entries of the pattern's list of abbreviations; empty where it has none.

    >>> [entry.short for entry in listed("Abbreviations: ch = chain, sc = single crochet; rep = repeat\\n\\nRow 1: …")]
    ['ch', 'sc', 'rep']
    """
    heading = _HEADING.search(source) if _headed(source) else None
    if heading is None:
        return ()
    start = heading.start("rest")
    row = _ROW.search(source, start)
    next_heading = re.compile(r"^#+ ", re.M).search(source, heading.end())
    end = min((one.start() for one in (row, next_heading) if one is not None), default=len(source))
    return tuple(
        Listed(match["short"], match["long"].strip(), Span(start + match.start("short"), start + match.end("short")))
        for match in _ENTRY.finditer(source[start:end])
    )


def used(pattern: Pattern) -> Iterator[tuple[str, Span]]:
    """The stitch ids that the rows work, each once, with the first words that do."""
    seen: set[str] = set()
    for part in pattern.parts:
        for row in part.rows:
            for step in inside(row.steps):
                if isinstance(step, Make) and step.stitch not in seen:
                    seen.add(step.stitch)
                    yield step.stitch, step.span
