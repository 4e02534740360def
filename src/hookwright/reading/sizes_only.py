"""Rows for some sizes: "Rnd 9 (M and L only)", "Row 4 (size Large only)"."""

from __future__ import annotations

import re
from collections.abc import Sequence

_APART = re.compile(r"\s*(?:,|/|&|\band\b|\+)\s*", re.IGNORECASE)
_BRACKET = re.compile(r"\(([^()]*)\)")


def only_of(note: str, names: Sequence[str]) -> frozenset[int] | None:
    """The sizes (from 0) that a label's note keeps its row for; None when it names none.

    >>> names = ("Child", "Adult", "Large")
    >>> sorted(only_of("(Adult and Large only)", names)), only_of("(RS)", names), sorted(only_of("(RS, size Child only)", names))
    ([1, 2], None, [0])
    """
    known = {name.lower(): k for k, name in enumerate(names)}
    for bracket in _BRACKET.findall(note):
        words = re.search(r"(?i)\bonly\b", bracket)
        if not known or words is None:
            continue
        told = re.sub(r"(?i)^(?:\s*[RW]S\s*,)?\s*(?:for\s+)?(?:sizes?\s+)?", "", bracket[: words.start()]).strip()
        found = [known.get(word.strip().lower()) for word in _APART.split(told)]
        sizes = frozenset(k for k in found if k is not None)
        if sizes and len(sizes) == len(found):
            return sizes
    return None
