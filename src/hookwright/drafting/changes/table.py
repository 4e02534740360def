"""The table of choices a booklet prints: wider, longer, other gauges, each with its chain, stitches, rows, size and yarn."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial

from ...measuring import measure
from ...pattern import Chain, Gauge, Pattern
from ...trade import units
from ...trade.terms import System, abbr
from ...working import Fabric, work
from ...writing.front import counted_over
from ..asks import Refused, gauge_of
from ..result import Draft
from .extract import gauge_told
from .lengthen import row_repeat, row_word
from .regauge import regauged
from .repeats import by_repeats, by_rows, widths_of

_NEAR = 4
"""Row repeats longer or shorter that are tried for the lines of the table."""
_WORDS = {1: "one", 2: "two", 3: "three", 4: "four", 6: "six", 8: "eight"}


@dataclass(frozen=True, slots=True)
class Way:
    """What is chosen: "one repeat wider", or "same size" at another gauge (None: the pattern's own)."""

    words: str
    gauge: Gauge | None = None

    def told(self, terms: System) -> str:
        """The choice in words, its stitches named in `terms`."""
        if self.gauge is None:
            return self.words
        g = self.gauge
        rows = f" and {units.decimal(g.rows)} rows" if g.rows else ""
        return f"at {units.decimal(g.stitches)} {abbr(g.stitch, terms)}{rows} = {counted_over(g.over_cm)}, {self.words}"


@dataclass(frozen=True, slots=True)
class Choice:
    """One line: what is chosen, the foundation chain (0 without one), stitches of the widest row, rows, sizes in cm, likely yarn in metres.

    `yarn_m` is None where the pattern tells no yarn to reckon from.
    """

    way: Way
    chain: int
    stitches: int
    rows: int
    width_cm: float
    length_cm: float
    yarn_m: float | None


@dataclass(frozen=True, slots=True)
class Choices:
    """The lines that can be had, the pattern as written first, and why the others cannot."""

    lines: tuple[Choice, ...]
    refused: tuple[tuple[Way, str], ...]

    def left_out(self, terms: System) -> tuple[str, ...]:
        """What cannot be had, and why: "wider: Row 1 has nothing in it that could be made wider."."""
        return tuple(f"{way.told(terms)}: {why}" for way, why in self.refused)


def choices_of(pattern: Pattern, gauge: str | None = None) -> Choices:
    """The piece as written (its first size), a little wider, narrower, longer and shorter, and at gauges a stitch finer and coarser.

    `gauge`: a reader's own swatch, in the pattern's terms, as one more line. Refuses a pattern that states no gauge.
    """
    lines, refused = [_line(Way("as written"), pattern)], []
    for way, make in _ways(pattern, gauge):
        try:
            lines.append(_line(way, make().pattern))
        except Refused as refusal:
            refused.append((way, refusal.sentence))
    return Choices(tuple(lines), tuple(refused))


def table_of(pattern: Pattern, gauge: str | None = None) -> str:
    """The choices as a Markdown table; what cannot be had is said below it."""
    told = choices_of(pattern, gauge)
    lines = ["| choice | chain | stitches | rows | width × length | yarn, likely |", "|---|---|---|---|---|---|"]
    for one in told.lines:
        size = f"{units.decimal(round(one.width_cm, 1))} × {units.decimal(round(one.length_cm, 1))} cm"
        yarn = "-" if one.yarn_m is None else f"{one.yarn_m:.0f} m"
        lines.append(f"| {one.way.told(pattern.terms)} | {one.chain or '-'} | {one.stitches} | {one.rows} | {size} | {yarn} |")
    return "\n".join([*lines, "", *told.left_out(pattern.terms)]).rstrip() + "\n"


def _ways(pattern: Pattern, gauge: str | None) -> Iterator[tuple[Way, Callable[[], Draft]]]:
    told = gauge_told(pattern)
    yield from ((Way(words), make) for words, make in _repeats(pattern))
    others = [_gauge(told, -1), _gauge(told, 1), *([gauge_of(gauge, terms=pattern.terms)] if gauge is not None else [])]
    for other in others:
        yield Way("same size", other), partial(regauged, pattern, other)
        yield Way("same counts", other), partial(regauged, pattern, other, keep="counts")


def _repeats(pattern: Pattern) -> Iterator[tuple[str, Callable[[], Draft]]]:
    """Wider and narrower by repeats where the rows stretch; longer and shorter by the first numbers of row repeats that work out."""
    if len(pattern.parts) != 1:
        yield "wider or longer", partial(by_repeats, pattern, wider=1)
        return
    group = row_repeat(pattern.parts[0])
    unit = "repeat" if widths_of(pattern)[1] > 1 else "stitch"
    try:
        by_rows(pattern, 0, wider=1)
    except Refused:
        yield "wider", partial(by_rows, pattern, 0, wider=1)
    else:
        for n, way in ((1, "wider"), (2, "wider"), (-1, "narrower")):
            yield _counted(n, unit, way), partial(by_rows, pattern, 0, wider=n)
    row = row_word(pattern.parts[0])
    row_unit = f"{row} repeat" if group > 1 else row
    steps = range(1, _NEAR + 1) if group > 1 else range(2, 2 * _NEAR + 1, 2)
    for way, sign, wanted in (("longer", 1, 2), ("shorter", -1, 1)):
        good: list[tuple[int, Draft]] = []
        refused: Refused | None = None
        for n in steps:
            if len(good) == wanted:
                break
            try:
                good.append((n, by_rows(pattern, sign * n * group)))
            except Refused as refusal:
                refused = refused or refusal
        for n, made in good:
            yield _counted(n, row_unit, way), partial(_same, made)
        if not good and refused is not None:
            yield way, partial(_raised, refused)


def _counted(n: int, unit: str, way: str) -> str:
    many = unit if abs(n) == 1 else "stitches" if unit == "stitch" else f"{unit}s"
    return f"{_WORDS.get(abs(n), str(abs(n)))} {many} {way}"


def _same(made: Draft) -> Draft:
    return made


def _raised(refusal: Refused) -> Draft:
    raise refusal


def _gauge(told: Gauge, more: int) -> Gauge:
    """A stitch more or fewer to the swatch, rows in proportion."""
    times = (told.stitches + more) / told.stitches
    return replace(told, stitches=told.stitches + more, rows=None if told.rows is None else round(told.rows * times, 1))


def _line(way: Way, pattern: Pattern) -> Choice:
    fabric = work(pattern)
    measured = max(measure(fabric).parts, key=lambda part: part.area_cm2)
    rows = [row for row in measured.part.rows if not row.foundation]
    return Choice(
        way=way,
        chain=next((n for n in _chains(pattern) if n), 0),
        stitches=max((row.counted.total for row in rows), default=0),
        rows=len(rows),
        width_cm=measured.width_cm,
        length_cm=measured.length_cm,
        yarn_m=_yarn(fabric),
    )


def _chains(pattern: Pattern) -> Iterator[int]:
    for row in pattern.parts[0].rows:
        for step in row.steps:
            if isinstance(step, Chain) and step.foundation:
                yield step.number.at(0) or 0


def _yarn(fabric: Fabric) -> float | None:
    from ... import yarn

    try:
        estimate = yarn.estimate(fabric, measure(fabric))
    except yarn.YarnError:
        return None
    return float(sum(use.metres.likely for use in estimate.yarns))


__all__ = ["Choice", "Choices", "Way", "choices_of", "table_of"]
