"""The table of sizes: body measures as told, finished measures as told, and what gauge and counts give, side by side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..measuring import Measures, PartMeasures
from ..pattern import Pattern
from ..trade.units import both_lengths
from .sheet import Table

Line = tuple[str, list[float]]


def measures_of(pattern: Pattern, measured: Sequence[Measures]) -> Table | None:
    """One row a measure, one column a size; None when nothing is known. `measured`: one a size, in order."""
    lines = [*_told(pattern), *_worked(measured)] if _told_scale(measured) else list(_told(pattern))
    if not lines:
        return None
    names = pattern.facts.size_names or ("Size",)
    rows = tuple((what, *(both_lengths(cm) for cm in _padded(values, len(names)))) for what, values in lines)
    return Table(caption="Sizes" if len(names) > 1 else "Size", head=("Measure", *(names if len(names) > 1 else ("Finished",))), rows=rows)


def _told_scale(measured: Sequence[Measures]) -> bool:
    """Finished measures are printed only where the pattern tells a gauge to reckon them from."""
    return bool(measured) and all(one.fabric.pattern.facts.gauge for one in measured)


def _padded(values: list[float], length: int) -> list[float]:
    return (values * length)[:length] if len(values) == 1 else values[:length]


def _told(pattern: Pattern) -> Iterator[Line]:
    for what, values in pattern.facts.size_measures.items():
        yield f"To fit {what}", list(values)
    for size in pattern.facts.finished:
        yield f"Finished {size.what}, as told", list(size.cm)


def _worked(measured: Sequence[Measures]) -> Iterator[Line]:
    if not measured:
        return
    several = sum(bool(part.rows) for part in measured[0].parts) > 1
    for at, part in enumerate(measured[0].parts):
        same = [one.parts[at] for one in measured if at < len(one.parts)]
        for what in _kinds(part):
            values = [value for one in same if (value := _value(one, what))]
            if len(values) == len(measured):
                yield f"{part.name} {what}" if several and part.name else f"Finished {what}", values


def _kinds(part: PartMeasures) -> tuple[str, ...]:
    if part.rounds is None:
        return ("width", "length")
    if part.lies in ("flat", "ruffles"):
        return ("side",) if part.rounds.corners == 4 else ("diameter",)
    return ("girth", "height") if part.rounds.height_cm else ("girth",)


def _value(part: PartMeasures, what: str) -> float | None:
    if what == "width":
        return part.width_cm
    if what == "length":
        return part.length_cm
    if part.rounds is None:
        return None
    return {
        "diameter": part.rounds.diameter_cm,
        "side": part.rounds.diameter_cm,
        "girth": part.rounds.girth_cm,
        "height": part.rounds.height_cm,
    }[what]
