"""Words that name a row and begin none: said twice at once, said of how something goes, said behind what was counted in it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from .lexicon import words
from .tokens import Token

if TYPE_CHECKING:
    from .anchors import Anchor

STAMMER = 3
"""Words at most between a row's name and the same name said once more at once (ours)."""


def named_twice(tokens: Sequence[Token], before: Anchor, anchor: Anchor) -> bool:
    """Whether the same row is named once more at once: "so round twelve, round twelve is where …"."""
    same = before.how == anchor.how == "begins" and (before.first, before.last) == (anchor.first, anchor.last)
    between = tokens[before.end : anchor.k]
    return same and bool(before.first) and len(between) <= STAMMER and all(token.kind == "word" for token in between)


def how_it_goes(tokens: Sequence[Token], k: int) -> bool:
    """Whether "round" only tells how something goes: "all the way round and then", "four times round", "I'll pass round the others"."""
    lead, behind = tokens[k - 1] if k else None, tokens[k + 1] if k + 1 < len(tokens) else None
    if behind is not None and behind.text in _WHERE_TO:
        return True
    return lead is not None and not lead.stop and lead.text not in _LEADS_TO_ROW and lead.kind != "row"


_WHERE_TO = frozenset(("the", "to", "that", "it", "them", "and", "again", "until", "till", "there", "here", "once", "twice"))
_LEADS_TO_ROW = words("named_otherwise", "leads_to_row")


def described(tokens: Sequence[Token], k: int) -> bool:
    """Whether a row is only told to be of some kind: "row nine is tall row", "now comes plain row"."""
    lead = tokens[k - 1] if k else None
    together = lead is not None and not lead.stop and lead.until == tokens[k].until
    return together and lead is not None and lead.kind == "word" and lead.text not in _LEADS_TO_ROW


def counted_in(tokens: Sequence[Token], k: int, end: int) -> bool:
    """Whether the row is named behind what was counted in it: "thirty-six half doubles on round three. Round four …"."""
    if k < 3 or tokens[k - 1].text not in ("in", "on", "for") or tokens[k - 2].kind not in ("st", "stitch", "space"):
        return False
    counted = any(token.kind == "num" and token.number > 1 for token in tokens[max(0, k - 5) : k - 2])
    ends = tokens[end - 1].stop or end >= len(tokens) or tokens[end].kind in ("row", "rows")
    return counted and ends and not any(token.stop for token in tokens[k - 3 : k])
