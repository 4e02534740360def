"""Finding the place that words name: the next stitch, space, shell, top of a chain."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence

from ..pattern import Place
from ..trade.kinds import GROUPS_AS_ONE
from .context import CHAINS_ARE_STITCHES, SLIPS_ARE_SPACES, Foot, Spot
from .corners import centres, corners, middles_of_runs
from .custom import NO_YES
from .fabric import How, Role
from .gaps import gaps
from .holding import Holding
from .needs import GROUP_WORDS, chains_of, is_space
from .offer import HOW_OF_LOOP, space_length
from .shells import in_one_place, is_loop_of_figure, shaped

OPEN = "with chains"
"""Under which runs with chains in them are kept; no group is called so."""


class Finding(Holding):
    """Looks for places; takes none by itself but in `_take`."""

    def _remaining_at(self, place: Place) -> int:
        """How many such places lie ahead; of centres, one for every group ("in the middle dc of each 3-dc group")."""
        if place.nth == 0 and place.what == "st" and (middles := centres(self.offer) or self._run_middles()):
            return sum(1 for spot in middles if spot.start >= self.pos)
        return self._remaining(place.what)

    def _remaining(self, what: str) -> int:
        if what == "sp" and self.offer.plain:
            return len(self._gaps_from(self.pos))
        if is_space(what):
            return self._remaining_spaces(self.pos, what)
        if what == "corner" and (turns := self._corners()):
            return sum(1 for spot in turns if spot.start >= self.pos)
        if what == "any":
            return self.offer.n - self.pos  # every stitch and every chain
        if what == "st":
            return self.offer.n - self.pos if self._chains_are_stitches() else self.offer.chain.count(0, self.pos)
        found = sum(1 for i in range(self.pos, self.offer.n) if self.offer.matches(i, what))
        if found == 0 and what not in ("ch",):
            groups = len(self._groups_ahead(what))
            spaces = self._remaining_spaces(self.pos) if self._is_group(what) else 0
            return groups or spaces or self.offer.chain.count(0, self.pos)
        return found

    def _remaining_spaces(self, start: int, what: str = "sp") -> int:
        if self.offer.plain:
            return len(self._gaps_from(start)) if self.gapped else 0
        space = self.offer.space
        seen = {g for g in space[start:] if g >= 0}
        if what.startswith("ch-") and seen:
            length = chains_of(what)
            lengths = Counter(space)
            if self.offer.closed:
                lengths[space[-1]] = length or 0  # the loop that a stitch closed is one of them
            right = {g for g in seen if lengths[g] == length}
            return len(right) if right else len(seen)
        return len(seen)

    def _gaps_from(self, start: int) -> list[int]:
        """The gaps between groups at or after this place, but the one just worked into."""
        if self.between is None or self.between[0] is not self.offer:
            self.between = (self.offer, gaps(self.offer))
        here = self.last is not None and self.last.how == How.BETWEEN and self.last.start == self.last.end == start
        return [i for i in self.between[1] if i > start or (i == start and not here)]

    def _find_between(self, place: Place) -> Spot | None:
        """ "In next space between groups": a gap or a chain's space, whichever comes first."""
        ahead = self._gaps_from(self.pos)
        gap = Spot(ahead[0], ahead[0], How.BETWEEN) if ahead else None
        inside = [run for run in self._together_runs() if run[1] - run[0] > 1]
        i = self.offer.chain.find(1, self.pos)
        while i >= 0 and any(first < i < last for first, last in inside):
            i = self.offer.chain.find(1, self.offer.space_end(i))
        if i < 0 or (gap is not None and gap.start <= i):
            return gap
        return Spot(i, self.offer.space_end(i), How.SPACE)

    def _space_left(self) -> int:
        return self._remaining_spaces(self.pos)

    def _chains_are_stitches(self) -> bool:
        if self.offer.plain:
            return False
        return self.context.answers.pick(CHAINS_ARE_STITCHES, NO_YES) == 1

    def _find(self, what: str, place: Place) -> Spot | None:
        """The next place of this kind at or after where the hand is."""
        offer, n = self.offer, self.offer.n
        if self._is_nth_of_group(place):
            return self._nth_of_group(place)
        if is_space(what) and offer.foundation:
            what = "st"  # "in one loop" of a plain chain is one of its chains
        if what == "sp" and self.pos < n and offer.matches(self.pos, "sl st"):
            what = ("sp", "sl st")[self.context.answers.pick(SLIPS_ARE_SPACES, NO_YES)]
        if place.between and (is_space(what) or what in GROUP_WORDS) and self._gaps_from(0):
            self.spaced = self.loose = self.gapped = True
            return self._find_between(place)
        if what == "sp" and offer.plain and not place.of and self._gaps_from(0):
            self.spaced = self.loose = self.gapped = True
            return self._find_between(place)
        if is_space(what):
            self.spaced = self.loose = True
            if self._is_group(place.of):
                return self._space_of_group(place)
            return self._find_in_figure(place.of) if place.of else self._find_space(what)
        if what == "corner" and not (place.nth == 0 and centres(offer)) and (turns := self._corners()):
            self.spaced = self.loose = True
            if self.travelled is not None:
                spot, self.travelled = self.travelled, None
                return spot
            return next((spot for spot in turns if spot.start >= self.pos), None)
        if what == "corner" and offer.plain and not self._together_runs():
            self.uncounted = True  # a round worked evenly round an edge: nobody counted where its corners are
        if place.nth == 0 and not is_space(what) and not self._is_group(what) and (middles := centres(offer) or self._run_middles()):
            self.spaced = self.loose = True  # the stitches beside a centre are passed over with it
            return next((spot for spot in middles if spot.start >= self.pos), None)
        if what == "st":
            if offer.plain or self._chains_are_stitches():
                return Spot(self.pos, self.pos + 1, How.TOP) if self.pos < n else None
            i = offer.chain.find(0, self.pos)
            if i > self.pos and self._in_a_space_begun():
                self._pass_unsaid(i, Place(what="st", span=place.span), i - self.pos)
            return Spot(i, i + 1, How.TOP) if i >= 0 else None
        if (
            place.nth == 0
            and what == "group"
            and (here := [spot for spot in self._run_middles() if spot.start < self.pos and spot.start + spot.end == 2 * self.pos + 1])
        ):
            self.loose = True
            return Spot(self.pos, here[0].end, How.TOP)  # "miss 2 tr, 1 dc into centre tr of next group": the skip has led to it
        if place.nth == 0 and what == "group" and not self._groups_ahead(what) and (runs := self._run_middles()):
            self.loose = True
            return next((spot for spot in runs if spot.start >= self.pos), None)
        if self._is_group(what) and not (what in GROUPS_AS_ONE and self._holds(what)):
            group = self._find_group(what)
            if group is not None:
                self.spaced = self.loose = True
                return group
            if self._shaped(what):
                return None
        for i in range(self.pos, n):
            if offer.matches(i, what) or (self.in_run and offer.kind(i) in GROUPS_AS_ONE):  # "dc in next 5 dc", one of them a popcorn
                self.loose = self.loose or 0 in offer.chain[self.pos : i]
                passed = offer.chain.count(0, self.pos, i)
                if passed and what != "ch":
                    if offer.chain[self.pos]:
                        self.by_name_between = max(self.by_name_between, passed)
                    elif self.skipped:
                        self._pass_unsaid(i, place)
                    else:
                        self.by_name = max(self.by_name, passed)
                return Spot(i, i + 1, How.TOP)
        i = offer.chain.find(0, self.pos)
        if i < 0:
            return None
        # A post stitch "around next FPdc" over a row of plain stitches means the one two rows below, and covers the next place.
        self.loose = self.loose or (what not in ("ch", "any") and what[:2] not in ("FP", "BP"))
        if what == "ch" and not offer.plain and not self.strict and not self._is_start(i):
            self._trouble("no-target", place.span if place.span.end else self.here, "more chains are named than are there", what="ch")
        return Spot(i, i + 1, How.TOP)

    def _holds(self, what: str) -> bool:
        """Whether stitches of that very kind lie ahead: "sc in next cl" goes into the cluster's top, not into a space beside it."""
        return any(self.offer.kind(i) == what for i in range(self.pos, self.offer.n))

    def _is_start(self, i: int) -> bool:
        """Whether place i is the top of a counted starting chain, which is a chain too."""
        stitches = self.offer.stitches
        return stitches is not None and stitches.role[self.offer.at[i]] == Role.START_TOP

    def _corners(self) -> list[Spot]:
        """Where this offer turns, found once."""
        if self.turns is None or self.turns[0] is not self.offer:
            self.turns = (self.offer, corners(self.offer))
        return self.turns[1]

    def _run_middles(self) -> list[Spot]:
        """Of runs between spaces, where the offer has any."""
        return [] if self.offer.plain or self.offer.foundation else middles_of_runs(self.offer)

    def _in_a_space_begun(self) -> bool:
        """Whether the last stitch went into a single chain and others of its space are still ahead."""
        last, space = self.last, self.offer.space
        return last is not None and last.how == How.TOP and 0 <= last.start < self.pos and space[last.start] == space[self.pos] >= 0

    def _pass_unsaid(self, to: int, place: Place, passed: int = 0) -> None:
        """A row that says what it skips goes on past stitches without a word: somebody miscounted."""
        passed = passed or self.offer.chain.count(0, self.pos, to)
        message = f"“next {place.what}” lies {passed} stitches further on than the skips of this row say"
        self._trouble("passed-unsaid", place.span if place.span.end else self.here, message, passed=passed, what=place.what)

    def _is_group(self, what: str) -> bool:
        return what in GROUP_WORDS or what in self.context.shapes

    def _groups_ahead(self, what: str) -> list[tuple[int, int]]:
        """(first place, one past the last) of the groups that the words may mean: of that name or that look, else of any."""
        known = self.group_places.get(what)
        if known is None or known[0] is not self.offer:
            known = self.group_places[what] = (self.offer, self._groups_called(what))
        return self._from_here(known[1])

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
            named |= _apart(self._together_runs(), named)
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

    def _find_group(self, what: str) -> Spot | None:
        """The middle of the next group; where none is named the next with chains in its middle, else the next space, else stitches in one
        place."""
        ahead = self._groups_ahead(what)
        if ahead:
            return self._middle_of((*ahead[0], what))
        if self._shaped(what):
            return None  # what the words call so is known, and all of it lies behind
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

    def _space_of_group(self, place: Place) -> Spot | None:
        """ "In ch-2 loop of next shell": the space alone, so that the shell's own last stitches are still ahead."""
        if place.where == "last" and self._shaped(place.of) and not self._groups_ahead(place.of):
            return None
        group = self._last_group(place.of) if place.where == "last" else self._find_group(place.of)
        if group is None or (group.how == How.SPACE and group.feet is None):
            return group
        length = chains_of(place.what)
        i = self.offer.chain.find(1, max(group.start, self.pos), group.end)
        if i > self.pos:
            self.by_group = max(self.by_group, len(set(self.offer.space[self.pos : i]) - {-1, self.offer.space[i]}))
        first: Spot | None = None
        while i >= 0:
            spot = Spot(i, self.offer.space_end(i), How.SPACE)
            if length in (None, space_length(self.offer, spot.start, spot.end)):
                return spot
            first = first or spot
            i = self.offer.chain.find(1, spot.end, group.end)
        return first or self._find_space(place.what)

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
        here, nth = self.last.start if self.last is not None else -1, place.nth or 1
        for start, end in runs:
            if end <= max(self.pos, here) or (place.where == "next" and start <= here < end):
                continue
            found = [i for i in range(start, end) if self.offer.matches(i, place.what)]
            if nth <= len(found) and found[nth - 1] >= self.pos:
                self.loose = self.spaced = True
                return Spot(found[nth - 1], found[nth - 1] + 1, How.TOP)
            if place.where != "named" or not start <= here < end:
                break
        return None if runs else self._find_group(place.of)

    def _leads_to(self, space: Spot, run: tuple[int, int]) -> bool:
        """Whether a space lies in the group, or is of another length than its chains and so only leads up to it."""
        inner = max(map(len, bytes(self.offer.chain[run[0] : run[1]]).split(b"\0")))
        return space.start >= run[0] or space.end - space.start != inner

    def _find_in_figure(self, figure: str) -> Spot | None:
        """The next of a figure's own loops; where none can be told from the others, the next space."""
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
        return self._find_space("sp")

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

    def _middle_of(self, group: tuple[int, int, str]) -> Spot:
        """The middle of a shell: its own space where it has one in the middle, else its middle stitch."""
        start, end, _ = group
        middle = (start + end - 1) // 2
        for i in (middle, middle + (1 if (end - start) % 2 == 0 else 0)):
            if i < end and self.offer.chain[i]:
                return Spot(start, end, How.SPACE, ((self.offer.back, self.offer.at[i], int(How.SPACE)),))
        return Spot(start, end, How.TOP, ((self.offer.back, self.offer.at[middle], int(How.TOP)),))

    def _find_space(self, what: str) -> Spot | None:
        offer = self.offer
        if offer.plain:
            return None
        if self.travelled is not None:
            spot, self.travelled = self.travelled, None
            return spot
        length = chains_of(what)
        first: Spot | None = None
        i = self.pos
        if i < offer.n and offer.chain[i] and i and offer.space[i - 1] == offer.space[i] and self.skips and self._chains_are_stitches():
            return Spot(i, i + 1, How.SPACE)  # "miss 4, 1 plain in the 4 chain": the skip has counted into the loop
        while 0 <= i < offer.n:
            i = offer.chain.find(1, i)
            if i < 0:
                break
            if i > 0 and offer.space[i - 1] == offer.space[i] and i == self.pos and self.last is not None and self.last.end == i:
                i = offer.space_end(i)
                continue
            end = offer.space_end(i)
            spot = Spot(i, end, How.SPACE)
            if length is None or space_length(offer, i, end) == length:
                return spot
            first = first or spot
            i = end
        return first

    def _find_top(self, place: Place) -> Spot | None:
        """The top of a counted turning chain, when that is what the words name; or the n-th chain of the next loop."""
        if place.nth and (place.what == "ch" or is_space(place.what) or self._is_loop(place.what)):
            return self._find_nth_chain(place, place.nth)
        if not place.what.startswith(("ch-", "tch", "turning", "beg")) or is_space(place.what):
            return None
        stitches = self.offer.stitches
        if stitches is None:
            return None
        i = self._start_ahead()
        if i is not None:
            return Spot(i, i + 1, How.TOP)
        if place.what == "tch sp" and (gap := self._gap_at_edge()) is not None:
            return gap
        last = self.offer.n - 1
        if self.pos <= last:
            if not self.strict:
                self._trouble("top-not-counted", place.span, f"{place.what} below does not count as a stitch, so its top is no place")
            return Spot(last, last + 1, How.TOP)
        return None

    def _start_ahead(self) -> int | None:
        """The place of the row below's counted starting chain, where it lies ahead."""
        stitches = self.offer.stitches
        if stitches is None or not stitches.stands:
            return None
        return next((i for i in range(self.pos, self.offer.n) if stitches.role[self.offer.at[i]] == Role.START_TOP), None)

    def _gap_at_edge(self) -> Spot | None:
        """The gap beside the uncounted chain that begins the row below, or beside the chains passed over there: behind the last place."""
        offer, stitches = self.offer, self.offer.stitches
        if stitches is None or offer.around or offer.foundation or Role.START not in stitches.role:
            return None
        return Spot(offer.n, offer.n, How.SPACE)

    def _find_nth_chain(self, place: Place, nth: int) -> Spot | None:
        """ "In 3rd st of ch": of the turning chain where nothing but its own chains lie before it, else of the next loop."""
        offer = self.offer
        start = self._start_ahead() if place.what == "ch" else None
        if start is not None and all(offer.chain[self.pos : start]):
            return Spot(start, start + 1, How.TOP)
        if offer.plain:
            return None
        here = self._in_loop_again(place, nth)
        if here is not None:
            return here
        space = self._find_space("sp" if place.what == "ch" else place.what if is_space(place.what) else f"{place.what} sp")
        if space is None or space.end - space.start < nth:
            return None
        self.spaced = self.loose = True
        return Spot(space.start, space.end, How.TOP, ((offer.back, offer.at[space.start + nth - 1], int(How.TOP)),))

    def _is_loop(self, what: str) -> bool:
        """Whether "the ch-20" is a loop of so many chains in this offer."""
        length = None if is_space(what) else chains_of(what)
        return length is not None and not self.offer.plain and length in Counter(g for g in self.offer.space if g >= 0).values()

    def _in_loop_again(self, place: Place, nth: int) -> Spot | None:
        """The very chain worked into last, named once more ("twice in 11th ch of the ch-20, sc in 11th ch")."""
        last = self.last
        if last is None or is_space(place.what) or not 0 <= last.start + nth - 1 < last.end:
            return None
        foot = (self.offer.back, self.offer.at[last.start + nth - 1], int(How.TOP))
        right = place.what == "ch" or chains_of(place.what) == last.end - last.start
        return last if right and last.feet == (foot,) else None

    def _from_end(self, want: int, what: str) -> int:
        """The place from which `want` places of `what` are left."""
        i, n = self.offer.n, want
        any_place = self._chains_are_stitches()
        while i > 0 and n > 0:
            i -= 1
            if any_place or not self.offer.chain[i]:
                n -= 1
        return i

    def _feet(self, spot: Spot) -> tuple[Foot, ...]:
        if spot.feet is not None:
            return spot.feet
        if spot.how == How.BETWEEN and self.offer.n > 1:
            return ((self.offer.back, self._before_gap(spot), int(spot.how)),)
        middle = spot.start if spot.end - spot.start < 2 else (spot.start + spot.end - 1) // 2
        if spot.start == spot.end == self.offer.n > 0:
            return ((self.offer.back, self.offer.at[-1], int(spot.how)),)
        if spot.start >= self.offer.n:
            return ()
        return ((self.offer.back, self.offer.at[middle], int(spot.how)),)

    def _before_gap(self, spot: Spot) -> int:
        """The element that a gap comes after in its own row, which may run the other way. An empty spot is a gap before its place."""
        at, n = self.offer.at, self.offer.n
        left = spot.start - 1 if spot.start == spot.end else min(spot.start, n - 2)
        if not 0 <= left < n - 1:  # between a round's last place and its first
            return max(at[0], at[-1])
        return min(at[left], at[left + 1])

    def _how(self, place: Place, default: How = How.TOP) -> How:
        if place.post:
            return How.FRONT_POST if place.post == "front" else How.BACK_POST
        if place.between:
            return How.BETWEEN
        return HOW_OF_LOOP[place.loop] if place.loop != "both" else default

    def _how_for(self, kind: str, place: Place) -> How:
        if kind[:2] == "FP":
            return How.FRONT_POST
        if kind[:2] == "BP":
            return How.BACK_POST
        return self._how(place)

    def _take(self, spot: Spot) -> None:
        self.travelled = None
        if self.first_taken is None:
            self.first_taken = spot
        self.pos = max(self.pos, spot.end)
        self.last = spot

    def _deep_feet(self, i: int, below: int, how: How) -> tuple[Foot, ...]:
        """The foot `below` rows under place i, followed down from foot to foot."""
        if not 0 <= i < self.offer.n:
            return ()
        if below <= 0 or not self.context.deeper:
            return ((self.offer.back, self.offer.at[i], int(how)),)
        share = i / max(self.offer.n - 1, 1)
        deep = self.context.deeper[min(below, len(self.context.deeper)) - 1]
        if deep.n == 0:
            return ((self.offer.back, self.offer.at[i], int(how)),)
        return ((deep.back, deep.at[round(share * (deep.n - 1))], int(how)),)


def _apart(runs: Sequence[tuple[int, int]], taken: set[tuple[int, int]]) -> set[tuple[int, int]]:
    """The runs that no place of a taken one lies in."""
    ends = sorted(taken)
    found = set()
    for start, end in runs:
        k = bisect_left(ends, (end, 0))
        if not any(start < other_end for _, other_end in ends[max(0, k - 2) : k]):
            found.add((start, end))
    return found
