"""One part worked row after row: sides, edges, offers, and what to do when words and count disagree."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from ..pattern import NOWHERE, Chain, Count, Limits, Make, Part, Pattern, Repeat, Ring, Shape, Step, Together, Unread
from ..trade.kinds import base
from .assumed import as_below, as_stated, on_trust, stated_total
from .basket import Basket
from .context import Context, TooMuch
from .counting import EMPTY, Comparison, compare, count
from .custom import NO_YES, Answers
from .fabric import Begins, Counted, Derived, How, Role, RowTrouble, RowWork, State, Stitches
from .hand import Hand
from .needs import asks_for_work, first_stitch
from .offer import NOTHING, RING, Offer, offer_of
from .plan import Due, Follow, Shaped, joins_on, lay_out, row_named, shape_row, stretchable, stretched, with_carried
from .shapings import spell_out
from .standing import Outcome, Shared, Standing

MISFIT, DIFFERS, OFF_CUSTOM, PARTLY = 10.0, 6.0, 0.4, 1.0
"""Weights by which readings are ranked: a row that does not fit what it is offered is worse than a stated count that differs."""

SLIP_STITCHES = "Do slip stitches inside a row count as stitches?"
CHAINS_IN_TOTAL = "Do the stated totals count chains?"


class PartWorker:
    """Works one part under one set of answers."""

    def __init__(
        self, pattern: Pattern, part: Part, size: int, limits: Limits, answers: Answers, shared: Shared, start: Standing, rows_before: int
    ) -> None:
        self.pattern, self.part, self.size, self.limits = pattern, part, size, limits
        self.answers, self.shared = answers, shared
        self.state = start
        self.first_index = rows_before
        self.rows: list[RowWork] = []
        self.penalty = 0.0
        self.follow = Follow(part, pattern.parts, size)
        self.main = main_stitch(part)
        self.turning: Mapping[tuple[str, int], bool] = {
            (base(kind), t.chains): t.counts for kind, t in pattern.facts.turning_chains.items()
        }  # fmt: skip
        self.stopped = False

    def work(self) -> None:
        """Work every row of the part."""
        due = list(self._due())
        skip = 0
        for i, row in enumerate(due):
            if skip or self.stopped:
                skip = max(0, skip - 1)
                continue
            if row.until is not None:
                self._until(row, due[i + 1 :])
            else:
                self._row(row, due[i + 1 :])

    def _due(self) -> Sequence[Due]:
        rows: list[Due] = []
        for due in lay_out(self.part, self.follow, self.size):
            rows.append(due)
            if len(rows) > self.limits.rows:
                self.penalty += MISFIT
                break
        return rows

    # --- a single row ---------------------------------------------------------------------------------------------------------

    def _row(self, due: Due, ahead: Sequence[Due]) -> None:
        shaped = shape_row(due.steps, self.shared.shaped)
        if shaped.foundation:
            self._foundation(due, shaped)
            if not asks_for_work(shaped.work) and not any(isinstance(s, Unread) for s in shaped.work):
                self._hand_on(shaped, due, None)
                return
        self._turn_before(due, shaped)
        work = self._work_of(due, shaped)
        if not asks_for_work(work):
            self._nothing_worked(due, shaped, work)
            return
        offer = self._named_offer(due, work) or self._offer(due)
        outcome = self._best(due, work, offer, shaped)
        self._record(due, shaped, work, offer, outcome, ahead)

    def _work_of(self, due: Due, shaped: Shaped) -> tuple[Step, ...]:
        work = with_carried(shaped.work, self.state.carried, self.shared.carried)
        without = joins_on(shaped.work)
        if without is not None:
            work = self.shared.spelled.setdefault((id(work), -1, "joins on"), without)
        if any(isinstance(s, Shape) for s in work):
            every = max((s.every for s in work if isinstance(s, Shape)), default=1)
            key = (id(work), due.k % every if every > 1 else 0, self.main)
            if key not in self.shared.spelled:
                self.shared.spelled[key] = spell_out(work, due.k, self.size, self.main)
            work = self.shared.spelled[key]
        return work

    def _turn_before(self, due: Due, shaped: Shaped) -> None:
        """Turn the work before this row: told here, told at the end of the row before, or understood in flat work."""
        state = self.state
        flat = due.row.made_in == "rows"
        first = state.below is None or state.foundation or state.ring
        turned = state.turned or shaped.turns_first
        if flat and not first and not turned and not shaped.says_no_turn and not state.fastened:
            turned = True
        if due.row.made_in == "joined-turned" and not first and not shaped.says_no_turn:
            turned = True
        if first:
            turned = False
        if turned:
            state.direction = -state.direction
            state.side = "WS" if state.side == "RS" else "RS"
        if due.row.side is not None:
            state.side = due.row.side
        state.turned = turned
        state.around = due.row.made_in != "rows"

    def _offer(self, due: Due) -> Offer:
        state = self.state
        if state.ring:
            return RING
        if state.below is None:
            return NOTHING
        index = self.first_index + len(self.rows)
        back = index - state.below_index if state.below_index is not None else 1
        around = state.around and not state.foundation
        return offer_of(state.below, turned=state.turned or state.foundation, around=around, back=back, foundation=state.foundation)

    def _named_offer(self, due: Due, work: tuple[Step, ...]) -> Offer | None:
        """The offer of a row named outright: what later rows left unworked of it, or all of it where only its strands are meant."""
        name = row_named(work)
        number = next((int(w) for w in (name or "").replace(".", " ").split() if w.isdigit()), None)
        row = next((r for r in reversed(self.rows) if number is not None and r.number == number), None)
        if row is None:
            return None
        if due.row.side is not None and due.row.made_in == "rows":
            same = next((r for r in self.rows if not r.foundation and r.side == due.row.side), None)
            self.state.direction = same.direction if same is not None else self.state.direction
        index = self.first_index + len(self.rows)
        turned = row.direction != self.state.direction and due.row.made_in == "rows"
        offer = offer_of(row.stitches, turned=turned, around=due.row.made_in != "rows", back=index - row.index, foundation=row.foundation)
        return offer if _strands_only(work) else _unworked(offer, self._used_of(row))

    def _used_of(self, row: RowWork) -> set[int]:
        """The elements of `row` that later rows stand on."""
        used: set[int] = set()
        for later in self.rows:
            back = later.index - row.index
            if back > 0:
                feet = zip(later.stitches.foot_back, later.stitches.foot_at, strict=True)
                used.update(at for b, at in feet if b == back and at >= 0)
        return used

    def _context(self, due: Due) -> Context:
        return Context(
            size=self.size, limits=self.limits, answers=self.answers, main=self._main_here(due), deeper=self._deeper(),
            turning=dict(self.turning), in_round=due.row.made_in != "rows",
        )  # fmt: skip

    def _main_here(self, due: Due) -> str:
        below = self.state.below
        if below is not None and not self.state.foundation and self.main == "":
            names = [base(n) for n in below.names if n not in ("ch", "sl st")]
            return names[0] if names else "sc"
        return self.main or "sc"

    def _deeper(self) -> tuple[Offer, ...]:
        """The rows under the row below, nearest first, in this row's order."""
        state = self.state
        offers = []
        index = self.first_index + len(self.rows)
        for row in self.rows[-2:-5:-1]:
            turned = row.direction != state.direction
            around = row.made_in != "rows"
            offers.append(offer_of(row.stitches, turned=turned, around=around, back=index - row.index, foundation=row.foundation))
        return tuple(offers)

    # --- working it -----------------------------------------------------------------------------------------------------------

    def _try(self, work: tuple[Step, ...], offer: Offer, due: Due) -> Outcome:
        """Work the steps on the offer, or take the same work from the cache."""
        deep = any(_looks_deeper(s) for s in work)
        around = due.row.made_in != "rows"
        key: tuple[object, ...] = (
            id(work), id(offer.stitches), offer.reverse, offer.back, offer.ring, offer.foundation, around, self.state.yarn,
            tuple(id(r.stitches) for r in self.rows[-4:]) if deep else (), offer.n,
        )  # fmt: skip
        for known in self.shared.rows.get(key, ()):
            if all(self.answers.given.get(q, 0) == a for q, a in known.consulted.items()):
                self.answers.consulted.update(known.consulted)
                return known
        outcome = self._hand(work, offer, due)
        outcome.keep = (work, offer.stitches, [r.stitches for r in self.rows[-4:]] if deep else None)
        self.shared.rows.setdefault(key, []).append(outcome)
        return outcome

    def _hand(self, work: tuple[Step, ...], offer: Offer, due: Due) -> Outcome:
        self.answers.consulted = {}
        hand = Hand(offer, self._context(due), self.state.yarn)
        troubles: list[RowTrouble] = []
        span = due.row.span
        try:
            hand.work(work)
        except TooMuch:
            troubles.append(RowTrouble("limit", span, f"This row holds more than {self.limits.row_stitches:,} stitches; it was not worked"))
            hand.unread = True
        except RecursionError:
            troubles.append(RowTrouble("limit", span, "This row is nested too deeply to be worked"))
            hand.unread = True
        stitches = self.shared.intern(hand.basket.done())
        self.shared.made += len(stitches)
        counts_slips = self._slip_stitches_count(stitches)
        counted = count(stitches, slip_stitches=counts_slips)
        misfits, found = self._fit(hand, work, due)
        offered = None if offer.n == 0 else offer.n + hand.extra_offered
        used = None if offered is None else min(offered, offered - hand.leftover()) + hand.missing
        return Outcome(
            stitches, offered, used, misfits, (*troubles, *hand.troubles, *found), tuple(hand.derivation), counted, hand.unread,
            hand.uncounted, hand.partial, hand.chains_moved, dict(self.answers.consulted),
        )  # fmt: skip

    def _slip_stitches_count(self, stitches: Stitches) -> bool:
        if "sl st" not in stitches.names:
            return False
        code = stitches.names.index("sl st")
        slips = sum(1 for k, r in zip(stitches.kind, stitches.role, strict=True) if k == code and r == Role.STITCH)
        others = sum(1 for r in stitches.role if r in (Role.STITCH, Role.START_TOP)) - slips
        if not others:
            return True
        return bool(slips) and self.answers.pick(SLIP_STITCHES, NO_YES) == 1

    def _fit(self, hand: Hand, work: tuple[Step, ...], due: Due) -> tuple[float, list[RowTrouble]]:
        """How far the row is from using exactly what it was offered, and the troubles that say so."""
        left = hand.leftover()
        offered = hand.offer.n + hand.extra_offered
        if hand.unread or (not left and not hand.missing):
            return (PARTLY if hand.partial else 0.0), []
        span = hand.repeats[2] if hand.repeats else due.row.span
        steps = [f"{d.took} places: {d.made} made" + (f" ({d.note})" if d.note else "") for d in hand.derivation]
        if hand.missing:
            kind = "repeat-does-not-fit" if hand.repeats and hand.repeats[0] > 1 else "too-many"
            need = offered + hand.missing
            working = (*steps, f"asked for {need}, offered {offered}: {hand.missing} too many")
            return MISFIT, [
                RowTrouble(kind, span, f"This row needs {need} stitches to work into, but only {offered} are there", working,
                           {"offered": offered, "needed": need, "missing": hand.missing})
            ]  # fmt: skip
        working = (*steps, f"used {offered - left} of {offered}: {left} left over")
        data: dict[str, object] = {"offered": offered, "used": offered - left, "left": left}
        if hand.repeats and hand.repeats[0] > 1:
            unit, times, span = hand.repeats
            data |= {"unit": unit, "times": times}
            message = f"The repeat takes {unit} stitches and goes {times} times; {left} of the {offered} stitches are left over"
            return MISFIT, [RowTrouble("repeat-does-not-fit", span, message, working, data)]
        return MISFIT, [RowTrouble("too-few", span, f"{left} of the {offered} stitches below are left unworked", working, data)]

    def _best(self, due: Due, work: tuple[Step, ...], offer: Offer, shaped: Shaped) -> Outcome:
        """The row's outcome; a repeated shaping row written for its own width is stretched where only that closes it."""
        outcome = self._try(work, offer, due)
        if outcome.misfits >= MISFIT and due.from_row and offer.n:
            run = stretchable(work)
            if run is not None:
                longer = stretched(work, run[0])
                key = (id(work), run[0], "stretched")
                longer = self.shared.spelled.setdefault(key, longer)
                other = self._try(longer, offer, due)
                if other.misfits < MISFIT and not any(c.differs for c in self._compare(due, other)):
                    return replace(other, stretched=True, misfits=other.misfits + PARTLY)
        return outcome

    # --- recording --------------------------------------------------------------------------------------------------------------

    def _stated_here(self, due: Due, counted: Counted) -> tuple[Count, ...]:
        """The counts that hold for this very row of a range: on its last row all; earlier only where the range keeps its count."""
        if due.of == 1 or due.k == due.of - 1:
            return due.stated
        if any(c.change for c in due.stated):
            return due.stated
        return due.stated if self.state.total is not None and counted.total == self.state.total and not due.from_row else ()

    def _compare(self, due: Due, outcome: Outcome, stated: tuple[Count, ...] | None = None) -> tuple[Comparison, ...]:
        stated = self._stated_here(due, outcome.counted) if stated is None else stated
        if not stated or outcome.uncounted:
            return ()
        plain = compare(outcome.counted, stated, self.size, before=self.state.total, chains_count=False)
        unlike = outcome.counted.by_kind.get("ch") and any(c.differs and c.count.kind == "st" for c in plain)
        if unlike and self.answers.pick(CHAINS_IN_TOTAL, NO_YES) == 1:
            return compare(outcome.counted, stated, self.size, before=self.state.total, chains_count=True)
        return plain

    def _record(self, due: Due, shaped: Shaped, work: tuple[Step, ...], offer: Offer, outcome: Outcome, ahead: Sequence[Due]) -> None:
        stated = self._stated_here(due, outcome.counted)
        comparison = self._compare(due, outcome, stated)
        differs = any(c.differs for c in comparison)
        troubles = list(outcome.troubles)
        whole = not outcome.unread
        state: State = "unstated" if not comparison else "differs" if differs else "agrees"
        worked = "unworkable" if outcome.misfits >= MISFIT else "yes"
        stitches, total = outcome.stitches, outcome.counted.total
        assumed = False
        carries_stated = False
        if outcome.unread or outcome.uncounted:
            state, worked, stitches, total, assumed = self._assume(due, stated, outcome, offer)
        elif self.state.assumed and (differs or outcome.misfits >= MISFIT):
            state, worked, assumed, troubles = "assumed", "assumed", True, []
            stitches, total = self._fabricated(due, stated, outcome)
        elif differs:
            other = self._as_stated(comparison, outcome)
            if other is not None and self._later_rows_prefer(other, outcome, due, shaped, ahead):
                stitches, total, carries_stated = other, _total(other), True
            troubles.append(_count_trouble(due, comparison, outcome, carries_stated))
            self.penalty += DIFFERS
        if not assumed:
            self.penalty += outcome.misfits
        if due.wrong_reference is not None:
            troubles.append(RowTrouble("reference-wrong", due.wrong_reference[0], due.wrong_reference[1]))
            self.penalty += MISFIT
        if outcome.stretched:
            troubles.append(
                RowTrouble("stretched", due.row.span, f"{due.from_row} was written for its own width; its plain run was taken to the end")
            )
        if outcome.partial:
            troubles.append(RowTrouble("part-of-repeat", due.row.span, "The row ends inside its repeat; taken as meant"))
        if outcome.chains_moved and self.rows and self.rows[-1].foundation:
            self._shorten_foundation(outcome.chains_moved)
        readings = tuple(self.answers.sentence(q, a) for q, a in outcome.consulted.items())
        self._append(
            due, shaped, stitches, outcome.offered, outcome.used, outcome.counted, stated, state, "whole" if whole else "partly",
            worked, outcome.derivation, tuple(troubles), readings,
        )  # fmt: skip
        self.state.total = total
        self.state.assumed = assumed
        self._hand_on(shaped, due, stitches)

    def _append(
        self, due: Due, shaped: Shaped, stitches: Stitches, offered: int | None, used: int | None, counted: Counted,
        stated: tuple[Count, ...], state: State, read: str, worked: str, derivation: tuple[Derived, ...],
        troubles: tuple[RowTrouble, ...], readings: tuple[str, ...],
    ) -> None:  # fmt: skip
        now = self.state
        stitches = self._joined(stitches, shaped, due)
        self.rows.append(
            RowWork(
                label=due.label, number=due.number, written=due.row, index=self.first_index + len(self.rows), made_in=due.row.made_in,
                side=now.side, side_because=self._side_because(due), begins=self._begins(due), turned=now.turned,
                direction=now.direction, stitches=stitches, offered=offered, used=used, counted=counted, stated=stated, state=state,
                read=read, worked=worked, derivation=derivation, troubles=troubles, readings=readings, yarn=now.yarn,  # type: ignore[arg-type]
                below=now.below_index,
            )
        )  # fmt: skip

    def _joined(self, stitches: Stitches, shaped: Shaped, due: Due) -> Stitches:
        """The round's stitches with the slip stitch that closes it."""
        if shaped.joined is None or shaped.joined.no or shaped.joined.closing or due.row.made_in == "rows" or not len(stitches):
            return stitches
        first = next((i for i, r in enumerate(stitches.role) if r in (Role.STITCH, Role.START_TOP)), 0)
        basket = _basket_of(stitches)
        basket.put("sl st", Role.JOIN, shaped.joined.id, 0, len(basket.colours) - 1, ((0, first, int(How.TOP)),))
        return self.shared.intern(basket.done())

    def _begins(self, due: Due) -> Begins:
        if due.row.made_in == "spiral":
            return "spiral"
        if due.row.made_in in ("joined", "joined-turned"):
            return "join"
        return "A" if self.state.direction > 0 else "B"

    def _side_because(self, due: Due) -> str:
        if due.row.side is not None:
            return "stated"
        if not any(not r.foundation for r in self.rows):
            return "assumed: the first row is a right-side row"
        return "turned" if self.state.turned else "not turned"

    def _hand_on(self, shaped: Shaped, due: Due, stitches: Stitches | None) -> None:
        """What this row leaves to the next."""
        state = self.state
        if stitches is not None:
            state.below, state.below_index = self.rows[-1].stitches if self.rows else stitches, self.first_index + len(self.rows) - 1
            state.ring = state.foundation = False
            if len(stitches.colours) > 1 and stitches.colour:
                state.yarn = stitches.colours[stitches.colour[-1]]
        state.turned = shaped.turns_last
        state.carried = shaped.carried
        state.fastened = shaped.fastened

    # --- when words and count disagree ----------------------------------------------------------------------------------------------

    def _later_rows_prefer(self, other: Stitches, outcome: Outcome, due: Due, shaped: Shaped, ahead: Sequence[Due]) -> bool:
        """Whether the next rows fit the stated count better than the worked one."""
        worked, stated = self._probe(outcome.stitches, due, shaped, ahead), self._probe(other, due, shaped, ahead)
        return stated < worked

    def _probe(self, below: Stitches, due: Due, shaped: Shaped, ahead: Sequence[Due], rows: int = 3) -> float:
        """The penalty of the next rows if `below` is what they are offered."""
        ghost = PartWorker(
            self.pattern, self.part, self.size, self.limits, self.answers, self.shared, replace(self.state), self.first_index
        )
        ghost.rows = list(self.rows)
        ghost.follow = self.follow
        ghost.main = self.main
        ghost.state.below, ghost.state.below_index = below, self.first_index + len(self.rows)
        ghost.state.foundation = ghost.state.ring = False
        ghost.state.total = _total(below)
        ghost.state.turned, ghost.state.carried, ghost.state.fastened = shaped.turns_last, shaped.carried, shaped.fastened
        ghost.rows.append(_ghost_row(self, due, below))
        penalty = 0.0
        for later in ahead[:rows]:
            if later.until is not None:
                break
            ahead_shaped = shape_row(later.steps, self.shared.shaped)
            if ahead_shaped.foundation:
                break
            ghost._turn_before(later, ahead_shaped)
            work = ghost._work_of(later, ahead_shaped)
            if not asks_for_work(work):
                break
            result = ghost._best(later, work, ghost._offer(later), ahead_shaped)
            if result.unread or result.uncounted:
                break
            step = result.misfits + DIFFERS * any(c.differs for c in ghost._compare(later, result))
            penalty += step
            if step:
                break
            ghost.rows.append(_ghost_row(ghost, later, result.stitches))
            ghost.state.total = result.counted.total
            ghost._hand_on(ahead_shaped, later, result.stitches)
        return penalty

    def _as_stated(self, comparison: Sequence[Comparison], outcome: Outcome) -> Stitches | None:
        other = as_stated(comparison, outcome.counted, outcome.stitches, self.state.total, self.limits.row_stitches)
        return None if other is None else self.shared.intern(other)

    def _fabricated(self, due: Due, stated: tuple[Count, ...], outcome: Outcome) -> tuple[Stitches, int]:
        """The stated stitches, taken on trust; without a stated number what was worked."""
        told = stated_total(stated, self.size)
        number = (told.number.at(self.size) or 0) if told is not None else 0
        if told is None or number > self.limits.row_stitches:
            return outcome.stitches, outcome.counted.total
        if outcome.counted.total == number:
            return outcome.stitches, number
        step = due.steps[0].id if due.steps else 0
        return self.shared.intern(on_trust(told, number, self.main, step, self.state.yarn, self.state.below)), number

    def _assume(self, due: Due, stated: tuple[Count, ...], outcome: Outcome, offer: Offer) -> tuple[State, str, Stitches, int, bool]:
        """A row not wholly read (or on places nobody counted) keeps its stated count as assumed."""
        stitches, total = self._fabricated(due, stated, outcome)
        told = any(not (c.change or c.per or c.running) for c in stated)
        if not len(stitches) and self.state.below is not None and not self.state.foundation:
            stitches = self.shared.intern(as_below(self.state.below))
            total = len(stitches)
        if outcome.unread:
            return ("assumed" if told else "unread"), "assumed", stitches, total, True
        return ("assumed" if told else "unstated"), "assumed" if told or due.stated else "yes", stitches, total, True

    # --- rows without stitches, foundations, open-ended runs ------------------------------------------------------------------------

    def _nothing_worked(self, due: Due, shaped: Shaped, work: tuple[Step, ...]) -> None:
        """A row whose words ask for no stitch: unread words, a wrong reference, or only turning and fastening off."""
        unread = any(isinstance(s, Unread) for s in work)
        told = any(not (c.change or c.per or c.running) for c in due.stated)
        if due.wrong_reference is None and not unread and not told:
            self._hand_on(shaped, due, None)
            if due.number is None:
                return
        troubles: list[RowTrouble] = []
        if due.wrong_reference is not None:
            troubles.append(RowTrouble("reference-wrong", due.wrong_reference[0], due.wrong_reference[1]))
            self.penalty += MISFIT
        empty = Outcome(Basket(self.state.yarn).done(), None, None, 0.0, (), (), EMPTY, True, False, False, 0, {})
        state, _, stitches, total, _ = self._assume(due, due.stated, empty, NOTHING)
        counted = count(stitches, slip_stitches=True)
        self._append(
            due, shaped, stitches, None, None, counted, due.stated, state if (told or unread) else "unstated",
            "no" if unread else "whole", "assumed", (), tuple(troubles), (),
        )  # fmt: skip
        self.state.total, self.state.assumed = total, True
        self._hand_on(shaped, due, stitches)

    def _foundation(self, due: Due, shaped: Shaped) -> None:
        """The chain or ring a piece begins with."""
        chains = 0
        ring = False
        step_id = 0
        for step in shaped.foundation:
            step_id = step_id or step.id
            if isinstance(step, Chain):
                chains += min(step.number.at(self.size) or 0, self.limits.row_stitches - chains)
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
                label="Foundation", number=None, written=due.row, index=self.first_index + len(self.rows), made_in=due.row.made_in,
                side="RS", side_because="assumed: the first row is a right-side row", begins="A", turned=False, direction=1,
                stitches=stitches, offered=None, used=None, counted=EMPTY if ring else Counted(total=0, by_kind={"ch": chains}, made={}),
                stated=(), state="unstated", read="whole", worked="yes", yarn=self.state.yarn, foundation=True,
            )
        )  # fmt: skip
        if first or self.state.fastened:
            self.state.direction, self.state.side = 1, "RS"
        self.state.below, self.state.below_index = stitches, self.first_index + len(self.rows) - 1
        self.state.ring, self.state.foundation = ring, not ring
        self.state.total = None
        self.state.assumed = self.state.fastened = self.state.turned = False
        self.state.carried = None

    def _shorten_foundation(self, moved: int) -> None:
        """The chains that the first row stood up are no longer in the foundation row."""
        row = self.rows[-1]
        n = max(len(row.stitches) - moved, 0)
        basket = Basket(row.yarn)
        basket.put_airy("ch", Role.FOUNDATION, row.stitches.step[0] if len(row.stitches) else 0, 0, 0, n)
        self.rows[-1] = replace(row, stitches=self.shared.intern(basket.done()))

    def _until(self, due: Due, ahead: Sequence[Due]) -> None:
        """Rows worked until so many stitches remain, or the piece measures so much."""
        until = due.until
        assert until is not None
        target = until.stitches.at(self.size) if until.stitches is not None else None
        rows = self._rows_for_length(due) if target is None else self.limits.rows
        done = 0
        before: int | None = None
        while done < rows and not self.stopped:
            number = due.number + done if due.number is not None else None
            steps, wrong, meant = self.follow.steps(due.row, done)
            label = f"{due.label.split(' ')[0]} {number}" if number is not None else f"{due.label}"
            last = target is None and done == rows - 1
            one = replace(
                due, number=number, k=done, of=max(rows, 2), until=None, steps=steps, wrong_reference=wrong, from_row=meant,
                label=label, stated=due.stated if last else (),
            )  # fmt: skip
            self._row(one, ())
            done += 1
            total = self.rows[-1].counted.total if self.rows else 0
            if target is not None and (total in (target, before) or done > 2000):
                if total != target and self.rows:
                    self._never_reaches(target, total, due)
                break
            if target is not None and before is not None and (total - target) * (before - target) < 0:
                self._never_reaches(target, total, due)
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
        if length is None or height is None:
            return max(1, due.of)
        done = sum(1 for r in self.rows if not r.foundation)
        return max(1, min(self.limits.rows, round(length / height) - done))


def main_stitch(part: Part) -> str:
    """The stitch a part is chiefly worked in, "" when its words name none."""
    seen: dict[str, int] = {}
    for row in part.rows:
        stitch = first_stitch(row.steps)
        if stitch:
            seen[stitch] = seen.get(stitch, 0) + 1
    return max(seen, key=lambda k: (seen[k], k)) if seen else ""


def _strands_only(work: tuple[Step, ...]) -> bool:
    """Whether the words ask for strands left free by a loop choice, which no later stitch has used up."""
    for step in work:
        if isinstance(step, Make) and step.at.row:
            return step.at.loop.startswith("free") or step.at.loop in ("front", "back")
        if isinstance(step, Repeat) and _strands_only(step.body):
            return True
    return False


def _unworked(offer: Offer, used: set[int]) -> Offer:
    """The places after the last one used, in the offer's order (before the first used one where the rest lies there)."""
    taken = [i for i in range(offer.n) if offer.at[i] in used]
    if not taken:
        return offer
    low, high = taken[0], taken[-1] + 1
    keep = slice(high, offer.n) if offer.n - high >= low else slice(0, low)
    return replace(offer, at=offer.at[keep], chain=offer.chain[keep], space=offer.space[keep] if offer.space else offer.space)


def _total(stitches: Stitches) -> int:
    return sum(1 for r in stitches.role if r in (Role.STITCH, Role.START_TOP))


def _looks_deeper(step: Step) -> bool:
    if isinstance(step, Make):
        return step.at.below > 0 or step.at.where == "skipped"
    if isinstance(step, (Repeat, Together)):
        return any(_looks_deeper(s) for s in step.body)
    return False


def _basket_of(s: Stitches) -> Basket:
    """A basket holding a copy of a row, to add to."""
    basket = Basket(s.colours[0] if s.colours else "")
    for name in s.names:
        basket.code(name)
    basket.colours = list(s.colours)
    basket.kind, basket.role, basket.step, basket.repeat = s.kind[:], bytearray(s.role), s.step[:], s.repeat[:]
    basket.feet, basket.back, basket.foot_at, basket.how = s.feet[:], s.foot_back[:], s.foot_at[:], bytearray(s.foot_how)
    basket.colour = s.colour[:]
    basket.stands = dict(s.stands)
    basket.groups = [(first, length, name) for first, (length, name) in s.groups.items()]
    return basket


def _ghost_row(worker: PartWorker, due: Due, stitches: Stitches) -> RowWork:
    state = worker.state
    return RowWork(
        label=due.label, number=due.number, written=due.row, index=worker.first_index + len(worker.rows), made_in=due.row.made_in,
        side=state.side, side_because="", begins="A", turned=state.turned, direction=state.direction, stitches=stitches, offered=None,
        used=None, counted=EMPTY, stated=(), state="unstated", read="whole", worked="yes",
    )  # fmt: skip


def _count_trouble(due: Due, comparison: Sequence[Comparison], outcome: Outcome, carries_stated: bool) -> RowTrouble:
    told = next(c for c in comparison if c.differs)
    kind = "sts" if told.count.kind == "st" else told.count.kind
    working = [f"{d.so_far - d.made} + {d.made} = {d.so_far}" + (f" ({d.note})" if d.note else "") for d in outcome.derivation if d.made]
    working.append(f"worked {told.worked}, stated {told.stated}")
    which = "the rows after this one fit the stated count, so the words look wrong" if carries_stated else ""
    message = f"The row works out at {told.worked} {kind}; {told.stated} is stated" + (f" ({which})" if which else "")
    return RowTrouble(
        "count-differs", told.count.span if told.count.span != NOWHERE else due.row.span, message, tuple(working),
        {"worked": told.worked, "stated": told.stated, "kind": told.count.kind, "words_wrong": carries_stated},
    )  # fmt: skip


__all__ = ["PartWorker"]
