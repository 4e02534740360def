"""Stitches beyond the edge: chains of the row itself that are worked back along.

"Ch 9, dc in 4th ch from hook, dc in each of next 5 ch, dc in each st across": the skipped chains are the row's start, the others hang under
the new stitches and offer nothing more; no place of the row below is used. In the middle of a row ("ch 6, sc in 2nd ch from hook, dc in
next 4 ch, sl st in next sc") it is a leaf, a spike or a lock of hair.
"""

from __future__ import annotations

from ..pattern import Make
from ..trade.kinds import HEIGHT
from .basket import Mark
from .custom import skipped_customs
from .fabric import How, Role
from .starting import Starting

_CHAINS = frozenset((Role.START, Role.START_TOP, Role.CHAIN))


class Extending(Starting):
    """Works along the chain that this very row began with."""

    own: list[int] | None = None
    """Chains of this row still to be worked into, the next one last."""
    back_from: int = 0
    """Where the stitches worked back along a chain in the middle of the row begin; 0 where there are none."""

    def _extends(self, step: Make) -> bool:
        """Whether the place is on a chain this row has just begun with, long enough to be worked along."""
        role = self.basket.role
        if self.offer.foundation or self.offer.ring or self.own is not None or not role:
            return False
        return step.at.nth is not None and step.at.nth <= len(role) and all(r in _CHAINS for r in role)

    def _extend(self, kind: str, stitch: str, each: int, step: Make) -> None:
        chains, skipped = len(self.basket), (step.at.nth or 1) - 1
        made_by = self.basket.step[0]
        self.basket.back_to(Mark(0, 0, 0))
        self.pos, self.last, self.stood, self.started = 0, None, False, True
        self.basket.put_airy("ch", Role.HANGING, made_by, 0, self.yarn, chains - skipped)
        self.own = list(range(chains - skipped))
        turning = (self.context.turning or {}).get((stitch, skipped))
        if turning is None:
            customs = skipped_customs(stitch, skipped, chains)
            answer = self.context.answers.start(f"Do the {skipped} skipped chains before {stitch} count?", customs)
        else:
            answer = "counts" if turning else "not"
        top = skipped if turning else min(HEIGHT.get(stitch, 3), skipped)
        over = 0 if answer != "counts" else (skipped - top + 1) // 2
        feet = ((0, self.own[-1], int(How.TOP)),)
        self._put_start(answer, top, over, stitch, made_by, feet, loop=skipped)
        self._along_own(kind, each, 1, step)

    def _turns_back(self, step: Make) -> bool:
        """Whether the place is on a chain made in the middle of this row (or out of the ring)."""
        run = self._chain_run()
        return step.at.what == "ch" and step.at.nth is not None and 1 < step.at.nth <= run and (run < len(self.basket) or self.offer.ring)

    def _chain_run(self) -> int:
        """Chains made last, one after another."""
        role = self.basket.role
        return len(role) - len(role.rstrip(bytes((Role.CHAIN,))))

    def _back_along(self, kind: str, each: int, step: Make) -> None:
        run, skipped = self._chain_run(), (step.at.nth or 1) - 1
        first, end = len(self.basket) - run, len(self.basket)
        self.basket.role[first:end] = bytes((Role.HANGING,)) * run
        self.own, self.back_from = list(range(first, end - skipped)), end
        self._along_own(kind, each, 1, step)

    def _bridged_here(self, places: int) -> bool:
        """Whether the row's own chain is meant by so many chains to come: "ch 3, skip 7, hdc in next 31, hdc in each of those 3 chains"
        goes round an opening and on over the chain that bridges it."""
        role = self.basket.role
        if self.own is not None or not self.context.in_round or self.offer.foundation or not self.offer.plain or self.pos < self.offer.n:
            return False
        if Role.STITCH not in role:
            return False  # "join in first underarm ch, ch 3, dc in each of next 3 ch": no opening has been gone round yet
        made = [i for i, one in enumerate(role) if one in _CHAINS]
        if len(made) != places or made[-1] - made[0] != places - 1:
            return False
        role[made[0] : made[-1] + 1] = bytes((Role.HANGING,)) * places
        self.own = made[::-1]
        return True

    def _leave_own(self) -> None:
        """A chain follows before all of this row's own chains are used: they are a loop with a knot on it, and no leaf."""
        if self.own and self.back_from:
            for at in self.own:
                self.basket.role[at] = Role.CHAIN
            self.basket.role[self.back_from :] = bytes((Role.HANGING,)) * (len(self.basket) - self.back_from)
        self.own, self.back_from = None if self.back_from else self.own, 0

    def _along_own(self, kind: str, each: int, places: int, step: Make) -> None:
        """`each` stitches in every one of the next `places` chains of the row's own; more than there are is asking too much."""
        assert self.own is not None
        for _ in range(places):
            if not self.own:
                self._overflow(1)
                continue
            at = self.own.pop()
            for _ in range(each):
                self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, ((0, at, int(How.TOP)),))
