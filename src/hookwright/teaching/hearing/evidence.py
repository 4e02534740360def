"""What speaks for and against a number told wrongly, and a thing left out: by name, each from 0 to 1, to be weighed together."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from math import exp, log
from pathlib import Path

from .anchors import takes_back
from .detail import Told_
from .figures import sound_alike
from .laying import Step_
from .lexicon import words
from .segments import Speech
from .tokens import Token
from .told_rows import Habits, ToldRow

_AGAIN = words("number_slips", "again")
_VAGUE = words("number_slips", "vague")
"""Words in which a thing may be told that is not named."""
_ONWARDS = words("number_slips", "onwards")
"""Words with which the rest of a row is told in passing."""
_OTHER = words("number_slips", "other")
"""Words in which a skip may be told: "in every other stitch"."""
ROOM = 12
"""Words between two things told in which a third may well be told in other words (ours)."""
NEAR = 14
"""Words around a number within which the right one may stand too (ours)."""


MOST = 0.9
"""Surer than this nothing learned from so few slips is (ours); a wrong count told outright is surer."""


def weighed(kind: str, evidence: Mapping[str, float]) -> float:
    """The probability of a slip that all of it together comes to."""
    weights = _weights()[kind]
    return min(MOST, 1 / (1 + exp(-sum(weights.get(name, 0.0) * value for name, value in evidence.items()))))


@cache
def _weights() -> dict[str, dict[str, float]]:
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
        "far away": float(away > 4),
        "farther away": float(away > max(FAR, *one.numbers)),
        **_beside(row, at),
        "told": row.covered(step.place),
        "nothing else told": float(len(row.met) < 2),
        "besides": min(_besides(row), 3) / 3,
        "others wrong": min(wrong - 1, 3) / 3,
        "of another like it": float(any(said in other.numbers and (other.kind, other.what) == (one.kind, one.what) for other in alike)),
        "of another": float(any(said in other.numbers for other in alike)),
        "a count": float(said in row.main.unit.any_allowed),
        "right elsewhere": float(step.place in row.right),
        "right near": float(any(token.kind == "num" and token.number in one.numbers for token in near)),
        "sounds alike": float(any(sound_alike(said, wanted) for wanted in one.numbers)),
        "sounds alike, machine": float(not speech.edited and any(sound_alike(said, wanted) for wanted in one.numbers)),
        "taken back": float(takes_back(tokens, told.k - 3, told.k + 12)),
        "put right": float(_put_right(tokens, told.at_number, one.numbers, row.main.end)),
        "in its place": float(bool(told.where) and told.where == one.where),
        "in another place": float(bool(told.where) and bool(one.where) and told.where != one.where),
        "unsure": 1.0 - told.sure,
        "same": float(row.same),
        "thing": float(told.at_number >= 0 and (tokens[told.at_number].thing or tokens[told.at_number].story)),
    }


FAR = 6
"""Farther from what is written a number is of something else, if it is not at most twice as large (ours)."""
_NO = words("evidence", "no")
PUT_RIGHT = 16
"""Words within which a wrong number is put right (ours)."""


def _put_right(tokens: Sequence[Token], k: int, right: frozenset[int], end: int) -> bool:
    """Whether the number at token k is taken back and the right one told: "in the next four, no, forgive me, in the next three"."""
    for i in range(k + 1, min(k + PUT_RIGHT, end)):
        if tokens[i].kind == "num" and tokens[i].number in right:
            return any(token.text in _NO for token in tokens[k + 1 : i]) or takes_back(tokens, k + 1, i)
    return False


def of_loss(row: ToldRow, first: int, behind: int, place: int, speech: Speech, habits: Habits) -> dict[str, float]:
    """What speaks for and against the thing at `place`, unsaid among the steps from `first` up to `behind`, having been left out."""
    one, named = row.asked[place], row.classes[place]
    before = row.steps[first - 1].told if first else None
    after = row.steps[behind].told if behind < len(row.steps) else None
    tokens = speech.tokens
    begins = before.k if before is not None else row.main.begins - 1
    ends = after.k if after is not None else min(begins + 8, row.main.end)
    between = tokens[begins + 1 : ends]
    window = tokens[max(begins, 0) : min(ends + 6, len(tokens))]
    lost = [step.place for step in row.steps[first:behind] if step.place is not None and row.classes[step.place] not in ("start", "slip")]
    onwards = _onwards(tokens[begins + 1 : min(ends + SOON, row.main.end)])
    rate = habits.rate(named, but=not row.same and row.covered() >= 0.5)
    number = max(one.numbers, default=0)
    return {
        "always": 1.0,
        "edited": float(speech.edited),
        f"of {named}": 1.0,
        "habit": log(rate / (1 - rate)) / 4,
        "one": float(number <= 1),
        "two": float(number == 2),
        "two lost": float(len(lost) == 2),
        "more lost": float(len(lost) > 2),
        **_beside(row, first, behind - 1),
        "told": row.covered(place),
        "all told": float(row.covered(place) == 1),
        "nothing else told": float(len(row.met) < 2),
        "besides": min(_besides(row), 3) / 3,
        "others wrong": min(sum(not step.agrees for step in row.steps), 3) / 3,
        "others unsaid": min(_unsaid(row) - len(lost), 3) / 3,
        "another like it said": float(_like(row, place, numbers=False)),
        "its twin said": float(_like(row, place, numbers=True)),
        "beside one like it": float(any(_alike(row, place, k) and not _twins(row, place, k) for k in (place - 1, place + 1))),
        "vague": float(any(token.text in _VAGUE for token in between)),
        "again": float(any(token.text in _AGAIN for token in window)),
        "every other": float(named == "skip" and any(token.text in _OTHER for token in tokens[row.main.begins : row.main.end])),
        "onwards": float(after is None and _onwards(between)),
        "onwards between": float(after is not None and _onwards(between)),
        "closed": float(after is None and _closed(between, row)),
        "twin said, onwards": float(onwards and _like(row, place, numbers=True)),
        "skip, its twin said": float(named == "skip" and _like(row, place, numbers=True)),
        "opens, another said": float((not first or _opens(row, first - 1)) and _like(row, place, numbers=False)),
        "skip before the last": float(named == "skip" and any(one.where == "last" for one in row.asked[place + 1 : place + 2])),
        "skip before a place": float(named == "skip" and after is not None and (_placed(tokens, after.k) or _last(after))),
        "skip told once, onwards": float(named == "skip" and onwards and _like(row, place, numbers=False)),
        "opens": float(before is None or not first or _opens(row, first - 1)),
        "group named": float(one.group >= 0 and any(token.text in _FIGURES for token in tokens[row.main.begins : ends])),
        "room": min(len(between), ROOM) / ROOM,
        "number between": float(any(token.kind == "num" and k > 1 for k, token in enumerate(between))),
        "same": float(row.same),
    }


SOON = 9
"""Words behind the next thing told within which the rest of the row may be told in passing (ours)."""
_FIGURES = words("evidence", "figures")


def _placed(tokens: Sequence[Token], k: int) -> bool:
    """Whether the place of the thing at token k is told by what it is, so that nobody need say what is skipped: "on the double crochet"."""
    if tokens[k].stop:
        return False
    behind = tokens[k + 1 : k + 5]
    at = next((i for i, token in enumerate(behind) if token.text in ("in", "into", "on", "over")), None)
    if at is None:
        return False
    named = [token for token in behind[at:] if token.kind in ("st", "space", "shell", "cluster", "ord", "ring")]
    return bool(named) and not any(token.text in ("next", "following") for token in behind)


def _last(told: Told_) -> bool:
    """Whether a thing goes into the one last stitch: what lies before it is skipped of itself."""
    return told.where == "last" and told.number in (None, 1)


_LITTLE = frozenset(("so", "on", "back"))
"""Words of going on that are as often of something else: "so two wraps on the hook"."""


def _onwards(said: Sequence[Token]) -> bool:
    return any((token.text in _ONWARDS and token.text not in _LITTLE) or token.kind == "repeat" for token in said)


def _opens(row: ToldRow, k: int) -> bool:
    """Whether nothing but the chain the row starts with is told up to step k."""
    return all(step.place is not None and row.classes[step.place] == "start" for step in row.steps[: k + 1])


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
    return sum(named not in ("start", "slip") and k not in row.met for k, named in enumerate(row.classes))


def _alike(row: ToldRow, k: int, other: int) -> bool:
    one = row.asked[k]
    return 0 <= other < len(row.asked) and (row.asked[other].kind, row.asked[other].what) == (one.kind, one.what)


def _twins(row: ToldRow, k: int, other: int) -> bool:
    """Whether two things alike have the same number of several stitches: nobody tells them as one."""
    return row.asked[k].numbers == row.asked[other].numbers and max(row.asked[k].numbers, default=0) > 1


def _like(row: ToldRow, place: int, *, numbers: bool) -> bool:
    return any(
        k != place and k in row.met and _alike(row, place, k) and (not numbers or row.asked[k].numbers == row.asked[place].numbers)
        for k in range(len(row.asked))
    )
