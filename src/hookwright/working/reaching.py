"""Runs that end at a place: "sc in each st to next corner", "rep from * to ch-2 sp". The rest of the offer is out of reach meanwhile."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace

from ..pattern import ONE, ZERO, Aside, Chain, Make, Repeat, Step, Times, Together
from .corners import centre_space, centre_stitches, spaces_of
from .markers import MARKER
from .needs import chains_of, is_space
from .repeating import Repeating

LAST = "last "
"""How what a run leaves is told where it is of another kind than the places it goes into."""


class Reaching(Repeating):
    """Works runs and repeats that go up to a place; where there is none ahead they go to the end."""

    def _make(self, step: Make, tail: Sequence[Step]) -> str | None:
        too = _as_far_too(step, tail)
        if (ends := next((one for one in (*reversed(too), step) if one.upto.startswith(LAST)), None)) is not None:
            with self._as_far_as(ends.upto, limit=self._last_places(ends)):
                return super()._make(_to_the_end(step), [_to_the_end(one) for one in too])
        if too and not step.upto:  # "2 dc in each sp and 1 dc in each dc to corner": the last tells how far all of them go
            step = replace(step, upto=too[-1].upto)
        if not step.upto:
            return super()._make(step, tail)
        if step.upto == MARKER and self._marker_is_elsewhere(tail):
            with self._as_far_as(MARKER, limit=(self.pos + self.offer.n) // 2):
                return super()._make(replace(step, upto=""), ())
        if step.upto == MARKER and not self.context.marks:  # where it was placed is not known
            return super()._make(replace(step, upto="", at=replace(step.at, where="marked")), tail)
        if step.stitch == "sl st" and not self.started and self.inside is None and self._only_travels(tail, 1, step):
            return self._travel_to(step, tail)
        with self._as_far_as(step.upto) as reached:
            here = [replace(one, upto="") for one in too]
            return super()._make(replace(step, upto=""), here if reached else [*here, *tail[len(here) :]])

    def _marker_is_elsewhere(self, tail: Sequence[Step]) -> bool:
        """Whether the marker ahead stands none knows where, with the rest of the round still to go behind it ("… to within 4 sts of marker,
        dec 4 times, sc in each remaining st"): wherever it is, the round comes to as many."""
        behind = [step for step in tail if isinstance(step, (Make, Together, Repeat))]
        rest = bool(behind) and isinstance(behind[-1], Make) and behind[-1].places == "rest" and not behind[-1].upto
        rest = rest and not any(step.at.where == "marked" for step in behind if isinstance(step, (Make, Together)))
        return rest and self.offer.n > 0 and self._next_of(MARKER) is None

    def _travel_to(self, step: Make, tail: Sequence[Step]) -> str | None:
        """ "Sl st across to corner sp": along the stitches, and into the place itself."""
        place = replace(step.at, what=step.upto)
        with self._as_far_as(step.upto) as reached:
            super()._make(replace(step, upto=""), tail)
        return super()._make(replace(step, upto="", places=ONE, at=place), tail) if reached and step.upto != "center" else None

    def _together(self, step: Together, tail: Sequence[Step]) -> str | None:
        if not step.upto:
            return super()._together(step, tail)
        if step.upto.startswith(LAST):
            with self._as_far_as(step.upto, limit=self._last_places(step)):
                return super()._together(replace(step, upto="", but=ZERO), ())
        with self._as_far_as(step.upto) as reached:
            return super()._together(replace(step, upto=""), () if reached else tail)

    def _repeat(self, step: Repeat, tail: Sequence[Step]) -> str | None:
        if step.times.kind != "to_place":
            return super()._repeat(step, tail)
        if step.times.what == MARKER and not self.context.marks:
            self.uncounted = True
        kept = step.times.number.at(self.size) or 0
        times = Times(kind="to_last", number=step.times.number) if kept else Times(kind="rest")
        with self._as_far_as(step.times.what, onto=_again_there(tail)) as reached:
            self.reaching = reached
            try:
                return super()._repeat(replace(step, times=times), () if reached else tail)
            finally:
                self.reaching = False

    @contextmanager
    def _as_far_as(self, what: str, *, onto: bool = False, limit: int | None = None) -> Iterator[bool]:
        """The offer cut off before the next place of this kind while the block runs; tells whether there is one. `onto`: behind it, where
        it is a stitch."""
        whole, limit = self.offer, self._next_of(what) if limit is None else limit
        if limit is None:
            yield False
            return
        limit += onto and not whole.chain[limit]
        chain = whole.chain[:limit]
        short = self.offer = replace(
            whole, at=whole.at[:limit], chain=chain, space=whole.space[:limit] if whole.space else whole.space, plain=not any(chain),
            around=False, groups={i: group for i, group in whole.groups.items() if group[0] <= limit},
        )  # fmt: skip
        try:
            yield True
        finally:
            if self.offer is short:
                self.offer = whole

    def _next_of(self, what: str) -> int | None:
        """The place where the next corner, centre, space or group begins."""
        offer = self.offer
        if what == MARKER:  # the one that tells where the round begins is met at its end
            starts = [at for at in self.context.marks if at or self.pos]
        elif what == "corner":
            starts = [spot.start for spot in self._corners()]
        elif what == "center":
            space = centre_space(offer)
            starts = [spot.start for spot in (centre_stitches(offer) if space is None else [space])]
        elif what.startswith("center "):
            starts = self._space_in_middle(what.removeprefix("center "))
        elif is_space(what):
            starts = self._space_starts(what)
        else:
            starts = [start for start, _ in self._groups_ahead(what)]
        return next((start for start in starts if start >= self.pos), None)

    def _last_places(self, step: Make | Together) -> int:
        """Where the last places of another kind begin ("3 dc in each sp to last 2 dc")."""
        what, many = step.upto.removeprefix(LAST), step.but.at(self.size) or 0
        if is_space(what):
            starts = self._space_starts(what)
            return starts[-many] if 0 < many <= len(starts) else self.offer.n
        if self._is_group(what) and (groups := self._groups_ahead(what)):
            return groups[-many][0] if 0 < many <= len(groups) else self.offer.n
        return max(self._from_end(many, what), self.pos)

    def _space_in_middle(self, what: str) -> list[int]:
        """The space of this kind that lies nearest the middle of the row."""
        length, offer = chains_of(what), self.offer
        spaces = [spot for spot in spaces_of(offer) if length is None or spot.end - spot.start == length]
        nearest = min(spaces, key=lambda spot: abs(spot.start + spot.end - offer.n), default=None)
        return [] if nearest is None else [nearest.start]

    def _space_starts(self, what: str) -> list[int]:
        offer, length = self.offer, chains_of(what)
        found: list[int] = []
        i = offer.chain.find(1, self.pos)
        while i >= 0:
            end = offer.space_end(i)
            if length is None or end - i == length:
                found.append(i)
            i = offer.chain.find(1, end)
        return found


def _again_there(tail: Sequence[Step]) -> bool:
    """Whether a stitch in the same place comes next ("repeat from * to center dc, ch 3, dc in same st"): the repeat ended in that place."""
    after = next((step for step in tail if not isinstance(step, (Chain, Aside))), None)
    return isinstance(after, Make) and after.at.where == "same"


def _as_far_too(step: Make, tail: Sequence[Step]) -> list[Make]:
    """The runs told with this one that go as far ("dc in each dc and in each ch-1 sp to center sp"); how far they go is often told
    with the last of them only ("in each dc and in each ch-1 sp to last st")."""
    found: list[Make] = []
    if step.places != "rest":
        return found
    for other in tail:
        if not isinstance(other, Make) or other.places != "rest" or other.at.where != step.at.where:
            break
        ends = not step.upto and bool(other.upto)
        if other.upto != step.upto and not ends:
            break
        found.append(other)
        if ends:
            return found
    return found if step.upto else []


def _to_the_end(step: Make) -> Make:
    return replace(step, upto="", but=ZERO) if step.upto else step
