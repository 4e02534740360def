"""Answers that need an estimate and something in hand: where to turn, how many rows are left, what a log, a sample or a report tells."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from ..pattern import FLAT
from .amounts import YarnError
from .calibrate import Kind, Weighing
from .estimating import Estimate, YarnUse
from .scale_log import Forecast, Log, forecast, row_index
from .turns import RowsLeft, TurnAround, growing_part, rows_left, turn_around


@dataclass(frozen=True, slots=True)
class _Main:
    """The part that takes the most of a yarn: its rows' metres and labels, and what is reserved beside them (metres)."""

    index: int
    metres: tuple[float, ...]
    labels: tuple[str, ...]
    reserved_m: float


def main_yarn(found: Estimate) -> YarnUse:
    """The yarn the piece takes most of."""
    return max(found.yarns, key=lambda use: use.metres.likely)


def _main(found: Estimate, yarn: str) -> _Main:
    per_part = [sum(row.metres.get(yarn, 0.0) for row in part.rows) for part in found.threads]
    if not per_part or max(per_part) <= 0:
        raise YarnError(f"No row is worked in yarn {yarn}.")
    p = max(range(len(per_part)), key=lambda i: per_part[i])
    part = found.threads[p]
    use = found.yarn(yarn)
    others = sum(m * q.copies for i, (m, q) in enumerate(zip(per_part, found.threads, strict=True)) if i != p) + per_part[p] * (
        part.copies - 1
    )
    return _Main(p, tuple(row.metres.get(yarn, 0.0) for row in part.rows), tuple(row.row.label for row in part.rows), others + use.fixed_m)


def _without_chain(found: Estimate, main: _Main) -> _Main:
    """The same with the foundation chain counted to the first row (a mirrored half then takes it again: the safe side)."""
    rows = found.threads[main.index].rows
    first = next((i for i, row in enumerate(rows) if not row.row.foundation), 0)
    if not first or len(main.metres) < 2:
        return main
    return _Main(main.index, (sum(main.metres[: first + 1]), *main.metres[first + 1 :]), main.labels[first:], main.reserved_m)


def grams_in_hand(use: YarnUse) -> float | None:
    """The yarn as the pattern lists it, else the whole balls it likely takes; None without a label."""
    if use.supplied.ball is None or use.balls is None:
        return None
    listed = use.supplied.yarn.balls_stated
    return (listed or max(1.0, -(-use.balls.likely // 1))) * use.supplied.ball.grams


def turning(found: Estimate, *, have_g: float | None = None, yarn: str | None = None, scale_g: float = 1.0) -> TurnAround | None:
    """Where to turn a piece that grows, for the yarn in hand (default: as listed). None when the piece does not grow.

    A piece written to grow and shrink again is measured by its growing rows; one that only grows as if it were to be mirrored. Rounds do
    not turn.
    """
    use = found.yarn(yarn) if yarn else main_yarn(found)
    if not use.fabric_m:
        return None
    main = _without_chain(found, _main(found, use.supplied.id))
    in_rounds = sum(row.row.made_in not in FLAT for row in found.threads[main.index].rows) * 2 > len(main.metres)
    many = 0 if in_rounds else growing_part(main.metres)
    have = have_g if have_g is not None else grams_in_hand(use)
    if not many or have is None:
        return None
    return turn_around(
        main.metres[:many], main.labels[:many], have_g=have, reserved_m=main.reserved_m, m_per_g=use.m_per_g, sd=use.hand.sd,
        scale_g=scale_g
    )  # fmt: skip


def left_after(found: Estimate, row: str | None, left_g: float, *, yarn: str | None = None, scale_g: float = 1.0) -> RowsLeft:
    """How many rows the yarn in hand gives after `row` (None: from the beginning). Raises YarnError for a row the pattern does not have."""
    use = found.yarn(yarn) if yarn else main_yarn(found)
    main = _main(found, use.supplied.id)
    at = row_index(row, main.labels) + 1 if row is not None else 0
    return rows_left(
        main.metres[at:], main.labels[at:], left_g=left_g, reserved_m=main.reserved_m, m_per_g=use.m_per_g, sd=use.hand.sd, scale_g=scale_g
    )  # fmt: skip


def from_log(found: Estimate, log: Log, *, yarn: str | None = None, scale_g: float = 1.0) -> Forecast:
    """What a weighing log tells, against the estimate of the main part."""
    use = found.yarn(yarn) if yarn else main_yarn(found)
    main = _main(found, use.supplied.id)
    grams = [metres / use.m_per_g for metres in accumulate(main.metres)]
    return forecast(log, grams, main.labels, scale_g=scale_g)


def weighing_of_log(found: Estimate, told: Forecast, *, yarn: str | None = None, scale_g: float = 1.0) -> Weighing:
    """A log as one weighing: the rows between its first and last reading are weighed rows of the very piece.

    The more of the piece they are, the nearer they stand to the finished sample.
    """
    use = found.yarn(yarn) if yarn else main_yarn(found)
    share = told.expected_g * use.m_per_g / use.fabric_m if use.fabric_m else 0.0
    kind: Kind = "sample" if share > 0.8 else "row"
    return Weighing(kind=kind, grams=told.used_g, expected_m=told.expected_g * use.m_per_g / use.hand.factor, m_per_g=use.m_per_g,
                    scale_g=scale_g, name="weighing log")  # fmt: skip


def whole_weighed(
    found: Estimate, grams: float, kind: Kind = "sample", *, scale_g: float = 1.0, name: str = ""
) -> dict[str, list[Weighing]]:
    """The finished sample (or another maker's) weighed whole, trims with it: a weighing for every yarn, by its share.

    Raises YarnError when it weighs less than its trims and ends.
    """
    fixed = sum(use.fixed_m / use.m_per_g for use in found.yarns)
    fabric = sum(use.fabric_m / use.m_per_g for use in found.yarns)
    rest = grams - fixed
    if rest <= 0:
        raise YarnError(f"{grams:g} g is less than the trims and ends alone take ({fixed:.1f} g).")
    out: dict[str, list[Weighing]] = {}
    for use in found.yarns:
        if use.fabric_m:
            share = use.fabric_m / use.m_per_g / fabric
            out[use.supplied.id] = [
                Weighing(kind=kind, grams=rest * share, expected_m=use.fabric_m / use.hand.factor, m_per_g=use.m_per_g, scale_g=scale_g *
                share,
                         name=name or ("finished sample" if kind == "sample" else "another maker's"))
            ]  # fmt: skip
    return out


def shared(parts: Sequence[str], grams: float) -> dict[str, float]:
    """Equal parts of one ball by weight.

    >>> shared(("left", "right"), 85)
    {'left': 42.5, 'right': 42.5}
    """
    if grams < 0 or not parts:
        raise YarnError("A ball is shared by at least one part and cannot weigh less than nothing.")
    return {part: grams / len(parts) for part in parts}


def leftovers(found: Estimate) -> dict[str, tuple[float, float]]:
    """What is left of the balls bought, by yarn: (likely metres, likely grams)."""
    out = {}
    for use in found.yarns:
        if use.supplied.ball is not None and use.balls is not None:
            rest = use.balls.buy * use.supplied.ball.metres - use.metres.likely
            out[use.supplied.id] = (rest, rest / use.m_per_g)
    return out
