"""Stitches beyond the edge: a row that begins with more chains than it needs, and is worked along them first.

"Ch 9, dc in 4th ch from hook, dc in each of next 5 ch, dc in each st across": the skipped chains are the row's start, the others hang under
the new stitches and offer nothing more; no place of the row below is used.
"""

from __future__ import annotations

from ..pattern import Make
from .basket import Mark
from .custom import HEIGHT, skipped_customs
from .fabric import How, Role
from .starting import Starting

_CHAINS = frozenset((Role.START, Role.START_TOP, Role.CHAIN))


class Extending(Starting):
    """Works along the chain that this very row began with."""

    own: list[int] | None = None
    """Chains of this row still to be worked into, the next one last."""

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
