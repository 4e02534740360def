"""Whether words tell a story instead of the work: another day, another film, other people."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .lexicon import phrases
from .tokens import Token

_MARKS = re.compile(rf"(?:^| )(?:{'|'.join(map(re.escape, phrases('story', 'marks')))})(?: |$)")
REACH = 14
"""Words looked over to either side, as far as the sentence goes, or the caption where no sentence is marked."""


def in_story(tokens: Sequence[Token], k: int) -> bool:
    """Whether the sentence around token k speaks of another time or another piece ("the other day I counted thirty-six")."""
    first, last = k, k
    while first and k - first < REACH and not _parted(tokens, first - 1):
        first -= 1
    while last + 1 < len(tokens) and last - k < REACH and not _parted(tokens, last):
        last += 1
    said = [token.text for token in tokens[first : last + 1]]
    if said[0] == "last" and first and tokens[first - 1].text == "one":
        said[0] = ""  # "count it one / last time"
    return _MARKS.search(" ".join(said).replace("one last time", "").replace("as last time", "").replace("like last time", "")) is not None


def _parted(tokens: Sequence[Token], k: int) -> bool:
    """Whether a sentence or a caption ends behind token k."""
    return (tokens[k].stop and tokens[k].mark in ".!?") or tokens[k + 1].until != tokens[k].until
