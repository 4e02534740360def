"""All words of a film in one stream: what rolling captions show twice is said once."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

from .caption_files import Captions, TimedLine
from .figures import ONES, TENS
from .lexicon import words as listed

_EDGES = re.compile(r"^[^\w]+|[^\w]+$")
_INCHES = re.compile(r"^(\d+)[\"″][.,;]?$")
_SHORT_ROW = re.compile(r"(rnd|row|round|rd|r)(\d{1,3})$")
"""A row typed short: "R3", "Rnd12"."""
RECENT = 2
"""Captions looked back over for what a rolling one shows again; a line that comes back later is said again."""


@dataclass(frozen=True, slots=True)
class Word:
    """One spoken word, small letters, no marks. `at` its second; `stop` whether a sentence ends behind it; `raw` as it stood."""

    text: str
    at: float
    stop: bool
    raw: str
    until: float = 0.0
    """The end of its caption."""


class Timed(Protocol):
    """A word, or what was taken for one, and the end of its caption."""

    @property
    def text(self) -> str: ...
    @property
    def until(self) -> float: ...


AMID = listed("words", "amid")
"""Words that end no phrase."""
CUT = 0.06
"""From such a share of captions on that end amid a phrase, captions are cut anywhere, as machines cut them (ours): of those that people
write hardly one in twenty does, of captions of seven words each mostly one in six."""


def ends_of_captions(said: Sequence[Timed]) -> frozenset[int]:
    """The places of the words with which captions end, where each holds whole phrases; none where captions are cut anywhere."""
    ends = [k for k in range(len(said) - 1) if said[k + 1].until != said[k].until]
    return frozenset() if sum(said[k].text in AMID for k in ends) > CUT * len(ends) else frozenset(ends)


def spoken_words(captions: Captions) -> list[Word]:
    """The words in the order they are said, each once."""
    rolling = _rolling(captions)
    lapping, growing = rolling or _lapping(captions), rolling or _growing(captions)
    said: list[Word] = []
    recent: list[list[tuple[str, ...]]] = [[]]
    for lines in captions.lines:
        shown: list[tuple[str, ...]] = []
        told = [list(_words(line)) for line in lines]
        rolled = _rolled(recent[-1], [tuple(word.text for word in words) for words in told]) if rolling else 0
        for k, words in enumerate(told):
            texts = tuple(word.text for word in words)
            if k >= rolled:
                before = [one for cue in recent for one in cue] if not rolled else []
                said += words[_repeated([*before, *shown], texts, rolling, lapping, growing) :]
            shown.append(texts)
        recent = [*recent, shown][-RECENT:]
    return said


def _rolled(before: list[tuple[str, ...]], lines: list[tuple[str, ...]]) -> int:
    """How many of a caption's first lines are the last lines of the caption before it, rolled up."""
    return next((n for n in range(min(len(before), len(lines)), 0, -1) if before[-n:] == lines[:n]), 0)


def _words(line: TimedLine) -> Iterator[Word]:
    named_row = False
    for raw, at in line.words:
        pieces = re.split(r"[-–—/](?=[A-Za-z0-9])", raw) if not re.fullmatch(r"[\d.,:/-]+", raw) else re.split(r"(?<=\d)[-–—](?=\d)", raw)
        for k, piece in enumerate(pieces):
            if (inches := _INCHES.search(piece)) is not None:
                yield Word(inches[1], at, False, inches[1], line.end)
                yield Word("inches", at, piece[-1:] in ".,;", piece[len(inches[1]) :], line.end)
                continue
            text = _EDGES.sub("", piece).lower().replace("’", "'")
            number, tied = _possessed(text, rows=k > 0 or named_row)
            if tied:
                text = number
            named_row = text in ("row", "round", "rnd")
            named = _SHORT_ROW.match(text)
            if named is not None:
                yield Word("row", at, False, piece[: len(named[1])], line.end)
                text, piece = named[2], piece[len(named[1]) :]
            if tied:
                yield Word(text, at, False, piece, line.end)
                text, piece = tied, ""
            if text:
                last = k == len(pieces) - 1
                yield Word(text, at, last and raw.rstrip("\"'”’)")[-1:] in (".", "!", "?", ";", ":", ","), piece, line.end)


def _possessed(text: str, *, rows: bool) -> tuple[str, str]:
    """ "Round seven's a rest", "row four'll be plain", "the fourth round's": the number or row, and the word tied to it."""
    head, mark, tail = text.partition("'")
    if mark and tail in ("s", "ll") and head in ("row", "round"):
        return head, "is" if tail == "s" else "will"
    number = head in ONES or head in TENS or (head.isdigit() and rows) or _SHORT_ROW.match(head) is not None
    if mark and tail in ("s", "ll") and number and (rows or head != "one"):
        return head, "is" if tail == "s" else "will"
    return text, ""


def _rolling(captions: Captions) -> bool:
    """Whether the file shows lines again and again: then short repeats are taken as shown twice, not said twice."""
    texts = [tuple(word.lower() for word, _ in line.words) for lines in captions.lines for line in lines]
    again = sum(1 for k in range(1, len(texts)) if len(texts[k]) >= 2 and texts[k] in texts[max(0, k - 3) : k])
    grows = sum(1 for k in range(1, len(texts)) if len(texts[k - 1]) >= 2 and texts[k][: len(texts[k - 1])] == texts[k - 1])
    return (again + grows) * 5 >= len(texts) >= 4


LAP = 4
"""So many words at least that end one caption and begin the next are shown twice."""


def _lapping(captions: Captions) -> bool:
    """Whether captions often begin with the words that ended the one before; once in a while it is only said again."""
    texts = [tuple(word.text for word in _words(line)) for lines in captions.lines for line in lines]
    laps = sum(1 for one, other in pairwise(texts) if _lap(one, other))
    return laps * 8 >= len(texts)


def _lap(one: tuple[str, ...], other: tuple[str, ...]) -> int:
    """How many words end the one and begin the other, LAP or more; else 0."""
    return next((k for k in range(min(len(one), len(other)), LAP - 1, -1) if one[-k:] == other[:k]), 0)


def _grown(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    return len(one) >= 2 and other[: len(one)] == one


def _growing(captions: Captions) -> bool:
    """Whether captions grow from the ones before more than once: once one may say the same again and go on, "chain one, skip one, double
    in the next" and "chain one, skip one, double in the next three"."""
    texts = [tuple(word.text for word in _words(line)) for lines in captions.lines for line in lines]
    return sum(_grown(one, other) and one != other for one, other in pairwise(texts)) > 1


def _repeated(recent: list[tuple[str, ...]], texts: tuple[str, ...], rolling: bool, lapping: bool, growing: bool) -> int:
    """How many of the first words of a line were said already: all, where the line is shown again; those it grows from; an overlap."""
    if not recent or not texts:
        return 0
    if texts == recent[-1] and (rolling or len(texts) >= 3):
        return len(texts)
    if rolling and texts in recent:
        return len(texts)
    if _grown(recent[-1], texts) and growing:
        return len(recent[-1])
    # no further back: "Round two. / Single crochet in the next. / Two single crochet in the next." repeats nothing
    return _lap(recent[-1], texts) if lapping else 0
