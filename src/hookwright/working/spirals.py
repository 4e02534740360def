"""Rounds that go on without a join: a slip stitch "in next sc" at a spiral's end lies in its own first stitch."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import Even, Make, Repeat, Step
from .fabric import How, Role
from .needs import asks_for_work, is_space
from .reaching import Reaching


class Spiralling(Reaching):
    """Ends rounds that no words join."""

    def _make(self, step: Make, tail: Sequence[Step]) -> str | None:
        if step.stitch == "sl st" and self._may_end(tail) and self._slips_on(step):
            return "closes the round"
        if step.places == "rest" and tail and self.context.spiral and _only_slips_on(tail):
            return super()._make(step, ())  # "sc in each sc around. Sl st in next sc.": all of them, and then the first again
        return super()._make(step, tail)

    def _repeat(self, step: Repeat, tail: Sequence[Step]) -> str | None:
        if step.times.kind == "rest" and not step.last and step.cut is None and self.context.spiral and _only_slips_on(tail):
            unit = self.needs.of(step.body).st
            if unit and self._remaining("st") % unit == 0:
                return super()._repeat(step, ())  # "repeat around, sl st in next 2": the units fill the round, the slip stitches go on
        return super()._repeat(step, tail)

    def _may_end(self, tail: Sequence[Step]) -> bool:
        """Whether this is the round's last work, outside a repeat, in a round that began with no counted chain."""
        if not self.context.in_round or self.inside is not None or not self.started or self.iteration or self.stood:
            return False
        return not asks_for_work(tail) and not asks_for_work(self.rest_of_row)

    def _slips_on(self, step: Make) -> bool:
        """Where the round has used all there is, the next stitch is its own first one."""
        if step.at.where != "next" or step.places == "rest" or self.pos < self.offer.n or not self.offer.n or is_space(step.at.what):
            return False
        first = next((i for i, r in enumerate(self.basket.role) if r in (Role.STITCH, Role.START_TOP)), 0)
        for _ in range(step.places.at(self.size) or 0):
            self.basket.put("sl st", Role.JOIN, step.id, self.iteration, self.yarn, ((0, first, int(How.TOP)),))
        return True


def _only_slips_on(tail: Sequence[Step]) -> bool:
    """Whether nothing but slip stitches into the next stitches follows."""
    work = [step for step in tail if asks_for_work((step,))]
    return bool(work) and all(isinstance(s, Make) and s.stitch == "sl st" and s.at.where == "next" and s.places != "rest" for s in work)


def without_last_slips(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps of one of several rounds told together, without the slip stitches by which the last of them ends."""
    end = len(steps)
    while end and (not asks_for_work(steps[end - 1 : end]) or _only_slips_on(steps[end - 1 : end])):
        end -= 1
    whole = end and any(isinstance(s, (Repeat, Even)) or (isinstance(s, Make) and s.places == "rest") for s in steps[:end])
    return tuple(s for k, s in enumerate(steps) if k < end or not asks_for_work((s,))) if whole else steps
