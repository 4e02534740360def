"""Numbers inside spoken instructions, changed by one or two: `python benches/numbers_changed.py [SEED] [--list]`.

In every narration written by hand up to four numbers that agree with the page are changed, one at a time. Found is a number that is
reported as such within six seconds; what is reported otherwise (a wrong count, a count never told) is counted apart.
"""

from __future__ import annotations

import random
import re
import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "unit" / "teaching"))

from retold import fabrics
from test_narrations import FILES, captions, told

from hookwright.teaching import Cue, compare, read_captions
from hookwright.teaching.hearing.compare import understood
from hookwright.teaching.hearing.tokens import Token
from hookwright.teaching.hearing.told_rows import told_rows
from hookwright.teaching.speech import number_words
from hookwright.working import Fabric


def numbers_said(every: Sequence[Fabric], text: str) -> Iterator[Token]:
    """The numbers of stitches, increases and chains that agree with the page."""
    found = understood(read_captions(text), every)
    for row in told_rows(found.units, found.speech):
        for step in row.steps:
            said = step.told
            right = step.place is not None and step.agrees and said is not None and said.at_number >= 0
            if said is not None and right and said.kind in ("st", "inc", "ch") and (said.number or 0) > 1:
                yield found.speech.tokens[said.at_number]


def changed(cues: list[Cue], token: Token, number: int) -> list[Cue] | None:
    """The captions with that number said instead; None where the word stands twice in its caption."""
    word = re.compile(rf"\b{re.escape(token.raw.rstrip('.,;:!?'))}\b", re.I)
    at = next(
        (k for k, cue in enumerate(cues) if cue.start <= token.at + 0.01 and token.at < cue.end + 0.2 and word.search(cue.text)), None
    )
    if at is None or len(word.findall(cues[at].text)) != 1:
        return None
    return [*cues[:at], replace(cues[at], text=word.sub(number_words(number), cues[at].text)), *cues[at + 1 :]]


def main() -> None:
    seed = next((int(one) for one in sys.argv[1:] if one.isdigit()), 0)
    r = random.Random(seed)
    tally = [0, 0, 0]
    for path in FILES:
        pattern, form, cues, _ = told(path)
        every = fabrics(pattern)
        before = {(h.kind, h.row, h.message) for h in compare(every[0], read_captions(captions(form, cues)), sizes=every)}
        said = list(numbers_said(every, captions(form, cues)))
        r.shuffle(said)
        for token in said[:4]:
            number = token.number + (r.choice((1, 2, -1)) if token.number > 2 else 1)
            other = changed(cues, token, number)
            if other is None:
                continue
            heard = compare(every[0], read_captions(captions(form, other)), sizes=every)
            found = [h for h in heard if (h.kind, h.row, h.message) not in before]
            hit = any(h.kind == "number" and h.at is not None and abs(h.at - token.at) <= 6 for h in found)
            tally = [tally[0] + 1, tally[1] + hit, tally[2] + (bool(found) and not hit)]
            if not hit and "--list" in sys.argv:
                print(f"{path.stem}: {token.at:.0f} s, {number} for {token.number}: {[h.message for h in found]}")
    print(f"{tally[0]} numbers changed, {tally[1]} found ({tally[1] / tally[0]:.0%}), {tally[2]} told as something else")


if __name__ == "__main__":
    main()
