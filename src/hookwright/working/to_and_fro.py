"""Turning back inside a row: scallops and loops worked to and fro on stitches that the row itself has just made.

"* Sc in next 9 sc, ch 7, turn, skip 6 sc, sl st in next sc, turn, 10 sc in loop, sc in next sc; repeat from *": the hand turns, works back
over the row's own stitches, turns again, works along what it made since, and goes on along the row below where it had left it. Only turns
in pairs are so; a turn by itself is where one row ends and the next begins.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..pattern import Make, Repeat, Skip, Step, Together, Turn
from .context import Spot
from .fabric import How, Role
from .needs import chains_of, is_space
from .offer import OFFERING, Offer, own_offer
from .repeating import Bookmark
from .spirals import Spiralling

_TURNING_CHAIN = 3
"""Chains, at most, that only lift the hook before it is turned the second time."""


RECENT = 64
"""Scallops before this one that may lie within reach."""
REACH = 400
"""Elements of the row, at most, that are worked back over: a scallop spans a few dozen."""


@dataclass(slots=True)
class _Away:
    """What was left behind at the first of two turns."""

    offer: Offer
    pos: int
    last: Spot | None
    end: int
    """Elements of the row there were: what follows was made since."""
    turns: int = 1
    landed: int = -1
    """The furthest element of the row itself that was worked into going back."""
    since: int = 0
    """Where what was made since the last turn begins."""


class ToAndFro(Spiralling):
    """Works pairs of turns inside a row."""

    away: _Away | None = None
    covered: list[tuple[int, int]] | None = None
    """Elements of this row that lie under others of it: from, up to, in order."""

    def _turn_inside(self, tail: Sequence[Step]) -> None:
        away = self.away
        if away is None:
            if not self.started or self.inside is not None or not any(isinstance(step, Turn) for step in tail) or not self._stitches():
                return
            self.away = away = _Away(self.offer, self.pos, self.last, self._made_before_chains(), since=len(self.basket))
            self._onto(self._own(0, away.end + self._chain_run()))
            return
        self._note_landing(away)
        first, end = (away.end, self._made_before_chains(_TURNING_CHAIN)) if away.turns % 2 else (away.since, len(self.basket))
        away.turns, away.since = away.turns + 1, len(self.basket)
        self._onto(self._own(first, end))

    def _own(self, first: int, end: int) -> Offer:
        """The row's own elements from `first` up to `end`, last made first met; those that lie under others are none."""
        role, first = self.basket.role, max(first, end - REACH)
        under = {i for low, high in (self.covered or ())[-RECENT:] for i in range(max(low, first), high)}
        at = [i for i in range(first, end) if role[i] in OFFERING and i not in under]
        return own_offer(self.basket.done(), at[::-1])

    def _onto(self, offer: Offer) -> None:
        self.offer, self.pos, self.last, self.runs, self.travelled = offer, 0, None, {}, None

    def _made_before_chains(self, most: int | None = None) -> int:
        """Elements of the row without the chains made last (where there are not more of them than `most`)."""
        run = self._chain_run()
        return len(self.basket) - (run if most is None or run <= most else 0)

    def _note_landing(self, away: _Away) -> None:
        """Remember how far back the row's own stitches were worked into."""
        basket = self.basket
        for i in range(away.since, len(basket)):
            for k in range(basket.feet[i], basket.feet[i + 1]):
                if basket.back[k] == 0 and 0 <= basket.foot_at[k] < away.end:
                    away.landed = basket.foot_at[k] if away.landed < 0 else min(away.landed, basket.foot_at[k])

    def _ready(self, step: Step) -> bool:
        """Come back to the row below where nothing that the step names is left of the row's own; True when the step is done by that."""
        away = self.away
        if away is None or not isinstance(step, (Make, Together, Skip, Repeat)):
            return False
        if isinstance(step, Make) and step.at.where == "from_hook" and step.at.what != "ch":
            self._back_from_hook(step)
            return True
        if away.turns % 2:
            return False
        if isinstance(step, Make) and step.at.where == "last" and away.end:
            self._into(Spot(0, 0, How.TOP, ((0, away.end - 1, int(How.TOP)),)), step.stitch, step.each.at(self.size) or 1, step.id)
            self._come_home()
            return True
        if not self._finds_here(step):
            self._come_home()
        return False

    def _finds_here(self, step: Step) -> bool:
        """Whether a place that the step names is still ahead on the row's own elements."""
        if isinstance(step, Repeat):
            first = next((s for s in step.body if isinstance(s, (Make, Together, Skip))), None)
            return first is None or self._finds_here(first)
        if isinstance(step, (Make, Together)) and step.at.where in ("same", "skipped", "ring"):
            return True
        what = step.what if isinstance(step, Skip) else step.at.what if isinstance(step, (Make, Together)) else "st"
        if is_space(what) or what == "ch":
            length, offer = chains_of(what), self.offer
            starts = {offer.space[i]: i for i in range(offer.n - 1, self.pos - 1, -1) if offer.chain[i]}
            return any(length is None or offer.space_end(i) - i == length for i in starts.values())
        return any(self.offer.matches(i, what) for i in range(self.pos, self.offer.n))

    def _back_from_hook(self, step: Make) -> None:
        """ "Turn, tr in 4th dc from hook": counted among the row's own stitches."""
        ahead = [i for i in range(self.pos, self.offer.n) if self.offer.matches(i, step.at.what)]
        nth = step.at.nth or 1
        if nth > len(ahead):
            self._overflow(nth - len(ahead))
            return
        spot = Spot(ahead[nth - 1], ahead[nth - 1] + 1, How.TOP)
        self._take(spot)
        self._into(spot, step.stitch, step.each.at(self.size) or 1, step.id)

    def _come_home(self) -> None:
        """Go on along the row below where it was left."""
        away = self.away
        if away is None:
            return
        self.away = None
        self.offer, self.pos, self.last, self.runs, self.travelled = away.offer, away.pos, away.last, {}, None
        self.loose = True
        if away.turns % 2 == 0:
            low = away.landed + 1 if away.landed >= 0 else away.end
            self.covered = self.covered or []
            self.covered.append((low, away.since))

    def _return_to(self, mark: Bookmark) -> None:
        if self.away is not None:
            self.offer, self.runs, self.away = self.away.offer, {}, None
        while self.covered and self.covered[-1][1] > mark[0].elements:
            self.covered.pop()
        super()._return_to(mark)

    def _hide_covered(self) -> None:
        """What lies under the row's own stitches offers nothing to the next row."""
        role = self.basket.role
        for low, high in self.covered or ():
            role[low:high] = bytes((Role.HANGING,)) * (high - low)


__all__ = ["ToAndFro"]
