"""All words of a film in one stream: what rolling captions show twice is said once."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from .caption_files import Captions, TimedLine

_EDGES = re.compile(r"^[^\w]+|[^\w]+$")
TAIL = 40
"""Words looked back over for what a rolling caption repeats."""


@dataclass(frozen=True, slots=True)
class Word:
    """One spoken word, small letters, no marks. `at` its second; `stop` whether a sentence ends behind it; `raw` as it stood."""

    text: str
    at: float
    stop: bool
    raw: str
    until: float = 0.0
    """The end of its caption."""


def spoken_words(captions: Captions) -> list[Word]:
    """The words in the order they are said, each once."""
    rolling = _rolling(captions)
    said: list[Word] = []
    for lines in captions.lines:
        for line in lines:
            words = list(_words(line))
            skip = _repeated([w.text for w in said[-TAIL:]], [w.text for w in words], rolling)
            said += words[skip:]
    return said


def _words(line: TimedLine) -> Iterator[Word]:
    for raw, at in line.words:
        pieces = re.split(r"[-–—/](?=[A-Za-z0-9])", raw) if not re.fullmatch(r"[\d.,:/-]+", raw) else re.split(r"(?<=\d)[-–—](?=\d)", raw)
        for k, piece in enumerate(pieces):
            text = _EDGES.sub("", piece).lower().replace("’", "'")
            if text:
                last = k == len(pieces) - 1
                yield Word(text, at, last and raw.rstrip("\"'”’)")[-1:] in (".", "!", "?", ";", ":", ","), piece, line.end)


def _rolling(captions: Captions) -> bool:
    """Whether the file shows lines again and again: then short repeats are taken as shown twice, not said twice."""
    texts = [tuple(word.lower() for word, _ in line.words) for lines in captions.lines for line in lines]
    again = sum(1 for k in range(1, len(texts)) if len(texts[k]) >= 2 and texts[k] in texts[max(0, k - 3) : k])
    grows = sum(1 for k in range(1, len(texts)) if len(texts[k - 1]) >= 2 and texts[k][: len(texts[k - 1])] == texts[k - 1])
    return (again + grows) * 5 >= len(texts) >= 4


def _repeated(tail: list[str], words: list[str], rolling: bool) -> int:
    """How many of the first words were said already: the longest beginning that is the end of what was said."""
    least = 1 if rolling else 4
    for k in range(min(len(words), len(tail)), 0, -1):
        if tail[-k:] == words[:k]:
            return k if k >= least or (k == len(words) and k >= 2) else 0
    if rolling and len(words) >= 3:  # a line shown again after the next had begun
        for back in range(1, len(tail) - len(words) + 1):
            if tail[-len(words) - back : -back] == words:
                return len(words) if back <= 14 else 0
    return 0
