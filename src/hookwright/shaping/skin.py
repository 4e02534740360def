"""The surface of a cloth as triangles: for its volume (stuffing), and for pictures."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_array

from .cloth import Cloth, Floats, Ints
from .relax import Extra


def triangles(cloth: Cloth) -> Ints:
    """Triangles (k x 3, node indices): between neighbours of a row and the row below; turned the same way all over rounds."""
    made: list[Ints] = []
    for r, sheet in enumerate(cloth.rows):
        n, base = len(sheet.element), cloth.base[r]
        stands = np.flatnonzero(sheet.stands)
        if n < 2 or not len(stands):
            continue
        first = int(cloth.first[r])
        i, j = _neighbours(stands, n, closed=cloth.closed[r])
        if base < 0 or not len(cloth.rows[base].element):
            if cloth.ring >= 0:
                made.append(np.stack([first + i, first + j, np.full(len(i), cloth.ring)], axis=1))
            continue
        near = _nearest(sheet.foot, sheet.share)
        under = cloth.under(r, near)
        if base == r:  # a row of blocks: each stands on a chain of its own
            beside = np.flatnonzero(np.diff(stands) == 1)
            i, j = i[beside], j[beside]
            made += [np.stack([first + i, first + j, under[j]], axis=1), np.stack([first + i, under[j], under[i]], axis=1)]
            continue
        ground = cloth.grounds.get(r, np.arange(cloth.first[base], cloth.first[base + 1]))
        made += _strip(first, i, j, near, ground, closed=cloth.closed[r])
    return np.concatenate(made) if made else np.zeros((0, 3), np.int64)


def _neighbours(stands: Ints, n: int, *, closed: bool) -> tuple[Ints, Ints]:
    i, j = stands[:-1], stands[1:]
    if closed and len(stands) > 2:
        i, j = np.append(i, stands[-1]), np.append(j, stands[0])
    return i, j


def _nearest(foot: Ints, share: Floats) -> Ints:
    return np.where(share < 0.5, foot[:, 0], foot[:, 1])


def _strip(first: int, i: Ints, j: Ints, near: Ints, ground: Ints, *, closed: bool) -> list[Ints]:
    """Between two neighbours of a row and the nodes from the one's foot to the other's: a fan over the second's foot, and one triangle.

    `near`: of each node of the row the place of its foot along `ground`, the nodes that the row stands on."""
    a, b, count = near[i], near[j], len(ground)
    made = [np.stack([first + i, first + j, ground[b]], axis=1)]
    steps = b - a
    if closed:
        steps = (steps + count // 2) % count - count // 2
    for k in range(int(min(np.abs(steps).max(initial=0), 12))):
        some = np.abs(steps) > k
        way = np.sign(steps[some])
        here = ground[(a[some] + way * k) % count]
        nxt = ground[(a[some] + way * (k + 1)) % count]
        made.append(np.stack([first + i[some], nxt, here], axis=1))
    return made


def volume(at: Floats, faces: Ints) -> tuple[float, Floats]:
    """The volume that the triangles enclose about the middle of the nodes (cm3), and its gradient."""
    return _volume(at, faces, _corners(faces, len(at)))


def _corners(faces: Ints, nodes: int) -> csr_array:
    """Sums over the corners of triangles (all first, all second, all third corners) for every node: nodes x 3 k."""
    ends = faces.T.ravel()
    return csr_array((np.ones(len(ends)), (ends, np.arange(len(ends)))), shape=(nodes, len(ends)))


def _volume(at: Floats, faces: Ints, corners: csr_array) -> tuple[float, Floats]:
    a, b, c = np.take(at - at.mean(axis=0), faces.T, axis=0)
    by_a = _cross(b, c)
    gradient = corners @ np.concatenate([by_a, _cross(c, a), _cross(a, b)])
    # the middle moves with the nodes: without its share of the gradient a piece with an open end would drift along its axis
    return float(np.einsum("ij,ij->", a, by_a)) / 6, np.asarray((gradient - gradient.mean(axis=0)) / 6)


def _cross(a: Floats, b: Floats) -> Floats:
    """Cross products of n x 3 (NumPy's own takes several times as long)."""
    out = np.empty_like(a)
    for k in range(3):
        i, j = (k + 1) % 3, (k + 2) % 3
        out[:, k] = a[:, i] * b[:, j] - a[:, j] * b[:, i]
    return out


def stuffing(cloth: Cloth, faces: Ints, start: Floats, *, pressure: float) -> Extra:
    """An energy that pushes outward: -pressure x volume. Outside is the side from which the start's volume is positive."""
    corners = _corners(faces, len(start))
    side = 1.0 if _volume(start, faces, corners)[0] >= 0 else -1.0

    def push(at: Floats) -> tuple[float, Floats]:
        held, gradient = _volume(at, faces, corners)
        return -side * pressure * held, -side * pressure * gradient

    return push


def pressed_flat(strength: float, nodes: Ints) -> Extra:
    """An energy that draws some nodes to one table: strength/2 x z^2 for every one."""

    def press(at: Floats) -> tuple[float, Floats]:
        z = at[nodes, 2] - at[nodes, 2].mean()
        gradient = np.zeros_like(at)
        gradient[nodes, 2] = strength * z
        return 0.5 * strength * float(z @ z), gradient

    return press


def normals(at: Floats, faces: Ints) -> npt.NDArray[np.float64]:
    """A unit normal for every node: the mean of its triangles' (0, 0, 1 where it has none)."""
    across = np.cross(at[faces[:, 1]] - at[faces[:, 0]], at[faces[:, 2]] - at[faces[:, 0]])
    total = np.zeros_like(at)
    for k in range(3):
        for axis in range(3):
            total[:, axis] += np.bincount(faces[:, k], weights=across[:, axis], minlength=len(at))
    length = np.linalg.norm(total, axis=1, keepdims=True)
    return np.where(length > 1e-12, total / np.maximum(length, 1e-12), [0.0, 0.0, 1.0])
