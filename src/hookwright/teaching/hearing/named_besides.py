"""Namings of rows that begin none: an earlier row to which the row just begun is likened, and rows announced together that are then told
one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .anchors import OPENLY, Anchor, takes_back
from .bare_numbers import LEADS
from .denying import denied
from .lexicon import words
from .tokens import Token

_IS_LIKE = words("anchors", "is_like")
_LOOKS_BACK = words("named_besides", "looks_back")
LOOKS_BACK = 12
"""Words behind a row's naming within which it is told what other row it is like (ours)."""
ANNOUNCES = 40
"""Words behind rows named together within which the first of them is told by itself (ours)."""
TOGETHER = 4
"""So many rows at most are announced together and then told one by one (ours)."""
_OF_A_COUNT = frozenset(("times", "time", "of", "more", "or", "and", "in", "into", "all", "altogether", "again"))
"""Behind one of these a number that opens a sentence counts."""
_WORK = ("st", "chain", "increase", "decrease", "skip", "join", "turn", "together")


def besides(tokens: Sequence[Token], anchors: Sequence[Anchor]) -> list[Anchor]:
    """The same namings, those that begin no row marked as references, and those of rows told one by one behind a list put in."""
    return _told_singly(tokens, _referring(tokens, anchors))


def _referring(tokens: Sequence[Token], anchors: Sequence[Anchor]) -> list[Anchor]:
    out: list[Anchor] = []
    begun: Anchor | None = None
    for anchor in anchors:
        if begun is not None and anchor.how in ("begins", "closes") and anchor.said is None and _looks_back(tokens, begun, anchor):
            out.append(replace(anchor, how="refers"))
            continue
        if anchor.how in ("begins", "next", "closes", "until"):
            begun = anchor if anchor.how in ("begins", "next") and anchor.said is None else None
        out.append(anchor)
    return out


def _looks_back(tokens: Sequence[Token], begun: Anchor, anchor: Anchor) -> bool:
    """Whether an earlier row is only named to tell what the row begun just before is like: "Row six, we've done it already, it's row two",
    "Round seven. You guessed it, back to round three's idea", "the next row is row two again"."""
    between = tokens[begun.end : anchor.k]
    if not between or len(between) > LOOKS_BACK or any(token.kind in _WORK for token in between):
        return False
    if takes_back(tokens, begun.end, anchor.k) or denied(tokens, begun.end - 1, anchor.k):
        return False
    if begun.how == "next":
        behind = [token.text for token in tokens[anchor.end : anchor.end + 2]]
        return all(token.text in _IS_LIKE for token in between) and any(word in ("again", "over", "once") for word in behind)
    return anchor.last < begun.first and any(token.text in _LOOKS_BACK for token in between[-2:])


def _told_singly(tokens: Sequence[Token], anchors: Sequence[Anchor]) -> list[Anchor]:
    out: list[Anchor] = []
    for i, one in enumerate(anchors):
        several = one.how == "begins" and one.first < one.last < one.first + TOGETHER and one.said is None
        singly = _one_by_one(tokens, one, anchors[i + 1 :]) if several else []
        if singly:
            out += [replace(singly[0], k=one.k), *singly[1:]]  # what is told between is of the first of them
        elif not any(other.how == one.how == "begins" and other.end == one.end for other in out):
            out.append(one)
    kept = {k for one in out if one.how == "begins" for k in range(one.k, one.end)}
    return sorted((one for one in out if one.how == "begins" or one.k not in kept), key=lambda one: one.k)


def _one_by_one(tokens: Sequence[Token], several: Anchor, behind: Sequence[Anchor]) -> list[Anchor]:
    """The namings of each of the rows announced, in their order; none where not each is named, or work is told before the first is."""
    found: list[Anchor] = []
    at = several.end
    begun = [one for one in behind if one.how == "begins" and one.first == one.last]
    end = next((one.k for one in behind if one.how == "begins" and not several.first <= one.first <= several.last), len(tokens))
    for number in range(several.first, several.last + 1):
        named = next((one for one in begun if one.first == number and at <= one.k < end), None)
        k = next((k for k in range(at, min(end, named.k if named is not None else end)) if _opens(tokens, k, number)), -1)
        one = named if k < 0 else Anchor(k, k + 1, "begins", number, number, tokens[k].at, OPENLY)
        if one is None:
            return []
        found.append(one)
        at = one.end
    lead = tokens[several.end : found[0].k]
    return [] if len(lead) > ANNOUNCES or any(token.kind in ("st", "chain", "increase", "decrease") for token in lead) else found


def _opens(tokens: Sequence[Token], k: int, number: int) -> bool:
    """Whether the number at token k names its row without the word: "so eight is the mesh", "and turn, and nine's chain one", "Six fills
    them in"."""
    token, after = tokens[k], tokens[k + 1] if k + 1 < len(tokens) else None
    if token.kind != "num" or token.number != number or after is None or not k:
        return False
    before = tokens[k - 1]
    if not (before.stop or before.text in LEADS or before.until != token.until):
        return False
    if token.stop:
        return token.mark in ".:" and before.kind != "num" and after.kind != "num"
    sentence = before.mark in ".!?:" or (before.text in LEADS and k > 1 and tokens[k - 2].mark in ".!?:")
    return after.text == "is" or (sentence and after.kind == "word" and after.text not in _OF_A_COUNT)
