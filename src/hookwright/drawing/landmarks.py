"""What a schematic must show of a part, before anything is drawn: its key rows, its key measurements, where its colours begin."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from ..measuring import PartMeasures, Placed, Point, yarn_of
from ..measuring.outline import side_points
from ..shaping.stuffed import side_view


@dataclass(frozen=True, slots=True)
class KeyRow:
    """A row at which shaping changes: `v_cm` its height above the first row's foot, `low` / `high` where it ends (cm along u)."""

    index: int
    number: int | None
    v_cm: float
    low: float
    high: float
    at_top: bool = True
    """Whether the height is that of the row's top (else of its foot)."""


@dataclass(frozen=True, slots=True)
class ColourStart:
    """Where a yarn begins: before which row, at what height."""

    yarn: str
    index: int
    number: int | None
    v_cm: float


def key_rows(part: PartMeasures) -> tuple[KeyRow, ...]:
    """The first row, the last, and every row between after which an edge takes another direction (by more than half a stitch)."""
    return _keys_of_rounds(part) if part.rounds is not None else _keys_of_rows(part)


def _keys_of_rows(part: PartMeasures) -> tuple[KeyRow, ...]:
    run = _standing(part)
    if not run:
        return ()
    unit = part.scale.unit_cm
    heights = {run[0].bottom, run[-1].top}
    for high in (False, True):
        heights.update(v for _, v in simplify(side_points(run, high=high), 0.75 * unit))
    keys = [_key_at(run, v, part) for v in sorted(heights)]
    kept = [keys[0]]
    for key in keys[1:]:
        if key.index != kept[-1].index or key.at_top != kept[-1].at_top:
            kept.append(key)
    return tuple(_merged(kept, run))


def _standing(part: PartMeasures) -> list[Placed]:
    """The rows standing one on another from the first to the highest."""
    rows = {row.index: row for row in part.placed if row.top > row.bottom and row.index not in part.edging}
    if not rows:
        return []
    last = max(rows.values(), key=lambda row: (row.top, -row.index))
    run = [last]
    while run[-1].base in rows:
        run.append(rows[run[-1].base])
    return run[::-1]


def _key_at(run: Sequence[Placed], v: float, part: PartMeasures) -> KeyRow:
    """The row whose top lies at v, or in whose height v lies."""
    if v <= run[0].bottom + 1e-9:
        row = run[0]
        return KeyRow(row.index, part.rows[row.index].number, row.bottom, row.low, row.high, at_top=False)
    row = next((row for row in run if v <= row.top + 1e-9), run[-1])
    return KeyRow(row.index, part.rows[row.index].number, row.top, row.low, row.high)


def _merged(keys: list[KeyRow], run: Sequence[Placed]) -> list[KeyRow]:
    """Keys without a blunt beginning or end of one or two rows: they would only crowd the drawing."""
    least = 2.2 * max(row.top - row.bottom for row in run)
    inner = [key for key in keys[1:-1] if key.v_cm - keys[0].v_cm > least * 0.9 and keys[-1].v_cm - key.v_cm > least * 0.9]
    apart: list[KeyRow] = []
    for key in inner:
        if not apart or key.v_cm - apart[-1].v_cm > least * 0.45:
            apart.append(key)
    return [keys[0], *apart, keys[-1]]


def _keys_of_rounds(part: PartMeasures) -> tuple[KeyRow, ...]:
    assert part.rounds is not None
    rounds = part.rounds.rounds
    reach = [(part.rounds.start_girth_cm, 0.0), *((each.girth_cm, each.reach_cm) for each in rounds)]
    kept = {v for _, v in simplify(reach, 2.2 * part.scale.unit_cm)}
    z = [height for _, height in side_view(part)]
    keys = []
    for i, each in enumerate(rounds):
        if i == len(rounds) - 1 or each.reach_cm in kept:
            radius = each.girth_cm / math.tau
            keys.append(KeyRow(each.index, part.rows[each.index].number, z[i + 1], -radius, radius))
    return tuple(keys)


@dataclass(frozen=True, slots=True)
class Named:
    """A height of a piece of a garment that has a name: from `low` to `high` (cm above the first row's foot)."""

    name: str
    low: float
    high: float


_BODY: Final = re.compile(r"\b(?:back|front|fronts|body|bodice|yoke)\b", re.I)
_SLEEVE: Final = re.compile(r"\bsleeves?\b", re.I)


def named_heights(part: PartMeasures) -> tuple[Named, ...]:
    """Of the back or front of a garment: up to the armhole, the armhole, the neck; of a sleeve with a cap: up to it, and the cap.

    An armhole begins where an edge steps inward; a neck where the other edge begins to slope, or where the piece is divided.
    """
    run = _standing(part)
    if len(run) < 3:
        return ()
    foot, top = run[0].bottom, run[-1].top
    if _SLEEVE.search(part.name):
        widest = max(run, key=lambda row: (round(row.high - row.low, 3), row.top))
        capped = top - widest.top > 2 * (widest.top - widest.bottom) and widest.high - widest.low > 1.05 * (run[0].high - run[0].low)
        return (Named("to underarm", foot, widest.top), Named("cap", widest.top, top)) if capped else ()
    if not _BODY.search(part.name):
        return ()
    found = []
    steps = [row.bottom for before, row in pairwise(run) if any(_steps_in(before, row, part))]
    if steps and steps[0] > foot:
        found += [Named("side", foot, steps[0]), Named("armhole", steps[0], top)]
    neck = _neck_begins(part, run, steps[0] if steps else None)
    if neck is not None and top - neck > run[-1].top - run[-1].bottom:
        found.append(Named("neck", neck, top))
    return tuple(found)


def _standing_on(part: PartMeasures, index: int) -> list[Placed]:
    """The rows that stand on a row: two where it is divided."""
    return [row for row in part.placed if row.base == index and row.top > row.bottom and row.index not in part.edging]


def _steps_in(before: Placed, row: Placed, part: PartMeasures) -> tuple[bool, bool]:
    """Whether a row leaves places at its low and at its high edge unworked; towards another row that stands there it is a neck."""
    beside = [other for other in _standing_on(part, before.index) if other.index != row.index]
    low = row.ledge_low and row.low > before.low and not any(other.low < row.low for other in beside)
    high = row.ledge_high and row.high < before.high and not any(other.high > row.high for other in beside)
    return low, high


def divided_at(part: PartMeasures) -> float | None:
    """The height at which the rows of a part are first divided: two sides of a neck."""
    return next((row.top for row in _standing(part) if len(_standing_on(part, row.index)) > 1), None)


def neck_cm(part: PartMeasures) -> tuple[float, float] | None:
    """Where the neck of a part divided into two sides lies at the top of its highest side (cm along u); None of any other."""
    run = _standing(part)
    mine = {row.index for row in run}
    above = [row for row in part.placed if row.base in mine and row.index not in mine and row.top > row.bottom]
    if not above or divided_at(part) is None:
        return None
    branch = {above[0].index}
    other = above[0]
    for row in part.placed:
        if row.base in branch and row.index not in part.edging:
            branch.add(row.index)
            other = row if row.top >= other.top else other
    low, high = sorted((other, run[-1]), key=lambda row: row.low)
    return (low.high, high.low) if high.low - low.high > part.scale.unit_cm else None


def _neck_begins(part: PartMeasures, run: Sequence[Placed], armhole: float | None) -> float | None:
    """The height at which a neck begins: where rows are first divided; of half a front where the edge without the armhole leans in."""
    divided = divided_at(part)
    if divided is not None:
        return divided
    stepped = [_steps_in(before, row, part) for before, row in pairwise(run)]
    low, high = any(a for a, _ in stepped), any(b for _, b in stepped)
    if armhole is None or low == high:
        return None
    lean = [row.bottom for before, row in pairwise(run) if (row.high < before.high - 0.05 if low else row.low > before.low + 0.05)]
    return lean[0] if lean else None


def simplify(points: Sequence[Point], near: float) -> list[Point]:
    """The points of a line without those nearer than `near` to the line drawn without them.

    Source: Douglas and Peucker 1973, "Algorithms for the reduction of the number of points required to represent a digitized line" (from
    memory).
    """
    kept = {0, len(points) - 1}
    spans = [(0, len(points) - 1)]
    while spans:
        first, last = spans.pop()
        worst, far = -1, near
        for i in range(first + 1, last):
            off = _off(points[i], points[first], points[last])
            if off > far:
                worst, far = i, off
        if worst >= 0:
            kept.add(worst)
            spans += [(first, worst), (worst, last)]
    return [points[i] for i in sorted(kept)]


def _off(p: Point, a: Point, b: Point) -> float:
    """Distance of p from the stretch between a and b."""
    length = math.dist(a, b)
    if length < 1e-12:
        return math.dist(p, a)
    t = max(0.0, min(1.0, ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / length**2))
    return math.dist(p, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))


def colour_starts(part: PartMeasures) -> tuple[ColourStart, ...]:
    """Every row that begins with another yarn than the row before it, the first row included when any yarn is named."""
    worked = [row for row in part.part.rows if not row.foundation and row.index not in part.edging]
    if not any(yarn_of(row) not in ("", "new") for row in worked):
        return ()  # "new": yarn joined afresh, of no colour told
    found = [worked[0]] + [row for before, row in pairwise(worked) if yarn_of(row) != yarn_of(before)]
    return tuple(ColourStart(yarn_of(row), row.index, row.number, _foot_height(part, row.index)) for row in found)


def _foot_height(part: PartMeasures, index: int) -> float:
    if part.rounds is None:
        return part.placed[index].bottom
    before = [each.reach_cm for each in part.rounds.rounds if each.index < index]
    return before[-1] if before else 0.0
