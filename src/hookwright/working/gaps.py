"""The gaps between groups that stand side by side with no chain between them: "3 dc in each space between groups" of a granny stripe."""

from __future__ import annotations

from itertools import groupby, pairwise

from .fabric import Role
from .offer import Offer
from .shells import foot


def gaps(offer: Offer) -> tuple[int, ...]:
    """Places before which such a gap lies, in the order they are met: what stands on its two sides is worked into different places, and on
    one side at least two stitches share theirs. In a round the gap before its first stitch is met last, as one past the last place."""
    n = offer.n
    feet = [foot(offer, k) for k in range(n)]
    _chain_with_its_group(offer, feet)
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


def _chain_with_its_group(offer: Offer, feet: list[tuple[int, int] | None]) -> None:
    """ "Ch 3, 2 dc in first space, 3 dc in each space": the chain that begins a row makes its first group as large as the others, where it
    stands on the edge and the group in the gap beside it."""
    n = offer.n
    if offer.stitches is None or offer.around or n < 3 or any(offer.chain):
        return
    for end, beside in ((0, 1), (n - 1, n - 2)):
        if offer.stitches.role[offer.at[end]] != Role.START_TOP or feet[beside] is None or feet[end] == feet[beside]:
            continue
        runs = [len(list(run)) for foot_told, run in groupby(feet) if foot_told is not None]
        own = len(next([*run] for _, run in groupby(feet[beside :: 1 if end == 0 else -1])))
        if own + 1 == max(runs) and runs.count(max(runs)) > 1:
            feet[end] = feet[beside]


def every_gap(offer: Offer) -> tuple[int, ...]:
    """The gaps between all neighbours, as `gaps` tells them: those of a round end with the one before its first stitch."""
    return tuple(range(1, offer.n + (offer.around and offer.n > 1)))
