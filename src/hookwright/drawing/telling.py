"""The chart in words: the text equivalent that stands inside the picture, row by row in the order it is worked."""

from __future__ import annotations

from itertools import groupby

from ..working.fabric import PartWork, Role, RowWork
from .marks import Chart

LONGEST = 6000
"""Characters; beyond, the rest is told by counts only."""


def tell(part: PartWork, chart: Chart) -> str:
    """What the chart shows, for who cannot see it."""
    rows = [row for row in part.rows if not row.foundation]
    how = "in the round, from the centre outwards" if chart.form == "round" else "from the bottom upwards"
    hand = "right-handed" if chart.handed == "right" else "left-handed"
    words = [f"Symbol chart of {part.name}, {len(rows)} {'rounds' if chart.form == 'round' else 'rows'} {how}, right side shown, {hand}."]
    length = 0
    for row in part.rows:
        told = tell_row(row, short=length > LONGEST)
        length += len(told)
        words.append(told)
    return " ".join(words)


def tell_row(row: RowWork, *, short: bool = False) -> str:
    """One row: its label, side and stitches in the order worked.

    Runs are gathered ("12 dc"); starting chains that stand for a stitch are told as that.
    """
    made = row.stitches
    if short or len(made) > 400:
        return f"{row.label} ({row.side}): " + (", ".join(f"{n} {kind}" for kind, n in row.counted.made.items()) or f"{len(made)} ch") + "."
    names = [_said(row, e) for e in range(len(made))]
    runs = [(name, len(list(group))) for name, group in groupby(name for name in names if name)]
    return f"{row.label} ({row.side}): " + ", ".join(f"{n} {name}" if n > 1 else name for name, n in runs) + "."


def _said(row: RowWork, e: int) -> str:
    role = row.stitches.role[e]
    if role == Role.START_TOP:
        return f"starting chain as {row.stitches.name(e)}"
    if role == Role.JOIN:
        return "join"
    return row.stitches.name(e)
