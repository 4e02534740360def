"""One pattern for several sizes: numbers for each where the rows allow it, else each size's own rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any

from ...pattern import Part, Pattern, Row, Sized
from ..asks import Custom
from ..compiling import facts_of, pattern_of
from ..families.sized import label
from ..result import Draft, Obtained, View
from ..telling import numbered

Made = tuple[Part, View, tuple[Obtained, ...], tuple[str, ...]]
"""A part made anew: its rows, its picture, its sizes, its notes."""


def size_names(pattern: Pattern) -> tuple[str, ...]:
    """What the sizes of a pattern are called."""
    return pattern.facts.size_names or tuple(str(k + 1) for k in range(pattern.sizes))


def gathered(pattern: Pattern, how: str, made: Sequence[Made], custom: Custom, notes: Sequence[str]) -> Draft:
    """The parts made anew as one draft, with the pattern's own head."""
    title = f"{pattern.facts.title or 'Piece'}, {how}"
    facts = facts_of(custom, title, [], pattern.facts.intended)
    facts = replace(facts, yarns=pattern.facts.yarns, trims=pattern.facts.trims, designer=pattern.facts.designer)
    return Draft(
        family="from",
        pattern=replace(pattern_of(facts, [part for part, _, _, _ in made]), terms="US"),
        custom=custom,
        sizes=_sizes(made, ""),
        views=tuple(view for _, view, _, _ in made),
        notes=tuple(dict.fromkeys((*notes, *(note for _, _, _, told in made for note in told)))),
    )


def in_sizes(
    pattern: Pattern, how: str, made: Sequence[Sequence[Made]], names: Sequence[str], custom: Custom, notes: Sequence[str]
) -> Draft:
    """The parts made anew in every size as one draft. `made`: size by size, its parts."""
    together = [merged([size[k][0] for size in made], names) for k in range(len(made[0]))]
    apart = tuple(
        f"{one[0].name or 'The piece'}: the rows differ too much to be written together, so each size has its own."
        for one, part in zip(made[0], together, strict=True)
        if len(part) > 1
    )
    base = gathered(pattern, how, made[0], custom, (*apart, *notes))
    facts = replace(base.pattern.facts, size_names=tuple(names))
    whole = numbered(replace(base.pattern, facts=facts, parts=tuple(part for parts in together for part in parts)))
    sizes = tuple(size for name, parts in zip(names, made, strict=True) for size in _sizes(parts, f"size {name}, "))
    views = tuple(replace(view, name=f"size {name}") for name, parts in zip(names, made, strict=True) for _, view, _, _ in parts)
    return replace(base, pattern=whole, sizes=sizes, views=views)


def _sizes(made: Sequence[Made], before: str) -> tuple[Obtained, ...]:
    """The sizes of every part, each under its part's name where there are several."""
    many = len(made) > 1
    return tuple(
        replace(size, what=f"{before}{part.name}, {size.what}" if many and part.name else f"{before}{size.what}")
        for part, _, sizes, _ in made
        for size in sizes
    )


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
    if isinstance(first, Row) and any(row.numbers != first.numbers for row in values):
        return _row_in_sizes(values)
    if is_dataclass(first) and not isinstance(first, type) and all(type(v) is type(first) for v in values):
        changed = {f.name: _joined([getattr(v, f.name) for v in values]) for f in fields(first) if f.name not in ("span", "id")}
        return replace(first, **changed)
    raise _Differ


def _row_in_sizes(rows: list[Row]) -> Row:
    """An instruction for other rows in every size: "Rows 2-36 (2-38, 2-40)"."""
    if any(len(row.numbers) != 1 or not row.numbers[0] for row in rows):
        raise _Differ
    spans = [(row.numbers[0][0], row.numbers[0][-1]) for row in rows]
    alike = [replace(row, numbers=rows[0].numbers, label=rows[0].label) for row in rows]
    joined = _joined(alike)
    assert isinstance(joined, Row)
    return replace(joined, numbers=tuple(row.numbers[0] for row in rows), label=label(spans, "Rnd" if joined.noun == "round" else "Row"))
