"""Worked counts put at the rows' ends: what the fabric holds, not what somebody once wrote."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..pattern import Count, Part, Pattern, Row, Sized
from ..working.fabric import Fabric, PartWork, RowWork


def with_counts(pattern: Pattern, fabrics: Sequence[Fabric]) -> Pattern:
    """The pattern with every row's stated counts replaced by the worked ones, one fabric a size (in order).

    A range whose rows come out different gets the count of its last row. Rows that were not read or not worked keep what they stated.
    """
    parts = tuple(_part(part, k, fabrics) for k, part in enumerate(pattern.parts))
    return replace(pattern, parts=parts)


def _part(part: Part, at: int, fabrics: Sequence[Fabric]) -> Part:
    worked = [_by_row(fabric.parts[at]) if at < len(fabric.parts) else {} for fabric in fabrics]
    return replace(part, rows=tuple(_row(row, [rows.get(row.id) for rows in worked]) for row in part.rows))


def _by_row(part: PartWork) -> dict[int, RowWork]:
    """The last row worked from each written instruction."""
    return {row.written.id: row for row in part.rows if not row.foundation}


def _row(row: Row, worked: Sequence[RowWork | None]) -> Row:
    present = [work for work in worked if work is not None]
    if not present or any(work.read == "no" or work.worked in ("unworkable", "assumed") for work in present):
        return row
    kinds = list(dict.fromkeys(kind for work in present for kind in work.counted.by_kind if work.counted.by_kind[kind]))
    kinds = _spaces(kinds, present)
    if kinds == ["sl st"]:
        return replace(row, stated=())
    stitches = [kind for kind in kinds if not _space(kind) and kind != "shell"]
    if len(stitches) > 1 and not any(_space(kind) for kind in kinds):
        counts = [_count(worked, None)]
    else:
        counts = [_count(worked, kind) for kind in kinds if kind != "shell" and kind != "ch"]
    return replace(row, stated=tuple(count for count in counts if any(count.number.values)))


def _spaces(kinds: Sequence[str], present: Sequence[RowWork]) -> list[str]:
    """Spaces by their chains where every size has them, else spaces of any kind."""
    named = [kind for kind in kinds if kind.startswith("ch-")]
    if all(work.counted.by_kind.get(kind) for kind in named for work in present):
        return [kind for kind in kinds if kind != "sp"]
    return [kind for kind in kinds if kind not in named]


def _space(kind: str) -> bool:
    return kind == "sp" or kind.endswith(" sp")


def _count(worked: Sequence[RowWork | None], kind: str | None) -> Count:
    def number(work: RowWork | None) -> int | None:
        if work is None:
            return None
        return work.counted.total if kind is None else work.counted.by_kind.get(kind, 0)

    numbers = tuple(number(work) for work in worked)
    told = {n for n in numbers if n is not None}
    return Count(number=Sized(tuple(told) if len(told) == 1 else numbers), kind=kind or "st")
