"""Spreading shaping evenly: so many events over so many rows or stitches, when it does not divide."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from .asks import Refused


@dataclass(frozen=True, slots=True)
class Spread:
    """`events` shapings over `rows` rows: `few` of them every `every` rows, `many` of them every `every` + 1.

    >>> spread(140, 36)
    Spread(rows=140, events=36, every=3, few=4, many=32)
    >>> print(spread(140, 36))
    4 times on every 3rd row, 32 times on every 4th row
    """

    rows: int
    events: int
    every: int
    few: int
    many: int

    def __str__(self) -> str:
        said = [
            f"{n} time{'s' if n > 1 else ''} on every {ordinal(k)} row"
            for n, k in ((self.few, self.every), (self.many, self.every + 1))
            if n
        ]
        return ", ".join(said).replace("every 1st row", "every row")


def spread(rows: int, events: int) -> Spread:
    """How often to shape so that `events` come out over exactly `rows` rows. Refuses more events than rows.

    Source of the sum: common practice (quotient and remainder); the published figures are 140 rows, 36 increases.
    """
    if events < 1 or rows < events:
        raise Refused(
            f"{events} shaping rows do not go into {rows} rows.",
            f"Shape on {max(0, rows)} rows at most, by more than one stitch at a time.",
        )
    every, over = divmod(rows, events)
    return Spread(rows=rows, events=events, every=every, few=events - over, many=over)


def ordinal(n: int) -> str:
    """The number as it orders things.

    >>> [ordinal(n) for n in (1, 2, 3, 4, 11, 22)]
    ['1st', '2nd', '3rd', '4th', '11th', '22nd']
    """
    if n % 100 in (11, 12, 13):
        return f"{n}th"
    return f"{n}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(n % 10, 'th') }"


def evenly(total: int, parts: int, phase: float = 0.5) -> tuple[int, ...]:
    """`total` cut into `parts` whole numbers as even as can be, the odd ones out spread among them (Bresenham's line).

    >>> evenly(10, 4)
    (3, 2, 3, 2)
    >>> sum(evenly(140, 36)), sorted(set(evenly(140, 36)))
    (140, [3, 4])
    """
    if parts < 1:
        return ()
    cuts = [int((k * total) / parts + phase) if total >= 0 else 0 for k in range(parts + 1)]
    return tuple(b - a for a, b in pairwise(cuts))


def rhythm(amount: float, steps: int, start: float = 0.0) -> tuple[int, ...]:
    """The whole-number change of each of `steps` rows when each should change by `amount`: never more than half off the line.

    >>> rhythm(0.5, 6), rhythm(2.4, 5)
    ((1, 0, 1, 0, 1, 0), (2, 3, 2, 3, 2))
    """
    line = [int((start + amount * k) // 1 + ((start + amount * k) % 1 >= 0.5)) for k in range(steps + 1)]
    return tuple(b - a for a, b in pairwise(line))
