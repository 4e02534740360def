"""Finding the place that words name: the next stitch, space, shell, top of a chain."""

from __future__ import annotations

from collections import Counter

from ..pattern import Place
from ..trade.kinds import GROUPS_AS_ONE
from .context import SLIPS_ARE_SPACES, Foot, Spot
from .corners import IN_INCREASE, centres, corners, in_increases
from .custom import NO_YES
from .fabric import How, Role
from .finding_groups import FindingGroups
from .needs import GROUP_WORDS, chains_of, is_space
from .offer import HOW_OF_LOOP


class Finding(FindingGroups):
    """Looks for places; takes none by itself but in `_take`."""

    def _remaining_at(self, place: Place) -> int:
        """How many such places lie ahead; of centres, one for every group ("in the middle dc of each 3-dc group")."""
        if place.nth == 0 and place.what == "st" and (middles := centres(self.offer) or self._run_middles()):
            return sum(1 for spot in middles if spot.start >= self.pos)
        self._ask_between(place)
        if place.between and place.what == "sp" and not self.offer.plain and self._gaps_from(0):
            return len(self._gaps_from(self.pos)) + len(self._spaces_between(self.pos))
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

    def _find_between(self, place: Place) -> Spot | None:
        """ "In next space between groups": a gap or a chain's space, whichever comes first."""
        ahead = self._gaps_from(self.pos)
        gap = Spot(ahead[0], ahead[0], How.BETWEEN) if ahead else None
        space = next(iter(self._spaces_between(self.pos)), None)
        return gap if space is None or (gap is not None and gap.start <= space.start) else space

    def _spaces_between(self, start: int) -> list[Spot]:
        """The chains' spaces at or after this place that do not lie inside a group."""
        inside = [run for run in self._together_runs() if run[1] - run[0] > 1]
        found = []
        i = self.offer.chain.find(1, start)
        while i >= 0:
            end = self.offer.space_end(i)
            if not any(first < i < last for first, last in inside):
                found.append(Spot(i, end, How.SPACE))
            i = self.offer.chain.find(1, end)
        return found

    def _find(self, what: str, place: Place) -> Spot | None:
        """The next place of this kind at or after where the hand is."""
        offer, n = self.offer, self.offer.n
        if self._is_nth_of_group(place):
            return self._nth_of_group(place)
        if place.of == IN_INCREASE:
            self.loose = True
            return next((spot for spot in in_increases(offer, place.nth or 1) if spot.start >= self.pos), None)
        if is_space(what) and offer.foundation:
            what = "st"  # "in one loop" of a plain chain is one of its chains
        if what == "sp" and self.pos < n and offer.matches(self.pos, "sl st"):
            what = ("sp", "sl st")[self.context.answers.pick(SLIPS_ARE_SPACES, NO_YES)]
        self._ask_between(place)
        if place.between and (is_space(what) or what in GROUP_WORDS) and self._gaps_from(0):
            self.spaced = self.loose = self.gapped = True
            return self._find_between(place)
        if what == "sp" and offer.plain and not place.of and self._gaps_from(0):
            self.spaced = self.loose = self.gapped = True
            return self._find_between(place)
        if what == "sp" and not place.of and self._skipped_to_gap():
            self.spaced = self.loose = self.gapped = True
            return Spot(self.pos, self.pos, How.BETWEEN)
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
        parted = place.nth == 0 and what == "group" and self._parted_by_chains()
        if place.nth == 0 and what == "group" and (parted or not self._groups_ahead(what)) and (runs := self._run_middles()):
            self.loose = True
            return next((spot for spot in runs if spot.start >= self.pos), None)
        if self._is_group(what) and not (what in GROUPS_AS_ONE and self._holds(what) and not self._tips()):
            group = self._find_group(what)
            if group is not None:
                self.spaced = self.loose = True
                self._passed_to_group(group.start)
                return self._centre_alone(group, what) if place.nth == 0 else group
            if self._shaped(what) or self._tips() or (place.nth == 0 and self._groups_called(what)):
                return None  # what the words call so is known, and all of it lies behind
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
        self.misnamed += what not in ("ch", "any") and any(offer.matches(k, what) for k in range(self.pos))
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

    def _in_a_space_begun(self) -> bool:
        """Whether the last stitch went into a single chain and others of its space are still ahead."""
        last, space = self.last, self.offer.space
        return last is not None and last.how == How.TOP and 0 <= last.start < self.pos and space[last.start] == space[self.pos] >= 0

    def _pass_unsaid(self, to: int, place: Place, passed: int = 0) -> None:
        """A row that says what it skips goes on past stitches without a word: somebody miscounted."""
        passed = passed or self.offer.chain.count(0, self.pos, to)
        message = f"“next {place.what}” lies {passed} stitches further on than the skips of this row say"
        self._trouble("passed-unsaid", place.span if place.span.end else self.here, message, passed=passed, what=place.what)

    def _find_top(self, place: Place) -> Spot | None:
        """The top of a counted turning chain, when that is what the words name; or the n-th chain of the next loop."""
        if place.nth and (place.what == "ch" or is_space(place.what) or self._is_loop(place.what)):
            found = self._find_nth_chain(place, place.nth)
            if found is not None or is_space(place.what) or self._start_ahead() is None:
                return found  # else the loops of so many chains are used up: the chain that begins the row below is meant
        if not place.what.startswith(("ch-", "tch", "turning", "beg")) or is_space(place.what):
            return None
        stitches = self.offer.stitches
        if stitches is None:
            return None
        i = self._start_ahead()
        if i is not None:
            return Spot(i, i + 1, How.TOP)
        if place.what == "tch sp" and (gap := self._loop_at_edge() or self._gap_at_edge()) is not None:
            return gap
        loop = self._find_space(f"{place.what} sp") if self._is_loop(place.what) else None
        if loop is not None:
            self.spaced = self.loose = True
            return loop  # "5 sc, 2 sc in the ch 2": no chain of the row's beginning has a top, and a loop of so many lies ahead
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

    def _loop_at_edge(self) -> Spot | None:
        """The loop of chains that begins the row below, where it still lies ahead."""
        offer = self.offer
        last = offer.n - 1
        if offer.around or offer.foundation or self.pos > last or last < 0 or not offer.chain[last]:
            return None
        start = last
        while start > 0 and offer.chain[start - 1]:
            start -= 1
        return Spot(start, offer.n, How.SPACE) if start >= self.pos else None

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
