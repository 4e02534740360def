"""Corners: increases stacked one over the other, round after round, turn a circle into a polygon.

Source: stacked increases make a hexagon, moving the start of the round cures it (thisisamigurumi.com, February 2018; the pear of
dzen.ru/a/YqgIC2B8CTURTRXl staggers its Rounds 6 and 8).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median_low

from ..working.fabric import RING_FOOT, How, Role, Stitches

SHOWS = 8
"""More corners than this look round."""


@dataclass(frozen=True, slots=True)
class Fan:
    """Several stitches in one place: the place (a space is named by its first chain), and the first and last element made in it."""

    place: int
    first: int
    last: int
    stitches: int


def fans_of(st: Stitches, below: Stitches) -> list[Fan]:
    """The places of a round that take more stitches than its usual place does; all of them where they are few and take three or more."""
    made: dict[int, list[int]] = {}
    stitch, top, none, reach = int(Role.STITCH), int(Role.START_TOP), {int(How.SIDE), int(How.RING)}, len(below)
    feet, backs, places, hows = st.feet, st.foot_back, st.foot_at, st.foot_how
    for i, role in enumerate(st.role):
        if role != stitch and role != top:
            continue
        for f in range(feet[i], feet[i + 1]):
            if backs[f] == 1 and RING_FOOT != places[f] < reach and hows[f] not in none:
                made.setdefault(_place(below, places[f]), []).append(i)
    if not made:
        return []
    many = [len(elements) for elements in made.values()]
    usual = median_low(many)
    if min(many) == max(many) >= 3 and 3 <= len(made) <= SHOWS:
        usual = 1  # every place is a corner: the first increases of a square or a hexagon
    order = {place: k for k, place in enumerate(sorted(made))}
    groups: list[list[int]] = []
    for place in sorted(made):
        if len(made[place]) <= usual:
            continue
        if groups and order[place] == order[groups[-1][-1]] + 1:
            groups[-1].append(place)
        else:
            groups.append([place])
    if len(groups) > 1 and order[groups[0][0]] == 0 and order[groups[-1][-1]] == len(order) - 1:
        groups[0] = groups.pop() + groups[0]
    if usual == 1 and min(many) > 1:
        groups = [[place] for place in sorted(made)]  # every place a corner of its own
    return [_fan(group, [i for place in group for i in made[place]], len(st)) for group in groups]


def _fan(places: Sequence[int], elements: Sequence[int], n: int) -> Fan:
    """Places side by side that all take more than usual are one corner, named by the one in their middle."""
    inside = sorted(set(elements))
    return Fan(places[len(places) // 2], _first(inside, n), _last(inside, n), len(inside))


def _place(below: Stitches, at: int) -> int:
    while at > 0 and below.role[at] == Role.CHAIN and below.role[at - 1] == Role.CHAIN:
        at -= 1
    return at


def _first(elements: list[int], n: int) -> int:
    """A fan may lie over the round's start: then it begins after the widest gap."""
    return elements[_split(elements, n)]


def _last(elements: list[int], n: int) -> int:
    return elements[_split(elements, n) - 1]


def _split(elements: list[int], n: int) -> int:
    gaps = [(elements[i] - elements[i - 1]) % n for i in range(len(elements))]
    return gaps.index(max(gaps))


def stacked(above: Sequence[Fan], below: Sequence[Fan], n: int) -> int:
    """How many fans of a round stand in fans of the round below, which has n elements."""
    inside = 0
    for fan in above:
        inside += any((fan.place - under.first) % n <= (under.last - under.first) % n for under in below)
    return inside


def corners_of(rounds: Sequence[Stitches]) -> int:
    """How many corners the stacked increases of a run of rounds make; 0 when they are staggered, changing, or too many to show."""
    found: list[int] = []
    under: list[Fan] = []
    for below, st in pairwise(rounds):
        fans = fans_of(st, below)
        if fans and under:
            met = stacked(fans, under, len(below))
            found.append(len(fans) if met >= 0.8 * len(fans) else 0)
        under = fans or carried(under, st)
    if len(found) < 2:
        return found[0] if found and 3 <= found[0] <= SHOWS else 0
    usual, times = Counter(found).most_common(1)[0]
    return usual if 3 <= usual <= SHOWS and times >= 0.6 * len(found) else 0


def carried(fans: Sequence[Fan], st: Stitches) -> list[Fan]:
    """The fans of a round as they stand in the plain round on it: what is worked into their stitches."""
    held: dict[int, list[int]] = {}
    for i in range(len(st)):
        for back, at, _ in st.feet_of(i):
            if back == 1:
                for k, fan in enumerate(fans):
                    inside = fan.first <= at <= fan.last if fan.first <= fan.last else at >= fan.first or at <= fan.last
                    if inside:
                        held.setdefault(k, []).append(i)
    return [Fan(fans[k].place, _first(e, len(st)), _last(e, len(st)), len(e)) for k, e in sorted(held.items())]


def corner_chains(st: Stitches, below: Stitches) -> list[int]:
    """The chains of a round that stand between two stitches of one fan: they turn its corner."""
    found: list[int] = []
    for fan in fans_of(st, below):
        i = fan.first
        while i != fan.last:
            if st.role[i] == Role.CHAIN:
                found.append(i)
            i = (i + 1) % len(st)
    return found
