"""One part worked row after row: sides, edges, offers, and what to do when words and count disagree."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..pattern import FLAT, Chain, Colour, Count, Refer, Ring, Step, Unread
from .assumed import as_stated, on_trust, stated_total
from .basket import Basket
from .counting import EMPTY, Comparison, chain_beside, count, held
from .fabric import Counted, Derived, How, Role, RowTrouble, RowWork, State, Stitches
from .figures import held_against
from .in_full import told_in_full
from .in_order import Shaped, founded, shape_row
from .in_pattern import told_as_pattern
from .markers import moved_up
from .needs import fits_any
from .offer import NOTHING, Offer
from .plan import Due, lay_out
from .recording import (
    NOT_BEGUN,
    RESTS_ON_PLACES,
    astray,
    basket_of,
    begins,
    count_trouble,
    counted_on_trust,
    excused,
    ghost_row,
    goes_on_after,
    gone_past,
    rows_in_turn,
    total_of,
)  # fmt: skip
from .row_again import key_of, remember, taken_over
from .standing import Outcome
from .supposing import Supposing
from .trying import DIFFERS, MISFIT, PARTLY

AHEAD = 3
"""Rows looked ahead at, to tell whether words or count were wrong."""


class PartWorker(Supposing):
    """Works one part under one set of answers."""

    def work(self, bound: float = math.inf) -> None:
        """Work every row of the part; no further where the penalty has come to `bound`, since it never grows less."""
        if self.due is None:
            self.due = self._due()
        due = self.laid_out = self.due[: self.limits.rows]
        if len(self.due) > self.limits.rows:
            self._stop(self.due[-1], f"More than {self.limits.rows:,} rows; those after them were not worked")
        for i, row in enumerate(due):
            if self.shared.made > self.limits.stitches and not self.stopped:
                self._stop(row, f"More than {self.limits.stitches:,} stitches; from here on nothing was worked")
                self.stopped = True
            if self.stopped or self.penalty >= bound:
                break
            ahead = due[i + 1 : i + 1 + AHEAD]
            self.at = i
            if row.until is not None:
                self._until(row, ahead)
            else:
                self._row(row, ahead)

    def _stop(self, due: Due, message: str) -> None:
        """A bound of the whole part was reached at this row."""
        self.penalty += MISFIT
        self.troubles.append(RowTrouble("limit", due.row.span, message))

    def _due(self) -> list[Due]:
        rows: list[Due] = []
        for due in lay_out(self.part, self.follow, self.size):
            rows.append(due)
            if len(rows) > self.limits.rows:
                break
        return rows

    def _row(self, due: Due, ahead: Sequence[Due]) -> None:
        self._goes_beyond(due)
        key = key_of(self, due) if self.rows or not self.untold else None
        if key is not None and taken_over(self, due, key):
            return
        named, asked = (self.state.below, self.state.carried, self.state.travel, self.state.opened.get(due.from_row)), due
        self.tried, self.chains_asked = [], False
        other = self.shared.nature(due.steps).side_again
        if other is not None:
            if (due.k and self.rows and self.rows[-1].written is (due.written or due.row)) or self._second_side(due, other):
                return
            due = replace(due, steps=(*due.steps, Unread(id=other.id, span=other.span)))
        shaped = shape_row(due.steps, self.shared.shaped)
        if self.state.below is None and not self.state.ring and not shaped.foundation:
            begun = founded(due.steps) or self._on_supposed_chain(due)
            if begun is not None:
                name = f"founded {self.untold}"
                shaped = shape_row(self.shared.spelled.setdefault((id(due.steps), -2, name), begun), self.shared.shaped)
        if shaped.foundation:
            self._foundation(due, shaped)
            nature = self.shared.nature(shaped.work)
            if not nature.works and not nature.unread:
                self._hand_on(shaped, due, None)
                return
        self._turn_before(due, shaped)
        work = self._work_of(due, shaped)
        if not self.shared.nature(work).works:
            self._nothing_worked(due, shaped, work)
            return
        offer = self._named_offer(due, work) or self._rest_offer(due, shaped) or self._offer(due)
        self.ahead = ahead
        outcome = self._best(due, work, offer, shaped)
        if self.numbered_back(due):
            key = None
            offer, outcome = self._other_version(due, work, shaped, offer, outcome)
        if self.state.assumed and (outcome.misfits >= MISFIT or any(c.differs for c in self._compare(due, outcome))):
            supposed = self._on_what_it_asks(due, work, shaped, outcome)
            if supposed is not None:
                key = None
                offer, outcome = supposed
        if outcome.misfits >= MISFIT and offer.foundation and due.row.made_in not in FLAT and offer.n <= 8:
            outcome = self._untold_ring(due, work, shaped, outcome)
        self._record(due, shaped, work, offer, outcome, ahead)
        if key is not None:
            remember(self, asked, key, named, shaped, work)

    def _record(self, due: Due, shaped: Shaped, work: tuple[Step, ...], offer: Offer, outcome: Outcome, ahead: Sequence[Due]) -> None:
        stated = self.stated_here(due, outcome.counted)
        comparison = self._compare(due, outcome, stated)
        differs = any(c.differs for c in comparison)
        if differs:
            comparison = tuple(chain_beside(c, outcome.stitches) for c in comparison)
            differs = any(c.differs for c in comparison)
            self.penalty += 0.0 if differs else PARTLY  # rather by a custom under which it needs no such reading
        sure = self.state.sure and not (outcome.unread or outcome.uncounted)
        troubles = [t for t in outcome.troubles if sure or t.kind not in RESTS_ON_PLACES] if outcome.troubles else []
        compared = held_against(comparison, outcome.stitches)
        state: State = "differs" if differs else "agrees" if compared else "uncompared" if stated else "unstated"
        if troubles:
            troubles = [t for t in troubles if not excused(t, due, bool(compared) and not differs)]
        unfit = not self._only_leaves_places(outcome) if outcome.misfits >= MISFIT else any(t.kind == NOT_BEGUN for t in troubles)
        worked = "unworkable" if unfit else "yes"
        stitches, total = outcome.stitches, outcome.counted.total
        assumed = False
        carries_stated = False
        if outcome.unread or outcome.uncounted:
            state, worked, stitches, total, assumed = self._assume(due, stated, outcome, offer)
        elif (self.state.assumed or due.from_row in self.wrong) and (
            outcome.misfits >= MISFIT or (differs and not told_in_full(due.steps))
        ):
            state, worked, assumed, troubles = "assumed", "assumed", True, []
            stitches, total = self._fabricated(due, stated, outcome, offer.back)
        elif differs:
            other = self._as_stated(comparison, outcome)
            if other is not None and self._later_rows_prefer(other, outcome, due, shaped, ahead):
                stitches, total, carries_stated = other, total_of(other), True
            troubles.append(count_trouble(due, comparison, outcome, carries_stated))
            self.penalty += DIFFERS
        if not assumed:
            self.penalty += outcome.misfits
            if outcome.misfits >= MISFIT:
                self.wrong.add(due.label)
        if due.wrong_reference is not None:
            troubles.append(astray(due.wrong_reference))
            self.penalty += MISFIT
        if outcome.stretched:
            troubles.append(
                RowTrouble("stretched", due.row.span, f"{due.from_row} was written for its own width; its plain run was taken to the end")
            )
        if outcome.partial:
            troubles.append(RowTrouble("part-of-repeat", due.row.span, "The row ends inside its repeat; taken as meant"))
        if outcome.chains_moved and self.rows and self.rows[-1].foundation:
            self._shorten_foundation(outcome.chains_moved)
        if supposed := self._supposed():
            message = f"Nobody tells how long the chain is; {self.untold} are supposed, on which the rows come out"
            troubles.append(RowTrouble("two-readings", due.row.span, message))
        readings = (*supposed, *(self.answers.sentence(q, a) for q, a in outcome.consulted.items()))
        marks: tuple[int, ...] = ()
        if stitches is outcome.stitches:
            marks = tuple(sorted({*moved_up(stitches, offer.back, self.state.marks), *outcome.placed}))
        counted = counted_on_trust(outcome, stitches, stated, self.size)
        self._append(
            due, shaped, stitches, outcome.offered, outcome.used, counted, stated, state, "partly" if outcome.unread else "whole",
            worked, outcome.derivation, tuple(troubles), readings, self._decided_by(outcome, compared),
            self._doubt(due, outcome, differs),
        )  # fmt: skip
        self.state.uncounted = outcome.uncounted and not outcome.unread and stated_total(stated, self.size) is None
        self.worked_from[self.rows[-1].index] = due
        if shaped.fastened and not goes_on_after(due):
            self.ended.add(self.rows[-1].index)
        self.state.sure = self._sure_of(due, state, outcome, carries_stated)
        if self.state.sure and state != "differs":
            self.right.add(due.label)
        self.state.total = total
        # A count that could not be compared is none to take the next row on trust by: else one wrong answer excuses every row after it.
        # Nor is a row told to go into whatever is there: it fits a row taken on trust however wide that was.
        trusting = self.state.assumed and state == "unstated" and fits_any(work)
        self.state.assumed = assumed or trusting or (outcome.misfits >= MISFIT and state not in ("agrees", "uncompared"))
        self._hand_on(shaped, due, stitches, marks)

    def _only_leaves_places(self, outcome: Outcome) -> bool:
        """Whether every step found its places for certain and some are left over: an error, and yet there is one fabric."""
        only = {t.kind for t in outcome.troubles} - {NOT_BEGUN} == {"too-few"}
        return only and bool(outcome.used) and self.state.sure and not outcome.loose

    def _append(
        self, due: Due, shaped: Shaped, stitches: Stitches, offered: int | None, used: int | None, counted: Counted,
        stated: tuple[Count, ...], state: State, read: str, worked: str, derivation: tuple[Derived, ...],
        troubles: tuple[RowTrouble, ...], readings: tuple[str, ...], decided_by: str | None = None,
        doubt: int = 0,
    ) -> None:  # fmt: skip
        now = self.state
        stitches = self._joined(stitches, shaped, due)
        self.rows.append(
            RowWork(
                label=due.label, number=due.number, written=due.written or due.row, index=self.first_index + len(self.rows),
                made_in=due.row.made_in,
                side=now.side, side_because=self._side_because(due), begins=begins(due, self.state.direction), turned=now.turned,
                direction=now.direction, stitches=stitches, offered=offered, used=used, counted=counted, stated=stated, state=state,
                decided_by=decided_by,  # type: ignore[arg-type]
                read=read, worked=worked, derivation=derivation, troubles=troubles, readings=readings, yarn=now.yarn,  # type: ignore[arg-type]
                below=now.below_index, doubt=doubt,
            )
        )  # fmt: skip

    def _doubt(self, due: Due, outcome: Outcome, differs: bool) -> int:
        """How doubtful an alarm about this row is."""
        doubt = 0 if self.state.sure else 1
        if due.follow is not None:
            doubt += 2  # the words were written for another piece: where they do not fit here, here is not sure to be wrong
        if outcome.loose and not (differs and self.state.sure):
            doubt += 1
        if not self.rows and self.state.below is not None:
            doubt += 1  # a part under its own heading, taken to stand on the part before it
        return doubt + 2 * any(t.kind == "repeat-takes-nothing" for t in outcome.troubles) if outcome.troubles else doubt

    def _sure_of(self, due: Due, state: State, outcome: Outcome, carries_stated: bool) -> bool:
        """Whether what this row offers to the next is known for certain."""
        if state == "agrees" or carries_stated:
            return True
        if state == "assumed":
            return stated_total(due.stated, self.size) is not None
        if state in ("differs", "unread") or outcome.misfits >= MISFIT or any(t.kind == NOT_BEGUN for t in outcome.troubles):
            return False
        return due.from_row in self.right if outcome.loose else self.state.sure

    def _joined(self, stitches: Stitches, shaped: Shaped, due: Due) -> Stitches:
        """The round's stitches with the slip stitch that closes it."""
        if shaped.joined is None or shaped.joined.no or shaped.joined.closing or due.row.made_in in FLAT or not len(stitches):
            return stitches
        key = (id(stitches), shaped.joined.id)
        known = self.shared.joined.get(key)
        if known is None:
            first = next((i for i, r in enumerate(stitches.role) if r in (Role.STITCH, Role.START_TOP)), 0)
            basket = basket_of(stitches)
            basket.put("sl st", Role.JOIN, shaped.joined.id, 0, len(basket.colours) - 1, ((0, first, int(How.TOP)),))
            known = self.shared.joined[key] = (stitches, self.shared.intern(basket.done()))
        return known[1]

    def _decided_by(self, outcome: Outcome, compared: bool) -> str | None:
        """What settled the readings of this row: custom, or where another answer was taken the count or the rows after it."""
        if not outcome.consulted:
            return None
        if not any(outcome.consulted.values()):
            return "custom"
        return "count" if compared else "next-row"

    def _side_because(self, due: Due) -> str:
        if due.row.side is not None:
            return "stated"
        if not any(not r.foundation for r in self.rows):
            return "assumed: the first row is a right-side row"
        return "turned" if self.state.turned else "not turned"

    def _hand_on(self, shaped: Shaped, due: Due, stitches: Stitches | None, marks: tuple[int, ...] = ()) -> None:
        """What this row leaves to the next."""
        state = self.state
        if stitches is not None:
            state.marks = marks
            state.below, state.below_index = self.rows[-1].stitches if self.rows else stitches, self.first_index + len(self.rows) - 1
            state.ring = state.foundation = state.far = False
            state.on = None
            if len(stitches.colours) > 1 and stitches.colour:
                state.yarn = stitches.colours[stitches.colour[-1]]
        state.turned = shaped.turns_last
        if not (shaped.carried is None and self._ends_as_before(due, shaped)):
            state.carried = shaped.carried
        state.travel = shaped.travel
        state.fastened = shaped.fastened and not goes_on_after(due)

    def _ends_as_before(self, due: Due, shaped: Shaped) -> bool:
        """Whether a row told only as "work 1 row even" goes over to the next as the row before went over to it."""
        return due.row.made_in == "rows" and not shaped.fastened and told_as_pattern(due.row)

    def _later_rows_prefer(self, other: Stitches, outcome: Outcome, due: Due, shaped: Shaped, ahead: Sequence[Due]) -> bool:
        """Whether the next rows fit the stated count better than the worked one."""
        worked, stated = self._probe(outcome.stitches, due, shaped, ahead), self._probe(other, due, shaped, ahead)
        return stated < worked

    def _probe(self, below: Stitches, due: Due, shaped: Shaped, ahead: Sequence[Due]) -> float:
        """The penalty of the next rows if `below` is what they are offered."""
        start = replace(self.state)
        ghost = PartWorker(self.pattern, self.part, self.size, self.limits, self.answers, self.shared, start, self.first_index, self)
        ghost.rows = list(self.rows)
        ghost.state.below, ghost.state.below_index = below, self.first_index + len(self.rows)
        ghost.state.foundation = ghost.state.ring = False
        ghost.state.total = total_of(below)
        ghost.state.turned, ghost.state.carried, ghost.state.fastened = shaped.turns_last, shaped.carried, shaped.fastened
        ghost.state.travel = shaped.travel
        ghost.rows.append(ghost_row(self.state, due, below, self.first_index + len(self.rows)))
        penalty = 0.0
        for later in ahead:
            if later.until is not None:
                break
            ahead_shaped = shape_row(later.steps, self.shared.shaped)
            if ahead_shaped.foundation:
                break
            ghost._turn_before(later, ahead_shaped)
            work = ghost._work_of(later, ahead_shaped)
            if not self.shared.nature(work).works:
                break
            result = ghost._best(later, work, ghost._offer(later), ahead_shaped)
            if result.unread or result.uncounted:
                break
            step = result.misfits + DIFFERS * any(c.differs for c in ghost._compare(later, result))
            penalty += step
            if step:
                break
            ghost.rows.append(ghost_row(ghost.state, later, result.stitches, ghost.first_index + len(ghost.rows)))
            ghost.state.total = result.counted.total
            ghost._hand_on(ahead_shaped, later, result.stitches)
        return penalty

    def _as_stated(self, comparison: Sequence[Comparison], outcome: Outcome) -> Stitches | None:
        other = as_stated(comparison, outcome.counted, outcome.stitches, self.state.total, self.limits.row_stitches)
        return None if other is None else self.shared.intern(other)

    def _fabricated(self, due: Due, stated: tuple[Count, ...], outcome: Outcome, back: int) -> tuple[Stitches, int]:
        """The stated stitches, taken on trust; without a stated number what was worked."""
        told = stated_total(stated, self.size)
        number = (told.number.at(self.size) or 0) if told is not None else 0
        if told is None or number > self.limits.row_stitches:
            return outcome.stitches, outcome.counted.total
        if outcome.counted.total == number:
            return outcome.stitches, number
        step = due.steps[0].id if due.steps else 0
        return self.shared.intern(on_trust(told, number, self.main, step, self.state.yarn, self.state.below, back)), number

    def _assume(self, due: Due, stated: tuple[Count, ...], outcome: Outcome, offer: Offer) -> tuple[State, str, Stitches, int, bool]:
        """A row not wholly read (or on places nobody counted) keeps its stated count as assumed; along an edge it is worked as told: "sc
        evenly along the edge (36 sc)" says what "36 sc evenly along the edge" says."""
        stitches, total = self._fabricated(due, stated, outcome, offer.back)
        told = any(not (c.change or c.per or c.running) for c in stated)
        if not len(stitches) and self.state.below is not None and not self.state.foundation:
            stitches = self.shared.as_below(self.state.below, offer.back)
            total = len(stitches)
        if outcome.unread:
            return ("assumed" if told else "unread"), "assumed", stitches, total, True
        state: State = "assumed" if told else "uncompared" if stated else "unstated"
        edge = self.state.below is not None and (self.state.uncounted or self._along_an_edge(due))
        yes = (edge or not (told or due.stated)) and not self._on_untold_chain(due)
        return state, "yes" if yes else "assumed", stitches, total, True

    def _nothing_worked(self, due: Due, shaped: Shaped, work: tuple[Step, ...]) -> None:
        """A row whose words ask for no stitch: unread words, a wrong reference, or only turning and fastening off."""
        unread = any(isinstance(s, Unread) for s in work)
        told = any(not (c.change or c.per or c.running) for c in due.stated)
        if due.wrong_reference is None and not unread and not told:
            self._hand_on(shaped, due, None)
            if due.number is None or due.row.made_in == "passes":
                return  # a way back, though it has a number of its own, is no row of the fabric
        troubles: list[RowTrouble] = []
        if due.wrong_reference is not None:
            troubles.append(astray(due.wrong_reference))
            self.penalty += MISFIT
        empty = Outcome(Basket(self.state.yarn).done(), None, None, 0.0, (), (), EMPTY, True, False, False, True, 0, {})
        state, _, stitches, total, _ = self._assume(due, due.stated, empty, NOTHING)
        counted = count(stitches, slip_stitches=True)
        self._append(
            due, shaped, stitches, None, None, counted, due.stated, state if (told or unread) else "unstated",
            "no" if unread else "whole", "assumed", (), tuple(troubles), (),
        )  # fmt: skip
        self.state.total, self.state.assumed, self.state.sure = total, True, told
        on_chain = self.state.foundation or self.state.ring
        beside_chain = on_chain and not len(stitches) and (due.number is None or bool(shaped.foundation))  # the next row stands on it still
        self._hand_on(shaped, due, None if beside_chain else stitches)

    def _foundation(self, due: Due, shaped: Shaped) -> None:
        """The chain or ring a piece begins with."""
        chains = 0
        ring = False
        step_id = 0
        troubles: list[RowTrouble] = []
        for step in shaped.foundation:
            step_id = step_id or step.id
            if isinstance(step, Colour):
                self.state.yarn = step.yarn
            if isinstance(step, Chain):
                self.state.base = step
                most = 2 * self.limits.row_stitches  # a row of the most stitches has its turning chain in the foundation as well
                told, room = step.number.at(self.size) or 0, most - chains
                if told > room:
                    troubles.append(RowTrouble("limit", step.span, f"This chain is longer than {most:,}; so many were made"))
                chains += min(told, room)
            elif isinstance(step, Ring):
                ring = True
                if step.chains is not None:
                    chains = chains or (step.chains.at(self.size) or 0)
        basket = Basket(self.state.yarn)
        basket.put_airy("ch", Role.FOUNDATION, step_id, 0, 0, chains)
        stitches = self.shared.intern(basket.done())
        first = not self.rows
        self.rows.append(
            RowWork(
                label="Foundation", number=None, written=due.written or due.row, index=self.first_index + len(self.rows),
                made_in=due.row.made_in,
                side="RS", side_because="assumed: the first row is a right-side row", begins="A", turned=False, direction=1,
                stitches=stitches, offered=None, used=None, counted=EMPTY if ring else Counted(total=0, by_kind={"ch": chains}, made={}),
                stated=(), state="unstated", read="whole", worked="yes", yarn=self.state.yarn, foundation=True, troubles=tuple(troubles),
            )
        )  # fmt: skip
        if first or self.state.fastened:
            self.state.direction, self.state.side = 1, "RS"
        self.state.below, self.state.below_index = stitches, self.first_index + len(self.rows) - 1
        self.state.ring, self.state.foundation, self.state.uncounted = ring, not ring, False
        self.parting = None
        self.state.total, self.state.sure = None, True
        self.state.assumed = self.state.fastened = self.state.turned = False
        self.state.carried, self.state.travel = None, ()

    def _shorten_foundation(self, moved: int) -> None:
        """The chains that the first row stood up are no longer in the foundation row."""
        row = self.rows[-1]
        self.rows[-1] = replace(row, stitches=self._chain_of(row, max(len(row.stitches) - moved, 0)))

    def _until(self, due: Due, ahead: Sequence[Due]) -> None:
        """Rows worked until so many stitches remain, or the piece measures so much."""
        until = due.until
        assert until is not None
        target = until.stitches.at(self.size) if until.stitches is not None else None
        rows = self._rows_for_length(due) if target is None else self.limits.rows
        done = 0
        before: int | None = None
        standing = 0
        cycle = rows_in_turn(due)
        while done < rows and not self.stopped:
            number = due.number + done if due.number is not None else None
            steps, wrong, meant = (due.follow or self.follow).steps(due.row, done)
            label = f"{due.label.split(' ')[0]} {number}" if number is not None else f"{due.label}"
            last = target is None and done == rows - 1
            one = replace(
                due, number=number, k=done, of=max(rows, 2), until=None, steps=steps, wrong_reference=wrong, from_row=meant,
                label=label, stated=due.stated if last else (),
            )  # fmt: skip
            self._row(one, ())
            done += 1
            if self.rows and (self.rows[-1].read != "whole" or self.rows[-1].worked == "unworkable"):
                break
            total = held(self.rows[-1].counted, self.rows[-1].stitches, until.what) if self.rows else 0
            standing = standing + 1 if total == before else 0
            if target is not None and (total == target or standing >= cycle or done > 2000):
                if total != target and self.rows:
                    self._never_reaches(target, total, due)
                break
            if target is not None and before is not None and gone_past(total - target, before - target):
                self._never_reaches(target, total, due)
                break
            if target is not None and before is not None and abs(total - target) > abs(before - target):
                self._never_reaches(target, total, due)  # each row is further from it
                break
            before = total

    def _never_reaches(self, target: int, total: int, due: Due) -> None:
        row = self.rows[-1]
        trouble = RowTrouble("until-not-reached", due.row.span, f"Worked on, the count comes to {total} and never to {target}")
        self.rows[-1] = replace(row, troubles=(*row.troubles, trouble))
        self.penalty += MISFIT

    def _rows_for_length(self, due: Due) -> int:
        until = due.until
        assert until is not None
        length = until.length_cm.at(self.size) if until.length_cm is not None else None
        height = next((g.height_cm for g in self.pattern.facts.gauge if g.height_cm), None)
        refer = next((s for s in due.row.steps if isinstance(s, Refer)), None)
        unit = max(1, refer.last or len(refer.rows)) if refer is not None and not due.row.numbers else 1
        if length is None or height is None:
            return max(unit, due.of)
        done = sum(1 for r in self.rows if not r.foundation)
        rows = max(1, min(self.limits.rows, round(length / height) - done))
        return -(-rows // unit) * unit  # rows repeated together end with the last of them


__all__ = ["PartWorker"]
