"""What was said against what is written: spoken rows, counts and stitches held against the worked fabric."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from ..trade.kinds import base
from ..trade.terms import kind_of
from ..trade.terms import name as full_name
from ..working import Fabric, Role, RowWork
from .captions import Cue

Slip = Literal["count", "row", "dialect", "left out", "row never said", "count never said"]


class CannotHear(Exception):
    """The captions cannot be used; the message is one sentence a maker can act on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """One difference. `at` seconds (None: never said), `sure` from 0 to 1."""

    kind: Slip
    at: float | None
    words: str
    row: str
    message: str
    sure: float


_UNITS = dict(zip(["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"], range(20), strict=True))  # fmt: skip # noqa: E501
_TENS = dict(zip(["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], range(20, 100, 10), strict=True))
_MISHEARD = (
    (r"\bsink(?:le)?(?: a)? (?:crochet|crow ?shay)", "single crochet"), (r"\bsingles? crow ?shay", "single crochet"),
    (r"\bcrow ?shays?\b", "crochet"), (r"\bcroquet\b", "crochet"), (r"\bdouble crushes?\b", "double crochet"),
    (r"\b(?:trouble|tremble|trebel|triple) crochet", "treble crochet"), (r"\bhalf (?:a )?double\b(?! crochet)", "half double crochet"),
    (r"\bslip sti(?:ck|tch)\b", "slip stitch"), (r"\b(?:row|roe|rho) (?:number )?(?=\w)", "row "),
    (r"\broad (?=\d|two|three|four|five|six)", "row "),
)  # fmt: skip
_HOMOPHONES = {"to": "two", "too": "two", "for": "four", "ate": "eight", "won": "one", "tree": "three", "sex": "six"}
_NAMES = re.compile(
    r"\b(half double crochet|half treble(?: crochet)?|double treble(?: crochet)?|single crochet|double crochet|treble(?: crochet)?)\b"
)
_ROW = re.compile(r"\b(row|round)s? (\d+)(?: ?(?:to|through|thru|till|until|-|and) (\d+))?")
_SAYS_COUNT = (
    r"have|having|total of|makes|makes it|leaves you with|count(?:ed)? (?:of )?|should be|got|gives you|is now|that's|that is|in all|equals"
)
_COUNTED = (
    r"stitches|stitch|single crochet|half double crochet|half treble|double crochet|treble crochet|treble|spaces|in total|altogether|now"
)
_COUNT = re.compile(rf"\b(?:{_SAYS_COUNT}) (?:a total of |now |exactly |to have |about )*(\d+)(?: ({_COUNTED})\b|(?=[ .,!?]|$))")
_MENDS = re.compile(r"\b(?:sorry|i mean|no wait|let me correct|correction|oops|scratch that|rather)\b")


def read_captions(text: str) -> tuple[Cue, ...]:
    """The cues of a WebVTT or SRT text, or of plain lines "0:12 words". Raises CannotHear in one sentence."""
    if not text.strip():
        raise CannotHear("The captions are empty.")
    timed = list(re.finditer(r"(?m)^\s*(\d[\d:.,]*) --> (\d[\d:.,]*)[^\n]*\n((?:[^\n]+\n?)+)", text.replace("\r\n", "\n")))
    cues = [Cue(start=_seconds(m[1]), end=_seconds(m[2]), text=_plain(m[3])) for m in timed]
    if not cues:
        lines = re.findall(r"(?m)^\s*\[?(\d+(?::\d\d){1,2}(?:[.,]\d+)?)\]?\s+(.+)$", text)
        starts = [_seconds(t) for t, _ in lines]
        ends = [*starts[1:], starts[-1] + 5] if starts else []
        cues = [Cue(start=a, end=b, text=_plain(words)) for a, b, (_, words) in zip(starts, ends, lines, strict=True)]
    if not cues:
        raise CannotHear("No times were found: captions are WebVTT, SRT, or lines that begin with a time such as 0:12.")
    for before, cue in pairwise(cues):
        if cue.start < before.start - 0.001:
            raise CannotHear(f"The times run backward at {cue.start:.1f} s (“{cue.text[:40]}”): put the captions in order.")
    if any(cue.end < cue.start for cue in cues):
        raise CannotHear("A caption ends before it begins.")
    return tuple(cues)


def _seconds(stamp: str) -> float:
    parts = [float(p) for p in stamp.replace(",", ".").split(":")]
    return float(sum(p * 60.0**i for i, p in enumerate(reversed(parts))))


def _plain(text: str) -> str:
    return re.sub(r"<[^>]{0,60}>", "", " ".join(text.split()))


def mended(text: str) -> str:
    """Spoken words with the craft's words as they were meant and numbers as figures.

    >>> mended("Row too: sink a crochet in each stitch, you have twenty for stitches")
    'row 2: single crochet in each stitch, you have 24 stitches'
    """
    words = text.lower().replace("’", "'")
    for wrong, right in _MISHEARD:
        words = re.sub(wrong, right, words)
    words = re.sub(
        r"\b(row|round|rows|rounds|have|twenty|thirty|forty|fifty) (to|too|for|ate|won|tree)\b",
        lambda m: f"{m[1]} {_HOMOPHONES[m[2]]}",
        words,
    )
    return _figures(words)


def _figures(words: str) -> str:
    ones = "|".join(sorted(_UNITS, key=len, reverse=True))
    tens = "|".join(_TENS)
    words = re.sub(rf"\b({tens})[ -]({ones})\b", lambda m: str(_TENS[m[1]] + _UNITS[m[2]]), words)
    words = re.sub(rf"\b({tens}|{ones})\b", lambda m: str({**_TENS, **_UNITS}[m[1]]), words)
    return re.sub(r"\b(\d{1,2}) hundred(?: and)?(?: (\d{1,2}))?\b", lambda m: str(int(m[1]) * 100 + int(m[2] or 0)), words)


@dataclass(slots=True)
class _Segment:
    """What was said between one row's number and the next."""

    start: float
    first: int
    last: int
    words: str
    times: list[tuple[int, float]]

    def at(self, offset: int) -> float:
        """The time of the words at a place in the segment."""
        return max((t for place, t in self.times if place <= offset), default=self.start)


def compare(fabric: Fabric, cues: tuple[Cue, ...]) -> tuple[Heard, ...]:
    """Every difference between the spoken instructions and the rows, the surest first.

    Raises CannotHear where no word of the craft is said at all (another language, another film).
    """
    stream, times = _stream(cues)
    if not _ROW.search(stream) and not _NAMES.search(stream):
        raise CannotHear("No row number and no stitch is said in these captions: are they of this pattern, and in English?")
    rows = {r.number: r for part in fabric.parts for r in part.rows if r.number is not None and not r.foundation}
    segments = _segments(stream, times)
    found: list[Heard] = []
    for segment in segments:
        found += _in_segment(fabric, rows, segment)
    found += _never_said(fabric, rows, segments)
    return tuple(sorted(found, key=lambda h: (-h.sure, h.at if h.at is not None else 1e9)))


def _stream(cues: tuple[Cue, ...]) -> tuple[str, list[tuple[int, float]]]:
    """All words in one line, repeated lines of rolling captions said once, and where each caption begins in it."""
    stream, times, before = "", [], ""
    for cue in cues:
        text = mended(cue.text)
        if text == before or not text:
            continue
        before = text
        times.append((len(stream), cue.start))
        stream += text + " "
    return stream, times


def _segments(stream: str, times: list[tuple[int, float]]) -> list[_Segment]:
    marks = list(_ROW.finditer(stream))
    segments = []
    for i, mark in enumerate(marks):
        end = marks[i + 1].start() if i + 1 < len(marks) else len(stream)
        first, last = int(mark[2]), int(mark[3] or mark[2])
        inside = [(max(place - mark.start(), 0), t) for place, t in times if place < end and place >= _begin(times, mark.start())]
        segments.append(_Segment(_time(times, mark.start()), first, max(first, last), stream[mark.start() : end], inside))
    return segments


def _begin(times: list[tuple[int, float]], offset: int) -> int:
    return max((place for place, _ in times if place <= offset), default=0)


def _time(times: list[tuple[int, float]], offset: int) -> float:
    return max((t for place, t in times if place <= offset), default=0.0)


def _in_segment(fabric: Fabric, rows: dict[int, RowWork], segment: _Segment) -> Iterator[Heard]:
    row = rows.get(segment.last)
    label = f"{'Row' if row is None or row.written.noun == 'row' else 'Rnd'} {segment.last}"
    if row is None:
        message = f"“{segment.words[:40].strip()}” is said, and the pattern has no row {segment.last}"
        yield Heard(kind="row", at=segment.start, words=segment.words[:60].strip(), row=label, message=message, sure=0.8)
        return
    yield from _counts(row, segment)
    yield from _stitches(fabric, row, segment)


def _counts(row: RowWork, segment: _Segment) -> Iterator[Heard]:
    told = [m for m in _COUNT.finditer(segment.words) if not _MENDS.search(segment.words[m.end() : m.end() + 30])]
    numbers = {row.counted.total, *row.counted.by_kind.values()}
    for match in told[-1:]:
        number = int(match[1])
        if number not in numbers:
            message = f"{number} is said, and {row.label} makes {row.counted.total}"
            sure = 0.95 if match[2] else 0.75
            yield Heard(kind="count", at=segment.at(match.start()), words=match[0], row=row.label, message=message, sure=sure)


def _stitches(fabric: Fabric, row: RowWork, segment: _Segment) -> Iterator[Heard]:
    terms = fabric.pattern.terms
    other: Literal["US", "UK"] = "UK" if terms == "US" else "US"
    made = {base(row.stitches.name(i)) for i in range(len(row.stitches)) if row.stitches.role[i] in (Role.STITCH, Role.START_TOP)}
    said: set[str] = set()
    both_named = bool(re.search(r"\b(?:uk|us|british|american) (?:terms|people|viewers)?", segment.words))
    for match in _NAMES.finditer(segment.words):
        kind = _stitch(match[1], terms)
        if kind is None or kind in made:
            said.add(kind or "")
            continue
        meant = _stitch(match[1], other)
        if meant in made and meant is not None and not both_named:
            said.add(meant)
            message = f"“{match[1]}” is said, and {row.label} is worked in {full_name(meant, terms)}: that is the {other} name"
            yield Heard(kind="dialect", at=segment.at(match.start()), words=match[0], row=row.label, message=message, sure=0.85)
    missing = sorted(made - said - {"sl st"})
    if said and missing and len(segment.words.split()) > 12:
        names = " and ".join(full_name(k, terms) for k in missing)
        message = f"{row.label} also has {names}, which is not said"
        yield Heard(kind="left out", at=segment.start, words=segment.words[:60].strip(), row=row.label, message=message, sure=0.6)


def _stitch(words: str, terms: Literal["US", "UK"]) -> str | None:
    """The stitch that spoken words mean; "treble crochet" is said for "treble" on both sides of the sea."""
    return kind_of(words, terms) or kind_of(words.removesuffix(" crochet"), terms)


def _never_said(fabric: Fabric, rows: dict[int, RowWork], segments: list[_Segment]) -> Iterator[Heard]:
    """Rows no number was said of, and stated counts that nobody spoke; a written range counts as one."""
    spoken = {n for s in segments for n in range(s.first, min(s.last, s.first + 5000) + 1)}
    by_row = {s.last: s for s in segments}
    done: set[int] = set()
    for number, row in rows.items():
        if row.written.id in done:
            continue
        done.add(row.written.id)
        numbers = row.written.numbers_at(fabric.size)
        if numbers and not spoken & set(numbers):
            message = f"{row.written.label.rstrip(': ') or row.label} is never said"
            yield Heard(kind="row never said", at=None, words="", row=row.label, message=message, sure=0.7)
        elif row.stated and number in by_row and not re.search(r"\d", by_row[number].words[len(f"row {number}") :]):
            segment = by_row[number]
            message = f"the count of {row.label} ({row.counted.total}) is never said"
            yield Heard(
                kind="count never said", at=segment.start, words=segment.words[:40].strip(), row=row.label, message=message, sure=0.4
            )
