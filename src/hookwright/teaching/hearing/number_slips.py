"""Numbers inside the instructions that differ from the page, and things left out between others that are told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ...pattern import Make
from ...pattern.walking import inside
from ...trade.terms import System
from ...trade.terms import name as full_name
from .anchors import takes_back
from .asked import Asked, first_worked
from .evidence import Gap, of_loss, of_number, weighed
from .excuses import loss_excused, number_excused, put_right
from .findings import Heard
from .lexicon import words
from .repeats_told import repeat_slips
from .segments import Speech
from .stitch_slips import amid, between, closed_behind
from .tail_untold import tails_untold
from .tokens import Token
from .told_rows import Habits, ToldRow, habits_of, told_rows
from .units import Unit


@dataclass(frozen=True)
class Perhaps:
    """A number that may be wrong (`step` its place among the row's steps), or a thing that may be left out (`place` its place among what is
    asked, `step` and `behind` the unsaid steps around it), and what speaks for and against."""

    row: ToldRow
    step: int
    evidence: dict[str, float]
    place: int = -1
    behind: int = -1

    @property
    def sure(self) -> float:
        return round(weighed("number" if self.place < 0 else "left out", self.evidence), 2)

    def heard(self, speech: Speech, terms: System) -> Heard:
        return _number(self, speech) if self.place < 0 else _loss(self, speech, terms)


def number_slips(units: Sequence[Unit], speech: Speech, terms: System) -> Iterator[Heard]:
    """The differences of every row that is told thing by thing."""
    rows = told_rows(units, speech)
    habits = habits_of(rows)
    yield from repeat_slips(rows, speech)
    yield from _start_untold(rows, speech, terms)
    yield from _slips_untold(rows, speech)
    for row, place, closing in tails_untold(rows, speech):
        label, k = row.main.unit.label, closing
        message = f"{label} also has {_words(row.asked[place], terms)} at its end, which is not said"
        yield Heard(kind="left out", at=speech.tokens[k].at, words=_around(speech.tokens, k), row=label, message=message, sure=TAIL)
    for row in rows:
        yield from _from_hook(row, speech)
        yield from _in_each_of(row, speech)
        yield from (one.heard(speech, terms) for one in numbers_perhaps(row, speech))
        lost = max(losses_perhaps(row, speech, habits), key=lambda one: one.sure, default=None)
        if lost is not None:
            yield lost.heard(speech, terms)


TAIL = 0.6
"""How surely the end of a row is left out that is closed without it (ours)."""


def every_perhaps(units: Sequence[Unit], speech: Speech) -> Iterator[Perhaps]:
    """Every number told otherwise and every thing unsaid that nothing excuses, however sure."""
    rows = told_rows(units, speech)
    habits = habits_of(rows)
    for row in rows:
        yield from numbers_perhaps(row, speech)
        yield from losses_perhaps(row, speech, habits)


def numbers_perhaps(row: ToldRow, speech: Speech) -> Iterator[Perhaps]:
    """The numbers of a row that are told otherwise than they are written."""
    for k, step in enumerate(row.steps):
        differs = step.place is not None and step.told is not None and not step.agrees and step.told.at_number >= 0
        if differs and not number_excused(row, k, speech):
            yield Perhaps(row, k, of_number(row, k, speech))


def losses_perhaps(row: ToldRow, speech: Speech, habits: Habits) -> Iterator[Perhaps]:
    """The things of a row that are not said, in a row of which something is."""
    if all(row.classes[place] == "start" for place in row.met):
        return
    k = 0
    while k < len(row.steps):
        run = k
        while run < len(row.steps) and row.steps[run].told is None:
            run += 1
        for step in row.steps[k:run]:
            if step.place is not None and step.place not in row.met:
                gap = Gap(row, k, run, step.place, speech)
                if not loss_excused(
                    gap,
                    told_elsewhere=bool(row.asked[step.place].where) and habits.elsewhere(row, step.place) >= STEADILY,
                    skips_told=habits.tells_all("skip", row),
                ):
                    yield Perhaps(row, k, of_loss(gap, habits), step.place, run)
        k = max(run, k + 1)


STEADILY = 0.6
"""So steadily a thing with a place of its own must be told in other rows, two at least, that it is missed where another stands for it
(ours)."""


def _number(one: Perhaps, speech: Speech) -> Heard:
    step, row = one.row.steps[one.step], one.row.main.unit.row_at(one.row.main.number)
    assert step.place is not None and step.told is not None
    wanted = " or ".join(map(str, sorted(one.row.asked[step.place].numbers)))
    message = f"{step.told.number} is said, and {row.label} has {wanted} there"
    at = speech.tokens[step.told.at_number].at
    return Heard(kind="number", at=at, words=_around(speech.tokens, step.told.k), row=row.label, message=message, sure=one.sure)


def _loss(one: Perhaps, speech: Speech, terms: System) -> Heard:
    row, label = one.row, one.row.main.unit.label
    before = row.steps[one.step - 1].told if one.step else None
    after = row.steps[one.behind].told if one.behind < len(row.steps) else None
    at = after or before
    assert at is not None
    if before is not None and after is None:
        when = min(speech.after(speech.sentence_end(before.k, row.main.end)), before.at + DUE_S)
        last = _counted_behind(speech.tokens, before.k, row.main.end)
        closed = closed_behind(speech, row.main, before.k) if last < 0 else -1
        when = speech.tokens[last].at if last >= 0 else amid(before.at, speech.tokens[closed].at) if closed >= 0 else when
    else:
        when = between(before.at, at.at) if before is not None else at.at
    message = f"{label} also has {_words(row.asked[one.place], terms)} there, which is not said"
    return Heard(kind="left out", at=when, words=_around(speech.tokens, at.k), row=label, message=message, sure=one.sure)


DUE_S = 1.5
"""So many seconds behind the last thing said one hears that nothing more comes (ours)."""


def _counted_behind(tokens: Sequence[Token], k: int, end: int) -> int:
    """The last number counted aloud behind the thing told at token k, while it is worked: "single in the next five. Three. Four. Five.";
    -1 where none is."""
    for i in range(k + 1, min(k + COUNTED_BEHIND, end)):
        if tokens[i].kind in ("turn", "join"):
            return -1  # the whole row is counted
        if tokens[i].kind != "num" or tokens[i + 1 : i + 2] == [] or tokens[i + 1].number != tokens[i].number + 1:
            continue
        last = i
        while last + 1 < end and tokens[last + 1].kind == "num" and tokens[last + 1].number == tokens[last].number + 1:
            last += 1
        return last if last - i >= 2 else -1
    return -1


COUNTED_BEHIND = 9
"""Words behind a thing told within which it is counted aloud (ours)."""


EVERY_START = 5
"""So many rows at least must be begun with their chain in words, all but one, for the chain of that one to be missed (ours)."""


def _start_untold(rows: Sequence[ToldRow], speech: Speech, terms: System) -> Iterator[Heard]:
    """The chain a row starts with, where the speaker tells it of every other row."""
    starts = [(row, k) for row in rows for k, one in enumerate(row.asked) if one.kind == "ch" and row.classes[k] == "start"]
    untold = [(row, k) for row, k in starts if k not in row.met and not row.main.unit.refers]
    if len(untold) != 1 or len(starts) - 1 < EVERY_START:
        return
    row, k = untold[0]
    first = next((step.told for step in row.steps if step.told is not None and step.place is not None), None)
    said = speech.tokens[row.main.start : row.main.end]
    if first is None or row.same or row.covered() < 1 or len(row.main.unit.numbers) > 1 or any(token.kind == "chain" for token in said):
        return
    label = row.main.unit.label
    message = f"{label} also has {_words(row.asked[k], terms)} at its beginning, which is not said"
    at = (speech.tokens[row.main.begins].at + first.at) / 2
    yield Heard(kind="left out", at=at, words=_around(speech.tokens, first.k), row=label, message=message, sure=0.6)


_MOVES = words("number_slips", "moves")
"""Words in which one gets to where a row begins: "go over to the loop"."""


def _slips_untold(rows: Sequence[ToldRow], speech: Speech) -> Iterator[Heard]:
    """The slip stitches with which one gets to where a row begins, several of them, in a row that is else told whole, its chain too, where
    nobody leaves them out in another."""
    led = [(row, k) for row in rows for k, one in enumerate(row.asked[: first_worked(row.asked)]) if one.what == "sl st"]
    led = [(row, k) for row, k in led if max(row.asked[k].numbers, default=0) > 1]
    untold = [(row, k) for row, k in led if not _slips_told(row, speech)]
    if len(untold) != 1:
        return
    row, k = untold[0]
    starts = [i for i, one in enumerate(row.asked) if one.kind == "ch" and row.classes[i] == "start"]
    if row.covered() < 1 or len(row.main.unit.numbers) > 1 or not starts or not set(starts) <= row.met:
        return
    first = next(step.told for step in row.steps if step.place == starts[0] and step.told is not None)
    if row.same_from(first.k):
        return
    label = row.main.unit.label
    message = f"{label} also has {max(row.asked[k].numbers)} slip stitches at its beginning, which are not said"
    yield Heard(kind="left out", at=first.at, words=_around(speech.tokens, first.k), row=label, message=message, sure=0.6)


def _slips_told(row: ToldRow, speech: Speech) -> bool:
    """Whether slip stitches are told before the first thing worked in the row, or how else one gets there."""
    told = (step.told.k for step in row.steps if step.told is not None and step.place is not None and row.classes[step.place] != "start")
    worked = min(told, default=row.main.end)
    said = speech.tokens[row.main.begins : worked]
    return any(token.kind == "slip" or token.text in _MOVES for token in said)


def _in_each_of(row: ToldRow, speech: Speech) -> Iterator[Heard]:
    """Several into each of another number of places than is written: "two in each of the next three" where the page has four."""
    tokens = speech.tokens
    told = [(step.place, step.told.at_places) for step in row.steps if step.place is not None and step.told is not None]
    told = [(place, k) for place, k in told if k >= 0 and row.asked[place].places > 1]
    for place, k in told:
        wanted = frozenset((row.asked[place].places,))
        right = any(tokens[other].number in wanted for same, other in told if same == place)
        if right or put_right(tokens, k, wanted, row.main.end) or abs(tokens[k].number - max(wanted)) > max(wanted):
            continue
        label = row.main.unit.row_at(row.main.number).label
        message = f"{tokens[k].number} is said, and {label} has {max(wanted)} there"
        sure = 0.66 if tokens[k].sure == 1 else 0.3
        yield Heard(kind="number", at=tokens[k].at, words=_around(tokens, k), row=label, message=message, sure=sure)


def _from_hook(row: ToldRow, speech: Speech) -> Iterator[Heard]:
    """Another chain from the hook than the one written: "in the fourth chain from the hook" where the page has the third."""
    made = [step for step in inside(row.main.unit.rows[0].written.steps) if isinstance(step, Make) and step.at.where == "from_hook"]
    tokens, wanted = speech.tokens, {step.at.nth for step in made}
    said = [
        k
        for k in range(row.main.begins, row.main.end - 2)
        if tokens[k].kind == "ord" and tokens[k + 1].kind in ("chain", "stitch", "word") and tokens[k + 2].text == "from"
    ]
    if len(wanted) != 1 or len(said) != 1 or tokens[said[0]].number in wanted or takes_back(tokens, said[0] - 3, said[0] + 12):
        return
    k, label = said[0], row.main.unit.row_at(row.main.number).label
    message = f"chain {tokens[k].number} from the hook is said, and {label} has chain {next(iter(wanted))}"
    sure = 0.7 if speech.edited else 0.6
    yield Heard(kind="number", at=tokens[k].at, words=_around(tokens, k), row=label, message=message, sure=sure)


def _around(tokens: Sequence[Token], k: int) -> str:
    return " ".join(token.raw for token in tokens[max(0, k - 3) : k + 6])


def _words(one: Asked, terms: System) -> str:
    number = max(one.numbers, default=0)
    if one.kind == "ch":
        return f"chain {number}"
    name = full_name(one.what, terms)
    if one.kind == "skip":
        return f"a skip of {number}"
    return {"st": f"{number or ''} {name}".strip(), "inc": f"{number} {name} in one stitch", "dec": f"{name} together"}[one.kind]
