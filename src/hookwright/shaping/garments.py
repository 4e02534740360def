"""A garment sewn up: a back, a front or its two halves, and sleeves set into the armholes, relaxed as one."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import Final

import numpy as np

from ..measuring import Assembled
from ..measuring.garments import sleeve_top_cm, upper_from
from .joined import Whole
from .necks import neck_ring, stand_on_neck
from .panels import SHOULDER, Panel, outward
from .piece import PartShape, Shape
from .rims import Rim, last_rim, row_rim, side_rim

DEPTH: Final = 0.12
"""How far front and back bulge before they are relaxed, over the width (a start; the seams and lengths decide)."""
_HALF: Final = re.compile(r"\b(left|right)\b", re.I)


def garment(thing: Assembled, shape: Shape) -> tuple[Whole, list[int]] | None:
    """All pieces of a garment in their places and sewn; and which part of the fabric each is. None where they are no back and front."""
    bodies = [k for k in thing.parts if k not in thing.sleeves and k not in thing.neck]
    parts = {k: shape.parts[k] for k in thing.parts}
    if any(part.measures.tiles is not None or part.cloth.nodes < 4 for part in parts.values()):
        return None
    if any(parts[k].measures.in_rounds for k in bodies):
        return None
    if len(bodies) == 1 and parts[bodies[0]].measures.copies == 2:
        bodies = [bodies[0], bodies[0]]
    if len(bodies) == 2 and parts[bodies[1]].measures.copies == 2 and parts[bodies[0]].measures.copies == 1:
        bodies = [bodies[0], bodies[1], bodies[1]]
    if not 2 <= len(bodies) <= 3:
        return None
    told = {edge for seam in thing.seams for edge in seam.seam.edges}
    whole, indices = Whole(flat=False, unit=shape.measures.scale.unit_cm), []
    wide = parts[bodies[0]].measures.width_cm
    layers = []
    for n, k in enumerate(bodies):
        layers.append(_laid(whole, parts[k], wide, back=n == 0, half=(None if len(bodies) == 2 else _is_right(parts[k], n))))
        indices.append(k)
    back, fronts = layers[0], layers[1:]
    at_side = {right: fronts[0] if len(fronts) == 1 else _outer(whole, fronts, right) for right in (False, True)}
    top = sleeve_top_cm(parts[thing.sleeves[0]].measures) if thing.sleeves else 0.0
    armholes = {}
    for right, front in at_side.items():
        below_back, arm_back = back.split(right, top / 2)
        below_front, arm_front = front.split(right, top / 2)
        if not thing.sleeves and upper_from(back.part.measures, high=back.sides[right]) is None:
            below_back, below_front = back.side(right), front.side(right)
        if "sides" in told or not told:
            whole.sew(below_back, below_front, thing.gap_cm)
        if "shoulders" in told:
            whole.sew(*_shoulders(whole, back, front, right, halved=len(fronts) == 2), thing.gap_cm)
        armholes[right] = _ring(arm_front, arm_back)
    for n, right in enumerate((False, True) if thing.sleeves else ()):
        k = thing.sleeves[min(n, len(thing.sleeves) - 1)]
        set_in = _tube_in if parts[k].measures.in_rounds else _set_in
        set_in(whole, parts[k], armholes[right], right=right, wide=wide, gap=thing.gap_cm)
        indices.append(k)
    ring = neck_ring(whole, back, fronts) if thing.neck else None
    for k in thing.neck:
        if ring is None:
            break
        stand_on_neck(whole, parts[k], ring, closed=k in thing.hoods, gap=thing.gap_cm)
        indices.append(k)
    return whole, indices


def _is_right(part: PartShape, n: int) -> bool:
    """Whether half a front is the wearer's right one, which is seen at -x: by its name, else the first of two."""
    told = _HALF.search(part.measures.name)
    return told[1].lower() == "right" if told is not None else n == 1


def _laid(whole: Whole, part: PartShape, wide: float, *, back: bool, half: bool | None) -> Panel:
    """Put a piece of the body in its place: the back behind, a front before it, half a front with its shaped arm edge outward."""
    low, high = float(part.at[:, 0].min()), float(part.at[:, 0].max())
    x = part.at[:, 0] - (low + high) / 2
    mirrored = back
    if half is not None:
        arm_high = _arm_is_high(part)
        mirrored = arm_high == half  # the right front's arm edge lies at -x
        x = -x if mirrored else x
        x = x + (-(wide - (high - low)) / 2 if half else (wide - (high - low)) / 2)
    elif mirrored:
        x = -x
    depth = DEPTH * wide * np.cos(np.clip(math.pi * x / wide, -math.pi / 2, math.pi / 2))
    first = whole.add(part, np.column_stack([x, depth if back else -depth, part.at[:, 1]]))
    whole.sides[len(whole.parts) - 1] = 1.0 if back else -1.0
    return Panel(part, first, (True, False) if mirrored else (False, True))


def _arm_is_high(part: PartShape) -> bool:
    """Of half a front, whether edge B is the one with the armhole: it steps in; where none or both do, the one that goes in less."""
    found = {high: upper_from(part.measures, high=high) for high in (False, True)}
    steps = {high: row is not None and (row.ledge_high if high else row.ledge_low) for high, row in found.items()}
    if steps[False] != steps[True]:
        return steps[True]
    run = [row for row in part.measures.placed if row.top != row.bottom]
    inward = {False: run[-1].low - run[0].low, True: run[0].high - run[-1].high}
    return inward[True] < inward[False]


def _outer(whole: Whole, fronts: list[Panel], right: bool) -> Panel:
    """The half front that lies furthest to that side."""
    at = whole.at
    return max(fronts, key=lambda layer: (1 if right else -1) * float(at[layer.side(right).nodes][:, 0].mean()))


def _shoulders(whole: Whole, back: Panel, front: Panel, right: bool, *, halved: bool) -> tuple[Rim, Rim]:
    """The stretches of back and front that a shoulder seam joins: the top row of that side where a piece ends in two sides (or is half a
    front), as much of a whole top edge, and a third of each where both are whole."""
    tops = [row_rim(layer.part, layer.top(right)).shifted(layer.first) for layer in (back, front)]
    narrow = [back.divided, front.divided or halved]
    own = [layer.part.measures.laid[layer.top(right)].total_cm for layer in (back, front)]
    rims = []
    for k, rim in enumerate(tops):
        share = 1.0 if narrow[k] else min(0.5, own[1 - k] / max(own[k], 1e-9)) if narrow[1 - k] else SHOULDER
        rims.append(outward(whole, rim, right).part(0.0, share))
    return rims[0], rims[1]


def _ring(front: Rim, back: Rim) -> Rim:
    """An armhole: up the front from under the arm, down the back."""
    down = back.turned()
    front_cm = float(front.along[-1]) if len(front.along) else 0.0
    return Rim(np.concatenate([front.nodes, down.nodes]), np.concatenate([front.along, front_cm + down.along]), front.inset)


def _tube_in(whole: Whole, part: PartShape, armhole: Rim, *, right: bool, wide: float, gap: float) -> None:
    """A sleeve worked in rounds, its axis along the arm, its wider end sewn into the armhole."""
    rounds, at = part.measures.rounds, whole.at
    assert rounds is not None
    edge = last_rim(part) if rounds.rounds[-1].girth_cm >= rounds.start_girth_cm else row_rim(part, _first_row(part))
    hole = at[armhole.nodes]
    sign = 1.0 if right else -1.0
    rim = part.at[edge.nodes].mean(axis=0)
    out = np.abs(part.at[:, 2] - rim[2])  # how far along the arm
    about = part.at - rim
    start = np.column_stack([hole[:, 0].mean() + sign * out, hole[:, 1].mean() + about[:, 0], about[:, 1] + hole[:, 2].mean()])
    first = whole.add(part, start)
    whole.sew(replace(armhole, closed=True), replace(edge, closed=True).shifted(first), gap)


def _first_row(part: PartShape) -> int:
    return next(r for r, sheet in enumerate(part.cloth.rows) if len(sheet.element))


def _set_in(whole: Whole, part: PartShape, armhole: Rim, *, right: bool, wide: float, gap: float) -> None:
    """A sleeve rolled round its arm, its seam underneath, its top sewn into the armhole."""
    it, at = part.measures, whole.at
    hole = at[armhole.nodes]
    sign = 1.0 if right else -1.0
    radius = max(it.width_cm, 1e-6) / math.tau
    u, v = part.at[:, 0], part.at[:, 1]
    turn = math.tau * (u - (u.min() + u.max()) / 2) / max(float(np.ptp(u)) + it.scale.unit_cm, 1e-6)
    begins = min((row.bottom for row in (upper_from(it, high=high) for high in (False, True)) if row is not None), default=float(v.max()))
    x = hole[:, 0].mean() + sign * (begins - v)
    start = np.column_stack([x, radius * np.sin(turn) + hole[:, 1].mean(), radius * np.cos(turn) + hole[:, 2].max() - radius])
    first = whole.add(part, start)
    seams, caps = [], []
    for high in (False, True):
        rim = side_rim(part, high=high)
        low = rim.along <= begins + 1e-6
        seams.append(Rim(rim.nodes[low], rim.along[low], rim.inset).shifted(first))
        caps.append(Rim(rim.nodes[~low], rim.along[~low] - begins, rim.inset).shifted(first))
    whole.sew(seams[0], seams[1], gap)
    top = last_rim(part).shifted(first)
    ways = [caps[0], top, caps[1].turned()]
    places = np.concatenate([[0.0], np.cumsum([float(rim.along[-1]) if len(rim.along) else 0.0 for rim in ways])])
    along = np.concatenate([rim.along + before for rim, before in zip(ways, places[:-1], strict=True)])
    edge = Rim(np.concatenate([rim.nodes for rim in ways]), along, top.inset)
    whole.sew(armhole, edge, gap)
