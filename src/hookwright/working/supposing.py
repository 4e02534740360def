"""What a row is offered where the row above it is not what it stands on, or is one that nobody could read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Chain, Count, Make, Repeat, Sized, Step, Together
from .assumed import on_trust, stated_total
from .basket import Basket
from .counting import count
from .dividing import Dividing
from .fabric import How, Role, RowWork, Stitches
from .in_full import told_in_full
from .in_order import Shaped
from .offer import RING, Offer
from .plan import Due
from .standing import Outcome
from .trying import DIFFERS, MISFIT

MOST_TURNED = 5
"""So many chains, at most, are missed to turn at a row's beginning (from memory)."""


class Supposing(Dividing):
    """Works rows on another offer than the row above, where that alone makes them fit."""

    def _goes_beyond(self, due: Due) -> None:
        """Stand a row that is told to go along the other side of the foundation chain upon it, however many rows have come between."""
        now = self.state
        if not self.rows or now.foundation or now.ring or now.far or not self.shared.nature(due.steps).from_beyond:
            return
        chains = [k for k, row in enumerate(self.rows[:-1]) if row.foundation and len(row.stitches)]
        if chains and int(How.RING) not in self.rows[chains[-1] + 1].stitches.foot_how:  # a ring filled as a whole has no free side
            chain, first = self.rows[chains[-1]], self.rows[chains[-1] + 1].stitches
            worked = [at for at, back in zip(first.foot_at, first.foot_back, strict=True) if back == 1]
            missed = len(chain.stitches) - 1 - max(worked, default=0)  # "miss 1, plain to the end": chains that only turned
            now.below = self._chain_of(chain, len(chain.stitches) - missed) if 0 < missed <= MOST_TURNED else chain.stitches
            now.below_index, now.foundation, now.far, now.uncounted = chain.index, True, True, False

    def _chain_of(self, row: RowWork, number: int) -> Stitches:
        """The first so many chains of a foundation row."""
        basket = Basket(row.yarn)
        basket.put_airy("ch", Role.FOUNDATION, row.stitches.step[0] if len(row.stitches) else 0, 0, 0, number)
        return self.shared.intern(basket.done())

    def numbered_back(self, due: Due) -> bool:
        """Whether the numbering steps back here: another version of the rows, worked on what came before the first."""
        if due.number is None or due.number < 2 or due.k:
            return False
        last = self.rows[-1].number if self.rows else None
        if last is None:
            last = next((r.number for r in reversed(self.rows) if r.number is not None), None)
        return last is not None and due.number <= last

    def _other_version(self, due: Due, work: tuple[Step, ...], shaped: Shaped, offer: Offer, outcome: Outcome) -> tuple[Offer, Outcome]:
        """Offer the row what its number follows on, where it fits that better than the row above it."""
        before = next((r for r in self.rows if r.number == (due.number or 0) - 1), None)
        if before is None:
            return offer, outcome
        state = self.state
        kept = replace(state)
        state.below, state.below_index, state.total = before.stitches, before.index, before.counted.total
        state.assumed = False
        other_offer = self._offer(due)
        other = self._best(due, work, other_offer, shaped)
        better = other.misfits + DIFFERS * any(c.differs for c in self._compare(due, other))
        as_it_stands = outcome.misfits + DIFFERS * any(c.differs for c in self._compare(due, outcome))
        if better < as_it_stands or (kept.assumed and better == 0):
            return other_offer, other
        self.state = kept
        return offer, outcome

    def _untold_ring(self, due: Due, work: tuple[Step, ...], shaped: Shaped, outcome: Outcome) -> Outcome:
        """A first round that asks for more than its few chains are goes into a ring that nobody told; the chain then begins the round."""
        chain = next((s for s in shaped.foundation if isinstance(s, Chain)), None)
        if chain is None:
            return outcome
        begun = self.shared.spelled.setdefault((id(work), -3, "ring"), (replace(chain, foundation=False), *work))
        other = self._try(begun, RING, due)
        return replace(other, chains_moved=len(self.rows[-1].stitches)) if other.misfits < MISFIT else outcome

    def _on_what_it_asks(self, due: Due, work: tuple[Step, ...], shaped: Shaped, outcome: Outcome) -> tuple[Offer, Outcome] | None:
        """The row worked on as many places as it asks for itself, in the place of a row below that nobody could read.

        None where the row below was read or tells its count, and where no number makes this row both fit and come to its own count.
        """
        below = self._below_unread()
        if below is None or outcome.unread or outcome.uncounted:
            return None
        kept = replace(self.state)
        for number in self._numbers_asked(due, outcome):
            if not 0 < number <= self.limits.row_stitches:
                continue
            stitches = self.shared.intern(self._so_many(below, number))
            self.state = replace(kept, below=stitches)
            offer = self._offer(due)
            other = self._best(due, work, offer, shaped)
            if other.misfits < MISFIT and not other.stretched and not any(c.differs for c in self._compare(due, other)):
                self.rows[-1] = replace(below, stitches=stitches, counted=count(stitches, slip_stitches=True))
                return offer, other
        self.state = kept
        return None

    def _below_unread(self) -> RowWork | None:
        """The row below, where it was not read whole and tells no count."""
        state = self.state
        if not self.rows or state.below is None or state.ring or state.foundation:
            return None
        row = self.rows[-1]
        unknown = row.read != "whole" and row.worked == "assumed" and row.index == state.below_index
        return row if unknown and stated_total(row.stated, self.size) is None else None

    def _numbers_asked(self, due: Due, outcome: Outcome) -> tuple[int, ...]:
        """How many places the row may stand on, the likeliest first: what it uses where all is told, else what comes to its count."""
        if told_in_full(due.steps) and outcome.used:
            return (outcome.used,)
        told = stated_total(self.stated_here(due, outcome.counted), self.size)
        total = (told.number.at(self.size) or 0) if told is not None else 0
        made, used = outcome.counted.total, outcome.used or 0
        if not total or not made or not used:
            return (total,)
        return tuple(dict.fromkeys((total, total + used - made, total * used // made)))

    def _so_many(self, below: RowWork, number: int) -> Stitches:
        """That many stitches of the kind that the row below was seen to begin with."""
        kind = next((below.stitches.name(i) for i in below.stitches.counted()), self.main)
        told = Count(kind=kind, number=Sized.of(number))
        step = below.written.steps[0].id if below.written.steps else 0
        return on_trust(told, number, self.main, step, self.state.yarn, None, 0)

    untold = 0
    """How many chains are supposed where nobody tells how long the beginning chain is; 0 where nothing is supposed."""

    def stands_on_untold_chain(self) -> bool:
        """Whether the piece begins on a chain of no told length, and its rows have units to come out on it."""
        first = next((due for due in self.due or () if any(isinstance(one, (Make, Together, Repeat)) for one in due.steps)), None)
        if first is None or any(row.foundation for row in self.rows) or not self.rows or self.rows[0].worked == "unworkable":
            return False
        units = any(isinstance(one, Repeat) and one.times.kind == "rest" for due in self.due or () for one in due.steps)
        return units and _on_chain(first.steps) and not first.row.stated

    def _on_supposed_chain(self, due: Due) -> tuple[Step, ...] | None:
        """The steps of the piece's first row with the chain that is supposed under it; None for other rows."""
        if not self.untold or self.rows or not _on_chain(due.steps):
            return None
        return (Chain(span=due.steps[0].span, number=Sized.of(self.untold), foundation=True), *due.steps)

    def _supposed(self) -> tuple[str, ...]:
        """What is told beside the piece's first row of the chain supposed under it."""
        first = self.untold > 0 and all(row.foundation for row in self.rows)
        return (f"{UNTOLD_CHAIN} {supposed_chain(self.untold)} (nobody tells).",) if first else ()

    def _on_untold_chain(self, due: Due) -> bool:
        """ "Make a chain 40 inches long, sc in each ch": so many chains as make up a length are counted by nobody."""
        if self.state.uncounted and self.rows:
            return self.rows[-1].worked == "assumed"
        return self.state.below is None and not self.state.ring and _on_chain(due.steps)


UNTOLD_CHAIN = "How many chains does the piece begin with?"


def supposed_chain(number: int) -> str:
    """The answer to `UNTOLD_CHAIN`."""
    return f"{number}, on which the rows come out, as they do on others"


def _on_chain(steps: Sequence[Step]) -> bool:
    """Whether a row's first stitch goes into a chain, and the row into every one; a unit ("multiple of 4") is worked as told."""
    made = [step for step in steps if isinstance(step, (Make, Together, Repeat))]
    plain = [step for step in made if isinstance(step, Make) and (step.at.where == "from_hook" or step.at.what == "ch")]
    return bool(made) and plain == made and any(step.places == "rest" for step in plain)
