"""Repeats: so many times, to the end, to the last n, with an ending of their own."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import Chain, Choice, Even, Make, Repeat, Skip, Step, Together
from .basket import Mark
from .context import TIMES_MORE, Overflow, Spot, TooMuch
from .grouping import Grouping
from .needs import GROUP_WORDS, Need, is_space, need_of

Bookmark = tuple[Mark, int, Spot | None]


class Repeating(Grouping):
    """Works repeats; a repeat that runs out of places is taken back to where it began."""

    def _repeat(self, step: Repeat, tail: Sequence[Step]) -> str | None:
        kind = step.times.kind
        outer = self.iteration
        if kind in ("n", "more"):
            times = step.times.number.at(self.size) or 0
            if kind == "more" and self.context.answers.pick(TIMES_MORE, ("n times more", "n times in all")) == 0:
                times += 1
            done = self._n_times(step, times)
        else:
            done = self._to_the_end(step, tail)
        self.iteration = outer
        return f"{done} times"

    def _n_times(self, step: Repeat, times: int) -> int:
        for k in range(times):
            self.iteration = k + 1
            pos, made = self.pos, len(self.basket)
            ending = (bool(step.last) or step.cut is not None) and k == times - 1
            self.run(step.body[: step.cut] if ending and step.cut is not None else step.body)
            if ending:
                self.run(step.last)
            if self.missing > self.offer.n + 1000 and not self.strict:
                return k + 1
            if self.pos == pos and len(self.basket) == made:
                return k + 1
            if times > self.context.limits.row_stitches:
                raise TooMuch
        return times

    def _endings(self, step: Repeat) -> list[tuple[Step, ...]]:
        """The ways the last repeat may run into its own ending: where it is cut off is told, or is wherever it closes the row."""
        if step.cut is not None:
            return [(*step.body[: step.cut], *step.last)]
        cuts = sorted(
            range(len(step.body) + 1), key=lambda cut: (not (cut < len(step.body) and _alike(step.body[cut], step.last[0])), -cut)
        )
        return [(*step.body[:cut], *step.last) for cut in cuts]

    def _to_the_end(self, step: Repeat, tail: Sequence[Step]) -> int:
        if self.offer.n == 0:
            self.uncounted = True
            self.iteration = 1
            self.run(step.body)
            return 1
        keep = need_of(tail, self.size)
        stop_at = step.times.number.at(self.size) or 0 if step.times.kind == "to_last" else 0
        what = step.times.what
        stop = Need(0, 0, stop_at) if what in GROUP_WORDS else Need(0, stop_at) if is_space(what) else Need(stop_at, 0)
        keep = stop if stop_at else keep
        marks: list[Bookmark] = []
        while True:
            mark = self._bookmark()
            if not self._once(step.body, len(marks) + 1) or not self._leaves(keep):
                self._return_to(mark)
                break
            marks.append(mark)
            if self.pos == mark[1] and (len(marks) > 1 or len(self.basket) == mark[0][0]):
                self._trouble("repeat-takes-nothing", step.span, "This repeat uses no place of the row below, so it never ends")
                break
        if step.last or step.cut is not None:
            return self._end_specially(step, marks, keep)
        unit = (self.pos - marks[-1][1]) if marks else 0
        self.repeats = (unit, len(marks), step.span)
        if not tail or all(not _works(s) for s in tail):
            self._part_of_repeat(step)
        return len(marks)

    def _leaves(self, keep: Need) -> bool:
        if keep.groups and (len(self._groups_ahead("group")) if self.offer.groups else self._remaining("group")) < keep.groups:
            return False
        return (keep.st == 0 or self._remaining("st") >= keep.st) and (keep.sp == 0 or self._remaining_spaces(self.pos) >= keep.sp)

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
        best: tuple[int, Bookmark, tuple[Step, ...], int] | None = None
        marks = [*marks, self._bookmark()]
        for k in range(len(marks) - 1, max(-1, len(marks) - 4), -1):
            for ending in self._endings(step):
                self._return_to(marks[k])
                gap = self.gap
                if self._once(ending, k + 1) and self._leaves(keep):
                    left = self._remaining("st") - keep.st + self.gap - gap
                    if best is None or left < best[0]:
                        best = (left, marks[k], ending, k)
                self.gap = gap
                if best is not None and best[0] == 0:
                    break
            if best is not None and best[0] == 0:
                break
        if best is None:
            self._return_to(marks[-1])
            self.run(self._endings(step)[0])
            return len(marks)
        _, mark, ending, k = best
        self._return_to(mark)
        self._once(ending, k + 1)
        self.repeats = (0, k + 1, step.span)
        return k + 1

    def _part_of_repeat(self, step: Repeat) -> None:
        """Rows often end inside a repeat without a word: on its first stitch ("* dc in next, ch 1, skip 1; rep across" ends with a dc).

        Taken only where that closes the row exactly; to end anywhere else in the repeat is a repeat that does not fit.
        """
        worked = [i for i, inner in enumerate(step.body) if _works(inner) and not isinstance(inner, Skip)]
        if self.context.in_round or self.offer.n - self.pos <= 0 or not worked:
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


def _alike(a: Step, b: Step) -> bool:
    """Whether the ending's first step takes the place of this step of the repeat."""
    if isinstance(a, Make) and isinstance(b, Make):
        return a.stitch == b.stitch
    if isinstance(a, Chain) and isinstance(b, Chain):
        return a.number == b.number
    return type(a) is type(b) and isinstance(a, (Skip, Together))


def _works(step: Step) -> bool:
    return isinstance(step, (Make, Together, Skip, Repeat, Even, Choice)) and not (isinstance(step, Make) and step.at.where == "same")
