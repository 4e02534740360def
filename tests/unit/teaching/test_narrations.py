"""Narrations of our own, those under fresh/ written before the comparison was looked at; the slips stand beside the faulty line.

A line is `0:12 words`; `# kind, Row N` behind it plants a slip there (for what is never said: it would have stood before that line).
"""

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from hookwright.reading import read
from hookwright.teaching import Cue, Heard, compare, read_captions, to_srt, to_vtt
from hookwright.working import work

ROOT = Path(__file__).parents[3]
FILES = sorted((ROOT / "tests" / "cases" / "teach").rglob("*.timed"))
WITHIN_S = 5.0


@dataclass(frozen=True)
class Slip:
    kind: str
    row: str
    at: float


def told(path: Path) -> tuple[Path, str, list[Cue], list[Slip]]:
    head, cues, slips = {}, [], []
    for line in path.read_text(encoding="utf-8").splitlines():
        match = re.match(r"^(\d+):(\d\d) (.*?)(?:\s+# ([a-z ]+), ([\w ]+ \d+|all rows))?$", line)
        if match is None:
            key, _, value = line.partition(": ")
            head[key] = value
            continue
        at = int(match[1]) * 60.0 + int(match[2])
        cues.append(Cue(start=at, end=at, text=match[3]))
        if match[4]:
            slips.append(Slip(match[4].replace("counts never", "count never"), match[5], at))
    ends = [*(cue.start for cue in cues[1:]), cues[-1].start + 5]
    timed = [Cue(start=cue.start, end=end - 0.1, text=cue.text) for cue, end in zip(cues, ends, strict=True)]
    return ROOT / head["pattern"], head["form"], timed, slips


def captions(form: str, cues: list[Cue]) -> str:
    if form == "srt":
        return to_srt(cues)
    if form == "plain":
        return "\n".join(f"{int(cue.start) // 60}:{int(cue.start) % 60:02} {cue.text}" for cue in cues)
    if form == "rolling":
        upper, rolled = " ", []
        for cue in cues:
            rolled += [
                Cue(start=cue.start, end=cue.end - 0.02, text=f"{upper}\n{cue.text}"),
                Cue(start=cue.end - 0.02, end=cue.end, text=cue.text),
            ]
            upper = cue.text
        return to_vtt(rolled)
    return to_vtt(cues)


def heard(path: Path) -> tuple[tuple[Heard, ...], list[Slip]]:
    pattern_file, form, cues, slips = told(path)
    pattern = read(pattern_file.read_text(encoding="utf-8"))
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    return compare(fabrics[0], read_captions(captions(form, cues)), sizes=fabrics), slips


def is_it(one: Heard, slip: Slip) -> bool:
    number = slip.row.split()[-1]
    if slip.row == "all rows":
        return one.kind == slip.kind and one.row == slip.row
    return one.kind == slip.kind and number in re.findall(r"\d+", one.row) and one.at is not None and abs(one.at - slip.at) <= WITHIN_S


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_planted_slip_is_found_at_its_time_and_nothing_else_the_surest_first(path: Path) -> None:
    found, slips = heard(path)
    missed = [slip for slip in slips if not any(is_it(one, slip) for one in found)]
    alarms = [one for one in found if not any(is_it(one, slip) for slip in slips)]
    assert not missed, (missed, found)
    assert not alarms, alarms
    assert list(found) == sorted(found, key=lambda one: -one.sure)
    assert all(0.5 <= one.sure <= 1 and one.message for one in found)


def test_the_same_is_found_twice() -> None:
    path = next(path for path in FILES if path.stem == "a1-takes-back")
    assert heard(path) == heard(path)


def test_slips_are_planted_in_nearly_all_of_them() -> None:
    """A narration without any is right too: nothing may be found in it."""
    planted = [len(told(path)[3]) for path in FILES]
    assert sum(planted) >= 353
    assert planted.count(0) * 10 <= len(planted)
