"""Stripes: planned ones as a table with metres in each band; and bands of a self-striping yarn made equal across pieces of unequal
width."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .amounts import YarnError
from .estimating import Estimate
from .sequence import Repeat


@dataclass(frozen=True, slots=True, kw_only=True)
class Stripe:
    """Rows that follow one another in the same yarns: the first and last label, how many, metres in them (one copy)."""

    part: str
    yarns: tuple[str, ...]
    first: str
    last: str
    rows: int
    metres: float


def planned(found: Estimate) -> tuple[Stripe, ...]:
    """The planned stripes of a piece, the foundation chain with the first."""
    out: list[Stripe] = []
    for row in found.rows:
        yarns = tuple(name for name, metres in row.by_yarn.items() if metres)
        before = out[-1] if out else None
        if before is not None and before.part == row.part and (before.yarns == yarns or not yarns):
            out[-1] = Stripe(part=row.part, yarns=before.yarns, first=before.first, last=row.label, rows=before.rows + 1,
                             metres=before.metres + row.metres)  # fmt: skip
        elif yarns:
            out.append(Stripe(part=row.part, yarns=yarns, first=row.label, last=row.label, rows=1, metres=row.metres))
    return tuple(out)


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchedBand:
    """One band over pieces of unequal width: its colour, the rows the widest piece gets of it, and for each piece the metres to discard."""

    colour: str
    rows: int
    discard: tuple[float, ...]


def matched(widths_m: Sequence[float], sequence: Repeat, bands: int) -> tuple[MatchedBand, ...]:
    """Equal bands on pieces of unequal width. `widths_m`: metres in one row of each piece, in any order.

    The widest piece fixes how many whole rows a band gives; a narrower one uses less of the run and leaves the rest. What the widest itself
    leaves (less than a row) is part of its discard. Raises YarnError when a run is too short for one row of the widest.

    >>> matched([2.0, 1.5], Repeat.of([("blue", 9), ("sand", 6)]), 2)[0]
    MatchedBand(colour='blue', rows=4, discard=(1.0, 3.0))
    """
    if not widths_m or min(widths_m) <= 0:
        raise YarnError("Stripes are matched over rows that take some yarn.")
    widest = max(widths_m)
    out = []
    for n in range(bands):
        run = sequence.runs[n % len(sequence.runs)]
        rows = int(run.metres / widest + 1e-9)
        if rows < 1:
            raise YarnError(f"The run of {run.colour} ({run.metres:g} m) is too short for one row of the widest piece ({widest:.1f} m).")
        out.append(MatchedBand(colour=run.colour, rows=rows, discard=tuple(run.metres - rows * each for each in widths_m)))
    return tuple(out)


def safe_cell(value: object) -> str:
    """A cell that no spreadsheet takes for a formula: words that begin like one get an apostrophe before them (OWASP, CSV injection).

    >>> safe_cell("=1+1"), safe_cell("Row 4"), safe_cell("-3.5"), safe_cell("@x")
    ("'=1+1", 'Row 4', '-3.5', "'@x")
    """
    text = str(value).replace("\r", " ").replace("\n", " ")
    if text[:1] in ("=", "+", "-", "@", "\t") and not _is_number(text):
        return f"'{text}"
    return text


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return text[:1] != "+"


def as_csv(heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table as CSV, every cell safe to open."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([safe_cell(head) for head in heads])
    writer.writerows([safe_cell(cell) for cell in row] for row in rows)
    return out.getvalue()
