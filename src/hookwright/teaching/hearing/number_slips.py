"""Numbers inside the instructions that differ from the page, and things left out between others that are told in full."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...pattern import Repeat
from ...trade.terms import System
from ...trade.terms import name as full_name
from .anchors import takes_back
from .asked import Asked, asked_of
from .detail import Step_, Told_, laid, told_of
from .dialect import Speaking
from .figures import sound_alike
from .findings import Heard
from .said import told_as_same
from .segments import Speech, Stretch
from .tokens import Token
from .units import Unit

DETAIL = 0.6
"""So much of what is asked must be told one by one before a difference means anything (ours)."""
_AGAIN = frozenset(("again", "twice", "both", "same", "another", "more", "likewise", "ditto", "side", "mirror", "before", "other"))


def number_slips(units: Sequence[Unit], speech: Speech, speaking: Speaking) -> Iterator[Heard]:
    """The differences of every row that is told in detail."""
    by_unit: dict[int, list[Stretch]] = {}
    for stretch in speech.stretches:
        by_unit.setdefault(stretch.unit.index, []).append(stretch)
    for stretches in by_unit.values():
        main = max(stretches, key=lambda s: len(s.heard))
        if not any(told_as_same(speech.tokens, s.start, s.end) for s in stretches):
            yield from _times(main, speech)
        asked = asked_of(main.unit)
        if asked is not None and not any(s.heard for s in stretches if s is not main):
            yield from _of_row(asked, main, speech, speaking.terms)


def _of_row(asked: tuple[Asked, ...], main: Stretch, speech: Speech, terms: System) -> Iterator[Heard]:
    counted = frozenset(told.k for told in main.counts if told.strength >= 0.5)
    named = frozenset(range(main.meant.anchor.k, main.meant.anchor.end))
    steps = laid(asked, told_of(speech.tokens, main.heard, main.meant.anchor.end, main.end, counted | named))
    steps = [step for step in steps if step.place is not None or (step.told is not None and step.told.kind != "?")]
    met = {step.place for step in steps if step.place is not None and step.told is not None}
    must = [place for place, one in enumerate(asked) if not one.free and one.kind != "skip"]
    if not must or sum(place in met for place in must) < DETAIL * len(must):
        return
    yield from _wrong_numbers(asked, steps, main, speech)
    yield from _left_out(asked, steps, met, main, speech, terms)


def _wrong_numbers(asked: tuple[Asked, ...], steps: Sequence[Step_], main: Stretch, speech: Speech) -> Iterator[Heard]:
    """Numbers that differ. A row in which all else is said as it stands makes one surer; else its neighbours at least must be right."""
    right = {step.place for step in steps if step.told is not None and step.agrees}
    wrong = [step for step in steps if step.place is not None and step.told is not None and not step.agrees]
    last = max((k for k, step in enumerate(steps) if step.place is not None and step.told is not None), default=0)
    besides = sum(_counts(asked, step) for step in steps[: last + 1]) + sum(
        step.told is None and _counts(asked, step) for step in steps[last:]
    )
    whole = len(wrong) == 1 and not besides and len(right) >= 1
    for k, step in enumerate(steps):
        if step.place is None or step.told is None or step.agrees or step.place in right or step.told.number is None:
            continue
        one, said = asked[step.place], step.told.number
        if not (whole or (_sound(steps, k - 1) and _sound(steps, k + 1))) or one.numbers == {1} or step.told.sure < 0.9:
            continue
        sure = _sure(asked, step.place, said, main, speech, whole=whole) - (0.3 if _corrected(speech, step.told) else 0.0)
        row = main.unit.row_at(main.number)
        message = f"{said} is said, and {row.label} has {' or '.join(map(str, sorted(one.numbers)))} there"
        words = _around(speech.tokens, step.told.k)
        yield Heard(kind="number", at=step.told.at, words=words, row=row.label, message=message, sure=round(max(sure, 0.05), 2))


def _sure(asked: tuple[Asked, ...], place: int, said: int, main: Stretch, speech: Speech, *, whole: bool) -> float:
    one = asked[place]
    sure = (0.66 if whole else 0.62) if speech.edited else (0.58 if whole else 0.52)
    if said in main.unit.allowed(main.number):
        sure -= 0.25
    if any(sound_alike(said, wanted) for wanted in one.numbers):
        sure -= 0.1 if speech.edited else 0.25
    if not whole and any(said in other.numbers and (other.kind, other.what) == (one.kind, one.what) for other in asked):
        sure -= 0.25  # perhaps that other one is meant
    return sure


def _counts(asked: Sequence[Asked], step: Step_) -> bool:
    """Whether a step is something said besides, or something unsaid, that makes the whole row doubtful."""
    if step.place is None:
        return step.told is not None and step.told.sure > 0.5
    return step.told is None and not asked[step.place].free and asked[step.place].kind != "skip"


def _corrected(speech: Speech, told: Told_) -> bool:
    return takes_back(speech.tokens, told.k - 3, told.k + 12)


def _sound(steps: Sequence[Step_], k: int) -> bool:
    """Whether the neighbour on that side is what it should be, or there is none."""
    return not 0 <= k < len(steps) or (steps[k].place is not None and steps[k].told is not None and steps[k].agrees)


def _left_out(
    asked: tuple[Asked, ...], steps: Sequence[Step_], met: set[int], main: Stretch, speech: Speech, terms: System
) -> Iterator[Heard]:
    k = 0
    while k < len(steps):
        run = k
        while run < len(steps) and steps[run].told is None:
            run += 1
        if run > k:
            found = _gap(asked, steps, k, run, met, main, speech, terms)
            if found is not None:
                yield found
        k = max(run, k + 1)


def _gap(
    asked: tuple[Asked, ...], steps: Sequence[Step_], k: int, run: int, met: set[int], main: Stretch, speech: Speech, terms: System
) -> Heard | None:
    """What lies unsaid between two things that are said in full, if that is sure enough to be told."""
    places = [step.place for step in steps[k:run] if step.place is not None]
    lost = [place for place in places if asked[place].kind != "skip" and not asked[place].free and place not in met]
    if k == 0 or run >= len(steps) or not 1 <= len(lost) <= 2 or not (_exact(asked, steps[k - 1]) and _exact(asked, steps[run])):
        return None
    before, after = steps[k - 1].told, steps[run].told
    assert before is not None and after is not None
    one = asked[lost[0]]
    if not one.numbers or any(token.text in _AGAIN for token in speech.tokens[before.k : after.k + 6]):
        return None
    sure = 0.58 if speech.edited else 0.5
    if max(one.numbers) < (3 if one.kind == "ch" else 2):
        sure -= 0.15  # one stitch is easily said in other words
    row = main.unit.row_at(main.number)
    words = _around(speech.tokens, after.k)
    message = f"{row.label} also has {_words(one, terms)} there, which is not said"
    return Heard(kind="left out", at=after.at, words=words, row=row.label, message=message, sure=round(sure, 2))


def _exact(asked: tuple[Asked, ...], step: Step_) -> bool:
    """Whether the thing is told with its very number, or has none to be told."""
    if step.place is None or step.told is None or not step.agrees:
        return False
    return step.told.number is not None or not asked[step.place].numbers or max(asked[step.place].numbers) == 1


def _times(main: Stretch, speech: Speech) -> Iterator[Heard]:
    """How often a counted repeat is worked, told wrongly: "six times" where the page says eight."""
    repeats = [step for step in main.unit.rows[0].written.steps if isinstance(step, Repeat)]
    told = [step.times.number.at(main.unit.size) for step in repeats if step.times.kind == "n"]
    if len(repeats) != 1 or not told or told[0] is None:
        return
    wanted, tokens = told[0], speech.tokens
    found = [k for k in range(main.meant.anchor.end, main.end - 1) if tokens[k].kind == "num" and tokens[k + 1].text == "times"]
    said = [tokens[k].number for k in found]
    if len(found) != 1 or said[0] in (wanted, wanted - 1) or said[0] < 2 or tokens[found[0]].sure < 0.9:
        return
    row = main.unit.row_at(main.number)
    sure = 0.55 if not sound_alike(said[0], wanted) else 0.3
    k = found[0]
    message = f"{said[0]} times is said, and {row.label} repeats {wanted} times"
    yield Heard(kind="number", at=tokens[k].at, words=_around(tokens, k), row=row.label, message=message, sure=sure)


def _around(tokens: Sequence[Token], k: int) -> str:
    return " ".join(token.raw for token in tokens[max(0, k - 3) : k + 6])


def _words(one: Asked, terms: System) -> str:
    number = max(one.numbers)
    if one.kind == "ch":
        return f"chain {number}"
    name = full_name(one.what, terms)
    return {"st": f"{number} {name}", "inc": f"{number} {name} in one stitch", "dec": f"{name} together"}[one.kind]
