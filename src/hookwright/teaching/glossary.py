"""A glossary pass over captions made by a machine: terms of the craft as they were meant, every other letter of the file left alone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from .hearing.figures import SOUNDS
from .hearing.tokens import Token, tokens_of
from .hearing.words import Word
from .speech import number_words

_ATOM = re.compile(r"<[^>]{0,80}>|[^\s<]+|\s+")
_EDGE = re.compile(r"^([^\w]*)(.*?)([^\w]*)$")
_TIMES = re.compile(r"-->|^\s*(?:WEBVTT|NOTE|STYLE|REGION|Kind:|Language:)|^\s*\d+\s*$|^\s*\d{1,3}:\d\d[\d:.,]*,\d")
_LEAD = re.compile(r"^\s*[\[(]?(?:\d{1,3}:)?\d{1,3}:\d\d(?:[.,]\d{1,3})?[\])]?\s*[-–:|]?\s*")
_PROPER = (
    "turn", "skip", "chain", "ch", "join", "stitch", "st", "sts", "space", "sp", "sps", "increas", "inc", "decreas", "dec", "repeat", "rep",
    "shell", "cluster", "bobble", "puff", "popcorn", "picot", "row", "round", "rnd", "ring", "magic", "front post", "back post", "miss",
    "together", "tog", "slip stitch", "slipped stitch", "slipstitch", "sl st", "ss", "hole", "gap", "around", "v stitch", "v-stitch",
)  # fmt: skip
_SAID = {"slip": "slip stitch", "rows": "rows", "v-stitch": "V stitch", "ring": "magic ring"}
_NAMES = re.compile(
    r"(?:front post |back post )?(?:half |extended )?(?:single|double|treble|triple)(?: treble)?(?: crochets?)?s?"
    r"|[a-z]{1,5}\d?(?:tog)?|h d c|d c|s c"
)


@dataclass(frozen=True, slots=True)
class Mended:
    """One term mended: the line of the file (from 1), what stood there, what stands there now; `sure` below 1 where it is a guess."""

    line: int
    was: str
    now: str
    sure: float


def mend(text: str) -> tuple[str, tuple[Mended, ...]]:
    """The captions with stitch terms mended, and what was changed. Times, tags, notes, line ends and all other words stay as they are.

    >>> mend("0:05 Row too, sink a crochet in each, then churn.\\n")[0]
    '0:05 Row two, single crochet in each, then turn.\\n'
    """
    out: list[str] = []
    changes: list[Mended] = []
    for number, line in enumerate(text.splitlines(keepends=True), start=1):
        if _TIMES.search(line):
            out.append(line)
            continue
        lead = _LEAD.match(line)
        at = lead.end() if lead else 0
        mended, found = _line(line[at:], number)
        out.append(line[:at] + mended)
        changes += found
    return "".join(out), tuple(changes)


def _line(line: str, number: int) -> tuple[str, list[Mended]]:
    atoms = _ATOM.findall(line)
    places = [k for k, atom in enumerate(atoms) if not atom.isspace() and not atom.startswith("<")]
    words = list(_words(atoms, places))
    changes: list[Mended] = []
    at = 0
    for token in tokens_of([word for word, _ in words]):
        if (
            token.kind == "together"
            and "tog" in token.raw.lower()
            and token.raw.lower() != "tog"
            and not token.raw.lower().startswith("tog")
        ):
            continue  # the second half of "sc2tog"
        taken = max(1, len(token.raw.split()))
        now = _meant(token)
        if now is not None and at < len(words):
            changes.append(Mended(number, token.raw, now, token.sure))
            _put(atoms, [k for _, k in words[at : at + taken]], now)
        at += taken
    return "".join(atoms), changes


def _words(atoms: list[str], places: list[int]) -> Iterator[tuple[Word, int]]:
    for k in places:
        bare = _EDGE.match(atoms[k])
        core = bare[2] if bare else atoms[k]
        if core:
            tail = bare[3] if bare else ""
            yield Word(core.lower().replace("’", "'"), 0.0, bool(tail) and tail[-1] in ".!?;:,", core), k


def _put(atoms: list[str], places: list[int], now: str) -> None:
    """The new words in the place of the first, the others taken away; marks before the first and behind the last are kept."""
    first, last = _EDGE.match(atoms[places[0]]), _EDGE.match(atoms[places[-1]])
    assert first is not None and last is not None
    said = now[0].upper() + now[1:] if first[2][:1].isupper() else now
    atoms[places[0]] = f"{first[1]}{said}{last[3] if len(places) > 1 else first[3]}"
    for k in places[1:]:
        atoms[k] = ""
        if k and atoms[k - 1].isspace() and "\n" not in atoms[k - 1]:
            atoms[k - 1] = ""


def _meant(token: Token) -> str | None:
    """What a token should read; None where it stands rightly, or where nobody can be sure."""
    raw = token.raw.lower()
    if token.kind == "st":
        return None if _NAMES.fullmatch(raw) else token.text
    if token.kind == "num":
        heard = [word for word in raw.split() if word in SOUNDS or word == "teen"]
        return number_words(token.number) if heard else None
    if token.kind in ("word", "ord") or token.sure < 1:
        return None
    if raw in _PROPER or raw.startswith(tuple(proper for proper in _PROPER if len(proper) > 3)):
        return None
    return _SAID.get(token.kind, token.kind)
