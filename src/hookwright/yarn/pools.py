"""Short repeats: which stitch counts pile the colours up, which let them drift, which scatter them; and what a change of tension does.

In stitches one repeat is R long. In a round of n stitches a colour comes back after one round, in rows after two (there and back), so the
colours move by (n or 2n) mod R for each such pass. Near 0 they pile up into bars; a stitch or so gives a slanting (argyle) drift; else they
scatter.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

from .amounts import YarnError
from .sequence import Repeat

if TYPE_CHECKING:
    from .estimating import Estimate

Effect: TypeAlias = Literal["piles up", "drifts", "scatters"]
TENSION = 0.04
"""A hand's drift of tension, 4 % (assumed in a simulation, not measured)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pooling:
    """What a row of `stitches` does. `shift`: stitches the colours move to the side at each pass (round, or row there and back);
    `repeat` length of one repeat in stitches.

    `holds`: how far tension may change (± per cent) before the effect is another; `at_drift`: the effects 4 % looser, as told, 4 % tighter.
    """

    stitches: int
    shift: float
    effect: Effect
    holds_percent: float
    repeat: float
    at_drift: tuple[Effect, Effect, Effect]


def repeat_in_stitches(sequence: Repeat, metres_per_stitch: float) -> float:
    """Length of one repeat in stitches.

    >>> repeat_in_stitches(Repeat.of([("pink", 1.2), ("grey", 1.2)]), 0.06)
    40.0
    """
    if metres_per_stitch <= 0:
        raise YarnError("A stitch takes more than nothing.")
    return sequence.metres / metres_per_stitch


def shift_of(stitches: float, repeat: float, *, flat: bool) -> float:
    """Stitches the colours move each pass, between -R/2 and R/2.

    >>> shift_of(41, 40, flat=False), shift_of(20, 40, flat=True)
    (1.0, 0.0)
    """
    passed = float(2 * stitches if flat else stitches)
    rest = passed % repeat
    return rest - repeat if rest > repeat / 2 else rest


def effect_of(shift: float, repeat: float) -> Effect:
    """The effect of a shift: within half a stitch it piles up, within a fifteenth of the repeat (2½ stitches of 40) it drifts, else it
    scatters."""
    if abs(shift) <= 0.5:
        return "piles up"
    return "drifts" if abs(shift) <= max(1.5, repeat / 15) else "scatters"


def pooling(stitches: int, repeat: float, *, flat: bool) -> Pooling:
    """What a row or round of so many stitches does to a repeat of `repeat` stitches.

    >>> pooling(20, 40, flat=True).effect, pooling(41, 40, flat=False).effect, pooling(30, 40, flat=False).effect
    ('piles up', 'drifts', 'scatters')
    """
    if stitches < 1 or repeat <= 0:
        raise YarnError("Pooling needs a row of at least one stitch and a repeat longer than nothing.")
    shift = shift_of(stitches, repeat, flat=flat)
    effect = effect_of(shift, repeat)
    holds = 0.0
    while holds < 0.10 and all(_at(stitches, repeat, 1 + sign * (holds + 0.0025), flat) == effect for sign in (-1, 1)):
        holds += 0.0025
    drift = tuple(_at(stitches, repeat, factor, flat) for factor in (1 - TENSION, 1.0, 1 + TENSION))
    return Pooling(
        stitches=stitches,
        shift=shift,
        effect=effect,
        repeat=repeat,
        holds_percent=round(holds * 100, 2),
        at_drift=(drift[0], drift[1], drift[2]),
    )


def _at(stitches: int, repeat: float, looser: float, flat: bool) -> Effect:
    return effect_of(shift_of(stitches, repeat / looser, flat=flat), repeat / looser)


def table(low: int, high: int, repeat: float, *, flat: bool) -> tuple[Pooling, ...]:
    """Every stitch count from `low` to `high`."""
    return tuple(pooling(n, repeat, flat=flat) for n in range(low, high + 1))


NEAR_STITCHES = 3


def near(found: Estimate, yarn: str, sequence: Repeat) -> tuple[Pooling, ...]:
    """What the commonest row of a piece, and rows up to three stitches shorter or longer, do to a short repeat.

    Empty when the repeat is longer than three rows (it then makes stripes), or when no one row length makes up half the stitches (rows that
    grow shift the colours all the time).
    """
    rows = [row for part in found.threads for row in part.rows if row.metres.get(yarn) and row.row.counted.total and not row.row.foundation]
    if not rows:
        return ()
    counts = Counter(row.row.counted.total for row in rows)
    stitches = max(counts, key=lambda n: (counts[n] * n, n))
    if 2 * counts[stitches] * stitches < sum(n * many for n, many in counts.items()):
        return ()
    row = next(row for row in rows if row.row.counted.total == stitches)
    length = repeat_in_stitches(sequence, row.metres[yarn] / found.yarn(yarn).supplied.strands / stitches)
    if length > 3 * stitches:
        return ()
    return table(max(1, stitches - NEAR_STITCHES), stitches + NEAR_STITCHES, length, flat=row.row.made_in in ("rows", "joined-turned"))


def picture(
    sequence: Repeat, stitches: int, rows: int, metres_per_stitch: float, *, flat: bool, tension: float = 1.0
) -> tuple[Sequence[int], ...]:
    """The colours of a plain piece as seen from the right side, the first row first: run indices, left to right.

    Flat rows are worked there and back, so every other row is laid the other way.
    """
    each = metres_per_stitch * tension
    out = []
    for r in range(rows):
        row = [sequence.at((r * stitches + i + 0.5) * each) for i in range(stitches)]
        out.append(row if flat and r % 2 else row[::-1])
    return tuple(out)


def remedy(found: Pooling, repeat: float) -> str:
    """What to do against bars: two balls, changed every two rows, the second begun half a repeat later.

    >>> remedy(pooling(20, 40, flat=True), 40)
    'Work two balls, changing every 2 rows, and begin the second half a repeat (20 stitches) later.'
    """
    if found.effect == "scatters":
        return ""
    return f"Work two balls, changing every 2 rows, and begin the second half a repeat ({repeat / 2:.0f} stitches) later."
