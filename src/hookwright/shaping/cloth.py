"""A part as a cloth of nodes: one node for the top of every stitch and every chain, and what holds them apart.

Everything that holds the cloth is one kind of thing: a *tie*, a linear combination of a few nodes whose length should lie between a least
and a greatest. Heights are tied to the *foot*: the point on the row below that a stitch stands straight over when both rows are laid
side by side (a point between two nodes), not to the place it is worked into; posts in increases lean, rows do not.
"""

from __future__ import annotations

from array import array
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, TypeAlias

import numpy as np
import numpy.typing as npt

from ..measuring import Laid, PartMeasures
from ..measuring.rounds import begins_in_ring
from ..pattern import FLAT
from ..working.fabric import RING_FOOT, How, Role, RowWork, Stitches
from .facets import Marks, faceted, marks_of
from .ground import Ground, ground_of
from .turns import Turn, lengths_at, mitred, stacked, turns_of

Floats: TypeAlias = npt.NDArray[np.float64]
Ints: TypeAlias = npt.NDArray[np.int64]
Bools: TypeAlias = npt.NDArray[np.bool_]

_IN_CLOTH = np.zeros(256, dtype=bool)
_IN_CLOTH[[Role.STITCH, Role.START_TOP, Role.CHAIN, Role.FOUNDATION]] = True
_STANDS = np.zeros(256, dtype=bool)
_STANDS[[Role.STITCH, Role.START_TOP]] = True
SMOOTH = 2
"""Feet are averaged with so many neighbours on each side: an increase spreads its stitches over its neighbours' places too. In rounds
whose increases do not stand one over the other, with a tenth of the round: they even out from round to round."""


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """One row, ready to be tied: element of each node, its place along the row, its height, and its foot on the row below.

    `foot` indexes the two nodes of the base row (within that row) that the foot lies between, `share` how far towards the second (below 0
    or over 1 past its ends); `stands` marks the nodes that have a foot, `along` is the foot's place on the base row in cm.
    """

    element: Ints
    centre: Floats
    height: Floats
    stands: Bools
    foot: Ints
    share: Floats
    along: Floats
    most: Floats
    """Greatest distance to the next node: the whole length of the chains between, where they bow."""
    total: float
    step: Floats
    """Distance to the next node: along the row, or across a corner that lies between them."""
    bent: Bools
    """The nodes after which the row turns over places passed over."""
    braced: Bools
    """Chains that stand on nothing and are kept at `height` over `foot` by what is about them."""


@dataclass(frozen=True, slots=True, eq=False)
class Cloth:
    """All nodes of a part. Row r's nodes are `first[r]` … `first[r + 1] - 1`; `rows[r]` its sheet; `base[r]` the row it stands on or -1.

    `ring` is the node in the middle of a magic ring, or -1. `closed[r]`: its ends meet.
    """

    measures: PartMeasures
    rows: tuple[Sheet, ...]
    first: Ints
    base: tuple[int, ...]
    closed: tuple[bool, ...]
    ring: int
    nodes: int
    braces: tuple[tuple[int, int, float], ...] = ()
    """Pairs of nodes held so far apart (cm) besides: what keeps a cloth in shape where its rows do not."""
    posts: tuple[tuple[int, int, float], ...] = ()
    """(node, node it is worked into, longest in cm): the posts of end stitches where an edge is drawn in (see `_posts`)."""
    grounds: Mapping[int, Ints] = field(default_factory=dict)
    """Of rows that stand on several rows (see `ground`), the nodes that their feet count along; of any other it is the row `base`."""

    marks: Mapping[int, Marks] = field(default_factory=dict)
    """The corners of rounds that are laid out in facets."""

    def under(self, r: int, foot: Ints) -> Ints:
        """The nodes that feet of row r lie between (`foot` as in its sheet)."""
        ground = self.grounds.get(r)
        return np.asarray(self.first[self.base[r]] + foot if ground is None else ground[foot])


def cloth_of(measures: PartMeasures) -> Cloth:
    """The cloth of a part. Rows along row ends are left out (they have no places of their own to stand on)."""
    part = measures.part
    weaver = _Weaver(measures)
    base: list[int] = []
    drawn: list[_Drawn | None] = []
    grounds: dict[int, Ground] = {}
    for row in part.rows:
        below = _base_of(row)
        if below >= 0 and (not measures.laid[below].total_cm > 0 or (part.rows[below].foundation and begins_in_ring(part, row))):
            below = -1
        base.append(below)
        ground = ground_of(row, part.rows, measures.laid) if below >= 0 else None
        if ground is not None:
            grounds[row.index] = ground
        drawn.append(weaver.drawn(row, part.rows[below] if below >= 0 else None, ground) if _has_size(row, measures) else None)
    told = [(below, each.turns if each is not None else ()) for below, each in zip(base, drawn, strict=True)]
    corners = stacked(told, measures.scale.unit_cm)
    marks = _marks(measures)
    rows = [
        _EMPTY if each is None else weaver.sheet(each, tuple(sorted(here, key=_first_node)), marks.get(r))
        for r, (each, here) in enumerate(zip(drawn, corners, strict=True))
    ]
    counts = [len(sheet.element) for sheet in rows]
    first = np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)
    ring = int(first[-1]) if any(begins_in_ring(part, row) for row in part.rows) else -1
    closed = tuple(row.made_in not in FLAT and not (row.foundation and _oval(measures)) for row in part.rows)
    posts = () if grounds else _posts(measures, rows, base, first)
    nodes = {r: _nodes_of(ground, rows, first) for r, ground in grounds.items()}
    return Cloth(
        measures, tuple(rows), first, tuple(base), closed, ring, int(first[-1]) + (ring >= 0), posts=posts, grounds=nodes, marks=marks
    )


BOXES: Final = 4
"""Bottoms of so many corners make boxes; of more, the walls on them round them off (a judgement, no source)."""


def _marks(measures: PartMeasures) -> dict[int, Marks]:
    """The corners of a flat piece in rounds, or of the flat bottom of one that stands."""
    rounds = measures.rounds
    if rounds is None or not rounds.corners or rounds.spine_cm:
        return {}
    if rounds.lies != "flat" and not (rounds.flat_base and rounds.corners <= BOXES):
        return {}
    found = marks_of(measures.part.rows, measures.laid, rounds.corners, measures.scale.unit_cm)
    if rounds.lies == "flat":
        return found
    bottom = {each.index for each in rounds.rounds[: rounds.flat_base]}
    return {r: marks for r, marks in found.items() if r in bottom}


def _nodes_of(ground: Ground, rows: Sequence[Sheet], first: Ints) -> Ints:
    found = [int(first[r]) + int(np.searchsorted(rows[r].element, e)) for r, e in zip(ground.rows, ground.elements, strict=True)]
    return np.array(found, dtype=np.int64)


LEANS: Final = 1.0
"""An end stitch leans so many stitch widths outward without drawing: bevels of one stitch a row come out as the gauge has them."""
DRAWS: Final = 1.3
"""From so many stitch widths on its post is too short, and the edge is drawn in."""
MOST_ROWS: Final = 0.6
"""The share of rows that must lean so far out at an edge for it to be drawn in: one here and there is taken up."""


def _posts(measures: PartMeasures, rows: Sequence[Sheet], base: Sequence[int], first: Ints) -> tuple[tuple[int, int, float], ...]:
    """The posts that hold back an edge which gains two or more stitches in every row: they are no longer than the stitch, however far out
    its top should stand, so the edge is short and the rows bend towards it (a crescent). That shaped edges are tight: Shaping Crochet
    Edges (Designing Vashti, designingvashti.blogspot.com, June 2009); how far a stitch leans unhindered is a judgement, no source.
    """
    if measures.in_rounds or measures.tiles is not None:
        return ()
    unit = measures.scale.unit_cm
    sides: dict[bool, list[tuple[int, int, float]]] = {False: [], True: []}
    asked = 0
    for r, (sheet, b) in enumerate(zip(rows, base, strict=True)):
        if b < 0 or not sheet.stands.any() or len(rows[b].element) < 2:
            continue
        under, asked = rows[b].centre, asked + 1
        stands = np.flatnonzero(sheet.stands)
        for k in (int(stands[0]), int(stands[-1])):
            low, high = float(under[0] - sheet.along[k]), float(sheet.along[k] - under[-1])
            if max(low, high) <= DRAWS * unit:
                continue
            high_end = (measures.placed[b].direction > 0) == (high > low)
            foot = int(first[b]) + (0 if low > high else len(under) - 1)
            sides[high_end].append((int(first[r]) + k, foot, float(np.hypot(sheet.height[k], LEANS * unit))))
    return tuple(post for side in sides.values() if len(side) >= max(3, MOST_ROWS * asked) for post in side)


def _first_node(corner: tuple[Turn, float]) -> int:
    return corner[0].before


_NONE = np.zeros(0)
_EMPTY = Sheet(
    _NONE.astype(np.int64),
    _NONE,
    _NONE,
    _NONE.astype(bool),
    np.zeros((0, 2), np.int64),
    _NONE,
    _NONE,
    _NONE,
    0.0,
    _NONE,
    _NONE.astype(bool),
    _NONE.astype(bool),
)


def _has_size(row: RowWork, measures: PartMeasures) -> bool:
    part = measures.part
    if row.foundation and row.index + 1 < len(part.rows) and begins_in_ring(part, part.rows[row.index + 1]):
        return False  # a chain joined to the ring that Row 1 stands in
    return row.index not in measures.edging and measures.laid[row.index].total_cm > 0


def _base_of(row: RowWork) -> int:
    return row.below if row.below is not None and 0 <= row.below < row.index else -1


def _oval(measures: PartMeasures) -> bool:
    """Whether its rounds run round both sides of a chain, which then lies straight in the middle."""
    return measures.rounds is not None and measures.rounds.spine_cm > 0


@dataclass(frozen=True, slots=True, eq=False)
class _Drawn:
    """One row over the row below, before its feet are evened: by node, `feet` where it is worked into along the base row (cm)."""

    row: RowWork
    laid: Laid
    under_cm: float | None
    base_centre: Floats
    element: Ints
    centre: Floats
    height: Floats
    feet: Floats
    stands: Bools
    solo: Bools
    closed: bool
    spine: bool
    turns: tuple[Turn, ...] = ()
    way: float = 1.0


@dataclass(slots=True)
class _Weaver:
    """Turns rows into sheets, each pair of (row, row below) once."""

    measures: PartMeasures
    _drawn: dict[tuple[int, int], _Drawn] = field(default_factory=dict)
    _sheets: dict[tuple[int, tuple[tuple[Turn, float], ...], Marks | None], Sheet] = field(default_factory=dict)

    def drawn(self, row: RowWork, base: RowWork | None, ground: Ground | None = None) -> _Drawn:
        laid = self.measures.laid[row.index]
        under = self.measures.laid[base.index] if base is not None else None
        if ground is not None:
            return self._on_ground(row, laid, ground)
        key = (id(laid), id(under))
        if key not in self._drawn:
            self._drawn[key] = self._draw(row, base, laid, under)
        return self._drawn[key]

    def sheet(self, drawn: _Drawn, corners: tuple[tuple[Turn, float], ...], marks: Marks | None = None) -> Sheet:
        key = (id(drawn), corners, marks)
        if key not in self._sheets:
            self._sheets[key] = self._make(drawn, corners, marks)
        return self._sheets[key]

    def _draw(self, row: RowWork, base: RowWork | None, laid: Laid, under: Laid | None) -> _Drawn:
        st = row.stitches
        role = np.frombuffer(st.role, dtype=np.uint8)
        element = np.flatnonzero(_IN_CLOTH[role])
        centre = np.asarray(laid.centre_cm)[element] if len(element) else _NONE
        spine = base is not None and base.foundation and _oval(self.measures)
        ring = base is None and begins_in_ring(self.measures.part, row)
        feet, stands = _feet(st, row, base, under, turns=not spine, ring=ring)
        stands = stands[element] & _STANDS[role[element]]
        solo = _solo(st, element)
        closed = base is not None and row.made_in not in FLAT and base.made_in not in FLAT
        base_centre = _NONE
        turns: list[Turn] = []
        way = 1.0
        if base is not None and under is not None:
            base_centre = np.asarray(under.centre_cm)[_IN_CLOTH[np.frombuffer(base.stitches.role, dtype=np.uint8)]]
            if row.made_in in FLAT and stands.any() and not (solo & stands).all():
                turns, way = turns_of(feet[element], stands, solo, centre, self.measures.scale.unit_cm)
        return _Drawn(
            row, laid, None if under is None else under.total_cm, base_centre, element, centre, self._heights(row, laid)[element],
            feet[element], stands, solo, closed, spine, tuple(turns), way,
        )  # fmt: skip

    def _on_ground(self, row: RowWork, laid: Laid, ground: Ground) -> _Drawn:
        """A row over the several rows that it stands on."""
        role = np.frombuffer(row.stitches.role, dtype=np.uint8)
        element = np.flatnonzero(_IN_CLOTH[role])
        return _Drawn(
            row, laid, ground.total_cm, ground.centre, element, np.asarray(laid.centre_cm)[element], self._heights(row, laid)[element],
            ground.feet[element], ground.stands[element] & _STANDS[role[element]], _solo(row.stitches, element), False, False,
        )  # fmt: skip

    def _make(self, it: _Drawn, corners: tuple[tuple[Turn, float], ...], marks: Marks | None) -> Sheet:
        n, laid, under = len(it.element), it.laid, it.under_cm
        foot, share, along = np.zeros((n, 2), np.int64), np.zeros(n), np.zeros(n)
        height, bent = it.height, np.zeros(n, dtype=bool)
        step = np.append(np.diff(it.centre), 0.0) if n else _NONE
        if under is not None and it.stands.any():
            wide = max(SMOOTH, n // 10) if it.closed and not self._corners() else SMOOTH
            closed = it.closed and not it.spine
            laid_out = None
            if marks is not None and closed:
                way = float(np.sign(np.sign(np.diff(it.feet[it.stands])).sum()) or 1.0)
                tall = np.interp(np.arange(n), np.flatnonzero(it.stands), it.height[it.stands])
                laid_out = faceted(marks, it.centre, tall, laid.total_cm, under, way)
                along, step, bent = laid_out.along, laid_out.step, laid_out.bent
            elif corners:
                along = mitred(self._evened(it, laid, under, corners), it.centre, corners, it.way)
            else:
                along = it.feet if it.spine else _smooth(it.feet, it.stands, it.centre, laid, under, closed, it.solo, wide)
            foot, share = _between(along, it.base_centre, under, closed)
            if laid_out is not None:
                height = laid_out.heights(tall, it.base_centre, under, foot, share)
            elif corners:
                height, step, bent = lengths_at(corners, it.way, along, it.height, it.centre, it.base_centre, foot, share)
        elif it.stands.any():
            along = it.centre
        most = np.where(bent, step, self._most(it.row.stitches, it.element, it.centre))
        braced = ~it.stands & (most <= step + 1e-9) if marks is not None else np.zeros(n, dtype=bool)
        return Sheet(it.element, it.centre, height, it.stands, foot, share, along, most, laid.total_cm, step, bent, braced)

    def _evened(self, it: _Drawn, laid: Laid, under: float, corners: Sequence[tuple[Turn, float]]) -> Floats:
        """The feet of a row, evened between its corners."""
        along = it.feet.copy()
        begins, ends = [0, *(turn.after for turn, _ in corners)], [*(turn.before for turn, _ in corners), len(along) - 1]
        for a, b in zip(begins, ends, strict=True):
            run = slice(a, b + 1)
            along[run] = _smooth(it.feet[run], it.stands[run], it.centre[run], laid, under, False, it.solo[run], SMOOTH)
        return along

    def _corners(self) -> int:
        rounds = self.measures.rounds
        return rounds.corners if rounds is not None else 0

    def _heights(self, row: RowWork, laid: Laid) -> Floats:
        scale, st = self.measures.scale, row.stitches
        by_kind = np.array([scale.height_cm(name) for name in st.names])
        heights = by_kind[np.asarray(st.kind)] if len(st) else _NONE
        for i, name in st.stands.items():
            heights[i] = scale.height_cm("dc" if name == "ch" else name)
        return heights

    def _most(self, st: Stitches, element: Ints, centre: Floats) -> Floats:
        """Greatest distance from each node to the next: chains that bow may straighten."""
        apart = np.diff(centre)
        role = np.frombuffer(st.role, dtype=np.uint8)[element]
        if not (role == Role.CHAIN).any():
            return np.append(apart, 0.0)
        full = np.array([self.measures.scale.width_cm(st.name(int(i))) for i in element])
        free = (role[:-1] == Role.CHAIN) | (role[1:] == Role.CHAIN)
        return np.append(np.where(free, np.maximum(apart, (full[:-1] + full[1:]) / 2), apart), 0.0)


def _ints(values: array[int]) -> Ints:
    return np.asarray(values, dtype=np.int64)


def _counts(st: Stitches) -> Ints:
    """How many feet each element has."""
    feet = _ints(st.feet)
    return np.asarray(feet[1:] - feet[:-1], dtype=np.int64)


def _feet(st: Stitches, row: RowWork, base: RowWork | None, under: Laid | None, *, turns: bool, ring: bool) -> tuple[Floats, Bools]:
    """For every element the mean place of its feet on the base row (cm along it), and whether it has one there (or in the ring)."""
    n = len(st)
    at, back = _ints(st.foot_at), _ints(st.foot_back)
    owner = np.repeat(np.arange(n), _counts(st))
    how = np.frombuffer(st.foot_how, dtype=np.uint8)
    if base is None or under is None:
        stands = np.zeros(n, dtype=bool)
        stands[owner if ring else owner[at == RING_FOOT]] = True
        return np.zeros(n), stands
    good = (row.index - back == base.index) & (at >= 0) & (at < len(under.centre_cm)) & (how != How.SIDE)
    centre = np.asarray(under.centre_cm)
    total: Floats = np.asarray(np.bincount(owner[good], weights=centre[at[good]], minlength=n), dtype=np.float64)
    many = np.bincount(owner[good], minlength=n)
    if turns and row.made_in not in FLAT and under.total_cm > 0:
        total = total - _turns_over(owner[good], centre[at[good]], n, under.total_cm)
    return np.asarray(total / np.maximum(many, 1)), many > 0


def _turns_over(owner: Ints, place: Floats, n: int, whole: float) -> Floats:
    """What to take off each sum of places where a stitch's feet lie on both sides of the start of a round."""
    first = np.full(n, np.nan)
    first[owner[::-1]] = place[::-1]
    over = np.round((place - first[owner]) / whole)
    return np.asarray(whole * np.bincount(owner, weights=over, minlength=n))


def _solo(st: Stitches, element: Ints) -> Bools:
    """Which nodes stand alone in one place of their own (neither together nor several in one place)."""
    counts, at = _counts(st), _ints(st.foot_at)
    if not len(at):
        return np.zeros(len(element), dtype=bool)
    taken = np.bincount(at[at >= 0], minlength=1)
    one = counts == 1
    place = np.where(one, at[np.minimum(_ints(st.feet)[:-1], len(at) - 1)], -1)
    alone = one & (place >= 0)
    alone[alone] = taken[place[alone]] == 1
    return np.asarray(alone[element])


def _smooth(feet: Floats, stands: Bools, centre: Floats, laid: Laid, under: float, closed: bool, solo: Bools, wide: int) -> Floats:
    """Where each node's foot lies on the base row: what it stands on, averaged with its neighbours so that rows stay even.

    At the ends of a flat row, stitches of a shaping (two in the last place, the last two together) follow the plain stitches beside them.
    """
    way = np.sign(np.sign(np.diff(feet[stands])).sum()) or 1.0
    stretch = way * (under / laid.total_cm if closed and laid.total_cm > 0 else 1.0)
    off = feet - stretch * centre
    if closed:
        off -= under * np.round((off - np.median(off[stands])) / under)
        off = np.interp(np.arange(len(off)), np.flatnonzero(stands), off[stands], period=len(off)) if not stands.all() else off
        return stretch * centre + _average(off, "wrap", wide)
    anchor = np.flatnonzero(stands & solo)
    inner = np.flatnonzero(stands)
    if len(anchor):
        inner = inner[(inner >= anchor[0]) & (inner <= anchor[-1])]
    off = np.interp(np.arange(len(off)), inner, off[inner])
    return stretch * centre + _average(off, "edge", wide)


def _average(values: Floats, mode: str, wide: int) -> Floats:
    """Each value with its neighbours: a moving mean twice over (a triangle of weights)."""
    reach = min(wide, max(0, (len(values) - 1) // (4 if mode == "wrap" else 1)))
    if reach == 0 or np.ptp(values) < 1e-9:
        return values
    for _ in range(2):
        padded = np.pad(values, reach, mode=mode)  # type: ignore[call-overload]
        sums = np.concatenate([[0.0], np.cumsum(padded)])
        values = (sums[2 * reach + 1 :] - sums[: -2 * reach - 1]) / (2 * reach + 1)
    return values


def _between(place: Floats, base: Floats, whole: float, closed: bool) -> tuple[Ints, Floats]:
    """The two base nodes that each place lies between, and how far towards the second."""
    n = len(base)
    if n < 2:
        return np.zeros((len(place), 2), np.int64), np.zeros(len(place))
    if closed:
        turns = np.floor((place - base[0]) / whole)
        place = place - turns * whole
        j = np.maximum(np.searchsorted(base, place, side="right") - 1, 0)  # rounding may leave a place a hair before the first node
        nxt = (j + 1) % n
        step = np.where(nxt == 0, base[0] + whole - base[-1], base[nxt] - base[j])
        share = (place - base[j]) / np.maximum(step, 1e-9)
    else:
        j = np.clip(np.searchsorted(base, place, side="right") - 1, 0, n - 2)
        nxt = j + 1
        share = np.clip((place - base[j]) / np.maximum(base[nxt] - base[j], 1e-9), -2.0, 3.0)
    near = np.abs(share - np.round(share)) < 1e-6
    share = np.where(near, np.round(share), share)
    return np.stack([j, nxt], axis=1), share
