"""Short pieces told in many ways (`tests/cases/ways`): each phrase with its other wordings, each row with what a maker has at its end.

A file holds pieces, each under a line "== name". `{plain|other|other}` stands for wordings of the same thing; a line "Row 2 => 20 dc" tells
what the row numbered 2 (or what the next row of no number) comes to, and is no part of the text. The sentences are ours; that they mean the
same is common practice, no source.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import RowWork, work

WAYS = Path(__file__).parent / "cases" / "ways"
_CHOICE = re.compile(r"\{([^{}]*\|[^{}]*)\}")
_WANTED = re.compile(r"(?m)^(?P<row>[^{}|\n]*?)\s*=>\s*(?P<counts>\d[^{}|\n]*)\n?")
_NUMBER = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a row comes to: its number (None: the next row, whatever its own), its stitches, and of each kind named."""

    number: int | None
    total: int
    kinds: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Piece:
    name: str
    words: str
    wanted: tuple[Wanted, ...]

    @property
    def choices(self) -> list[list[str]]:
        """The wordings of each phrase, the plain one first."""
        return [match[1].split("|") for match in _CHOICE.finditer(self.words)]

    def told(self, chosen: dict[int, int]) -> str:
        """The text with wording `chosen[k]` of the k-th phrase, the plain one of all others."""
        at = -1

        def said(match: re.Match[str]) -> str:
            nonlocal at
            at += 1
            return match[1].split("|")[chosen.get(at, 0)]

        return _CHOICE.sub(said, self.words)


def pieces(path: Path) -> Iterator[Piece]:
    for lot in re.split(r"(?m)^== ", path.read_text(encoding="utf-8"))[1:]:
        name, words = lot.split("\n", 1)
        wanted = tuple(_wanted(match) for match in _WANTED.finditer(words))
        yield Piece(name.strip(), _WANTED.sub("", words).replace("\\n", "\n"), wanted)


def _wanted(match: re.Match[str]) -> Wanted:
    numbers = _NUMBER.findall(match["row"])
    total, *kinds = match["counts"].split(",")
    return Wanted(
        int(numbers[-1]) if numbers else None,
        int(_NUMBER.findall(total)[0]),
        tuple((kind.split(maxsplit=1)[1].strip(), int(kind.split()[0])) for kind in map(str.strip, kinds) if len(kind.split()) > 1),
    )


PLAIN, BARE = "plain", "bare"


def one_by_one(piece: Piece) -> Iterator[tuple[str, str]]:
    """What was said, and the text: the plain one, then with one wording changed; then both again with all left unsaid that may be."""
    choices = piece.choices
    unsaid = {at: others.index("") for at, others in enumerate(choices) if "" in others}
    for base, name in (({}, PLAIN), (unsaid, BARE)) if any(unsaid.values()) else (({}, PLAIN),):
        yield name, piece.told(base)
        for at, others in enumerate(choices):
            for k in range(1, len(others)):
                if others[k]:
                    yield f"{others[k]!r} for {others[0]!r} ({name})", piece.told(base | {at: k})


def by_chance(piece: Piece, number: int) -> Iterator[tuple[str, str]]:
    """Every phrase worded by chance, the same ones in every run."""
    chance = random.Random(piece.name)
    choices = piece.choices
    for k in range(number):
        yield f"by chance {k}", piece.told({at: chance.randrange(len(others)) for at, others in enumerate(choices)})


def amiss(piece: Piece, text: str) -> str:
    """In one line what does not come out as it should, or nothing."""
    pattern = read(text)
    fabric = work(pattern)
    rows = [row for part in fabric.parts for row in part.rows if not row.foundation or row.counted.total]
    at = 0
    for wanted in piece.wanted:
        found = next((k for k in range(at, len(rows)) if wanted.number in (None, rows[k].number)), None)
        if found is None and at < len(rows) and rows[at].number in (None, 1):
            found = at  # "Last rnd: …", "Edging: …"
        if found is None:
            return f"row {wanted.number}: no such row"
        at = found + 1
        wrong = _amiss(rows[found], wanted)
        if wrong:
            return f"row {wanted.number}: {wrong}"
    alarms = [one for one in proof(pattern, (fabric,)) if one.severity in ("error", "warning")]
    return f"{alarms[0].row}: {alarms[0].severity} {alarms[0].rule}" if alarms else ""


def _amiss(row: RowWork, wanted: Wanted) -> str:
    if row.read != "whole" or row.worked != "yes" or row.state == "assumed":
        return f"{row.read}, {row.worked}, {row.state}, {row.counted.total} for {wanted.total}"
    if row.counted.total != wanted.total:
        return f"{row.counted.total} for {wanted.total}"
    kinds = {_one(kind): number for kind, number in row.counted.by_kind.items()}
    return next((f"{kinds.get(_one(kind), 0)} for {n} {kind}" for kind, n in wanted.kinds if kinds.get(_one(kind), 0) != n), "")


def _one(kind: str) -> str:
    return kind.lower().rstrip("s")
