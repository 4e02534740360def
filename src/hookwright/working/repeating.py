"""Repeats: so many times, to the end, to the last n, with an ending of their own."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from dataclasses import replace
from itertools import dropwhile

from ..pattern import ONE, Aside, Chain, Choice, Colour, Even, Join, Make, Repeat, Sized, Skip, Step, Together
from ..trade.kinds import HEIGHT
from .basket import Mark
from .closing import Closing
from .context import TIMES_MORE, Overflow, Spot, TooMuch
from .corners import middle_places
from .fabric import How, Role
from .in_turn import runs_together
from .needs import GROUP_WORDS, Need, is_space
from .offer import come_round
from .round_the_edge import ends_in_unit

GOES_ON = "Does the last repeat go on to where the round began?"

Bookmark = tuple[Mark, int, Spot | None]


def _only_runs(step: Repeat) -> bool:
    """ "*FPdc around each FPdc, BPdc around each BPdc* to last st": runs that go on by themselves, which the stars only hold together."""
    runs = [one for one in step.body if isinstance(one, Make) and one.places == "rest" and one.at.where == "next" and not one.upto]
    return 1 < len(runs) == len(step.body) and len({one.at.what for one in runs}) == len(runs) and not step.last


class Repeating(Closing):
    """Works repeats; a repeat that runs out of places is taken back to where it began."""

    @abstractmethod
    def leftover(self) -> int:
        """Places that should have been used and were not."""

    def _repeat(self, step: Repeat, tail: Sequence[Step]) -> str | None:
        kind = step.times.kind
        outer = self.iteration
        from_base = self._rises_from_its_base(step)
        if kind in ("rest", "to_last") and _only_runs(step):
            for k, run in enumerate(step.body):
                self.step(run, [*step.body[k + 1 :], *tail])
            return None
        if kind in ("n", "more"):
            times = step.times.number.at(self.size) or 0
            if kind == "more" and self.context.answers.pick(TIMES_MORE, ("n times more", "n times in all")) == 0:
                times += 1
            self.told_times = True
            done = self._n_times(step, times, tail)
            self.told_times = False
        else:
            begun = self.pos
            done = self._to_the_end(step, tail)
            if not done and not outer and not self.partial and self.pos == begun and self._asks_for_places(step):
                self._trouble("repeat-not-begun", step.span, "The places left are too few for this repeat to be worked even once")
        self.iteration = outer
        passed = next((inner for inner in step.body if isinstance(inner, (Skip, Make))), None)
        if from_base and isinstance(passed, Skip) and 0 < self._remaining("st") <= (passed.number.at(self.size) or 0):
            self.pos = self.offer.n  # the closing stitch passes over them, as every unit does
        return f"{done} times"

    def _asks_for_places(self, step: Repeat) -> bool:
        """Whether a repeat must find places for its stitches, and is worked for good."""
        made = any(isinstance(one, (Make, Together)) and not (isinstance(one, Make) and one.stitch == "sl st") for one in step.body)
        return made and not self.strict and not step.times.loose

    def _rises_from_its_base(self, step: Repeat) -> bool:
        """ "* Ch 7, skip 1 tr, sc in next tr; repeat from * around, ending with ch 3, tr in base of first ch-7": the first chain rises from
        the stitch that the hand stands on, which is passed over here."""
        offer = self.offer
        free = not self.started and self.inside is None and self.last is None and self.pos == self.origin
        if not free or not self.context.joined or offer.ring or offer.closed or not offer.n or offer.chain[self.pos]:
            return False
        closed = any(isinstance(one, Join) and one.closing for one in self.rest_of_row)
        if not closed or not step.body or not isinstance(step.body[0], Chain):
            return False
        self.pos += 1
        return True

    def _n_times(self, step: Repeat, times: int, tail: Sequence[Step]) -> int:
        for k in range(times):
            self.iteration = k + 1
            pos, made = self.pos, len(self.basket)
            ending = (bool(step.last) or step.cut is not None) and k == times - 1
            self.run(self._ending_that_fits(step, tail) if ending else step.body)
            if self.missing > self.offer.n + 1000 and not self.strict:
                return k + 1
            if self.pos == pos and len(self.basket) == made:
                return k + 1
            if times > self.context.limits.row_stitches:
                raise TooMuch(f"asks for more than {self.context.limits.row_stitches:,} repeats")
        return times

    def _ending_that_fits(self, step: Repeat, tail: Sequence[Step]) -> tuple[Step, ...]:
        """ "Repeat from * 3 times, ending last repeat with dc in next 4 dc": after the whole unit or in its last stitches' place, as it
        closes the row; the unit whole where neither does or nothing is counted."""
        whole = (*(step.body if step.cut is None else step.body[: step.cut]), *step.last)
        if step.cut is not None or not self.offer.n or self.strict:
            return whole
        keep, mark, gap = self.needs.of(tail), self._bookmark(), self.gap
        for ending in (whole, *self._endings(step)):
            closes = self._once(ending, self.iteration) and self._remaining("st") == keep.st and not self.leftover_spaces(keep.sp)
            self._return_to(mark)
            self.gap = gap
            if closes:
                return ending
        return whole

    def leftover_spaces(self, keep: int) -> bool:
        """Whether spaces that the row goes by are left beyond those that the steps after ask for."""
        return self.spaced and self._space_left() > keep

    def _endings(self, step: Repeat) -> list[tuple[Step, ...]]:
        """The ways the last repeat may run into its own ending: where it is cut off is told, or is wherever it closes the row."""
        if step.cut is not None:
            return [(*step.body[: step.cut], *step.last)]
        cuts = sorted(
            range(len(step.body) + 1), key=lambda cut: (_unlike(step.body[cut], step.last[0]) if cut < len(step.body) else 2, -cut)
        )
        once = [cut for cut in cuts if not _chain_twice(step.body[:cut] or step.body, step.last)]
        return [(*step.body[:cut], *step.last) for cut in once or cuts]

    def _to_the_end(self, step: Repeat, tail: Sequence[Step]) -> int:
        if self.offer.n == 0 and (ends := ends_in_unit(step.body)) and self.context.row_ends >= ends:
            for k in range(self.context.row_ends // ends):
                self.iteration = k + 1
                self.run(step.body)
            return self.iteration
        if self.offer.n == 0:
            self.uncounted = True
            self.iteration = 1
            self.run(step.body)
            return 1
        self.led_by = _skipped_first(step, self.size)
        keep = self.needs.of(tail)
        stop_at = step.times.number.at(self.size) or 0 if step.times.kind == "to_last" else 0
        what = step.times.what
        if stop_at == 1 and is_space(what) and _passes_by_the_space(tail):
            stop_at = 0
        stop = Need(0, 0, stop_at) if what in GROUP_WORDS else Need(0, stop_at) if is_space(what) else Need(stop_at, 0)
        keep = stop if stop_at else keep
        last = _last_of_kind(tail) if stop_at else ""
        marks: list[Bookmark] = []
        while True:
            mark, gap = self._bookmark(), self.gap
            if not self._once(step.body, len(marks) + 1) or not self._leaves(keep) or (last and not self._is_ahead(last)):
                self._return_to(mark)
                self.gap = gap
                break
            marks.append(mark)
            if self.pos == mark[1] and (len(marks) > 1 or len(self.basket) == mark[0][0]):
                self._trouble("repeat-takes-nothing", step.span, "This repeat uses no place of the row below, so it never ends")
                break
        if step.last or step.cut is not None:
            return self._end_specially(step, marks, keep)
        if step.times.loose and not any(_works(s) for s in tail):
            self._breaks_off(step)
        unit = (self.pos - marks[-1][1]) if marks else 0
        self.repeats = (unit, len(marks), step.span)
        if not tail or all(not _works(s) for s in tail):
            if not (self.reaching and stop_at):  # what is left before that place is told
                self._part_of_repeat(step)
            if self.context.in_round and marks and (self._back_to_first(step, marks[0][2]) or self._to_where_it_slipped(step)):
                return len(marks) + 1
            if self.context.in_round and self.pos < self.offer.n and not self._comes_round(step):
                self._wraps(step, len(marks))
        return len(marks)

    def _breaks_off(self, step: Repeat) -> None:
        """Work as much of one more unit as there are places for."""
        mark = self._bookmark()
        self.iteration += 1
        for inner, *too in runs_together(step.body):
            left = self._remaining("st")
            if left <= 0:
                break
            number = getattr(inner, "number" if isinstance(inner, Skip) else "places", None)
            several = (number.at(self.size) or 0) if isinstance(inner, Make) and isinstance(number, Sized) else 0
            if several > 1 and isinstance(inner, Make) and inner.at.nth == 0 and not middle_places(self.offer, self.pos, several):
                break  # no run lies ahead whose middle could be meant
            if isinstance(inner, (Make, Skip)) and isinstance(number, Sized) and (number.at(self.size) or 0) > left:
                less = Sized.of(left)
                inner = replace(inner, number=less) if isinstance(inner, Skip) else replace(inner, places=less)
            if not self._once((inner, *too), self.iteration):
                break
        if self.pos == mark[1] and not self.context.in_round:
            self._return_to(mark)  # a chain that leads to nothing more is not begun
        self.partial = self.partial or self.pos > mark[1]

    def _leaves(self, keep: Need) -> bool:
        if keep.groups and (len(self._groups_ahead("group")) if self.offer.groups else self._remaining("group")) < keep.groups:
            return False
        return (keep.st == 0 or self._remaining("st") >= keep.st) and (keep.sp == 0 or self._remaining_spaces(self.pos) >= keep.sp)

    def _is_ahead(self, kind: str) -> bool:
        """Whether a stitch of this kind is left, where the row below holds any."""
        offer = self.offer
        kinds = [i for i in range(offer.n) if offer.matches(i, kind)]
        return not kinds or kinds[-1] >= self.pos

    def _once(self, body: Sequence[Step], iteration: int) -> bool:
        self.iteration = iteration
        self.strict += 1
        try:
            self.run(body)
        except Overflow:
            return False
        finally:
            self.strict -= 1
        return True

    def _bookmark(self) -> Bookmark:
        return self.basket.mark(), self.pos, self.last

    def _return_to(self, mark: Bookmark) -> None:
        self.basket.back_to(mark[0])
        self.pos, self.last = mark[1], mark[2]

    def _end_specially(self, step: Repeat, marks: list[Bookmark], keep: Need) -> int:
        """The last repeat has an ending of its own: find the repeat after which it closes the row."""
        best: tuple[int, tuple[Step, ...], int] | None = None
        amiss = 0  # places of another kind than told, in the best so far
        marks = [*marks, self._bookmark()]
        for k in range(len(marks) - 1, max(-1, len(marks) - 4), -1):
            for ending in self._endings(step):
                self._return_to(marks[k])
                gap, misnamed = self.gap, self.misnamed
                if self._once(ending, k + 1) and self._leaves(keep):
                    left, misnamed = self._remaining("st") - keep.st + self.gap - gap, self.misnamed - misnamed
                    if step.cut is not None and self.spaced and self.context.in_round and not self.leftover_spaces(keep.sp):
                        left = 0  # the round goes from space to space, and none is left
                    if best is None or (left > 0, misnamed, left) < (best[0] > 0, amiss, best[0]):
                        best, amiss = (left, ending, k), misnamed
                self.gap = gap
                if best is not None and best[0] == 0 and not amiss:
                    break
            if best is not None and best[0] == 0 and not amiss:
                break
        if (best is None or best[0]) and (done := self._ends_on_its_first(step, marks[0])):
            return done
        k = best[2] if best is not None else len(marks) - 1
        self._return_to(marks[0])  # what was tried from earlier marks is gone: work it again from the beginning
        for done in range(k):
            self._once(step.body, done + 1)
        if best is None:
            self.run(self._endings(step)[0])
            return len(marks)
        ending = best[1]
        self._once(ending, k + 1)
        self.repeats = (0, k + 1, step.span)
        if step.times.loose and best[0] > 0:
            self.pos, self.partial = self.offer.n, True
        elif best[0] > 0 and self._joined_where_it_began(step, best[0]):
            self.pos = self.offer.n
        return k + 1

    def _joined_where_it_began(self, step: Repeat, left: int) -> bool:
        """ "* ch 5, skip 3, sc in next; rep from * around, a sl st in place of the last sc": what is left is the place of that sl st."""
        if step.cut is None or not self.context.in_round or any(map(_works, self.before)):
            return False
        omitted = [inner for inner in step.body[step.cut :] if not isinstance(inner, Aside)]
        last = omitted[0] if len(omitted) == 1 else None
        return isinstance(last, Make) and isinstance(last.places, Sized) and (last.places.at(self.size) or 0) * last.closes == left

    def _ends_on_its_first(self, step: Repeat, begin: Bookmark) -> int:
        """How often a repeat goes that ends specially ("omitting last 2 dc") in a round that began beyond its first places: on these it
        ends. 0 where that does not close the round either."""
        first = self.first_taken
        if step.cut is None or not self.context.in_round or first is None:
            return 0
        slipped = int(Role.TRAVEL in self.basket.role)  # "sl st in next dc": the stitch that the join stands in comes last
        for beyond in dict.fromkeys((first.start, first.start + slipped)):
            if beyond and (done := self._closes_beyond(step, begin, beyond)):
                return done
        return 0

    def _closes_beyond(self, step: Repeat, begin: Bookmark, beyond: int) -> int:
        """The same where the round goes on over its first `beyond` places."""
        offer = self.offer
        self._return_to(begin)
        self.offer, self.runs = come_round(offer, beyond), {}
        marks = [self._bookmark()]
        while self._once(step.body, len(marks)) and self.pos > marks[-1][1]:
            marks.append(self._bookmark())
        for k in range(len(marks) - 1, max(-1, len(marks) - 3), -1):
            for ending in self._endings(step):
                self._return_to(marks[k])
                if self._once(ending, k + 1) and self.pos >= offer.n and not self._remaining("st"):
                    self.offer, self.runs, self.pos = offer, {}, offer.n
                    self.repeats = (0, k + 1, step.span)
                    return k + 1
        self.offer, self.runs = offer, {}
        return 0

    def _wraps(self, step: Repeat, done: int) -> None:
        """A round that began beyond its first places ("in next ch-7 loop …, sl st in next sc") ends its last unit on them."""
        if self.first_taken is None or not self.first_taken.start or not done or self.offer.plain or not self.leftover():
            return
        mark, offer = self._bookmark(), self.offer
        self.offer, self.runs = come_round(offer, self.first_taken.start), {}
        if self._once(step.body, done + 1) and self.pos > offer.n - 1:
            self.pos = self.offer.n  # what lies between here and the first unit was passed over by it
            return
        self.offer, self.runs = offer, {}
        self._return_to(mark)

    def _joined_in_such(self, last: Make | Together, first: Spot | None) -> bool:
        """ "Join in any ch-1 sp, * ch 3, cluster over next 3 dc, ch 3, sl st in next sp; rep around": a space too, still empty."""
        joined = any(isinstance(one, Colour) and one.join_in for one in self.before)
        if first is None or first.how != How.SPACE or not joined or not all(isinstance(one, (Aside, Chain, Colour)) for one in self.before):
            return False
        unit, done = self.repeats[:2] if self.repeats is not None else (0, 0)
        free = Role.START_TOP not in self.basket.role and unit * done <= self.pos - first.end
        return free and isinstance(last, Make) and is_space(last.at.what)

    def _back_to_first(self, step: Repeat, first: Spot | None) -> bool:
        """ "Join in any sp, * ch 3, 3 dc in same sp, sl st in next sp; rep around": the last sp is filled too, from there to the first.
        So are the last stitches of "* ch 3, 2 dc in same st, 2 dc in next st, sl st in next st; rep around", which nothing else uses."""
        works = [inner for inner in step.body if isinstance(inner, (Make, Together))]
        if not works or works[-1].at.where != "next":
            return False
        bare = self._joined_in_such(works[-1], first)
        if not bare and (len(works) < 2 or works[0].at.where != "same"):
            return False
        first = first or Spot(self.origin, self.origin + 1, How.TOP)  # "join in any st": the first place
        closing = next((k for k in range(len(step.body) - 1, -1, -1) if step.body[k] is works[-1]), 0)
        if any(not isinstance(inner, Aside) for inner in step.body[closing + 1 :]):
            return False
        in_one = not bare and all(inner.at.where == "same" for inner in works[:-1])
        slips = bare or (isinstance(works[-1], Make) and works[-1].stitch == "sl st")
        left = bool(self.leftover()) or (bare and self.pos < self.offer.n)
        last = works[-1].places
        shares = slips and last != "rest" and 0 < self._remaining("st") < (last.at(self.size) or 1)  # "…, sl st in next 2 sts"
        if (in_one == left and not (in_one and shares)) or not (in_one or slips):
            return False
        if in_one and self.context.answers.pick(GOES_ON, ("yes", "no")) == 1:
            return False
        mark, offer = self._bookmark(), self.offer
        self.offer, self.runs = come_round(offer, first.end), {}
        met = self._once(step.body, self.iteration + 1) and self.pos == offer.n + first.end
        self.offer, self.runs = offer, {}
        if met and slips:
            self.pos = self.offer.n
            return True
        self._return_to(mark)
        if met:  # its last stitch is the first one, which the round is joined to
            self._once(step.body[:closing], self.iteration + 1)
            self.pos = self.offer.n
        return met

    def _to_where_it_slipped(self, step: Repeat) -> bool:
        """ "S.s. to the centre of the first loop, * 5 ch, dc in next loop; repeat from * all round": the last dc goes into the loop that
        the round was carried to, whose place no stitch has taken, unless the round is joined there."""
        made = [inner for inner in self.before if not isinstance(inner, (Aside, Colour))]
        body = [inner for inner in step.body if not isinstance(inner, Aside)]
        if not body:
            return False
        *chains, last = body
        slips = bool(made) and all(isinstance(one, Make) and one.stitch == "sl st" and is_space(one.at.what) for one in made)
        nets = bool(chains) and all(isinstance(one, Chain) for one in chains) and isinstance(last, Make) and last.at.where == "next"
        if self._slipped_to_a_stitch(made) and isinstance(last, Make) and not any(isinstance(one, Chain) for one in self.rest_of_row):
            return self._ends_where_it_slipped(step, (*chains, replace(last, at=replace(last.at, where="first"))))
        if not slips or not nets or self.leftover() or not isinstance(last, Make) or not is_space(last.at.what):
            return False
        if any(isinstance(one, (Join, Chain)) for one in self.rest_of_row):
            return False
        return self._once((*chains, replace(last, at=replace(last.at, where="first"))), self.iteration + 1)

    def _slipped_to_a_stitch(self, made: Sequence[Step]) -> bool:
        """Whether the round began with nothing but slip stitches along stitches, the last of which it begins on."""
        slips = bool(made) and all(isinstance(one, Make) and one.stitch == "sl st" and not is_space(one.at.what) for one in made)
        return slips and self.context.joined and Role.TRAVEL in self.basket.role

    def _ends_where_it_slipped(self, step: Repeat, last: tuple[Step, ...]) -> bool:
        """ "Sl st in next dc, * ch 6, sc in center dc of next group; repeat around": the last sc goes where the round began. `last` is the
        unit with its stitch there."""
        mark, offer = self._bookmark(), self.offer
        self.offer, self.runs = come_round(offer, 1), {}
        met = self._once(step.body, self.iteration + 1) and self.pos == offer.n + 1
        self.offer, self.runs = offer, {}
        if not met:
            self._return_to(mark)
            by_group = isinstance(step.body[-1], Make) and self._is_group(step.body[-1].at.of or step.body[-1].at.what)
            even = self.repeats is not None and self._remaining("st") * (self.repeats[1] + 1) <= offer.n  # no more than a unit's share
            met = by_group and even and self._once(last, self.iteration + 1)
        if met:
            self.pos = offer.n
        return met

    def _comes_round(self, step: Repeat) -> bool:
        """A round often begins in mid-unit: "sc in first loop, * ch 7, sc in next loop; repeat from *" ends with the unit's chain, whose
        stitch is the first one. Taken only where what was worked before the star is just what the last unit then lacks."""
        told = [one for one in atoms(self.before, self.size) if not (isinstance(one, Make) and one.stitch == "sl st")]
        begun = list(dropwhile(lambda one: isinstance(one, (Chain, Colour)), told))
        unit = atoms(step.body, self.size)
        if not begun and self._chain_ends(unit):
            return True
        if not begun or len(begun) >= len(unit):
            return False
        ends = unit[len(unit) - len(begun) :]
        if not alike(begun[0], ends[0], self.stood) or any(not alike(a, b) for a, b in zip(begun[1:], ends[1:], strict=True)):
            return False
        closing = next((one for one in self.rest_of_row if isinstance(one, Chain) or (isinstance(one, Join) and one.closing)), None)
        if closing is not None:  # the round's last loop is told after the repeat: it is the unit's own
            while unit and len(unit) > len(begun) and isinstance(unit[-len(begun) - 1], (Skip, Aside)):
                del unit[-len(begun) - 1]
            if not isinstance(unit[-len(begun) - 1], Chain):
                return False
            del unit[-len(begun) - 1]
        mark = self._bookmark()
        self.iteration += 1
        last = unit[: len(unit) - len(begun)]
        if self._once(last, self.iteration) and not self.leftover():
            return True
        self._return_to(mark)
        if not self._meets_itself(step):
            return False
        self._once(last, self.iteration)
        self.pos = self.offer.n  # what is left leads up to the round's own beginning
        return True

    def _chain_ends(self, unit: list[Step]) -> bool:
        """ "Ch 3, * 5 dc in next sp, dc in next dc; repeat from * around": the starting chain is the last unit's last stitch."""
        last = unit[-1] if len(unit) > 1 else None
        stands = next(iter(self.basket.stands.values()), None) if self.stood else None
        if not isinstance(last, Make) or last.stitch != stands or last.each != ONE or last.places != ONE or last.at.where != "next":
            return False
        mark = self._bookmark()
        self.iteration += 1
        if self._once(unit[:-1], self.iteration) and not self.leftover():
            return True
        self._return_to(mark)
        return False

    def _meets_itself(self, step: Repeat) -> bool:
        """Whether one more unit, gone round to the round's first place, ends just there."""
        first = self.first_taken
        if first is None or self.offer.plain:
            return False
        mark, offer = self._bookmark(), self.offer
        self.offer, self.runs = come_round(offer, first.end), {}
        met = self._once(step.body, self.iteration) and self.pos == offer.n + first.end
        self.offer, self.runs = offer, {}
        self._return_to(mark)
        return met

    def _ends_as_it_began(self, first: Step) -> bool:
        """ "Sl st to center of 1st shell, sc in same place, * shell in next sc, sc in center of next shell; rep across": a row that leaves
        places at its beginning leaves them at its end too, and no group is begun there."""
        group = isinstance(first, Together) or (isinstance(first, Make) and (first.each.at(self.size) or 0) > 2)
        return group and Role.TRAVEL in self.basket.role and bool(self.first_taken and self.first_taken.start)

    def _part_of_repeat(self, step: Repeat) -> None:
        """Rows often end inside a repeat without a word: on its first stitch ("* dc in next, ch 1, skip 1; rep across" ends with a dc).

        Taken only where that closes the row exactly; to end anywhere else in the repeat is a repeat that does not fit.
        """
        worked = [i for i, inner in enumerate(step.body) if _works(inner) and not isinstance(inner, Skip)]
        if self.context.in_round or self.offer.n - self.pos <= 0 or not worked or self._ends_as_it_began(step.body[worked[0]]):
            return
        mark = self._bookmark()
        self.strict += 1
        try:
            for inner in step.body[: worked[0] + 1]:
                self.step(inner, ())
                if self._remaining("st") == 0 and not (self.offer.chain and self.spaced and self._space_left()):
                    self.partial = True
                    return
        except Overflow:
            pass
        finally:
            self.strict -= 1
        self._return_to(mark)


def _skipped_first(step: Repeat, size: int) -> int:
    """ "* Skip 2 dc, 5 dc in next dc, …": the plain places passed over at the beginning of every unit."""
    first = next((inner for inner in step.body if not isinstance(inner, (Aside, Chain))), None)
    return (first.number.at(size) or 0) if isinstance(first, Skip) and not is_space(first.what) else 0


MOST_ATOMS = 400


def atoms(steps: Sequence[Step], size: int) -> list[Step]:
    """The steps one by one, repeats told by number written out."""
    found: list[Step] = []
    for step in steps:
        if isinstance(step, Repeat) and step.times.kind == "n" and not step.last:
            found += atoms(step.body, size) * min(step.times.number.at(size) or 0, MOST_ATOMS)
        elif not isinstance(step, Aside):
            found.append(step)
        if len(found) > MOST_ATOMS:
            break
    return found


def alike(a: Step, b: Step, stood: bool = False) -> bool:
    """Whether two steps ask for the same stitch or chain, wherever they put it; `stood`: a starting chain is the first stitch of `a`."""
    if isinstance(a, Make) and isinstance(b, Make):
        return a.stitch == b.stitch and (_number(a) + stood == _number(b) or (not stood and a.places == b.places == "rest"))
    if isinstance(a, Together) and isinstance(b, Together):
        pairs = list(zip(a.body, b.body, strict=False))
        return len(a.body) == len(b.body) and all(alike(x, y, stood and k == 0) for k, (x, y) in enumerate(pairs))
    return isinstance(a, (Chain, Skip)) and type(a) is type(b) and a.number == b.number


def _number(step: Make) -> int:
    places = 1 if step.places == "rest" else step.places.values[0] or 0
    return (step.each.values[0] or 0) * places


def _chain_twice(body: Sequence[Step], last: Sequence[Step]) -> bool:
    """ "* Ch 5, skip 3, sc in next; rep from *, ending with ch 5": the ending's chain is the unit's own, and stands once."""
    before = next((step for step in reversed(body) if not isinstance(step, (Skip, Aside))), None)
    return isinstance(before, Chain) and bool(last) and isinstance(last[0], Chain)


def _unlike(a: Step, b: Step) -> int:
    """0: the ending's first step is the same as this step of the repeat; 1: a chain of another length in its place; 2: neither."""
    return 0 if _alike(a, b) else 1 if isinstance(a, Chain) and isinstance(b, Chain) else 2


def _alike(a: Step, b: Step) -> bool:
    """Whether the ending's first step takes the place of this step of the repeat."""
    if isinstance(a, Make) and isinstance(b, Make):
        return a.stitch == b.stitch
    if isinstance(a, Chain) and isinstance(b, Chain):
        return a.number == b.number
    return type(a) is type(b) and isinstance(a, (Skip, Together))


def _works(step: Step) -> bool:
    return isinstance(step, (Make, Together, Skip, Repeat, Even, Choice)) and not (isinstance(step, Make) and step.at.where == "same")


def _passes_by_the_space(tail: Sequence[Step]) -> bool:
    """ "… rep from * to the last loop, ch 2, dc in last sc": nothing after the repeat goes into that loop, so the repeat goes as far as it
    and fills it."""
    made = [step for step in tail if isinstance(step, (Make, Together))]
    return not any(_works(s) and s not in made for s in tail) and all(
        step.at.where in ("first", "last", "named") and not is_space(step.at.what) for step in made
    )


def _last_of_kind(tail: Sequence[Step]) -> str:
    """The kind of stitch that the steps after a repeat begin in ("… to last sc, shell in last sc"), "" for any."""
    step = next((step for step in tail if not isinstance(step, (Aside, Chain, Colour))), None)
    if not isinstance(step, (Make, Together)) or step.at.where != "last" or step.places != ONE:
        return ""
    return step.at.what if step.at.what in HEIGHT else ""
