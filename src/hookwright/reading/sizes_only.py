"""Rows for some sizes: "Rnd 9 (M and L only)", "Row 4 (size Large only)"."""

from __future__ import annotations

import re
from collections.abc import Sequence

_APART = re.compile(r"\s*(?:,|/|&|\band\b|\+)\s*", re.IGNORECASE)
_BRACKET = re.compile(r"\(([^()]*)\)")


def only_of(note: str, names: Sequence[str]) -> frozenset[int] | None:
    """The sizes (from 0) that a label's note keeps its row for, or a heading its part; None when it names none.

    >>> names = ("Child", "Adult", "Large")
    >>> sorted(only_of("(Adult and Large only)", names)), only_of("(RS)", names), sorted(only_of("(RS, size Child only)", names))
    ([1, 2], None, [0])
    >>> sorted(only_of("Sleeve (make 2, size Large only)", names))
    [2]
    >>> sorted(only_of(", 2nd and 3rd sizes only", names))
    [1, 2]
    """
    for bracket in _BRACKET.findall(note) or [note.lstrip(" ,")]:
        words = re.search(r"(?i)\bonly\b|(?<=sizes)$|(?<=size)$", bracket)
        if not names or words is None:
            continue
        sizes = known_sizes(bracket[: words.start()], names)
        if sizes:
            return sizes
    return None


_NTH = (
    ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"],
    ["1st", "2nd", "3rd", "4th", "5th", "6th", "7th", "8th", "9th"],
)


def _by_place(many: int) -> dict[str, int]:
    """What sizes are called by their places in the lists of numbers."""
    known = {word: k for words in _NTH for k, word in enumerate(words[:many])}
    return {**known, "smallest": 0, "smaller": 0, "largest": many - 1, "larger": many - 1}


_LONG = {"xs": "x-small", "s": "small", "m": "medium", "l": "large", "xl": "x-large", "2xl": "2x-large", "3xl": "3x-large"}


def known_sizes(told: str, names: Sequence[str]) -> frozenset[int]:
    """The sizes (from 0) that words name, all of them known; none where any is not.

    >>> sorted(known_sizes("sizes M, L & XL", ("Small", "Medium", "Large", "XL"))), known_sizes("Body", ("S", "M"))
    ([1, 2, 3], frozenset())
    >>> sorted(known_sizes("1st and largest sizes", ("4-5", "6-7", "8-9")))
    [0, 2]
    """
    known = {name.lower(): k for k, name in enumerate(names)}
    if re.search(r"(?i)\bsizes?\b", told):
        known = {**_by_place(len(names)), **known}
    for short, long in _LONG.items():
        for one, other in ((short, long), (long, short), (long.replace("-", ""), short)):
            if other in known:
                known.setdefault(one, known[other])
    words = re.sub(r"(?i)^(?:\s*(?:[RW]S|make\s+\w+)\s*,)?\s*(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?", "", told).strip()
    words = re.sub(r"(?i)\s+sizes?$", "", words)
    found = [known.get(re.sub(r"(?i)\s+sizes?$", "", word).strip().lower()) for word in _APART.split(words) if word.strip()]
    return frozenset(k for k in found if k is not None) if found and None not in found else frozenset()
