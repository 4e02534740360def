"""Stitch ids: how names are built and taken apart, and which plain kind each counts under.

Ids are US abbreviations. Plain: "ch", "sl st", "sc", "esc", "hdc", "ehdc", "dc", "edc", "tr", "dtr", "trtr", "qtr". Built from them:
"dc2tog" (together), "FPdc"/"BPdc" (post), "dc-cl3" is never used: groups in one place are "cl", "bobble", "puff", "popcorn", with the
plain kind in front when told ("3dc-cl" is "cl"). Foundation stitches: "fsc", "fhdc", "fdc".
"""

from __future__ import annotations

import re
from functools import lru_cache

PLAIN: tuple[str, ...] = ("sl st", "sc", "esc", "hdc", "ehdc", "dc", "edc", "tr", "dtr", "trtr", "qtr")
"""From the shortest to the tallest."""

GROUPS_AS_ONE: tuple[str, ...] = ("cl", "bobble", "puff", "popcorn", "star", "bullion")
"""Several strands or stitches gathered into one top: each counts 1."""

TUNISIAN: tuple[str, ...] = ("tss", "tks", "tps", "trs", "tfs", "tes")
"""Stitches whose loops stay on the hook until the return pass: simple, knit, purl, reverse, full, extended."""

FOUNDATION_STITCHES = {"fsc": "sc", "fhdc": "hdc", "fdc": "dc", "ftr": "tr"}

AIRY = frozenset(("knot st",))
"""Stitches made on the hook alone, as chains are: no place is needed for them."""

HEIGHT = {"sl st": 0, "sc": 1, "esc": 2, "hdc": 2, "ehdc": 3, "dc": 3, "edc": 4, "tr": 4, "dtr": 5, "trtr": 6, "qtr": 7}
"""Customary height of each stitch in chains (Dummies, "How to crochet a turning chain"; craft council tables agree)."""


def as_high(chains: int, kind: str) -> bool:
    """Whether a chain is the height of a stitch, or one less, so that it may stand for it.

    >>> as_high(3, "dc"), as_high(4, "dc"), as_high(1, "sc")
    (True, False, False)
    """
    high = HEIGHT.get(base(kind), 0)
    return high > 1 and chains in (high, max(2, high - 1))


_TOGETHER = re.compile(r"^(?P<base>.+?)(?P<n>\d+)tog$")


@lru_cache(maxsize=512)
def base(kind: str) -> str:
    """The plain kind inside a built name.

    >>> base("dc2tog"), base("FPdc"), base("FPtr2tog"), base("fsc"), base("puff")
    ('dc', 'dc', 'tr', 'sc', 'puff')
    """
    match = _TOGETHER.match(kind)
    if match:
        return base(match["base"])
    if kind[:2] in ("FP", "BP"):
        return base(kind[2:])
    return FOUNDATION_STITCHES.get(kind, kind)


@lru_cache(maxsize=512)
def closes(kind: str) -> int:
    """How many places a stitch of this kind takes by its name.

    >>> closes("sc3tog"), closes("dc")
    (3, 1)
    """
    match = _TOGETHER.match(kind)
    return int(match["n"]) if match else 1


@lru_cache(maxsize=512)
def counts_as(kind: str) -> str:
    """The key of `by_kind` that one such stitch counts under: together-stitches under their plain kind, post stitches under their own.

    >>> counts_as("dc2tog"), counts_as("FPdc"), counts_as("FPdc2tog"), counts_as("fsc")
    ('dc', 'FPdc', 'FPdc', 'sc')
    """
    match = _TOGETHER.match(kind)
    if match:
        return counts_as(match["base"])
    return FOUNDATION_STITCHES.get(kind, kind)
