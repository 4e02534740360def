"""The other side of a pair: every shaping at the other edge of its row, each row beginning at the other end of the same outline."""

from __future__ import annotations

from dataclasses import replace

from ...pattern import Part, Pattern
from ..compiling import flat_part
from ..flat import FlatPlan, FlatRow
from ..flatdraft import flat_sizes
from ..outline import mirrored
from ..result import Draft, Obtained, View
from .extract import custom_told, gauge_told, plain_parts
from .regauge import gathered, outline_at


def mirrored_pattern(pattern: Pattern) -> Draft:
    """The mirror image of a plain flat pattern: the same counts row for row, edge A's shaping at B and B's at A.

    Refuses rounds, and pieces shaped inside their rows.
    """
    fabric, parts = plain_parts(pattern)
    custom = custom_told(pattern, fabric, gauge_told(pattern))
    made: list[tuple[Part, View, tuple[Obtained, ...], tuple[str, ...]]] = []
    for part in parts:
        if part.counts:
            made.append((_same(pattern, part.name), View(part.name, (), ()), (), ("Rounds are their own mirror and stay as they are.",)))
            continue
        turned = replace(part, rows=tuple(swapped(row) for row in part.rows))
        outline = outline_at(turned, custom)
        plan = FlatPlan(
            foundation=turned.foundation,
            rows=turned.rows,
            asked=mirrored(outline_at(part, custom)),
            obtained=outline,
            rows_asked=len(part.rows),
        )
        made.append((flat_part(plan, custom, part.name), View(part.name, plan.asked, plan.obtained), flat_sizes(plan, custom), ()))
    draft = gathered(
        pattern,
        "reversed",
        made,
        custom,
        ("Every row has the count of the same row of the first piece; right side out, the two are a pair.",),
    )
    return replace(draft, views=tuple(view for view in draft.views if view.asked))


def swapped(row: FlatRow) -> FlatRow:
    """The row with its two edges exchanged."""
    return FlatRow(row.count, row.b, row.a, row.square_b, row.square_a)


def _same(pattern: Pattern, name: str) -> Part:
    return next(part for part in pattern.parts if part.name == name)


__all__ = ["mirrored_pattern", "swapped"]
