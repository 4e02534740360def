"""The hand that works one row: it walks the offer step by step, and keeps what it took, made, missed and passed over."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import (
    Aside,
    Chain,
    Choice,
    Colour,
    Even,
    FastenOff,
    Join,
    Leave,
    Make,
    Place,
    Refer,
    Repeat,
    Ring,
    Shape,
    Skip,
    Step,
    Together,
    Turn,
    Unread,
)  # fmt: skip
from .context import TooMuch
from .fabric import Derived, Role
from .markers import placed_in
from .needs import EVEN_ON
from .stretch import stretch
from .to_and_fro import ToAndFro


class Hand(ToAndFro):
    """Works the steps of one row on one offer."""

    def work(self, steps: Sequence[Step]) -> None:
        """Work the row's steps, one line of derivation each."""
        self._begin_in_loop(steps)
        for i, step in enumerate(steps):
            pos, made, missing, gap = self.pos, self._stitches(), self.missing, self.gap
            self.rest_of_row, self.before, self.here = stretch(steps, i + 1), stretch(steps, 0, i), step.span
            note = self.step(step, self.rest_of_row) or ""
            took = self.pos - pos + self.missing - missing
            if self.gap > gap:
                note = f"{note}; " * bool(note) + f"{self.gap - gap} of them passed over"
            if took or self._stitches() != made or note:
                self.derivation.append(Derived(step.id, step.span, took, self._stitches() - made, self._stitches(), note))
        self._come_home()
        self._hide_covered()

    def leftover(self) -> int:
        """Places that should have been used and were not."""
        if self.leaves or self.offer.n == 0:
            return 0
        if self.spaced:
            spaces = self._space_left()
            role = self.basket.role
            if spaces and role and role[-1] == Role.CHAIN:
                over = self.spaces_skipped if self.context.in_round else 1
                spaces -= min(spaces, max(1, over))  # the chain that ends the row lies over the last space, or as many as others do
            if self.offer.around and spaces <= self.by_group:
                spaces = 0  # the round ends among spaces such as its units pass over on the way to the next group
            return self.gap if self.gap and not spaces else spaces
        left = self.offer.n - self.pos
        if not self.offer.plain:
            left = self.offer.n - self.pos if self._chains_are_stitches() else self.offer.chain.count(0, self.pos)
        slipped = self.basket.role.count(Role.TRAVEL)
        if self.skips and self.skips - slipped <= left <= self.skips and not self.gap and self.context.in_round and self._ends_in_chain():
            return 0  # the chain that closes the round lies over as many places as those before it
        if self.offer.around and left and left == self.led_by and self.pos and not self.gap:
            return 0  # the round is joined over as many places as every unit passes over before its first stitch
        if self.extra_offered and left <= self.single_ends:
            left = 0
        again = self.repeats is not None and self.repeats[1] > 1
        if self.offer.around and left <= max(self.by_name, self.by_name_between if again else 0):
            left = 0  # the round ends among stitches such as its units pass over on the way to the next
        ahead = self.repeats is not None and not self.offer.around and self.gap == self.led_by  # "… to last sc, 3 dc in last sc"
        return left if ahead else left + self.gap

    def _ends_in_chain(self) -> bool:
        """Whether the round ends with chains, or with chains and the stitch that closed it."""
        role = self.basket.role.rstrip(bytes((Role.HANGING,)))
        return bool(role) and role[-1] == Role.CHAIN

    def run(self, steps: Sequence[Step]) -> None:
        away = self.away
        for i, step in enumerate(steps):
            self.step(step, stretch(steps, i + 1))
        if away is None:
            self._come_home()  # a unit that ends on the row's own loop goes on along the row below

    def step(self, step: Step, tail: Sequence[Step]) -> str | None:
        """Work one step; `tail` are the steps after it on its level. Returns a remark for the derivation."""
        if step.only is not None and self.size not in step.only:
            return None
        self.done += 1
        if self.done > self.context.limits.steps:
            raise TooMuch(f"takes more than {self.context.limits.steps:,} steps")
        self._bound(0)
        if self.away is not None and self._ready(step):
            return None
        match step:
            case Make():
                self._turn_unsaid(step.stitch, step.at, step.id)
                return self._make(step, tail)
            case Together():
                return self._together(step, tail)
            case Chain():
                return self._chain(step, tail)
            case Skip():
                self._skip(step, tail)
            case Repeat():
                if step.body and isinstance(first := step.body[0], Make):
                    self._turn_unsaid(first.stitch, first.at, step.id)
                return self._repeat(step, tail)
            case Leave():
                if step.number is None:
                    self.leaves = True
                else:
                    self.pos = min(self.offer.n, self.pos + (step.number.at(self.size) or 0))
            case Colour():
                self.yarn = self.yarn if step.yarn == "same" else self.basket.use_colour(step.yarn)
                if step.join_in and not len(self.basket):
                    self.started, self.origin = False, self.pos  # joined here: what comes next begins the row
                    self._joined_at(step.at)
            case Even():
                kind = step.stitch or self._even_kind()
                self._turn_unsaid(kind, Place(), step.id)
                self._rest(kind, 1, 1, Place(), 0, step.id, self.needs.of(tail))
            case Choice():
                answer = self.context.answers.pick(step.question, tuple(f"reading {i + 1}" for i in range(len(step.answers))))
                self.run(step.answers[answer])
                return step.question
            case Unread():
                self.unread = True
            case Join():
                self._close(step.closing)
            case Shape():
                self._spread(step, self.needs.of(tail))
            case Refer(rest=True):
                self._finish()
            case Turn():
                self._turn_inside(tail)
            case Aside(kind="marker", nths=nths) if nths != (0,):
                self.placed += placed_in(self.basket, nths)
            case Ring() | FastenOff() | Aside() | Refer():
                pass
        return None

    def _even_kind(self) -> str:
        """What a row told only as going on plainly is worked in: what its own starting chain stands for, else the part's stitch."""
        stands = next(iter(self.basket.stands.values()), "") if self.stood and len(self.basket.stands) == 1 else ""
        return stands if stands in EVEN_ON.values() else self.context.main
