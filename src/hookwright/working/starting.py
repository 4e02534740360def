"""Starting chains: what they stand for, and what they stand on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeGuard

from ..pattern import ONE, Aside, Chain, Choice, Even, Join, Make, Repeat, Skip, Step, Together, Turn
from ..trade.kinds import GROUPS_AS_ONE, HEIGHT
from .context import Foot, Spot
from .custom import start_chain_customs
from .fabric import RING_FOOT, How, Role
from .finding import Finding
from .needs import EVEN_ON, first_stitch, is_space
from .tiles import tiles_in


class Starting(Finding):
    """Puts the chains a row begins with."""

    def _put_start(self, answer: str, top: int, over: int, stitch: str, step: int, feet: tuple[Foot, ...], *, loop: int) -> None:
        """The chains of a start: `top` chains of which the last stands for a stitch, `over` chains of a space; or all hidden; or a loop."""
        put = self.basket.put_airy
        if answer == "loop":
            put("ch", Role.CHAIN, step, 0, self.yarn, loop)
        elif answer == "counts":
            put("ch", Role.START, step, 0, self.yarn, max(top - 1, 0))
            i = self.basket.put("ch", Role.START_TOP, step, 0, self.yarn, feet)
            self.basket.stands[i] = stitch
            put("ch", Role.CHAIN, step, 0, self.yarn, over)
        else:
            put("ch", Role.START, step, 0, self.yarn, loop)

    def _start_chain(self, step: Chain, number: int, tail: Sequence[Step]) -> str:
        stitch = first_stitch(tail) or first_stitch(self.rest_of_row) or _even_on(number, tail) or self.context.main
        told = step.stands_for
        if (high := _joined_at(self.rest_of_row, number)) and self.offer.around:
            stitch = EVEN_ON.get(high, stitch)
        answer, over = self._start_answer(step, number, stitch, tail)
        stands = stood_for(told, "dc" if stitch in GROUPS_AS_ONE and not told else stitch)  # a bare chain is no popcorn
        self.started = True
        if answer == "counts":
            self._stands_in_first_space(tail)
            if over or (tail and isinstance(tail[0], Repeat)):
                self.travelled = None  # the stitch stands in the space it was led to: "next space" is the one after
            spot = self.inside or self.last or Spot(self.origin, self.origin + 1, How.TOP)
            feet = ((1, RING_FOOT, int(How.RING)),) if self.offer.ring else self._feet(spot) if self.offer.n else ()
            if self.inside is None and self.last is None and self.offer.n:
                self.pos = max(self.pos, self.origin + 1)
                self.last = self.first_taken = spot
            self.stood = True
            self._put_start("counts", number - over, over, stands, step.id, feet, loop=0)
            return f"counts as {stands}" + (f" and ch {over}" if over else "")
        bridges = self.context.spiral and bool(tail) and isinstance(tail[0], Skip)  # "ch 3, skip 11 sts": over the gap alone
        if answer == "loop" and self.inside is None and self.last is None and self.offer.n and not bridges and not self._into_first(tail):
            self.pos = max(self.pos, self.origin + 1)
            self.last = Spot(self.origin, self.origin + 1, How.TOP)
            self.hung = True
        self._put_start(answer, 0, 0, stands, step.id, (), loop=number)
        return "does not count" if answer == "not" else "a loop"

    def _into_first(self, tail: Sequence[Step]) -> bool:
        """ "Ch 7, turn, dc in first 2 dc": the first stitch of a flat row stands there, and no chain."""
        first = next((step for step in tail if not isinstance(step, (Aside, Turn))), None)
        return not self.offer.around and isinstance(first, Make) and first.at.where == "first" and not is_space(first.at.what)

    def _stands_in_first_space(self, tail: Sequence[Step]) -> None:
        """A round that begins with a space, and whose first group goes "under the first 7 chain": the chain stands in that space too."""
        first = next((step for step in tail if not isinstance(step, Aside)), None)
        into = isinstance(first, (Make, Together)) and first.at.where == "next" and is_space(first.at.what)
        free = self.inside is None and self.last is None and not self.offer.ring
        if free and self.offer.n and isinstance(first, (Make, Together)) and first.at.between and first.at.where in ("same", "first"):
            self._ask_between(first.at)
            if is_space(first.at.what) and self._gaps_from(0):  # "ch 3, dc in same gap": the chain stands in that gap too
                gap = self._gaps_from(0)[0]
                self.last = self.first_taken = Spot(gap, gap, How.BETWEEN)
                self.pos, self.spaced, self.gapped = gap, True, True
        elif into and free and self.offer.around and self.offer.n > self.origin and self.offer.chain[self.origin]:
            self.travelled = self.last = self.first_taken = Spot(self.origin, self.offer.space_end(self.origin), How.SPACE)
            self.pos = self.last.end
        elif free and not self.offer.plain and self.offer.around and _into_same_space(first):
            space = self._find(first.at.what, replace(first.at, where="next"))
            if space is not None and space.how == How.SPACE:
                self._begin_at(space)  # "ch 3, 1 dc in same sp", though the round was joined to a stitch: it begins in the space beside it

    def _begin_at(self, spot: Spot) -> None:
        """The round begins at a space reached by slip stitches: what they passed over is met at its end."""
        length = spot.end - spot.start
        self.offer, self.runs = self.offer.from_place(spot.start), {}
        self.travelled = self.last = self.first_taken = Spot(0, length, spot.how, spot.feet)
        self.pos = length

    def _edge_is_its_group(self, tail: Sequence[Step]) -> bool:
        """ "Ch 4, turn. Shell in shell": where that shell is itself the edge, its first stitch is passed over with the rest of it, and the
        chain only reaches up to its middle."""
        first: Step | None = next((step for step in tail if not isinstance(step, (Aside, Turn))), None)
        if isinstance(first, Repeat) and first.body:
            first = first.body[0]
        if self.offer.around or not self.offer.n or self.inside is not None or self.last is not None or not isinstance(first, Together):
            return False
        into = first.at.of or first.at.what
        if first.at.where not in ("next", "first") or not (self._is_group(into) or is_space(into)):
            return False
        return bool(runs := self._open_runs()) and runs[0][0] == self.origin

    def _start_answer(self, step: Chain, number: int, stitch: str, tail: Sequence[Step]) -> tuple[str, int]:
        told = step.stands_for
        if told:
            over = stood_over(told)
            if all(word.startswith("ch") for word in told):
                return "loop", 0
            return "counts", min(over, number - 1)
        height = HEIGHT.get(stitch, 3)
        over = max(0, number - height)
        turning = (self.context.turning or {}).get((stitch, number))
        if step.counts is not None or turning is not None:
            counts = step.counts if step.counts is not None else turning
            return ("counts" if counts else "not"), 0
        if (high := _joined_at(self.rest_of_row, number)) and self.offer.around:
            answer = self.context.answers.start(f"Does ch {number}, whose chain {high} the round is joined to, count?", ("counts", "loop"))
            return answer, number - high if answer == "counts" else 0
        customs = start_chain_customs(stitch, number)
        if self.travelled is not None and not self.offer.around and "loop" not in customs:
            # a tile of a piece that grows from corner to corner hangs on its chain
            on_tiles = self.offer.stitches is not None and tiles_in(self.offer.stitches) > 1
            customs = ("loop", *customs) if on_tiles else (*customs, "loop")
        if customs == ("not", "counts") and height <= 1 and not self.offer.around and _into_space(tail):
            customs = (*customs, "loop")  # linen stitch: the last sc of the next row goes into the gap beside the ch 2
        if self.context.spiral and (number > 1 or (bool(tail) and isinstance(tail[0], Skip))):
            customs = ("loop", "counts", "not")  # a spiral climbs by itself: a chain in it spans a gap
        if number >= height and customs[0] == "counts" and self._edge_is_its_group(tail):
            question = f"Does ch {number} count before a group that goes into the group on the edge?"
            customs = ("not", *(one for one in customs if one != "not"))
            answer = self.context.answers.start(question, customs)
            return answer, over if answer == "counts" else 0
        if number == height >= 2 and customs[0] == "not" and _skips_one(tail):
            question = f"Does ch {number} count where the stitch that it stands in is skipped before a row of {stitch}?"
            return self.context.answers.start(question, ("counts", "not")), 0
        answer = self.context.answers.start(f"Does ch {number} at the start of a row of {stitch} count?", customs)
        return answer, over if answer == "counts" else 0


def _joined_at(steps: Sequence[Step], number: int) -> int:
    """ "(Ch 9, …) join in 3rd ch of ch-9": how high the stitch is that the chain begins with, its other chains a loop; 0 where the round is
    joined elsewhere (common practice, no source)."""
    join = next((step for step in reversed(steps) if not isinstance(step, Aside)), None)
    to = join.to if isinstance(join, Join) else None
    if to is None or to.where != "named" or to.what not in ("tch", "ch", f"ch-{number}") or to.nth is None:
        return 0
    return to.nth if 2 <= to.nth < number else 0


def _even_on(number: int, tail: Sequence[Step]) -> str | None:
    """ "Ch 3, turn. Next row: Work in pattern.": the stitch that so many chains are the height of, where the row itself names none (common
    practice, no source)."""
    first = next((step for step in tail if not isinstance(step, (Aside, Turn))), None)
    return EVEN_ON.get(number) if isinstance(first, Even) and first.stitch is None else None


def _into_same_space(first: Step | None) -> TypeGuard[Make | Together]:
    """Whether a round's first stitches, after its chain, go "in same space"."""
    return isinstance(first, (Make, Together)) and first.at.where == "same" and is_space(first.at.what)


def _into_space(tail: Sequence[Step]) -> bool:
    """Whether the row's first stitch, told alone or in a repeat, goes into a space."""
    told = next((step for step in tail if isinstance(step, (Make, Repeat))), None)
    step: Step | None = told.body[0] if isinstance(told, Repeat) and told.body else told
    return isinstance(step, Make) and is_space(step.at.what)


def _skips_one(tail: Sequence[Step]) -> bool:
    """ "Ch 2, skip first sc, hdc in each …": the row would lose a stitch every time if the chain stood for none."""
    step = tail[0] if tail else None
    if isinstance(step, Choice):
        step = step.answers[0][0] if step.answers and step.answers[0] else None
    return isinstance(step, Skip) and step.number == ONE and not is_space(step.what) and step.what != "ch"


def stood_for(told: Sequence[str], stitch: str) -> str:
    """The stitch in what a chain is told to count as, `stitch` when only chains are told or no kind is ("counts as a st").

    >>> stood_for(("tr", "ch 1"), "dc"), stood_for((), "dc")
    ('tr', 'dc')
    """
    return next((word for word in told if not word.startswith("ch") and word != "st"), stitch)


def stood_over(told: Sequence[str]) -> int:
    """The chains told to lie over, beyond the stitch.

    >>> stood_over(("dc", "ch 2")), stood_over(("dc",))
    (2, 0)
    """
    return next((int(word.split()[-1]) for word in told if word.startswith("ch") and word.split()[-1].isdigit()), 0)
