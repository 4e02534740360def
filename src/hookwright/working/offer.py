"""What a row may work into: the places of the row below, in the order this row meets them."""

from __future__ import annotations

from array import array
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import compress

from ..trade.kinds import HEIGHT, base, closes, counts_as
from .fabric import How, Role, Stitches

OFFERING = frozenset((Role.STITCH, Role.START_TOP, Role.CHAIN, Role.FOUNDATION))


@dataclass(frozen=True, slots=True, eq=False)
class Offer:
    """Places in the order they are met. `at` and `back` tell the element and how many rows back it lies; `chain[i]` is 1 for a single
    chain; `space[i]` numbers the space that a chain belongs to (−1: none). `plain`: no chains among the places."""

    stitches: Stitches | None
    at: Sequence[int]
    chain: bytes
    space: Sequence[int]
    plain: bool
    back: int = 1
    foundation: bool = False
    ring: bool = False
    around: bool = False
    """The offer closes on itself (rounds)."""
    reverse: bool = False
    closed: bool = False
    """The last space is the one that a stitch closed (`closing`): the stitch is its last place."""
    groups: Mapping[int, tuple[int, str]] = field(default_factory=dict)
    """Place where a named group begins → (one past its last place, its name)."""

    @property
    def n(self) -> int:
        return len(self.at)

    def kind(self, i: int) -> str:
        """The kind of place i, "ch" for a single chain."""
        return self.stitches.name(self.at[i]) if self.stitches is not None else "st"

    def space_end(self, i: int) -> int:
        """One past the last place of the space that place i begins or lies in."""
        group, n = self.space[i], self.n
        while i < n and self.space[i] == group:
            i += 1
        return i

    def matches(self, i: int, what: str) -> bool:
        """Whether place i is what the words name."""
        if what == "st":
            return not self.chain[i]
        if what in ("ch", "any"):
            return bool(self.chain[i]) or what == "any" or self.foundation
        kind = self.kind(i)
        if kind == what or counts_as(kind) == what:
            return not self.chain[i]
        if what == "cl" and closes(kind) > 2 and counts_as(kind) != "sc":
            return (
                True  # one of the row's clusters was told by what is done: "(3 tr worked off together—cluster made—ch 7) twice and cluster"
            )
        return not self.chain[i] and base(kind) == what

    def from_place(self, start: int) -> Offer:
        """The same round begun at place `start`: what lies before it is met last. A group across it is dropped."""
        at = [*self.at[start:], *self.at[:start]]
        chain = self.chain[start:] + self.chain[:start]
        groups = {
            (first - start) % self.n: ((first - start) % self.n + end - first, name)
            for first, (end, name) in self.groups.items()
            if not first < start < end
        }  # fmt: skip
        space = [*self.space[start:], *self.space[:start]]  # two loops that meet in the beginning stay two
        return replace(self, at=at, chain=chain, space=space, groups=groups)


def come_round(offer: Offer, first: int) -> Offer:
    """The offer of a round with its first `first` places once more at its end: a round that began beyond them ends on them."""
    n, spaces = offer.n, (max(offer.space, default=-1) + 1 if offer.space else 0)
    groups = {i + n: (end + n, name) for i, (end, name) in offer.groups.items() if end <= first}
    space = [*offer.space, *(one + spaces if one >= 0 else one for one in offer.space[:first])] if offer.space else offer.space
    return replace(
        offer, at=[*offer.at, *offer.at[:first]], chain=offer.chain + offer.chain[:first], space=space, groups={**offer.groups, **groups}
    )


_OFFERS = bytes(role in OFFERING for role in range(256))
_CHAINS = bytes(role == Role.CHAIN for role in range(256))

NOTHING = Offer(stitches=None, at=(), chain=b"", space=(), plain=True)
"""No row below that could be counted: row ends, "evenly", another piece."""

RING = Offer(stitches=None, at=(), chain=b"", space=(), plain=True, ring=True, around=True)


def offer_of(
    stitches: Stitches, *, turned: bool, around: bool, back: int = 1, start: int = 0, end: int | None = None, foundation: bool = False
) -> Offer:
    """The offer of a worked row to the next. `turned`: met in reverse order (a turned round still meets its first stitch first).

    `start`, `end` bound the places in worked order (the unworked rest of a row).
    """
    role, closed = stitches.role, False
    if not any(role) and not foundation:
        at: Sequence[int] = range(len(role))
        chain = bytes(len(role))
        plain = True
    else:
        offers = role.translate(_OFFERS)
        at = list(compress(range(len(role)), offers))
        chain = bytes(compress(role.translate(_CHAINS), offers))
        if around and not turned and closed_by_stitch(stitches):
            at, chain, closed = [*at, len(role) - 1], chain + b"\1", True
        plain = not any(chain)
    if start or end is not None:
        at, chain = at[start:end], chain[start:end]
        plain = not any(chain)
    if turned:
        if around and len(at) > 1:
            at = [at[0], *at[:0:-1]]
            chain = chain[:1] + chain[:0:-1]
        else:
            at, chain = at[::-1], chain[::-1]
    return Offer(
        stitches=stitches, at=at, chain=chain, space=_EMPTY if plain else _spaces(at, chain), plain=plain, back=back,
        foundation=foundation, around=around, reverse=turned, closed=closed, groups=_groups(stitches, at),
    )  # fmt: skip


def own_offer(stitches: Stitches, at: Sequence[int]) -> Offer:
    """The offer of these elements of the very row that is being worked, to itself."""
    chain = bytes(stitches.role[i] == Role.CHAIN for i in at)
    plain = not any(chain)
    return Offer(stitches=stitches, at=at, chain=chain, space=_EMPTY if plain else _spaces(at, chain), plain=plain, back=0, reverse=True)


def closed_by_stitch(stitches: Stitches) -> bool:
    """Whether chains and a stitch into the round's own beginning close it ("ch 2, dc in first sc")."""
    role = stitches.role
    if len(role) < 3 or role[-1] != Role.HANGING or role[-2] != Role.CHAIN:
        return False
    last = len(role) - 1
    return stitches.names[stitches.kind[last]] not in ("ch", "sl st") and any(back == 0 for back, _, _ in stitches.feet_of(last))


def space_length(offer: Offer, start: int, end: int) -> int:
    """The length of a space in chains; a stitch that closed it is as long as the chains it is high."""
    extra = HEIGHT.get(offer.kind(end - 1), 1) - 1 if offer.kind(end - 1) != "ch" else 0
    return end - start + extra


def _groups(stitches: Stitches, at: Sequence[int]) -> Mapping[int, tuple[int, str]]:
    if not stitches.groups:
        return {}
    place = {element: i for i, element in enumerate(at)}
    found = {}
    for first, (length, name) in stitches.groups.items():
        places = [place[e] for e in range(first, first + length) if e in place]
        if places:
            start = min(places)
            found[start] = (start + len(places), name)
    return found


_EMPTY: Sequence[int] = ()


def _spaces(at: Sequence[int], chain: bytes) -> Sequence[int]:
    space = array("i", [-1]) * len(at)
    group = -1
    before = False
    for i, is_chain in enumerate(chain):
        if is_chain:
            if not before:
                group += 1
            space[i] = group
        before = bool(is_chain)
    return space


HOW_OF_LOOP = {
    "both": How.TOP, "front": How.FRONT_LOOP, "back": How.BACK_LOOP, "third": How.THIRD_LOOP,
    "free_front": How.FRONT_LOOP, "free_back": How.BACK_LOOP,
}  # fmt: skip


def unworked(offer: Offer, used: set[int]) -> Offer:
    """The places after the last one used, in the offer's order (before the first used one where the rest lies there)."""
    taken = [i for i in range(offer.n) if offer.at[i] in used]
    if not taken:
        return offer
    low, high = taken[0], taken[-1] + 1
    keep = slice(high, offer.n) if offer.n - high >= low else slice(0, low)
    return replace(offer, at=offer.at[keep], chain=offer.chain[keep], space=offer.space[keep] if offer.space else offer.space)
