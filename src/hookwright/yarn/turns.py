"""When the yarn runs out: the row to turn around at, rows left, one more row? All by what the scale shows, trims set aside first.

Half and half: what the first half took, the mirrored second half takes again; so the turn comes when what is on the scale, less what is
reserved, is half of what there was, less what is reserved. The scale then measures her tension by itself; only its step remains unsure.
From a point, amounts grow with the square of the rows: half is gone at 1/sqrt(2) = 0.71 of the rows one would get by only increasing.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from .amounts import YarnError
from .balls import chance_enough, hands


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnAround:
    """Turn after `row` (worked rows from 0 in `index`); by the scale: turn when it shows `stop_at_grams`. `rows_written`: whether the
    pattern writes that many growing rows, or the row is found by growing on as the last ones grew."""

    row: str
    index: int
    stop_at_grams: float
    have_g: float
    reserved_g: float
    used_at_turn_g: float
    low_row: int
    high_row: int
    written: bool
    working: tuple[str, ...]


def grown_on(growing: Sequence[float], until_m: float, limit: int = 20_000) -> list[float]:
    """The metres of the growing rows, and of as many more as `until_m` allows, each longer than the last by the mean growth."""
    rows = list(growing)
    if not rows:
        return rows
    near = rows[-min(len(rows), 9) :]
    step = (near[-1] - near[0]) / (len(near) - 1) if len(near) > 1 else 0.0
    total = sum(rows)
    while total < until_m and len(rows) < limit and rows[-1] + step > 0:
        rows.append(rows[-1] + step)
        total += rows[-1]
    return rows


def turn_around(
    growing: Sequence[float], labels: Sequence[str], *, have_g: float, reserved_m: float, m_per_g: float, sd: float, scale_g: float = 1.0
) -> TurnAround:  # fmt: skip
    """Where to turn with `have_g` grams in hand. `growing`: metres of the growing rows; `reserved_m`: trims, edging, ends.

    Raises YarnError when nothing is left after the reserve, or there is no row.
    """
    if not growing:
        raise YarnError("There is no row to turn at.")
    if have_g <= 0:
        raise YarnError(f"{have_g:g} g of yarn is nothing to turn with.")
    reserved_g = reserved_m / m_per_g
    if reserved_g >= have_g:
        raise YarnError(f"Trims and edging take {reserved_g:.1f} g, and there are only {have_g:g} g: nothing is left for the rows.")
    half_m = (have_g - reserved_g) * m_per_g / 2
    rows = grown_on(growing, half_m * math.exp(2 * sd))
    upto = list(accumulate(rows, initial=0.0))
    index = max(0, bisect_right(upto, half_m * (1 + 1e-12)) - 2)
    spread = [max(0, bisect_right(upto, half_m * math.exp(sign * 1.645 * sd)) - 2) for sign in (-1, 1)]
    stop = math.ceil(((have_g + reserved_g) / 2) / scale_g - 1e-9) * scale_g
    written = index < len(growing) - 1 or upto[-1] <= half_m
    label = labels[index] if index < len(labels) else f"{labels[-1].rsplit(' ', 1)[0]} {_number(labels[-1]) + index - len(labels) + 1}"
    said = (
        f"{have_g:g} g less {reserved_g:.1f} g reserved for trims and ends is {have_g - reserved_g:.1f} g; half of it is "
        f"{(have_g - reserved_g) / 2:.1f} g.",
        f"{label} is the last whole row in that half ({upto[index + 1] / m_per_g:.1f} g by the estimate).",
        f"Weigh while you work: turn when the scale shows {stop:g} g left (rounded up to its step of {scale_g:g} g), whatever row that is.",
    )
    return TurnAround(
        row=label, index=index, stop_at_grams=stop, have_g=have_g, reserved_g=reserved_g, used_at_turn_g=upto[index + 1] / m_per_g,
        low_row=spread[0] + 1, high_row=spread[1] + 1, written=written, working=said,
    )  # fmt: skip


def _number(label: str) -> int:
    last = label.rsplit(" ", 1)[-1]
    return int(last) if last.isdigit() else 0


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsLeft:
    """How far the yarn in hand goes from a given row on. `rows`: whole rows; `last`: the label of the last; chances in words."""

    rows: int
    last: str | None
    spare_g: float
    one_more: str
    finishes: bool
    working: tuple[str, ...]


def rows_left(
    coming: Sequence[float], labels: Sequence[str], *, left_g: float, reserved_m: float, m_per_g: float, sd: float, scale_g: float = 1.0
) -> RowsLeft:  # fmt: skip
    """How many of the `coming` rows (metres) `left_g` grams give, trims reserved; by adding up, not by dividing. The scale's step is
    carried.

    "One more row?": the chance that the next row and the reserve fit, for this maker.
    """
    if left_g < 0:
        raise YarnError(f"{left_g:g} g left is less than nothing.")
    have_m = max(0.0, left_g - scale_g / 2) * m_per_g - reserved_m
    upto = list(accumulate(coming, initial=0.0))
    many = max(0, bisect_right(upto, have_m + 1e-9) - 1) if have_m >= 0 else 0
    spare = (left_g * m_per_g - reserved_m - upto[many]) / m_per_g
    following = coming[many] if many < len(coming) else None
    chance = 1.0 if following is None else chance_enough(left_g * m_per_g - reserved_m, upto[many] + following, sd)
    one_more = "all rows are made" if following is None else f"one more row fits in {hands(chance)}"
    said = (
        f"{left_g:g} g (read to {scale_g:g} g, so at least {max(0.0, left_g - scale_g / 2):g} g) x {m_per_g:.3f} m/g = "
        f"{max(0.0, left_g - scale_g / 2) * m_per_g:.1f} m; {reserved_m:.1f} m are reserved: {max(0.0, have_m):.1f} m for rows.",
        f"The next {many} rows take {upto[many]:.1f} m" + (f"; one more would take {following:.1f} m." if following is not None else "."),
    )
    return RowsLeft(
        rows=many, last=labels[many - 1] if many else None, spare_g=spare, one_more=one_more, finishes=following is None, working=said
    )


def growing_part(metres: Sequence[float]) -> int:
    """How many rows lie before the piece shrinks again: up to the last row of the greatest amount; 0 when the piece does not grow.

    A straight middle belongs to them: half the yarn may be used up there.

    >>> growing_part([1, 2, 3, 3, 2, 1]), growing_part([1, 2, 3]), growing_part([2, 2, 2])
    (4, 3, 0)
    """
    if len(metres) < 3:
        return 0
    top = max(metres)
    last = max(i for i, value in enumerate(metres) if value >= top * (1 - 1e-9))
    return last + 1 if last >= 2 and top > 1.2 * metres[0] else 0
