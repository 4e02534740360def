"""Pages that tell the work in numbered steps, each with a title of its own: "3. Work the first round. Chain three; …"."""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

_WORDS = r"(?![^.\n]*\b(?:sc|dc|hdc|tr|ch|sl|sts?|blo|inc|dec)\b)(?P<title>[A-Z][^.\n\d]{3,70})\.\s{1,3}(?=[A-Z*\d])"
"""A title in plain words: no number, no abbreviation."""
_STEP = re.compile(rf"(?m)^[ \t]{{0,4}}\d{{1,2}}\.\s{{1,3}}{_WORDS}")
_ROWS = re.compile(r"(?im)^[ \t*_#]{0,6}(?:rows?|rounds?|rnds?|r)\s?\d")
_TITLE = re.compile(rf"\s*{_WORDS}")
_WHOLE = re.compile(r"(?i)(?:chain|ch)\s(?:\d|[a-z]+\s(?:st|stitches|chains)\b)|fasten\soff|end\soff|cut\b|turn\b")
_RING = re.compile(r"(?i)(?:join|connect|close)\b.*\b(?:ring|circle|loop)\b|form\b.*\bring\b")

LEAST = 3


class Told(NamedTuple):
    """What of a step's text is the row's own: [start, end) of it; `kind` "none" where the step is no row."""

    start: int
    end: int
    kind: Literal["row", "none"]


def told_in_steps(text: str) -> bool:
    """Whether the rows are told in titled steps, and nowhere labelled as rows or rounds.

    >>> told_in_steps("1. Chain four. Keep it loose.\\n2. Work a round. Chain 3.\\n3. Double the stitches. Chain 3, dc in same st.\\n")
    True
    """
    return len(_STEP.findall(text)) >= LEAST and not _ROWS.search(text)


def step_told(text: str, start: int, end: int) -> Told:
    """The part of a step that instructs: its title where that says it all ("Chain four stitches."), else what stands behind the title."""
    match = _TITLE.match(text, start, end)
    if match is None:
        return Told(start, end, "row")
    if _RING.match(match["title"]):
        return Told(start, end, "none")
    if _WHOLE.match(match["title"]):
        return Told(start, match.end("title") + 1, "row")
    return Told(match.end(), end, "row")
