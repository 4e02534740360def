"""The shape of a whole fabric: solved where the unrolled start does not already fit, and what it says about each part."""

from __future__ import annotations

import time
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from ..measuring import Assembled, Lies, Measures, PartMeasures, put_together
from .blocks import cloth_of_blocks
from .cloth import Cloth, Floats, Ints, cloth_of
from .coarse import by_distances
from .full_rows import too_full
from .relax import Relaxed, edge_error, factor, relax, stretch
from .skin import pressed_flat, stuffing, triangles
from .start import gathered, unroll
from .stuffed import pressure
from .ties import HEIGHT, ROW, Ties, ties_of

if TYPE_CHECKING:
    from .assembling import TogetherShape

FITS: Final = 0.01
"""An unrolled start with an RMS error up to 1 % is the answer; the solver would move it by less than hands differ."""
GIVE: Final = 0.03
"""What a round piece laid flat takes up without showing it: rounds are seldom exactly as full as a plane wants."""
GOOD: Final = 1e-2
"""A gain smaller than this share of the energy, three steps running, ends the solving."""
SMALL: Final = 1_000
GOOD_SMALL: Final = 1e-3
"""Stuffed pieces up to so many nodes, where it costs nothing, end later: their poles are few stitches and move last. On larger ones girth
and height are the same within 0.2 %."""
TABLE: Final = 0.3
"""How firmly what lies on a table is held to it, beside the ties, per stitch width off it (by looking at pictures)."""
CANNOT_LIE: Final = 0.05
"""Rows laid flat that stay further off than this (RMS, beyond what gives) do not lie flat: they are then solved in space."""
CANNOT_BRIDGE: Final = 0.10
"""The same for pieces whose rows go on over the steps of short rows: a step is taken up by the stitches about it, and pulled flat."""
BURST: Final = 0.05
"""A stuffed piece stretched further than this (RMS) was not closed enough to be stuffed."""
ASTRAY: Final = 0.02
"""A solved piece further off than this (RMS) is solved again from distances alone, and the better of the two is kept."""
FOLDED: Final = 0.03
"""A flat piece with more than this share of its area face down lies folded."""
MOST_AGAIN: Final = 30_000
"""Nodes beyond which a piece is not solved again from distances."""
LARGEST: Final = 400_000
"""Nodes beyond which a part is drawn from its unrolled start alone."""

Solve = Literal["needed", "always", "never"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seconds:
    """Where the time went."""

    cloth: float
    ties: float
    start: float
    factor: float = 0.0
    run: float = 0.0

    @property
    def total(self) -> float:
        return self.cloth + self.ties + self.start + self.factor + self.run


@dataclass(frozen=True, kw_only=True)
class PartShape:
    """One part in space. `at` n x 3, cm: flat pieces lie in z = 0, x from edge A to B, y upward; the axis of rounds is z.

    `error` is the RMS of how far row and height ties are outside what the fabric takes up, `strain` that of their whole departure from
    the gauge; 0.01 is 1 %.
    """

    measures: PartMeasures
    cloth: Cloth
    ties: Ties
    at: Floats
    start_error: float
    error: float
    flat: bool
    crowded: bool = False
    """Whether its rows were too long, rather than too short, to be laid flat (asked only where they could not be)."""
    give: float
    """The share that the fabric takes up; `error` counts what is beyond it."""
    solved: bool
    settled: bool
    iterations: int
    seconds: Seconds
    stood: Floats | None = None
    """Of a strip on the edge of another part: where the feet of its first row stand (n x 3), by element."""

    @cached_property
    def lies(self) -> Lies:
        """How it lies: by arithmetic, unless rows worked flat turned out to be unable to (then they ruffle, or cup where they pull in)."""
        if self.measures.in_rounds or self.flat:
            return self.measures.lies
        return "ruffles" if self.crowded else "cups"

    @cached_property
    def strain(self) -> float:
        return edge_error(self.ties, self.at)

    @cached_property
    def stretch(self) -> Floats:
        """For every tie, its length over the gauge's, less 1 (chains that bow: 0 up to their whole length)."""
        return stretch(self.ties, self.at)

    @cached_property
    def faces(self) -> Ints:
        return triangles(self.cloth)

    @property
    def note(self) -> str:
        """How the positions were found, as a sentence."""
        if not self.solved:
            return f"The unrolled start fits (RMS {100 * self.start_error:.2f} %), nothing had to be solved."
        how = "Settled" if self.settled else "Could not settle"
        begun = f"{100 * self.start_error:.2f} % as unrolled"
        return f"{how} after {self.iterations} steps; lengths are {100 * self.error:.2f} % off (RMS), {begun}."

    # --- sizes as solved

    @cached_property
    def row_lengths_cm(self) -> Floats:
        """Length of every row along its stitches (a round's girth), half a stitch at each end of a flat row included."""
        found = np.zeros(len(self.cloth.rows))
        for r, sheet in enumerate(self.cloth.rows):
            if len(sheet.element) > 1:
                at = self.at[int(self.cloth.first[r]) : int(self.cloth.first[r + 1])]
                steps = np.linalg.norm(np.diff(at, axis=0), axis=1).sum()
                ends = np.linalg.norm(at[0] - at[-1]) if self.cloth.closed[r] else sheet.total - sheet.centre[-1] + sheet.centre[0]
                found[r] = steps + ends
            elif len(sheet.element):
                found[r] = sheet.total
        return found

    @property
    def width_cm(self) -> float:
        """Of a flat piece its widest row from side to side, of rounds laid flat the diameter, of other rounds half the girth."""
        if self.measures.tiles is not None:
            return self.measures.width_cm * self._beside_start(0)
        if not self.measures.in_rounds:
            return max((self._across(row.index) for row in self.measures.part.rows if not row.foundation), default=0.0)
        if self.flat and self._oval:
            return self._extent(0)
        return self.diameter_cm if self.flat else self.girth_cm / 2

    def _across(self, r: int) -> float:
        sheet, at = self.cloth.rows[r], self.at[int(self.cloth.first[r]) : int(self.cloth.first[r + 1])]
        if not len(at):
            return 0.0
        return float(np.ptp(at[:, 0])) + sheet.total - float(sheet.centre[-1] - sheet.centre[0])

    @property
    def length_cm(self) -> float:
        """Of a flat piece its extent across the rows, of a flat round the diameter, else the height."""
        if self.measures.tiles is not None:
            return self.measures.length_cm * self._beside_start(1)
        if self.measures.in_rounds and not (self.flat and self._oval):
            return self.diameter_cm if self.flat else self.height_cm
        return self._extent(1)

    def _beside_start(self, axis: int) -> float:
        """How much further apart its nodes lie than at the unrolled start, over all of them (the slope of the line through them)."""
        begun = unroll(self.cloth)[:, axis]
        about = begun - begun.mean() if len(begun) else begun
        return float(about @ self.at[:, axis] / (about @ about)) if len(begun) and about.any() else 1.0

    @property
    def _oval(self) -> bool:
        return self.measures.rounds is not None and self.measures.rounds.spine_cm > 0

    @cached_property
    def girth_cm(self) -> float:
        return float(self.row_lengths_cm.max(initial=0.0))

    @cached_property
    def diameter_cm(self) -> float:
        """Twice the mean distance of the widest round from its middle; with corners, that of the middles of its sides."""
        r = int(self.row_lengths_cm.argmax())
        at = self.at[int(self.cloth.first[r]) : int(self.cloth.first[r + 1])]
        if r in self.cloth.marks:
            sheet, own = self.cloth.rows[r], np.array(self.cloth.marks[r].own)
            middles = own + np.mod(np.roll(own, -1) - own, sheet.total) / 2
            apart = np.mod(sheet.centre[:, None] - middles + sheet.total / 2, sheet.total) - sheet.total / 2
            nearest = at[np.abs(apart).argmin(axis=0)]
            return 2 * float(np.linalg.norm(nearest - at.mean(axis=0), axis=1).mean())
        return 2 * float(np.linalg.norm(at - at.mean(axis=0), axis=1).mean()) if len(at) else 0.0

    @property
    def height_cm(self) -> float:
        """Extent along the axis, of a piece on a flat bottom without the dimple that its ring may make."""
        if _base(self.measures) and self.cloth.ring >= 0:
            return float(np.ptp(np.delete(self.at[:, 2], self.cloth.ring)))
        return self._extent(2)

    def _extent(self, axis: int) -> float:
        return float(np.ptp(self.at[:, axis])) if len(self.at) else 0.0


@dataclass(frozen=True, kw_only=True)
class Shape:
    """All parts of a fabric in space."""

    measures: Measures
    parts: tuple[PartShape, ...]

    @cached_property
    def together(self) -> tuple[tuple[Assembled, TogetherShape | None], ...]:
        """What the parts make, and how they lie relaxed together (None: one piece as worked, or their places are not known)."""
        from .assembling import assemble  # which builds on this module

        return tuple((thing, assemble(thing, self)) for thing in put_together(self.measures))


def shape(measures: Measures, *, solve: Solve = "needed", seconds: float = 20.0) -> Shape:
    """Shape every part of a measured fabric. `solve`: where needed, always (also what fits), or never. Never raises on odd fabrics."""
    return Shape(measures=measures, parts=tuple(shape_part(part, solve=solve, seconds=seconds) for part in measures.parts))


def shape_part(
    measures: PartMeasures, *, solve: Solve = "needed", start: Floats | None = None, flat: bool | None = None, seconds: float = 20.0
) -> PartShape:
    """Shape one part. `start`: positions to begin from (n x 3) instead of the unrolled ones, then always solved; `flat`: solve in the plane
    (None: rows and whatever lies flat by arithmetic)."""
    times = [time.perf_counter()]
    tiles = measures.tiles
    cloth = cloth_of(measures) if tiles is None else cloth_of_blocks(measures, tiles)[0]
    gather = tiles is None and not measures.in_rounds and not flat and too_full(cloth)
    flat = (measures.lies == "flat" and not gather) if flat is None else flat
    times.append(time.perf_counter())
    give = _give(measures, flat)
    ties = ties_of(cloth, flat=flat)
    times.append(time.perf_counter())
    begun = gathered(cloth) if gather else unroll(cloth, flat=flat)
    start_error = edge_error(ties, begun, give)
    times.append(time.perf_counter())
    wanted = start is not None or solve == "always" or (solve == "needed" and (not start_error <= FITS or bool(cloth.posts)))
    relaxed = None
    if wanted and 1 < cloth.nodes <= LARGEST:
        relaxed = _solve(measures, cloth, ties, begun if start is None else start, flat, seconds, start is not None)
    spent = Seconds(
        cloth=times[1] - times[0], ties=times[2] - times[1], start=times[3] - times[2],
        factor=relaxed.seconds_factor if relaxed else 0.0, run=relaxed.seconds_run if relaxed else 0.0,
    )  # fmt: skip
    out = relaxed or Relaxed(at=begun, error=start_error, settled=True, iterations=0, seconds_factor=0.0, seconds_run=0.0)
    made = PartShape(
        measures=measures, cloth=cloth, ties=ties, at=begun if relaxed is None else _squared(_in_space(out.at), begun),
        start_error=start_error, error=edge_error(ties, out.at, give), flat=flat, give=give, solved=relaxed is not None,
        settled=out.settled, iterations=out.iterations, seconds=spent, crowded=gather,
    )  # fmt: skip
    if flat and not measures.in_rounds and made.error > most_error(cloth) and relaxed is not None:
        rows = ties.kind == ROW
        free = shape_part(measures, solve="always", start=off_the_saddle(made.at), flat=False, seconds=seconds)
        return replace(free, start_error=start_error, crowded=bool(made.stretch[rows].mean() < 0))
    return made


def most_error(cloth: Cloth) -> float:
    """How far off (RMS) rows laid flat may stay and still be said to lie flat."""
    return CANNOT_BRIDGE if cloth.grounds else CANNOT_LIE


def _solve(measures: PartMeasures, cloth: Cloth, ties: Ties, start: Floats, flat: bool, seconds: float, given: bool) -> Relaxed:
    """Relax from `start`; where that ends astray, from distances alone as well.

    Rounds pressed flat that are far from a plane's fullness are meant to stay off; they are solved again only from a start `given`.
    """
    first = _relax(measures, cloth, ties, start, flat, seconds)
    if cloth.nodes > MOST_AGAIN or (flat and measures.in_rounds and not given) or not _astray(measures, cloth, ties, first, flat):
        return first
    again = _relax(measures, cloth, ties, _in_space(by_distances(ties, cloth.nodes, 2 if flat else 3)), flat, seconds)
    if _folded(cloth, again, flat):
        return first
    better = again.error < first.error or _folded(cloth, first, flat)
    kept = again if better else first
    return replace(
        kept, iterations=first.iterations + again.iterations, seconds_run=first.seconds_run + again.seconds_run,
        seconds_factor=first.seconds_factor + again.seconds_factor,
    )  # fmt: skip


def _astray(measures: PartMeasures, cloth: Cloth, ties: Ties, out: Relaxed, flat: bool) -> bool:
    return edge_error(ties, out.at, _give(measures, flat)) > ASTRAY or _folded(cloth, out, flat)


def _folded(cloth: Cloth, out: Relaxed, flat: bool) -> bool:
    """Whether a flat piece lies folded on itself, however small its edge error: some of its meshes then lie face down."""
    faces = triangles(cloth) if flat else np.zeros((0, 3), np.int64)
    if not len(faces):
        return False
    area = _facing(out.at, faces) * np.sign(_facing(unroll(cloth, flat=True), faces))
    down, up = float(-area[area < 0].sum()), float(area[area > 0].sum())
    return min(down, up) > FOLDED * (down + up)


def _facing(at: Floats, faces: Ints) -> Floats:
    """Twice the area of each triangle in the plane; the sign tells which way it faces."""
    a, b, c = (at[faces[:, k]] for k in range(3))
    return np.asarray((b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0]))


def _base(measures: PartMeasures) -> int:
    return measures.rounds.flat_base if measures.rounds is not None else 0


def _give(measures: PartMeasures, flat: bool) -> float:
    """What the fabric takes up unseen: of round pieces on a table, and of bottoms that walls stand on."""
    return GIVE if measures.in_rounds and (flat or _base(measures)) else 0.0


def _relax(measures: PartMeasures, cloth: Cloth, ties: Ties, start: Floats, flat: bool, seconds: float) -> Relaxed:
    if flat:
        return relax(ties, np.ascontiguousarray(start[:, :2]), seconds=seconds, good=GOOD)
    start = off_the_saddle(start)
    if _base(measures) and measures.rounds is not None:
        last = measures.rounds.rounds[_base(measures) - 1].index
        bottom = np.arange(int(cloth.first[last + 1]))
        bottom = bottom if cloth.ring < 0 else np.append(bottom, cloth.ring)
        return _on_table(ties, start, bottom, measures.scale.unit_cm, seconds)
    if measures.lies != "closed" or measures.rounds is None:
        return relax(ties, start, seconds=seconds)
    push = stuffing(cloth, triangles(cloth), start, pressure=pressure(cloth))
    good, fits = (GOOD_SMALL, 0.0) if cloth.nodes <= SMALL else (GOOD, FITS)  # it starts as stuffing leaves it
    stuffed = relax(ties, start, extra=push, good=good, fits=fits, seconds=seconds)
    if stuffed.error <= BURST and _whole(measures, stuffed):
        return stuffed
    return relax(ties, start, seconds=seconds)  # it has holes or loose chains that stuffing would tear wide: it is shaped empty


def _on_table(ties: Ties, start: Floats, bottom: Ints, unit: float, seconds: float) -> Relaxed:
    """Relax a piece some of whose nodes are a flat bottom that stands on a table."""
    held = np.zeros(len(start))
    held[bottom] = TABLE / unit**2
    return relax(ties, start, extra=pressed_flat(TABLE / unit**2, bottom), solver=factor(ties, held), seconds=seconds)


def _whole(measures: PartMeasures, out: Relaxed) -> bool:
    """Whether nothing was blown away: no part of a closed piece lies further off than the fabric reaches."""
    rounds = measures.rounds
    reach = 0.0 if rounds is None else rounds.rounds[-1].reach_cm + rounds.girth_cm
    return float(np.ptp(out.at, axis=0).max()) <= 1.2 * reach


def off_the_saddle(start: Floats) -> Floats:
    """A start with a tenth of a millimetre of unevenness (the same every time): a flat start is balanced on a saddle."""
    n = np.arange(len(start))
    return np.asarray(start + 0.01 * np.stack([np.sin(12.9898 * n), np.sin(78.233 * n + 1), np.sin(37.719 * n + 2)], axis=1))


def _in_space(at: Floats) -> Floats:
    return at if at.shape[1] == 3 else np.column_stack([at, np.zeros(len(at))])


def _squared(at: Floats, like: Floats) -> Floats:
    """Turned and moved to lie as nearly as can be over `like` (Kabsch 1976, from memory); never mirrored unless that is far nearer."""
    middle, target = at.mean(axis=0), like.mean(axis=0)
    u, _, vt = np.linalg.svd((at - middle).T @ (like - target))
    turn = u @ vt
    if np.linalg.det(turn) < 0:
        turn = u @ np.diag([1.0, 1.0, -1.0]) @ vt
    return np.asarray((at - middle) @ turn + target)


def node_stretch(part: PartShape) -> tuple[Floats, Floats]:
    """(along the row, up the stitch) for every node: the mean stretch of its ties, 0.2 = 20 % too long, negative = crowded."""
    found = []
    for kind in (ROW, HEIGHT):
        ties = np.flatnonzero(part.ties.kind == kind)
        rows = part.ties.matrix[ties]
        owner = np.abs(rows) > 0
        total = owner.T @ part.stretch[ties]
        many = owner.T @ np.ones(len(ties))
        found.append(np.asarray(total / np.maximum(many, 1)))
    return found[0], found[1]
