"""Signs that stand for words in a row: the plus between the stitches of a list, the star that is told by its name."""

from __future__ import annotations

from .token import Token


def signs_told(found: list[Token]) -> list[Token]:
    """The tokens, "hdc + dc + hdc" with "and" for its signs, "repeat from the star" with the star itself.

    A plus that the row repeats from ("+ sc in next, ch 3; rep from +") is a mark, and stays one.
    """
    pluses = [k for k, token in enumerate(found) if token.text == "+" and 0 < k < len(found) - 2]
    marked = any(found[k - 1].kind in ("rep", "from", "to", ",", ";", ".", ":", "*") for k in pluses)
    out = found
    if pluses and not marked and all(_between_stitches(found, k) for k in pluses):
        out = [_as(token, "and", "and") if k in pluses else token for k, token in enumerate(found)]
        out = _all_in_one(out, pluses[-1])
    stars = [k for k, token in enumerate(out) if token.kind == "w" and token.text.lower() in ("star", "asterisk")]
    signs = [token for token in out if token.kind == "*"]
    if stars and signs:
        return [_as(token, "*", signs[0].val) if k in stars and _named(out, k) else token for k, token in enumerate(out)]
    return out


def _all_in_one(found: list[Token], last: int) -> list[Token]:
    """ "Hdc + dc + hdc in next st": all of the sum goes there, as "all in next st" says."""
    at = last + 2 + (found[last + 1].kind == "n")
    if at >= len(found) or found[at].kind != "in":
        return found
    return [*found[:at], Token("all", "all", found[at].start, found[at].start, "all", True), *found[at:]]


def _as(token: Token, kind: str, value: object) -> Token:
    return Token(kind, value, token.start, token.end, token.text, token.gap)


def _between_stitches(found: list[Token], k: int) -> bool:
    """A stitch (or the number of a chain) stands before it, and a stitch or a chain behind."""
    before, after, then = found[k - 1], found[k + 1], found[k + 2]
    told = before.kind in ("st", "noun") or (before.kind == "n" and found[k - 2].kind in ("ch", "-"))
    return told and (after.kind in ("st", "ch") or (after.kind == "n" and then.kind in ("st", "ch")))


def _named(found: list[Token], k: int) -> bool:
    """ "From star", "from the first star", "to the star": led in as a place in the words."""
    at = k - 1
    while at > 0 and found[at].kind in ("the", "o"):
        at -= 1
    return at >= 0 and found[at].kind in ("from", "to", "between")
