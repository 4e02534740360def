"""The yarn table of a published pattern: likely metres with their range, grams, balls to buy, size by size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..measuring import Measures, measure
from ..pattern import Pattern
from ..trade.units import YARD_M
from ..working.fabric import Fabric
from ..yarn import Estimate, Range, YarnError, YarnUse, estimate
from .sheet import Table


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnAnswer:
    """The table, and the likely hours of work in the largest size."""

    table: Table
    hours: float


def answer_of(pattern: Pattern, fabrics: Sequence[Fabric], measured: Sequence[Measures] | None = None) -> YarnAnswer | None:
    """The yarn of every size; None where the pattern tells no yarn, no gauge and no hook to reckon from, or facts that cannot be."""
    facts = pattern.facts
    if not fabrics or not facts.yarns or not (facts.gauge or facts.hook_mm):
        return None
    try:
        told = [estimate(fabric, measure(fabric)) for fabric in fabrics]
    except YarnError:
        return None
    return YarnAnswer(table=_table(told, facts.size_names), hours=max(one.hours.whole.likely for one in told))


_HEAD = ("Length, likely", "Length, range", "Weight", "Balls to buy")


def _table(told: Sequence[Estimate], names: Sequence[str]) -> Table:
    several = len(told) > 1
    rows = [
        (*((_name(use), size) if several else (_name(use),)), *_cells(use))
        for at in range(len(told[0].yarns))
        for size, one in zip(names or ("",), told, strict=False)
        for use in one.yarns[at : at + 1]
    ]
    head = ("Yarn", *(("Size",) if several else ()), *_HEAD)
    return Table(caption="How much yarn", head=head, rows=tuple(rows), note=_note(told))


def _name(use: YarnUse) -> str:
    return use.supplied.name


def _cells(use: YarnUse) -> tuple[str, ...]:
    balls = str(use.balls.buy) if use.balls else "-"
    return _length(use.metres.likely), _range(use.metres), f"{use.grams.likely:.0f}\u00a0g", balls


def _length(metres: float) -> str:
    return f"{metres:.0f}\u00a0m ({metres / float(YARD_M):.0f}\u00a0yd)"


def _range(metres: Range) -> str:
    low, high = f"{metres.low:.0f}", f"{metres.high:.0f}"
    return f"{low}\u00a0m" if low == high else f"{low}-{high}\u00a0m"


def _note(told: Sequence[Estimate]) -> str:
    hand = any(use.hand.weighed for one in told for use in one.yarns)
    basis = "a weighed swatch" if hand else "gauge and yarn alone"
    hours = told[0].hours.whole
    return (
        f"Reckoned from the worked stitches and {basis}. Nine makers of ten need an amount inside the range; buy all balls of "
        f"a colour from one dye lot. Hands at work: about {_hours(hours.likely)}\u00a0hours ({_hours(hours.low)} to {_hours(hours.high)})."
    )


def _hours(hours: float) -> str:
    return f"{hours:.0f}" if hours >= 9.5 else f"{hours:.1f}".removesuffix(".0")
