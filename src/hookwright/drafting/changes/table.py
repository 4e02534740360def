"""The table of choices a booklet prints: wider, longer, other gauges, each with its chain, stitches, rows, size and yarn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...pattern import Chain, Gauge, Pattern
from ...trade import units
from ...working import work
from ..asks import Refused
from ..result import Draft
from .extract import gauge_told
from .regauge import regauged
from .repeats import by_repeats


def table_of(pattern: Pattern, gauge: str | None = None) -> str:
    """A Markdown table: the piece as it is, one and two repeats wider and narrower, longer and shorter, and at other gauges.

    `gauge`: a reader's own swatch, as one more line. A choice that cannot be had is left out and said below.
    """
    told = gauge_told(pattern)
    lines = [
        "| choice | chain | stitches | rows | width × length | yarn, likely |",
        "|---|---|---|---|---|---|",
        _line("as written", pattern),
    ]
    refused: list[str] = []
    for name, make in _choices(pattern, told, gauge):
        try:
            made = make()
            lines.append(_line(name, made.pattern))
        except Refused as refusal:
            refused.append(f"{name}: {refusal.sentence}")
    return "\n".join([*lines, "", *refused]).rstrip() + "\n"


def _choices(pattern: Pattern, told: Gauge, gauge: str | None):  # type: ignore[no-untyped-def]
    for n, word in ((1, "one repeat wider"), (2, "two repeats wider"), (-1, "one repeat narrower")):
        yield word, lambda n=n: by_repeats(pattern, wider=n)
    for n, word in ((2, "two row repeats longer"), (-2, "two row repeats shorter")):
        yield word, lambda n=n: by_repeats(pattern, longer=n)
    for more in (-1, 1):
        other = _gauge(told, more)
        words = (
            f"{units.decimal(other.stitches)} {other.stitch} and {units.decimal(other.rows or 0)} rows = {units.decimal(other.over_cm)} cm"
        )
        yield f"at {words}, same size", lambda other=other: regauged(pattern, other)
        yield f"at {words}, same counts", lambda other=other: regauged(pattern, other, keep="counts")
    if gauge is not None:
        yield f"at {gauge}, same size", lambda: regauged(pattern, gauge)
        yield f"at {gauge}, same counts", lambda: regauged(pattern, gauge, keep="counts")


def _gauge(told: Gauge, more: int) -> Gauge:
    """A stitch more or fewer to the swatch, rows in proportion."""
    times = (told.stitches + more) / told.stitches
    return replace(told, stitches=told.stitches + more, rows=None if told.rows is None else round(told.rows * times, 1))


def _line(name: str, pattern: Pattern) -> str:
    from ...measuring import measure

    fabric = work(pattern)
    measured = max(measure(fabric).parts, key=lambda part: part.area_cm2)
    rows = [row for row in measured.part.rows if not row.foundation]
    wide = max((row.counted.total for row in rows), default=0)
    chain = next((n for n in _chains(pattern) if n), 0)
    size = f"{units.decimal(round(measured.width_cm, 1))} × {units.decimal(round(measured.length_cm, 1))} cm"
    return f"| {name} | {chain or '-'} | {wide} | {len(rows)} | {size} | {_yarn(pattern)} |"


def _chains(pattern: Pattern) -> Iterator[int]:
    for row in pattern.parts[0].rows:
        for step in row.steps:
            if isinstance(step, Chain) and step.foundation:
                yield step.number.at(0) or 0


def _yarn(pattern: Pattern) -> str:
    from ... import yarn
    from ...measuring import measure

    fabric = work(pattern)
    try:
        estimate = yarn.estimate(fabric, measure(fabric))
    except yarn.YarnError:
        return "-"
    return f"{sum(use.metres.likely for use in estimate.yarns):.0f} m"


__all__ = ["Draft", "table_of"]
