"""Corners and centres of an offer: where words like "in corner" and "to center st" point, though nobody marked them."""

from __future__ import annotations

from .context import Spot
from .fabric import How, Role
from .offer import Offer
from .shells import foot, in_one_place


def corners(offer: Offer) -> list[Spot]:
    """Where an offer turns: the longest of the spaces in the middle of groups, else of all spaces; where there is none, the middle of three
    or more stitches in one place."""
    if offer.plain:
        return centres(offer)
    spaces = spaces_of(offer)
    spaces = [spot for spot in spaces if _in_a_group(offer, spot)] or spaces
    longest = max(spot.end - spot.start for spot in spaces)
    return [spot for spot in spaces if spot.end - spot.start == longest]


def centres(offer: Offer) -> list[Spot]:
    """The middle stitch of every run of three or more in one place."""
    n = offer.n
    before, behind = _over_the_join(offer)
    runs = [(i, end) for i, end in in_one_place(offer) if not before or (i >= behind and end <= n - before)]
    across = [(n - before, n + behind)] if before and before + behind >= 3 else []
    middles = sorted((i + end - 1) // 2 % n for i, end in runs + across)
    return [Spot(i, i + 1, How.TOP) for i in middles]


def _over_the_join(offer: Offer) -> tuple[int, int]:
    """How many of the stitches in one place stand before the join of a round, and how many behind it: it was begun amid them."""
    where = foot(offer, 0) if offer.around and offer.n else None
    if where is None or foot(offer, offer.n - 1) != where:
        return 0, 0
    behind = next((k for k in range(offer.n) if foot(offer, k) != where), 0)
    before = next((k for k in range(offer.n) if foot(offer, offer.n - 1 - k) != where), 0)
    return before, behind


IN_INCREASE = "inc"
"""What a place "of each increase" lies in."""


def in_increases(offer: Offer, nth: int) -> list[Spot]:
    """That stitch (counted from 1; -1 the last) of every run of two or more standing in one place."""
    feet = [foot(offer, k) for k in range(offer.n)]
    found: list[Spot] = []
    start = 0
    while start < offer.n:
        end = start + 1
        while end < offer.n and feet[end] is not None and feet[end] == feet[start]:
            end += 1
        if end - start >= max(nth, 2):
            k = end - 1 if nth < 0 else start + nth - 1
            found.append(Spot(k, k + 1, How.TOP))
        start = end
    return found


def centre_stitches(offer: Offer) -> list[Spot]:
    """Where "center st" points: the centres; in a row not those of a fan at its very end, which only widens it, where there are others.

    A plain row of an odd number with no fan along it has its middle stitch, any other row one of the two places in its middle.
    """
    if offer.around:
        return centres(offer)
    runs = in_one_place(offer)
    inner = sorted((i + end - 1) // 2 for i, end in runs if i > 0 and end < offer.n)
    if inner:
        return [Spot(i, i + 1, How.TOP) for i in inner]
    if offer.plain and offer.n % 2:
        return [Spot(offer.n // 2, offer.n // 2 + 1, How.TOP)]
    return centres(offer) or ([Spot(offer.n // 2, offer.n // 2 + 1, How.TOP)] if offer.n > 2 else [])


def centre_space(offer: Offer) -> Spot | None:
    """The space in the middle of a group that stands in the middle of a row: where "to the center" of a triangle worked from its point
    leads. None where no group with a space, or more than one, lies near there."""
    if offer.plain or offer.around:
        return None
    near = [spot for spot in spaces_of(offer) if _in_a_group(offer, spot) and abs(spot.start + spot.end - offer.n) <= NEAR_MIDDLE]
    return near[0] if len(near) == 1 else None


NEAR_MIDDLE = 4
"""Twice the places that a centre may lie beside the middle of its row: the chains of a beginning and of an end differ by about so many."""


def middles_of_runs(offer: Offer) -> list[Spot]:
    """Every run of three, five … stitches between spaces, for its middle one: "1 long on the centre one"."""
    return [Spot(start, end, How.TOP) for start, end in _between_spaces(offer) if end - start >= 3 and (end - start) % 2]


def middle_places(offer: Offer, pos: int, number: int) -> range | None:
    """The `number` places in the middle of the next run of more than so many, in one place or between two spaces: "1 dc on the 5 centre
    ones of the 7". None where no such run lies ahead."""
    runs = [run for run in in_one_place(offer) if 1 not in offer.chain[run[0] : run[1]]]
    for start, end in runs or _between_spaces(offer):
        first = start + (end - start - number) // 2
        if end - start > number and first >= pos:
            return range(first, first + number)
    return None


def _between_spaces(offer: Offer) -> list[tuple[int, int]]:
    """The runs of stitches between spaces."""
    found: list[tuple[int, int]] = []
    start = 0
    for i in range(offer.n + 1):
        if i == offer.n or offer.chain[i]:
            if i > start:
                found.append((start, i))
            start = i + 1
    return found


def spaces_of(offer: Offer) -> list[Spot]:
    """The spaces of an offer, in its order."""
    found: list[Spot] = []
    i = offer.chain.find(1)
    while i >= 0:
        end = offer.space_end(i)
        found.append(Spot(i, end, How.SPACE))
        i = offer.chain.find(1, end)
    return found


def _in_a_group(offer: Offer, spot: Spot) -> bool:
    """Whether the stitches on both sides of the space stand in one place."""
    if offer.stitches is None or not offer.n:
        return False
    before, after = (spot.start - 1) % offer.n, spot.end % offer.n
    if not offer.around and (spot.start == 0 or spot.end >= offer.n):
        return False
    if offer.around and before == 0 and offer.stitches.role[offer.at[0]] == Role.START_TOP:
        before = offer.n - 1  # a chain stands for the first stitch: it is where the round's last stitches are
    left, right = (tuple(offer.stitches.feet_of(offer.at[i])) for i in (before, after))
    return bool(left) and left == right
