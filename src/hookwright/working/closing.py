"""Rounds closed by a stitch: "ch 2, dc in first sc" makes the last loop, and the next round begins in its middle.

The closing stitch lies along the loop: it is no stitch of the round's count, and with its chains it is one space. A round that begins in
that loop ("sc in loop just formed", "ch 3, 2 dc in same sp") meets it first; one that goes on to the next loop meets it last.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Aside, Chain, Colour, Join, Make, Repeat, Step, Together
from ..trade.kinds import HEIGHT
from .basket import Mark
from .context import Spot
from .fabric import How, Role
from .grouping import Grouping
from .needs import is_space


class Closing(Grouping):
    """Closes a round with steps instead of a slip stitch, and begins one in the loop so made."""

    def _close(self, steps: Sequence[Step]) -> None:
        """Work chains and a stitch into the round's own first stitch; a chain that the last repeat left hanging is this one."""
        role = self.basket.role
        first = next((i for i, r in enumerate(role) if r in (Role.STITCH, Role.START_TOP)), None)
        if any(isinstance(step, Chain) for step in steps):
            loose = len(role) - len(role.rstrip(bytes((Role.CHAIN,))))
            if loose and self.basket.repeat[-1]:
                self.basket.back_to(Mark(len(role) - loose, len(self.basket.foot_at), len(self.basket.groups)))
        for step in steps:
            if isinstance(step, Chain):
                self.basket.put_airy("ch", Role.CHAIN, step.id, 0, self.yarn, step.number.at(self.size) or 0)
            elif isinstance(step, Make) and first is not None:
                self.basket.put(self._kind(step), Role.HANGING, step.id, 0, self.yarn, ((0, first, int(How.TOP)),))

    def _begin_in_loop(self, steps: Sequence[Step]) -> None:
        """Meet the loop that closed the round below first, where the round's first stitch is told to go there."""
        offer = self.offer
        first = _first_work(steps)
        stands = first is not None and self._stands_in_it(steps, first)
        if not offer.closed or first is None or not (first.at.where in ("same", "first") or stands):
            return
        start = offer.n - 1
        while start > 0 and offer.space[start - 1] == offer.space[-1]:
            start -= 1
        if start <= 0:
            return
        self.offer = replace(offer, closed=False)
        self._begin_at(Spot(start, offer.n, How.SPACE))
        if stands:
            self.travelled = None

    def _stands_in_it(self, steps: Sequence[Step], first: Make | Together) -> bool:
        """ "Ch 10, dc in next loop, * ch 7, dc in next loop; repeat from *": the chain is a stitch in the loop where the hook is, and a
        loop that leads to the next."""
        begun: Step | None = next((step for step in steps if not isinstance(step, (Colour, Aside))), None)
        begun = begun.body[0] if isinstance(begun, Repeat) else begun
        to_loop = isinstance(first, Make) and first.at.where == "next" and is_space(first.at.what)
        height = HEIGHT.get(first.stitch, 0) if isinstance(first, Make) else 0
        last = next((step for step in reversed(steps) if not isinstance(step, Aside)), None)
        to_space = isinstance(last, Join) and last.to is not None and is_space(last.to.what)
        closes = isinstance(last, Join) and bool(last.closing) and not to_space  # "…, ch 3, tr in tr"
        long = isinstance(begun, Chain) and (begun.number.at(self.size) or 0) > height > 1
        return to_loop and (long or (closes and isinstance(begun, Chain)))

    def _finish(self) -> None:
        """Finish the round as another piece's was: its stitches from where this one stands, place for place."""
        model = self.context.model
        names = self.basket.names
        ends = self.basket.feet
        met = [self.met_piece and ends[i] == ends[i + 1] for i in range(len(self.basket))]  # stitches that meet the other piece
        told = zip(self.basket.kind, self.basket.role, met, strict=True)
        done = sum(1 for k, r, other in told if r in _COUNTED and names[k] != "sl st" and not other)
        if model is None:
            self.unread = True
            return
        made = [i for i, r in enumerate(model.role) if r in _COUNTED and model.name(i) != "sl st"]
        start = (made[done - 1] + 1) if 0 < done <= len(made) else 0 if not done else len(model)
        for i in range(start, len(model)):
            if model.role[i] == Role.JOIN:
                continue
            feet = tuple((back, at, int(how)) for back, at, how in model.feet_of(i) if back)
            self.basket.put(model.names[model.kind[i]], Role(model.role[i]), 0, self.iteration, self.yarn, feet)
        self.pos = self.offer.n


_COUNTED = frozenset((Role.STITCH, Role.START_TOP))


def _first_work(steps: Sequence[Step]) -> Make | Together | None:
    for step in steps:
        if isinstance(step, (Make, Together)):
            return step
        if isinstance(step, Repeat):
            return _first_work(step.body)
        if not isinstance(step, (Chain, Colour, Aside)):
            return None
    return None
