"""The foundation chain under the hand: chains passed over at its beginning, its end turned round, its far side."""

from __future__ import annotations

from ..pattern import Chain, Place
from ..pattern.walking import walk
from ..trade.kinds import HEIGHT, base
from .custom import BEGINS_UNSAID, UNSAID, skipped_customs
from .fabric import How
from .in_turn import InTurn
from .offer import Offer
from .starting import stood_for, stood_over

SHORTEST = 8
"""A chain of no more than this may be a ring or one tile, and no row of places."""


class OnFoundation(InTurn):
    """Begins a row on a foundation chain and goes round its end."""

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
        if told is not None and told.stands_for and top <= 1 and all(word.startswith("ch") for word in told.stands_for):
            self.chains_moved = min(skipped, self.offer.n)
            self._put_start("loop", 0, 0, stitch, step, (), loop=self.chains_moved)
            return
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
        if answer == "counts" and skipped - top == 2 and group and not any(isinstance(step, Chain) for step in walk(self.rest_of_row)):
            over = 0  # "3 dc in 6th ch from hook, * skip 2 ch, 3 dc in next ch": two chains are passed over there too
        moved = min(skipped, self.offer.n)
        self.chains_moved = {"counts": top + over, "not": moved, "loop": moved}[answer]
        stands = top + over - 1 if answer == "counts" and skipped > top + over else self.pos  # beyond it chains are passed over
        base_foot = ((1, self.offer.at[stands], int(How.TOP)),) if self.pos < self.offer.n else ()
        self._put_start(answer, top, over, stitch, step, base_foot, loop=moved)

    def _turn_unsaid(self, stitch: str, place: Place, step: int) -> None:
        """ "Ch 31. Row 1: sc in each ch across (30)": the chains that turn may be passed over without a word."""
        least = UNSAID.get(base(stitch), ())
        unsaid = self.offer.foundation and not self.started and not self.pos and not self.context.in_round and not len(self.basket)
        if not unsaid or not least or place.where != "next" or place.what not in ("st", "ch") or self.offer.n <= SHORTEST:
            return
        begins = ("in the first chain", *(f"in chain {passed + 1} from the hook" for passed in least))
        taken = self.context.answers.pick(BEGINS_UNSAID, begins)
        if taken:
            self._begin_from_hook(Place(where="from_hook", nth=least[taken - 1] + 1), base(stitch), step)

    def _other_side(self) -> None:
        """Go on along the other side of the foundation chain, from the chain before the last one worked to the first one worked."""
        first = self._first_entered()
        assert self.offer.stitches is not None
        self.extra_offered = self.offer.n
        at_end, at_first = self._times_entered(self.pos - 1), self._times_entered(first)
        end = self.pos if at_end == 1 else self.pos - 1  # an end turned round is shared by both sides
        self.single_ends = (at_end == 1) + (at_first == 1 or at_first > 2)  # "3 sc in 2nd ch": that end is turned round at once
        self.turned_first = at_first > 2
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
