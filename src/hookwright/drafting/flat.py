"""Flat pieces in rows: from an outline to the whole stitches of every row and what changes at which edge.

Edge A is where Row 1 begins (the left edge of the outline), B where it ends.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from .asks import Custom, Refused
from .edges import Band, band_of, plan_edge, square_room
from .fit import misfit
from .obtained import FlatRow, compared, outline_of, pointed
from .outline import Outline, Point, Side, checked, placed, sides
from .phase import Phase, phases, tips_of
from .result import View

ROWS_MOST = 6000
STITCHES_MOST = 4000
FITS = 1.02
"""The misfit up to which an outline counts as within its tolerance: rounding of the comparison itself."""
_TRIED = 16
"""Ways to lay the rows that are planned, at most, before the nearest of them is taken."""
_FEW_CORNERS = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatPlan:
    """A flat piece: `foundation` chains that Row 1 is worked into (1 = all of it in one chain), the rows, and both outlines in cm.

    `left_cm` is where edge A starts, so that the outline obtained lies over the one asked. `corner_rows` are rows the shape turns at.
    """

    foundation: int
    rows: tuple[FlatRow, ...]
    asked: Outline
    obtained: Outline
    rows_asked: float
    compared: Outline = ()
    """The outline obtained, but rows of the fewest stitches that can be worked drawn to the point asked there: what is fair to compare."""

    @property
    def widest(self) -> int:
        return max(row.count for row in self.rows)


def plan_flat(outline: Outline, custom: Custom, *, even_rows: int | None = None) -> FlatPlan:
    """The rows of an outline. Refuses an outline that a row would cross twice, or one smaller than one stitch and one row.

    `even_rows`: the number of rows is made a multiple of this.
    """
    asked = placed(checked(outline))
    left, right = sides(asked)
    w, h = custom.width_cm, custom.height_cm
    height = max(y for _, y in asked)
    wide = max(x for x, _ in asked)
    nearest = row_count(height, custom, even_rows or 1)
    _bound(nearest, wide / w, height, wide, custom)
    pair = tuple(Side(tuple((x / w, y / h) for x, y in side.corners)) for side in (left, right))
    alike, back = _symmetric(left, right, height), _comes_back(left, right, height)
    best: tuple[float, FlatPlan] | None = None
    refused: Refused | None = None
    for phase in _phases(pair, nearest, custom, even_rows or 1, alike, back)[:_TRIED]:
        try:
            plan = _laid(pair, phase, asked, custom, alike, back)
        except Refused as refusal:
            refused = refused or refusal
            continue
        off = fit_of(plan, custom)
        if best is None or off < best[0] - 0.01:
            best = off, plan
        if off <= FITS:
            break
    if best is None:
        raise refused or Refused("No rows follow this outline.")
    return best[1]


def fit_of(plan: FlatPlan, custom: Custom) -> float:
    """How far the outline of a plan lies from the one asked, in units of what is allowed."""
    return misfit(View("", plan.asked, plan.compared), custom, *tolerance(custom))


def tolerance(custom: Custom) -> tuple[float, float]:
    """How far an outline may lie from the one asked, in stitches and rows."""
    return 0.5, 1.0 if custom.parity else 0.5


def _phases(pair: tuple[Side, ...], nearest: int, custom: Custom, multiple: int, alike: bool, back: bool) -> list[Phase]:
    """How the rows may lie over the outline, the best first."""
    height = max(y for side in pair for _, y in side.corners)
    edges = [(_half(pair), 1)] if alike else list(zip(pair, (-1, 1), strict=True))
    tips = [tip for side, outward in edges for tip in tips_of(side, outward, custom.most)]
    offs = _parities(pair, custom) if alike else _beginnings(pair)
    if not tips:
        return [Phase(nearest, (height - nearest) / 2 if back else 0.0, offs[0])]
    counts = [n for n in range(max(1, nearest - 2), nearest + 3) if n % multiple == 0 and _parity(n, custom)]
    counts.sort(key=lambda n: (abs(n - height), n))
    return phases(tips, height, counts, offs, within=tolerance(custom)[1]) or [Phase(nearest, 0.0, offs[0])]


def _parities(pair: tuple[Side, ...], custom: Custom) -> list[float]:
    """Where the stitches of a piece alike at both edges may begin: at its middle line or half a stitch from it, the nearer width first."""
    least = 2 if custom.turning.counts else 1
    half = _half(pair).corners
    off = (max(least, round(2 * max(x for x, _ in half))) % 2) / 2
    if least == 2 and min(half[0][0], half[-1][0]) < 0.75:
        off = 0.0  # a row of two stitches comes nearer to a point than one of three
    return [off, 0.5 - off]


def _beginnings(pair: tuple[Side, ...]) -> list[float]:
    """Where the stitches of other pieces may begin: where the straighter edge stands still, or at any eighth of a stitch."""
    rests = _resting(pair[_straighter(pair)])
    return [rests, *(rests + k / 8 for k in range(1, 8))]


def _straighter(pair: tuple[Side, ...]) -> int:
    return 0 if _travel(pair[0]) <= _travel(pair[1]) else 1


def _laid(pair: tuple[Side, ...], phase: Phase, asked: Outline, custom: Custom, alike: bool, back: bool) -> FlatPlan:
    """The rows of an outline, laid over it as `phase` says."""
    moved = tuple(Side(tuple((x, y - phase.low) for x, y in side.corners)) for side in pair)
    point = pair[1].corners[0][0] - pair[0].corners[0][0] < 1.0 and phase.rows > 1
    point = point and moved[1].at(1.0) - moved[0].at(1.0) < 1.5 + 2 * custom.most
    a, b = (_both if alike else _each)(moved, phase, custom, point)
    if back and not any(a.square[1:]) and not any(b.square[1:]):
        a, b = _returned(a), _returned(b)
    middle = (pair[0].corners[0][0] + pair[1].corners[0][0]) / 2 * custom.width_cm if alike else 0.0
    return _plan(a, b, middle, point, asked, phase, custom)


def row_count(height_cm: float, custom: Custom, multiple: int = 1) -> int:
    """The whole rows nearest to a height: at least one, of the parity and the multiple asked."""
    wanted = height_cm / custom.height_cm
    good = [
        n for n in range(max(1, int(wanted) - 2 * multiple), int(wanted) + 2 * multiple + 2) if n % multiple == 0 and _parity(n, custom)
    ]
    if not good:
        raise Refused(
            f"No number of rows is both {custom.parity} and a multiple of {multiple}.",
            "Leave the side of the last row open (--last either).",
        )
    return min(good, key=lambda n: (abs(n - wanted), n))


def _parity(rows: int, custom: Custom) -> bool:
    return custom.parity == "" or rows % 2 == (1 if custom.parity == "odd" else 0)


def _bound(rows: int, stitches: float, height: float, wide: float, custom: Custom) -> None:
    if rows > ROWS_MOST or stitches > STITCHES_MOST:
        raise Refused(
            f"That is {stitches:.0f} stitches by {rows} rows; a draft holds {STITCHES_MOST} by {ROWS_MOST} at most.",
            "Work it in pieces, or in a thicker yarn.",
        )
    if wide < custom.width_cm / 2:
        raise Refused(
            f"The piece is {wide:.1f} cm wide and one {custom.stitch} is {custom.width_cm:.1f} cm.",
            f"The narrowest is {custom.width_cm:.1f} cm.",
        )
    if height < custom.height_cm / 2:
        raise Refused(
            f"The piece is {height:.1f} cm long and one row is {custom.height_cm:.1f} cm.", f"The shortest is {custom.height_cm:.1f} cm."
        )


def _symmetric(left: Side, right: Side, height: float) -> bool:
    middles = [left.at(y, above=up) + right.at(y, above=up) for y in _heights(left, right, height) for up in (False, True)]
    return max(middles) - min(middles) < 1e-6 * max(1.0, height)


def _comes_back(left: Side, right: Side, height: float) -> bool:
    """Whether the upper half mirrors the lower one."""
    return all(
        abs(side.at(y, above=True) - side.at(height - y)) < 1e-6 * max(1.0, height)
        for side in (left, right)
        for y in _heights(left, right, height)
    )


def _returned(places: _Places) -> _Places:
    """The lower half, and then the same rows back."""
    rows = len(places.at) - 1
    half = rows // 2
    there = places.at[: rows - half + 1] if rows % 2 == 0 else (*places.at[: half + 1], places.at[half])
    square = list(places.square)
    for k in range(half + rows % 2, rows):
        mirror = rows - k
        square[k] = places.square[mirror] if mirror < rows else False
    return _Places((*there, *(places.at[rows - k] for k in range(len(there), rows + 1))), tuple(square), places.off)


def _heights(left: Side, right: Side, height: float) -> list[float]:
    return sorted({y for side in (left, right) for _, y in side.corners} | {height * k / 7 for k in range(1, 7)})


def _both(pair: tuple[Side, ...], phase: Phase, custom: Custom, point: bool) -> tuple[_Places, _Places]:
    """Both edges alike: half the width in whole stitches either side of the middle (which may be the middle of a stitch)."""
    least = 2 if custom.turning.counts else 1
    half, off, rows = _half(pair), phase.off, phase.rows
    lowest = max(0 if off else 1, -int(-(least / 2 - off) // 1))
    half = _shifted(half, -off)
    band = band_of(half, rows, most=custom.most, outward=1, corners=_few(pair))
    first = max(lowest, round(half.at(0.0, above=True)))
    band = _at_least(_begun(band, half, point, 1), [lowest] * rows)
    if point:
        band = _at_most(band, [int(custom.most + 0.5 - off), *([STITCHES_MOST] * (rows - 1))])
    places = plan_edge(band, first, alike=True)
    b = _Places((first if point else places[0], *places), band.block, off)
    return _Places(tuple(-p for p in b.at), band.block, -off), b


def _each(pair: tuple[Side, ...], phase: Phase, custom: Custom, point: bool) -> tuple[_Places, _Places]:
    """Each edge for itself: the straighter first, the other kept at least a stitch (two where a chain counts) away."""
    least = 2 if custom.turning.counts else 1
    one, off, rows = _straighter(pair), phase.off, phase.rows
    made: dict[int, _Places] = {}
    for which in (one, 1 - one):
        side, outward = _shifted(pair[which], -off), 1 if which else -1
        band = _begun(band_of(side, rows, most=custom.most, outward=outward, corners=_few(pair)), side, point, outward)
        first = round(side.corners[0][0] if point else side.at(0.0, above=True))
        if which != one:
            limit = [p + (least if which else -least) for p in made[one].at]
            first = max(first, limit[0]) if which else min(first, limit[0])
            band = _at_least(band, limit[1:]) if which else _at_most(band, limit[1:])
        places = plan_edge(band, first)
        made[which] = _Places((first if point else places[0], *places), band.block, off)
    return made[0], made[1]


def _few(pair: tuple[Side, ...]) -> bool:
    return sum(len(side.corners) for side in pair) <= _FEW_CORNERS


@dataclass(frozen=True, slots=True)
class _Places:
    """Where an edge stands: at the foundation and at the top of each row, in whole stitches from `off`."""

    at: tuple[int, ...]
    square: tuple[bool, ...]
    off: float


def _half(pair: tuple[Side, ...]) -> Side:
    left, right = pair
    heights = sorted({y for side in pair for _, y in side.corners})
    corners: list[Point] = []
    for y in heights:
        for up in (False, True):
            x = (right.at(y, above=up) - left.at(y, above=up)) / 2
            if not corners or corners[-1] != (x, y):
                corners.append((x, y))
    return Side(tuple(corners))


def _shifted(side: Side, by: float) -> Side:
    return Side(tuple((x + by, y) for x, y in side.corners))


def _travel(side: Side) -> float:
    return sum(abs(q[0] - p[0]) for p, q in zip(side.corners, side.corners[1:], strict=False))


def _resting(side: Side) -> float:
    """Where the edge stands still longest; its start where it never does."""
    best, place = 0.0, side.corners[0][0]
    for p, q in zip(side.corners, side.corners[1:], strict=False):
        if abs(p[0] - q[0]) < 1e-6 and q[1] - p[1] > best:
            best, place = q[1] - p[1], p[0]
    return place


def _begun(band: Band, fitted: Side, point: bool, outward: int) -> Band:
    """Row 1 is worked into a chain: square to it, unless the piece begins at a point and all of Row 1 goes into one chain."""
    if point:
        return replace(band, block=(False, *band.block[1:]))
    bottom, middle = fitted.corners[0][0], fitted.at(0.5)
    place = bottom if (bottom - middle) * outward > 0.0 else middle
    low, high = square_room(fitted, 1, place)
    return Band((low, *band.low[1:]), (high, *band.high[1:]), (place, *band.ideal[1:]), (True, *band.block[1:]), band.most)


def _at_least(band: Band, least: list[int]) -> Band:
    low = tuple(max(a, m) for a, m in zip(band.low, least, strict=True))
    return Band(
        low,
        tuple(max(a, m) for a, m in zip(band.high, low, strict=True)),
        tuple(max(a, m) for a, m in zip(band.ideal, least, strict=True)),
        band.block,
        band.most,
    )


def _at_most(band: Band, most: list[int]) -> Band:
    high = tuple(min(a, m) for a, m in zip(band.high, most, strict=True))
    return Band(
        tuple(min(a, m) for a, m in zip(band.low, high, strict=True)),
        high,
        tuple(min(a, m) for a, m in zip(band.ideal, most, strict=True)),
        band.block,
        band.most,
    )


def _plan(a: _Places, b: _Places, zero_cm: float, point: bool, asked: Outline, phase: Phase, custom: Custom) -> FlatPlan:
    wide = round(b.off - a.off)
    a, b = _overlapped(a, b, wide)
    counts = [q - p + wide for p, q in zip(a.at, b.at, strict=True)]
    if point and counts[1] > 1 + 2 * custom.most:
        a, b = (_Places((p.at[1], *p.at[1:]), p.square, p.off) for p in (a, b))
        counts[0], point = counts[1], False
    tip = counts[-1] == 2 and not custom.turning.counts and len(counts) > 2 and counts[-2] <= 1 + 2 * custom.most and _closes(asked, custom)
    rows = [
        FlatRow(
            count=counts[k],
            a=a.at[k - 1] - a.at[k],
            b=b.at[k] - b.at[k - 1],
            square_a=_square(a.at[k - 1] - a.at[k], a.square[k - 1], custom),
            square_b=_square(b.at[k] - b.at[k - 1], b.square[k - 1], custom),
        )
        for k in range(1, len(counts))
    ]
    _touching(a, b, wide, custom)
    low_cm = phase.low * custom.height_cm
    obtained = outline_of(rows, counts[0], zero_cm + (a.at[0] + a.off) * custom.width_cm, custom, low_cm)
    if point and counts[0] == 2:
        obtained = pointed(obtained, 0, -1, custom)
    if tip:
        rows[-1] = replace(rows[-1], count=1, a=rows[-1].a - 1)
        obtained = pointed(obtained, len(rows), len(rows) + 1, custom)
    return FlatPlan(
        foundation=1 if point else counts[0],
        rows=tuple(rows),
        asked=asked,
        obtained=obtained,
        rows_asked=max(y for _, y in asked) / custom.height_cm,
        compared=compared(obtained, rows, point, asked, custom, low_cm),
    )


def _overlapped(a: _Places, b: _Places, wide: int) -> tuple[_Places, _Places]:
    """The edges, but no row beside the one below it: at a tip finer than a row it is drawn out until they share a stitch.

    Only a few rows may need it; a piece that runs sideways all along is left for `_touching` to refuse.
    """
    left, right = list(a.at), list(b.at)
    drawn = 0
    for k in range(1, len(left)):
        if left[k] > right[k - 1] + wide - 1:
            left[k], drawn = right[k - 1] + wide - 1, drawn + 1
        elif right[k] + wide - 1 < left[k - 1]:
            right[k], drawn = left[k - 1] + 1 - wide, drawn + 1
    if not drawn or drawn > max(2, len(left) // 8):
        return a, b
    return _Places(tuple(left), a.square, a.off), _Places(tuple(right), b.square, b.off)


def _touching(a: _Places, b: _Places, wide: int, custom: Custom) -> None:
    """Refuses rows that would not stand on each other: a piece that runs sideways by more than its own width."""
    for k in range(1, len(a.at)):
        common = min(b.at[k - 1], b.at[k]) + wide - max(a.at[k - 1], a.at[k])
        if common < 1:
            raise Refused(
                f"At {k * custom.height_cm:.1f} cm a row would not stand on the one below: the piece runs sideways by more than its width.",
                "Make it deeper, less curved, or turn it (--turn 90).",
            )


def _closes(asked: Outline, custom: Custom) -> bool:
    """Whether the outline ends in a point."""
    top = max(y for _, y in asked)
    ends = [x for x, y in asked if top - y < 1e-9]
    return max(ends) - min(ends) < custom.width_cm


def _square(change: int, block: bool, custom: Custom) -> bool:
    return change != 0 and (block or abs(change) > custom.most)
