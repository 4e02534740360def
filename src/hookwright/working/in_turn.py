"""Rows told kind by kind: "sc in each dc and in each ch-1 sp", "sc in each dc and dc in each sc", "dc around, 3 dc in each corner".

Each place is worked as the words about its kind tell, in the order the row meets them.
"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence

from ..pattern import Aside, Make, Place, Sized, Step, Together
from .context import Spot
from .corners import IN_INCREASE, centres, in_increases
from .extending import Extending
from .needs import Need, asks_for_work, chains_of, is_space, need_of
from .offer import space_length

Rule = Make | Together


def runs_together(steps: Sequence[Step]) -> list[list[Step]]:
    """The steps, those that are runs of one row taken in turn side by side."""
    found: list[list[Step]] = []
    for step in steps:
        before = found[-1][-1] if found else None
        runs = all(isinstance(one, Make) and one.places == "rest" and one.at.where == "next" for one in (step, before))
        if runs and isinstance(before, Make) and not before.upto:
            found[-1].append(step)
        else:
            found.append([step])
    return found


class InTurn(Extending):
    """Takes several runs of one row in turn."""

    @abstractmethod
    def _kind(self, step: Make) -> str:
        """The stitch that the step works."""

    @abstractmethod
    def _one(self, kind: str, each: int, takes: int, place: Place, step: int) -> None:
        """Work into the next place of that kind."""

    @abstractmethod
    def _group(self, step: Together, tail: Sequence[Step] = ()) -> None:
        """Work a group into its place."""

    def _others_in_turn(self, step: Make, tail: Sequence[Step]) -> list[Rule]:
        """The runs told right after this one that belong with it: of places of other kinds, or of the corners."""
        others: list[Rule] = []
        behind = 0
        for k, other in enumerate(tail):
            if isinstance(other, Aside):
                continue
            if not isinstance(other, (Make, Together)) or other.places != "rest" or other.at.where != "next" or other.upto:
                break
            others.append(other)
            behind = k + 1
        if others and not step.upto and (one := self._on_the_way(tail[behind:])) is not None:
            others.append(one)  # "sc in each dc and ch-1 sp, with 3 sc in ch-2 sp"
        if not others and not step.upto and (one := self._on_the_way(tail)) is not None:
            return [one]
        named = [one.at.what for one in (step, *others)]
        if not others or len(others) > 4 or step.upto or len({(one.at.what, one.at.nth) for one in (step, *others)}) < len(named):
            return []
        cornered = [one for one in others if self._of_corners(one)]
        if cornered and (
            not self._turns_told(cornered[0]) or not all(self._of_corners(one) for one in others[others.index(cornered[0]) :])
        ):
            return []
        if self.offer.plain and not cornered and not all(self._found_here(what) for what in named):
            return []
        return others

    def _on_the_way(self, tail: Sequence[Step]) -> Rule | None:
        """ "Sc in each dc, 3 sc in the ch-2 sp", "…, 3 sc in the corner": the row's only such place, told last, is worked where it is met.

        Only where nothing is told behind it that wants a place, and the row has just as many of these spaces as are told.
        """
        told = [one for one in tail if not isinstance(one, Aside)]
        if not told or not isinstance(rule := told[0], (Make, Together)) or not isinstance(rule.places, Sized):
            return None
        if rule.at.where != "next" or rule.upto or asks_for_work(told[1:]) or need_of(told[1:], self.size).st:
            return None
        if not is_space(rule.at.what) and rule.at != Place(what="corner", span=rule.at.span):
            return None
        return rule if self._still_ahead(rule.at.what) == rule.places.at(self.size) else None

    def _still_ahead(self, what: str) -> int:
        """How many spaces (corners) of that name the row has yet to meet."""
        if what == "corner":
            return sum(spot.start >= self.pos for spot in self._corners())
        return self._remaining_spaces(self.pos, what)

    def _of_corners(self, rule: Rule) -> bool:
        return rule.at.what == "corner" or rule.at.nth == 0 or rule.at.of == IN_INCREASE

    def _turns_told(self, rule: Rule) -> bool:
        """Whether this offer has corners, or centres, to be found."""
        return bool(self._turn_spots(rule))

    def _turn_spots(self, rule: Rule) -> list[Spot]:
        if rule.at.of == IN_INCREASE:
            return in_increases(self.offer, rule.at.nth or 1)
        return centres(self.offer) if rule.at.nth == 0 else self._corners()

    def _found_here(self, what: str) -> bool:
        """Whether the words name one kind of stitch, and the row below holds some of it."""
        return what not in ("st", "ch", "any") and any(self.offer.matches(i, what) for i in range(self.pos, self.offer.n))

    def _in_turn(self, kind: str, each: int, step: Make, others: Sequence[Rule], keep: Need) -> None:
        """Whichever of the runs finds its place next, to the end (but what the steps after ask for)."""
        self.started = True
        rules = [step, *others]
        while True:
            self.strict += 1  # only looked for: a rule that has no more places is no trouble
            spots = [
                (spot.start, not self._of_corners(one), k)
                for k, one in enumerate(rules)
                if (spot := self._find(one.at.what, one.at)) is not None and self._is_there(spot, one)
            ]
            self.strict -= 1
            if not spots:
                break
            one = rules[k := min(spots)[2]]
            if keep.st and not is_space(one.at.what) and self._remaining("any") <= keep.st:
                break
            if isinstance(one, Together):
                self._group(one)
            elif one is step:
                self._one(kind, each, 1, one.at, one.id)
            else:
                self._one(self._kind(one), one.each.at(self.size) or 1, 1, one.at, one.id)
            if isinstance(one.places, Sized) and self._still_ahead(one.at.what) == 0:
                del rules[k]  # those told by number are all worked
        self.taken_in_turn.update(other.id for other in others)

    def _done_in_turn(self, step: Rule) -> bool:
        """Whether the step was worked together with the run before it; asked once for each time it comes."""
        done = step.id in self.taken_in_turn
        self.taken_in_turn.discard(step.id)
        return done

    def _is_there(self, spot: Spot, rule: Rule) -> bool:
        """Whether the spot is what the words name, not the nearest thing to it."""
        what = rule.at.what
        if self._of_corners(rule):
            return any(spot.start == turn.start for turn in self._turn_spots(rule))
        if is_space(what):
            length = chains_of(what)
            return length is None or space_length(self.offer, spot.start, spot.end) == length
        return self.offer.matches(spot.start, what)
