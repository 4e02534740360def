"""The cloth as yarn: two strands along the top of every row and two legs under every stitch, as thick as the gauge leaves room for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

import numpy as np
import numpy.typing as npt

from ..measuring import yarn_of
from .cloth import Bools, Cloth, Floats, Ints
from .piece import PartShape
from .skin import normals
from .stretch import too_far

THICK: Final = 0.17
"""Radius of the yarn over the width of a stitch: strands touch where they would in the hand (by looking at pictures)."""
FOOT_APART, TOP_APART = 0.9, 1.6
"""How far a stitch's two legs stand from its middle, in yarn radii, at foot and top."""
FINE, COARSE = 20_000, 60_000
"""Nodes up to which yarn has six sides, and up to which it has four; beyond it three."""


MarkedAs: TypeAlias = Literal["", "stretched", "crowded"]
"""Stitches beyond 15 % are meshes of their own, so that they can be coloured: the map of a piece."""


@dataclass(frozen=True, slots=True, eq=False)
class Mesh:
    """Triangles of one colour: `points` and `normals` (k x 3, cm), `faces` (f x 3). `yarn`: its name; `marked`: what its stitches are."""

    yarn: str
    points: Floats
    normals: Floats
    faces: Ints
    marked: MarkedAs = ""

    @property
    def name(self) -> str:
        """The yarn's name, and what is marked."""
        return f"{self.yarn or 'yarn'} ({self.marked})" if self.marked else self.yarn


def yarn_mesh(part: PartShape, *, mapped: bool = True) -> tuple[Mesh, ...]:
    """The yarn of a part, one mesh for each yarn its rows begin with, in the order they come in. `mapped`: what is stretched or
    crowded comes after, apart."""
    cloth, at = part.cloth, part.at
    if not len(at):
        return ()
    out = normals(at, part.faces) if len(part.faces) else np.tile([0.0, 0.0, 1.0], (len(at), 1))
    radius = THICK * part.measures.scale.unit_cm
    sides = 6 if len(at) <= FINE else 4 if len(at) <= COARSE else 3
    stretched, crowded = too_far(part)
    marks: _Marks = {"stretched": stretched, "crowded": crowded} if mapped else {}
    made: dict[tuple[str, MarkedAs], _Pieces] = {}
    for r in range(len(cloth.rows)):
        yarn = yarn_of(part.measures.part.rows[r])
        for marked, pieces in _row_yarn(part, out, r, radius, sides, marks).items():
            made.setdefault((yarn, marked), []).extend(pieces)
    plain_first = sorted(made, key=lambda key: key[1] != "")
    return tuple(_joined(*key, made[key]) for key in plain_first if made[key])


_Pieces: TypeAlias = list[tuple[Floats, Floats, Ints]]
_Marks: TypeAlias = Mapping[MarkedAs, Bools]


def _row_yarn(part: PartShape, out: Floats, r: int, radius: float, sides: int, marks: _Marks) -> dict[MarkedAs, _Pieces]:
    cloth, at = part.cloth, part.at
    sheet = cloth.rows[r]
    n, first = len(sheet.element), int(cloth.first[r])
    if not n:
        return {}
    nodes = np.arange(first, first + n)
    if cloth.closed[r] and n > 2:
        nodes = np.append(nodes, first)
    pieces: dict[MarkedAs, _Pieces] = {"": []}
    for side in (1.0, -1.0):
        line = at[nodes] + side * 0.8 * radius * out[nodes]
        if n == 1:
            line = line + 2 * radius * np.array([[-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]])
        pieces[""].append(_tube(line, out[nodes] if n > 1 else np.tile(out[nodes], (2, 1)), radius * 0.8, sides))
    on_edge = part.stood if part.stood is not None and len(part.stood) == n and cloth.base[r] < 0 else None
    stands = np.arange(n) if on_edge is not None else np.flatnonzero(sheet.stands)
    if len(stands):
        ahead = _unit(_ahead(at[first : first + n], closed=cloth.closed[r] and n > 2), [1.0, 0.0, 0.0])[stands]
        foot = on_edge if on_edge is not None else _feet_at(cloth, at, r, stands)
        top, away = at[first + stands], out[first + stands]
        for side in (1.0, -1.0):
            apart = side * radius * ahead
            low, high = foot + FOOT_APART * apart, top + TOP_APART * apart
            for mark, those in _by_mark(first + stands, marks).items():
                pieces.setdefault(mark, []).append(_posts(low[those], high[those], away[those], radius, sides))
    return pieces


def _by_mark(nodes: Ints, marks: _Marks) -> dict[MarkedAs, Ints]:
    """The stitches of each mark ("" for most), as indices into `nodes`."""
    plain = np.ones(len(nodes), dtype=bool)
    found: dict[MarkedAs, Ints] = {}
    for mark, marked in marks.items():
        found[mark] = np.flatnonzero(marked[nodes])
        plain &= ~marked[nodes]
    found[""] = np.flatnonzero(plain)
    return {mark: those for mark, those in found.items() if len(those)}


def _ahead(line: Floats, *, closed: bool) -> Floats:
    """The direction of a row at each of its nodes."""
    if len(line) < 2:
        return np.tile([1.0, 0.0, 0.0], (len(line), 1))
    if closed:
        return np.roll(line, -1, axis=0) - np.roll(line, 1, axis=0)
    return np.asarray(np.gradient(line, axis=0))


def _feet_at(cloth: Cloth, at: Floats, r: int, stands: Ints) -> Floats:
    """Where each stitch's foot is: on the node it is worked into, not straight below."""
    base = cloth.base[r]
    sheet = cloth.rows[r]
    if base < 0 or not len(cloth.rows[base].element):
        return np.tile(at[cloth.ring], (len(stands), 1)) if cloth.ring >= 0 else at[int(cloth.first[r]) + stands]
    share = np.clip(sheet.share[stands], 0, 1)[:, None]
    foot = cloth.under(r, sheet.foot[stands])
    return np.asarray((1 - share) * at[foot[:, 0]] + share * at[foot[:, 1]])


def _tube(line: Floats, out: Floats, radius: float, sides: int) -> tuple[Floats, Floats, Ints]:
    """A tube along a line of k points, closed at its ends; `out` a direction across it at every point."""
    along = np.gradient(line, axis=0)
    rings, away = _rings(line, along, out, radius, sides)
    k = len(line)
    return rings, away, np.concatenate([_quads(np.arange(k - 1) * sides, sides), _ends(np.array([0]), np.array([(k - 1) * sides]), sides)])


def _posts(foot: Floats, top: Floats, out: Floats, radius: float, sides: int) -> tuple[Floats, Floats, Ints]:
    """A straight tube from each foot to its top, closed at both ends."""
    n = len(foot)
    ends = np.stack([foot, top], axis=1).reshape(2 * n, 3)
    along = np.repeat(top - foot, 2, axis=0)
    rings, away = _rings(ends, along, np.repeat(out, 2, axis=0), radius, sides)
    low = np.arange(n) * 2 * sides
    return rings, away, np.concatenate([_quads(low, sides), _ends(low, low + sides, sides)])


def _rings(line: Floats, along: Floats, out: Floats, radius: float, sides: int) -> tuple[Floats, Floats]:
    """A ring of points round each point of a line, and their normals."""
    t = _unit(along, [1.0, 0.0, 0.0])
    u = _unit(out - (out * t).sum(axis=1, keepdims=True) * t, [0.0, 1.0, 0.0])
    v = np.cross(t, u)
    turn = np.arange(sides) * 2 * np.pi / sides
    away = np.cos(turn)[None, :, None] * u[:, None, :] + np.sin(turn)[None, :, None] * v[:, None, :]
    return (line[:, None, :] + radius * away).reshape(-1, 3), away.reshape(-1, 3)


def _unit(vectors: Floats, otherwise: list[float]) -> Floats:
    length = np.linalg.norm(vectors, axis=1, keepdims=True)
    return np.where(length > 1e-9, vectors / np.maximum(length, 1e-9), otherwise)


def _quads(starts: Ints, sides: int) -> Ints:
    """Two triangles for every side between a ring and the next, for rings that begin at `starts`."""
    i = np.arange(sides)
    j = (i + 1) % sides
    a, b = starts[:, None] + i, starts[:, None] + j
    lower, upper = np.stack([a, b, a + sides], axis=2), np.stack([b, b + sides, a + sides], axis=2)
    return np.concatenate([lower.reshape(-1, 3), upper.reshape(-1, 3)])


def _ends(first: Ints, last: Ints, sides: int) -> Ints:
    """The two ends of tubes whose first and last rings begin there, each a fan of triangles that faces outward: yarn is solid."""
    i = np.arange(1, sides - 1)
    fan = np.stack([np.zeros_like(i), i, i + 1], axis=1)
    return np.concatenate([(first[:, None, None] + fan[:, ::-1]).reshape(-1, 3), (last[:, None, None] + fan).reshape(-1, 3)])


def _joined(yarn: str, marked: MarkedAs, pieces: _Pieces) -> Mesh:
    shift = np.cumsum([0, *[len(points) for points, _, _ in pieces[:-1]]])
    faces: npt.NDArray[np.int64] = np.concatenate([f + s for (_, _, f), s in zip(pieces, shift, strict=True)])
    return Mesh(yarn, np.concatenate([p for p, _, _ in pieces]), np.concatenate([n for _, n, _ in pieces]), faces, marked)
