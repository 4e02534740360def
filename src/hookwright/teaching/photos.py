"""The photographs the page needs, found in the structure: which row, which face, a file name, a draft of the words for those who do not
see it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from ..pattern import FLAT, Pattern
from ..trade.terms import System
from ..working import Fabric
from .between import told_after
from .edges import edges_of
from .naming import label_of, part_names, title_told
from .shots import FilmPlan, Shot


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoShot:
    """One photograph to take. `face`: "right side", "wrong side", "both"; `row` its label, "" for the whole piece."""

    file: str
    row: str
    face: str
    shows: str
    alt: str


def photo_list(pattern: Pattern, fabric: Fabric, plan: FilmPlan) -> tuple[PhotoShot, ...]:
    """The whole piece with a scale, both faces; the first row of each new action; an edge with its first and last stitch; trims."""
    return tuple(_numbered(_photos(pattern, fabric, plan)))


def _photos(pattern: Pattern, fabric: Fabric, plan: FilmPlan) -> Iterator[tuple[str, str, str, str]]:
    title = title_told(pattern) or "The piece"
    if solid(pattern):
        yield "", "right side", "the finished piece from the front, a ruler beside it", f"{title}, seen from the front beside a ruler"
        yield "", "right side", "the finished piece from the side and from behind", f"{title}, seen from the side and from behind"
    elif _tube(fabric):
        yield "", "right side", "the finished piece from the front, a ruler beside it", f"{title}, seen from the front beside a ruler"
        yield "", "both", "one edge folded back, so that the inside is seen", f"{title}, its edge folded back to show the inside"
    else:
        yield (
            "",
            "right side",
            "the whole piece flat, from straight above, a ruler beside it",
            f"{title}, the whole piece laid flat beside a ruler",
        )
        yield "", "both", "one edge turned over, so that both faces are seen", f"{title}, one edge folded over to show the wrong side"
    if pattern.facts.gauge:
        gauge = pattern.facts.gauge[0]
        yield "", "right side", f"the swatch with {gauge.over_cm:g} cm marked", f"Swatch with {gauge.over_cm:g} centimetres marked by pins"
    for shot in plan.shots:
        if shot.kind == "close":
            yield from _of_shot(shot, plan.terms)
    yield from _between(pattern, fabric)
    yield from _edge(fabric, plan)
    for kind in dict.fromkeys(trim.kind for trim in pattern.facts.trims):
        yield "", "right side", f"one {kind} close", f"One {kind}, finished and in its place"


_SHOWN = ("eye", "stuff", "fill", "sew", "embroider", "flatten", "pin", "tail", "closed", "nose", "mouth")


def _between(pattern: Pattern, fabric: Fabric) -> Iterator[tuple[str, str, str, str]]:
    """What is done between rows and hard to tell in words: where the eyes sit, how firmly it is stuffed."""
    for worked, where in zip(fabric.parts, part_names(fabric), strict=True):
        told = next((p for p in pattern.parts if worked.rows and any(r.id == worked.rows[-1].written.id for r in p.rows)), None)
        last = {row.written.id: row for row in worked.rows}
        if told is None:
            continue
        for written, row in last.items():
            for words in told_after(pattern, told, written):
                if any(word in words.lower() for word in _SHOWN):
                    label = f"{where}, {label_of(row)}" if where else label_of(row)
                    shows = words.rstrip(".")
                    yield label, "right side", f"after it: {shows[0].lower()}{shows[1:]}", f"{label} and what follows: {words}"


def solid(pattern: Pattern) -> bool:
    """Whether the piece stands in the round, so that it cannot be laid flat: a toy, something stuffed."""
    words = pattern.source.lower()
    return pattern.facts.intended == "toy" or re.search(r"\bstuff(?:ing|ed)?\b|\bfiberfill\b|\btoy filling\b", words) is not None


TUBE = 3
"""So many rounds in a row without an increase make walls, and the piece lies no longer flat (ours)."""


def _tube(fabric: Fabric) -> bool:
    """Whether the largest piece has walls: a hat, a mitten, a basket."""
    part = max(fabric.parts, key=lambda one: sum(row.counted.total for row in one.rows), default=None)
    rows = [row for row in part.rows if not row.foundation] if part is not None else []
    run = longest = 0
    for before, row in pairwise(rows):
        run = run + 1 if row.made_in not in FLAT and 0 < row.counted.total <= before.counted.total else 0
        longest = max(longest, run)
    return longest >= TUBE


def _of_shot(shot: Shot, terms: System) -> Iterator[tuple[str, str, str, str]]:
    """One picture for the new actions of a row, a second where a stitch and its place both are new."""
    face = "right side" if shot.side == "RS" else "wrong side"
    wanted = [a for a in shot.new if a.family in ("stitch", "increase", "decrease", "group", "place", "colour", "join", "chain")]
    label = f"{shot.where}, {shot.title}" if shot.where else shot.title
    noun = "round" if "Round" in shot.title else "row"
    for action in wanted[:2] or shot.new[:1]:
        words = action.words(terms)
        colour = f" in {shot.colour}" if shot.colour else ""
        yield label, face, f"close: {words}", f"{label}{colour}, {face} facing: {words}; the {noun} has {shot.count or 'no count'}"


def _edge(fabric: Fabric, plan: FilmPlan) -> Iterator[tuple[str, str, str, str]]:
    """The edges of the first row whose first and last stitch are told."""
    for part, where in zip(fabric.parts, part_names(fabric), strict=True):
        for row in part.rows:
            edges = edges_of(part, row)
            if row.made_in in FLAT and edges.first and edges.last:
                face = "right side" if row.side == "RS" else "wrong side"
                words = " ".join(edges.words(row, plan.terms))
                label = f"{where}, {label_of(row)}" if where else label_of(row)
                yield label, face, "both edges, with a pin in the first and the last stitch", f"{label}, both edges. {words}"
                return


LONGEST = 40
"""Letters of a file name, cut between words."""


def _numbered(found: Iterator[tuple[str, str, str, str]]) -> Iterator[PhotoShot]:
    for k, (row, face, shows, alt) in enumerate(found, start=1):
        name = re.sub(r"[^a-z0-9]+", "-", (row or shows.split(",")[0]).lower()).strip("-")
        name = name if len(name) <= LONGEST else name[: name.rfind("-", 0, LONGEST + 1)]
        yield PhotoShot(file=f"{k:02}-{name}.jpg", row=row, face=face, shows=shows, alt=alt[0].upper() + alt[1:])
