"""A graded set from one pattern: the same piece at several widths, one pattern with numbers for every size where the rows allow it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any

from ...pattern import Part, Pattern, Sized
from ..asks import Refused
from ..families.sized import run_of
from ..result import Asked, Draft, Obtained, View
from ..telling import numbered
from .extract import custom_told, gauge_told, plain_parts
from .regauge import gathered, reworked


def graded(pattern: Pattern, widths: str) -> Draft:
    """The pattern in a run of sizes, told by the width of its widest row: "38 (42, 46) cm"; its length stays.

    Every size keeps the side its last row shows. Refuses sizes that come out alike in this gauge.
    """
    names, wanted = run_of(Asked(words={"widths": widths}), "widths", "", {})
    fabric, parts = plain_parts(pattern)
    custom = custom_told(pattern, fabric, gauge_told(pattern))
    widest = max(max(part.counts or tuple(row.count for row in part.rows)) for part in parts) * custom.width_cm
    made = [[reworked(part, custom, custom, across=w / widest) for part in parts] for w in wanted]
    _apart(made, names)
    together = [merged([size[k][0] for size in made], names) for k in range(len(parts))]
    listed = [part for parts_ in together for part in parts_]
    base = gathered(pattern, "in sizes", made[0], custom, _told(made, together, names))
    sizes = tuple(
        replace(size, what=f"size {name}, {size.what}")
        for name, size_parts in zip(names, made, strict=True)
        for _, _, sizes, _ in size_parts
        for size in sizes
    )
    views = tuple(replace(view, name=f"{name} cm") for name, size_parts in zip(names, made, strict=True) for _, view, _, _ in size_parts)
    facts = replace(base.pattern.facts, size_names=tuple(names))
    return replace(base, pattern=numbered(replace(base.pattern, facts=facts, parts=tuple(listed))), sizes=sizes, views=views)


Made = tuple[Part, View, tuple[Obtained, ...], tuple[str, ...]]


def _apart(made: Sequence[Sequence[Made]], names: Sequence[str]) -> None:
    for k in range(1, len(made)):
        if made[k][0][0] == made[k - 1][0][0]:
            raise Refused(f"In this gauge the sizes {names[k - 1]} and {names[k]} come out alike.", "Leave one of them out.")


def _told(made: Sequence[Sequence[Made]], together: Sequence[Sequence[Part]], names: Sequence[str]) -> tuple[str, ...]:
    notes = [
        f"{part[0].name}: the rows differ too much to be written together, so each size has its own." for part in together if len(part) > 1
    ]
    rows = [[size.counted for size in one[0][2]][-1] for one in made]
    even = "Every size has the same rows, so that the same side shows at the end." if len(set(rows)) == 1 else ""
    return tuple(note for note in (*notes, even, f"Sizes by width: {', '.join(names)} cm.") if note)


def merged(parts: Sequence[Part], names: Sequence[str]) -> tuple[Part, ...]:
    """One part for all sizes where they differ in numbers only; else one for each, named by its size."""
    joined = _join(list(parts))
    if isinstance(joined, Part):
        return (joined,)
    return tuple(
        replace(part, name=f"{part.name}, size {name}", only=frozenset({k}))
        for k, (part, name) in enumerate(zip(parts, names, strict=True))
    )


class _Differ(Exception):
    pass


def _join(values: list[Any]) -> Any:
    try:
        return _joined(values)
    except _Differ:
        return None


def _joined(values: list[Any]) -> Any:
    """Several like trees as one: numbers that differ become sized, all else must be equal."""
    first = values[0]
    if all(value == first for value in values):
        return first
    if isinstance(first, Sized):
        if any(not isinstance(v, Sized) or v.many for v in values):
            raise _Differ
        return Sized(tuple(v.values[0] for v in values))
    if isinstance(first, tuple):
        if any(not isinstance(v, tuple) or len(v) != len(first) for v in values):
            raise _Differ
        return tuple(_joined([v[k] for v in values]) for k in range(len(first)))
    if is_dataclass(first) and not isinstance(first, type) and all(type(v) is type(first) for v in values):
        changed = {f.name: _joined([getattr(v, f.name) for v in values]) for f in fields(first) if f.name not in ("span", "id")}
        return replace(first, **changed)
    raise _Differ
