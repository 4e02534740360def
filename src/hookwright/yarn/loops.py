"""How the yarn of a row is shared by its stitches: by the loops each one draws.

Every movement that draws or wraps the yarn leaves one loop: a chain 1, sc 2, hdc 3, dc 4, tr 6. These are the movements of
`trade.stitches`; measured per stitch, sc : hdc is 1 : 1.47 (weighed) and rows of sc : hdc : dc are 1 : 1.48 : 1.92 (unravelled), against
1 : 1.5 : 2 by loops (tests/authority/test_yarn_measured.py). A relief stitch reaches round the post and takes `relief` times as much.
"""

from __future__ import annotations

import re
from functools import lru_cache

from ..trade import stitches
from ..trade.kinds import base, closes
from .model import constants

RELIEF_KINDS = ("bobble", "popcorn", "spike", "crocodile", "cable")
"""Groups that stand up from the fabric; post stitches are known by their names."""
_GROUP_LOOPS = {"cl": 10, "bobble": 16, "popcorn": 21, "puff": 8, "star": 7, "picot": 4}
"""Customary forms: cluster of 3 dc, bobble of 5 dc, popcorn of 5 dc, puff of 3, star of 5 loops (common practice, no source)."""
_TOGETHER = re.compile(r"\d+tog$")


@lru_cache(maxsize=1024)
def loops(kind: str) -> float:
    """Loops drawn by one stitch of this kind, the reach round a post included.

    >>> [loops(kind) for kind in ("ch", "sl st", "sc", "hdc", "dc", "tr", "dc2tog")]
    [1.0, 1.0, 2.0, 3.0, 4.0, 6.0, 7.0]
    """
    number = closes(kind)
    if number > 1:
        single = _TOGETHER.sub("", kind)
        return number * (loops(single) - 1) + 1
    return _plain(kind) * (constants().relief if is_post(kind) else 1.0)


def _plain(kind: str) -> float:
    known = stitches.stitch(kind) or stitches.stitch(base(kind))
    if known is not None and known.actions:
        return float(sum(1 for action in known.actions if not action.startswith("insert")))
    if known is not None and known.legs:
        return float(known.legs)
    return float(_GROUP_LOOPS.get(base(kind), 4))


@lru_cache(maxsize=1024)
def moves(kind: str) -> float:
    """Movements of hook and hand in one stitch: the measure of its time.

    >>> [moves(kind) for kind in ("ch", "sc", "hdc", "dc", "tr")]
    [1.0, 3.0, 4.0, 5.0, 7.0]
    """
    number = closes(kind)
    if number > 1:
        return number * (moves(_TOGETHER.sub("", kind)) - 1) + 1
    known = stitches.stitch(kind) or stitches.stitch(base(kind))
    return float(len(known.actions)) if known is not None and known.actions else _plain(kind) + 1


def is_post(kind: str) -> bool:
    """Whether the stitch is worked round a post.

    >>> is_post("FPdc2tog"), is_post("dc")
    (True, False)
    """
    return kind[:2] in ("FP", "BP")


def is_relief(kind: str) -> bool:
    """Whether the stitch makes a relief: round a post, or a group that stands up."""
    return is_post(kind) or base(kind) in RELIEF_KINDS
