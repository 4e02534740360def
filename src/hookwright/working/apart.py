"""Places that stand apart from the run of the row: the ring, a marked stitch, row ends, stitches of one group, those skipped before, what
an earlier row was left with."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import Aside, Make, Place, Step
from ..trade.kinds import base
from .context import Foot, Spot
from .fabric import RING_FOOT, How, Role
from .needs import chains_of, is_space
from .offer import Offer, space_length
from .on_foundation import OnFoundation
from .starting import stood_for, stood_over


class Apart(OnFoundation):
    """Makes stitches into places that stand apart; the run of the row goes on where it was, but past a marked or a named place."""

    def _into(self, spot: Spot, kind: str, number: int, step: int) -> None:
        """Work `number` stitches of one kind, all into `spot`."""
        self.started = True
        feet = self._feet(spot)
        role = Role.STITCH
        for _ in range(number):
            self.basket.put(kind, role, step, self.iteration, self.yarn, feet)

    def _in_stitches_of(self, kind: str, each: int, places: int, step: Make, tail: Sequence[Step] = ()) -> bool:
        """Into stitches of a group alone; False where the place is no stitch of a group, or no such group lies ahead. With them, where
        all are told, into its space ("in each dc and in the ch-2 sp of next shell"), when the hand comes to it."""
        if is_space(step.at.what) or not self._is_group(step.at.of):
            return False
        found = self._stitches_of_group(step.at)
        if self.strict and places == 1 and step.at.where == "last" and step.places != "rest":
            found = self._last_of_next_group(step.at)
        if len(found) < places:
            return False
        if not found and step.places == "rest" and self.strict:
            self._overflow(1)  # no group is left: the unit does not go once more
        self.loose = self.started = True
        within = next((one for one in tail if not isinstance(one, Aside)), None) if step.places == "rest" else None
        space = self._space_among(found, within) if isinstance(within, Make) and within.at.of == step.at.of else None
        for i in found if step.places == "rest" else found[:places]:
            if space is not None and isinstance(within, Make) and i >= space.end:
                self._take(space)
                self._into(space, within.stitch, within.each.at(self.size) or 1, within.id)
                self.taken_in_turn.add(within.id)
                space = None
            spot = Spot(i, i + 1, self._how_for(kind, step.at))
            self._take(spot)
            self._into(spot, kind, each, step.id)
        return True

    def _space_among(self, found: list[int], step: Make) -> Spot | None:
        """The space that lies among these stitches of one group, of the length told, where the step goes into such a one."""
        if not found or not is_space(step.at.what) or step.places == "rest" or step.at.where != "next":
            return None
        length, offer = chains_of(step.at.what), self.offer
        firsts = [i for i in range(found[0], found[-1]) if offer.chain[i] and not offer.chain[i - 1]]
        at = next((i for i in firsts if length in (None, space_length(offer, i, offer.space_end(i)))), None)
        return None if at is None else Spot(at, offer.space_end(at), How.SPACE)

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
            places = self.context.row_ends - self.stood  # a chain that counts stands on the first end
        elif step.places == "rest":
            self.uncounted = True
            return
        how = How.SIDE if step.at.where == "row_end" else How.TOP
        self._into(Spot(0, 0, how, ((1, RING_FOOT, int(how)),) if how == How.SIDE else ()), kind, each * places, step.id)

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
