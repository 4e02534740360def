"""What speaks for and against a number told wrongly, and a thing left out: by name, to be weighed together."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from math import exp, log
from pathlib import Path

from .anchors import takes_back
from .detail import Told_
from .laying import Step_
from .lexicon import words
from .segments import Speech
from .tokens import Token
from .told_rows import DETAIL, Class, Habits, ToldRow

_AGAIN = words("evidence", "again")
_ONWARDS = words("evidence", "onwards")
"""Words with which the rest of a row is told in passing."""
_OTHER = words("evidence", "other")
"""Words in which a skip may be told: "in every other stitch"."""
ROOM = 12
"""Words between two things told in which a third may well be told in other words (ours)."""
NEAR = 14
"""Words around a number within which the right one may stand too (ours)."""


MOST = 0.9
"""Surer than this nothing learned from so few slips is (ours); a wrong count told outright is surer."""


def weighed(kind: str, evidence: Mapping[str, float]) -> float:
    """The probability of a slip that all of it together comes to."""
    worth = weights()[kind]
    return min(MOST, 1 / (1 + exp(-sum(worth.get(name, 0.0) * value for name, value in evidence.items()))))


@cache
def weights() -> dict[str, dict[str, float]]:
    """What each piece of evidence is worth (log-odds), for each kind; how they were got stands in weights.toml."""
    return tomllib.loads((Path(__file__).parent / "weights.toml").read_text(encoding="utf-8"))


def of_number(row: ToldRow, at: int, speech: Speech) -> dict[str, float]:
    """What speaks for and against the number of the step `at`."""
    step = row.steps[at]
    assert step.place is not None and step.told is not None and step.told.number is not None
    one, told, said = row.asked[step.place], step.told, step.told.number
    away = min(abs(said - wanted) for wanted in one.numbers)
    tokens = speech.tokens
    near = tokens[max(row.main.begins, told.k - NEAR) : min(row.main.end, told.k + NEAR)]
    wrong = sum(not other.agrees and other.told is not None for other in row.steps)
    alike = [other for k, other in enumerate(row.asked) if k != step.place]
    return {
        "always": 1.0,
        "edited": float(speech.edited),
        f"of {row.classes[step.place]}": 1.0,
        "bare": float(told.kind == "?"),
        "of another kind": float(told.kind not in ("?", one.kind)),
        "one is said": float(said == 1),
        "one is written": float(one.numbers == {1}),
        f"away {min(away, 3)}": 1.0,
        **_beside(row, at),
        "told": row.covered(step.place),
        "nothing else told": float(len(row.met) < 2),
        "besides": min(_besides(row), 3) / 3,
        "others wrong": min(wrong - 1, 3) / 3,
        "of another like it": float(any(said in other.numbers and (other.kind, other.what) == (one.kind, one.what) for other in alike)),
        "of another": float(any(said in other.numbers for other in alike)),
        "right near": float(any(token.kind == "num" and token.number in one.numbers for token in near)),
        "taken back": float(takes_back(tokens, told.k - 3, told.k + 12)),
        "in its place": float(bool(told.where) and told.where == one.where),
        "same": float(row.same_from(told.k)),
        "thing": float(told.at_number >= 0 and (tokens[told.at_number].thing or tokens[told.at_number].story)),
    }


@dataclass(frozen=True)
class Gap:
    """A thing that is not said, and the words around it. `first` and `behind` bound the steps unsaid together; `place` that of the thing
    among what is asked."""

    row: ToldRow
    first: int
    behind: int
    place: int
    speech: Speech

    @property
    def named(self) -> Class:
        return self.row.classes[self.place]

    @property
    def before(self) -> Told_ | None:
        return self.row.steps[self.first - 1].told if self.first else None

    @property
    def after(self) -> Told_ | None:
        return self.row.steps[self.behind].told if self.behind < len(self.row.steps) else None

    @property
    def begins(self) -> int:
        """The token of what is said before, or the one before the row's own."""
        return self.before.k if self.before is not None else self.row.main.begins - 1

    @property
    def ends(self) -> int:
        """The token of what is said behind, or one some words on."""
        return self.after.k if self.after is not None else min(self.begins + LAST, self.row.main.end)

    @property
    def between(self) -> Sequence[Token]:
        return self.speech.tokens[self.begins + 1 : self.ends]

    @property
    def onwards(self) -> bool:
        """Whether the rest of the row is told in passing here or soon behind; how often the repeat before is worked is no such thing."""
        return _onwards(self.speech.tokens[self.times_told + 1 : min(self.ends + SOON, self.row.main.end)])

    @property
    def times_told(self) -> int:
        """The token that ends the words in which it is told how often the repeat right before is worked ("and repeat that from the skip one
        more time"); that of what is said before where there are none."""
        ended = self.first and self.row.steps[self.first - 1].place
        if not self.first or ended is None or self.after is None or not self.row.asked[ended].loops:
            return self.begins
        times = [k for k in range(self.begins + 1, self.ends) if self.speech.tokens[k].text in ("times", "time", "twice")]
        return times[-1] if times else self.begins

    @property
    def opens(self) -> bool:
        """Whether nothing but the chain the row starts with is told before."""
        return all(step.place is not None and self.row.classes[step.place] == "start" for step in self.row.steps[: self.first])

    def like_said(self, *, number: bool) -> bool:
        """Whether another such thing of the row is said; `number`: with the same number."""
        one, asked = self.row.asked[self.place], self.row.asked
        return any(
            k != self.place and k in self.row.met and _alike(self.row, self.place, k) and (not number or asked[k].numbers == one.numbers)
            for k in range(len(asked))
        )


def of_loss(gap: Gap, habits: Habits) -> dict[str, float]:
    """What speaks for and against a thing unsaid having been left out."""
    row, place, named, tokens = gap.row, gap.place, gap.named, gap.speech.tokens
    one, number = row.asked[place], max(row.asked[place].numbers, default=0)
    window = tokens[max(gap.begins, 0) : min(gap.ends + 6, len(tokens))]
    lost = [step.place for step in row.steps[gap.first : gap.behind] if step.place is not None and row.classes[step.place] not in _SELDOM]
    rate = habits.rate(named, but=not row.same and row.covered() >= DETAIL)
    twin = gap.like_said(number=True)
    return {
        "always": 1.0,
        "edited": float(gap.speech.edited),
        f"of {named}": 1.0,
        "habit": log(rate / (1 - rate)) / 4,
        "two": float(number == 2),
        "two lost": float(len(lost) == 2),
        "more lost": float(len(lost) > 2),
        **_beside(row, gap.first, gap.behind - 1),
        "told": row.covered(place),
        "all told": float(row.covered(place) == 1),
        "nothing else told": float(len(row.met) < 2),
        "besides": min(_besides(row), 3) / 3,
        "others wrong": min(sum(not step.agrees for step in row.steps), 3) / 3,
        "others unsaid": max(0, min(_unsaid(row) - len(lost), 3)) / 3,
        "another like it said": float(gap.like_said(number=False)),
        "its twin said": float(twin),
        "beside one like it": float(
            one.where != "same"
            and any(
                _alike(row, place, k)
                and not _twins(row, place, k)
                and not _across(gap, k)
                and not _by_itself(gap, k)
                and not _elsewhere(gap, k)
                for k in (place - 1, place + 1)
            )
        ),  # a second stitch in the same place is told with no other
        "again": float(
            any(token.text in _AGAIN and not _of_place(window, k) and not _of_times(window, k) for k, token in enumerate(window))
        ),
        "every other": float(named == "skip" and any(token.text in _OTHER for token in tokens[row.main.begins : row.main.end])),
        "onwards": float(gap.after is None and _onwards(gap.between)),
        "onwards between": float(gap.after is not None and _onwards(gap.between)),
        "closed": float(gap.after is None and _closed(gap.between, row)),
        "twin said, onwards": float(gap.onwards and twin),
        "skip, its twin said": float(named == "skip" and twin),
        "skip before the last": float(named == "skip" and any(one.where == "last" for one in row.asked[place + 1 : place + 2])),
        "opens": float(gap.before is None or gap.opens),
        "group named": float(one.group >= 0 and any(token.text in _FIGURES for token in tokens[row.main.begins : gap.ends])),
        "room": min(_room(gap) if named == "chain" and gap.after is not None else _till_times(gap), ROOM) / ROOM,
        "number between": float(any(token.kind == "num" and k > 1 for k, token in enumerate(gap.between))),
        "same": float(row.same_from(gap.ends)),
        "said in other rows": habits.elsewhere(row, place),
        "amid its group": float(_amid_group(row, place)),
    }


def _room(gap: Gap) -> int:
    """How many words between two things told may tell a chain: not those of a place, which may stand for its stitch, but for no chain
    ("into the same space", "over to the next chain two space"), nor the number of the thing behind."""
    said, taken = gap.between, set[int]()
    for k, token in enumerate(said):
        if token.text not in _TO:
            continue
        end = next((i for i in range(k + 1, min(k + PLACE + 1, len(said))) if said[i].text in _HOLES or said[i].text == "there"), -1)
        if end >= 0 and not any(t.stop and t.mark in ".!?" for t in said[k:end] if t.kind != "chain"):
            taken |= set(range(k, end + 1))
    if gap.after is not None and gap.after.at_number >= 0:
        taken.add(gap.after.at_number - gap.begins - 1)
    return sum(k not in taken for k in range(len(said)))


_TO = frozenset(("in", "into", "to", "over", "onto", "on"))
_HOLES = frozenset(("space", "spaces", "sp", "sps", "corner", "stitch", "loop", "hole", "gap", "arch", "ring"))
PLACE = 6
"""So many words at most tell a place (ours)."""


def _of_place(said: Sequence[Token], k: int) -> bool:
    """Whether a word like "same" only tells a place: "in that same space"."""
    return said[k].text == "same" and not said[k].stop and any(token.text in _HOLES for token in said[k + 1 : k + 3])


def _of_times(said: Sequence[Token], k: int) -> bool:
    """Whether a word like "another" only tells how often a repeat is worked: "another fourteen times", "nine more"."""
    if said[k].text not in ("another", "more"):
        return False
    beside = said[k + 1] if said[k].text == "another" and k + 1 < len(said) else said[k - 1] if k else None
    behind = said[k + 2 : k + 3] if said[k].text == "another" else said[k + 1 : k + 2]
    numbered = beside is not None and (beside.kind == "num" or beside.text == "times")
    return numbered and not any(token.kind in ("st", "stitch", "chain", "space", "increase", "decrease") for token in behind)


def _till_times(gap: Gap) -> int:
    """How many words stand where the thing is missing: none of those in which it is told how often the repeat that it ends is worked."""
    said = gap.between
    if gap.after is not None or not gap.row.asked[gap.place].loops:
        return len(said)
    wanted = {n - 1 for _, times, _ in gap.row.asked[gap.place].loops for n in times}
    at = next((k for k, token in enumerate(said) if token.kind == "num" and token.number in wanted | {n + 1 for n in wanted}), -1)
    return next((k for k in range(at - 1, -1, -1) if said[k].text in ("and", "then", "so", "now")), len(said)) if at >= 0 else len(said)


_SELDOM = ("start", "slip")
"""What hardly anybody tells."""
LAST = 8
"""Words behind the last thing told in which another may be (ours)."""
SOON = 9
"""Words behind the next thing told within which the rest of the row may be told in passing (ours)."""
_FIGURES = words("evidence", "figures")


_LITTLE = frozenset(("so", "on", "back"))
"""Words of going on that are as often of something else: "so two wraps on the hook"."""


def _onwards(said: Sequence[Token]) -> bool:
    return any((token.text in _ONWARDS and token.text not in _LITTLE) or token.kind == "repeat" for token in said)


def _closed(between: Sequence[Token], row: ToldRow) -> bool:
    allowed = row.main.unit.any_allowed
    return any(token.kind in ("join", "turn", "slip") or (token.kind == "num" and token.number in allowed) for token in between)


def _beside(row: ToldRow, first: int, last: int | None = None) -> dict[str, float]:
    return {**_neighbour(row, first - 1, "before"), **_neighbour(row, (first if last is None else last) + 1, "behind")}


def _neighbour(row: ToldRow, k: int, side: str) -> dict[str, float]:
    if not 0 <= k < len(row.steps):
        return {f"nothing {side}": 1.0}
    return {f"{_state(row, row.steps[k])} {side}": 1.0}


def _state(row: ToldRow, step: Step_) -> str:
    if step.place is None:
        return "another"
    if step.told is None:
        return "unsaid"
    if not step.agrees:
        return "wrong"
    numbers = row.asked[step.place].numbers
    return "exact" if step.told.number is not None or not numbers or max(numbers) == 1 else "said"


def _besides(row: ToldRow) -> int:
    return sum(step.place is None and step.told is not None and step.told.sure > 0.5 for step in row.steps)


def _unsaid(row: ToldRow) -> int:
    """How many things are not said; of a repeat told in short, those that are told elsewhere in the row are."""
    told = {replace(row.asked[k], start=-1, group=min(row.asked[k].group, 0)) for k in row.met}
    unsaid = [k for k, named in enumerate(row.classes) if named not in _SELDOM and k not in row.met]
    return sum(replace(row.asked[k], start=-1, group=min(row.asked[k].group, 0)) not in told for k in unsaid)


def _across(gap: Gap, k: int) -> bool:
    """Whether the thing at place k ends the repeat before, and how often that is worked is told between: "that is two times, chain …"."""
    ends = k == gap.place - 1 and bool(gap.row.asked[k].loops)
    return ends and any(token.text in ("times", "twice") for token in gap.between)


def _elsewhere(gap: Gap, k: int) -> bool:
    """Whether several go into one loop here, and into stitches at place k: nobody tells those as one."""
    here, there = gap.row.asked[gap.place], gap.row.asked[k]
    return "hole" in (here.where, there.where) and here.where != there.where and max(here.numbers, default=0) > 1


def _by_itself(gap: Gap, k: int) -> bool:
    """Whether the thing at place k, beside the gap, is told with its very number, and on the other side chains are told or
    skipped: who tells two as one tells another number."""
    other = 2 * gap.place - k
    if not 0 <= other < len(gap.row.asked) or gap.row.asked[other].kind not in ("ch", "skip") or other not in gap.row.met:
        return False
    step = gap.row.steps[gap.first - 1] if k < gap.place and gap.first else None
    if k > gap.place and gap.behind < len(gap.row.steps):
        step = gap.row.steps[gap.behind]
    return step is not None and step.place == k and step.told is not None and step.agrees and step.told.at_number >= 0


def _amid_group(row: ToldRow, place: int) -> bool:
    """Whether the things before and behind it in its group are both said."""
    group = row.asked[place].group
    beside = [k for k in (place - 1, place + 1) if 0 <= k < len(row.asked) and row.asked[k].group == group]
    return group >= 0 and len(beside) == 2 and all(k in row.met for k in beside)


def _alike(row: ToldRow, k: int, other: int) -> bool:
    one = row.asked[k]
    if not 0 <= other < len(row.asked) or (row.asked[other].kind, row.asked[other].what) != (one.kind, one.what):
        return False
    return one.kind != "ch" or row.asked[other].numbers == one.numbers  # a chain of another length is another thing


def _twins(row: ToldRow, k: int, other: int) -> bool:
    """Whether two things alike have the same number of several stitches: nobody tells them as one."""
    return row.asked[k].numbers == row.asked[other].numbers and max(row.asked[k].numbers, default=0) > 1
