"""Chains inside a row, skipped places, groups in one place, picots, slip stitches that travel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import ONE, Aside, Chain, Colour, Even, Make, Place, Repeat, Shape, Skip, Step, Together
from ..trade.kinds import HEIGHT
from .context import Spot
from .corners import centres
from .custom import NO_YES
from .fabric import RING_FOOT, How, Role
from .making import Making
from .needs import first_stitch, is_space

MOST_SKIPPED = 8
"""Chains passed over at a row's beginning that may still stand for its first stitch and a space."""
SLIPS_WORKED_INTO = "Are the slip stitches at a row's beginning worked into later?"


class Grouping(Making):
    """Everything that is neither a plain stitch nor a repeat."""

    def _make(self, step: Make, tail: Sequence[Step]) -> str | None:
        places = 0 if step.places == "rest" else step.places.at(self.size) or 0
        if step.stitch == "picot" and places > 0:
            self._hanging(step, places, 3)
            return None
        if step.stitch == "sl st" and self.offer.around and not self.started and self._climb(places, step):
            return None
        if step.stitch == "sl st" and self.offer.around and not self.started and _then_in_loop(step, tail) and self._to_loop(places, step):
            return None
        if step.stitch == "sl st" and self.inside is None and self._at_the_beginning() and self._only_travels(tail, places, step):
            self.started = False
            self._travel(places, step)
            return None
        if step.stitch == "sl st" and is_space(step.at.what) and step.at.where == "next" and self.inside is None and _begins_with_it(tail):
            self._travel(places, step)
            return None
        return super()._make(step, tail)

    def _chain(self, step: Chain, tail: Sequence[Step]) -> str | None:
        number = step.number.at(self.size) or 0
        if number <= 0:
            return None
        self._bound(number)
        if not self.started and not step.foundation and not self.iteration and not (self.offer.ring and _worked_back(tail, number)):
            return self._start_chain(step, number, tail)
        self._leave_own()
        self.started = True
        self.basket.put_airy("ch", Role.CHAIN, step.id, self.iteration, self.yarn, number)
        return None

    def _skip(self, step: Skip, tail: Sequence[Step] = ()) -> None:
        if self.offer.foundation and not self.started and not self.pos and step.what in ("st", "ch") and self._skips_start(step):
            return
        self.started = True
        number = self.skips = step.number.at(self.size) or 0
        self.spaces_skipped = number if is_space(step.what) else self.spaces_skipped
        as_stitch = is_space(step.what) and self.offer.plain and not self._gaps_from(0)  # a loop of an old book's plain round
        place = Place(what="st" if as_stitch else step.what)
        if self.offer.n == 0:
            return
        if step.ordinal and step.what not in ("st", "ch", "any") and not is_space(step.what):
            self._count_past(number, place)
            return
        first = step.first or _counts_its_own(step, tail, self.size)
        if first and (self.stood or self.hung) and number and self.pos == self.origin + 1:
            number -= 1  # the starting chain stands in the first place already
            if not number:
                return
        if self.offer.plain and not is_space(place.what):
            take = min(number, self.offer.n - self.pos)
            self.skipped.extend(range(self.pos, self.pos + take))
            self.pos += take
            if number > take:
                self._overflow(number - take)
            return
        spaced = self.spaced
        self._past_group(place.what)
        for _ in range(min(number, self.offer.n + 1)):
            spot = self._find(place.what, place)
            if spot is None:
                self._overflow(1)
                continue
            self.skipped.extend(range(spot.start, spot.end))
            self.pos = max(self.pos, spot.end)
        self.spaced = spaced

    def _past_group(self, what: str) -> None:
        """ "… dc in last ch-1 sp of fan, ch 3, skip next sc": what the fan has left behind that space is none of what is skipped."""
        last = self.last
        if last is None or last.how != How.SPACE or what in ("st", "ch", "any") or is_space(what) or self._is_group(what):
            return
        end = next((end for start, end in self._together_runs() if start < last.start and last.end <= self.pos < end), self.pos)
        if not any(self.offer.matches(i, what) for i in range(self.pos, end)):
            self.pos = end

    def _skips_start(self, step: Skip) -> bool:
        """ "Miss 3, 1 treble in each chain": the chains passed over at the beginning are as those of "in 4th ch from hook"."""
        stitch = first_stitch(self.rest_of_row)
        number = step.number.at(self.size) or 0
        if stitch is None or HEIGHT.get(stitch, 0) < 3 or not 2 <= number <= MOST_SKIPPED:
            return False
        self._begin_from_hook(Place(where="from_hook", nth=number + 1), stitch, step.id)
        self.started = True
        return True

    def _count_past(self, number: int, place: Place) -> None:
        """The places before "the 3rd sc": two of its kind, with whatever stands between them."""
        self.loose = True
        for _ in range(number):
            spot = self._find(place.what, place)
            if spot is None:
                self._overflow(1)
                return
            self.pos = max(self.pos, spot.end)

    def _together(self, step: Together, tail: Sequence[Step]) -> str | None:
        if self._done_in_turn(step):
            return step.name
        picot = picot_chains(step, self.size)
        if picot:
            self._hanging(step, step.places.at(self.size) or 0 if step.places != "rest" else 1, picot)
            return step.name
        if step.places == "rest":
            need = self.needs.of(tail)
            what = step.at.what
            grouped = self._is_group(what) and bool(self._groups_ahead(what))  # the last dc is no shell
            spaces = is_space(what) or (self._is_group(what) and not grouped and self._remaining_spaces(self.pos) > 0)
            kept = need.groups if grouped else need.sp if spaces else need.st
            kept = 0 if step.at.nth == 0 else kept  # after the last centre there is room enough
            left = self._remaining_at(step.at) - ((step.but.at(self.size) or 0) or kept)
            left += self._stands_in(what)
            places = max(left, 0) if self.offer.n else 0
            self.uncounted = self.uncounted or not self.offer.n
        else:
            places = step.places.at(self.size) or 0
        for _ in range(places):
            self._group(step, tail)
        return step.name

    def _group(self, step: Together, tail: Sequence[Step] = ()) -> None:
        if step.at.where == "hook" and step.body:  # a group on chains of its own, or one whose steps have places of their own
            first = 0 if step.name == "beg shell" else len(self.basket)
            self.run(step.body)
            if step.name and len(self.basket) > first:
                self.basket.groups.append((first, len(self.basket) - first, step.name))
            return
        spot = self._spot_for(_whole_group(step), step.body, tail)
        first = len(self.basket)
        outer, self.inside = self.inside, spot
        try:
            self.run(step.body)
        finally:
            self.inside = outer
        if not step.body:
            # A stitch the pattern names and describes without saying what it is made of: one, of that name.
            self._into(spot, step.name or self.context.main, 1, step.id)
            return
        if outer is None:
            self.last = spot
        self.started = True
        if step.name and len(self.basket) > first:
            self.basket.groups.append((first, len(self.basket) - first, step.name))

    def _spot_for(self, place: Place, body: Sequence[Step], tail: Sequence[Step]) -> Spot:
        """The spot a group goes into; taken unless it was taken before."""
        where = place.where
        if self.inside is not None and where in ("next", "same"):
            return self.inside
        if where == "ring" or self.offer.ring:
            return Spot(0, 0, How.RING, ((1, RING_FOOT, int(How.RING)),))
        if where == "marked" and self._knows_marks(place):
            return self._marked(place)
        if where == "marked" and place.what == "piece":
            self.leaves = self.met_piece = True  # what the group hangs on is not among the places counted here
        if self.offer.n == 0 or where in ("row_end", "marked", "hook"):
            return Spot(0, 0, How.SIDE, ())
        if where == "same":
            self.travelled = None
            return self._spot_before(place)
        if where == "first" and not is_space(place.what) and not self._begins_with_group(place.what):
            spot = Spot(0, 1, self._how(place))
            self.pos = max(self.pos, self.origin + 1)
            return spot
        if where == "last" and self._is_group(place.what) and (group := self._last_group(place.what)) is not None:
            self._take(group)
            return group
        if where == "last" and not is_space(place.what) and place.what != "corner":
            self._jump(self._last_named(place, self._top_comes(tail)))
        if where == "from_hook" and self.offer.foundation:
            self._begin_from_hook(place, first_stitch(body) or self.context.main, 0, group=True)
        found = self._find_top(place) if where == "named" else None
        found = found or self._find(place.what, place)
        if found is None:
            self._overflow(1)
            return Spot(self.offer.n, self.offer.n, How.TOP, ())
        if found.how == How.TOP:
            found.how = self._how(place)
        self._take(found)
        return found

    def _last_named(self, place: Place, behind: int) -> int:
        """Where "last sc" is: the last stitch of that kind still ahead, the row's last places where none of it is. `behind`: how many
        places at the row's very end are told apart behind it."""
        if place.nth in (None, 1) and place.what not in ("st", "ch"):
            found = next((i for i in range(self.offer.n - 1 - behind, self.pos - 1, -1) if self.offer.matches(i, place.what)), None)
            if found is not None:
                return found
        return self._from_end(max(place.nth or 1, 1) + behind, place.what)

    def _spot_before(self, place: Place) -> Spot:
        """The spot worked into last; at a round's beginning "the same space" is the first space, the first gap between groups where they
        stand side by side, "the same stitch" the first stitch."""
        if self.last is not None:
            return self.last
        if is_space(place.what) or (place.what == "corner" and not self.offer.plain):
            self._ask_between(place)
            gapped = self.offer.plain and not self.offer.foundation and bool(self._gaps_from(0))
            space = self._find("sp", Place(what="sp", span=place.span)) if gapped else self._find(place.what, replace(place, where="next"))
            if space is not None:
                self.spaced = True
                if space.how == How.SPACE and self.offer.around and self._at_the_beginning():
                    self._begin_at(space)  # what lies before it is met at the round's end
                    self.travelled = None
                    return self.last or space
                self._take(space)
                return space
        self.pos = max(self.pos, self.origin + 1)
        return Spot(self.origin, self.origin + 1, How.TOP)

    def _hanging(self, step: Make | Together, places: int, chains: int) -> None:
        """A picot: chains closed on the stitch before; it takes no place and offers none."""
        self.started = True
        on = len(self.basket) - 1
        for _ in range(max(places, 1)):
            first = len(self.basket)
            self.basket.put_airy("ch", Role.HANGING, step.id, self.iteration, self.yarn, chains)
            self.basket.put("sl st", Role.HANGING, step.id, self.iteration, self.yarn, ((0, max(on, 0), int(How.TOP)),))
            self.basket.groups.append((first, chains + 1, "picot"))

    def _at_the_beginning(self) -> bool:
        """Nothing is worked yet but, at most, a chain that stands for nothing."""
        return not self.started or (not self.stood and not self.pos and not any(r != Role.START for r in self.basket.role))

    def _only_travels(self, tail: Sequence[Step], places: int, slipped: Make) -> bool:
        """Slip stitches before a starting chain only move along; several that begin a flat row are not worked into again, as a rule."""
        led_to = slipped.at.what
        for step in tail:
            if isinstance(step, Make) and step.stitch == "sl st":
                led_to = step.at.what
                continue
            if isinstance(step, (Chain, Colour, Aside)):
                if isinstance(step, Chain):
                    return not self.started or places > 1
                continue
            if isinstance(step, Together) and step.body and isinstance(step.body[0], Chain):
                return True
            if isinstance(step, (Make, Together)) and step.at.where == "same" and step.at.what != "made":
                return True  # "sl st in next dc, sc in same place": the stitch stands where it led to
            if isinstance(step, (Make, Together)) and self.context.in_round and step.places == "rest" and is_space(step.at.what):
                return True  # "sl st in first sp, 2 sc in each sp": the first of them is the one that it led to
            if isinstance(step, Repeat) and self.context.joined and _on_next(slipped) and step.times.kind == "rest" and _leads_on(step):
                return True  # "sl st in next dc, * ch 6, sc in center dc of next group; repeat around"
            if isinstance(step, Repeat) and self.context.in_round and is_space(led_to) and _into_next_space(step):
                return True  # "sl st in first sp, (2 sc in next sp) 12 times"
            if places < 2 or self.context.in_round or self.offer.foundation or not isinstance(step, (Make, Even, Repeat, Shape)):
                return False
            return self.context.answers.pick(SLIPS_WORKED_INTO, NO_YES) == 0
        return False

    def _travel(self, places: int, step: Make) -> None:
        if step.places == "rest":
            places = self._remaining(step.at.what)  # as far as the offer reaches just now
            if not places:
                return
        spot: Spot | None = None
        on_stitches = self.context.joined and self.offer.around and not self.started and _on_next(step)
        if on_stitches and not self.pos and self.offer.n > 1 and not self.offer.chain[1] and self.offer.matches(1, step.at.what):
            self.pos = 1  # the round before was joined to the first stitch: the next is the one after it
        for _ in range(max(places, 1)):
            spot = self._find(step.at.what, step.at) if self.offer.n else None
            if spot is None:
                break
            self.pos = max(self.pos, spot.end)
            self.last = self.first_taken = spot
            self.basket.put("sl st", Role.TRAVEL, step.id, 0, self.yarn, self._feet(spot))
        self.travelled = spot if spot is not None and spot.how == How.SPACE else None
        if self.travelled is not None and self.offer.around and not self.started:
            self._begin_at(self.travelled)
        elif spot is not None and not self.started and (on_stitches or step.at.what == "corner") and self._in_a_corner(spot):
            self._turned_at(spot)
        elif on_stitches and spot is not None and spot.how == How.TOP and not self.offer.chain[spot.start - 1]:
            self._begin_at(spot)
            self.travelled = None

    def _climb(self, places: int, step: Make) -> bool:
        """ "Sl st in 10 ch of the ch-20": up along one loop; the hand is then at its next chain."""
        if not self._is_loop(step.at.what):
            return False
        loop = self._find_space(f"{step.at.what} sp")
        if loop is None or loop.end - loop.start <= places:
            return False
        back, at, how = self.offer.back, self.offer.at, int(How.TOP)
        for i in range(loop.start, loop.start + places):
            self.basket.put("sl st", Role.TRAVEL, step.id, 0, self.yarn, ((back, at[i], how),))
        foot = (back, at[loop.start + places], how)
        self._begin_at(Spot(loop.start, loop.end, How.TOP, (foot,)))
        self.travelled, self.spaced, self.loose = None, True, True
        return True

    def _to_loop(self, places: int, step: Make) -> bool:
        """ "Sl st into each of next 2 ch, sc into loop": up along the chains of the loop that the stitch then goes into."""
        first = self.offer.chain.find(1, self.pos)
        if first < 0 or first > self.pos + 1:
            return False
        end = self.offer.space_end(first)
        if end - first <= places:
            return False
        back, at, how = self.offer.back, self.offer.at, int(How.TOP)
        for i in range(first, first + places):
            self.basket.put("sl st", Role.TRAVEL, step.id, 0, self.yarn, ((back, at[i], how),))
        self._begin_at(Spot(first, end, How.SPACE))
        self.spaced = True
        return True

    def _joined_at(self, place: Place | None) -> None:
        """Yarn joined in a space ("join B in any ch-2 sp"): the round begins there, and what comes next may go into it."""
        if place is None or not self.offer.around or not (is_space(place.what) or place.what == "corner"):
            return
        spot = self._find(place.what, place)
        if spot is not None and spot.how == How.SPACE:
            self._begin_at(spot)
        elif spot is not None and place.what == "corner" and self._in_a_corner(spot):
            self._turned_at(spot)

    def _in_a_corner(self, spot: Spot) -> bool:
        """Whether the hand was led to the stitch in the middle of a corner of a round."""
        return self.offer.around and self.offer.plain and spot in centres(self.offer)

    def _turned_at(self, spot: Spot) -> None:
        """The round begins at a corner's stitch, whether it is then called the same stitch, the corner or no more than the next."""
        self.offer, self.runs = self.offer.from_place(spot.start), {}
        self.travelled = self.last = self.first_taken = None
        self.pos = 0


def picot_chains(step: Together, size: int) -> int:
    """The chains of a picot that hangs on the stitch before ("ch 3, sl st in 3rd ch from hook", or no more than its name); 0 for others."""
    if step.name != "picot" or step.at.where != "same":
        return 0
    if not step.body:
        return 3
    chain, *rest = step.body
    if not isinstance(chain, Chain) or len(rest) != 1 or not isinstance(rest[0], Make) or rest[0].stitch not in ("sl st", "sc"):
        return 0
    return (chain.number.at(size) or 3) if rest[0].at.where in ("from_hook", "same", "named", "first") else 0


def _counts_its_own(step: Skip, tail: Sequence[Step], size: int) -> bool:
    """ "Ch 5, miss 3, 1 dc in next, * ch 2, miss 2, 1 dc in next": the stitch that the chain stands on is one of those three."""
    number = step.number.at(size) or 0
    unit = next((other for other in tail if isinstance(other, Repeat)), None)
    if unit is None or number < 2 or is_space(step.what) or len(tail) < 2 or not isinstance(tail[0], Make) or tail[0].places != ONE:
        return False
    passed = [other.number.at(size) or 0 for other in unit.body if isinstance(other, Skip)]
    return passed == [number - 1] and any(isinstance(other, Make) and other.stitch == tail[0].stitch for other in unit.body)


def _whole_group(step: Together) -> Place:
    """ "Shell in ch-3 sp of shell": a group of its own kind covers the whole of it, so that "next dc" lies beyond."""
    own = step.name is not None and step.name == step.at.of and is_space(step.at.what) and step.at.where == "next"
    return replace(step.at, what=step.at.of, of="") if own else step.at


def _then_in_loop(step: Make, tail: Sequence[Step]) -> bool:
    """Whether slip stitches in chains are followed by a stitch in the loop that these chains are of."""
    into = tail[0] if tail else None
    if step.at.what != "ch" or step.at.where != "next" or not isinstance(into, (Make, Together)):
        return False
    return into.at.where == "same" and is_space(into.at.what)


def _into_next_space(step: Repeat) -> bool:
    """Whether a unit's first stitch goes into the next space."""
    first = step.body[0] if step.body else None
    return isinstance(first, (Make, Together)) and first.at.where == "next" and is_space(first.at.what)


def _on_next(slipped: Make) -> bool:
    """Whether slip stitches go on along the stitches themselves, by no loop or row of their own."""
    at = slipped.at
    return at.where == "next" and at.loop == "both" and not at.row and not is_space(at.what) and at.what not in ("ch", "corner")


def _leads_on(step: Repeat) -> bool:
    """Whether a unit's first step is a chain that leads to its stitch."""
    return bool(step.body) and isinstance(step.body[0], Chain)


def _begins_with_it(tail: Sequence[Step]) -> bool:
    """Whether the next step is a group in a space that begins with this very slip stitch ("slip st in ch-3 sp, shell")."""
    group = tail[0] if tail else None
    if not isinstance(group, Together) or not is_space(group.at.what) or group.at.where != "next" or not group.body:
        return False
    first = group.body[0]
    return isinstance(first, Make) and first.stitch == "sl st"


def _worked_back(tail: Sequence[Step], chains: int) -> bool:
    """Whether the next step goes back along the chain just told ("ch 7, sc in 2nd ch from hook")."""
    step = tail[0] if tail else None
    return isinstance(step, Make) and step.at.where == "from_hook" and step.at.nth is not None and 1 < step.at.nth <= chains
