"""Narrations told again with the same meaning, weighed: `python benches/retold.py [WAY …] [--list]`.

Every narration of tests/cases/teach is changed in a way that changes nothing of what is said about the work: no marks and small letters,
other captions, ordinals, digits, rows named by their number alone, fillers, talk of the world between the lines. The planted slips must
still be found and nothing else. What differs from the narration as it stands shows how much the comparison leans on one way of telling.
"""

from __future__ import annotations

import random
import re
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "unit" / "teaching"))

from test_narrations import FILES, Slip, captions, is_it, told

from hookwright.reading import read
from hookwright.teaching import CannotHear, Cue, Heard, compare, read_captions
from hookwright.teaching.hearing.figures import ONES, ORDINALS, TENS
from hookwright.working import Fabric, work

Way = Callable[[list[Cue], random.Random], list[Cue]]
_FILLERS = ("um", "you know", "okay", "uh", "I mean it", "like", "well", "let's see", "right", "and yeah", "as I say")
_TALK = (
    "My neighbour has fourteen hens and I can hear every one of them.",
    "It's about half past nine here and the rain hasn't stopped.",
    "I paid six pounds for this hook, can you believe it.",
    "There are two hundred of you watching, hello.",
    "The dog has been out three times this morning.",
    "I've been doing this for thirty years and I still get it wrong.",
    "My tea went cold about twenty minutes ago.",
    "The bus comes at eight, so I should keep going.",
    "I made one for each of the five grandchildren.",
    "You can pause here if you need to.",
    "Somebody wrote to ask about the light in here, it's just the window.",
    "We had seventeen people at the group last week.",
    "It's forty degrees in this room, I'm melting.",
    "I dropped the ball under the sofa, so give me a second.",
    "This is my second cup of coffee.",
)
_NUMBER = re.compile(rf"\b(?:(?:{'|'.join(TENS)})(?:[- ](?:{'|'.join(list(ONES)[:10])}))?|{'|'.join(ONES)})\b", re.I)
_ORDINAL = {number: word for word, number in ORDINALS.items() if number < 20}


def _value(words: str) -> int:
    return sum(TENS.get(word, ONES.get(word, 0)) for word in re.split(r"[- ]", words.lower()))


def _texts(cues: Sequence[Cue], change: Callable[[str], str]) -> list[Cue]:
    return [Cue(start=cue.start, end=cue.end, text=change(cue.text)) for cue in cues]


def bare(cues: list[Cue], rng: random.Random) -> list[Cue]:
    """As a machine writes: small letters, no marks."""
    return _texts(cues, lambda text: re.sub(r"(?<!\d)[.,;:!?](?!\d)|[“”\"]", "", text.replace("-", " ")).lower())


def commas(cues: list[Cue], rng: random.Random) -> list[Cue]:
    """As people write captions in haste: a sentence a caption, in small letters, with commas and no other marks."""
    out = []
    for cue in cues:
        said = re.split(r"(?<=[.!?]) (?=\S)", re.sub(r"[“”\"]", "", cue.text).strip())
        pace = min((cue.end - cue.start) / len(cue.text.split()), PACE_S)
        starts = [cue.start + pace * sum(len(one.split()) for one in said[:k]) for k in range(len(said))]
        texts = [re.sub(r"[;:!?.](?= )", ",", one.rstrip(".,;:!?")).lower() for one in said]
        out += [Cue(start=a, end=b - 0.02, text=text) for a, b, text in zip(starts, [*starts[1:], cue.end], texts, strict=True) if text]
    return out


def digits(cues: list[Cue], rng: random.Random) -> list[Cue]:
    return _texts(cues, lambda text: _NUMBER.sub(lambda m: m[0] if m[0].lower() == "one" else str(_value(m[0])), text))


def ordinals(cues: list[Cue], rng: random.Random) -> list[Cue]:
    """ "Row three" as "the third row"."""

    def change(text: str) -> str:
        def one(m: re.Match[str]) -> str:
            number = _value(m[2]) if not m[2].isdigit() else int(m[2])
            return f"{'The' if m[1][0].isupper() else 'the'} {_ORDINAL[number]} {m[1].lower()}" if number in _ORDINAL else m[0]

        return re.sub(rf"\b([Rr]ow|[Rr]ound) ({_NUMBER.pattern}|\d+)(?! (?:to|through|till|until|and)\b)(?!-)", one, text)

    return _texts(cues, change)


def unnamed(cues: list[Cue], rng: random.Random) -> list[Cue]:
    """Two namings in five that begin a sentence by their number alone: "Round five. Two in each" as "Five. Two in each"."""

    def change(text: str) -> str:
        def one(m: re.Match[str]) -> str:
            return m[1] + m[2][0].upper() + m[2][1:] if rng.random() < 0.4 else m[0]

        return re.sub(rf"(^|[.!?] )(?:Row|Round)s? ({_NUMBER.pattern}|\d+)", one, text)

    return _texts(cues, change)


def fillers(cues: list[Cue], rng: random.Random) -> list[Cue]:
    """A filler before some captions, and behind some commas."""

    def change(text: str) -> str:
        text = re.sub(r", (?=[a-z])", lambda m: f", {rng.choice(_FILLERS)}, " if rng.random() < 0.15 else m[0], text)
        return f"{rng.choice(_FILLERS).capitalize()}, {text[0].lower()}{text[1:]}" if rng.random() < 0.25 else text

    return _texts(cues, change)


def talk(cues: list[Cue], rng: random.Random) -> list[Cue]:
    """A line of the world behind one caption in four, in its time; only behind captions that end a sentence."""
    out = []
    for cue in cues:
        if cue.text.rstrip()[-1:] in ".!?" and rng.random() < 0.25:
            half = cue.start + (cue.end - cue.start) * 0.7
            out += [Cue(start=cue.start, end=half, text=cue.text), Cue(start=half, end=cue.end, text=rng.choice(_TALK))]
        else:
            out.append(cue)
    return out


def recut(cues: list[Cue], rng: random.Random) -> list[Cue]:
    """The same words in captions of seven words, as their own times have it; a machine begins another caption where one is silent."""
    words = [
        (word, cue.start + min((cue.end - cue.start) / len(cue.text.split()), PACE_S) * k)
        for cue in cues
        for k, word in enumerate(cue.text.split())
    ]
    groups: list[list[tuple[str, float]]] = []
    for word, at in words:
        if not groups or len(groups[-1]) == 7 or at - groups[-1][-1][1] > SILENCE_S:
            groups.append([])
        groups[-1].append((word, at))
    starts = [group[0][1] for group in groups]
    ends = [*starts[1:], cues[-1].end]
    return [
        Cue(start=a, end=max(b, a + 0.05), text=" ".join(w for w, _ in group)) for group, a, b in zip(groups, starts, ends, strict=True)
    ]


def machine(cues: list[Cue], rng: random.Random) -> list[Cue]:
    """Bare, in digits, cut anywhere."""
    return recut(digits(bare(cues, rng), rng), rng)


SILENCE_S = 2.0
"""A silence so long ends a caption (ours)."""
PACE_S = 0.4
"""So long at most a word is taken to last, where its caption stands longer (ours)."""
WAYS: dict[str, Way] = {w.__name__: w for w in (bare, commas, digits, ordinals, unnamed, fillers, talk, recut, machine)}


def _said_in(cues: Sequence[Cue], slip: Slip) -> float:
    """The seconds that the words of the line take in which a slip stands: told word by word, it is heard where it is said."""
    line = max((cue for cue in cues if cue.start <= slip.at + 0.01), key=lambda cue: cue.start)
    return min(line.end - line.start, PACE_S * len(line.text.split()))


def _within(one: Heard, slip: Slip, length: float) -> bool:
    """Whether this is the slip, told within its line or five seconds of it."""
    at = min(max(one.at if one.at is not None else -1e9, slip.at), slip.at + length)
    return is_it(one, replace(slip, at=at))


@cache
def fabrics(path: Path) -> tuple[Fabric, ...]:
    pattern = read(path.read_text(encoding="utf-8"))
    return tuple(work(pattern, size=size) for size in range(pattern.sizes))


def main() -> None:
    named = [one for one in sys.argv[1:] if not one.startswith("-")] or list(WAYS)
    for name in named:
        planted = hit = false = 0
        minutes = 0.0
        lost: Counter[str] = Counter()
        wrong: Counter[str] = Counter()
        for path in FILES:
            pattern, form, cues, slips = told(path)
            again = WAYS[name](cues, random.Random(path.stem))
            every = fabrics(pattern)
            try:
                found = compare(every[0], read_captions(captions("vtt" if form == "rolling" else form, again)), sizes=every)
            except CannotHear as error:
                print(path.stem, error)
                found = ()
            lines = {slip: _said_in(cues, slip) if name in ("commas", "recut", "machine") else 0.0 for slip in slips}
            missed = [slip for slip in slips if not any(_within(one, slip, lines[slip]) for one in found)]
            alarms = [one for one in found if not any(_within(one, slip, lines[slip]) for slip in slips)]
            planted, hit, false, minutes = (
                planted + len(slips),
                hit + len(slips) - len(missed),
                false + len(alarms),
                minutes + cues[-1].end / 60,
            )
            lost.update(slip.kind for slip in missed)
            wrong.update(one.kind for one in alarms)
            if "--list" in sys.argv:
                for slip in missed:
                    print(f"  {path.stem} MISSED {slip}")
                for one in alarms:
                    print(f"  {path.stem} ALARM {one.at:.0f}: {one.kind}: {one.message} ({one.sure}) “{one.words}”")
        print(f"{name:9} {hit} of {planted} found ({hit / planted:.0%}), {false} false ({10 * false / minutes:.2f} in 10 min)")
        print(f"          missed {dict(lost)}; false {dict(wrong)}")


if __name__ == "__main__":
    main()
