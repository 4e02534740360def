"""Another piece worked into: "sc around first leg", "sc in each of 12 sts of second leg", "along the other piece"."""

from __future__ import annotations

from .cursor import Cursor

_LIMBS = frozenset(
    "leg legs arm arms ear ears piece pieces foot feet paw wing half section part side motif square strip flap strap panel cup finger body "  # noqa: SIM905
    "head petal".split()
)
_WHICH = frozenset(("o", "other", "next", "last", "same", "prev"))
_PREPS = frozenset(("around", "along", "across", "in", "of", "over", "to", "from"))


def other_piece(c: Cursor) -> bool:
    """Pass over "around (the) second leg"; False with the cursor unmoved when another piece is not named so."""
    start = c.i
    if c.kind not in _PREPS:
        return False
    c.i += 1
    c.drop("the", "in", "of", "all", "around")
    if c.kind not in _WHICH or (c.kind == "o" and c.t[c.i].val > 9):
        c.i = start
        return False
    c.i += 1
    if c.t[c.i].text.lower() not in _LIMBS or c.kind in ("st", "ch", "noun") or c.look().kind in ("sp", "lp", "ch", "st", "noun"):
        c.i = start
        return False
    c.i += 1
    return True
