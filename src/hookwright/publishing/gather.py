"""A pattern and its fabrics → the sheet that every output sets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from ..measuring import measure
from ..pattern import Pattern
from ..working.fabric import Fabric
from ..writing import HOUSE, Written, with_counts, write
from .abbreviations import abbreviations_of
from .anchors import row_anchor, slug
from .care import cautions_of, rights_of
from .materials import gauge_of, materials_of, skills_of, texts
from .measures import measures_of
from .notes import notes_of
from .sheet import Drawn, Edition, Sheet, SheetPart, SheetRow, Terms
from .stamp import stamp_of

if TYPE_CHECKING:
    from .yarns import YarnAnswer

BOTH: tuple[Terms, Terms] = ("US", "UK")


def sheet_of(
    pattern: Pattern,
    fabrics: Sequence[Fabric],
    *,
    terms: Terms | None = None,
    drawings: Sequence[Drawn] = (),
    yarn: YarnAnswer | None = None,
) -> Sheet:
    """Everything the published pattern says. `fabrics`: one a size, in order; `terms` those shown first (the pattern's own if None)."""
    counted = with_counts(pattern, fabrics)
    facts = pattern.facts
    editions = {system: _edition(counted, fabrics, system) for system in BOTH}
    return Sheet(
        title=facts.title or "Untitled pattern",
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
        remarks=texts(facts.notes.get("notes")),
        editions=editions,
        drawings=tuple(drawings),
    )


def _edition(pattern: Pattern, fabrics: Sequence[Fabric], terms: Terms) -> Edition:
    written = write(pattern, terms=terms, style=replace(HOUSE, front=False))
    return Edition(
        terms=terms,
        gauge=tuple(gauge_of(gauge, terms) for gauge in pattern.facts.gauge),
        abbreviations=abbreviations_of(pattern, written),
        specials=written.specials,
        notes=notes_of(pattern, fabrics, written),
        parts=_parts(pattern, written),
    )


def _parts(pattern: Pattern, written: Written) -> tuple[SheetPart, ...]:
    parts = []
    for k, (part, words) in enumerate(zip(pattern.parts, written.parts, strict=True)):
        name = slug(part.name) or f"part-{k + 1}"
        rows = tuple(
            SheetRow(
                anchor=row_anchor(name, at),
                label=said.label,
                words=said.words,
                count=said.count,
                rows=max((len(numbers) for numbers in row.numbers), default=0),
            )
            for at, (row, said) in enumerate(zip(part.rows, words.rows, strict=True), start=1)
        )
        parts.append(SheetPart(anchor=name, heading=words.heading, rows=rows))
    return tuple(parts)
