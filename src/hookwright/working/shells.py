"""Groups that nobody named where they were made: found by what they look like.

"3 dc in next st, ch 2, 3 dc in next st" makes a shell as much as "(3 dc, ch 2, 3 dc) in next st" does, and a pattern that calls one of them
a shell means the others too. So a word for a group is looked for by its name, then by the order of stitches and chains that the pattern
gives the name to, then as several stitches in one place.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from ..pattern import Chain, Make, Repeat, Special, Step, Together
from .fabric import RING_FOOT, How, Stitches
from .offer import Offer

MOST = 60
"""Elements of the longest group that is looked for by its shape."""

Run = tuple[int, int]
"""First place, one past the last."""


def shapes_of(defined: Mapping[str, Special], size: int) -> dict[str, tuple[str, ...]]:
    """What every group of the pattern's own looks like: its elements' kinds in order, "ch" for each chain.

    >>> from ..pattern import Sized
    >>> v = Special(name="V-st", steps=(Make(stitch="dc"), Chain(number=Sized((1,))), Make(stitch="dc")))
    >>> shapes_of({"V-st": v}, 0)
    {'V-st': ('dc', 'ch', 'dc')}
    """
    found: dict[str, tuple[str, ...]] = {}
    for name, special in defined.items():
        kinds = tuple(_kinds(special.steps, size, MOST))
        if 2 <= len(kinds) <= MOST and kinds[0] != "ch" and kinds[-1] != "ch":
            found[name] = kinds
    return found


def _kinds(steps: Iterable[Step], size: int, most: int) -> Iterator[str]:
    for step in steps:
        if isinstance(step, Make):
            places = 1 if step.places == "rest" else step.places.at(size) or 0
            yield from [step.stitch] * min((step.each.at(size) or 0) * places, most + 1)
        elif isinstance(step, Chain):
            yield from ["ch"] * min(step.number.at(size) or 0, most + 1)
        elif isinstance(step, Together):
            yield from _kinds(step.body, size, most)
        elif isinstance(step, Repeat) and step.times.kind == "n":
            yield from list(_kinds(step.body, size, most)) * min(step.times.number.at(size) or 0, most)


def shaped(offer: Offer, shape: tuple[str, ...]) -> list[Run]:
    """The runs of places that look like `shape`, met from either end; none overlaps another.

    Where some of them stand in one place each, only these are meant: the end of one shell and the beginning of the next look alike too.
    """
    sides = {shape, shape[::-1]}
    firsts = {side[0] for side in sides}
    long = len(shape)
    kinds = ["ch" if offer.chain[k] else offer.kind(k) for k in range(offer.n)]
    alike = [i for i in range(offer.n - long + 1) if kinds[i] in firsts and tuple(kinds[i : i + long]) in sides]
    found: list[Run] = []
    for i in [i for i in alike if _stands_in_one(offer, i, i + long)] or alike:
        if not found or i >= found[-1][1]:
            found.append((i, i + long))
    return found


def _stands_in_one(offer: Offer, start: int, end: int) -> bool:
    """Whether the stitches of a run stand in one place, those aside of which nobody knows it."""
    feet = [where for k in range(start, end) if (where := foot(offer, k)) is not None]
    return len(feet) > 1 and len(set(feet)) == 1


def in_one_place(offer: Offer) -> list[Run]:
    """Runs of three or more stitches in one place, or of two or more with chains between them."""
    stitches = offer.stitches
    if stitches is None:
        return []
    feet = [foot(offer, k) for k in range(offer.n)]
    found: list[Run] = []
    start = 0
    while start < offer.n:
        if feet[start] is None:
            start += 1
            continue
        end = last = start
        many = 0
        while end < offer.n and (feet[end] == feet[start] or (offer.chain[end] and feet[end] is None)):
            if feet[end] is not None:
                last, many = end, many + 1
            end += 1
        if many >= 3 or (many >= 2 and last - start >= many):
            found.append((start, last + 1))
        start = last + 1
    on_edge = _told_on_an_edge(offer, found)
    if len(on_edge) > len(found):
        return on_edge
    return _with_far_corners(offer, found) if 0 < len(found) < SIDES_OF_CLOTH else found


def in_pairs(offer: Offer) -> list[Run]:
    """Runs of two stitches in one place, where most of the row's stitches stand so."""
    if offer.stitches is None:
        return []
    feet = [foot(offer, k) for k in range(offer.n)]
    found: list[Run] = []
    k = 0
    while k + 1 < offer.n:
        if feet[k] is not None and feet[k] == feet[k + 1]:
            found.append((k, k + 2))
            k += 1
        k += 1
    return found if 2 * len(found) > offer.n // 2 else []


def _told_on_an_edge(offer: Offer, sure: list[Run]) -> list[Run]:
    """Of a round along an edge that nobody counted ("26 sc down the side, 3 sc in corner"): the few stitches told between longer runs, with
    those that are sure to stand in one place."""
    stitches = offer.stitches
    if stitches is None or not offer.around or not offer.plain:
        return []
    runs = _told_together(offer, stitches)
    few = [run for run in runs if 3 <= run[1] - run[0] <= MOST_IN_CORNER and (run in sure or _nowhere(offer, run))]
    longer = all(run in few or run[1] - run[0] > MOST_IN_CORNER for run in runs)
    return few if longer and 3 <= len(few) <= 8 else []


def _told_together(offer: Offer, stitches: Stitches) -> list[Run]:
    """The runs of stitches that one step made in one repeat."""
    runs: list[Run] = []
    for k in range(offer.n):
        i = offer.at[k]
        same = runs and (stitches.step[i], stitches.repeat[i]) == (stitches.step[i - 1], stitches.repeat[i - 1])
        if same:
            runs[-1] = (runs[-1][0], k + 1)
        else:
            runs.append((k, k + 1))
    return runs


def _with_far_corners(offer: Offer, found: list[Run]) -> list[Run]:
    """The corners of a cloth edged all round: those in its last row, and those of as many stitches in the chain that it began with, whose
    places nobody counts; as they were where that does not make four alike."""
    sizes = {end - start for start, end in found}
    if offer.stitches is None or not offer.around or not offer.plain or len(sizes) > 1:
        return found
    stitches = offer.stitches
    far = [
        (start, end)
        for start, end in _told_together(offer, stitches)
        if end - start in sizes and not any(any(True for _ in stitches.feet_of(offer.at[k])) for k in range(start, end))
    ]
    return sorted((*found, *far)) if len(found) + len(far) == SIDES_OF_CLOTH else found


SIDES_OF_CLOTH = 4
MOST_IN_CORNER = 5
"""Stitches worked into one corner, at the most (common practice, no source)."""


def _nowhere(offer: Offer, run: Run) -> bool:
    """Whether the places of these stitches were not counted."""
    assert offer.stitches is not None
    return all(not any(at != RING_FOOT for _, at, _ in offer.stitches.feet_of(offer.at[k])) for k in range(*run))


def foot(offer: Offer, k: int) -> tuple[int, int] | None:
    """What a stitch stands in; None for a chain, and in a ring, where everything stands in one place."""
    if offer.chain[k] or offer.stitches is None:
        return None
    feet = [(back, at) for back, at, how in offer.stitches.feet_of(offer.at[k]) if how != How.RING and at != RING_FOOT]
    return feet[0] if len(feet) == 1 else None


def is_loop_of_figure(offer: Offer, start: int, end: int, shells: Iterable[Run]) -> bool:
    """Whether the space [start, end) is one of a figure's own loops: the same stitch stands on both sides of it, and neither belongs to a
    shell. The chains that lead from a shell to the figure have a shell on one side."""
    if start == 0 or end >= offer.n or offer.chain[start - 1] or offer.chain[end]:
        return False
    if offer.kind(start - 1) != offer.kind(end):
        return False
    return not any(first <= k < last for first, last in shells for k in (start - 1, end))
