"""Crossed stitches counted two by two: "(11 cross sts, 2 dc)", "(11 crosses and 2 dc)", "(1 dc and 11 crossed pairs)", "(11 X-sts)"."""

from __future__ import annotations

from .cursor import Cursor

EXAMPLES: tuple[tuple[str, str], ...] = ()
_CROSSED = frozenset(("cross", "crossed", "x"))


def crosses_counted(c: Cursor, end: int) -> str | None:
    """ "cross" where a number told before is of crossed pairs; None, unmoved, elsewhere."""
    word = c.t[c.i].text.lower()
    if word == "crosses":
        c.i += 1
        return "cross"
    k = c.i + 1
    k += c.t[k].kind == "-"
    paired = c.t[k].kind in ("noun", "st", "group")
    if word not in _CROSSED or not paired or k >= end or (word == "x" and c.t[k].kind != "noun"):
        return None
    k += 1
    k += c.t[k].kind == "noun" and k < end  # "crossed dc sts"
    c.i = k
    return "cross"
