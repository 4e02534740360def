"""Where each row of a part worked flat stands: shifted along, so that its stitches stand over their feet, and stacked by height.

Coordinates: `u` runs from edge A to edge B along Row 1, `v` upward, both in cm.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median

from ..working.fabric import RING_FOOT, How, PartWork, Role, RowWork
from .elements import Laid


@dataclass(frozen=True, slots=True)
class Placed:
    """One row in place: it reaches from `low` to `high` (cm along u) and from `bottom` to `top` (cm along v); `up` is -1 below the chain.

    `ledge_low` / `ledge_high`: at that end the piece steps at the bottom of this row (places left unworked, or worked on over a chain).
    """

    index: int
    start: float
    direction: int
    low: float
    high: float
    bottom: float
    top: float
    up: int = 1
    base: int | None = None
    ledge_low: bool = False
    ledge_high: bool = False

    def u(self, laid: Laid, i: int) -> float:
        """Where the middle of element i stands along u."""
        return self.start + self.direction * laid.centre_cm[i]


def place_rows(part: PartWork, laid: Sequence[Laid]) -> tuple[Placed, ...]:
    """Place every row of `part`; a foundation chain gets a height of 0 under Row 1."""
    bases = [_base_of(row, part) for row in part.rows]
    leads = _leads(part, laid, bases)
    placed: list[Placed] = []
    for row, base in zip(part.rows, bases, strict=True):
        if base is None:
            placed.append(_first(row, laid[row.index]))
            _chain_below(row, placed, laid, part)
        else:
            placed.append(_on(row, placed[base], laid, leads[row.index]))
    return tuple(placed)


def _base_of(row: RowWork, part: PartWork) -> int | None:
    """The row it stands on; None for one that begins the piece (Row 1 carries its chain along, not the other way round)."""
    below = row.below
    if below is None or not 0 <= below < row.index or (part.rows[below].foundation and not _under(row)):
        return None
    return below


def _first(row: RowWork, here: Laid) -> Placed:
    d = 1 if row.direction >= 0 else -1
    start = 0.0 if d > 0 else here.total_cm
    base = row.below if row.below is not None and 0 <= row.below < row.index else None
    return Placed(row.index, start, d, 0.0, here.total_cm, 0.0, here.height_cm, base=base)


def _under(row: RowWork) -> bool:
    return int(How.UNDER) in row.stitches.foot_how


def _chain_below(row: RowWork, placed: list[Placed], laid: Sequence[Laid], part: PartWork) -> None:
    """Shifts the foundation chain under the first row on it; the chain was worked the other way."""
    made, index = placed[-1], row.below
    if index is None or index >= row.index or not part.rows[index].foundation:
        return
    chain, d = laid[index], made.direction
    gaps = [made.u(laid[row.index], i) + d * foot for i, foot, _ in _feet(row, index, chain)]
    start = median(gaps) if gaps else made.start + d * made.high
    low, high = sorted((start, start - d * chain.total_cm))
    placed[index] = Placed(index, start, -d, low, high, 0.0, 0.0)


def _leads(part: PartWork, laid: Sequence[Laid], bases: Sequence[int | None]) -> list[float]:
    """How far each row begins (at its low end) beyond the low end of the row it stands on.

    Where every stitch is part of a shaping (two in the one stitch of Row 1), several placings are as good: the one is taken whose edge
    goes on as the next row's does.
    """
    known: dict[tuple[int, int, int], tuple[float, bool]] = {}
    leads, sure = [0.0] * len(bases), [True] * len(bases)
    for row, base, d, e, key in _standing(part, laid, bases):
        if key not in known:
            known[key] = _lead(row, base, laid[row.index], laid[base], d, e)
        leads[row.index], sure[row.index] = known[key]
    for row, stood_on in zip(part.rows, bases, strict=True):
        if stood_on is not None and not sure[row.index]:
            near = [i for i in (*range(row.index + 1, len(bases)), *range(row.index - 1, 0, -1)) if sure[i] and bases[i] is not None]
            spare = laid[stood_on].total_cm - laid[row.index].total_cm
            if near:
                leads[row.index] = min((0.0, spare / 2, spare), key=lambda lead: (abs(lead - leads[near[0]]), lead != spare / 2))
    return leads


def _standing(
    part: PartWork, laid: Sequence[Laid], bases: Sequence[int | None]
) -> Iterator[tuple[RowWork, int, int, int, tuple[int, int, int]]]:
    """Every row that stands on another, with that one's index, which way each of them runs (1 or -1), and a key that rows alike share."""
    for row, base in zip(part.rows, bases, strict=True):
        if base is not None:
            d, e = (1 if row.direction >= 0 else -1), (1 if part.rows[base].direction >= 0 else -1)
            yield row, base, d, e, (id(laid[row.index]), id(laid[base]), 2 * d + e)


def _lead(row: RowWork, base: int, here: Laid, below: Laid, d: int, e: int) -> tuple[float, bool]:
    """The lead that puts most plain stitches straight over their feet (the median), and whether there were any."""
    base_start = 0.0 if e > 0 else below.total_cm
    offset = 0.0 if d > 0 else here.total_cm
    gaps = [(base_start + e * foot - d * here.centre_cm[i] - offset, plain) for i, foot, plain in _feet(row, base, below)]
    anchors = [gap for gap, plain in gaps if plain]
    if anchors:
        return median(anchors), True
    return (median(gap for gap, _ in gaps), False) if gaps else ((below.total_cm - here.total_cm) / 2, False)


def anchored_leads(part: PartWork, laid: Sequence[Laid], *, high: bool) -> dict[int, float]:
    """How far each row reaches beyond the row below at its low or `high` end (cm, + outward), measured from the plain stitch nearest to
    that end: where rows bend, other stitches tell nothing of the edge. Rows without a plain stitch are left out."""
    found: dict[int, float] = {}
    known: dict[tuple[int, int, int], float | None] = {}
    for row, base, d, e, key in _standing(part, laid, [_base_of(row, part) for row in part.rows]):
        if key not in known:
            known[key] = _lead_at(row, base, laid[row.index], laid[base], (d > 0) == high, (e > 0) == high)
        out = known[key]
        if out is not None:
            found[row.index] = out
    return found


def _lead_at(row: RowWork, base: int, here: Laid, below: Laid, at_end: bool, base_end: bool) -> float | None:
    """How far a row reaches beyond the one below at the end it is worked to (`at_end`) or begins at; `base_end`: likewise of that row."""
    plain = [(i, foot) for i, foot, alone in _feet(row, base, below) if alone]
    if not plain:
        return None
    i, foot = plain[-1 if at_end else 0]
    own = here.total_cm - here.centre_cm[i] if at_end else here.centre_cm[i]
    under = below.total_cm - foot if base_end else foot
    return own - under


def _on(row: RowWork, base: Placed, laid: Sequence[Laid], lead: float) -> Placed:
    here = laid[row.index]
    d = 1 if row.direction >= 0 else -1
    low = base.low + lead
    high = low + here.total_cm
    up = -1 if _under(row) else base.up
    ledges = _ledges(row, base, here, laid[base.index], d)
    return Placed(row.index, low if d > 0 else high, d, low, high, base.top, base.top + up * here.height_cm, up, base.index, *ledges)


def _feet(row: RowWork, base: int, below: Laid) -> Iterator[tuple[int, float, bool]]:
    """(element, where its feet stand on the mean, in the base row's own cm, whether it is plain) for every stitch on row `base`.

    Plain: it has one foot, in a place that takes no other stitch.
    """
    st, centre = row.stitches, below.centre_cm
    taken = Counter(st.foot_at)
    for i, role in enumerate(st.role):
        if role == Role.STITCH or role == Role.START_TOP:
            feet = _on_base(row, base, len(centre), i)
            if len(feet) == 1:
                yield i, centre[feet[0]], taken[feet[0]] == 1
            elif feet:
                yield i, sum(map(centre.__getitem__, feet)) / len(feet), False


def _on_base(row: RowWork, base: int, places: int, i: int) -> list[int]:
    return [
        at
        for back, at, how in row.stitches.feet_of(i)
        if row.index - back == base and RING_FOOT < at < places and how not in (How.SIDE, How.RING)
    ]


def _ledges(row: RowWork, base: Placed, here: Laid, below: Laid, d: int) -> tuple[bool, bool]:
    """Whether the piece steps at the low and the high end: the row stops 1.5 stitches short of the one below, or goes on over a chain."""
    begin, finish = _outermost(row, base, below, 1), _outermost(row, base, below, -1)
    if begin is None or finish is None:
        return False, False
    first, last = (begin, finish) if d > 0 else (finish, begin)
    unit = here.width_cm[first] or here.total_cm
    worked_low = min(base.u(below, at) for at in _on_base(row, base.index, len(below.centre_cm), first)) - unit / 2
    worked_high = max(base.u(below, at) for at in _on_base(row, base.index, len(below.centre_cm), last)) + unit / 2
    low = not -0.9 * unit < worked_low - base.low < 1.5 * unit
    high = not -0.9 * unit < base.high - worked_high < 1.5 * unit
    return low, high


def _outermost(row: RowWork, base: Placed, below: Laid, step: int) -> int | None:
    """The first (step 1) or last (step -1) stitch of the row that stands on the base row."""
    n = len(row.stitches)
    for i in range(n)[::step]:
        if row.stitches.role[i] in (Role.STITCH, Role.START_TOP) and _on_base(row, base.index, len(below.centre_cm), i):
            return i
    return None
