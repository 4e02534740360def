"""Where sentences end in words that nobody marked: before a row is named, around a count, at the end of a caption that breaks no phrase."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .lexicon import words
from .tokens import Token
from .words import AMID, ends_of_captions

FEWEST = 25
"""A text with fewer marks than one in so many words was marked by nobody (ours)."""
_LEADS_IN = words("marks", "leads_in")
_HANGS = words("marks", "hangs")
_BEFORE_THAT = words("marks", "before_that")
_OPENS = words("marks", "opens")
_CLOSES = frozenset(
    ("around", "join", "turn", "together", "ring", "space", "stitch", "repeat", "shell", "cluster", "picot", "increase", "decrease")
)
_CLOSING = words("marks", "closing")
_UPTO = frozenset(("to", "through", "thru", "till", "until", "and"))
_NOUNS = frozenset(("stitch", "st", "space", "shell", "cluster", "v-stitch", "picot", "bobble", "puff", "popcorn"))


def marked_up(tokens: list[Token]) -> list[Token]:
    """The tokens with sentence ends where they must be, if nobody set any; else as they are."""
    if sum(token.stop and token.mark in ".!?" for token in tokens) * FEWEST >= len(tokens):
        return tokens
    captions = ends_of_captions(tokens)
    whole = {k for k in captions if tokens[k].text not in AMID and not _number_of_next(tokens, k)}
    ends = {k for k in range(len(tokens) - 1) if _ends(tokens, k) or k in whole}
    for k in range(1, len(tokens)):
        if tokens[k].kind == "num":
            ends |= _around_count(tokens, k, ends)
    ends -= {k for k in ends if _goes_into(tokens, k)}
    return [replace(token, stop=True, ends=".") if k in ends and not token.stop else token for k, token in enumerate(tokens)]


def _number_of_next(tokens: Sequence[Token], k: int) -> bool:
    """Whether a caption breaks off between a number and what it is of: "so three | chains, four trebles"."""
    after = tokens[k + 1] if k + 1 < len(tokens) else None
    return (
        tokens[k].kind == "num"
        and after is not None
        and (after.led or (after.kind in ("chain", "st", "stitch", "space") and after.text.endswith("s")))
    )


def _goes_into(tokens: Sequence[Token], k: int) -> bool:
    """Whether token k is a stitch and its place is told behind it, in the same words: "one treble | in each of the next two"."""
    lead, behind = tokens[k], [token.text for token in tokens[k + 1 : k + 4]]
    return lead.kind == "st" and behind[:1] in (["in"], ["into"]) and behind[1:2] in (["each"], ["every"])


def _ends(tokens: Sequence[Token], k: int) -> bool:
    """Whether a sentence ends behind token k: a row is named next, or a caption ends and the next one opens a sentence."""
    token, after = tokens[k], tokens[k + 1]
    if token.kind == "repeat" and k and tokens[k - 1].text in ("the", "a") and after.until != token.until:
        return True
    if _names_row(tokens, k + 1):
        return not _hangs(tokens, k) and token.text not in _LEADS_IN
    if after.text in _LEADS_IN:
        at = k + 2
        while at < len(tokens) and tokens[at].text in _LEADS_IN:
            at += 1
        if _names_row(tokens, at):
            return not _hangs(tokens, k) and token.text not in _LEADS_IN
    if _number_of_next(tokens, k):
        return False
    return after.until != token.until and not _hangs(tokens, k) and (after.text in _OPENS or after.kind in ("chain", "turn", "join"))


def _hangs(tokens: Sequence[Token], k: int) -> bool:
    """Whether token k leads on to the next one; a "before" of time does not: "I didn't tell you before"."""
    if tokens[k].text == "like" and k and tokens[k - 1].text in _WHO_LIKE and tokens[k].until != tokens[k + 1].until:
        return False  # "you do what you like | row six is all open again"
    if tokens[k].text == "each" and k > 1 and tokens[k - 1].text == "of" and tokens[k - 2].kind == "num":
        return False  # "fourteen of each | row three is …"
    if tokens[k].text == "before" and k:
        return tokens[k - 1].text not in _BEFORE_THAT
    return tokens[k].text in _HANGS


_WHO_LIKE = frozenset(("you", "i", "we", "they", "you'd", "i'd", "who", "people"))


def _names_row(tokens: Sequence[Token], k: int) -> bool:
    if k + 1 >= len(tokens) or tokens[k - 1].kind == "ord":  # "second row, one double": named already
        return False
    if tokens[k].kind == "rows" and k and tokens[k - 1].kind == "num" and not (k + 2 < len(tokens) and tokens[k + 2].text in _UPTO):
        return False  # "do that for five rounds | seventy stitches each"
    return (tokens[k].kind in ("row", "rows") and tokens[k + 1].kind == "num") or (tokens[k].kind == "ord" and tokens[k + 1].kind == "row")


CHAINS = 5
"""So many chains at most are told behind "chain" rather than a row's count: "two doubles in the first, chain one | and …" (ours)."""


def _around_count(tokens: Sequence[Token], k: int, ends: set[int]) -> set[int]:
    """The ends before and behind a count that follows closed work: "… in each stitch across | thirty stitches | row four"."""
    before = tokens[k - 1]
    closed = (
        before.kind in _CLOSES
        or (before.kind == "num" and k > 1 and tokens[k - 2].text == "times")
        or before.text in _CLOSING
        or (before.kind == "chain" and tokens[k].number > CHAINS and _a_place(tokens, k - 1, ends))
        or k - 1 in ends
    )
    if not closed:
        return _last_before_row(tokens, k)
    last = k + 1 if k + 1 < len(tokens) and tokens[k + 1].kind in _NOUNS else k
    over = last + 1 >= len(tokens) or last in ends or tokens[last + 1].until != tokens[last].until or tokens[last + 1].text in _LEADS_IN
    return {k - 1, last} if over else set()


def _last_before_row(tokens: Sequence[Token], k: int) -> set[int]:
    """The ends around a number that, alone or with its noun, ends a caption before one that names a row, and belongs to no word before."""
    before = tokens[k - 1]
    last = k + 1 if k + 1 < len(tokens) and tokens[k + 1].kind in _NOUNS else k
    if last + 2 >= len(tokens) or tokens[last + 1].until == tokens[last].until or _hangs(tokens, k - 1) or before.kind in _NUMBERED:
        return set()
    at = last + 1
    while at < len(tokens) - 1 and tokens[at].text in _LEADS_IN:
        at += 1
    if not _names_row(tokens, at):
        return set()
    return {k - 1, last} if before.kind == "num" else {last}


_NUMBERED = ("chain", "row", "rows", "skip", "around", "ord")


def _a_place(tokens: Sequence[Token], k: int, ends: set[int]) -> bool:
    """Whether the chain at token k is where one works: "in the top of the chain"; no such word counts from before its sentence."""
    first = next((i + 1 for i in (k - 1, k - 2) if i in ends or (i >= 0 and tokens[i].stop)), max(0, k - 2))
    i = k - 1
    while i >= first and (tokens[i].text in _PLACED or tokens[i].kind == "ord"):
        i -= 1
    # "at the end chain two" is work
    return (i >= first and tokens[i].text == "the") or any(token.text in _PLACED for token in tokens[i + 1 : k])


_PLACED = frozenset(("turning", "last", "starting", "beginning", "top"))
"""Before a chain that is a place."""
