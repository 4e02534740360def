"""Finding groups: shells, clusters, petals, by their names or by how they look."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Place
from ..trade.kinds import GROUPS_AS_ONE, closes
from .context import Spot
from .corners import middles_of_runs
from .fabric import How
from .finding_spaces import FindingSpaces
from .needs import GROUP_WORDS, chains_of, is_space
from .offer import space_length
from .shells import in_one_place, in_pairs, is_loop_of_figure, shaped

OPEN = "with chains"
"""Under which runs with chains in them are kept; no group is called so."""
TIPS = "alone between chains"
"""The same for clusters."""


class FindingGroups(FindingSpaces):
    """Looks for groups; takes none."""

    def _is_group(self, what: str) -> bool:
        return what in GROUP_WORDS or what in self.context.shapes

    def _groups_ahead(self, what: str) -> list[tuple[int, int]]:
        """(first place, one past the last) of the groups that the words may mean: of that name or that look, else of any."""
        known = self.group_places.get(what)
        if known is None or known[0] is not self.offer:
            known = self.group_places[what] = (self.offer, self._groups_called(what))
        return self._from_here(known[1])

    def _begins_with_group(self, what: str) -> bool:
        """Whether the row below has a group of several stitches that the words may mean by "first shell", and nothing is used yet but the
        place that a turning chain stands on."""
        if not self._is_group(what) or self.pos > self.origin + 1:
            return False
        ahead = self._groups_ahead(what)
        return bool(ahead) and ahead[0][1] - ahead[0][0] > 2

    def _from_here(self, runs: list[tuple[int, int]]) -> list[tuple[int, int]]:
        """Those whose middle lies ahead. They are sorted, and none lies inside another: their middles rise with them."""
        return runs[bisect_left(runs, self.pos, key=lambda run: (run[0] + run[1] - 1) // 2) :]

    def _open_runs(self) -> list[tuple[int, int]]:
        """The runs of stitches in one place that have chains in them."""
        known = self.group_places.get(OPEN)
        if known is None or known[0] is not self.offer:
            chain = self.offer.chain
            known = self.group_places[OPEN] = (self.offer, [run for run in self._together_runs() if 1 in chain[run[0] : run[1]]])
        return known[1]

    def _groups_called(self, what: str) -> list[tuple[int, int]]:
        groups = self.offer.groups.items()
        named = {(i, end) for i, (end, name) in groups if name == what or what == "group"}
        named |= _apart(self._shaped(what), named)
        if what == "group":
            named |= _apart(self._together_runs() or self._pairs(), named)
        others = named or ({(i, end) for i, (end, _) in groups} if self._is_group(what) else set())
        return sorted(others)

    def _shaped(self, what: str) -> list[tuple[int, int]]:
        """Runs that look like what the pattern calls `what`."""
        if what not in self.runs:
            shape = self.context.shapes.get(what)
            self.runs[what] = shaped(self.offer, shape) if shape else []
        return self.runs[what]

    def _together_runs(self) -> list[tuple[int, int]]:
        """Runs of stitches worked into one place."""
        if "" not in self.runs:
            self.runs[""] = in_one_place(self.offer)
        return self.runs[""]

    def _pairs(self) -> list[tuple[int, int]]:
        """Two stitches in one place each, where the row below is made of such pairs."""
        if "pair" not in self.runs:
            self.runs["pair"] = in_pairs(self.offer)
        return self.runs["pair"]

    def _find_group(self, what: str) -> Spot | None:
        """The middle of the next group; where none is named the next with chains in its middle, else the next space, else stitches in one
        place."""
        ahead = self._groups_ahead(what)
        if ahead:
            return self._middle_of((*ahead[0], what))
        if self._shaped(what):
            return None  # what the words call so is known, and all of it lies behind
        if tips := self._tips():
            ahead_of = next((i for i, _ in tips if i >= self.pos), None)
            return Spot(ahead_of, ahead_of + 1, How.TOP) if ahead_of is not None else None
        runs = self._from_here(self._together_runs())
        space = self._find_space(self._space_in_groups())
        open_runs = self._from_here(self._open_runs())
        open_run = open_runs[0] if open_runs and 2 * len(open_runs) >= len(runs) else None  # one alone is no shell like the others
        if open_run is not None and not self.offer.groups and (space is None or self._leads_to(space, open_run)):
            return self._middle_of((*open_run, what))
        nearer = bool(runs) and open_run is None and space is not None and space.how == How.SPACE and runs[0][1] <= space.start
        if space is not None and not nearer:
            return space
        return self._middle_of((*runs[0], what)) if runs else None

    def _tips(self) -> list[tuple[int, int]]:
        """Clusters that stand alone between chains, where all the row's do: "ch 4, cluster, ch 4, sc in ring" is a petal, and the cluster
        its tip (common practice, no source). None in other rows."""
        if TIPS not in self.runs:
            offer, chain = self.offer, self.offer.chain
            tops = [] if offer.groups or offer.plain else [i for i in range(offer.n) if not chain[i] and is_as_one(offer.kind(i))]
            alone = all(0 < i < offer.n - 1 and chain[i - 1] and chain[i + 1] for i in tops)
            self.runs[TIPS] = [(i, i + 1) for i in tops] if alone and len(tops) < chain.count(0) else []
        return self.runs[TIPS]

    def _space_of_group(self, place: Place) -> Spot | None:
        """ "In ch-2 loop of next shell": the space alone, so that the shell's own last stitches are still ahead."""
        if (place.nth == -1 or (self.strict and place.where == "last")) and (space := self._last_space_at_hand(place)) is not None:
            return space
        if place.where == "last" and self._shaped(place.of) and not self._groups_ahead(place.of):
            return None
        others = self.offer.groups and not self._shaped(place.of) and all(name != place.of for _, name in self.offer.groups.values())
        if others and place.where != "last" and (loop := self._own_loop(place.of)) is not None:
            return loop  # "in 1st ch-2 loop of fan", between shells that are called so: the fan is no group, but a figure of loops
        group = self._last_group(place.of) if place.where == "last" else self._find_group(place.of)
        if group is None or (group.how == How.SPACE and group.feet is None):
            if group is not None:
                self._passed_to_group(group.start)
            return group
        length = chains_of(place.what)
        i = self.offer.chain.find(1, max(group.start, self.pos), group.end)
        self._passed_to_group(i)
        first: Spot | None = None
        while i >= 0:
            spot = Spot(i, self.offer.space_end(i), How.SPACE)
            if length in (None, space_length(self.offer, spot.start, spot.end)):
                return spot
            first = first or spot
            i = self.offer.chain.find(1, spot.end, group.end)
        return first or self._find_space(place.what)

    def _last_space_at_hand(self, place: Place) -> Spot | None:
        """ "In last ch-1 sp of same fan", also told in a repeat: of the group that the hand is in, or comes to."""
        length, offer = chains_of(place.what), self.offer
        for start, end in self._groups_called(place.of) or sorted(self._together_runs()):
            firsts = [
                i for i in range(max(start, self.pos), end) if offer.chain[i] and (i == start or offer.space[i - 1] != offer.space[i])
            ]
            ahead = [i for i in firsts if length in (None, space_length(offer, i, offer.space_end(i)))]
            if ahead:
                return Spot(ahead[-1], offer.space_end(ahead[-1]), How.SPACE)
        return None

    def _passed_to_group(self, i: int) -> None:
        """Note how many spaces lie between here and the next group's, at place i: a round may end among as many."""
        if self.pos < i < len(self.offer.space):
            self.by_group = max(self.by_group, len(set(self.offer.space[self.pos : i]) - {-1, self.offer.space[i]}))

    def _stitches_of_group(self, place: Place) -> list[int]:
        """The places of the next (or last) group that are what the words name: "in each dc of next shell"."""
        runs = self._groups_ahead(place.of) or self._from_here(self._together_runs())
        if not runs:
            return []
        start, end = runs[-1] if place.where == "last" else runs[0]
        return [i for i in range(max(start, self.pos), end) if self.offer.matches(i, place.what)]

    def _is_nth_of_group(self, place: Place) -> bool:
        return bool(place.of and place.nth) and not is_space(place.what) and self._is_group(place.of)

    def _nth_of_group(self, place: Place) -> Spot | None:
        """ "In 3rd dc of next petal", "in seventh dc of same petal": that stitch; the next group where it cannot be told."""
        runs = self._groups_called(place.of) or sorted(self._together_runs())
        if place.of == "group" and not self.offer.groups and place.where != "last" and len(beside := self._side_by_side()) > len(runs):
            runs = beside
        here, nth = self.last.start if self.last is not None else -1, place.nth or 1
        for start, end in runs:
            if end <= max(self.pos, here) or (place.where == "next" and start <= here < end):
                continue
            found = [i for i in range(start, end) if self.offer.matches(i, place.what)]
            at = found[nth - 1 if nth > 0 else nth] if abs(nth) <= len(found) else -1
            if at >= max(self.pos, 0):
                self.loose = self.spaced = True
                return Spot(at, at + 1, How.TOP)
            if place.where != "named" or not start <= here < end:
                break
        return None if runs else self._find_group(place.of)

    def _side_by_side(self) -> list[tuple[int, int]]:
        """Stitches side by side between chains, where none share a place: "1st dc of group" in a row of blocks and spaces. The turning
        chain at an end belongs to none."""
        chain, runs, i, n = self.offer.chain, [], self.origin, self.offer.n
        while i < n:
            end = chain.find(1, i)
            end = n if end < 0 else end
            if end - i > 1:
                runs.append((i, end))
            i = end + 1
        return runs

    def _run_middles(self) -> list[Spot]:
        """Of runs between spaces, where the offer has any."""
        return [] if self.offer.plain or self.offer.foundation else middles_of_runs(self.offer)

    def _parted_by_chains(self) -> bool:
        """Whether in the middle of every group lies a chain, between two runs that have a middle stitch each: "3 dc, ch 1, 3 dc in next
        loop" are two groups of 3 where "the center dc of next group" is named."""
        groups = self._groups_called("group")
        middles = [(spot.start, spot.end) for spot in self._run_middles()]
        chain = self.offer.chain
        parted = [run for run in groups if 1 in chain[run[0] : run[1]]]  # a round begun within a group has its halves apart
        return bool(parted) and all(
            chain[(start + end - 1) // 2] and sum(start <= first and last <= end for first, last in middles) >= 1 for start, end in parted
        )

    def _last_of_next_group(self, place: Place) -> list[int]:
        """ "* ch 7, sc upon the last sc of the scallop; repeat", "sc in first dc of next shell, ch 3, sc in last dc of that shell": told in
        a repeat, the last of the group that the hand is in, or else of one after another."""
        spot = self._nth_of_group(replace(place, where="named", nth=-1))
        return [spot.start] if spot is not None and spot.how == How.TOP else []

    def _leads_to(self, space: Spot, run: tuple[int, int]) -> bool:
        """Whether a space lies in the group, or is of another length than its chains and so only leads up to it."""
        inner = max(map(len, bytes(self.offer.chain[run[0] : run[1]]).split(b"\0")))
        return space.start >= run[0] or space.end - space.start != inner

    def _find_in_figure(self, figure: str) -> Spot | None:
        """The next of a figure's own loops; where none can be told from the others, the next space."""
        return self._own_loop(figure) or (None if self.offer.plain else self._find_space("sp"))

    def _own_loop(self, figure: str) -> Spot | None:
        """The next of a figure's own loops; None where none can be told from the others."""
        if self.offer.plain:
            return None
        shells = [(i, end) for i, (end, name) in self.offer.groups.items() if name != figure]
        for name in self.context.shapes:
            shells += self._shaped(name)
        i = self.offer.chain.find(1, self.pos)
        while i >= 0:
            end = self.offer.space_end(i)
            if is_loop_of_figure(self.offer, i, end, shells):
                return Spot(i, end, How.SPACE)
            i = self.offer.chain.find(1, end)
        return None

    def _last_group(self, what: str) -> Spot | None:
        """The middle of the last group; where none can be told, the last space."""
        ahead = self._groups_ahead(what)
        if ahead:
            return self._middle_of((*ahead[-1], what))
        self.spaced = self.loose = True
        last: Spot | None = None
        i = self.offer.chain.find(1, self.pos)
        while i >= 0:
            last = Spot(i, self.offer.space_end(i), How.SPACE)
            i = self.offer.chain.find(1, last.end)
        return last

    def _space_in_groups(self) -> str:
        """The space in the middle of the groups that are named in this offer, which the unnamed ones have too; any where none is."""
        for start, (end, _) in self.offer.groups.items():
            chains = self.offer.chain[start:end].count(1)
            if chains:
                return f"ch-{chains} sp"
        return "sp"

    def _centre_alone(self, group: Spot, what: str) -> Spot:
        """The centre of a group whose other stitches are worked for themselves: one that the hand stands in already, or stitches in one
        place beside single ones of their kind ("sc in next 4 sc, 3 sc in center sc of 3-sc group, sc in next 4 sc")."""
        offer, start, end = self.offer, group.start, group.end
        if group.how != How.TOP or 1 in offer.chain[start:end] or end - start < 3:
            return group
        begun = start < self.pos
        inside = {i for first, last in self._together_runs() for i in range(first, last)}
        alike = what == "group" and any(
            0 <= i < offer.n and i not in inside and not offer.chain[i] and offer.kind(i) == offer.kind(start) for i in (start - 1, end)
        )
        if not begun and not alike:
            return group
        middle = (start + end - 1) // 2
        return Spot(middle, middle + 1, How.TOP) if middle >= self.pos else group

    def _middle_of(self, group: tuple[int, int, str]) -> Spot:
        """The middle of a shell: its own space where it has one in the middle, else its middle stitch."""
        start, end, _ = group
        middle = (start + end - 1) // 2
        for i in (middle, middle + (1 if (end - start) % 2 == 0 else 0)):
            if i < end and self.offer.chain[i]:
                return Spot(start, end, How.SPACE, ((self.offer.back, self.offer.at[i], int(How.SPACE)),))
        return Spot(start, end, How.TOP, ((self.offer.back, self.offer.at[middle], int(How.TOP)),))


def is_as_one(kind: str) -> bool:
    """Whether several stitches are gathered into one top: "cl", "tr3tog"."""
    return kind in GROUPS_AS_ONE or closes(kind) > 1


def _apart(runs: Sequence[tuple[int, int]], taken: set[tuple[int, int]]) -> set[tuple[int, int]]:
    """The runs that no place of a taken one lies in."""
    ends = sorted(taken)
    found = set()
    for start, end in runs:
        k = bisect_left(ends, (end, 0))
        if not any(start < other_end for _, other_end in ends[max(0, k - 2) : k]):
            found.add((start, end))
    return found
