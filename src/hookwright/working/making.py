"""Working stitches into places: one in each, several in one, together over several, to the end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Aside, Make, Place, Shape, Skip, Step
from ..trade.kinds import FOUNDATION_STITCHES, HEIGHT, base, closes
from .context import Foot, Spot
from .corners import middle_places
from .custom import skipped_customs
from .fabric import RING_FOOT, How, Role
from .in_turn import InTurn
from .needs import Need, is_space
from .offer import Offer
from .shapings import spread_evenly
from .starting import stood_for, stood_over


class Making(InTurn):
    """Makes stitches. The few places of special kinds (ring, same, first, last, named …) have a method each."""

    def _kind(self, step: Make) -> str:
        if step.stitch == "inc":
            return step.main or self.context.main
        if step.stitch == "dec":
            return f"{step.main or self.context.main}2tog"
        return step.stitch

    def _make(self, step: Make, tail: Sequence[Step]) -> str | None:
        if self._done_in_turn(step):
            return None
        kind = self._kind(step)
        each = step.each.at(self.size) or 0
        if step.stitch == "inc" and each == 1:
            each = 2
        places = 0 if step.places == "rest" else step.places.at(self.size) or 0
        if not each or (step.places != "rest" and places <= 0):
            return None
        self._bound(each * max(places, 1))
        takes = max(step.closes, closes(kind))
        where = step.at.where
        if where == "from_hook" and self._turns_back(step) and not self._extends(step):
            self._back_along(kind, each, step)
            return None
        if where == "next" and step.at.what == "ch" and (self.own or (step.places != "rest" and self._bridged_here(places))):
            self._along_own(kind, each, len(self.own or ()) if step.places == "rest" else places, step)
            return None
        if self.inside is not None and step.at.where in ("next", "same", "ring"):
            self._into(self.inside, kind, each * max(places, 1), step.id)
            return None
        if step.at.row and step.at.row in self.context.named and takes == 1:
            self._in_row_named(kind, each, places, step, self.context.named[step.at.row])
        elif where == "hook" or (kind in FOUNDATION_STITCHES and (self.offer.n == 0 or where == "next")):
            self.started = True
            self.basket.put_airy(kind, Role.STITCH, step.id, self.iteration, self.yarn, each * max(places, 1))
        elif where == "ring" or self.offer.ring:
            self._in_ring(kind, each * max(places, 1), step)
        elif where == "under" and self.offer.foundation and not self.extra_offered and not self.context.far:
            self._other_side()
            self._next(kind, each, places, takes, step, tail)
        elif where == "marked" and takes == 1 and places == 1 and step.places != "rest" and self._knows_marks(step.at):
            self._into(self._marked(step.at), kind, each, step.id)
        elif where in ("row_end", "marked") or self.offer.n == 0 or self._on_own_chain(step):
            self._uncounted_place(kind, each, places, step)
        elif self._is_nth_of_group(step.at):
            self._named(kind, each, max(places, 1), step)
        elif step.at.of == "layers":
            self._through_layers(kind, each, step, tail)
        elif step.at.of and takes == 1 and self._in_stitches_of(kind, each, places, step):
            pass
        elif where == "same":
            self.travelled = None
            self._same(kind, each * max(places, 1), takes, step)
        elif where == "first":
            self._first(kind, each, max(places, 1), takes, step)
        elif where == "last":
            self._last(kind, each, places, takes, step, tail)
        elif where == "from_hook" and self._extends(step):
            self._extend(kind, base(kind), each, step)
        elif where == "from_hook":
            self._from_hook(kind, each, places, takes, step)
        elif where == "skipped":
            self._in_skipped(kind, each, max(places, 1), step)
        elif where == "named":
            self._named(kind, each, max(places, 1), step)
        else:
            self._next(kind, each, places, takes, step, tail)
        return "in each" if step.places == "rest" else None

    def _through_layers(self, kind: str, each: int, step: Make, tail: Sequence[Step]) -> None:
        """Through both layers of the piece laid flat: each stitch goes into a place and the one that lies behind it. So many as there are
        places are worked plainly: then the other layer is another piece."""
        left = self.offer.n - self.pos
        told = None if step.places == "rest" else step.places.at(self.size) or 1
        if told is not None and 2 * told > left + 1:
            self._next(kind, each, told, 1, step, tail)
            return
        self.started = True
        pairs = left // 2 if told is None else told
        back, at, first, last = self.offer.back, self.offer.at, self.pos, self.offer.n - 1
        for i in range(pairs):
            feet = ((back, at[first + i], int(How.TOP)), (back, at[last - i], int(How.TOP)))
            self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, feet if feet[0] != feet[1] else feet[:1])
        self.pos = self.offer.n if left - 2 * pairs <= 1 else first + 2 * pairs

    def _on_own_chain(self, step: Make) -> bool:
        """Whether chains are named and only this row has any: those that bridge it to another piece."""
        if (
            not step.at.what.startswith("ch")
            or step.places == "rest"
            or not self.met_piece
            or not self.offer.plain
            or self.offer.foundation
        ):
            return False
        return step.at.where in ("next", "under", "same", "first", "last") and any(r not in (Role.STITCH,) for r in self.basket.role)

    def _into(self, spot: Spot, kind: str, number: int, step: int) -> None:
        """Work `number` stitches of one kind, all into `spot`."""
        self.started = True
        feet = self._feet(spot)
        role = Role.STITCH
        for _ in range(number):
            self.basket.put(kind, role, step, self.iteration, self.yarn, feet)

    def _in_stitches_of(self, kind: str, each: int, places: int, step: Make) -> bool:
        """Into stitches of a group alone; False where the place is no stitch of a group, or no such group lies ahead."""
        if is_space(step.at.what) or not self._is_group(step.at.of):
            return False
        found = self._stitches_of_group(step.at)
        if self.strict and places == 1 and step.at.where == "last" and step.places != "rest":
            found = self._last_of_next_group(step.at)
        if len(found) < places:
            return False
        self.loose = self.started = True
        for i in found if step.places == "rest" else found[:places]:
            spot = Spot(i, i + 1, self._how_for(kind, step.at))
            self._take(spot)
            self._into(spot, kind, each, step.id)
        return True

    def _in_ring(self, kind: str, number: int, step: Make) -> None:
        """Into the ring; a foundation chain worked into as a ring has no other places to use."""
        told = self.context.base
        if self.offer.foundation and not self.started and told is not None and (told.stands_for or told.counts):
            over = stood_over(told.stands_for)
            self.chains_moved = self.offer.n
            self._put_start("counts", max(self.offer.n - over, 1), over, stood_for(told.stands_for, base(kind)), step.id, (), loop=0)
        self.started = self.leaves = True
        spot = Spot(0, 0, How.RING, ((1, RING_FOOT, int(How.RING)),))
        self._into(spot, kind, number, step.id)
        self.last = spot

    def _knows_marks(self, place: Place) -> bool:
        return bool(self.context.marks) and place.what != "piece"

    def _marked(self, place: Place) -> Spot:
        """The next marked stitch or space, taken; what lies before it and was not worked is passed over."""
        at = next((at for at in self.context.marks if at >= self.pos), None)
        if at is None:
            self._overflow(1)
            return Spot(self.offer.n, self.offer.n, How.TOP, ())
        bridged = bool(self.basket.role) and self.basket.role[-1] == Role.CHAIN
        if not bridged:  # a chain that leads to a marker spans what lies between (a sleeve left for later)
            self.gap += at - self.pos
        space = not self.offer.plain and bool(self.offer.chain[at])
        spot = Spot(at, self.offer.space_end(at), How.SPACE) if space else Spot(at, at + 1, self._how(place))
        self._take(spot)
        return spot

    def _uncounted_place(self, kind: str, each: int, places: int, step: Make) -> None:
        """Row ends, marked stitches, a piece that was not counted: the stitches count, the places are not checked."""
        self.met_piece = self.met_piece or step.at.what == "piece"
        self.leaves = self.leaves or self.met_piece or (step.at.where == "row_end" and self.pos == 0)
        self.started = True
        if step.places == "rest" and step.at.where == "row_end" and not step.evenly and self.context.row_ends:
            places = self.context.row_ends
        elif step.places == "rest":
            self.uncounted = True
            return
        how = How.SIDE if step.at.where == "row_end" else How.TOP
        self._into(Spot(0, 0, how, ((1, RING_FOOT, int(how)),) if how == How.SIDE else ()), kind, each * places, step.id)

    def _same(self, kind: str, number: int, takes: int, step: Make) -> None:
        if self.extra_offered and step.at.what == "ch":
            self.single_ends = max(self.single_ends, 1)  # "2 sc in same ch as first 2 sc": the end that both sides share
        spot = self.last if self.last is not None else Spot(self.origin, self.origin + 1, self._how_for(kind, step.at))
        if self.last is None and self.pos == self.origin:
            self.pos = self.origin + 1
        if takes > 1:
            feet = list(self._feet(spot))
            for _ in range(takes - 1):
                extra = self._find("st", step.at)
                if extra is None:
                    self._overflow(1)
                    break
                self._take(extra)
                feet.extend(self._feet(extra))
            self.started = True
            self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, tuple(feet))
            return
        self._into(spot, kind, number, step.id)
        self.last = spot

    def _first(self, kind: str, each: int, places: int, takes: int, step: Make) -> None:
        if self.offer.foundation and not self.started and each > 1 and self.offer.n <= 3:
            # "ch 2, 3 sc in 1st st of ch": the chain made first, which lies farthest from the hook.
            self._begin_from_hook(Place(where="from_hook", nth=self.offer.n), base(kind), step.id)
            self._next(kind, each, places, takes, step, ())
            return
        if self.extra_offered and step.at.what in ("ch", "st") and places * takes == 1:
            self.single_ends = max(self.single_ends, 1)  # "2 sc in the first ch", at the far side's end: the end that both sides share
            element = next((at for at in self.basket.foot_at if at >= 0), 0)
            self._into(Spot(0, 0, How.TOP, ((self.offer.back, element, int(How.TOP)),)), kind, each, step.id)
            return
        if self._back_in_first(step.at):
            assert self.first_taken is not None
            self._into(self.first_taken, kind, each * max(places, 1), step.id)
            return
        spaces = is_space(step.at.what) and (self.stood or self._under_way())
        if spaces and not step.at.of and self._under_way() and (self.offer.groups or self.context.shapes):
            step = replace(step, at=replace(step.at, of="figure"))  # shells alternate with loops: the chain that leads to these is none
        if step.at.of or spaces or (self._under_way() and self._is_group(step.at.what)):
            self._next(kind, each, places, takes, step, ())  # "in first loop of pineapple", told in mid-row: the first one ahead
            return
        if self.pos > 0 and places * takes > 1 and not self.stood:
            self._next(kind, each, places, takes, step, ())
            return
        if self.stood and places * takes == 1:
            self._into(Spot(0, 1, self._how_for(kind, step.at)), kind, each, step.id)
            self.last = Spot(self.origin, self.origin + 1, How.TOP)
            return
        self.pos = 0 if not self.stood else self.pos
        self._next(kind, each, places, takes, step, ())

    def _back_in_first(self, place: Place) -> bool:
        """ "…, 2 sc in first loop" that ends a round begun in that loop: no loop is left ahead."""
        if not self.context.in_round or not is_space(place.what) or place.of or not self._under_way():
            return False
        return self.first_taken is not None and self.first_taken.how == How.SPACE and self._find_space("sp") is None

    def _under_way(self) -> bool:
        """Whether the row has gone beyond its first places."""
        return self.pos > self.origin + 1 and any(role == Role.STITCH for role in self.basket.role)

    def _last(self, kind: str, each: int, places: int, takes: int, step: Make, tail: Sequence[Step]) -> None:
        want = max(places, 1) * takes + self._top_comes(tail)
        what = step.at.what
        if is_space(what):
            self._next(kind, each, places, takes, step, ())
            return
        if self._is_group(what) and (group := self._last_group(what)) is not None:
            self._take(group)
            self._into(group, kind, each * max(places, 1), step.id)
            return
        self._jump(self._from_end(max(want, step.at.nth or 1), what))
        self._next(kind, each, places, takes, step, ())

    def _top_comes(self, tail: Sequence[Step]) -> int:
        """1 where the top of the turning chain is worked into after "the last dc": it is the row's last place itself."""
        after = next((step for step in tail if not isinstance(step, Aside)), None)
        if not isinstance(after, Make) or after.at.where != "named" or self.offer.stitches is None or not self.offer.n:
            return 0
        return int(self.offer.stitches.role[self.offer.at[-1]] == Role.START_TOP)

    def _jump(self, start: int) -> None:
        """Go on to place `start` of the row's end. What lies between is left out, unless the chain just made bridges it.

        Mesh lays 2 chains over 3 as often as over 2 (common practice, no source).
        """
        if start <= self.pos:
            return
        if self.offer.foundation and not self.started and self.pos == 0:
            self._begin_from_hook(Place(where="from_hook", nth=start + 1), self.context.main, 0)
            return
        between = start - self.pos if self._chains_are_stitches() else self.offer.chain.count(0, self.pos, start)
        role = self.basket.role
        bridge = len(role) - len(role.rstrip(bytes((Role.CHAIN,))))
        if between > bridge + (bridge > 1) and not self.leaves and not self.spaced:
            self.gap += between
        self.pos = start

    def _in_skipped(self, kind: str, each: int, places: int, step: Make) -> None:
        """Into places passed over before in this row: nothing more is used."""
        self.started = True
        how = self._how_for(kind, step.at)
        feet_of = self.skipped[-places:] if len(self.skipped) >= places else []
        del self.skipped[len(self.skipped) - len(feet_of) :]
        for k in range(places):
            feet: tuple[Foot, ...] = ()
            if k < len(feet_of):
                feet = self._deep_feet(feet_of[k], step.at.below, how)
            for _ in range(each):
                self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, feet)

    def _in_row_named(self, kind: str, each: int, places: int, step: Make, rest: Offer) -> None:
        """Into what an earlier row was left with, nearest first: nothing of the row below is used."""
        assert step.at.row is not None
        self.started = True
        how, begun = self._how_for(kind, step.at), self.taken_of.get(step.at.row, 0)
        many = rest.n - begun if step.places == "rest" else places
        self.taken_of[step.at.row] = begun + many
        self.missing += max(0, begun + many - rest.n)
        for k in range(begun, begun + many):
            feet: tuple[Foot, ...] = ((rest.back, rest.at[k], int(how)),) if k < rest.n else ()
            for _ in range(each):
                self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, feet)

    def _named(self, kind: str, each: int, places: int, step: Make) -> None:
        spot = self._find_top(step.at) or self._find(step.at.what, step.at)
        if spot is None:
            self._overflow(1)
            spot = Spot(self.offer.n - 1, self.offer.n, How.TOP)
        self._take(spot)
        self._into(spot, kind, each * places, step.id)

    def _from_hook(self, kind: str, each: int, places: int, takes: int, step: Make) -> None:
        self._begin_from_hook(step.at, base(kind), step.id)
        self._next(kind, each, places, takes, step, ())

    def _begin_from_hook(self, place: Place, stitch: str, step: int, *, group: bool = False) -> None:
        """Pass over the chains nearest the hook: they may stand for the row's first stitch."""
        skipped = (place.nth or 1) - 1
        if not self.offer.foundation:
            return
        if self.started or self.pos:
            self.pos = max(self.pos, min(skipped, self.offer.n))
            return
        self.pos = min(skipped, self.offer.n)
        top = min(HEIGHT.get(stitch, 3), skipped)
        told = self.context.base
        if told is not None and told.stands_for:
            over = stood_over(told.stands_for)
            self.chains_moved = min(skipped, max(self.offer.n - 1, 0))
            self._put_start("counts", max(self.chains_moved - over, 1), over, stood_for(told.stands_for, stitch), step, (), loop=0)
            return
        customs = skipped_customs(stitch, skipped, self.offer.n)
        if told is not None and told.counts is not None and skipped:
            customs = ("counts",) if told.counts else ("not",)
        answer = self.context.answers.start(f"Do the {skipped} skipped chains before {stitch} count?", customs)
        over = 0 if answer != "counts" else (skipped - top + 1) // 2
        if answer == "counts" and skipped - top == 1:
            spaced = ("no", "yes") if group else ("yes", "no")
            question = f"Is there a space beside the {stitch} that the {skipped} skipped chains stand for?"
            over = 1 if spaced[self.context.answers.pick(question, spaced)] == "yes" else 0
        moved = min(skipped, self.offer.n)
        self.chains_moved = {"counts": top + over, "not": moved, "loop": moved}[answer]
        base_foot = ((1, self.offer.at[self.pos], int(How.TOP)),) if self.pos < self.offer.n else ()
        self._put_start(answer, top, over, stitch, step, base_foot, loop=moved)

    def _other_side(self) -> None:
        """Go on along the other side of the foundation chain, from the chain before the last one worked to the first one worked."""
        first = self._first_entered()
        assert self.offer.stitches is not None
        self.extra_offered = self.offer.n
        at_end, at_first = self._times_entered(self.pos - 1), self._times_entered(first)
        end = self.pos if at_end == 1 else self.pos - 1  # an end turned round is shared by both sides
        self.single_ends = (at_end == 1) + (at_first == 1 or at_first > 2)  # "3 sc in 2nd ch": that end is turned round at once
        under = list(self.offer.at[first : max(end, first)])[::-1]
        self.offer = Offer(
            stitches=self.offer.stitches, at=under, chain=bytes(len(under)), space=(), plain=True, back=self.offer.back, foundation=True,
        )  # fmt: skip
        self.pos, self.runs = 0, {}

    def _times_entered(self, place: int) -> int:
        """How many stitches stand in this place."""
        if not 0 <= place < self.offer.n:
            return 0
        element = self.offer.at[place]
        return sum(1 for at, back in zip(self.basket.foot_at, self.basket.back, strict=True) if at == element and back == self.offer.back)

    def _rounds_the_end(self) -> bool:
        """Whether several stitches turn round the last chain of the foundation: what follows goes along its far side.

        Not in a unit of a repeat that is only tried: "*3 dc in next ch, dc in next 11 ch; rep from * to last ch" has no room for it there.
        """
        if self.strict or not self.offer.foundation or self.extra_offered or self.pos < self.offer.n or not self.offer.n:
            return False
        last, basket = self.offer.at[self.offer.n - 1], self.basket
        ends = [i for i in range(max(0, len(basket) - 3), len(basket)) if basket.feet[i] < basket.feet[i + 1]]
        turned = [i for i in ends if basket.foot_at[basket.feet[i]] == last]
        return len(turned) == 3 and len({basket.step[i] for i in turned}) == 1

    def _first_entered(self) -> int:
        element = next((self.basket.foot_at[f] for f in range(len(self.basket.foot_at)) if self.basket.foot_at[f] >= 0), None)
        return list(self.offer.at).index(element) if element is not None and element in self.offer.at else 0

    def _next(self, kind: str, each: int, places: int, takes: int, step: Make, tail: Sequence[Step]) -> None:
        place = step.at
        if self._rounds_the_end():
            self._other_side()
        if step.places == "rest":
            others = self._others_in_turn(step, tail) if takes == 1 else []
            if others:
                self._in_turn(kind, each, step, others, self.needs.of(tail[len(others) :]))
                return
            self._rest(kind, each, takes, place, step.but.at(self.size) or 0, step.id, self.needs.of(tail))
            return
        if place.below:
            self._below(kind, each, places, step, tail)
            return
        self.started = True
        if step.evenly:
            self._into(Spot(self.pos, self.pos + 1, How.TOP), kind, each * places, step.id)
            self.pos = self.offer.n
            return
        if self.offer.plain and self._plain_target(place) and takes == 1:
            self._plain_run(kind, each, places, place, step.id)
            return
        if place.nth == 0 and places > 1 and takes == 1 and (middle := middle_places(self.offer, self.pos, places)):
            self.spaced = self.loose = True  # those on both sides of them are passed over
            how = self._how_for(kind, place)
            for i in middle:
                self._take(Spot(i, i + 1, how))
                self._into(Spot(i, i + 1, how), kind, each, step.id)
            return
        self.in_run = places > 1
        try:
            for _ in range(places):
                self._one(kind, each, takes, place, step.id)
        finally:
            self.in_run = False

    def _plain_target(self, place: Place) -> bool:
        return (place.what == "st" or (self.offer.foundation and place.what == "ch")) and not place.between and place.nth != 0

    def _plain_run(self, kind: str, each: int, places: int, place: Place, step: int) -> None:
        take = min(places, self.offer.n - self.pos)
        at = self.offer.at[self.pos : self.pos + take]
        how = self._how_for(kind, place)
        if take > 0:
            if each > 1:
                at = [a for a in at for _ in range(each)]
            self.basket.put_run(kind, step, self.iteration, self.yarn, self.offer.back, at, how)
            self.pos += take
            self.last = Spot(self.pos - 1, self.pos, how)
        if places > take:
            self._overflow(places - take)
            self._into(Spot(self.offer.n, self.offer.n, how), kind, (places - take) * each, step)

    def _one(self, kind: str, each: int, takes: int, place: Place, step: int) -> None:
        self.started = True
        feet: list[tuple[int, int, int]] = []
        spot: Spot | None = None
        how = self._how_for(kind, place)
        for _ in range(takes):
            spot = self._find(place.what, place)
            if spot is None:
                self._overflow(1)
                continue
            if spot.how == How.TOP:
                spot.how = how
            self._take(spot)
            feet.extend(self._feet(spot))
        for _ in range(each):
            self.basket.put(kind, Role.STITCH, step, self.iteration, self.yarn, tuple(feet))

    def _rest(self, kind: str, each: int, takes: int, place: Place, but: int, step: int, tail: Need) -> None:
        """One (or `each`) in every place that is left, but the last `but`; where none are told, but what the steps after ask for."""
        self.started = True
        if self.offer.n == 0:
            self.uncounted = True
            return
        what = place.what
        if each > 1 and what != "st" and self.pos >= self.offer.n and self.offer.plain and len(self.basket.kind):
            self.uncounted = True  # "sc in each st around, 3 sc in each corner": nobody counted the corners
            return
        if self.offer.plain and self._plain_target(place):
            left = self.offer.n - self.pos - (but or tail.st)
            if left > 0:
                self._bound(left * each)
                if takes == 1:
                    self._plain_run(kind, each, left, place, step)
                else:
                    for _ in range(left // takes):
                        self._one(kind, each, takes, place, step)
            return
        grouped = self._is_group(what) and bool(self._groups_ahead(what))
        left = self._remaining_at(place) - (but or (tail.groups if grouped else tail.sp if is_space(what) else tail.st))
        left += self._stands_in(what)
        for _ in range(max(left, 0) // takes):
            self._one(kind, each, takes, place, step)

    def _stands_in(self, what: str) -> bool:
        """Whether the hand stands in a space that is the first of them ("ss into ch-3 sp, 3 dc in each ch-3 sp around")."""
        return is_space(what) and self.travelled is not None and self.travelled.how == How.SPACE and self.travelled.end <= self.pos

    def _below(self, kind: str, each: int, places: int, step: Make, tail: Sequence[Step]) -> None:
        """Into rows further down: the places above are covered, unless the words skip them themselves."""
        self.started = True
        how = self._how_for(kind, step.at)
        covers = not isinstance(next((s for s in tail if not isinstance(s, Aside)), None), Skip)
        for k in range(places):
            i = min(self.pos + (0 if covers else k), self.offer.n - 1)
            feet = self._deep_feet(i, step.at.below, how)
            if covers:
                if self.pos >= self.offer.n:
                    self._overflow(1)
                else:
                    self.pos += 1
                    self.last = Spot(self.pos - 1, self.pos, how)
            for _ in range(each):
                self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, feet)

    def _spread(self, step: Shape, tail: Need) -> None:
        """Increases or decreases spread evenly over what is left."""
        self.started = True
        places = self._remaining("st") - tail.st
        change = step.change.at(self.size) or 0
        if self.offer.n == 0 or places <= 0:
            self.uncounted = self.uncounted or self.offer.n == 0
            return
        self._bound(places + change)
        kind = self.context.main
        for number in spread_evenly(places, change):
            if change >= 0:
                self._one(kind, number, 1, Place(), step.id)
            else:
                self._one(kind if number == 1 else f"{kind}{number}tog", 1, number, Place(), step.id)
