"""The largest piece that a given amount of yarn allows: the same shape, grown until its yarn is used, trims set aside."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import sqrt

from ...pattern import Pattern
from ...working import work
from ..asks import Custom, Refused
from ..result import Draft
from .extract import Plain, custom_told, gauge_told, plain_parts
from .regauge import reworked
from .sizes import gathered
from .stretch import stretched

_STEPS = 14


def largest_for(pattern: Pattern, amount: str) -> Draft:
    """The pattern grown or shrunk, in proportion, to what `amount` of yarn ("100 g = 200 m") makes. Its trims are set aside first.

    Found by halving: each trial is drafted whole, worked, measured and estimated. The likely figure must fit; the range is told.
    """
    from ... import yarn

    try:
        ball = yarn.ball(amount)
    except yarn.YarnError:
        raise Refused(f"The amount of yarn “{amount}” was not understood.", 'Write it as "100 g = 200 m".') from None
    if ball.metres is None:
        raise Refused("The amount of yarn needs its length.", 'Write it as "100 g = 200 m".')
    if pattern.sizes > 1:
        raise Refused(f"The pattern has {pattern.sizes} sizes, and only one is grown to its yarn.", "Keep the one you mean.")
    have = float(ball.metres)
    grow = _grower(pattern)
    now = _metres(pattern)
    guess = sqrt(max(1e-6, have / max(now, 1e-6)))
    low, high = guess * 0.3, guess * 1.6
    best: tuple[float, Draft, float] | None = None
    for _ in range(_STEPS):
        middle = (low + high) / 2
        trial = grow(middle)
        used = _metres(trial.pattern) if trial is not None else float("inf")
        if trial is not None and used <= have:
            best, low = (middle, trial, used), middle
        else:
            high = middle
        if best is not None and high / low < 1.004:
            break
    if best is None:
        raise Refused(f"{have:.0f} m do not make this piece in any size.", "Use a thinner yarn, or more of it.")
    times, draft, used = best
    _in_proportion(draft)
    note = (
        f"{times * 100:.0f} % of the pattern's size: {used:.0f} of {have:.0f} m, trims and ends with it; the likely figure, not a promise."
    )
    return replace(draft, notes=(note, *_turn(draft.pattern), *draft.notes))


def _in_proportion(made: Draft) -> None:
    """Refuses a piece whose repeats let it grow one way only: so much longer or wider it would be another piece."""
    if [size.what for size in made.sizes] not in (["width", "length"], ["girth", "length"]):
        return
    width, length = (size.cm / max(size.asked_cm, 1e-6) for size in made.sizes)
    if max(width, length) > 1.5 * min(width, length):
        which, size = ("length", made.sizes[1]) if abs(length - 1) > abs(width - 1) else ("width", made.sizes[0])
        raise Refused(
            f"Only the {which} of this piece can be changed by whole repeats, and this yarn would take it from {size.asked_cm:.0f} to "
            f"{size.cm:.0f} cm.",
            "Change it by hand, or say how many repeats: --longer, --wider.",
        )


def _grower(pattern: Pattern) -> Callable[[float], Draft | None]:
    """How the piece is made so many times as large: drafted anew where it is plain, by whole repeats where it is not."""
    try:
        fabric, parts = plain_parts(pattern)
    except Refused:
        stretched(pattern, 1.0, 1.0)  # refuses at once what has no repeat
        return lambda times: _by_repeats(pattern, times)
    custom = custom_told(pattern, fabric, gauge_told(pattern))
    return lambda times: _at(pattern, parts, custom, times)


def _by_repeats(pattern: Pattern, times: float) -> Draft | None:
    try:
        return stretched(pattern, times, times)
    except Refused:
        return None


def _at(pattern: Pattern, parts: tuple[Plain, ...], custom: Custom, times: float) -> Draft | None:
    try:
        made = [reworked(part, custom, custom, across=times, along=times) for part in parts]
    except Refused:
        return None
    return gathered(pattern, "to the yarn in hand", made, custom, ())


def _metres(pattern: Pattern) -> float:
    """The yarn a pattern likely takes, all yarns and trims together."""
    from ... import yarn
    from ...measuring import measure

    fabric = work(pattern)
    try:
        estimate = yarn.estimate(fabric, measure(fabric))
    except yarn.YarnError as failure:
        raise Refused(str(failure)) from failure
    return float(sum(use.metres.likely for use in estimate.yarns))


def _turn(pattern: Pattern) -> tuple[str, ...]:
    """Where half the stitches are worked: for a piece that grows and shrinks, the row to turn back at."""
    fabric = work(pattern)
    part = max(fabric.parts, key=lambda part: sum(row.counted.total for row in part.rows))
    rows = [row for row in part.rows if not row.foundation]
    total, run = sum(row.counted.total for row in rows), 0
    for row in rows:
        run += row.counted.total
        if 2 * run >= total:
            return (f"Half of it is worked at {row.label}: weigh the yarn there.",)
    return ()
