"""The gaps between groups that stand side by side with no chain between them: "3 dc in each space between groups" of a granny stripe."""

from __future__ import annotations

from itertools import pairwise

from .offer import Offer
from .shells import foot


def gaps(offer: Offer) -> tuple[int, ...]:
    """Places before which such a gap lies, in the order they are met: what stands on its two sides is worked into different places, and on
    one side at least two stitches share theirs. In a round the gap before its first stitch is met last, as one past the last place."""
    n = offer.n
    feet = [foot(offer, k) for k in range(n)]
    solid = [k for k in range(n) if not offer.chain[k]]
    shared = [False] * n
    for k, after in pairwise(solid):
        if feet[k] is not None and feet[k] == feet[after]:  # a V-stitch's two stand in one place on either side of its chain
            shared[k] = shared[after] = True
    found = [
        k
        for k in range(1, n)
        if feet[k] is not None and feet[k - 1] is not None and feet[k] != feet[k - 1] and (shared[k] or shared[k - 1])
    ]
    if offer.around and n > 1 and feet[0] is not None and feet[-1] is not None and feet[0] != feet[-1] and (shared[0] or shared[-1]):
        found.append(n)
    return tuple(found)


def every_gap(offer: Offer) -> tuple[int, ...]:
    """The gaps between all neighbours, as `gaps` tells them: those of a round end with the one before its first stitch."""
    return tuple(range(1, offer.n + (offer.around and offer.n > 1)))
