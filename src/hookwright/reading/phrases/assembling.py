"""Sentences that tell how many pieces are made and how they are laid together: "Make 40 blocks and join in rows of 5".

The joining itself is told with the last round of a piece, or among the seams; no stitch of the row at hand is asked for.
"""

from __future__ import annotations

from ..wording.token import Token
from .cursor import Cursor

_PIECES = frozenset(
    "motifs blocks squares strips medallions wheels hexagons octagons diamonds triangles flowers units sections circles stars".split()  # noqa: SIM905
)
_VERBS = frozenset("make work join joining sew crochet continue add arrange place lay alternate form using use attach slip".split())  # noqa: SIM905
_STEPS = frozenset(("skip", "turn", "*", "inc", "dec", "mring", "(", "["))
_LED_IN = frozenset(("then", "now", "idle", "and"))
_JOINED = frozenset(("sew", "overcast", "whip", "join", "crochet", "sl st", "slip"))


def assembled(c: Cursor, end: int) -> bool:
    """Whether the sentence that begins here tells of pieces put together and of no stitches to be worked."""
    first = c.t[c.i]
    if first.kind not in _LED_IN and not _may_assemble(first):
        return False
    words = _sentence(c, end)
    if not words or not _may_assemble(words[0]):
        return False
    if not any(token.text.lower() in _PIECES for token in words):
        return False
    together = any(token.kind == "tog" for token in words) and any({str(t.val), t.text.lower()} & _JOINED for t in words)
    return together or not any(_step(words, k) for k in range(len(words)))


def _may_assemble(first: Token) -> bool:
    """Whether such a sentence may begin with this word."""
    return first.text.lower() in _VERBS or str(first.val) in _VERBS or first.kind in ("cont", "join", "work", "attach")


def _sentence(c: Cursor, end: int) -> list[Token]:
    k = c.i
    while k < end and c.t[k].kind in _LED_IN:
        k += 1
    first = k
    while k < end and c.t[k].kind not in (".", "!"):
        k += 1
    return c.t[first:k]


def _step(words: list[Token], k: int) -> bool:
    """An instruction of its own: chains with a number, a number of stitches, a stitch with its place, a skip, a turn."""
    token = words[k]
    after = words[k + 1].kind if k + 1 < len(words) else ""
    if token.kind in ("(", "["):
        return not (k + 2 < len(words) and words[k + 2].kind in (")", "]"))  # "10 (12) motifs", "1st (center) block"
    if token.kind in _STEPS:
        return True
    if token.kind == "ch":
        return after in ("n", "-") or (k > 0 and words[k - 1].kind == "n")
    return token.kind in ("st", "grp") and (after in ("in", "next", "over") or (k > 0 and words[k - 1].kind in ("n", "a")))
