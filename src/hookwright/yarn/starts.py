"""Where in its sequence to begin a ball, so that both ends (and the trims) have the wished colours, with the least yarn pulled off.

A start is a point of the repeat. What lies on the first rows, the last rows and the trims follows from sums over the repeat, so a thousand
starts are tried at the cost of a few looks each. The far end hangs on the whole length, which is only known within the maker's range: the
chance that it still comes out so is told with every start, and it is what a weighing narrows.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .amounts import YarnError
from .estimating import Estimate
from .sequence import Repeat

NEAR_ENOUGH = 0.02
"""Starts whose match is this close to the best count as equal; among them the least waste wins."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """The colours wanted: at the first rows, the last rows, the trims; None = whatever. `same`: both ends alike, whatever the colour.

    `first_rows` and `last_rows` say how many rows make an end.
    """

    first: str | None = None
    last: str | None = None
    trims: str | None = None
    same: bool = True
    first_rows: int = 2
    last_rows: int = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """One starting place: `start_m` metres into the repeat, `pull_off_m` to waste before it, the colours that come out, the match (0-1).

    `sure`: the match to be expected when the whole length is only known within this maker's range.
    """

    start_m: float
    pull_off_m: float
    first: str
    last: str
    trims: str
    match: float
    sure: float


@dataclass(frozen=True, slots=True)
class _Strand:
    """Metres along the strand where the windows of the wish lie."""

    before: float
    first: float
    whole: float
    last: float
    trims: float


def best_starts(
    found: Estimate, yarn: str, sequence: Repeat, wish: Wish = Wish(), *, tries: int = 1000, begins_m: float = 0.0, many: int = 3
) -> tuple[Start, ...]:  # fmt: skip
    """The best starting places, best first, no two within a twelfth of the repeat.

    `tries` evenly spaced starts over one repeat; `begins_m`: where in the repeat the ball's end lies now (what is pulled off is counted
    from there). Raises YarnError for a colour the sequence does not have.
    """
    for colour in (wish.first, wish.last, wish.trims):
        if colour is not None and colour not in sequence.colours:
            raise YarnError(f"The sequence has no {colour}: it has {', '.join(sequence.colours)}.")
    if tries < 1:
        raise YarnError("At least one starting place must be tried.")
    strand = _strand(found, yarn, wish)
    sd = found.yarn(yarn).hand.metres_sd
    period = sequence.metres
    tried = []
    for n in range(tries):
        start = period * n / tries
        tried.append((_match(sequence, start, strand, wish, 1.0), (start - begins_m) % period, start))
    best = max(match for match, _, _ in tried)
    ranked = sorted(tried, key=lambda one: (0 if one[0] >= best - NEAR_ENOUGH else 1, one[1] if one[0] >= best - NEAR_ENOUGH else -one[0]))
    kept: list[Start] = []
    for match, off, start in ranked:
        if all(min((start - k.start_m) % period, (k.start_m - start) % period) > period / 12 for k in kept):
            kept.append(_told(sequence, start, off, match, strand, wish, sd))
        if len(kept) == many:
            break
    return tuple(kept)


def _strand(found: Estimate, yarn: str, wish: Wish) -> _Strand:
    use = found.yarn(yarn)
    rows = [row.metres[yarn] for part in found.threads for row in part.rows if row.metres.get(yarn) and not row.row.foundation]
    chain = sum(row.metres[yarn] for part in found.threads for row in part.rows if row.metres.get(yarn) and row.row.foundation)
    if not rows:
        raise YarnError(f"No row is worked in yarn {yarn}.")
    tail = use.of_which["ends"] / 2
    return _Strand(
        before=tail + chain, first=sum(rows[: wish.first_rows]), whole=use.fabric_m - chain, last=sum(rows[-wish.last_rows :]),
        trims=use.of_which["trims"],
    )  # fmt: skip


def _windows(start: float, strand: _Strand, factor: float) -> tuple[tuple[float, float], ...]:
    """First rows, last rows and trims as stretches of the sequence, when the fabric takes `factor` times the estimate."""
    begin = start + strand.before
    end = begin + strand.whole * factor
    return (
        (begin, begin + strand.first * factor),
        (end - strand.last * factor, end),
        (end + strand.before, end + strand.before + strand.trims),
    )


def _share(sequence: Repeat, stretch: tuple[float, float]) -> Mapping[str, float]:
    length = stretch[1] - stretch[0]
    return {colour: metres / length for colour, metres in sequence.between(*stretch).items()} if length > 0 else {}


def _match(sequence: Repeat, start: float, strand: _Strand, wish: Wish, factor: float) -> float:
    first, last, trims = (_share(sequence, stretch) for stretch in _windows(start, strand, factor))
    marks: list[float] = []
    if wish.first is not None:
        marks.append(first.get(wish.first, 0.0))
    if wish.last is not None:
        marks.append(last.get(wish.last, 0.0))
    if wish.trims is not None and trims:
        marks.append(trims.get(wish.trims, 0.0))
    if wish.same and wish.first is None and wish.last is None:
        marks.append(sum(min(share, last.get(colour, 0.0)) for colour, share in first.items()))
    return sum(marks) / len(marks) if marks else 1.0


def _told(sequence: Repeat, start: float, off: float, match: float, strand: _Strand, wish: Wish, sd: float) -> Start:
    first, last, trims = (_share(sequence, stretch) for stretch in _windows(start, strand, 1.0))
    factors = [math.exp(sd * z) for z in _SPREAD]
    sure = sum(_match(sequence, start, strand, wish, factor) for factor in factors) / len(factors)
    return Start(start_m=start, pull_off_m=off, first=_most(first), last=_most(last), trims=_most(trims), match=match, sure=sure)


_SPREAD = tuple(1.6449 * (2 * n / 40 - 1) for n in range(41))
"""Even steps over the middle 90 % of hands."""


def _most(shares: Mapping[str, float]) -> str:
    return max(shares, key=lambda colour: shares[colour]) if shares else ""


def advice(starts: Sequence[Start], sequence: Repeat) -> str:
    """What to do when the far end cannot be promised.

    >>> advice((), Repeat.of([("blue", 1)]))
    ''
    """
    if not starts or starts[0].sure > 0.8 * starts[0].match:
        return ""
    return (
        "The far end cannot be promised from an estimate: the whole length is not known to within one run of colour. Mark where "
        "the first two "
        "changes fall and weigh, or wind the ball in two equal halves by weight and work both from the middle: then the ends "
        "match for certain."
    )
