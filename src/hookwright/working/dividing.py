"""A row divided: its first side worked on alone, the yarn joined again for the second, and the second told as the first.

"Work across first 8 sts, turn" over 30 stitches leaves 22: said, where the yarn is joined again later, or where as many were slipped at
the beginning. "Attach yarn in next st" then goes on along the row that was divided; "complete other side to correspond" works the
first side's rows from their other end.
"""

from __future__ import annotations

import re
from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import replace
from itertools import takewhile

from ..pattern import FLAT, Aside, Chain, Colour, Even, FastenOff, Leave, Make, Refer, Repeat, Sized, Skip, Step
from .changes import mirrored
from .fabric import Role, RowWork, Stitches
from .in_order import Shaped, shape_row
from .offer import Offer, offer_of, unworked
from .plan import Due
from .round_the_edge import turns_off_the_row
from .standing import Outcome
from .trying import MISFIT, RowTrying

_DIVIDED = re.compile(r"(?i)\bdivid(?:e|ed|ing)\b")
_LEAVES = re.compile(r"(?i)\bleav(?:e|ing)\s[\w ]{1,24}?\s(?:for|unworked|free)\b")
_ONE_SIDE = re.compile(
    r"(?im)^\W{0,6}(?:shape\s|work\s|for\s)?(?:the\s)?(?:1st|first|one|left|right)\s(?:(?:front|back)\s)?(?:neck\s)?"
    r"shoulder\b[\w ]{0,20}[\W_]*(?:(?:next|1st)\srow\W*)?\Z"
)
"""The heading of one side of a divided piece, just before the row."""
_FOR_A_PART = re.compile(
    r"(?i)\bfor\s(?:(?:the|a|one|1st|first|2nd|second|left|right|back|front|other)\s){0,3}(?:shoulder|strap|front|back|side|neck|sleeve|tab|"
    r"flap|ear\s?flap|heel|half|leg)\b"
)
"""What so many stitches of a row are worked for: the rest is for another part of the piece."""
FAR = 80
"""Rows within which the second side of a divided row is looked for."""
_NEAR = 300
"""Characters before a row within which its first words may stand apart from it."""
_HANGS = re.compile(r"(?i)[\s.]*for\s(?:the|a|each)\s(?:hanger|hanging[ -]loop|button[ -]loop|loop|handle|tie|cord|strap|stem)s?\b")
"""A loop or cord told for itself: it stands on a few of the places, and the others are none of its business."""
_CORD = re.compile(r"(?i)\b(?:hang(?:er|ing)|loop|tie|cord|strap|stem|tail)s?\b")
_UNWORKED = re.compile(r"(?i)\b(?:unworked|skipped|missed|free)\s(?:sts?|stitch(?:es)?|[shdt]{1,2}\s?[cr])\b")
"""Stitches that a row below was told to leave."""
_THESE = re.compile(r"(?i)\b(?:on|over|across)\s(?:only\s)?(?:these|those)\b")


def says_it_leaves(due: Due, shaped: Shaped, outcome: Outcome) -> bool:
    """Whether the words that stop a row short say so themselves: "to within last 6 sts, turn", or as many left as were slipped over."""
    if not (shaped.turns_last or shaped.fastened or shaped.carried is not None) or outcome.offered is None or outcome.used is None:
        return False
    left = outcome.offered - outcome.used
    told = [s for s in shaped.work if isinstance(s, Make) and s.places == "rest" and any(s.but.values)]
    if any(0 < left <= max(n or 0 for n in step.but.values) for step in told):
        return True
    slipped = sum(1 for role in outcome.stitches.role if role == Role.TRAVEL)
    return 1 < left <= slipped


def _so_many_only(steps: Sequence[Step]) -> bool:
    """Whether a row tells every stitch by number, and nothing of it goes as far as there are places."""
    for step in steps:
        if isinstance(step, Repeat):
            if step.times.kind not in ("n", "more") or not _so_many_only(step.body):
                return False
        elif isinstance(step, (Refer, Even)) or getattr(step, "places", None) == "rest":
            return False
    return any(isinstance(step, Make) for step in steps)


def is_so_many(shaped: Shaped) -> bool:
    """Whether a row's work is so many stitches and no more: "work across 14 sts for left shoulder, turn"."""
    first = takewhile(lambda step: not isinstance(step, FastenOff), shaped.work)  # the other side may be told behind it
    told = [step for step in first if not isinstance(step, (Aside, Chain, Colour))]
    return len(told) == 1 and isinstance(told[0], Make) and told[0].places != "rest" and (told[0].places.values[0] or 0) > 1


def rejoins(shaped: Shaped) -> bool:
    """Whether a row begins with yarn joined anew, maybe after skipped stitches."""
    if shaped.foundation:
        return False
    for step in shaped.work:
        if isinstance(step, Colour):
            if step.join_in:
                return True
        elif not isinstance(step, (Skip, Chain, Aside)):
            return False
    return False


class Dividing(RowTrying, ABC):
    """Works both sides of a row that was divided."""

    def _divides(self, shaped: Shaped, ahead: Sequence[Due]) -> bool:
        """Whether yarn is joined again, or a second side told, before another piece begins: then what a row leaves is left on purpose."""
        if not (shaped.turns_last or shaped.carried is not None or any(isinstance(s, Leave) for s in shaped.work)):
            return False
        for later in ahead:
            coming = shape_row(later.steps, self.shared.shaped)
            if coming.foundation:
                return False
            if self.shared.nature(later.steps).side_again is not None or (rejoins(coming) and later.row.made_in == "rows"):
                return True
        return False

    parting: RowWork | None = None
    """The divided row whose second side is being worked."""
    ahead: Sequence[Due] = ()
    """The rows due after the one that is being worked."""
    laid_out: Sequence[Due] = ()
    """All rows due; none where rows are only tried."""
    at = 0
    """The place among them of the one that is being worked."""
    scalloped: frozenset[str] = frozenset()
    """Rows that leave a scallop at their end."""

    def _best(self, due: Due, work: tuple[Step, ...], offer: Offer, shaped: Shaped) -> Outcome:
        """The row's outcome; one that says that it stops short is not stretched to fit."""
        outcome = self._taken_up(self._try(work, offer, due), due, work, offer)
        outcome = self._over_the_rest(outcome, due, work, offer) if outcome.misfits >= MISFIT else outcome
        excused = self._excused(due, shaped, outcome, self.ahead)
        if excused is outcome and self._leaves_a_scallop(due, outcome, offer, shaped):
            excused = replace(outcome, misfits=0.0, troubles=())
        return excused if excused is not outcome else self._stretched(outcome, due, work, offer)

    def _taken_up(self, outcome: Outcome, due: Due, work: tuple[Step, ...], offer: Offer) -> Outcome:
        """The outcome of a short row that ends in the stitches left unworked further down, though it does not say of which row."""
        last = work[-1] if work else None
        if not isinstance(last, Make) or last.at.row or last.places == "rest" or due.row.made_in not in FLAT:
            return outcome
        if not _UNWORKED.search(last.span.of(self.pattern.source)):
            return outcome
        for row in reversed(self.rows[-FAR:-1]):
            if row.foundation or (left := self._rest_of(row, due).n) == len(row.stitches):
                break
            if left != last.places.at(self.size):
                continue
            again = replace(last, at=replace(last.at, row=row.label, below=0))
            other = self._try(self.shared.spelled.setdefault((id(work), row.index, "left"), (*work[:-1], again)), offer, due)
            better = outcome.misfits >= MISFIT or other.counted.total > outcome.counted.total
            return other if other.misfits < MISFIT and better else outcome
        return outcome

    def _excused(self, due: Due, shaped: Shaped, outcome: Outcome, ahead: Sequence[Due]) -> Outcome:
        """The outcome of a row that stops short, without the trouble where stopping short is meant."""
        if outcome.misfits >= MISFIT and all(t.kind == "too-many" for t in outcome.troubles) and turns_off_the_row(due.steps):
            return replace(outcome, misfits=0.0, troubles=())
        more = (outcome.used or 0) - (outcome.offered or 0)
        over = {t.kind for t in outcome.troubles} == {"too-many"} and not due.from_row
        if outcome.misfits >= MISFIT and over and 0 < more <= self._left_behind(due):
            return replace(outcome, misfits=0.0, troubles=())
        if outcome.misfits < MISFIT or any(t.kind != "too-few" for t in outcome.troubles):
            return outcome
        words = due.row.span.of(self.pattern.source)
        if (shaped.turns_last and (_DIVIDED.search(words) or self._left_for_later(due))) or _HANGS.match(words) or self._cord(shaped):
            return replace(outcome, misfits=0.0, troubles=())
        meant = says_it_leaves(due, shaped, outcome) or self._divides(shaped, ahead) or self._on_these(shaped, outcome, ahead)
        meant = meant or (is_so_many(shaped) and self._second_side_comes(shaped))
        meant = meant or (is_so_many(shaped) and (_FOR_A_PART.search(words) is not None or self._told_short(due, outcome)))
        begins = all(row.foundation for row in self.rows)  # "Attach yarn at the back, sc in next 8 sts, turn": an ear flap on a hat
        meant = meant or (begins and shaped.turns_last and is_so_many(shaped) and rejoins(shaped))
        if due.row.made_in == "rows" and meant:
            return replace(outcome, misfits=0.0, troubles=())
        return outcome

    def _left_behind(self, due: Due) -> int:
        """How many stitches short rows have left beyond the row below, at the end that this row comes to: "sc in next 5, sc2tog, sc in
        next st" of a heel closes over the gap and takes two of them."""
        taken = 0
        for row in self.rows[-2::-2]:
            below = self.rows[row.below - self.first_index : row.below - self.first_index + 1] if row.below is not None else []
            flat = due.row.made_in in FLAT and row.made_in in FLAT and not row.foundation and bool(below) and below[0].made_in in FLAT
            if not flat or row.offered is None or row.used is None or row.offered == row.used:
                return 0
            if row.offered > row.used:
                return row.offered - row.used - taken
            taken += row.used - row.offered
        return 0

    def _told_short(self, due: Due, outcome: Outcome) -> bool:
        """Whether the row's own count is just what its so many stitches make, far fewer than there are: "sc across 15 sts, turn. (15)"."""
        told = [count.number.at(self.size) for count in due.row.stated if not count.change]
        return bool(told) and told[-1] == outcome.counted.total and 3 * outcome.counted.total <= 2 * (outcome.offered or 0)

    def _cord(self, shaped: Shaped) -> bool:
        """ "HANGER: Join yarn at top, ch 12, sl st in same place": a piece named so that is next to nothing but its chain."""
        chains = sum(step.number.at(self.size) or 0 for step in shaped.work if isinstance(step, Chain))
        made = [step for step in shaped.work if isinstance(step, Make)]
        few = len(made) <= 2 and all(isinstance(step.places, Sized) and (step.places.at(self.size) or 0) <= 2 for step in made)
        return chains >= 6 and few and _CORD.search(self.part.name) is not None

    def _leaves_a_scallop(self, due: Due, outcome: Outcome, offer: Offer, shaped: Shaped) -> bool:
        """ "5th row: Dc in next 3 dc, ch 2, dc in next 2 dc. Ch 7, turn." of an edging: a row of so many stitches that leaves loops at its
        end, where the next row, of so many stitches too, goes on with just what it made."""
        if outcome.misfits < MISFIT or due.row.made_in != "rows" or not (shaped.turns_last or shaped.carried):
            return False
        if {t.kind for t in outcome.troubles} != {"too-few"} or not _so_many_only(shaped.work):
            return False
        left = offer.space[outcome.reached :] if outcome.reached and offer.space else ()
        if len({one for one in left if one >= 0}) < 2:
            return False
        if due.from_row in self.scalloped:
            return True
        meant = bool(self.ahead) and _so_many_only(self.ahead[0].steps) and not self._probe(outcome.stitches, due, shaped, self.ahead[:1])
        if meant:
            self.scalloped = self.scalloped | {due.label}
        return meant

    @abstractmethod
    def _probe(self, below: Stitches, due: Due, shaped: Shaped, ahead: Sequence[Due]) -> float:
        """The penalty of the next rows if `below` is what they are offered."""

    def _left_for_later(self, due: Due) -> bool:
        """Whether the words between the last row and this one say that a part is left: "Leave 4 shells for the back of the neck", or
        head one side of it: "FIRST SHOULDER"."""
        end = due.row.span.start
        before = max((row.written.span.end for row in self.rows if row.written.span.end <= end), default=end)
        between = self.pattern.source[max(before, end - _NEAR) : end]
        return bool(_LEAVES.search(between) or _ONE_SIDE.search(between))

    def _second_side_comes(self, shaped: Shaped) -> bool:
        """Whether, after the rows of this side, stitches are skipped and the yarn joined for another, or that side is told as this one."""
        if not shaped.turns_last:
            return False
        for later in self.laid_out[self.at + 1 : self.at + 1 + FAR]:
            coming = shape_row(later.steps, self.shared.shaped)
            if coming.foundation:
                return False
            if self.shared.nature(later.steps).side_again is not None or (
                rejoins(coming) and any(isinstance(step, Skip) for step in coming.work)
            ):
                return True
        return False

    def _on_these(self, shaped: Shaped, outcome: Outcome, ahead: Sequence[Due]) -> bool:
        """ "1 sc in each of 12 sc, turn. Work 9 rows on these 12 stitches": the row after names what this one made, and no more."""
        if not shaped.turns_last or not ahead:
            return False
        told = [step for step in ahead[0].row.steps if isinstance(step, Make)]
        if not told and any(isinstance(step, Even) for step in ahead[0].row.steps):  # "work even on these sts for 5 more rows"
            return bool(_THESE.search(ahead[0].row.span.of(self.pattern.source)))
        if len(told) != 1 or told[0].places == "rest":
            return False
        same = abs((told[0].places.at(self.size) or 0) - outcome.counted.total) <= 1  # with the chain that begins it, or without
        return same and bool(_THESE.search(ahead[0].row.span.of(self.pattern.source)))

    def _divided(self) -> tuple[RowWork, Offer] | None:
        """The row that was divided, and what is left of it: of the rows with stitches that nothing stands on, the one with most of them."""
        best: tuple[int, RowWork, Offer] | None = None
        index = self.first_index + len(self.rows)
        for row in reversed(self.rows[:-1]):
            if row.foundation:
                break
            used = self._used_of(row)
            if not used:
                continue
            later = next((r for r in self.rows[row.index - self.first_index + 1 :] if r.below == row.index), None)
            turned = later.direction != row.direction if later is not None else False
            whole = offer_of(row.stitches, turned=turned, around=False, back=index - row.index)
            rest = unworked(whole, used)
            if 1 < rest.n < whole.n and (best is None or rest.n > best[0]):
                best = (rest.n, row, rest)
        return None if best is None else best[1:]

    def _rest_offer(self, due: Due, shaped: Shaped) -> Offer | None:
        """What is left of the divided row, for a row that joins the yarn anew."""
        if not self.state.fastened or due.row.made_in != "rows" or not rejoins(shaped):
            return None
        found = self._divided()
        if found is None:
            return None
        row, offer = found
        self.parting = row
        first = next((r for r in self.rows if r.below == row.index), None)
        if first is not None:
            self.state.direction, self.state.side, self.state.turned = first.direction, first.side, first.turned
        self.state.below, self.state.below_index, self.state.total = row.stitches, row.index, offer.n
        return offer

    def _second_side(self, due: Due, refer: Refer) -> bool:
        """Work the rows of the side before once more, from their other end; False when there is no such side."""
        found = None if self.parting is not None else self._divided()
        last_end = max((i for i, r in enumerate(self.rows) if r.index in self.ended), default=-1)
        divided = self.parting if found is None else found[0]
        if divided is None and last_end < 0:
            return False
        begins = self.ended_from(divided, last_end)
        side = [r for r in self.rows[begins : last_end + 1] if not r.foundation] if last_end >= begins else []
        done = len(self.rows) - 1 - last_end
        todo = [self.worked_from[r.index] for r in side[done:] if r.index in self.worked_from]
        if not todo:
            return False
        before, mine = due.steps[: due.steps.index(refer)], len(self.rows)
        for k, one in enumerate(todo):
            steps = mirrored(one.steps) if refer.reverse else one.steps
            if not k and before:
                steps = (*before, *(s for s in steps if not isinstance(s, Colour)))
            steps = self.follow.shared(steps)
            again = replace(
                one, steps=steps, written=due.written or due.row, until=None, number=due.number + k if due.number and due.of > 1 else None,
                stated=(), from_row=one.label, k=one.k,
            )  # fmt: skip
            self._row(again, ())
        # Its words were written for the other side: what does not fit here is no certain mistake.
        self.rows[mine:] = [replace(row, doubt=row.doubt + 2) if row.troubles else row for row in self.rows[mine:]]
        return True

    def ended_from(self, divided: RowWork | None, last_end: int) -> int:
        """Where the side begins that ends at row `last_end`: after the divided row, or after the side before it."""
        last = self.rows[last_end].written
        earlier = max((i for i, r in enumerate(self.rows[:last_end]) if r.index in self.ended and r.written is not last), default=-1)
        if divided is not None:
            return max(divided.index - self.first_index + 1, earlier + 1)
        return earlier + 1

    @abstractmethod
    def _row(self, due: Due, ahead: Sequence[Due]) -> None:
        """Work one row; `ahead` are those after it."""


__all__ = ["Dividing", "rejoins", "says_it_leaves"]
