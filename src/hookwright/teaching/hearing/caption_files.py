"""Captions of any common make → timed words: WebVTT, SRT, SBV, and plain lines that begin with a time. Never stumbles over one bad cue.

What can be mended is mended and told in one sentence each (`remarks`): times out of order are sorted, cues that overlap are kept, a cue
that ends before it begins is taken as short. What cannot be used at all raises CannotHear in one sentence.
"""

from __future__ import annotations

import html
import re
from dataclasses import dataclass
from itertools import pairwise

from ..cues import Cue

_TIME = r"(?:\d{1,3}:)?\d{1,3}:\d{2}(?:[.,]\d{1,3})?"
_ARROW = re.compile(rf"^\s*(?P<start>{_TIME})\s*(?:-->|,)\s*(?P<end>{_TIME})(?P<settings>[^\n]*)$")
_PLAIN = re.compile(
    rf"^\s*[\[(]?(?P<at>{_TIME}|\d+(?:\.\d+)?\s?s(?:ec)?\b)[\])]?(?:\s*(?:-->|-|–|to)\s*[\[(]?{_TIME}[\])]?)?\s*[-–:|]?\s*(?P<words>.*)$"
)
_WORD_TIME = re.compile(rf"<(?P<at>{_TIME})>")
_TAG = re.compile(r"<[^>]{0,80}>|\{\\[^}]{0,40}\}")
_NOISE = re.compile(
    r"\[[^\]]{0,60}\]|\((?:music|laughs?|laughter|applause|sighs?|silence|inaudible)[^)]{0,30}\)|♪[^♪]*♪?|^\s*>+|^-\s+", re.I
)


SHARED_S = 2.5
"""Words that the file does not time are placed within so many seconds of their caption's beginning, which is where one looks for them."""


class CannotHear(Exception):
    """The captions cannot be used; the message is one sentence a maker can act on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedLine:
    """One line of a cue. `words` its words with the second each begins, exact where the file times words, else shared out."""

    start: float
    end: float
    words: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Captions:
    """Captions as read. `cues` in order of time; `lines` every line of every cue; `remarks` what was mended, a sentence each."""

    cues: tuple[Cue, ...]
    lines: tuple[tuple[TimedLine, ...], ...]
    remarks: tuple[str, ...] = ()

    @property
    def seconds(self) -> float:
        return max((cue.end for cue in self.cues), default=0.0)


@dataclass(frozen=True, slots=True)
class _Raw:
    start: float
    end: float
    lines: tuple[str, ...]


def read_captions(text: str) -> Captions:
    """The captions of a WebVTT, SRT or SBV text, or of plain lines "0:12 words" (also a time alone, its words below).

    Raises CannotHear for an empty text and for one without any time.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n").lstrip("\ufeff")
    if not re.sub(r"\A\s*WEBVTT[^\n]*", "", text).strip():
        raise CannotHear("The captions are empty.")
    raw = _spoken(_arrows(text)) or _spoken(_plain(text))  # "0:03 --> 0:09 words" on one line is plain text
    if not raw:
        raise CannotHear("No times were found: captions are WebVTT, SRT, or lines that begin with a time such as 0:12.")
    remarks = []
    turned = next(((a, b) for a, b in pairwise(raw) if b.start < a.start - 0.001), None)
    if turned:
        remarks.append(
            f"The times run backward at {_clock(turned[1].start)} (“{turned[1].lines[0][:30].strip()}”): the captions were put in order."
        )
        raw.sort(key=lambda cue: cue.start)
    lapping = sum(1 for a, b in pairwise(raw) if b.start < a.end - 0.25 and b.lines != a.lines)
    if lapping:
        begin = "1 caption begins" if lapping == 1 else f"{lapping} captions begin"
        remarks.append(f"{begin} before the one before has ended: every word was kept, at the time its caption begins.")
    backward = sum(1 for cue in raw if cue.end < cue.start)
    if backward:
        end = (
            "1 caption ends before it begins: its beginning was"
            if backward == 1
            else f"{backward} captions end before they begin: their beginnings were"
        )
        remarks.append(f"{end} taken.")
    lines = tuple(_lines(cue) for cue in raw)
    cues = tuple(Cue(start=c.start, end=max(c.end, c.start), text="\n".join(_clean(line) for line in c.lines)) for c in raw)
    return Captions(cues=cues, lines=lines, remarks=tuple(remarks))


def _spoken(raw: list[_Raw]) -> list[_Raw]:
    return [cue for cue in raw if any(line.strip() for line in cue.lines)]


def of_cues(cues: tuple[Cue, ...]) -> Captions:
    """Captions made of cues already in hand."""
    raw = [_Raw(cue.start, cue.end, tuple(cue.text.split("\n"))) for cue in cues]
    return Captions(cues=cues, lines=tuple(_lines(cue) for cue in raw))


def _arrows(text: str) -> list[_Raw]:
    """Cues whose times stand on a line of their own with an arrow (or, in SBV, a comma) between."""
    found: list[_Raw] = []
    source = text.split("\n")
    at = 0
    while at < len(source):
        match = _ARROW.match(source[at])
        at += 1
        if not match:
            continue
        lines = []
        while at < len(source) and source[at].strip(" \t") != "" and not _ARROW.match(source[at]):
            lines.append(source[at])
            at += 1
        if at < len(source) and _ARROW.match(source[at]) and lines and re.fullmatch(r"\s*\d+\s*", lines[-1]):
            lines.pop()  # the number of the next cue, where the empty line between is missing
        found.append(_Raw(_seconds(match["start"]), _seconds(match["end"]), tuple(lines)))
    return found


def _plain(text: str) -> list[_Raw]:
    """Lines that begin with a time, and lines below a time that stands alone."""
    begins: list[tuple[float, list[str]]] = []
    for line in text.split("\n"):
        match = _PLAIN.match(line)
        if match:
            begins.append((_seconds(match["at"]), [match["words"]]))
        elif begins and line.strip():
            begins[-1][1].append(line)
    found = []
    for k, (start, lines) in enumerate(begins):
        words = len(" ".join(lines).split())
        following = next((other for other, _ in begins[k + 1 :] if other > start), start + max(2.0, words / 2.5))
        found.append(_Raw(start, following, tuple(lines)))
    return found


def _seconds(stamp: str) -> float:
    parts = [float(p) for p in re.sub(r"\s?s(?:ec)?$", "", stamp).replace(",", ".").split(":")]
    return float(sum(p * 60.0**i for i, p in enumerate(reversed(parts))))


def _clock(seconds: float) -> str:
    return f"{int(seconds) // 60}:{int(seconds) % 60:02}"


def _clean(line: str) -> str:
    return " ".join(_NOISE.sub(" ", html.unescape(_TAG.sub("", line))).split())


def _lines(cue: _Raw) -> tuple[TimedLine, ...]:
    """The lines of a cue with a time for each word: as the file tells it, else by the place of the word among the letters of the cue."""
    told = [_timed_words(line, cue.start) for line in cue.lines]
    shared = [line for line, exact in zip(cue.lines, told, strict=True) if exact is None]
    letters = max(sum(len(_clean(line)) + 1 for line in shared), 1)
    length = min(max(cue.end - cue.start, 0.0), SHARED_S)
    out, place = [], 0
    for line, exact in zip(cue.lines, told, strict=True):
        if exact is not None:
            out.append(TimedLine(start=exact[0][1] if exact else cue.start, end=cue.end, words=exact))
            continue
        words = []
        for word in _clean(line).split():
            words.append((word, cue.start + length * place / letters))
            place += len(word) + 1
        out.append(TimedLine(start=cue.start, end=cue.end, words=tuple(words)))
    return tuple(line for line in out if line.words)


def _timed_words(line: str, start: float) -> tuple[tuple[str, float], ...] | None:
    """The words of a line that times them ("row<00:00:01.2><c> one</c>"); None for any other."""
    if not _WORD_TIME.search(line):
        return None
    words: list[tuple[str, float]] = []
    at = start
    for k, piece in enumerate(_WORD_TIME.split(line)):
        if k % 2:
            at = _seconds(piece)
        else:
            words += [(word, at) for word in _clean(piece).split()]
    return tuple(words)
