"""Numbers that mean nothing in the work: taken back at once for another, or told in a sentence about something else."""

from __future__ import annotations

from collections.abc import Sequence

from .denying import denied
from .lexicon import words
from .tallies import counts_aloud
from .things import sentence
from .tokens import Token

_NO = frozenset(("no", "nope", "oops", "whoops", "sorry"))
AT_ONCE = 3
"""Words behind "no" within which the right number is told, where nobody set marks: "in the next seven no eight" (ours)."""
REACH = 7
"""Words behind a number within which another is told in its place (ours)."""
_WORK = (
    "st", "stitch", "chain", "skip", "row", "rows", "space", "ring", "increase", "decrease", "together", "join", "turn", "slip", "repeat",
    "around", "front post", "back post", "shell", "cluster", "picot", "bobble", "puff", "popcorn", "v-stitch",
)  # fmt: skip


def instead(tokens: Sequence[Token], k: int, end: int) -> int:
    """The place of the number told at once in the place of the one at token k: "in the next two, no, next three", "chain three, scratch
    that, chain two"; k where none is."""
    if not tokens[k].stop:
        no = k + 1 < end and tokens[k + 1].text in _NO
        return next((i for i in range(k + 2, min(k + 2 + AT_ONCE, end)) if tokens[i].kind == "num"), k) if no else k
    if not denied(tokens, k, end):
        return k
    for i in range(k + 1, min(k + 1 + REACH, end)):
        if tokens[i].kind == "num":
            return k if counts_aloud(tokens, i) else i  # "in the last three. Let me count: two, four, six"
        if tokens[i].kind in _WORK and tokens[i].kind != tokens[k - 1].kind:
            break
    return k


_PLACES = words("withdrawn", "places")
"""Words of the work that are no names of stitches."""
_LITTLE = words("things", "no_thing") | frozenset(("one", "two"))
TALK = 3
"""So many words of its own make a sentence without any word of the work talk (ours)."""


def in_talk(tokens: Sequence[Token], k: int, own: frozenset[int]) -> bool:
    """Whether the sentence of the number at token k tells none of the row's `own` numbers, nothing of the work and enough of the world: "a
    man who lived in one for years, with a goat"."""
    first, last = sentence(tokens, k)
    said = tokens[first : last + 1]
    if any(token.kind in _WORK or token.text in _PLACES or (token.kind == "num" and token.number in own - {1}) for token in said):
        return False
    return sum(token.kind == "word" and len(token.text) > 2 and token.text not in _LITTLE for token in said) >= TALK
