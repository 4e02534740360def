"""Working stitches into places: one in each, several in one, together over several, to the end."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from dataclasses import replace

from ..pattern import RUN, THESE, Aside, Make, Place, Repeat, Shape, Skip, Step
from ..trade.kinds import FOUNDATION_STITCHES, HEIGHT, base, closes
from .apart import Apart
from .context import POSTS_COVER, Spot
from .corners import middle_places
from .fabric import How, Role
from .needs import Need, is_space
from .shapings import spread_evenly


class Making(Apart):
    """Makes stitches. The few places of special kinds (ring, same, first, last, named …) have a method each."""

    def _kind(self, step: Make) -> str:
        if step.stitch == "inc":
            return step.main or self.context.main
        if step.stitch == "dec":
            return f"{step.main or self.context.main}2tog"
        return step.stitch

    def _make(self, step: Make, tail: Sequence[Step]) -> str | None:
        if self._done_in_turn(step):
            return None
        kind = self._kind(step)
        each = step.each.at(self.size) or 0
        if step.stitch == "inc" and each == 1:
            each = 2
        places = 0 if step.places == "rest" else step.places.at(self.size) or 0
        if not each or (step.places != "rest" and places <= 0):
            return None
        self._bound(each * max(places, 1))
        takes = max(step.closes, closes(kind))
        if step.at.of == THESE:
            step = replace(step, at=replace(step.at, of=""))
            places -= self.stood and places > 1 and self.pos == self.origin + 1 and self.offer.n != places + 1
        if step.at.of == RUN:
            step = replace(step, at=replace(step.at, of=""))
            if places == 1 and self._run_ahead(step.at) == each:
                each, places = 1, each
        where = step.at.where
        if where == "from_hook" and self._turns_back(step) and not self._extends(step):
            self._back_along(kind, each, step)
            return None
        if where == "next" and step.at.what == "ch" and (self.own or (step.places != "rest" and self._bridged_here(places))):
            self._along_own(kind, each, len(self.own or ()) if step.places == "rest" else places, step)
            return None
        if self.inside is not None and step.at.where in ("next", "same", "ring"):
            self._into(self.inside, kind, each * max(places, 1), step.id)
            return None
        if step.at.row and step.at.row in self.context.named and takes == 1:
            self._in_row_named(kind, each, places, step, self.context.named[step.at.row])
        elif where == "hook" or (kind in FOUNDATION_STITCHES and (self.offer.n == 0 or where == "next")):
            self.started = True
            self.basket.put_airy(kind, Role.STITCH, step.id, self.iteration, self.yarn, each * max(places, 1))
        elif where == "ring" or self.offer.ring:
            self._in_ring(kind, each * max(places, 1), step)
        elif where == "under" and self.offer.foundation and not self.extra_offered and not self.context.far:
            self._other_side()
            self._next(kind, each, places, takes, step, tail)
        elif where == "marked" and takes == 1 and places == 1 and step.places != "rest" and self._knows_marks(step.at):
            self._into(self._marked(step.at), kind, each, step.id)
        elif where in ("row_end", "marked") or self.offer.n == 0 or self._on_own_chain(step):
            self._uncounted_place(kind, each, places, step)
        elif self._is_nth_of_group(step.at):
            self._named(kind, each, max(places, 1), step)
        elif step.at.of == "layers":
            self._through_layers(kind, each, step, tail)
        elif step.at.of and takes == 1 and self._in_stitches_of(kind, each, places, step, tail):
            pass
        elif step.places != "rest" and self._raised_further_down(step.at):
            self._below(kind, each, max(places, 1), step, tail)
        elif where == "same":
            self.travelled = None
            self._same(kind, each * max(places, 1), takes, step)
        elif where == "first":
            self._first(kind, each, max(places, 1), takes, step)
        elif where == "last":
            self._last(kind, each, places, takes, step, tail)
        elif where == "from_hook" and self._extends(step):
            self._extend(kind, base(kind), each, step)
        elif where == "from_hook":
            self._from_hook(kind, each, places, takes, step)
        elif where == "skipped":
            self._in_skipped(kind, each, max(places, 1), step)
        elif where == "named":
            self._named(kind, each, max(places, 1), step)
        else:
            self._next(kind, each, places, takes, step, tail)
        return "in each" if step.places == "rest" else None

    def _run_ahead(self, place: Place) -> int:
        """How many of the kind named stand side by side where the next of them is; 0 where the row below is all of that kind."""
        alike = [self.offer.matches(i, place.what) for i in range(self.offer.n)]
        if all(alike) or True not in alike[self.pos :]:
            return 0
        first = alike.index(True, self.pos)
        return (alike.index(False, first) if False in alike[first:] else len(alike)) - first

    @abstractmethod
    def _spot_before(self, place: Place) -> Spot:
        """The spot worked into last; at a round's beginning the first of its kind."""

    def _through_layers(self, kind: str, each: int, step: Make, tail: Sequence[Step]) -> None:
        """Through both layers of the piece laid flat: each stitch goes into a place and the one that lies behind it. So many as there are
        places are worked plainly: then the other layer is another piece."""
        left = self.offer.n - self.pos
        told = None if step.places == "rest" else step.places.at(self.size) or 1
        if told is not None and 2 * told > left + 1:
            self._next(kind, each, told, 1, step, tail)
            return
        self.started = True
        pairs = left // 2 if told is None else told
        back, at, first, last = self.offer.back, self.offer.at, self.pos, self.offer.n - 1
        for i in range(pairs):
            feet = ((back, at[first + i], int(How.TOP)), (back, at[last - i], int(How.TOP)))
            self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, feet if feet[0] != feet[1] else feet[:1])
        self.pos = self.offer.n if left - 2 * pairs <= 1 else first + 2 * pairs

    def _same(self, kind: str, number: int, takes: int, step: Make) -> None:
        if self.extra_offered and step.at.what == "ch":
            self.single_ends = max(self.single_ends, 1)  # "2 sc in same ch as first 2 sc": the end that both sides share
        spaced = self.last is None and (is_space(step.at.what) or step.at.what == "corner") and takes == 1
        spot = self.last or (self._spot_before(step.at) if spaced else Spot(self.origin, self.origin + 1, self._how_for(kind, step.at)))
        if self.last is None and self.pos == self.origin and spot.how != How.BETWEEN:
            self.pos = self.origin + 1
            self.begun_here = True
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
        if self.offer.foundation and not self.started and each > 1 and self.offer.n <= 3:
            # "ch 2, 3 sc in 1st st of ch": the chain made first, which lies farthest from the hook.
            self._begin_from_hook(Place(where="from_hook", nth=self.offer.n), base(kind), step.id)
            self._next(kind, each, places, takes, step, ())
            return
        if self.extra_offered and step.at.what in ("ch", "st") and places * takes == 1:
            self.single_ends = max(self.single_ends, 1)  # "2 sc in the first ch", at the far side's end: the end that both sides share
            element = next((at for at in self.basket.foot_at if at >= 0), 0)
            self._into(Spot(0, 0, How.TOP, ((self.offer.back, element, int(How.TOP)),)), kind, each, step.id)
            return
        if self._back_in_first(step.at, places * takes):
            loop = self.first_taken if is_space(step.at.what) else None
            self._into(loop or Spot(0, 1, self._how_for(kind, step.at)), kind, each * max(places, 1), step.id)
            return
        spaces = is_space(step.at.what) and (self.stood or self._under_way())
        if spaces and not step.at.of and self._under_way() and (self.offer.groups or self.context.shapes):
            step = replace(step, at=replace(step.at, of="figure"))  # shells alternate with loops: the chain that leads to these is none
        if step.at.of or spaces or self._begins_with_group(step.at.what) or (self._under_way() and self._is_group(step.at.what)):
            self._next(kind, each, places, takes, step, ())  # "in first loop of pineapple", told in mid-row: the first one ahead
            return
        if self.pos > 0 and places * takes > 1 and not self.stood:
            self._next(kind, each, places, takes, step, ())
            return
        if self.stood and places * takes == 1:
            self._into(Spot(0, 1, self._how_for(kind, step.at)), kind, each, step.id)
            self.last = Spot(self.origin, self.origin + 1, How.TOP)
            return
        self.pos = 0 if not self.stood else self.pos
        self._next(kind, each, places, takes, step, ())

    def _back_in_first(self, place: Place, wide: int) -> bool:
        """ "…, 2 sc in first loop", "…, sc in first sc, ch 3" that ends a round begun in that loop or stitch: none is left ahead."""
        if not self.context.in_round or place.of or not self._under_way():
            return False
        if not is_space(place.what):
            return wide == 1 and self.pos >= self.offer.n > 1
        return self.first_taken is not None and self.first_taken.how == How.SPACE and self._find_space("sp") is None

    def _under_way(self) -> bool:
        """Whether the row has gone beyond its first places."""
        return self.pos > self.origin + 1 and any(role == Role.STITCH for role in self.basket.role)

    def _last(self, kind: str, each: int, places: int, takes: int, step: Make, tail: Sequence[Step]) -> None:
        want = max(places, 1) * takes + self._top_comes(tail)
        what = step.at.what
        if is_space(what):
            self._next(kind, each, places, takes, step, ())
            return
        if step.at.between and (gaps := self._gaps_from(self.pos)):
            self.pos = gaps[-min(len(gaps), max(places, 1))] - (
                what == "st"
            )  # "2 dc between the last groups": what lies beyond that gap is passed over
            self._next(kind, each, places, takes, step, ())
            return
        if self._is_group(what) and (group := self._last_group(what)) is not None:
            self._take(group)
            self._into(group, kind, each * max(places, 1), step.id)
            return
        if places * takes == 1 and self._crosses_start(tail):
            self._into(Spot(0, 1, self._how(step.at)), kind, each, step.id)
            return
        self._jump(self._from_end(max(want, step.at.nth or 1), what))
        self._next(kind, each, places, takes, step, ())

    def _crosses_start(self, tail: Sequence[Step]) -> bool:
        """ "Ch 3, dc in last sc of previous round (1 cross st), * skip 1 sc, …; repeat from * around": a round's beginning is crossed with
        the stitch before it, which is met first then; False where the last place is gone on to."""
        offer = self.offer
        goes_on = any(isinstance(step, Repeat) and step.times.kind == "rest" for step in tail)
        if not (goes_on and self.stood and offer.around and offer.plain and offer.n > 2 and self.pos == self.origin + 1):
            return False
        self.offer = offer.from_place(offer.n - 1)
        self.origin, self.pos = self.origin + 1, self.pos + 1
        self.last = self.first_taken = Spot(0, 1, How.TOP)
        return True

    def _top_comes(self, tail: Sequence[Step]) -> int:
        """1 where the top of the turning chain is worked into after "the last dc": it is the row's last place itself."""
        after = next((step for step in tail if not isinstance(step, Aside)), None)
        if not isinstance(after, Make) or after.at.where != "named" or self.offer.stitches is None or not self.offer.n:
            return 0
        return int(self.offer.stitches.role[self.offer.at[-1]] == Role.START_TOP)

    def _jump(self, start: int) -> None:
        """Go on to place `start` of the row's end. What lies between is left out, unless the chain just made bridges it.

        Mesh lays 2 chains over 3 as often as over 2 (common practice, no source).
        """
        if start <= self.pos:
            return
        if self.offer.foundation and not self.started and self.pos == 0:
            self._begin_from_hook(Place(where="from_hook", nth=start + 1), self.context.main, 0)
            return
        between = start - self.pos if self._chains_are_stitches() else self.offer.chain.count(0, self.pos, start)
        role = self.basket.role
        bridge = len(role) - len(role.rstrip(bytes((Role.CHAIN,))))
        if between > bridge + (bridge > 1) and not self.leaves and not self.spaced:
            self.gap += between
        self.pos = start

    def _from_hook(self, kind: str, each: int, places: int, takes: int, step: Make) -> None:
        self._begin_from_hook(step.at, base(kind), step.id, group=each > 1)
        self._next(kind, each, places, takes, step, ())

    def _next(self, kind: str, each: int, places: int, takes: int, step: Make, tail: Sequence[Step]) -> None:
        place = step.at
        if self._rounds_the_end():
            self._other_side()
        if step.places == "rest":
            others = self._others_in_turn(step, tail) if takes == 1 else []
            if others:
                self._in_turn(kind, each, step, others, self.needs.of(tail[len(others) :]))
                return
            less = (step.but.at(self.size) or 0) + (self.turned_first and self.offer.foundation and not self.needs.of(tail).st)
            self._rest(kind, each, takes, place, less, step.id, self.needs.of(tail))
            return
        if place.below:
            self._below(kind, each, places, step, tail)
            return
        self.started = True
        if step.evenly:
            self._into(Spot(self.pos, self.pos + 1, How.TOP), kind, each * places, step.id)
            self.pos = self.offer.n
            return
        if self.offer.plain and self._plain_target(place) and takes == 1:
            self._plain_run(kind, each, places, place, step.id)
            return
        if place.nth == 0 and places > 1 and takes == 1 and (middle := middle_places(self.offer, self.pos, places)):
            self.spaced = self.loose = True  # those on both sides of them are passed over
            how = self._how_for(kind, place)
            for i in middle:
                self._take(Spot(i, i + 1, how))
                self._into(Spot(i, i + 1, how), kind, each, step.id)
            return
        self.in_run = places > 1
        first = self.pos
        try:
            for k in range(places):
                self._one(kind, each, takes, place, step.id)
                first = first if k else self.pos
            if places > 1 and not self.strict and place.what in HEIGHT and 1 in self.offer.chain[first : self.pos]:
                self._trouble("space-passed", step.span, "This run goes past a space of chains that its words do not tell")
        finally:
            self.in_run = False

    def _plain_target(self, place: Place) -> bool:
        return (place.what == "st" or (self.offer.foundation and place.what == "ch")) and not place.between and place.nth != 0

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
        if places - take == 1 and self._slips_home(kind):
            self._into(Spot(self.origin, self.origin + 1, How.TOP), kind, 1, step)
        elif places == take + 1 and self._closes_where_begun(place):
            self._into(Spot(self.origin, self.origin + 1, how), kind, each, step)
        elif places > take:
            self._overflow(places - take)
            self._into(Spot(self.offer.n, self.offer.n, how), kind, (places - take) * each, step)

    def _slips_home(self, kind: str) -> bool:
        """ "(Ch 4, 2 tr in same st, ch 4, sl st in next st) 10 times": the round began in its first place, and the last unit ends there."""
        comes_round = kind == "sl st" and self.begun_here and self.offer.around and self.told_times and self.iteration > 1
        if not comes_round or self.home not in (0, self.iteration):
            return False
        self.home = self.iteration
        return True

    def _closes_where_begun(self, place: Place) -> bool:
        """ "Ch 3, …, ch 3, skip 2 tr, s c in next tr, * ch 6, skip 2 tr, s c in next tr, repeat from * 4 times": the round begins with a
        loop that hangs on its first stitch, and so many units later its last stitch goes in there."""
        role = self.basket.role
        loop = bool(role) and role[-1] == Role.CHAIN and not is_space(place.what)
        if self.strict or not (loop and self.hung and self.offer.around and self.pos >= self.offer.n > 1):
            return False
        self.hung = False
        return True

    def _one(self, kind: str, each: int, takes: int, place: Place, step: int) -> None:
        self.started = True
        feet: list[tuple[int, int, int]] = []
        spot: Spot | None = None
        how = self._how_for(kind, place)
        for _ in range(takes):
            spot = self._find(place.what, place)
            if spot is None and takes == 1 and self._closes_where_begun(place):
                spot = Spot(self.origin, self.origin + 1, how)
            elif spot is None:
                self._overflow(1)
                continue
            if spot.how == How.TOP:
                spot.how = how
            self._take(spot)
            feet.extend(self._feet(spot))
        for _ in range(each):
            self.basket.put(kind, Role.STITCH, step, self.iteration, self.yarn, tuple(feet))

    def _rest(self, kind: str, each: int, takes: int, place: Place, but: int, step: int, tail: Need) -> None:
        """One (or `each`) in every place that is left, but the last `but`; where none are told, but what the steps after ask for."""
        self.started = True
        if self.offer.n == 0:
            self.uncounted = True
            return
        what = place.what
        if each > 1 and what != "st" and self.pos >= self.offer.n and self.offer.plain and len(self.basket.kind):
            self.uncounted = True  # "sc in each st around, 3 sc in each corner": nobody counted the corners
            return
        if self.offer.plain and self._plain_target(place):
            left = self.offer.n - self.pos - (but or tail.st)
            if left > 0:
                self._bound(left * each)
                if takes == 1:
                    self._plain_run(kind, each, left, place, step)
                else:
                    for _ in range(left // takes):
                        self._one(kind, each, takes, place, step)
            return
        grouped = self._is_group(what) and bool(self._groups_ahead(what))
        spaces = is_space(what) or (self._is_group(what) and not grouped and self._remaining_spaces(self.pos) > 0)  # "in every V"
        kept = tail.groups if grouped else tail.sp if spaces else max(tail.st - self._behind_last(what), 0)
        left = self._remaining_at(place) - (but or kept)
        left += self._stands_in(what)
        for _ in range(max(left, 0) // takes):
            self._one(kind, each, takes, place, step)

    def _behind_last(self, what: str) -> int:
        """Stitches that lie behind the last of that kind: "sc in first, hdc in each hdc, sc in last" needs no hdc for its end."""
        if what in ("st", "ch", "any"):
            return 0
        last = next((i for i in range(self.offer.n - 1, self.pos - 1, -1) if self.offer.matches(i, what)), None)
        return 0 if last is None else self.offer.chain.count(0, last + 1)

    def _stands_in(self, what: str) -> bool:
        """Whether the hand stands in a space that is the first of them ("ss into ch-3 sp, 3 dc in each ch-3 sp around")."""
        return is_space(what) and self.travelled is not None and self.travelled.how == How.SPACE and self.travelled.end <= self.pos

    def _raised_further_down(self, place: Place) -> bool:
        """Whether a raised stitch is named ("around next FPdc", "around same FPtr") that the row below, plain all along, does not hold."""
        stitches = self.offer.stitches
        raised = place.what[:2] in ("FP", "BP") and place.where in ("next", "same", "last")
        return raised and stitches is not None and bool(self.context.deeper) and not any(n[:2] in ("FP", "BP") for n in stitches.names)

    def _below(self, kind: str, each: int, places: int, step: Make, tail: Sequence[Step]) -> None:
        """Into rows further down: the places above are covered, unless the words skip them themselves."""
        self.started = True
        how = self._how_for(kind, step.at)
        covers = not isinstance(next((s for s in tail if not isinstance(s, Aside)), None), Skip)
        if covers and kind[:2] in ("FP", "BP"):  # overlay rounds grow by those that stand between the stitches
            covers = self.context.answers.pick(POSTS_COVER, ("yes", "no")) == 0
        for k in range(places):
            i = min(self.pos + (0 if covers else k), self.offer.n - 1)
            feet = self._deep_feet(i, step.at.below or 1, how)
            if covers:
                if self.pos >= self.offer.n:
                    self._overflow(1)
                else:
                    self.pos += 1
                    self.last = Spot(self.pos - 1, self.pos, how)
            for _ in range(each):
                self.basket.put(kind, Role.STITCH, step.id, self.iteration, self.yarn, feet)

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
