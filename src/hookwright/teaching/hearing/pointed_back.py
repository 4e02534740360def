"""Things told only to say from where a repeat goes on: "repeat that from the skip", "from the two trebles you do that again"."""

from __future__ import annotations

from collections.abc import Sequence

from .tokens import Token

_FROM = frozenset(("from", "since"))
_THE = frozenset(("the", "that", "this", "those", "our", "your"))
BEHIND = 9
"""Words behind the thing, and before it, within which it is said that something is done again (ours)."""
_PLACES = frozenset(("in", "into", "around", "over", "across", "on"))
_GOES_ON = frozenset(("again", "times", "time", "more", "once", "twice", "on", "onwards", "onward", "over", "everything"))
_DOES = frozenset(("repeat", "again", "go", "do", "work", "star", "back", "over", "more", "everything", "that", "it"))


def pointed_back(tokens: Sequence[Token], k: int) -> bool:
    """Whether the thing at token k is only where a repeat begins; where its own place is told behind it, it is worked."""
    at = k - 1
    while (
        at > 0 and not tokens[at].stop and (tokens[at].kind in ("num", "front post", "back post") or tokens[at].text in ("first", "very"))
    ):
        at -= 1
    if at < 1 or tokens[at].stop or tokens[at].text not in _THE or tokens[at - 1].stop or tokens[at - 1].text not in _FROM:
        return False
    behind = [token for token in tokens[k + 1 : k + 1 + BEHIND]]
    if not tokens[k].stop and any(token.text in _PLACES for token in behind[:1]):
        return behind[0].text == "on" and (len(behind) < 2 or behind[1].text not in _THE)
    again = any(token.text in _GOES_ON or token.kind == "repeat" for token in behind)
    return again or any(token.text in _DOES or token.kind == "repeat" for token in tokens[max(0, at - 1 - BEHIND) : at - 1])
