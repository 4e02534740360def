"""Finding spaces: loops of chains, and the gaps between groups."""

from __future__ import annotations

from collections import Counter

from ..pattern import Place
from .context import CHAINS_ARE_STITCHES, Spot
from .custom import NO_YES
from .fabric import How, Role
from .gaps import every_gap, gaps
from .holding import Holding
from .needs import chains_of
from .offer import space_length


class FindingSpaces(Holding):
    """Looks for spaces; takes none."""

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
        here = self.last is not None and self.last.how == How.BETWEEN and self.last.end == start
        return [i for i in self.between[1] if i > start or (i == start and not here)]

    def _ask_between(self, place: Place) -> None:
        """ "2 dc in each gap between the dc" over stitches side by side, no groups and no chain among them: every gap is meant."""
        if place.between and place.what == "sp" and self.offer.plain and not self.offer.foundation and not self._gaps_from(0):
            self.between = (self.offer, every_gap(self.offer))

    def _skipped_to_gap(self) -> bool:
        """ "Skip next 2 dc, a Cluster in next sp": the stitches told to be passed over lead to the gap between two groups, and the chains'
        next space lies within the second of them."""
        led = bool(self.skipped) and self.skipped[-1] == self.pos - 1 and self.travelled is None
        if not led or self.pos >= self.offer.n or self.offer.chain[self.pos] or self.offer.chain[self.pos - 1]:
            return False
        return self.pos in self._gaps_from(self.pos)

    def _space_left(self) -> int:
        return self._remaining_spaces(self.pos)

    def _chains_are_stitches(self) -> bool:
        if self.offer.plain:
            return False
        return self.context.answers.pick(CHAINS_ARE_STITCHES, NO_YES) == 1

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
            begun = i > 0 and offer.space[i - 1] == offer.space[i] and i == self.pos and self.last is not None and self.last.end == i
            if begun and not self._only_slipped():
                i = offer.space_end(i)
                continue
            end = offer.space_end(i)
            spot = Spot(i, end, How.SPACE)
            if length is None or space_length(offer, i, end) == length:
                return spot
            first = first or spot
            i = end
        return None if first is not None and length is not None and self._is_edge(first, length) else first

    def _only_slipped(self) -> bool:
        """Whether nothing but slip stitches was worked yet: "sl st in next 2 ch, *sc in loop, ch 5": that loop is the first."""
        made = [(self.basket.names[code], role) for code, role in zip(self.basket.kind[:16], self.basket.role[:16], strict=True)]
        slips = [name == "sl st" for name, role in made if role != Role.START]
        return bool(slips) and all(slips)

    def _is_edge(self, spot: Spot, length: int) -> bool:
        """Whether a repeat along a row has met its loops of this length, and the chains beside the one that begins the row below are left:
        no more of them ("ch 5 (counts as dc and ch 2)")."""
        offer = self.offer
        if not self.strict or self.context.in_round or offer.closed or offer.stitches is None or not spot.end < offer.n:
            return False
        lengths = Counter(offer.space)
        met = sum(lengths[space] == length for space in set(offer.space[: self.pos]) if space >= 0)
        return met > 1 and offer.stitches.role[offer.at[spot.end]] == Role.START_TOP
