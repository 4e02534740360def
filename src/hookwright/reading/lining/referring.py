"""Words before a row's number by which that row is only named, and none is opened: "repeat", "as", "until"."""

from __future__ import annotations

import re

_REFERRING = frozenset(
    """
    a above across after all and any as at before behind below between both by continue each end every first follow following
    for from in into is last like make next of on or over per previous rep repeat repeating reps rpt same see skip st than
    the these this through thru till to under until using with work worked working your
    """.split()  # noqa: SIM905
)
"""Words after which a row's number names that row and opens none."""


def refers(before: str) -> bool:
    """The words end in one after which a row is only named ("repeat", "as", "until", "and")."""
    if before[-1:] in "-&,":
        return bool(before)
    if before.lower().endswith((" rep.", ".rep.", " rpt.")):
        return True
    k = len(before)
    while k and before[k - 1].isalpha():
        k -= 1
    return before[k:].lower() in _REFERRING


_NAMING = frozenset("as of rep repeat from than the and or like until through thru same".split())  # noqa: SIM905


_UNIT_AGAIN = re.compile(r"[*;,)\]]\s{0,3}(?:rep|repeat)\s*$", re.I)
"""The end of a row whose unit is told again ("*sc, inc*; repeat"), not of a sentence that names a row."""


def names_only(before: str) -> bool:
    """The line before ends in a word that must be followed by what it names ("same as", "repeat", "until")."""
    word = before.rsplit(None, 1)[-1].lower() if before.split() else ""
    return word in _NAMING and not _UNIT_AGAIN.search(before)
