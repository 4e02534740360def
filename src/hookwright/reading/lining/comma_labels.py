"""Labels that a comma ends, run on in one paragraph: "1st round, under the circle work 16 dc. 2nd round, 1 long on each." (columns of
the 1850s; their order tells them from rows that are only named)."""

from __future__ import annotations

import re

from . import labels as L
from .labels import Label

_ONE = rf"(?:{L._ORD})"
FORM = re.compile(
    rf"(?P<pre>[*_=]{{0,3}}\s{{0,2}})(?P<label>(?P<nums>{_ONE}(?:\s(?:to|and|&)\s{_ONE})?)(?:\s(?P<noun>{L._NOUN})\b)?(?P<note>))"
    r"(?P<tail>(?P<end>,))(?=\s)",
    re.IGNORECASE,
)
_SECOND = re.compile(rf"(?i)[.;)]\s{{1,3}}(?:2nd|2d|second)(?:\s{L._NOUN})?,\s")
_AHEAD = 1500
"""Characters within which the second row follows the first."""
_OPENS = re.compile(
    r"(?i)\s{1,3}(?:[*+(\[\d]|(?:under|over|on|in|into|work|make|as|the\ssame|same|all|one|two|three|four|five|six|seven|eight|nine|ten|miss|"
    r"turn|ch|chain|sc|dc|tr|long|double|treble|plain|single|repeat|begin|commence|increase|decrease|with|close)\b)"
)
_ENDED = re.compile(r"(?:^|[.;)\]:]|\n\s*\n)\s*$")


def by_comma(text: str, start: int, end: int, found: list[Label]) -> re.Match[str] | None:
    """The label at `start`, where a comma ends it and it is the next in order (or the first, and the second follows)."""
    match = FORM.match(text, start, end)
    if match is None or not _OPENS.match(text, match.end()) or not _ENDED.search(text[max(0, start - 40) : start]):
        return None
    number = L.numbers(match["nums"])[:1]
    before = next((one for one in reversed(found) if one.numbers), None)
    if number == (1,) and match["noun"]:
        return match if _SECOND.search(text, match.end(), min(len(text), match.end() + _AHEAD)) else None
    if before is None or not before.numbers[0] or not (match["noun"] or text[before.end - 1] == ","):
        return None
    return match if number == (before.numbers[0][-1] + 1,) else None
