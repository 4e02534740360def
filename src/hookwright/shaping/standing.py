"""Where every part stands in the picture: motifs in their places in the blanket, a body on its base, the rest side by side."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from ..measuring import Assembled
from .assembling import TogetherShape
from .cloth import Floats
from .mesh import Mesh, yarn_mesh
from .piece import PartShape, Shape, shape_part

MOST_COPIES: Final = 2_000
"""Copies beyond which a blanket is shown by one motif."""
ALIKE_CM: Final = 0.05
"""Copies of a part whose stitches all lie within this of each other are written as one mesh."""


@dataclass(frozen=True, slots=True)
class Standing:
    """One part's meshes (cm) and where its copies stand: offsets, n x 3, cm."""

    name: str
    meshes: tuple[Mesh, ...]
    at: Floats


def standings(shape: Shape) -> list[Standing]:
    """Every part that has anything to show: what the seams make first, then what is joined to nothing, side by side."""
    found: list[Standing] = []
    placed: set[int] = set()
    right = 0.0
    for thing, together in sorted(shape.together, key=lambda pair: -len(pair[0].parts)):  # a ring on its base, not the ring alone
        if placed & set(thing.parts):
            continue
        made = _relaxed_together(together) if together is not None else _thing(thing, shape)
        if made:
            found += _moved(made, right)
            right = _right_of(found) * 1.1
            placed.update(thing.parts if together is None else together.indices)
    for k, part in enumerate(shape.parts):
        meshes = _meshes(part) if k not in placed else ()
        if meshes:
            found += _moved([Standing(part.measures.name or "Piece", meshes, np.zeros((1, 3)))], right)
            right += (_right_of(found) - right) * 1.1
    return found


def _relaxed_together(together: TogetherShape) -> list[Standing]:
    """Parts as they lie together; copies that came out alike (within `ALIKE_CM`) are one mesh in several places."""
    kinds: list[tuple[int, PartShape, list[Floats]]] = []
    for index, part in zip(together.indices, together.parts, strict=True):
        about = part.at.mean(axis=0)
        for other, first, places in kinds:
            if other == index and np.abs(part.at - about - (first.at - first.at.mean(axis=0))).max() <= ALIKE_CM:
                places.append(about - first.at.mean(axis=0))
                break
        else:
            kinds.append((index, part, [np.zeros(3)]))
    made = []
    for _, part, places in kinds:
        meshes = tuple(_stood(mesh, up=together.stands) for mesh in yarn_mesh(part))
        if not meshes:
            continue
        corner = np.min([mesh.points.min(axis=0) for mesh in meshes], axis=0) * [1.0, 1.0, 0.0]
        moved = tuple(replace(mesh, points=mesh.points - corner) for mesh in meshes)
        made.append(Standing(part.measures.name or "Piece", moved, _upright(np.array(places), together.stands) + corner))
    low = np.min([each.at.min(axis=0) for each in made], axis=0) * [1.0, 1.0, 0.0]
    return [Standing(each.name, each.meshes, each.at - low) for each in made]


def _stood(mesh: Mesh, *, up: bool) -> Mesh:
    return replace(mesh, points=_upright(mesh.points, up), normals=_upright(mesh.normals, up))


def _thing(thing: Assembled, shape: Shape) -> list[Standing]:
    """The parts of one thing that was not relaxed together: a body worked on from its base, or too many motifs in their places."""
    name = " + ".join(each or "Piece" for each in thing.names)
    if thing.merged is not None:
        meshes = _meshes(shape_part(thing.merged))
        return [Standing(name, meshes, np.zeros((1, 3)))] if meshes else []
    if thing.rows is None or thing.across is None or thing.pitch_cm is None or not 1 < thing.rows * thing.across <= MOST_COPIES:
        return []
    wide, down = thing.pitch_cm
    motifs = [k for k in thing.parts if k not in thing.borders and k < len(shape.parts)]
    cells = [
        (r + c, [c * wide + (wide / 2 if thing.corners == 6 and r % 2 else 0.0), r * down, 0.0])
        for r in range(thing.rows)
        for c in range(thing.across)
    ]
    made = []
    for j, k in enumerate(motifs):
        part = shape.parts[k]
        meshes = _meshes(part if part.flat else shape_part(part.measures, flat=True))  # sewn to its neighbours it lies in their plane
        meshes = _turned(meshes) if meshes and thing.corners in (4, 6) else meshes
        at = np.array([place for turn, place in cells if turn % len(motifs) == j])
        if meshes and len(at):
            made.append(Standing(part.measures.name or "Motif", meshes, at))
    return made


def _meshes(part: PartShape) -> tuple[Mesh, ...]:
    """The part's yarn, glTF's way up (y), its lower left corner at 0, 0."""
    upright = part.measures.in_rounds and not part.flat
    meshes = [_stood(mesh, up=upright) for mesh in yarn_mesh(part)]
    if not meshes:
        return ()
    low = np.min([mesh.points.min(axis=0) for mesh in meshes], axis=0) * [1.0, 1.0, 0.0]
    return tuple(replace(mesh, points=mesh.points - low) for mesh in meshes)


def _turned(meshes: tuple[Mesh, ...]) -> tuple[Mesh, ...]:
    """A square with its corners in the corners, a hexagon with a side to each neighbour of its row: turned to where it is least wide."""
    points = np.vstack([mesh.points[:, :2] for mesh in meshes])
    points = points - points.mean(axis=0)
    best = min(np.radians(np.arange(0.0, 90.0)), key=lambda a: float(np.ptp(points[:, 0] * np.cos(a) - points[:, 1] * np.sin(a))))
    turn = np.array([[np.cos(best), -np.sin(best), 0.0], [np.sin(best), np.cos(best), 0.0], [0.0, 0.0, 1.0]])
    turned = [replace(mesh, points=mesh.points @ turn.T, normals=mesh.normals @ turn.T) for mesh in meshes]
    low = np.min([mesh.points.min(axis=0) for mesh in turned], axis=0) * [1.0, 1.0, 0.0]
    return tuple(replace(mesh, points=mesh.points - low) for mesh in turned)


def _upright(points: Floats, axis_up: bool) -> Floats:
    """glTF has y up: the axis of rounds, z here, is turned to it."""
    return points[:, [0, 2, 1]] * [1.0, 1.0, -1.0] if axis_up else points


def _moved(made: list[Standing], by: float) -> list[Standing]:
    return [Standing(each.name, each.meshes, each.at + np.array([by, 0.0, 0.0])) for each in made]


def _right_of(found: list[Standing]) -> float:
    return max(float(each.at[:, 0].max()) + max(float(mesh.points[:, 0].max()) for mesh in each.meshes) for each in found)
