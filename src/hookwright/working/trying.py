"""One row tried on its offer: which offer, how the steps fit it, how its counts compare."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import lcm

from ..pattern import FLAT, Aside, Chain, Colour, Count, Limits, Make, Part, Pattern, Refer, Repeat, Shape, Span, Step, Together
from ..trade.kinds import base
from .assumed import stated_total
from .context import Context, TooMuch
from .counting import Comparison, compare, count, made_here, told_row_by_row
from .custom import NO_YES, UNSAID, Answers
from .edges_grown import edges_grown, passes_over, runs_grown, sides_told
from .fabric import Counted, Role, RowTrouble, RowWork, Stitches
from .figures import held_against
from .gaps_meant import gaps_meant, left_at_the_end, loops_of_stitches, own_among_skipped, posts_as_they_look, whole_groups
from .hand import Hand
from .in_order import Shaped, joins_on, shape_row, with_carried, with_travel
from .in_pattern import told_as_pattern
from .markers import marked_places
from .needs import main_stitch
from .offer import NOTHING, RING, Offer, offer_of, unworked
from .plan import Due, Follow
from .recording import NOT_BEGUN
from .round_the_edge import leaves_the_rows, row_ends
from .rows_named import reached_down, row_meant, row_number, rows_besides, slipped_on
from .shapings import spell_out
from .shells import shapes_of
from .standing import Outcome, Shared, Standing
from .strands_left import row_with_strands
from .taken_up import LEAST_LEFT, over_the_rest, row_left
from .told_midway import told_midway
from .unit_round import last_in_one, unit_round
from .widening import stretchable, stretchable_alike, stretched

MISFIT, DIFFERS, ODD, OFF_CUSTOM, PARTLY = 10.0, 6.0, 3.0, 0.4, 1.0
"""Weights by which readings are ranked: a row that does not fit what it is offered is worse than a stated count that differs."""

STEP = 5
"""A step takes about as long as so many stitches of a plain run (measured): what a part may hold is bounded in both."""
SLIP_STITCHES = "Do slip stitches inside a row count as stitches?"
CHAINS_IN_TOTAL = "Do the stated totals count chains?"


class RowTrying:
    """Tries rows from one standing of the work; what a row leaves behind is recorded by `PartWorker`."""

    def __init__(
        self, pattern: Pattern, part: Part, size: int, limits: Limits, answers: Answers, shared: Shared, start: Standing, rows_before: int,
        like: RowTrying | None = None,
    ) -> None:  # fmt: skip
        """`like`: another worker of the same part and size, whose laid-out rows are taken over."""
        self.pattern, self.part, self.size, self.limits = pattern, part, size, limits
        self.answers, self.shared = answers, shared
        self.state = start
        self.first_index = rows_before
        self.rows: list[RowWork] = []
        self.penalty = 0.0
        self.follow: Follow = (
            Follow(part, pattern.parts, size, shared.written, shared.whole, shared.alike, shared.alone, pattern.source)
            if like is None
            else like.follow
        )
        self.due: list[Due] | None = None if like is None else like.due
        self.main: str = main_stitch(part) if like is None else like.main
        self.turning: Mapping[tuple[str, int], bool] = (
            {(base(kind), t.chains): t.counts for kind, t in pattern.facts.turning_chains.items()} if like is None else like.turning
        )
        self.shapes = shapes_of(pattern.defined, size)
        self.answering = shared.number(tuple(sorted(answers.given.items())))
        self.basis = shared.number((self.main, tuple(sorted(self.turning.items())), tuple(sorted(self.shapes.items())), limits))
        """What all rows of the part rest on."""
        self.stopped = False
        self.troubles: list[RowTrouble] = []
        """What belongs to no single row."""
        self.wrong: set[str] = set()
        """Labels of rows found not to fit: rows that repeat them raise no alarm of their own."""
        self.right: set[str] = set()
        """Labels of rows known to be right."""
        self.ended: set[int] = set()
        """Indices of rows at whose end the yarn was cut."""
        self.worked_from: dict[int, Due] = {}
        """What each row was worked from, by its index."""
        self.tried: list[Outcome] = []
        """What the row at hand was tried as."""
        self.chains_asked = False
        """Whether it was asked of the row at hand if its total counts chains."""

    def _work_of(self, due: Due, shaped: Shaped) -> tuple[Step, ...]:
        work = with_carried(shaped.work, self._opening(due, shaped), self.shared.carried)
        work = with_travel(work, self.state.travel, self.shared.carried)
        without = joins_on(shaped.work)
        if without is not None:
            work = self.shared.spelled.setdefault((id(work), -1, "joins on"), without)
        if self.shared.nature(work).shapes:
            turn = lcm(*(max(s.every, 1) for s in work if isinstance(s, Shape)))
            key = (id(work), due.k % turn, self.main)
            if key not in self.shared.spelled:
                self.shared.spelled[key] = spell_out(work, due.k, self.size, self.main)
            work = self.shared.spelled[key]
        if self.shared.nature(work).deep:
            down = self._reached_down(work, due)  # rests on the rows there are: known again by what it came to
            work = work if down is work else self.shared.written.setdefault(down, down)
        return work

    def _reached_down(self, work: tuple[Step, ...], due: Due) -> tuple[Step, ...]:
        def meant(name: str) -> int | None:
            row = row_meant(name, due, self.rows)
            below = None if row is None else next((k for k, one in enumerate(reversed(self.rows)) if one is row), None)
            return below if below else None

        def taken(name: str) -> bool:
            row = row_meant(name, due, self.rows)
            return row is not None and self._rest_of(row, due).n == 0

        def known(name: str) -> bool:
            row = row_meant(name, due, self.rows)
            return row is not None and (row.made_in not in FLAT or not name.startswith("Rnd"))

        return slipped_on(reached_down(work, meant, taken), known)

    def _opening(self, due: Due, shaped: Shaped) -> Chain | None:
        """The starting chain told by the row before; where that is silent, the one this very row was begun with before it was repeated."""
        carried = self.state.carried
        if carried is not None:
            self.state.opened[due.label] = carried
        elif due.from_row and due.row.made_in == "rows" and not self.state.fastened:
            carried = self.state.opened.get(due.from_row)
        return carried

    def _turn_before(self, due: Due, shaped: Shaped) -> None:
        """Turn the work before this row: told here, told at the end of the row before, or understood in flat work."""
        state = self.state
        flat = due.row.made_in == "rows"
        first = state.below is None or state.foundation or state.ring
        turned = state.turned or shaped.turns_first
        same_side = due.row.side is not None and due.row.side == state.side  # told so, and no turn told: begun at the same end again
        if flat and not first and not turned and not shaped.says_no_turn and not state.fastened and not same_side:
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
        state.around = due.row.made_in not in FLAT

    def _offer(self, due: Due) -> Offer:
        state = self.state
        if state.ring:
            chain = state.below
            if chain is None or not len(chain) or not _along_chain(due.row.steps):
                return RING
            return offer_of(chain, turned=False, around=True, foundation=True)
        if state.below is None or state.uncounted or self._along_an_edge(due) or (not self.rows and _founded(due.steps)):
            return NOTHING
        index = self.first_index + len(self.rows)
        back = index - state.below_index if state.below_index is not None else 1
        around = state.around and not state.foundation
        return self.shared.offer(state.below, state.turned or state.foundation, around, back, state.foundation)

    def _along_an_edge(self, due: Due) -> bool:
        """Whether the row goes along an edge of the piece, where nobody counts the places."""
        leaves = leaves_the_rows(due.row, due.steps, self.rows[-1] if self.rows else None)
        return leaves or (self.shared.nature(due.steps).from_row_ends and not self.state.foundation)

    def _named_offer(self, due: Due, work: tuple[Step, ...]) -> Offer | None:
        """The offer of a row named outright: what later rows left unworked of it, or all of it where only its strands are meant."""
        nature = self.shared.nature(work)
        name = nature.named
        if name is None and nature.strands:
            row = row_with_strands(nature.strands, self.rows)
        elif name is None or nature.stands_on_named is False:
            return None
        else:
            number = next((int(w) for w in name.replace(".", " ").split() if w.isdigit()), None)
            row = next((r for r in reversed(self.rows) if number is not None and r.number == number), None)
        if row is None or row is self.rows[-1]:
            return None
        if due.row.side is not None and due.row.made_in in FLAT:
            same = next((r for r in self.rows if not r.foundation and r.side == due.row.side), None)
            self.state.direction = same.direction if same is not None else self.state.direction
        index = self.first_index + len(self.rows)
        turned = row.direction != self.state.direction and due.row.made_in in FLAT
        self.state.below, self.state.below_index = row.stitches, row.index
        offer = offer_of(row.stitches, turned=turned, around=due.row.made_in not in FLAT, back=index - row.index, foundation=row.foundation)
        used = self._used_of(row)
        all_free = due.row.made_in not in FLAT and not any(offer.at[i] in used and not offer.chain[i] for i in range(offer.n))
        return offer if all_free or _strands_only(work) else unworked(offer, used)  # petals in the spaces leave every stitch free

    def _rests_of_rows(self, work: tuple[Step, ...], due: Due) -> dict[str, Offer]:
        """What is left of the rows that the steps name besides the one they stand on, in this row's order."""
        found: dict[str, Offer] = {}
        for name in rows_besides(work):
            row = row_meant(name, due, self.rows)
            if row is not None and row is not self.rows[-1]:
                found[name] = self._rest_of(row, due)
        return found

    def _rest_of(self, row: RowWork, due: Due) -> Offer:
        turned = row.direction != self.state.direction and due.row.made_in in FLAT
        back = self.first_index + len(self.rows) - row.index
        return unworked(offer_of(row.stitches, turned=turned, around=False, back=back), self._used_of(row))

    def _used_of(self, row: RowWork) -> set[int]:
        """The elements of `row` that later rows stand on."""
        used: set[int] = set()
        for later in self.rows:
            back = later.index - row.index
            if back > 0:
                feet = zip(later.stitches.foot_back, later.stitches.foot_at, strict=True)
                used.update(at for b, at in feet if b == back and at >= 0)
        return used

    def _context(self, due: Due, named: Mapping[str, Offer]) -> Context:
        return Context(
            size=self.size, limits=self.limits, answers=self.answers, main=self._main_here(due), deeper=self._deeper(),
            turning=dict(self.turning), shapes=self.shapes, model=self._model(due), in_round=due.row.made_in not in FLAT,
            spiral=due.row.made_in == "spiral", joined=due.row.made_in == "joined", base=self.state.base if self.state.foundation else None,
            named=named, row_ends=self._row_ends(due), far=self.state.far,
        )  # fmt: skip

    def _row_ends(self, due: Due) -> int:
        step = self.shared.nature(due.steps).row_end
        if step is None:
            return 0
        told = stated_total(due.stated, self.size)
        before = [*self.shared.pieces.values()]
        rows = self.rows or (before[-1] if before else ())
        return row_ends(step, due.steps, rows, None if told is None else told.number.at(self.size))

    def _model(self, due: Due) -> Stitches | None:
        """The row of another piece that this one is told to be finished as: of the same number, else its last."""
        refer = self.shared.nature(due.steps).as_piece
        if refer is None:
            return None
        rows = self.shared.pieces.get((refer.part or "").lower(), ())
        found = [row for row in rows if row.number == due.number and due.number is not None] or list(rows[-1:])
        return found[-1].stitches if found and found[-1].worked == "yes" else None

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
            around = row.made_in not in FLAT
            offers.append(offer_of(row.stitches, turned=turned, around=around, back=index - row.index, foundation=row.foundation))
        return tuple(offers)

    def _try(self, work: tuple[Step, ...], offer: Offer, due: Due) -> Outcome:
        """Work the steps on the offer, or take the same work from the cache."""
        nature = self.shared.nature(work)
        deep = nature.deep
        marks = marked_places(offer, self.state.marks) if nature.markers else ()
        model = self._model(due)
        named = self._rests_of_rows(work, due) if deep else {}
        base = self.state.base if self.state.foundation else None
        key: tuple[object, ...] = (
            id(model), id(work), _met(offer), due.row.made_in, self.state.yarn, base, self.state.far, self.basis, marks,
            self._row_ends(due),
            tuple((id(r.stitches), r.direction != self.state.direction, r.made_in) for r in self.rows[-4:]) if deep else (),
            tuple(map(_met, named.values())),
        )  # fmt: skip
        for known in list(self.shared.rows.get(key, ())):
            if not known.consulted or all(self.answers.given.get(q, 0) == a for q, a in known.consulted.items()):
                if known.epoch != self.shared.epoch:
                    if known.troubles:  # its spans are those of an earlier text: work it once more
                        self.shared.rows[key].remove(known)
                        continue
                    known = self.shared.today(known, self.shared.now(self.pattern))
                    self.shared.rows[key] = [one for one in self.shared.rows[key] if one.epoch == known.epoch]
                self.tried.append(known)
                self.answers.consulted.update(known.consulted)
                for question, answers in known.asked.items():
                    self.answers.asked.setdefault(question, answers)
                return known
        outcome = self._hand(work, offer, due, named, marks)
        outcome.epoch = self.shared.epoch
        outcome.asked = {q: self.answers.asked[q] for q in outcome.consulted}
        outcome.keep = (
            model,
            work,
            offer.stitches,
            [*(r.stitches for r in self.rows[-4:]), *(rest.stitches for rest in named.values())] if deep else None,
        )
        self.shared.rows.setdefault(key, []).append(outcome)
        self.tried.append(outcome)
        return outcome

    def _hand(self, work: tuple[Step, ...], offer: Offer, due: Due, named: Mapping[str, Offer], marks: tuple[int, ...]) -> Outcome:
        self.answers.consulted = {}
        hand = Hand(offer, replace(self._context(due, named), marks=marks), self.state.yarn)
        troubles: list[RowTrouble] = []
        span = due.row.span
        try:
            hand.work(work)
        except TooMuch as much:
            troubles.append(RowTrouble("limit", span, f"This row {much}; it was not worked"))
            hand.unread = True
        stitches = self.shared.intern(hand.basket.done())
        cost = max(len(stitches), STEP * hand.done)
        self.shared.made += cost
        counts_slips = self._slip_stitches_count(stitches)
        counted = count(stitches, slip_stitches=counts_slips)
        moves = self.shared.moves(work, self.pattern) if hand.troubles or hand.derivation or hand.repeats else {}
        misfits, found = self._fit(hand, work, due, moves)
        noticed = (replace(one, span=moves.get(one.span, one.span)) for one in hand.troubles)
        derivation = (replace(one, span=moves.get(one.span, one.span)) for one in hand.derivation)
        offered = None if offer.n == 0 else offer.n + hand.extra_offered
        used = None if offered is None else min(offered, offered - hand.leftover()) + hand.missing
        return Outcome(
            stitches, offered, used, misfits, (*troubles, *noticed, *found), tuple(derivation), counted, hand.unread,
            hand.uncounted, hand.partial, hand.loose, hand.chains_moved, dict(self.answers.consulted),
            cost=cost, placed=tuple(sorted({k for k in hand.placed if k < len(stitches)})),
            reached=hand.pos,
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

    def _fit(self, hand: Hand, work: tuple[Step, ...], due: Due, moves: Mapping[Span, Span]) -> tuple[float, list[RowTrouble]]:
        """How far the row is from using exactly what it was offered, and the troubles that say so."""
        left = 0 if _only_slips(hand) else hand.leftover()
        if 0 < left <= 4 and hand.offer.foundation and left in _turning_unsaid(work):
            left = 0  # "Ch 11. Row 1: sc 10": the chain that turns is passed over without a word
        offered = hand.offer.n + hand.extra_offered
        if hand.unread or hand.uncounted or (not left and not hand.missing):
            odd = sum(1 for t in hand.troubles if t.kind in ("passed-unsaid", "top-not-counted", "repeat-takes-nothing", NOT_BEGUN))
            return (PARTLY if hand.partial else 0.0) + ODD * odd, []
        span = moves.get(hand.repeats[2], hand.repeats[2]) if hand.repeats else due.row.span
        if due.from_row:  # the words repeated are right where they stand; the row that repeats them is where it goes wrong
            span = next((s.span for s in due.row.steps if isinstance(s, Refer)), due.row.span)
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
            unit, times, _ = hand.repeats
            data |= {"unit": unit, "times": times}
            message = f"The repeat takes {unit} stitches and goes {times} times; {left} of the {offered} stitches are left over"
            return MISFIT, [RowTrouble("repeat-does-not-fit", span, message, working, data)]
        return MISFIT, [RowTrouble("too-few", span, f"{left} of the {offered} stitches below are left unworked", working, data)]

    def _stretched(self, outcome: Outcome, due: Due, work: tuple[Step, ...], offer: Offer) -> Outcome:
        """The row's outcome; a repeated shaping row written for its own width is stretched where only that closes it."""
        outcome = self._on_longer_edges(outcome, due, work, offer)
        outcome = self._meant_otherwise(outcome, due, work, offer)
        outcome = self._over_the_rest(outcome, due, work, offer)
        if outcome.misfits >= MISFIT and self._left_so_before(outcome, due):
            return replace(outcome, misfits=0.0, troubles=())
        if outcome.misfits >= MISFIT and told_as_pattern(due.row) and due.steps is not due.row.steps:
            plainly = self._work_of(due, shape_row(due.row.steps, self.shared.shaped))
            other = self._try(plainly, offer, due)
            return other if other.misfits < outcome.misfits else outcome
        if outcome.misfits >= MISFIT and due.from_row and offer.n:
            run = stretchable(work)
            if run is not None:
                longer = stretched(work, run[0])
                key = (id(work), run[0], "stretched")
                longer = self.shared.spelled.setdefault(key, longer)
                other = self._try(longer, offer, due)
                if other.misfits < MISFIT and not any(c.differs for c in self._compare(due, other)):
                    return replace(other, stretched=True, misfits=other.misfits + PARTLY)
            elif outcome.offered is not None and outcome.used is not None and outcome.offered > outcome.used:
                return self._stretched_alike(outcome, outcome.offered - outcome.used, due, work, offer)
        return outcome

    def _meant_otherwise(self, outcome: Outcome, due: Due, work: tuple[Step, ...], offer: Offer) -> Outcome:
        """The outcome of a row that does not fit, the places meant otherwise than told, where that closes it."""
        meanings = (gaps_meant, whole_groups, own_among_skipped, left_at_the_end, posts_as_they_look)
        for k, meant_by in enumerate((*meanings, loops_of_stitches) if offer.plain else meanings):
            turned = meant_by is posts_as_they_look and self.state.turned
            meant = meant_by(work) if outcome.misfits >= MISFIT or turned else None
            if meant is not None and (outcome.misfits or any(c.differs for c in self._compare(due, outcome))):
                other = self._try(self.shared.spelled.setdefault((id(work), -6 - k, "meant"), meant), offer, due)
                told = self._compare(due, other) if other.misfits < MISFIT else ()
                bare = meant_by is left_at_the_end and not held_against(told, other.stitches)
                outcome = outcome if other.misfits >= MISFIT or bare or any(c.differs for c in told) else other
        return self._all_round(outcome, due, work, offer)

    def _all_round(self, outcome: Outcome, due: Due, work: tuple[Step, ...], offer: Offer) -> Outcome:
        """The outcome of a round whose unit is told once and goes round, or whose units end in several stitches that are meant for one
        place, where it then comes to just what is stated."""
        if outcome.misfits < MISFIT or not due.stated or due.row.made_in in FLAT:
            return outcome
        short = {trouble.kind for trouble in outcome.troubles} == {"too-few"}
        meant = unit_round(work) if short else last_in_one(work)
        if meant is None:
            return outcome
        other = self._try(self.shared.spelled.setdefault((id(work), -16, "round"), meant), offer, due)
        compared = self._compare(due, other)
        if other.misfits < MISFIT and compared and not any(c.differs for c in compared):
            return other
        return outcome

    def _left_so_before(self, outcome: Outcome, due: Due) -> bool:
        """Whether the row repeats one that left just as many of just as many places: what is flawed in it is told there."""
        left = (outcome.offered, outcome.used)
        found = (row for row in reversed(self.rows) if due.from_row and row.label == due.from_row and row.worked == "yes")
        row = next(found, None)
        return row is not None and (row.offered, row.used) == left and any(t.kind == "too-few" for t in row.troubles)

    def _over_the_rest(self, outcome: Outcome, due: Due, work: tuple[Step, ...], offer: Offer) -> Outcome:
        """The outcome of a row that goes on over what a short row left, where only that closes it or makes its count."""
        off = outcome.misfits >= MISFIT or (bool(due.stated) and any(c.differs for c in self._compare(due, outcome)))
        back = row_left(self.rows) if off and due.row.made_in in FLAT else None
        if back is None or (left := self._rest_of(self.rows[-back], due).n) < LEAST_LEFT:
            return outcome
        told = row_number(due.from_row) if due.from_row else None
        number = self.rows[-back].number if told in (None, due.number) else (told or 0) - back
        meant = over_the_rest(work, f"Row {number}", left) if number else None
        if meant is None:
            return outcome
        other = self._try(self.shared.spelled.setdefault((id(work), -10, "taken up"), meant), offer, due)
        return other if other.misfits < MISFIT and not any(c.differs for c in self._compare(due, other)) else outcome

    def _on_longer_edges(self, outcome: Outcome, due: Due, work: tuple[Step, ...], offer: Offer) -> Outcome:
        """The outcome of a square's round worked again, every space of its longer edges filled, its plain runs as long as they are."""
        again = due.from_row or due.k
        grown = edges_grown(work) if again else None
        if grown is None and again and (runs := runs_grown(work)) is not None:
            return self._on_longer_runs(outcome, due, runs, offer)
        if grown is None:
            return outcome
        other = self._try(self.shared.spelled.setdefault((id(work), -4, "grown"), grown), offer, due)
        fits = other.misfits <= outcome.misfits and not any(c.differs for c in self._compare(due, other))
        return other if fits and other.counted.total > outcome.counted.total else outcome

    def _on_longer_runs(self, outcome: Outcome, due: Due, runs: tuple[Step, ...], offer: Offer) -> Outcome:
        """The outcome of a square's round whose plain runs go from corner to corner, where its words say so or only that closes it."""
        told = sides_told(due.row.steps)
        if not told and outcome.misfits < MISFIT and passes_over(due.from_row, self.rows):
            return outcome
        other = self._try(self.shared.spelled.setdefault((id(runs), -5, "runs"), runs), offer, due)
        shorter = outcome.misfits < MISFIT and other.counted.total <= outcome.counted.total
        if other.misfits >= MISFIT or shorter or (not told and any(c.differs for c in self._compare(due, other))):
            return outcome
        return other if told else replace(other, stretched=True, misfits=other.misfits + PARTLY)

    def _stretched_alike(self, outcome: Outcome, left: int, due: Due, work: tuple[Step, ...], offer: Offer) -> Outcome:
        """The outcome of a repeated row of two runs round a shaping in the middle, both as much longer as the row has grown."""
        longer = stretchable_alike(work, left)
        if longer is None:
            return outcome
        other = self._try(self.shared.spelled.setdefault((id(work), left, "alike"), longer), offer, due)
        if other.misfits >= MISFIT or any(c.differs for c in self._compare(due, other)):
            return outcome
        told = bool(_KEEPS_MIDDLE.search(due.row.span.of(self.pattern.source)))
        return replace(other, stretched=not told, misfits=other.misfits + PARTLY)

    def stated_here(self, due: Due, counted: Counted) -> tuple[Count, ...]:
        """The counts that hold for this very row of a range: on its last row all; earlier only where the range keeps its count."""
        if due.of == 1:
            return due.stated
        if (told := told_row_by_row(due.stated, due.of, due.k)) is not None:
            return told
        if due.k == due.of - 1:
            return made_here(due.stated, counted) if due.from_row else due.stated
        if changes := tuple(c for c in due.stated if c.change):
            return changes  # "4 sts increased in each row, 56 dc": the total is that of the last
        if any(isinstance(step, Shape) for step in due.row.steps):
            return ()  # "(18 sts)" after shapings on every other row: where they end
        return due.stated if self.state.total is not None and counted.total == self.state.total and not due.from_row else ()

    def _compare(self, due: Due, outcome: Outcome, stated: tuple[Count, ...] | None = None) -> tuple[Comparison, ...]:
        stated = self.stated_here(due, outcome.counted) if stated is None else stated
        if not stated or outcome.uncounted:
            return ()
        plain = compare(outcome.counted, stated, self.size, before=self.state.total, chains_count=False)
        if any(c.differs for c in plain) and not due.from_row:
            plain = told_midway(plain, due.row.steps, outcome.stitches, self.size)
        unlike = outcome.counted.by_kind.get("ch") and any(c.differs and c.count.kind == "st" for c in plain)
        self.chains_asked = self.chains_asked or bool(unlike)
        if unlike and self.answers.pick(CHAINS_IN_TOTAL, NO_YES) == 1:
            return compare(outcome.counted, stated, self.size, before=self.state.total, chains_count=True)
        return plain


_KEEPS_MIDDLE = re.compile(r"(?i)\b(?:always|keeping|having|working|making)\b[^.;]{0,40}\b(?:cent(?:er|re)|middle|corners?|points?)\b")
"""Words by which a repeated row says itself that only its middle stays as it is: "always working 3 sc in center sc"."""


def _turning_unsaid(work: tuple[Step, ...]) -> tuple[int, ...]:
    """How many chains a first row may leave out that tells its stitches by number alone, and nowhere "from hook"."""
    made = [step for step in work if not isinstance(step, (Colour, Aside))]
    plain = all(isinstance(step, Make) and step.at.where == "next" and step.places != "rest" for step in made)
    return UNSAID.get(base(made[0].stitch), ()) if made and plain and isinstance(made[0], Make) else ()


def _only_slips(hand: Hand) -> bool:
    """A few slip stitches by themselves close a piece or travel along it: what lies beyond them is not left out."""
    names = set(hand.basket.names) - {"ch"}
    return names == {"sl st"} and len(hand.basket) * 2 < hand.offer.n


def _strands_only(work: tuple[Step, ...]) -> bool:
    """Whether the words ask for strands left free by a loop choice, which no later stitch has used up."""
    for step in work:
        if isinstance(step, (Make, Together)) and (step.at.row or step.at.loop.startswith("free")):
            return step.at.loop.startswith("free") or step.at.loop in ("front", "back")
        if isinstance(step, Repeat) and _strands_only(step.body):
            return True
    return False


def _along_chain(steps: Sequence[Step]) -> bool:
    """Whether a round on a chain joined into a ring goes along the chain ("sc in each ch around") and not into the ring."""
    for step in steps:
        if isinstance(step, Make) and step.at.where == "from_hook":
            return False  # from here on it goes along a chain of its own
        if isinstance(step, (Make, Together)) and step.at.where in ("next", "first") and (step.at.what == "ch" or step.places == "rest"):
            return True
        if isinstance(step, Repeat) and _along_chain(step.body):
            return True
    return False


def _met(offer: Offer) -> tuple[object, ...]:
    """What an offer is known again by; of what was left of a row, its first place and how many there are."""
    first = offer.at[0] if offer.n else -1
    return id(offer.stitches), offer.reverse, offer.back, offer.ring, offer.foundation, offer.around, first, offer.n


def _founded(steps: Sequence[Step]) -> bool:
    """Whether a piece begins with nothing but stitches made without a chain ("FDC 28"): they stand on no other piece."""
    works = [step for step in steps if isinstance(step, (Make, Together, Repeat))]
    return len(works) == 1 and isinstance(works[0], Make) and works[0].at.where == "hook"
