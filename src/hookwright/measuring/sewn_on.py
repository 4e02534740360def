"""Pieces in rounds that are sewn on each other (a head on a body, limbs, ears): what the making-up text tells of the place."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from ..working.fabric import SeamWork
from .measures import Measures, PartMeasures

Place: TypeAlias = Literal["end", "top", "bottom", "side", "front", "back"]

_ROUND: Final = re.compile(
    r"\b(?:rnds?|rounds?|rows?|r)\s?(\d{1,3})(?:\s?(?:-|–|to|and|&|through)\s?(?:(?:rnd|round|row|r)\s?)?(\d{1,3}))?", re.I
)
_PLACES: Final[tuple[tuple[Place, re.Pattern[str]], ...]] = (
    ("bottom", re.compile(r"\b(?:bottom|base|underside|underneath|lower (?:end|part|body))\b", re.I)),
    ("top", re.compile(r"\b(?:top|crown|upper (?:end|part))\b", re.I)),
    ("front", re.compile(r"\b(?:front|face|tummy|belly|chest)\b", re.I)),
    ("back", re.compile(r"\b(?:back(?! loops?\b)|behind|rear|bottom at the back)\b", re.I)),
    ("side", re.compile(r"\b(?:sides?|left and right|opposite)\b(?! (?:of the work|out|up|facing))", re.I)),
)
_BODY: Final = re.compile(r"\bbody\b|\btorso\b|\btrunk\b", re.I)
_OPEN: Final = 5
"""An end of so many stitches or fewer is drawn shut: nothing is sewn end to end to it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SewnOn:
    """A part set on another (indices). `row`: the host's round it is set at (index), where told; `place` the side or end told, or None.

    `assumed`: what the words leave open and is taken for granted, as a sentence; `placed`: whether a place follows at all.
    """

    part: int
    host: int
    row: int | None
    place: Place | None
    seam: SeamWork
    assumed: str = ""

    @property
    def placed(self) -> bool:
        return self.row is not None or self.place is not None


def sewn_on(measures: Measures) -> tuple[SewnOn, ...]:
    """Every piece in rounds that a sentence sews on another, once each, in the order told."""
    found: dict[int, SewnOn] = {}
    for seam in measures.fabric.seams:
        for each in _of_seam(seam, measures):
            before = found.get(each.part)
            if before is None or (each.placed and not before.placed):
                found[each.part] = each
    # a piece cannot be sewn on itself by way of others
    return tuple(each for each in found.values() if each.part not in _hosts(each, found))


def _hosts(one: SewnOn, found: dict[int, SewnOn]) -> set[int]:
    seen: set[int] = set()
    at: SewnOn | None = one
    while at is not None and at.host not in seen:
        seen.add(at.host)
        at = found.get(at.host)
    return seen


def _of_seam(seam: SeamWork, measures: Measures) -> Iterator[SewnOn]:
    parts = measures.parts
    if seam.seam.kind not in ("attached", "edges") or not seam.parts:
        return
    named = [i for name in seam.seam.parts for i, part in enumerate(parts) if part.name == name]
    if not named or any(not _in_space(parts[i]) for i in named):
        return
    words, assumed = seam.seam.words, ""
    if len(named) == 1:
        others = [i for i, part in enumerate(parts) if i != named[0] and _in_space(part)]
        host = next((i for i in others if _BODY.search(parts[i].name)), None)
        if host is None or named[0] == host:
            return
        assumed = f"{parts[named[0]].name} is taken to be sewn on {parts[host].name}: nothing else is named"
    else:
        host = named[-1]
    for i in [each for each in named if each != host]:
        place = next((place for place, pattern in _PLACES if pattern.search(words)), None)
        row = _row_told(words, parts[host])
        if place is None and row is None and _open_end(parts[i]) and _open_end(parts[host]) and parts[i].copies == 1:
            place = "end"
        if place == "side" and row is None:
            row = _widest(parts[host])
            assumed = assumed or f"the round of {parts[host].name} that {parts[i].name} is sewn on at is not told: its widest is taken"
        if place is None and row is not None:
            place = "side" if parts[i].copies > 1 else "front"
            where = "at its two sides" if place == "side" else "at the front"
            assumed = assumed or f"which side of {parts[host].name} {parts[i].name} is sewn on is not told: it is put {where}"
        yield SewnOn(part=i, host=host, row=row, place=place, seam=seam, assumed=assumed)


def _in_space(part: PartMeasures) -> bool:
    """Whether it is a piece in rounds that is no flat disc."""
    return part.rounds is not None and part.lies in ("closed", "cups", "tube")


def _open_end(part: PartMeasures) -> bool:
    rounds = part.rounds
    return rounds is not None and rounds.rounds[-1].stitches > _OPEN


def _row_told(words: str, host: PartMeasures) -> int | None:
    """The host's round that the words tell (the middle of "Rnds 8 to 12"), as an index."""
    told = _ROUND.search(words)
    if told is None:
        return None
    first, last = int(told[1]), int(told[2] or told[1])
    rows: Sequence[int] = [row.index for row in host.part.rows if row.number is not None and first <= row.number <= last]
    return rows[len(rows) // 2] if rows else None


def _widest(host: PartMeasures) -> int | None:
    return None if host.rounds is None else max(host.rounds.rounds, key=lambda each: each.girth_cm).index
