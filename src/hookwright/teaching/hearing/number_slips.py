"""Numbers inside the instructions that differ from the page, and things left out between others that are told in full."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...pattern import Repeat
from ...trade.terms import System
from ...trade.terms import name as full_name
from .anchors import takes_back
from .asked import Asked, asked_of
from .detail import Step_, Told_, fits, laid, told_of
from .dialect import Speaking
from .figures import sound_alike
from .findings import Heard
from .lexicon import words
from .said import told_as_same
from .segments import Speech, Stretch
from .stitch_slips import between
from .things import multiplied
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
    own, known = main.unit.instructed, main.unit.any_allowed - main.unit.instructed
    counted = frozenset(told.k for told in main.counts if told.number in known or told.strength >= (0.95 if told.number in own else 0.5))
    named = frozenset(range(main.meant.anchor.k, main.meant.anchor.end))
    steps = laid(asked, told_of(speech.tokens, main.heard, main.begins, main.end, counted | named))
    steps = [_told_again(asked, step) for step in steps if step.place is not None or (step.told is not None and step.told.kind != "?")]
    met = {step.place for step in steps if step.place is not None and step.told is not None}
    must = [place for place, one in enumerate(asked) if not one.free and one.kind != "skip"]
    unmet = {(asked[place].kind, asked[place].what, asked[place].numbers) for place in must if place not in met}
    if not must or sum(place in met for place in must) < (DETAIL if len(must) > 2 and len(unmet) > 1 else 0.5) * len(must):
        return
    yield from _wrong_numbers(asked, steps, main, speech)
    yield from _left_out(asked, steps, met, main, speech, terms)


def _told_again(asked: Sequence[Asked], step: Step_) -> Step_:
    """What is said besides, and is a thing of a repeat told once more, as that thing."""
    if step.place is not None or step.told is None:
        return step
    place = next((k for k, one in enumerate(asked) if one.kind not in ("ch", "skip") and fits(one, step.told)), None)
    return step if place is None else replace(step, place=place)


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
    sure = (0.66 if whole else 0.62) if speech.edited else (0.52 if whole else 0.45)
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
    """What lies unsaid between two things that are said in full, or between such a thing and the row's beginning or end, if that is sure
    enough to be told."""
    places = [step.place for step in steps[k:run] if step.place is not None]
    around = (asked[step.place].group if step.place is not None else -1 for step in (*steps[max(k - 1, 0) : k], *steps[run : run + 1]))
    inside = _same_group(tuple(around))
    lost = [
        place
        for place in places
        if asked[place].kind != "skip" and (not asked[place].free or asked[place].group == inside >= 0) and place not in met
    ]
    lost = lost or _skips_lost(asked, places, met)
    if not 1 <= len(lost) <= 2 or not asked[lost[0]].numbers:
        return None
    one = asked[lost[0]]
    clean = speech.edited and _clean(asked, steps, met, lost) and _stands_out(asked, lost[0])
    opening = steps[k - 1].place if k else None
    clean = clean and (_only_one(asked, lost[0]) if opening is None or asked[opening].free else True)
    before = steps[k - 1].told if k else None
    after = steps[run].told if run < len(steps) else None
    begins = before.k if before is not None else main.begins - 1
    if not all(_exact(asked, step) for step in (*steps[max(k - 1, 0) : k], *steps[run : run + 1])) or (
        before is None and not (clean and _only_one(asked, lost[0]))
    ):
        return None
    if after is None and not (clean and before is not None and _closed(speech, main, begins, one, behind=_behind_repeat(asked, lost[0]))):
        return None
    upto = after.k if after is not None else min(begins + 6, main.end)
    at = after or before
    if at is None or _excused(speech, begins, at.k, steps) or any(t.text in _VAGUE for t in speech.tokens[begins + 1 : upto]):
        return None
    sure = 0.58 if speech.edited else 0.5
    if max(one.numbers) < (3 if one.kind == "ch" else 2) and not clean:
        sure -= 0.15  # one stitch is easily said in other words
    message = f"{main.unit.label} also has {_words(one, terms)} there, which is not said"
    when = between(before.at, after.at) if before is not None and after is not None else at.at
    return Heard(kind="left out", at=when, words=_around(speech.tokens, at.k), row=main.unit.label, message=message, sure=round(sure, 2))


def _same_group(around: tuple[int, ...]) -> int:
    """The group in which both neighbours of a gap stand, told stitch by stitch; -1 where they stand in none, or in two."""
    return around[0] if len(around) == 2 and around[0] == around[1] else -1


_VAGUE = words("number_slips", "vague")
"""Words in which a thing may be told that is not named."""
_ONWARDS = words("number_slips", "onwards")
"""Words with which the rest of a row is told in passing."""
_ENDS = ("join", "turn", "slip")


def _clean(asked: tuple[Asked, ...], steps: Sequence[Step_], met: set[int], lost: Sequence[int]) -> bool:
    """Whether all else of the row is said exactly as it stands, and nothing besides."""
    alike = [(one.kind, one.what, one.numbers) for one in asked]
    missing = [place for place in range(len(asked)) if place in lost or (place not in met and alike[place] == alike[lost[0]])]
    must = [place for place, one in enumerate(asked) if not one.free and one.kind != "skip" and place not in missing]
    exact = {step.place for step in steps if step.place is not None and _exact(asked, step)}
    besides = any(step.place is None and step.told is not None and step.told.kind in ("st", "inc", "dec") for step in steps)
    return len(lost) == 1 and bool(must) and all(place in met and place in exact for place in must) and not besides


def _skips_lost(asked: Sequence[Asked], places: Sequence[int], met: set[int]) -> list[int]:
    """Places that are not skipped in words, where all others of the row are."""
    skips = [place for place, one in enumerate(asked) if one.kind == "skip" and not one.free]
    gone = [place for place in skips if place not in met]
    return gone if len(gone) == 1 and len(skips) > 1 and gone[0] in places else []


def _stands_out(asked: Sequence[Asked], place: int) -> bool:
    """Whether one thing is no chain and unlike those beside it: "in the first stitch and in each across" tells two alike at once."""
    one = asked[place]
    beside = [asked[k] for k in (place - 1, place + 1) if 0 <= k < len(asked)]
    if one.kind == "ch":  # a chain over stitches that she says she skips
        return bool(beside) and beside[-1].kind == "skip"
    return all((b.kind, b.what) != (one.kind, one.what) for b in beside)


def _only_one(asked: Sequence[Asked], place: int) -> bool:
    """Whether nothing else of the row is worked in that stitch: of two, one at the beginning is easily told with the other."""
    one = asked[place]
    return not any(k != place and (other.kind, other.what) == (one.kind, one.what) for k, other in enumerate(asked))


def _behind_repeat(asked: Sequence[Asked], place: int) -> bool:
    """Whether the thing stands behind the row's repeat: "(sc, dec) 5 times, 2 sc"."""
    return any(one.start >= 0 for one in asked[:place])


def _closed(speech: Speech, main: Stretch, k: int, lost: Asked, *, behind: bool) -> bool:
    """Whether the row is joined, turned or counted right behind token k, and not told to its end in passing; "six times" ends a repeat."""
    if lost.kind == "ch":
        return False
    for i in range(k + 1, min(k + 12, main.end)):
        token = speech.tokens[i]
        if token.kind in _ENDS or (token.kind == "num" and token.number in main.unit.allowed(main.number)):
            return True
        if token.text == "times" and not behind:
            return True
        if token.text in _ONWARDS or token.kind == "repeat" or (token.kind == "around" and token.stop) or token.text == "across":
            return False
    return False


def _excused(speech: Speech, begins: int, ends: int, steps: Sequence[Step_]) -> bool:
    """Whether a word of repeating between or behind the two tells what is not named; in "chain eight again" it tells the chain alone."""
    tokens = speech.tokens
    told = [step.told.k for step in steps if step.told is not None and step.told.kind != "?"]
    for i in range(begins, min(ends + 6, len(tokens))):
        if tokens[i].text not in _AGAIN:
            continue
        alone = tokens[i].text == "again" and (
            any(i - 3 <= k < i and not any(t.stop for t in tokens[k:i]) for k in told) or any(i < k <= i + 4 for k in told)
        )
        if not alone:
            return True
    return False


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
    found = [
        k
        for k in range(main.begins, main.end - 1)
        if tokens[k].kind == "num" and tokens[k + 1].text == "times" and not multiplied(tokens, k)
    ]
    said = [tokens[k].number for k in found]
    if len(found) != 1 or said[0] in (wanted, wanted - 1) or said[0] < 2 or tokens[found[0]].sure < 0.9:
        return
    if any(token.text in ("again", "more", "another") for token in tokens[found[0] - 3 : found[0] + 3]):
        return  # "and again four times", when it was told twice
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
    if one.kind == "skip":
        return f"a skip of {number}"
    return {"st": f"{number} {name}", "inc": f"{number} {name} in one stitch", "dec": f"{name} together"}[one.kind]
