"""The hand that works one row: it walks the offer step by step, and keeps what it took, made, missed and passed over."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..pattern import (
    Aside,
    Chain,
    Choice,
    Colour,
    Even,
    FastenOff,
    Join,
    Leave,
    Limits,
    Make,
    Place,
    Refer,
    Repeat,
    Ring,
    Shape,
    Sized,
    Skip,
    Span,
    Step,
    Times,
    Together,
    Turn,
    Unread,
)
from ..trade.kinds import FOUNDATION_STITCHES, base, closes
from .basket import Basket, Mark
from .custom import HEIGHT, Answers, skipped_customs, start_chain_customs
from .fabric import RING_FOOT, Derived, How, Role, RowTrouble
from .needs import NONE, Need, first_stitch, is_space, need_of
from .offer import HOW_OF_LOOP, Offer, offer_of
from .shapings import spread_evenly

CHAINS_ARE_STITCHES = "Do chains count as stitches to be worked into?"
TIMES_MORE = "Does 'repeat from * n times' mean n times more, or n times in all?"


class Overflow(Exception):
    """A repeat asked for more places than there are: that repeat is taken back."""


class TooMuch(Exception):
    """A bound of `Limits` was reached."""


class Spot:
    """One target: places [start, end) of the offer, and how it is entered. `feet` overrides when the target lies elsewhere."""

    __slots__ = ("end", "feet", "how", "start")

    def __init__(self, start: int, end: int, how: How, feet: tuple[tuple[int, int, int], ...] | None = None) -> None:
        self.start, self.end, self.how, self.feet = start, end, how, feet


@dataclass(slots=True)
class Context:
    """What a row needs to know besides its offer."""

    size: int
    limits: Limits
    answers: Answers
    main: str
    """The stitch that "inc", "dec", "work even" mean when the words do not say."""
    deeper: tuple[Offer, ...] = ()
    """The offers of the rows further down: [0] is what the row below was offered, in this row's order."""
    turning: dict[tuple[str, int], bool] | None = None
    """(stitch, chains) → counts, as the front matter or the notes say."""
    in_round: bool = False


class Hand:
    """Works the steps of one row on one offer."""

    def __init__(self, offer: Offer, context: Context, yarn: str) -> None:
        self.offer = offer
        self.context = context
        self.size = context.size
        self.basket = Basket(yarn)
        self.yarn = 0
        self.pos = 0
        self.last: Spot | None = None
        self.inside: Spot | None = None
        self.started = False
        self.strict = 0
        self.iteration = 0
        self.missing = 0
        self.gap = 0
        self.spaced = False
        self.leaves = False
        self.unread = False
        self.uncounted = False
        self.partial = False
        self.stood = False
        self.travelled: Spot | None = None
        self.extra_offered = 0
        self.chains_moved = 0
        self.skipped: list[int] = []
        self.troubles: list[RowTrouble] = []
        self.derivation: list[Derived] = []
        self.repeats: tuple[int, int, Span] | None = None
        self.rest_of_row: Sequence[Step] = ()
        self.ended_on: Span | None = None

    # --- the row as a whole -------------------------------------------------------------------------------------------------

    def work(self, steps: Sequence[Step]) -> None:
        """Work the row's steps, one line of derivation each."""
        for i, step in enumerate(steps):
            pos, made, missing = self.pos, self._stitches(), self.missing
            self.rest_of_row = steps[i + 1 :]
            note = self.step(step, steps[i + 1 :]) or ""
            took = self.pos - pos + self.missing - missing
            if took or self._stitches() != made or note:
                self.derivation.append(Derived(step.id, step.span, took, self._stitches() - made, self._stitches(), note))

    def _stitches(self) -> int:
        role = self.basket.role
        return role.count(Role.STITCH) + role.count(Role.START_TOP)

    def leftover(self) -> int:
        """Places that should have been used and were not."""
        if self.leaves or self.offer.n == 0:
            return 0
        if self.spaced:
            return self.gap if self.gap and not self._space_left() else self._space_left()
        left = self.offer.n - self.pos
        if not self.offer.plain:
            left = self.offer.n - self.pos if self._chains_are_stitches() else self.offer.chain.count(0, self.pos)
        return left + self.gap

    def _space_left(self) -> int:
        return self._remaining_spaces(self.pos)

    # --- one step ------------------------------------------------------------------------------------------------------------

    def run(self, steps: Sequence[Step]) -> None:
        for i, step in enumerate(steps):
            self.step(step, steps[i + 1 :])

    def step(self, step: Step, tail: Sequence[Step]) -> str | None:
        """Work one step; `tail` are the steps after it on its level. Returns a remark for the derivation."""
        if step.only is not None and self.size not in step.only:
            return None
        if len(self.basket) > self.context.limits.row_stitches:
            raise TooMuch
        match step:
            case Make():
                return self._make(step, tail)
            case Together():
                return self._together(step, tail)
            case Chain():
                return self._chain(step, tail)
            case Skip():
                self._skip(step)
            case Repeat():
                return self._repeat(step, tail)
            case Leave():
                if step.number is None:
                    self.leaves = True
                else:
                    self.pos = min(self.offer.n, self.pos + (step.number.at(self.size) or 0))
            case Colour():
                self.yarn = self.basket.use_colour(step.yarn)
            case Even():
                kind = step.stitch or self.context.main
                self._rest(kind, 1, 1, Place(), 0, step.id, need_of(tail, self.size))
            case Choice():
                answer = self.context.answers.pick(step.question, len(step.answers))
                self.run(step.answers[answer])
                return step.question
            case Unread():
                self.unread = True
            case Join():
                self.run(step.closing)
            case Shape():
                self._spread(step, need_of(tail, self.size))
            case Turn() | Ring() | FastenOff() | Aside() | Refer():
                pass
        return None

    # --- making --------------------------------------------------------------------------------------------------------------

    def _kind(self, step: Make) -> str:
        if step.stitch == "inc":
            return step.main or self.context.main
        if step.stitch == "dec":
            return f"{step.main or self.context.main}2tog"
        return step.stitch

    def _make(self, step: Make, tail: Sequence[Step]) -> str | None:
        kind = self._kind(step)
        each = step.each.at(self.size) or 0
        if step.stitch == "inc" and each == 1:
            each = 2
        places = 0 if step.places == "rest" else step.places.at(self.size) or 0
        if not each or (step.places != "rest" and places <= 0):
            return None
        self._bound(each * max(places, 1))
        takes = max(step.closes, closes(kind))
        if kind == "picot":
            self._hanging(step, places)
            return None
        if self.inside is not None and step.at.where in ("next", "same", "ring"):
            self._into(self.inside, kind, each * max(places, 1), step.id)
            return None
        if kind == "sl st" and not self.started and self._only_travels(tail):
            self._travel(places, step)
            return None
        where = step.at.where
        if where == "hook" or (kind in FOUNDATION_STITCHES and self.offer.n == 0):
            self.started = True
            self.basket.put_airy(kind, Role.STITCH, step.id, self.iteration, self.yarn, each * max(places, 1))
        elif where == "ring" or self.offer.ring:
            self._in_ring(kind, each * max(places, 1), step)
        elif where == "under" and self.offer.foundation and not self.extra_offered:
            self._other_side()
            self._next(kind, each, places, takes, step, tail)
        elif where in ("row_end", "marked") or self.offer.n == 0:
            self._uncounted_place(kind, each, places, step)
        elif where == "same":
            self._same(kind, each * max(places, 1), takes, step)
        elif where == "first":
            self._first(kind, each, max(places, 1), takes, step)
        elif where == "last":
            self._last(kind, each, places, takes, step)
        elif where == "from_hook":
            self._from_hook(kind, each, places, takes, step)
        elif where == "skipped":
            self._in_skipped(kind, each, max(places, 1), step)
        elif where == "named":
            self._named(kind, each, max(places, 1), step)
        else:
            self._next(kind, each, places, takes, step, tail)
        return "in each" if step.places == "rest" else None

    def _bound(self, number: int) -> None:
        if len(self.basket) + number > self.context.limits.row_stitches:
            raise TooMuch

    def _how(self, place: Place, default: How = How.TOP) -> How:
        if place.post:
            return How.FRONT_POST if place.post == "front" else How.BACK_POST
        if place.between:
            return How.BETWEEN
        return HOW_OF_LOOP[place.loop] if place.loop != "both" else default

    def _how_for(self, kind: str, place: Place) -> How:
        if kind[:2] == "FP":
            return How.FRONT_POST
        if kind[:2] == "BP":
            return How.BACK_POST
        return self._how(place)

    def _feet(self, spot: Spot) -> tuple[tuple[int, int, int], ...]:
        if spot.feet is not None:
            return spot.feet
        middle = spot.start if spot.end - spot.start < 2 else (spot.start + spot.end - 1) // 2
        if spot.start >= self.offer.n:
            return ()
        return ((self.offer.back, self.offer.at[middle], int(spot.how)),)

    def _into(self, spot: Spot, kind: str, number: int, step: int) -> None:
        """Work `number` stitches of one kind, all into `spot`."""
        self.started = True
        feet = self._feet(spot)
        role = Role.STITCH
        for _ in range(number):
            self.basket.put(kind, role, step, self.iteration, self.yarn, feet)

    def _in_ring(self, kind: str, number: int, step: Make) -> None:
        self.started = True
        spot = Spot(0, 0, How.RING, ((1, RING_FOOT, int(How.RING)),))
        self._into(spot, kind, number, step.id)
        self.last = spot

    def _uncounted_place(self, kind: str, each: int, places: int, step: Make) -> None:
        """Row ends, marked stitches, a piece that was not counted: the stitches count, the places are not checked."""
        self.started = True
        if step.places == "rest":
            self.uncounted = True
            return
        how = How.SIDE if step.at.where == "row_end" else How.TOP
        self._into(Spot(0, 0, how, ((1, RING_FOOT, int(how)),) if how == How.SIDE else ()), kind, each * places, step.id)

    def _same(self, kind: str, number: int, takes: int, step: Make) -> None:
        spot = self.last if self.last is not None else Spot(0, 1, self._how_for(kind, step.at))
        if self.last is None and self.pos == 0:
            self.pos = 1
        if takes > 1:
            feet = list(self._feet(spot))
            for _ in range(takes - 1):
                extra = self._find("st", step.at)
                if extra is None:
                    self._overflow(1)
                    break
                self._take(extra)
                feet.extend(self._feet(extra))
            self.started = True
            self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, tuple(feet))
            return
        self._into(spot, kind, number, step.id)
        self.last = spot

    def _first(self, kind: str, each: int, places: int, takes: int, step: Make) -> None:
        if self.pos > 0 and places * takes > 1 and not self.stood:
            self._next(kind, each, places, takes, step, ())
            return
        if self.stood and places * takes == 1:
            self._into(Spot(0, 1, self._how_for(kind, step.at)), kind, each, step.id)
            self.last = Spot(0, 1, How.TOP)
            return
        self.pos = 0 if not self.stood else self.pos
        self._next(kind, each, places, takes, step, ())

    def _last(self, kind: str, each: int, places: int, takes: int, step: Make) -> None:
        want = max(places, 1) * takes
        what = step.at.what
        if is_space(what):
            self._next(kind, each, places, takes, step, ())
            return
        start = self._from_end(want, what)
        if start > self.pos:
            between = self.offer.chain.count(0, self.pos, start) if not self._chains_are_stitches() else start - self.pos
            self.gap += 0 if self.leaves or self.spaced else between
            self.pos = start
        self._next(kind, each, places, takes, step, ())

    def _from_end(self, want: int, what: str) -> int:
        """The place from which `want` places of `what` are left."""
        i, n = self.offer.n, want
        any_place = self._chains_are_stitches()
        while i > 0 and n > 0:
            i -= 1
            if any_place or not self.offer.chain[i]:
                n -= 1
        return i

    def _in_skipped(self, kind: str, each: int, places: int, step: Make) -> None:
        """Into places passed over before in this row: nothing more is used."""
        self.started = True
        how = self._how_for(kind, step.at)
        feet_of = self.skipped[-places:] if len(self.skipped) >= places else []
        del self.skipped[len(self.skipped) - len(feet_of) :]
        for k in range(places):
            feet: tuple[tuple[int, int, int], ...] = ()
            if k < len(feet_of):
                feet = self._deep_feet(feet_of[k], step.at.below, how)
            for _ in range(each):
                self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, feet)

    def _named(self, kind: str, each: int, places: int, step: Make) -> None:
        spot = self._find_top(step.at) or self._find(step.at.what, step.at)
        if spot is None:
            self._overflow(1)
            spot = Spot(self.offer.n - 1, self.offer.n, How.TOP)
        self._take(spot)
        self._into(spot, kind, each * places, step.id)

    def _find_top(self, place: Place) -> Spot | None:
        """The top of a counted turning chain, when that is what the words name."""
        if not place.what.startswith(("ch-", "tch", "turning", "beg")) or is_space(place.what):
            return None
        stitches = self.offer.stitches
        if stitches is None:
            return None
        for i in range(self.pos, self.offer.n):
            if stitches.role[self.offer.at[i]] == Role.START_TOP:
                return Spot(i, i + 1, How.TOP)
        last = self.offer.n - 1
        if self.pos <= last:
            if not self.strict:
                self._trouble("top-not-counted", place.span, f"{place.what} below does not count as a stitch, so its top is no place")
            return Spot(last, last + 1, How.TOP)
        return None

    def _from_hook(self, kind: str, each: int, places: int, takes: int, step: Make) -> None:
        nth = step.at.nth or 1
        skipped = nth - 1
        if self.offer.foundation and not self.started and self.pos == 0:
            self.pos = min(skipped, self.offer.n)
            stitch = base(kind)
            customs = skipped_customs(stitch, skipped)
            answer = customs[self.context.answers.pick(f"Do the {skipped} skipped chains before {stitch} count?", len(customs))]
            top = min(HEIGHT.get(stitch, 3), skipped)
            over = 0 if answer != "counts" else (skipped - top + 1) // 2
            moved = min(skipped, self.offer.n)
            self.chains_moved = {"counts": top + over, "not": moved, "loop": moved}[answer]
            base_foot = ((1, self.offer.at[self.pos], int(How.TOP)),) if self.pos < self.offer.n else ()
            self._put_start(answer, top, over, stitch, step.id, base_foot, loop=moved)
        elif self.offer.foundation:
            self.pos = max(self.pos, min(skipped, self.offer.n))
        self._next(kind, each, places, takes, step, ())

    def _put_start(
        self, answer: str, top: int, over: int, stitch: str, step: int, feet: tuple[tuple[int, int, int], ...], *, loop: int
    ) -> None:
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

    def _other_side(self) -> None:
        """Go on along the other side of the foundation chain, from the chain before the last one worked to the first one worked."""
        first = self._first_entered()
        assert self.offer.stitches is not None
        self.extra_offered = self.offer.n
        under = list(self.offer.at[first : max(self.pos - 1, first)])[::-1]
        self.offer = Offer(
            stitches=self.offer.stitches, at=under, chain=bytes(len(under)), space=(), plain=True, back=self.offer.back, foundation=True,
        )  # fmt: skip
        self.pos = 0

    def _first_entered(self) -> int:
        element = next((self.basket.foot_at[f] for f in range(len(self.basket.foot_at)) if self.basket.foot_at[f] >= 0), None)
        return list(self.offer.at).index(element) if element is not None and element in self.offer.at else 0

    # --- the next places ------------------------------------------------------------------------------------------------------

    def _next(self, kind: str, each: int, places: int, takes: int, step: Make, tail: Sequence[Step]) -> None:
        place = step.at
        if step.places == "rest":
            self._rest(kind, each, takes, place, step.but.at(self.size) or 0, step.id, need_of(tail, self.size))
            return
        if place.below:
            self._below(kind, each, places, step)
            return
        self.started = True
        if step.evenly:
            self._into(Spot(self.pos, self.pos + 1, How.TOP), kind, each * places, step.id)
            self.pos = self.offer.n
            return
        if self.offer.plain and self._plain_target(place) and takes == 1:
            self._plain_run(kind, each, places, place, step.id)
            return
        for _ in range(places):
            self._one(kind, each, takes, place, step.id)

    def _plain_target(self, place: Place) -> bool:
        return (place.what == "st" or (self.offer.foundation and place.what == "ch")) and not place.between

    def _plain_run(self, kind: str, each: int, places: int, place: Place, step: int) -> None:
        take = min(places, self.offer.n - self.pos)
        at = self.offer.at[self.pos : self.pos + take]
        how = self._how_for(kind, place)
        if take > 0:
            if each > 1:
                at = [a for a in at for _ in range(each)]
            self.basket.put_run(kind, step, self.iteration, self.yarn, self.offer.back, at, how)
            self.pos += take
            self.last = Spot(self.pos - 1, self.pos, how)
        if places > take:
            self._overflow(places - take)
            self._into(Spot(self.offer.n, self.offer.n, how), kind, (places - take) * each, step)

    def _one(self, kind: str, each: int, takes: int, place: Place, step: int) -> None:
        self.started = True
        feet: list[tuple[int, int, int]] = []
        spot: Spot | None = None
        how = self._how_for(kind, place)
        for _ in range(takes):
            spot = self._find(place.what, place)
            if spot is None:
                self._overflow(1)
                continue
            if spot.how == How.TOP:
                spot.how = how
            self._take(spot)
            feet.extend(self._feet(spot))
        for _ in range(each):
            self.basket.put(kind, Role.STITCH, step, self.iteration, self.yarn, tuple(feet))

    def _rest(self, kind: str, each: int, takes: int, place: Place, but: int, step: int, tail: Need) -> None:
        """One (or `each`) in every place that is left, but the last `but` and what the steps after ask for."""
        self.started = True
        if self.offer.n == 0:
            self.uncounted = True
            return
        what = place.what
        if self.offer.plain and self._plain_target(place):
            left = self.offer.n - self.pos - but - tail.st
            if left > 0:
                self._bound(left * each)
                if takes == 1:
                    self._plain_run(kind, each, left, place, step)
                else:
                    for _ in range(left // takes):
                        self._one(kind, each, takes, place, step)
            return
        left = self._remaining(what) - but - (tail.sp if is_space(what) else tail.st)
        for _ in range(max(left, 0) // takes):
            self._one(kind, each, takes, place, step)

    def _remaining(self, what: str) -> int:
        if is_space(what):
            return self._remaining_spaces(self.pos, what)
        if what in ("st", "any"):
            return self.offer.n - self.pos if self._chains_are_stitches() else self.offer.chain.count(0, self.pos)
        found = sum(1 for i in range(self.pos, self.offer.n) if self.offer.matches(i, what))
        if found == 0 and what not in ("ch",):
            groups = sum(1 for i in range(self.pos, self.offer.n) if (g := self.offer.group_at(i)) and g[2] == what)
            return groups or self.offer.chain.count(0, self.pos)
        return found

    def _remaining_spaces(self, start: int, what: str = "sp") -> int:
        if self.offer.plain:
            return 0
        space = self.offer.space
        seen = {g for g in space[start:] if g >= 0}
        if what.startswith("ch-") and seen:
            length = _chains_of(what)
            right = {g for g in seen if self._length_of_space(g) == length}
            return len(right) if right else len(seen)
        return len(seen)

    def _length_of_space(self, group: int) -> int:
        return sum(1 for g in self.offer.space if g == group)

    def _chains_are_stitches(self) -> bool:
        if self.offer.plain:
            return False
        return self.context.answers.pick(CHAINS_ARE_STITCHES, 2) == 1

    def _find(self, what: str, place: Place) -> Spot | None:
        """The next place of this kind at or after where the hand is."""
        offer, n = self.offer, self.offer.n
        if is_space(what):
            self.spaced = True
            return self._find_space(what)
        if what == "st":
            if offer.plain or self._chains_are_stitches():
                return Spot(self.pos, self.pos + 1, How.TOP) if self.pos < n else None
            i = offer.chain.find(0, self.pos)
            return Spot(i, i + 1, How.TOP) if i >= 0 else None
        if what in ("shell", "V-st", "fan", "group", "cl", "picot"):
            for i in range(self.pos, n):
                group = offer.group_at(i)
                if group and (group[2] == what or what in ("group",)):
                    self.spaced = True
                    return self._middle_of(group)
        for i in range(self.pos, n):
            if offer.matches(i, what):
                return Spot(i, i + 1, How.TOP)
        i = offer.chain.find(0, self.pos)
        if i < 0:
            return None
        return Spot(i, i + 1, How.TOP)

    def _middle_of(self, group: tuple[int, int, str]) -> Spot:
        """The middle of a shell: its own space where it has one in the middle, else its middle stitch."""
        start, end, _ = group
        middle = (start + end - 1) // 2
        for i in (middle, middle + (1 if (end - start) % 2 == 0 else 0)):
            if i < end and self.offer.chain[i]:
                return Spot(start, end, How.SPACE, ((self.offer.back, self.offer.at[i], int(How.SPACE)),))
        return Spot(start, end, How.TOP, ((self.offer.back, self.offer.at[middle], int(How.TOP)),))

    def _find_space(self, what: str) -> Spot | None:
        offer = self.offer
        if offer.plain:
            return None
        if self.travelled is not None:
            spot, self.travelled = self.travelled, None
            return spot
        length = _chains_of(what)
        first: Spot | None = None
        i = self.pos
        while 0 <= i < offer.n:
            i = offer.chain.find(1, i)
            if i < 0:
                break
            if i > 0 and offer.space[i - 1] == offer.space[i] and i == self.pos and self.last is not None and self.last.end == i:
                i = offer.space_end(i)
                continue
            end = offer.space_end(i)
            spot = Spot(i, end, How.SPACE)
            if length is None or end - i == length:
                return spot
            first = first or spot
            i = end
        return first

    def _take(self, spot: Spot) -> None:
        self.travelled = None
        self.pos = max(self.pos, spot.end)
        self.last = spot

    def _overflow(self, places: int) -> None:
        if self.strict:
            raise Overflow
        self.missing += places

    def _below(self, kind: str, each: int, places: int, step: Make) -> None:
        """Into rows further down: the places above are covered, unless the words skip them themselves."""
        self.started = True
        how = self._how_for(kind, step.at)
        covers = not any(isinstance(s, Skip) for s in self.rest_of_row[:1])
        for k in range(places):
            i = min(self.pos + (0 if covers else k), self.offer.n - 1)
            feet = self._deep_feet(i, step.at.below, how)
            if covers:
                if self.pos >= self.offer.n:
                    self._overflow(1)
                else:
                    self.pos += 1
                    self.last = Spot(self.pos - 1, self.pos, how)
            for _ in range(each):
                self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, feet)

    def _deep_feet(self, i: int, below: int, how: How) -> tuple[tuple[int, int, int], ...]:
        """The foot `below` rows under place i, followed down from foot to foot."""
        if not 0 <= i < self.offer.n:
            return ()
        if below <= 0 or not self.context.deeper:
            return ((self.offer.back, self.offer.at[i], int(how)),)
        share = i / max(self.offer.n - 1, 1)
        deep = self.context.deeper[min(below, len(self.context.deeper)) - 1]
        if deep.n == 0:
            return ((self.offer.back, self.offer.at[i], int(how)),)
        return ((deep.back, deep.at[round(share * (deep.n - 1))], int(how)),)

    # --- chains, skips, groups -------------------------------------------------------------------------------------------------

    def _chain(self, step: Chain, tail: Sequence[Step]) -> str | None:
        number = step.number.at(self.size) or 0
        if number <= 0:
            return None
        self._bound(number)
        if not self.started and not step.foundation:
            return self._start_chain(step, number, tail)
        self.basket.put_airy("ch", Role.CHAIN, step.id, self.iteration, self.yarn, number)
        return None

    def _start_chain(self, step: Chain, number: int, tail: Sequence[Step]) -> str:
        stitch = first_stitch(tail) or first_stitch(self.rest_of_row) or self.context.main
        told = step.stands_for
        answer, over = self._start_answer(step, number, stitch)
        stands = next((word for word in told if not word.startswith("ch")), stitch)
        self.started = True
        if answer == "counts":
            spot = self.inside or self.last or Spot(0, 1, How.TOP)
            feet = ((1, RING_FOOT, int(How.RING)),) if self.offer.ring else self._feet(spot) if self.offer.n else ()
            if self.inside is None and self.last is None and self.offer.n:
                self.pos = max(self.pos, 1)
                self.last = spot
            self.stood = True
            self._put_start("counts", number - over, over, stands, step.id, feet, loop=0)
            return f"counts as {stands}" + (f" and ch {over}" if over else "")
        if answer == "loop" and self.inside is None and self.last is None and self.offer.n:
            self.pos = max(self.pos, 1)
            self.last = Spot(0, 1, How.TOP)
        self._put_start(answer, 0, 0, stands, step.id, (), loop=number)
        return "does not count" if answer == "not" else "a loop"

    def _start_answer(self, step: Chain, number: int, stitch: str) -> tuple[str, int]:
        told = step.stands_for
        if told:
            over = next((int(w.split()[-1]) for w in told if w.startswith("ch") and w.split()[-1].isdigit()), 0)
            if all(word.startswith("ch") for word in told):
                return "loop", 0
            return "counts", min(over, number - 1)
        height = HEIGHT.get(stitch, 3)
        over = max(0, number - height)
        turning = (self.context.turning or {}).get((stitch, number))
        if step.counts is not None or turning is not None:
            counts = step.counts if step.counts is not None else turning
            return ("counts" if counts else "not"), 0
        customs = start_chain_customs(stitch, number)
        answer = customs[self.context.answers.pick(f"Does ch {number} at the start of a row of {stitch} count?", len(customs))]
        return answer, over if answer == "counts" else 0

    def _skip(self, step: Skip) -> None:
        self.started = True
        number = step.number.at(self.size) or 0
        place = Place(what=step.what)
        if self.offer.n == 0:
            return
        if self.offer.plain and not is_space(step.what):
            take = min(number, self.offer.n - self.pos)
            self.skipped.extend(range(self.pos, self.pos + take))
            self.pos += take
            if number > take:
                self._overflow(number - take)
            return
        spaced = self.spaced
        for _ in range(min(number, self.offer.n + 1)):
            spot = self._find(step.what, place)
            if spot is None:
                self._overflow(1)
                continue
            self.skipped.extend(range(spot.start, spot.end))
            self.pos = max(self.pos, spot.end)
        self.spaced = spaced

    def _together(self, step: Together, tail: Sequence[Step]) -> str | None:
        if step.places == "rest":
            need = need_of(tail, self.size)
            what = step.at.what
            left = self._remaining(what) - (step.but.at(self.size) or 0) - (need.sp if is_space(what) else need.st)
            places = max(left, 0) if self.offer.n else 0
            self.uncounted = self.uncounted or not self.offer.n
        else:
            places = step.places.at(self.size) or 0
        for _ in range(places):
            self._group(step)
        return step.name

    def _group(self, step: Together) -> None:
        spot = self._spot_for(step.at)
        first = len(self.basket)
        outer, self.inside = self.inside, spot
        try:
            self.run(step.body)
        finally:
            self.inside = outer
        if outer is None:
            self.last = spot
        self.started = True
        if step.name and len(self.basket) > first:
            self.basket.groups.append((first, len(self.basket) - first, step.name))

    def _spot_for(self, place: Place) -> Spot:
        """The spot a group goes into; taken unless it was taken before."""
        where = place.where
        if self.inside is not None and where in ("next", "same"):
            return self.inside
        if where == "ring" or self.offer.ring:
            return Spot(0, 0, How.RING, ((1, RING_FOOT, int(How.RING)),))
        if self.offer.n == 0 or where in ("row_end", "marked", "hook"):
            return Spot(0, 0, How.SIDE, ())
        if where == "same":
            spot = self.last or Spot(0, 1, How.TOP)
            if self.last is None:
                self.pos = max(self.pos, 1)
            return spot
        if where == "first":
            spot = Spot(0, 1, self._how(place))
            self.pos = max(self.pos, 1)
            return spot
        if where == "last" and not is_space(place.what):
            start = self._from_end(1, place.what)
            if start > self.pos and not self.spaced and not self.leaves:
                self.gap += self.offer.chain.count(0, self.pos, start)
            self.pos = max(self.pos, start)
        if where == "from_hook" and self.offer.foundation:
            self._from_hook_group(place)
        found = self._find_top(place) if where == "named" else None
        found = found or self._find(place.what, place)
        if found is None:
            self._overflow(1)
            return Spot(self.offer.n, self.offer.n, How.TOP, ())
        if found.how == How.TOP:
            found.how = self._how(place)
        self._take(found)
        return found

    def _from_hook_group(self, place: Place) -> None:
        skipped = (place.nth or 1) - 1
        if not self.started and self.pos == 0:
            self.pos = min(skipped, self.offer.n)
            self.chains_moved = self.pos
            self.basket.put_airy("ch", Role.START, 0, 0, self.yarn, self.pos)

    def _hanging(self, step: Make, places: int) -> None:
        """A picot: three chains closed on the stitch before; it takes no place and offers none."""
        self.started = True
        on = len(self.basket) - 1
        for _ in range(max(places, 1)):
            first = len(self.basket)
            self.basket.put_airy("ch", Role.HANGING, step.id, self.iteration, self.yarn, 3)
            self.basket.put("sl st", Role.HANGING, step.id, self.iteration, self.yarn, ((0, max(on, 0), int(How.TOP)),))
            self.basket.groups.append((first, 4, "picot"))

    def _only_travels(self, tail: Sequence[Step]) -> bool:
        """Slip stitches before a starting chain only move along."""
        for step in tail:
            if isinstance(step, Make) and step.stitch == "sl st":
                continue
            if isinstance(step, (Chain, Colour, Aside)):
                if isinstance(step, Chain):
                    return True
                continue
            return isinstance(step, Together) and bool(step.body) and isinstance(step.body[0], Chain)
        return False

    def _travel(self, places: int, step: Make) -> None:
        for _ in range(max(places, 1)):
            spot = self._find(step.at.what, step.at) if self.offer.n else None
            if spot is None:
                break
            self.pos = max(self.pos, spot.end)
            self.last = spot
            self.basket.put("sl st", Role.TRAVEL, step.id, 0, self.yarn, self._feet(spot))
            self.travelled = spot if spot.how == How.SPACE else None

    def _spread(self, step: Shape, tail: Need) -> None:
        """Increases or decreases spread evenly over what is left."""
        self.started = True
        places = self._remaining("st") - tail.st
        change = step.change.at(self.size) or 0
        if self.offer.n == 0 or places <= 0:
            self.uncounted = self.uncounted or self.offer.n == 0
            return
        self._bound(places + change)
        kind = self.context.main
        for number in spread_evenly(places, change):
            if change >= 0:
                self._one(kind, number, 1, Place(), step.id)
            else:
                self._one(kind if number == 1 else f"{kind}{number}tog", 1, number, Place(), step.id)

    # --- repeats ------------------------------------------------------------------------------------------------------------

    def _repeat(self, step: Repeat, tail: Sequence[Step]) -> str | None:
        kind = step.times.kind
        outer = self.iteration
        if kind in ("n", "more"):
            times = step.times.number.at(self.size) or 0
            if kind == "more" and self.context.answers.pick(TIMES_MORE, 2) == 0:
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
            ending = bool(step.last) and k == times - 1
            self.run(step.body[: step.cut] if ending and step.cut is not None else step.body)
            if ending:
                self.run(step.last)
            if self.missing > self.offer.n + 1000 and not self.strict:
                return k + 1
            if self.pos == pos and len(self.basket) == made:
                return k + 1
        return times

    def _ending(self, step: Repeat) -> tuple[Step, ...]:
        return (*(step.body[: step.cut] if step.cut is not None else step.body), *step.last)

    def _to_the_end(self, step: Repeat, tail: Sequence[Step]) -> int:
        if self.offer.n == 0:
            self.uncounted = True
            self.iteration = 1
            self.run(step.body)
            return 1
        keep = need_of(tail, self.size)
        stop_at = step.times.number.at(self.size) or 0 if step.times.kind == "to_last" else 0
        stop = Need(0, stop_at) if is_space(step.times.what) else Need(stop_at, 0)
        keep = stop if stop_at else keep
        marks: list[tuple[Mark, int, Spot | None]] = []
        while True:
            mark = self._bookmark()
            if not self._once(step.body, len(marks) + 1) or not self._leaves(keep):
                self._return_to(mark)
                break
            marks.append(mark)
            if self.pos == mark[1]:
                self._trouble("repeat-takes-nothing", step.span, "This repeat uses no place of the row below, so it never ends")
                break
        if step.last:
            return self._end_specially(step, marks, keep)
        unit = (self.pos - marks[-1][1]) if marks else 0
        self.repeats = (unit, len(marks), step.span)
        if not tail or all(not _works(s) for s in tail):
            self._part_of_repeat(step)
        return len(marks)

    def _leaves(self, keep: Need) -> bool:
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

    def _bookmark(self) -> tuple[Mark, int, Spot | None]:
        return self.basket.mark(), self.pos, self.last

    def _return_to(self, mark: tuple[Mark, int, Spot | None]) -> None:
        self.basket.back_to(mark[0])
        self.pos, self.last = mark[1], mark[2]

    def _end_specially(self, step: Repeat, marks: list[tuple[Mark, int, Spot | None]], keep: Need) -> int:
        """The last repeat has an ending of its own: find the repeat after which it closes the row."""
        ending = self._ending(step)
        best: tuple[int, tuple[Mark, int, Spot | None]] | None = None
        marks = [*marks, self._bookmark()]
        for k in range(len(marks) - 1, max(-1, len(marks) - 4), -1):
            self._return_to(marks[k])
            if self._once(ending, k + 1) and self._leaves(keep):
                left = self._remaining("st") - keep.st
                if best is None or left < best[0]:
                    best = (left, marks[k])
                    chosen = k
                if left == 0:
                    break
        if best is None:
            self._return_to(marks[-1])
            self.run(ending)
            return len(marks)
        self._return_to(best[1])
        self._once(ending, chosen + 1)
        self.repeats = (0, chosen + 1, step.span)
        return chosen + 1

    def _part_of_repeat(self, step: Repeat) -> None:
        """Rows often end inside a repeat without a word; taken only where the part closes the row exactly."""
        if self.context.in_round or self.offer.n - self.pos <= 0:
            return
        mark = self._bookmark()
        self.strict += 1
        try:
            for inner in step.body:
                self.step(inner, ())
                if self._remaining("st") == 0 and not (self.offer.chain and self.spaced and self._space_left()):
                    self.partial = True
                    return
        except Overflow:
            pass
        finally:
            self.strict -= 1
        self._return_to(mark)

    def _trouble(self, kind: str, span: Span, message: str, **data: object) -> None:
        if not any(t.kind == kind and t.span == span for t in self.troubles):
            self.troubles.append(RowTrouble(kind, span, message, (), data))


def _works(step: Step) -> bool:
    return isinstance(step, (Make, Together, Skip, Repeat, Even, Choice)) and not (isinstance(step, Make) and step.at.where == "same")


def _chains_of(what: str) -> int | None:
    """The number in "ch-2 sp"; None when no number is told."""
    digits = what[3:].split(" ")[0] if what.startswith("ch-") else ""
    return int(digits) if digits.isdigit() else None


__all__ = ["NONE", "Context", "Hand", "Overflow", "Sized", "Times", "TooMuch", "offer_of"]
