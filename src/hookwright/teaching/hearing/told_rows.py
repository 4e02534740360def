"""Every row that is told thing by thing, laid along its words; and what this speaker is in the habit of saying."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, TypeAlias

from .asked import Asked, asked_of, first_worked
from .detail import Told_, told_of
from .laying import Step_, laid, told_again
from .retelling import retold_at
from .segments import Speech, Stretch, far_too_few, rather_of_work
from .units import Unit

Class: TypeAlias = Literal["start", "slip", "skip", "chain", "in group", "chain in group", "increase", "decrease", "stitch"]
"""What people tell or leave out alike: the chain a row starts with, slip stitches, skips, things of a group, increases …"""


@dataclass(frozen=True)
class ToldRow:
    """One row of the pattern as it was told. `main` the stretch that tells it; `same_at` the token at which it is told as another row
    again, -1 where it is not."""

    asked: tuple[Asked, ...]
    main: Stretch
    steps: tuple[Step_, ...]
    same_at: int

    @property
    def same(self) -> bool:
        """Whether the row is told as another row again."""
        return self.same_at >= 0

    def same_from(self, k: int) -> bool:
        """Whether that holds for what is told, or not told, at token k: where much of the row has been told one by one before, only for
        what follows ("three trebles, miss two, the peak as before")."""
        before = {step.place for step in self.steps if step.place is not None and step.told is not None and step.told.k < self.same_at}
        told = sum(self.classes[place] not in ("start", "slip") for place in before)
        return self.same and (told < SEVERAL or k > self.same_at)

    @cached_property
    def met(self) -> frozenset[int]:
        """The places of the things that are said."""
        return frozenset(step.place for step in self.steps if step.place is not None and step.told is not None)

    @cached_property
    def right(self) -> frozenset[int]:
        """The places of the things that are said with their very numbers."""
        return frozenset(
            step.place
            for step in self.steps
            if step.place is not None and step.told is not None and step.agrees and step.told.number is not None
        )

    @cached_property
    def classes(self) -> tuple[Class, ...]:
        """Of what class each thing is."""
        first = first_worked(self.asked)
        return tuple(_class(one, opens=k < first) for k, one in enumerate(self.asked))

    def covered(self, *but: int) -> float:
        """The share of the other things that people tell which is said: chains to start with, slip stitches and skips are none of them."""
        must = [k for k, named in enumerate(self.classes) if named not in ("start", "slip", "skip") and k not in but]
        return sum(k in self.met for k in must) / len(must) if must else 0.0


SEVERAL = 3
"""From so many things told one by one on, what is then told as done before is only what follows (ours)."""


def _class(one: Asked, *, opens: bool) -> Class:
    if opens:
        return "start"
    if one.what == "sl st":
        return "slip"
    if one.kind == "skip":
        return "skip"
    if one.group >= 0:
        return "chain in group" if one.kind == "ch" else "in group"
    return {"ch": "chain", "inc": "increase", "dec": "decrease", "st": "stitch"}[one.kind]  # type: ignore[return-value]


def told_rows(units: Sequence[Unit], speech: Speech) -> list[ToldRow]:
    """The rows that are told once, in one stretch, and whose words are their own or those of one other row."""
    found = []
    for stretches in speech.by_unit().values():
        main = max(stretches, key=lambda s: len(s.heard))
        asked = asked_of(main.unit, units)
        if asked is not None and not main.several and not any(s.heard for s in stretches if s is not main):
            again = [retold_at(main.unit, units, speech, s, _counted(s)) for s in stretches]
            found.append(_laid(asked, main, speech, next((k for k in again if k >= 0), -1)))
    return found


def _counted(stretch: Stretch) -> int:
    """Where the row's count is told; what is said behind that is rather of the next ("Thirty-two. So, and the same again")."""
    allowed = stretch.unit.any_allowed
    return next((told.k for told in stretch.counts if told.strength >= 0.6 and told.number in allowed and told.number > 4), stretch.end)


def _laid(asked: tuple[Asked, ...], main: Stretch, speech: Speech, same_at: int) -> ToldRow:
    own, known = main.unit.instructed, main.unit.any_allowed - main.unit.instructed
    counted = frozenset(
        told.k
        for told in main.counts
        if told.number in known
        or (
            told.strength >= (0.95 if told.number in own else 0.5)
            and not far_too_few(told, main.unit.any_allowed)
            and not rather_of_work(told, main)
        )
    )
    summed = _summed_up(main, speech)
    heard = [h for h in main.heard if not {h.k - 1, h.k - 2} & summed]
    named = frozenset(range(main.meant.anchor.k, main.meant.anchor.end))
    told = told_of(speech.tokens, heard, main.begins, main.end, counted | summed | named, own)
    told = _from_the_start(asked, told, _counted(main))
    asked = _with_chain(asked, told)
    steps = laid(asked, told)
    kept = (step for step in steps if step.place is not None or (step.told is not None and step.told.kind != "?"))
    return ToldRow(asked, main, tuple(told_again(asked, step) for step in kept), same_at)


def _from_the_start(asked: tuple[Asked, ...], told: list[Told_], counted: int) -> list[Told_]:
    """The same without what is told ahead of the chain the row starts with: "each corner is three, chain two, three. So, chain three …";
    behind token `counted` the row is over."""
    start = next((k for k, one in enumerate(asked[: first_worked(asked)]) if one.kind == "ch"), -1)
    numbers = asked[start].numbers if start >= 0 else frozenset()
    if not numbers or any(one.kind == "ch" and one.numbers & numbers for k, one in enumerate(asked) if k != start):
        return told
    at = next((k for k, one in enumerate(told) if one.kind == "ch" and one.number in numbers), 0)
    return told[at:] if 2 * at <= len(told) and told[at:] and told[at].k < counted else told


def _summed_up(main: Stretch, speech: Speech) -> frozenset[int]:
    """The numbers told behind the work of a closed row in a sentence that counts: "join, let us count: per side I have four trebles, two
    half trebles and five doubles"."""
    tokens = speech.tokens
    closed = max((k for k in range(main.begins, main.end) if tokens[k].kind in ("join", "turn", "slip")), default=-1)
    behind = [told for told in main.counts if told.k > closed]
    known = main.unit.any_allowed - main.unit.instructed
    stated = [told for told in behind if told.number in known]
    right = any(told.strength >= RIGHTLY for told in stated) or sum(bool(told.noun) for told in stated) > 1
    if closed < 0 or not right or sum(h.k < closed for h in main.heard) * 2 < len(main.heard):
        return frozenset()
    return frozenset(told.k for told in behind if told.strength >= SUMMED)


SUMMED, RIGHTLY = 0.8, 0.6
"""How surely a number behind a closed row is a count before it is no work, and another beside it, which is right (ours)."""


def _with_chain(asked: tuple[Asked, ...], told: Sequence[Told_]) -> tuple[Asked, ...]:
    """The same; in a group behind a starting chain that is not told, the chain is told as one stitch more: "three, chain two, three" where
    the page has "ch 3, 2 dc, ch 2, 3 dc"."""
    k = next((k for k, one in enumerate(asked[:-1]) if one.kind == "ch"), -1)
    if k < 0 or not asked[k].free or max(asked[k].numbers, default=0) < 2 or asked[k + 1].kind != "st" or asked[k + 1].group < 0:
        return asked
    if any(one.kind == "ch" and one.number in asked[k].numbers for one in told[:3]):
        return asked
    more = replace(asked[k + 1], numbers=asked[k + 1].numbers | {n + 1 for n in asked[k + 1].numbers})
    return (*asked[: k + 1], more, *asked[k + 2 :])


DETAIL = 0.5
"""So much of a row must be told one by one before what is left out in it is a habit of the speaker (ours)."""


@dataclass(frozen=True)
class Habits:
    """How many things of each class, and of how many, are said in the rows told thing by thing."""

    said: Counter[Class]
    of: Counter[Class]
    things: Mapping[Thing, tuple[tuple[int, bool], ...]]
    """Of each very thing, in which rows (by their units) it is asked for, and whether it is said there; a row told as another again tells
    nothing of what is not said."""

    def rate(self, one: Class, *, but: bool) -> float:
        """The share of things of that class that are said, as far as the film shows it; `but`: one that is unsaid is not counted."""
        said, of = self.said[one], self.of[one] - but
        return (said + 1) / (of + 2)

    def tells_all(self, one: Class, row: ToldRow) -> bool:
        """Whether all things of that class but one are said, several at least, and that one is of this row."""
        untold = sum(named == one and k not in row.met for k, named in enumerate(row.classes))
        return untold == 1 and self.of[one] - self.said[one] == 1 and self.said[one] >= STEADY

    def elsewhere(self, row: ToldRow, place: int) -> float:
        """Whether the very thing is said in other rows: towards 1 the more often it is, towards -1 the more often it is not."""
        here = row.main.unit.index
        said = [said for index, said in self.things.get(_thing(row, place), ()) if index != here]
        return sum(1 if one else -1 for one in said) / (len(said) + 1)


STEADY = 2
"""So many things of a class at least must be said for the one that is not to be missed (ours)."""


Thing: TypeAlias = tuple[Class, str, frozenset[int], str]


def _thing(row: ToldRow, place: int) -> Thing:
    one = row.asked[place]
    return row.classes[place], one.what, one.numbers, one.where


def habits_of(rows: Sequence[ToldRow]) -> Habits:
    said: Counter[Class] = Counter()
    of: Counter[Class] = Counter()
    things: dict[Thing, list[tuple[int, bool]]] = {}
    for row in rows:
        for place in range(len(row.asked)):
            if place in row.met or not row.same:
                things.setdefault(_thing(row, place), []).append((row.main.unit.index, place in row.met))
        if row.same or row.covered() < DETAIL:
            continue
        of.update(row.classes)
        said.update(one for k, one in enumerate(row.classes) if k in row.met)
    return Habits(said, of, {thing: tuple(found) for thing, found in things.items()})
