"""How often a repeat is worked, changed by one in spoken instructions: `python benches/times_changed.py [SEED] [--list]`.

In every narration written by hand each such number that agrees with the page, "six times", "ten more", "eight of those", is changed, one at
a time. Found is what is reported as a wrong number within six seconds; what is reported otherwise is counted apart.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "unit" / "teaching"))

from numbers_changed import changed
from retold import fabrics
from test_narrations import FILES, captions, told

from hookwright.pattern import Repeat
from hookwright.pattern.walking import inside
from hookwright.teaching import compare, read_captions
from hookwright.teaching.hearing.compare import understood
from hookwright.teaching.hearing.segments import Stretch
from hookwright.teaching.hearing.tokens import Token
from hookwright.working import Fabric

_OF = ("times", "time", "more", "further", "altogether")


def times_said(every: Sequence[Fabric], text: str) -> Iterator[Token]:
    """The numbers that may tell how often a repeat of their row is worked, or how often besides the first time."""
    speech = understood(read_captions(text), every).speech
    for stretch in speech.stretches:
        wanted = _wanted(stretch)
        for k in range(stretch.begins, min(stretch.end, len(speech.tokens) - 2)):
            token, after, further = speech.tokens[k : k + 3]
            named = after.text in _OF or (after.text == "of" and further.text in ("those", "them", "these"))
            if token.kind == "num" and named and not token.stop and token.number > 2 and {token.number, token.number + 1} & wanted:
                yield token


def _wanted(stretch: Stretch) -> set[int]:
    steps = inside(stretch.unit.rows[0].written.steps)
    times = (step.times.number.at(stretch.unit.size) for step in steps if isinstance(step, Repeat) and step.times.kind == "n")
    return {n for n in times if n is not None}


def main() -> None:
    r = random.Random(next((int(one) for one in sys.argv[1:] if one.isdigit()), 1))
    tally = [0, 0, 0]
    for path in FILES:
        pattern, form, cues, _ = told(path)
        every = fabrics(pattern)
        before = {(h.kind, h.row, h.message) for h in compare(every[0], read_captions(captions(form, cues)), sizes=every)}
        for token in times_said(every, captions(form, cues)):
            number = token.number + r.choice((1, -1))
            other = changed(cues, token, number)
            if other is None:
                continue
            heard = compare(every[0], read_captions(captions(form, other)), sizes=every)
            found = [h for h in heard if (h.kind, h.row, h.message) not in before]
            hit = any(h.kind == "number" and h.at is not None and abs(h.at - token.at) <= 6 for h in found)
            tally = [tally[0] + 1, tally[1] + hit, tally[2] + (bool(found) and not hit)]
            if not hit and "--list" in sys.argv:
                print(f"{path.stem}: {token.at:.0f} s, {number} for {token.number}: {[h.message for h in found]}")
    print(f"{tally[0]} numbers of times changed, {tally[1]} found ({tally[1] / tally[0]:.0%}), {tally[2]} told as something else")


if __name__ == "__main__":
    main()
