"""A pattern and its fabrics → the sheet that every output sets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import count
from typing import TYPE_CHECKING

from ..drafting import Choices, Refused, choices_of
from ..measuring import measure
from ..pattern import Pattern, Row
from ..teaching.cautions import cautions_of
from ..working.fabric import Fabric
from ..writing import HOUSE, SPOKEN, Lexicon, RowWords, Written, one_size, settled, with_counts, write
from ..writing.materials import gauge_of, materials_of, skills_of, texts
from ..writing.remarks import remarks_of
from .abbreviations import abbreviations_of
from .anchors import row_anchor, slug
from .care import rights_of
from .choices import choices_table
from .measures import measures_of
from .notes import notes_of
from .sheet import Aloud, Drawn, Edition, Photo, Sheet, SheetPart, SheetRow, Terms
from .stamp import stamp_of

if TYPE_CHECKING:
    from .yarns import YarnAnswer

BOTH: tuple[Terms, Terms] = ("US", "UK")


def sheet_of(
    pattern: Pattern,
    fabrics: Sequence[Fabric],
    *,
    terms: Terms | None = None,
    drawings: Mapping[Terms, tuple[Drawn, ...]],
    hero: Drawn | None = None,
    photos: tuple[Photo, ...] = (),
    yarn: YarnAnswer | None = None,
    choices: bool = False,
) -> Sheet:
    """Everything the published pattern says. `fabrics`: one a size, in order; `terms` those shown first (the pattern's own if None).

    `choices`: with the table of wider, longer and other gauges.
    """
    counted = with_counts(settled(pattern, fabrics), fabrics)
    facts = pattern.facts
    told = _choices(pattern) if choices else None
    editions = {system: _edition(counted, fabrics, system, drawings[system], told) for system in BOTH}
    return Sheet(
        title=facts.title or next((part.name for part in pattern.parts if part.name), "") or "Untitled pattern",
        designer=facts.designer,
        version=facts.version,
        stamp=stamp_of(counted),
        language="en",
        terms=terms or pattern.terms,
        description=" ".join(texts(facts.notes.get("description"))),
        level=" ".join(texts(facts.notes.get("level"))),
        skills=skills_of(pattern),
        measures=measures_of(pattern, [measure(fabric) for fabric in fabrics]),
        materials=materials_of(pattern),
        yarns=yarn.table if yarn else None,
        finishing=texts(facts.notes.get("finishing")),
        care=texts(facts.notes.get("care")),
        cautions=cautions_of(pattern, hours=yarn.hours if yarn else 0.0),
        rights=rights_of(pattern),
        remarks=remarks_of(pattern),
        editions=editions,
        hero=hero,
        photos=photos,
    )


def _choices(pattern: Pattern) -> Choices | None:
    """Wider, longer and other gauges; None for a pattern without a gauge, of which nothing could be reckoned."""
    try:
        return choices_of(pattern)
    except Refused:
        return None


def _edition(pattern: Pattern, fabrics: Sequence[Fabric], terms: Terms, drawings: tuple[Drawn, ...], choices: Choices | None) -> Edition:
    style = replace(HOUSE, front=False)
    written = write(pattern, terms=terms, style=style)
    parts = _parts(pattern, written)
    return Edition(
        terms=terms,
        gauge=tuple(gauge_of(gauge, Lexicon(terms=terms, style=style)) for gauge in pattern.facts.gauge),
        abbreviations=abbreviations_of(pattern, written),
        specials=written.specials,
        notes=notes_of(fabrics, written, style),
        parts=parts,
        sizes=_sizes(pattern, parts, terms),
        drawings=drawings,
        aloud=tuple(_aloud(pattern, fabric, terms) for fabric in fabrics),
        choices=choices_table(pattern, choices, terms) if choices else None,
    )


def _aloud(pattern: Pattern, fabric: Fabric, terms: Terms) -> Aloud:
    alone = one_size(pattern, fabric.size)
    written = write(alone, terms=terms, style=SPOKEN)
    names = pattern.facts.size_names
    return Aloud(
        size=names[fabric.size] if len(names) > 1 else "",
        gauge=tuple(gauge_of(gauge, Lexicon(terms=terms, style=SPOKEN)) for gauge in pattern.facts.gauge),
        specials=written.specials,
        notes=notes_of([fabric], written, SPOKEN),
        parts=_parts(alone, written),
    )


def _parts(pattern: Pattern, written: Written) -> tuple[SheetPart, ...]:
    parts: list[SheetPart] = []
    for k, (part, words) in enumerate(zip(pattern.parts, written.parts, strict=True)):
        name = _free(slug(part.name) or f"part-{k + 1}", {made.anchor for made in parts})
        rows = tuple(
            _row(row, said, row_anchor(name, at)) for at, (row, said) in enumerate(zip(part.rows, words.rows, strict=True), start=1)
        )
        parts.append(SheetPart(anchor=name, heading=words.heading, rows=rows))
    return tuple(parts)


def _free(name: str, taken: set[str]) -> str:
    """The name, or the name with a number where another part has it."""
    return next(free for n in count(1) if (free := name if n == 1 else f"{name}-part-{n}") not in taken)


def _row(row: Row, said: RowWords, anchor: str) -> SheetRow:
    covers = max((len(numbers) for numbers in row.numbers), default=0)
    return SheetRow(anchor=anchor, label=said.label, words=said.words, count=said.count, steps=said.steps, rows=covers)


def _sizes(pattern: Pattern, parts: Sequence[SheetPart], terms: Terms) -> tuple[tuple[str, dict[str, SheetRow]], ...]:
    """The rows of each size alone; nothing for a pattern of one size, or whose rows have no ids to know them by."""
    ids = [row.id for part in pattern.parts for row in part.rows]
    names = pattern.facts.size_names
    if len(names) < 2 or len(set(ids)) < len(ids):
        return ()
    anchors = dict(zip(ids, (row.anchor for part in parts for row in part.rows), strict=True))
    return tuple((name, _of_size(pattern, size, anchors, terms)) for size, name in enumerate(names))


def _of_size(pattern: Pattern, size: int, anchors: Mapping[int, str], terms: Terms) -> dict[str, SheetRow]:
    alone = one_size(pattern, size)
    written = write(alone, terms=terms, style=replace(HOUSE, front=False))
    return {
        anchors[row.id]: _row(row, said, anchors[row.id])
        for part, words in zip(alone.parts, written.parts, strict=True)
        for row, said in zip(part.rows, words.rows, strict=True)
    }
