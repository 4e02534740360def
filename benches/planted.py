"""Slips planted by chance into the narrations written by hand: `python benches/planted.py [KIND …] [--seed N] [--list]`.

Each narration of tests/cases/teach gets one more slip of each kind, in a row without one: a count changed by one or two, a row's number
changed by one, a stitch named in the other terms, a row's captions taken out, a clause with work taken out. Found means: the right kind and
row within five seconds. The narrations are known, the places are not.
"""

from __future__ import annotations

import random
import re
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "unit" / "teaching"))

from retold import fabrics
from test_narrations import FILES, Slip, captions, is_it, told

from hookwright.teaching import CannotHear, Cue, compare, read_captions
from hookwright.teaching.hearing.compare import understood
from hookwright.teaching.hearing.segments import Speech, Stretch
from hookwright.teaching.speech import number_words
from hookwright.trade.terms import System, kind_of, name

Planted = tuple[list[Cue], Slip]


def _changed(cues: list[Cue], at: float, raw: str, new: str, lead: str = "") -> tuple[list[Cue], float] | None:
    """The words `raw` in the caption that stands at second `at`, the last of them or those behind `lead`, put otherwise."""
    k = max(i for i, cue in enumerate(cues) if cue.start <= at + 0.01)
    pattern = re.compile(rf"(?<![\w-]){re.escape(raw).replace(chr(92) + ' ', '[ -]')}(?![\w-])", re.I)
    found = [m for m in pattern.finditer(cues[k].text) if re.search(rf"{lead}$", cues[k].text[: m.start()], re.I)]
    if not found:
        return None
    m = found[-1]
    word = new.capitalize() if m[0][0].isupper() else new
    text = cues[k].text[: m.start()] + word + cues[k].text[m.end() :]
    return [*cues[:k], Cue(start=cues[k].start, end=cues[k].end, text=text), *cues[k + 1 :]], at


def _count(speech: Speech, stretch: Stretch, cues: list[Cue], rng: random.Random) -> Planted | None:
    unit, row = stretch.unit, stretch.unit.row_at(stretch.number)
    places = [
        k for k in range(stretch.begins, stretch.end) if speech.tokens[k].number == row.counted.total and speech.tokens[k].kind == "num"
    ]
    if len(places) != 1 or row.counted.total in unit.instructed or row.counted.total < 5:
        return None
    token = speech.tokens[places[0]]
    new = row.counted.total + rng.choice((-2, -1, 1, 2))
    before = unit.any_allowed
    raw = re.sub(r"[^\w -]", "", token.raw)
    made = _changed(cues, token.at, raw, str(new) if raw.isdigit() else number_words(new)) if new not in before else None
    return (made[0], Slip("count", row.label, token.at)) if made else None


def _row(speech: Speech, stretch: Stretch, cues: list[Cue], rng: random.Random) -> Planted | None:
    anchor = stretch.meant.anchor
    number = speech.tokens[anchor.end - 1]
    if anchor.how != "begins" or anchor.first != anchor.last or number.kind != "num" or anchor.end - anchor.k != 2:
        return None
    raw = re.sub(r"[^\w -]", "", number.raw)
    new = anchor.first + 1
    made = _changed(cues, number.at, raw, str(new) if raw.isdigit() else number_words(new), r"\b(?:row|round|rnd|r) ?")
    return (made[0], Slip("row", stretch.unit.label, anchor.at)) if made and anchor.first == stretch.number else None


def _dialect(speech: Speech, stretch: Stretch, cues: list[Cue], rng: random.Random, terms: System) -> Planted | None:
    other: System = "UK" if terms == "US" else "US"
    places = [h for h in stretch.heard if h.item.kind == "st" and speech.tokens[h.k].text == name(h.item.plain, terms) and h.clear >= 0.9]
    for h in places[:1]:
        new = name(h.item.plain, other)
        kind = kind_of(new, terms)
        if kind is None or kind in stretch.unit.kinds or h.item.plain not in stretch.unit.kinds or new == speech.tokens[h.k].text:
            continue
        raw = re.sub(r"[^\w -]", "", speech.tokens[h.k].raw)
        plural = raw.endswith("s") and not speech.tokens[h.k].text.endswith("s")
        made = _changed(cues, h.at, raw, new + ("s" if plural else ""))
        if made:
            return made[0], Slip("dialect", stretch.unit.label, h.at)
    return None


def _unsaid(speech: Speech, stretch: Stretch, cues: list[Cue], rng: random.Random) -> Planted | None:
    """The captions that hold one row and nothing else taken out, what follows moved up."""
    if len(stretch.unit.numbers) > 1 or stretch.end >= len(speech.tokens):
        return None
    start, end = speech.tokens[stretch.start].at, speech.tokens[stretch.end].at
    first = next((i for i, cue in enumerate(cues) if abs(cue.start - start) < 0.02), None)
    last = next((i for i, cue in enumerate(cues) if abs(cue.start - end) < 0.02), None)
    if first is None or last is None or first == 0:
        return None
    gone = cues[last].start - cues[first].start
    rest = [Cue(start=cue.start - gone, end=cue.end - gone, text=cue.text) for cue in cues[last:]]
    return [*cues[:first], *rest], Slip("row never said", stretch.unit.label, cues[first].start)


def _left(speech: Speech, stretch: Stretch, cues: list[Cue], rng: random.Random) -> Planted | None:
    """A clause with a stitch, a chain or a skip taken out of the row's captions, between two commas."""
    begin, until = speech.tokens[stretch.begins].at, speech.tokens[min(stretch.end, len(speech.tokens) - 1)].at
    found: list[tuple[int, re.Match[str]]] = []
    for k, cue in enumerate(cues):
        if cue.end > begin and cue.start < until and stretch.unit.items:
            clause = r", ((?:and |then )?[^,.!?]*(?:chain|skip|crochet|treble|double|together|decrease|increase)[^,.!?]*)(?=,)"
            pace = min((cue.end - cue.start) / len(cue.text.split()), 0.35)
            at = [(m, cue.start + pace * len(cue.text[: m.start()].split())) for m in re.finditer(clause, cue.text)]
            found += [(k, m) for m, when in at if begin <= when and when + 1 < until]
    if not found:
        return None
    k, m = rng.choice(found)
    text = cues[k].text[: m.start()] + cues[k].text[m.end() :]
    made = [*cues[:k], Cue(start=cues[k].start, end=cues[k].end, text=text), *cues[k + 1 :]]
    return made, Slip("left out", stretch.unit.label, cues[k].start + 0.35 * len(cues[k].text[: m.start()].split()))


KINDS: dict[str, Callable[..., Planted | None]] = {
    "count": _count, "row": _row, "dialect": _dialect, "row never said": _unsaid, "left out": _left,
}  # fmt: skip


def planted(path: Path, kind: str, seed: int) -> Iterator[tuple[list[Cue], Slip, list[Slip]]]:
    pattern, form, cues, slips = told(path)
    every = fabrics(pattern)
    try:
        speech = understood(read_captions(captions("srt" if form == "rolling" else form, cues)), every).speech
    except CannotHear:
        return
    rng = random.Random(f"{path.stem} {kind} {seed}")
    often = Counter(s.unit.index for s in speech.stretches)
    stretches = [
        s
        for s in speech.stretches
        if s.meant.right and often[s.unit.index] == 1 and not any(abs(s.meant.anchor.at - slip.at) < 25 for slip in slips)
    ]
    rng.shuffle(stretches)
    for stretch in stretches:
        more = (every[0].pattern.terms,) if kind == "dialect" else ()
        made = KINDS[kind](speech, stretch, cues, rng, *more)
        if made is not None:
            moved = made[0][-1].start - cues[-1].start
            kept = [Slip(s.kind, s.row, s.at + (moved if s.at >= made[1].at else 0)) for s in slips]
            yield made[0], made[1], kept
            return


def main() -> None:
    seed = int(sys.argv[sys.argv.index("--seed") + 1]) if "--seed" in sys.argv else 1
    named = [one for one in sys.argv[1:] if one in KINDS] or list(KINDS)
    for kind in named:
        tried = hit = false = 0
        minutes = 0.0
        for path in FILES:
            pattern, form, _, _ = told(path)
            every = fabrics(pattern)
            for cues, slip, others in planted(path, kind, seed):
                found = compare(every[0], read_captions(captions("srt" if form == "rolling" else form, cues)), sizes=every)
                right = any(is_it(one, slip) for one in found)
                alarms = [one for one in found if not any(is_it(one, s) for s in (slip, *others))]
                tried, hit, false, minutes = tried + 1, hit + right, false + len(alarms), minutes + cues[-1].end / 60
                if "--list" in sys.argv and (not right or alarms):
                    print(f"  {path.stem} {'found' if right else 'MISSED'} {slip}")
                    for one in alarms:
                        print(f"      ALARM {one.at:.0f}: {one.kind}: {one.message} ({one.sure}) “{one.words}”")
        per = 10 * false / max(minutes, 0.1)
        print(f"{kind:15} {hit:3} of {tried:3} found ({hit / max(tried, 1):.0%}), {false} false ({per:.2f} in 10 min)")


if __name__ == "__main__":
    main()
