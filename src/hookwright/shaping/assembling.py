"""Parts put together in space: each where it belongs, joined by its seams, borders standing on their edges, relaxed as one.

Coordinates as for parts: flat things lie in z = 0; what stands has z upward, its front towards -y.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from ..measuring import Assembled, Border, PartMeasures
from ..measuring.elements import Layer
from ..working.fabric import PartWork
from .cloth import Floats
from .garments import garment
from .joined import MOST, Joined, Whole
from .piece import PartShape, Shape, shape_part
from .rims import Rim, chained, edge_rim, first_rim, last_rim, round_the_start, row_rim, side_rim, sides_of_motif
from .sewn import sewn_together
from .strips import stand_on, strip_row

DEPTH: Final = 0.12
"""How far front and back of a sewn thing bulge before it is relaxed, over its width (a start; the seams and lengths decide)."""
DOME: Final = 0.1
"""How high a piece whose border pulls is arched before it is relaxed, over its width (a start, as `DEPTH`)."""
_TOUCH: Final = math.pi / 14
"""Half of the arc over which two round motifs are joined where they touch."""


@dataclass(frozen=True, kw_only=True)
class TogetherShape:
    """One thing made of parts. `parts` where they lie, each copy for itself; `indices` which part of the fabric each is (-1: an edging);
    `stands`: z is up."""

    thing: Assembled
    parts: tuple[PartShape, ...]
    indices: tuple[int, ...]
    joined: Joined
    stands: bool

    @property
    def note(self) -> str:
        """How the parts came to lie together, as a sentence."""
        it = self.joined
        if not it.solved:
            return f"Relaxed together, everything fits where it is put (RMS {100 * it.error:.2f} %)."
        how = "Settled" if it.settled else "Could not settle"
        gap = f", seams gape by {10 * it.gap_cm:.1f} mm" if it.gap_cm >= 0.05 else ""
        return f"Relaxed together: {how.lower()} after {it.steps} steps, lengths are {100 * it.error:.2f} % off (RMS){gap}."

    def extent(self) -> tuple[float, float, float]:
        """Width, depth and height (cm) of all nodes and half a stitch at every side of flat things."""
        at = np.concatenate([part.at for part in self.parts])
        wide, deep, high = (float(np.ptp(at[:, k])) for k in range(3))
        return wide, deep, high

    @property
    def size_cm(self) -> tuple[float, float]:
        """Width and length of a flat thing as relaxed; of what stands its width and height."""
        wide, deep, high = self.extent()
        if self.stands:
            return wide, high
        along = {edge.edge for each in self.thing.along for edge in each.edges} | {border.edge for border in self.thing.edgings}
        edge = 0.0 if self.thing.border is not None else self._inside() * (1 - len(along & {"A", "B"}) / 2)
        return wide + edge, deep

    def _inside(self) -> float:
        """The halves of stitches beyond the outermost nodes, across the width."""
        return 0.0 if self.parts[0].measures.in_rounds else self.parts[0].measures.scale.unit_cm


def assemble(thing: Assembled, shape: Shape) -> TogetherShape | None:
    """The parts of a thing in their places, relaxed together; None where the places are not known or they are too many stitches."""
    makers: dict[str, Callable[[Assembled, Shape], TogetherShape | None]] = {
        "blanket": _blanket, "bordered": _blanket, "tube": _tube, "bag": _two_layers, "cushion": _two_layers, "garment": _garment,
        "vessel": _on_base, "sewn on": _sewn_on,
    }  # fmt: skip
    if thing.edgings or thing.along:
        return _edged(thing, shape)
    if thing.border is not None and thing.border_part is None:
        return None  # its rounds are rows of the part that they go round, and have no places of their own
    if thing.merged is not None or not thing.parts or not all(shape.parts[k].cloth.nodes > 1 for k in thing.parts):
        return None
    copies = (thing.rows or 1) * (thing.across or 1)
    if copies * max(shape.parts[k].cloth.nodes for k in thing.parts) > MOST:
        return None
    return makers[thing.kind](thing, shape)


def _result(thing: Assembled, whole: Whole, indices: Sequence[int], *, stands: bool) -> TogetherShape:
    joined = whole.solve()
    parts = tuple(
        replace(part, at=joined.part_at(k), stood=joined.feet_of(k), flat=whole.flat, solved=joined.solved, settled=joined.settled)
        for k, part in enumerate(whole.parts)
    )
    return TogetherShape(thing=thing, parts=parts, indices=tuple(indices), joined=joined, stands=stands)


# --- flat things: motifs, borders


def _blanket(thing: Assembled, shape: Shape) -> TogetherShape | None:
    """Motifs in their places and sewn to their neighbours, borders round all; or one piece with its border."""
    inner = [k for k in thing.parts if k not in thing.borders]
    rows, across = thing.rows or 1, thing.across or 1
    if thing.kind == "blanket" and (thing.pitch_cm is None or rows * across < 2):
        return None
    shapes = {k: _lying(shape.parts[k]) for k in inner}
    lies = {each.lies for each in thing.border.rounds} if thing.border is not None else set()
    domes = lies & {"pulls", "waves"} == {"pulls"} and not any(shapes[k].measures.in_rounds for k in inner)
    whole = Whole(flat="waves" not in lies and not domes, unit=shape.measures.scale.unit_cm)
    cells = list(_cells(thing, rows, across))
    sides: list[list[Rim]] = []
    indices: list[int] = []
    for turn, centre in cells:
        k = inner[turn % len(inner)]
        part = shapes[k]
        at = _upright_motif(part, thing.corners)
        start = at + np.array([*centre, 0.0])
        if domes:
            start[:, 2] += DOME * thing.width_cm * (1 - np.hypot(start[:, 0] / thing.width_cm, start[:, 1] / thing.length_cm))
        first = whole.add(part, start)
        sides.append([rim.shifted(first) for rim in sides_of_motif(replace(part, at=at), thing.corners)])
        indices.append(k)
    whole.on_table = 0 if domes else whole.nodes
    held = _sew_neighbours(thing, whole, [centre for _, centre in cells], sides)
    free = [rim for i, own in enumerate(sides) for j, rim in enumerate(own) if (i, j) not in held]
    if thing.borders and free and (thing.corners >= 3 or len(cells) == 1):
        _add_borders(thing, shape, whole, chained(whole.at, free), indices)
    return _result(thing, whole, indices, stands=False)


def _lying(part: PartShape) -> PartShape:
    """A motif lies in the plane of its neighbours."""
    return part if part.flat else shape_part(part.measures, flat=True)


def _cells(thing: Assembled, rows: int, across: int) -> Iterator[tuple[int, tuple[float, float]]]:
    """(which motif in turn, where its middle lies) for every place of the layout, rows from below."""
    wide, down = thing.pitch_cm or (0.0, 0.0)
    for r in range(rows):
        for c in range(across):
            yield r + c, (c * wide + (wide / 2 if thing.corners == 6 and r % 2 else 0.0), r * down)


def _upright_motif(part: PartShape, corners: int) -> Floats:
    """A motif about its middle: a square with its sides level and upright, a hexagon with a corner at the top."""
    if not part.measures.in_rounds:
        low = part.at.min(axis=0) - [part.measures.scale.unit_cm / 2, 0.0, 0.0]
        return np.asarray(part.at - low - [part.measures.width_cm / 2, part.measures.length_cm / 2, 0.0])
    rim = last_rim(part)
    at = part.at - part.at[rim.nodes].mean(axis=0)
    if corners < 3:
        return np.asarray(at)
    corner = at[sides_of_motif(replace(part, at=at), corners)[0].nodes[0]]
    wanted = math.pi / 4 if corners == 4 else math.pi / 2
    turn = wanted - math.atan2(corner[1], corner[0])
    spun = np.array([[math.cos(turn), -math.sin(turn), 0.0], [math.sin(turn), math.cos(turn), 0.0], [0.0, 0.0, 1.0]])
    return np.asarray(at @ spun.T)


def _sew_neighbours(
    thing: Assembled, whole: Whole, centres: Sequence[tuple[float, float]], sides: Sequence[Sequence[Rim]]
) -> set[tuple[int, int]]:  # fmt: skip
    """Sew every two motifs that lie beside each other along the sides they turn to each other; gives those sides (motif, side)."""
    held: set[tuple[int, int]] = set()
    wide, down = thing.pitch_cm or (0.0, 0.0)
    at = whole.at
    for i, a in enumerate(centres):
        for j in range(i + 1, len(centres)):
            dx, dy = centres[j][0] - a[0], centres[j][1] - a[1]
            beside = abs(dy) < 1e-6 and abs(dx) < 1.1 * wide
            above = abs(dy) < 1.1 * down and (abs(dx) < 1e-6 if thing.corners != 6 else abs(dx) < 0.6 * wide)
            if not (beside or (above and abs(dy) > 1e-6)):
                continue
            way = math.atan2(dy, dx)
            if thing.corners < 3 and whole.parts[i].measures.in_rounds:
                one, other = (_arc(whole, at, k, centres[k], w) for k, w in ((i, way), (j, way + math.pi)))
            else:
                s, t = _towards(at, sides[i], a, way), _towards(at, sides[j], centres[j], way + math.pi)
                held |= {(i, s), (j, t)}
                one, other = sides[i][s], sides[j][t]
            whole.sew(one, other, thing.gap_cm)
    return held


def _towards(at: Floats, sides: Sequence[Rim], centre: tuple[float, float], way: float) -> int:
    """The side of a motif that looks that way."""
    looks = [at[rim.nodes].mean(axis=0)[:2] - centre for rim in sides]
    return max(range(len(sides)), key=lambda k: float(looks[k] @ [math.cos(way), math.sin(way)]) / (float(np.linalg.norm(looks[k])) or 1.0))


def _arc(whole: Whole, at: Floats, k: int, centre: tuple[float, float], way: float) -> Rim:
    """The stitches of a round motif that look that way: where it touches its neighbour."""
    rim = last_rim(whole.parts[k]).shifted(whole.first[k])
    off = at[rim.nodes][:, :2] - centre
    turn = np.angle(np.exp(1j * (np.arctan2(off[:, 1], off[:, 0]) - way)))
    near = np.flatnonzero(np.abs(turn) <= _TOUCH)
    near = near if len(near) > 1 else np.argsort(np.abs(turn))[:2]
    near = near[np.argsort(turn[near])]
    return Rim(rim.nodes[near], turn[near], rim.inset)


def _add_borders(thing: Assembled, shape: Shape, whole: Whole, rim: Rim, indices: list[int]) -> None:
    """Borders one after another: the first on the edge of what they go round, each further one on the last round of the one before."""
    worst = thing.border.worst if thing.border is not None else None
    waves = 0.0 if worst is None or worst.lies != "waves" else worst.fullness
    for k in thing.borders:
        first = stand_on(whole, shape.parts[k], rim, waves=waves)
        rim = last_rim(shape.parts[k]).shifted(first)
        indices.append(k)


def _edged(thing: Assembled, shape: Shape) -> TogetherShape | None:
    """A piece worked flat with strips along its edges: rows of its own along its row ends, or edgings that are parts of their own."""
    part = shape.parts[thing.parts[0]]
    it = part.measures
    if it.tiles is not None or not part.flat or part.cloth.nodes < 2:
        return None
    strips = [*_own_strips(thing, part), *_other_strips(thing, shape, part)]
    if not strips or any(len(strip.cloth.rows[strip_row(strip)].element) < 2 for strip, _, _, _ in strips):
        return None
    lies = {border.lies for _, _, border, _ in strips}
    domes = lies - {"flat"} == {"pulls"}
    whole = Whole(flat=lies == {"flat"}, unit=it.scale.unit_cm)
    start = part.at.copy()
    if domes:
        middle = (start.min(axis=0) + start.max(axis=0)) / 2
        start[:, 2] += DOME * it.width_cm * (1 - np.abs(start[:, 1] - middle[1]) / max(it.length_cm, 1e-9))
    whole.add(part, start)
    whole.on_table = 0 if domes else whole.nodes
    for strip, rim, border, _ in strips:
        stand_on(whole, strip, rim, waves=border.fullness if border.lies == "waves" else 0.0)
    return _result(thing, whole, (thing.parts[0], *(index for _, _, _, index in strips)), stands=False)


def _own_strips(thing: Assembled, part: PartShape) -> Iterator[tuple[PartShape, Rim, Border, int]]:
    """Rows of a piece along its own row ends, each as a strip, with the edge it stands on."""
    it = part.measures
    for border in thing.edgings:
        row = it.part.rows[border.index]
        alone = PartWork(name=border.label, copies=1, rows=(replace(row, index=0, below=None),))
        strip = shape_part(PartMeasures(alone, it.scale, Layer(it.scale)), flat=True, solve="never")
        yield strip, edge_rim(part, border.edge), border, -1


def _other_strips(thing: Assembled, shape: Shape, part: PartShape) -> Iterator[tuple[PartShape, Rim, Border, int]]:
    for along in thing.along:
        edges = [edge.edge for edge in along.edges]
        rim = edge_rim(part, edges[0]) if len(edges) == 1 else round_the_start(part)
        yield shape.parts[along.part], rim, along.worst or along.rows[0], along.part


# --- things that stand


def _tube(thing: Assembled, shape: Shape) -> TogetherShape | None:
    """One piece closed into a ring: its ends or its long edges joined."""
    part = shape.parts[thing.parts[0]]
    if part.measures.in_rounds or part.measures.tiles is not None or not thing.girth_cm:
        return None
    whole = Whole(flat=False, unit=part.measures.scale.unit_cm)
    by_ends = abs(part.measures.length_cm - thing.girth_cm) < abs(part.measures.width_cm - thing.girth_cm)
    first = whole.add(part, _rolled(part.at, thing.girth_cm, along=1 if by_ends else 0))
    one, other = (first_rim(part), last_rim(part)) if by_ends else (side_rim(part, high=False), side_rim(part, high=True))
    whole.sew(one.shifted(first), other.shifted(first), thing.gap_cm)
    return _result(thing, whole, thing.parts, stands=True)


def _rolled(at: Floats, girth: float, *, along: int) -> Floats:
    """A flat piece bent round an upright cylinder: `along` is the axis of the plane that goes round."""
    turn = math.tau * (at[:, along] - at[:, along].min()) / girth
    radius = girth / math.tau
    return np.column_stack([radius * np.sin(turn), -radius * np.cos(turn), at[:, 1 - along]])


def _two_layers(thing: Assembled, shape: Shape) -> TogetherShape | None:
    """A front and a back: two pieces, or one folded; sewn along the edges told."""
    told = {edge for seam in thing.seams for edge in seam.seam.edges}
    parts = [shape.parts[k] for k in thing.parts]
    if any(part.measures.in_rounds or part.measures.tiles is not None for part in parts):
        return None
    if any(seam.seam.kind == "fold" for seam in thing.seams):
        return _folded(thing, parts[0], told)
    if len(parts) == 1 and parts[0].measures.copies == 2:
        parts = [parts[0], parts[0]]
    if len(parts) != 2:
        return None
    whole = Whole(flat=False, unit=shape.measures.scale.unit_cm)
    wide = max(part.measures.width_cm for part in parts)
    first = []
    for k, part in enumerate(parts):
        x = part.at[:, 0] - (part.at[:, 0].min() + part.at[:, 0].max()) / 2
        depth = DEPTH * wide * np.cos(np.clip(math.pi * x / wide, -math.pi / 2, math.pi / 2))
        front = -1.0 if k == 0 else 1.0
        first.append(whole.add(part, np.column_stack([front * -x, front * depth, part.at[:, 1]])))
    sides = bool(told & {"sides", "three sides", "all round"}) or not told
    if sides:
        for high in (False, True):
            one = side_rim(parts[0], high=high)
            other = side_rim(parts[1], high=not high)
            whole.sew(one.shifted(first[0]), other.shifted(first[1]), thing.gap_cm)
    if told & {"bottom", "three sides", "all round"} or not told:
        whole.sew(first_rim(parts[0]).shifted(first[0]), first_rim(parts[1]).shifted(first[1]), thing.gap_cm)
    if told & {"top", "all round"} or not told:
        whole.sew(last_rim(parts[0]).shifted(first[0]), last_rim(parts[1]).shifted(first[1]), thing.gap_cm)
    return _result(thing, whole, (thing.parts[0], thing.parts[-1]), stands=True)


def _folded(thing: Assembled, part: PartShape, told: set[str]) -> TogetherShape:
    """One piece folded in half: its fold below, its two halves joined along their sides (and its ends, where told)."""
    lengthwise = "lengthwise" in told or ("long edges" in told and part.measures.length_cm >= part.measures.width_cm)
    along = 0 if lengthwise else 1
    go, across = part.at[:, along], part.at[:, 1 - along]
    middle, half = (go.min() + go.max()) / 2, float(np.ptp(go)) / 2
    x = across - (across.min() + across.max()) / 2
    wide = float(np.ptp(across)) or 1.0
    # the fold is a small half circle, so that front and back begin apart
    bend = max(2 * part.measures.scale.unit_cm, 0.02 * half)
    way = go - middle
    bent = np.clip(np.abs(way) / bend, 0.0, 1.0) * math.pi / 2
    bulge = np.cos(np.clip(math.pi * x / wide, -math.pi / 2, math.pi / 2)) * np.minimum(np.abs(way) / half, 1.0)
    depth = np.sign(way) * (bend * 2 / math.pi * np.sin(bent) + DEPTH * wide * bulge)
    high = np.maximum(np.abs(way) - bend, 0.0) + bend * 2 / math.pi * (1 - np.cos(bent))
    whole = Whole(flat=False, unit=part.measures.scale.unit_cm)
    first = whole.add(part, np.column_stack([x, depth, high]))
    ends = (first_rim(part), last_rim(part)) if lengthwise else (side_rim(part, high=False), side_rim(part, high=True))
    sewn = "long edges" in told if lengthwise else bool(told & {"sides", "three sides", "all round", "long edges"}) or not told
    open_sides = (side_rim(part, high=False), side_rim(part, high=True)) if lengthwise else (first_rim(part), last_rim(part))
    if sewn or lengthwise:
        for rim in ends:
            whole.sew(rim.part(0.0, 0.499).shifted(first), rim.part(0.501, 1.0).shifted(first), thing.gap_cm)
    if told & {"three sides", "all round", "top"} or (lengthwise and "long edges" in told):
        whole.sew(open_sides[0].shifted(first), open_sides[1].shifted(first), thing.gap_cm)
    return _result(thing, whole, thing.parts, stands=True)


def _on_base(thing: Assembled, shape: Shape) -> TogetherShape | None:
    """A bottom sewn to the rim of a body that stands on it."""
    if len(thing.parts) != 2 or not thing.girth_cm:
        return None
    base, body = _lying(shape.parts[thing.parts[0]]), shape.parts[thing.parts[1]]
    if not base.measures.in_rounds or body.measures.tiles is not None:
        return None
    whole = Whole(flat=False, unit=shape.measures.scale.unit_cm)
    below = base.at - base.at[last_rim(base).nodes].mean(axis=0)
    one = last_rim(base).shifted(whole.add(base, below))
    if body.measures.in_rounds:
        at, rims = body.at, [_open_start(body), last_rim(body)]
        rim_cm = base.measures.rounds.rounds[-1].girth_cm if base.measures.rounds is not None else 0.0
        rim = min((each for each in rims if each is not None), key=lambda each: abs(_round(at, each) - rim_cm))
        at = at - at[rim.nodes].mean(axis=0)
        at = at if at[:, 2].mean() >= 0 else at * [1.0, -1.0, -1.0]
        whole.sew(one, rim.shifted(whole.add(body, at)), thing.gap_cm)
    else:
        along = 1 if abs(body.measures.length_cm - thing.girth_cm) < abs(body.measures.width_cm - thing.girth_cm) else 0
        first = whole.add(body, _rolled(body.at, thing.girth_cm, along=along))
        low, high = (side_rim(body, high=False), side_rim(body, high=True)) if along else (first_rim(body), last_rim(body))
        ends = (first_rim(body), last_rim(body)) if along else (side_rim(body, high=False), side_rim(body, high=True))
        whole.sew(ends[0].shifted(first), ends[1].shifted(first), thing.gap_cm)
        ring = low if whole.at[low.nodes + first][:, 2].mean() <= whole.at[high.nodes + first][:, 2].mean() else high
        whole.sew(one, replace(ring, closed=True).shifted(first), thing.gap_cm)
    return _result(thing, whole, thing.parts, stands=True)


def _garment(thing: Assembled, shape: Shape) -> TogetherShape | None:
    made = garment(thing, shape)
    return None if made is None else _result(thing, made[0], made[1], stands=True)


def _sewn_on(thing: Assembled, shape: Shape) -> TogetherShape | None:
    """Heads, limbs and the like on their bodies."""
    made = sewn_together(thing, shape)
    return None if made is None else _result(thing, made[0], made[1], stands=True)


def _open_start(body: PartShape) -> Rim | None:
    """The edge that a body in rounds begins with, where it is open."""
    rounds = body.measures.rounds
    if rounds is None or rounds.start_girth_cm <= 0:
        return None
    filled = [r for r, sheet in enumerate(body.cloth.rows) if len(sheet.element)]
    return row_rim(body, filled[0])


def _round(at: Floats, rim: Rim) -> float:
    line = at[rim.nodes]
    return float(np.linalg.norm(np.roll(line, -1, axis=0) - line, axis=1).sum())
