"""How often a repeat is worked, told wrongly: "six times" where the page says eight, "two more times" where three more are written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from .count_slips import other_size
from .figures import sound_alike
from .findings import Heard
from .laying import may_be
from .lexicon import words
from .segments import Speech
from .things import multiplied, sentence
from .tokens import Token
from .told_rows import ToldRow

_MORE = words("repeats_told", "more")
_WHOLE = words("repeats_told", "whole")
_OTHERWISE = words("repeats_told", "otherwise")
_ON = frozenset(("so", "then", "which", "that's", "because", "till", "until"))
"""What begins the next clause."""
_AGAIN = frozenset(("again", "another"))
_THEM, _ACROSS = frozenset(("those", "them", "these")), frozenset(("around", "round", "across", "altogether"))
_GOES_BACK = frozenset(("star", "back", "asterisk", "redo", "over"))
_AS_FAR = frozenset(("to", "till", "until", "reach", "by"))
"""Before a place that is only how far one goes: "four times to the end"."""
REPEATS = 8
"""Words before a number of times within which it is said that something is repeated (ours)."""
_LOTS = frozenset(("lots", "goes", "sets", "repeats", "repetitions", "copies"))
"""Other words for times: "fourteen lots of that"."""
_ON_WITH = frozenset(("and", "then", "so", "for"))
"""What may follow "ten more" where nobody set marks."""
NEARLY = 2
"""So far at most from how often a repeat is worked a number without "times" may be a slip for it (ours)."""
BEFORE, BEHIND = 4, 4
"""Words to either side of a number of times that tell what it is of (ours)."""
LEADS = 9
"""Words behind a number of times within which what is repeated may begin to be told: "twice we do chain one, three in the space" (ours)."""
TRAILS = 16
"""Words behind the last thing told within which it may be told how often it is worked (ours)."""
FEW = 2
"""So many "more times" may be told of those told last, or be all (ours)."""
HABIT = 3
"""So many repeats told rightly, all of them in the one way, make a habit of it (ours)."""
SURE, BY_HABIT, LOST = 0.66, 0.58, 0.3
"""How surely a number of times is wrong: for itself, only by the speaker's habit, and where a machine may have written it for the right one
(ours)."""


@dataclass(frozen=True, slots=True)
class Repeated:
    """A repeat of a row: asked[first:last + 1], `wanted` how often it is worked in all."""

    first: int
    last: int
    wanted: frozenset[int]
    sized: frozenset[int] = frozenset()
    """How often in the other sizes."""

    @property
    def in_other_sizes(self) -> Repeated:
        return replace(self, wanted=self.sized)


@dataclass(frozen=True, slots=True)
class Times:
    """How often something is worked, as told at token k. `more`: so many besides those told before; `whole`: so many in all."""

    number: int
    k: int
    end: int
    more: bool
    whole: bool
    sure: float
    around: bool = False
    """Whether that is how often the whole row is: "six times around" counts what was told twice before once at most."""
    again: bool = False
    """Whether "again" or "another" stands beside it, which may mean either."""
    repeats: bool = False
    """Whether it is told how often something is repeated, which means either with those who tell no whole: "repeat that five times"."""

    first: bool = False
    """Whether it is told how often behind the first time: "after that first one you do nine more"."""
    loose: bool = False
    """Whether the word "times" is not said: "six of those", "and ten more"."""

    def as_told(self, other: Times) -> bool:
        """Whether both are told alike: "ten more times, so eleven of those" puts nothing right."""
        return self.more == other.more and self.whole == other.whole and self.loose == other.loose

    def right(self, repeat: Repeated, told: int, way: Way) -> bool:
        """Whether it agrees with the repeat, told `told` times before, where the speaker tells it that way.

        Of 200 numbers of times without "more", "again" or "repeat" in 170 narrations none was right only besides what was told before; of
        32 with "more" three were in all, each of them "two"."""
        besides = any(self.number + n in repeat.wanted for n in (1, 1 if self.around or self.first else told))
        if self.number in repeat.wanted:
            return not self.more or besides or (self.number == FEW and not way.more)
        return besides and not self.whole and (self.more or self.again or (self.repeats and not way.in_all))


@dataclass(frozen=True, slots=True)
class Way:
    """How a speaker tells how often repeats are worked. `in_all`: those without "more" tell the whole; `more`: those with it do not."""

    in_all: bool = False
    more: bool = False


def repeat_slips(rows: Sequence[ToldRow], speech: Speech) -> Iterator[Heard]:
    """The numbers of times that are not those of the row's repeats."""
    every = [(row, _tellings(row, speech.tokens)) for row in rows]
    way = _way([telling for _, tellings in every for telling in tellings])
    for row, tellings in every:
        for times, repeats, told in tellings:
            sized = [one.in_other_sizes for one in repeats] if other_size(speech, times.k, frozenset(), row.main.unit.size_names) else []
            if any(times.right(one, told, way) for one in (*repeats, *sized)):
                continue
            # told again rightly, it was put right, or is of something else
            if any(
                other.right(repeats[0], again, way) for other, others, again in tellings if others[0] == repeats[0] and other.as_told(times)
            ):
                continue
            yield _heard(row, times, repeats, told, speech)


def _heard(row: ToldRow, times: Times, repeats: Sequence[Repeated], told: int, speech: Speech) -> Heard:
    tokens, written = speech.tokens, row.main.unit.row_at(row.main.number)
    wanted = {n for one in repeats for n in one.wanted}
    sure = BY_HABIT if any(times.right(one, told, Way()) for one in repeats) else SURE
    said = {times.number, times.number + 1} if times.more else {times.number}
    if any(sound_alike(one, n) for one in said for n in wanted) or times.sure < 1:
        sure = LOST
    if min(abs(times.number - n) for n in wanted) > max(3, *(n // 2 for n in wanted)):
        sure -= 0.2  # so far off it is of something else
    label = written.label
    told_as, written_as = f"{times.number} {'more ' if times.more else ''}times", " or ".join(map(str, sorted(wanted)))
    message = f"{told_as} is said, and {label} repeats {written_as} times"
    around = " ".join(token.raw for token in tokens[max(0, times.k - 3) : times.k + 6])
    return Heard(kind="number", at=tokens[times.k].at, words=around, row=label, message=message, sure=round(sure, 2))


def _way(tellings: Sequence[Telling]) -> Way:
    """The way of the speaker, as far as what is told rightly shows it."""
    plain = [any(times.number in one.wanted for one in repeats) for times, repeats, _ in tellings if not times.more]
    more = [
        any(times.number not in one.wanted and times.right(one, told, Way()) for one in repeats)
        for times, repeats, told in tellings
        if times.more
    ]
    tells_apart = more.count(True) > more.count(False)  # who says "more" where she means it tells the whole without it
    in_all = (plain.count(True) >= HABIT or tells_apart) and plain.count(False) <= 1
    return Way(in_all, more.count(True) >= 2 and more.count(False) <= 1)


def _told_before(row: ToldRow, repeats: Sequence[Repeated], times: Times) -> int:
    """How often the repeat was told before it is told how often it is worked, as often as any of its things: once at least."""
    told = [
        sum(
            step.told is not None
            and step.told.k < times.k
            and (step.place == place or (step.place is None and may_be(row.asked[place], step.told)))
            for step in row.steps
        )
        for one in repeats
        for place in range(one.first, one.last + 1)
    ]
    return max((*told, 1))


def _repeats(row: ToldRow) -> list[Repeated]:
    return [Repeated(start, k, times, sized) for k, one in enumerate(row.asked) for start, times, sized in one.loops]


Telling: TypeAlias = tuple[Times, list[Repeated], int]


def _tellings(row: ToldRow, tokens: Sequence[Token]) -> list[Telling]:
    """The numbers of times told of the row, each with the repeats it may be of, and how often these were told before."""
    repeats = _repeats(row)
    found: list[Telling] = []
    if not repeats or len(row.main.unit.numbers) > 1 or not any(row.met & set(range(one.first, one.last + 1)) for one in repeats):
        return found
    for k in range(row.main.begins, row.main.end):
        times = _times_at(tokens, k, row.main.end)
        if times is not None and times.number + times.more > 1 and not _of_something_else(tokens, times, row):
            of = _of(row, repeats, times)
            if times.more and of and all(_told_alike(row, repeats, one, times) for one in of):
                times = replace(times, more=False)
            if of and not (times.loose and not _nearly(row, of, times)):
                found.append((times, of, _told_before(row, of, times)))
    return found


def _told_alike(row: ToldRow, repeats: Sequence[Repeated], one: Repeated, times: Times) -> bool:
    """Whether an earlier repeat of the row has the same things and this one is told behind its number alone: "three times chain two, skip
    two, treble in the next … and three times more the chain two, skip two": so many more than those."""
    told = any(step.told is not None and step.told.k < times.k and step.place in range(one.first, one.last + 1) for step in row.steps)
    return not told and any(other.last < one.first and _things(row, other) == _things(row, one) for other in repeats)


def _things(row: ToldRow, one: Repeated) -> list[tuple[str, str, frozenset[int]]]:
    return [(asked.kind, asked.what, asked.numbers) for asked in row.asked[one.first : one.last + 1]]


def _nearly(row: ToldRow, repeats: Sequence[Repeated], times: Times) -> bool:
    """Whether a number without "times" is told right behind a repeat, near how often that is worked, and of nothing else of the row."""
    before = max((step.told.k for step in row.steps if step.told is not None and step.told.k < times.k), default=-TRAILS)
    wanted = {n - times.more for one in repeats for n in one.wanted}
    near = any(0 <= abs(times.number - n) <= NEARLY for n in wanted)
    return (
        near
        and times.number > FEW
        and times.k - before <= TRAILS
        and (times.number in wanted or times.number not in row.main.unit.told_numbers)
    )


def _times_at(tokens: Sequence[Token], k: int, end: int) -> Times | None:
    """How often something is worked, where that is told at token k."""
    token = tokens[k]
    behind = [other.text for other in tokens[k + 1 : min(k + 4, end)]]
    twice = token.text in ("twice", "thrice")
    if not twice and (token.kind != "num" or token.stop or token.number == 0):
        return None
    at, loose = k + 1, False
    more = behind[:1] == ["more"] and not token.stop
    at += more
    if not twice:
        following = tokens[at].text if at < end else ""
        of_them = following == "of" and at + 1 < end and tokens[at + 1].text in _THEM
        if following in ("times", "time") or following in _LOTS or of_them:
            loose = (of_them and not more and not (at + 2 < end and tokens[at + 2].text in _ACROSS)) or following in _LOTS
            at += 1 + of_them
            if following in _LOTS and at + 1 < end and tokens[at].text == "of" and tokens[at + 1].text in (*_THEM, "that", "this", "it"):
                at += 2
        elif more and (at == end or tokens[k + 1].stop or tokens[at].until != tokens[k + 1].until or following in _ON_WITH):
            loose = True
        else:
            return None
    if at < end and tokens[at].text == "more" and not tokens[at - 1].stop:
        more, at = True, at + 1
    more = more or (k > 0 and tokens[k - 1].text in _MORE and not tokens[k - 1].stop)
    more = more or (at < end and tokens[at].text in _MORE and not tokens[at - 1].stop)
    tail = [other.text for other in tokens[at : min(at + 3, end)]]
    tail = tail[: next((i for i, word in enumerate(tail) if word in _ON), len(tail))]  # "four times more, so altogether you've six"
    whole = any(word in _WHOLE for word in tail) or tail[:2] == ["in", "all"] or tail[:2] == ["in", "total"]
    number = {"twice": 2, "thrice": 3}.get(token.text, token.number)
    again = bool(_AGAIN & {other.text for other in (*tokens[max(k - 1, 0) : k], *tokens[at : at + 1])})
    repeats = any(other.kind == "repeat" or other.text in _GOES_BACK for other in tokens[max(sentence(tokens, k)[0], k - REPEATS) : k])
    around = bool(tail) and tail[0] in _ACROSS
    lead = tokens[max(sentence(tokens, k)[0], k - REPEATS) : k]
    first = any(other.text == "first" and lead[i - 1 : i][0].text != "in" for i, other in enumerate(lead) if i)
    return Times(number, k, at, more and not whole, whole, 1.0 if twice else token.sure, around, again, repeats, first, loose)


def _of_something_else(tokens: Sequence[Token], times: Times, row: ToldRow) -> bool:
    """Whether it is told how often something else was done: wraps, counting, whole rows, one stitch in one place."""
    if multiplied(tokens, times.k) or (tokens[times.k].kind == "num" and (tokens[times.k].story or tokens[times.k].aside)):
        return True
    lead = tokens[max(row.main.begins, times.k - BEFORE) : times.k]
    behind = tokens[times.end : min(times.end + BEHIND, row.main.end)]
    if tokens[times.end - 1].stop and tokens[times.end - 1].mark in ".!?":
        behind = ()
    closed = next((i + 1 for i, token in enumerate(behind) if token.stop and token.mark in ".!?"), len(behind))
    near = (*range(times.k - len(lead), times.k), *range(times.end, times.end + closed))
    if any(tokens[k].text in _OTHERWISE and not {token.text for token in tokens[k - 2 : k]} & _AS_FAR for k in near):
        return True
    if any(token.kind in ("row", "rows") and token.text not in ("round", "around") for token in lead):
        return True
    texts = [token.text for token in behind]
    return any(texts[k] in ("in", "into") and texts[k + 1 : k + 3] in (["the", "same"], ["the", "next"]) for k in range(len(texts)))


def _of(row: ToldRow, repeats: Sequence[Repeated], times: Times) -> list[Repeated]:
    """The repeats it may be told of: the one told right before, and the one that is told right behind it."""
    steps = [step for step in row.steps if step.told is not None and step.place is not None]
    before = next((step for step in reversed(steps) if step.told is not None and step.told.k < times.k), None)
    after = next((step for step in steps if step.told is not None and step.told.k > times.k), None)
    found: list[Repeated] = []
    if before is not None and before.told is not None and before.place is not None:
        one = row.asked[before.place]
        own = {one.places} if one.kind == "inc" else one.numbers
        if times.number in own and not times.more and before.told.number in (None, 1):
            return []  # "two together twice"
        if len(repeats) == 1 and before.place >= repeats[0].first:
            found = [*repeats]
        else:
            found = [r for r in repeats if r.first <= before.place <= r.last and times.k - before.told.k <= TRAILS]
    if after is not None and after.told is not None and after.place is not None and after.told.k - times.k <= LEADS:
        found += [r for r in repeats if r.first <= after.place <= r.last and r not in found]
    return found
