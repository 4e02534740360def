"""Parts that lie against each other: stitches of one that have gone through the cloth of another are pushed back out of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

import numpy as np
from scipy.spatial import cKDTree

from .cloth import Floats, Ints
from .relax import Extra
from .skin import normals

THICK: Final = 0.3
"""How far the middle of one cloth stays off that of another, in stitch widths (by looking at pictures)."""
REACH: Final = 1.5
"""A stitch further than this aside from every stitch of the other cloth, in stitch widths, is beyond its edge and not behind it."""
FIRM: Final = 0.5
"""How firmly cloth keeps cloth out, beside the ties, per stitch width."""


class Contacts:
    """Which stitches lie in or close to which cloth, and the way out: found once, at one place of all."""

    def __init__(self, unit: float) -> None:
        self.unit = unit
        self._node: list[Ints] = []
        self._other: list[Ints] = []
        self._out: list[Floats] = []
        self.inside = 0
        """How many stitches are through the other cloth by more than a quarter of a stitch."""

    def look(self, at: Floats, nodes: Ints, other: Ints, faces: Ints) -> None:
        """Take in the stitches `nodes` that lie in or close to the cloth of the nodes `other` (`faces`: its triangles, among these)."""
        if not len(nodes) or not len(faces):
            return
        body = at[other]
        out = normals(body, faces)
        if float(((body - body.mean(axis=0)) * out).sum()) < 0:
            out = -out
        far, k = cKDTree(body).query(at[nodes])
        off = np.einsum("ij,ij->i", at[nodes] - body[k], out[k])
        aside = np.sqrt(np.maximum(far**2 - off**2, 0.0))
        near = (off < THICK * self.unit) & (aside < REACH * self.unit)
        self.inside += int((near & (off < -0.25 * self.unit)).sum())
        self._node.append(nodes[near])
        self._other.append(other[k[near]])
        self._out.append(out[k[near]])

    def push(self) -> Extra:
        """An energy of how far these stitches are short of lying outside."""
        node, other, out = np.concatenate(self._node), np.concatenate(self._other), np.concatenate(self._out)
        strength, wanted = FIRM / self.unit**2, THICK * self.unit

        def away(at: Floats) -> tuple[float, Floats]:
            short = np.maximum(wanted - np.einsum("ij,ij->i", at[node] - at[other], out), 0.0)
            pull = strength * short[:, None] * out
            gradient = np.zeros_like(at)
            np.add.at(gradient, node, -pull)
            np.add.at(gradient, other, pull)
            return 0.5 * strength * float(short @ short), gradient

        return away


def both(pushes: Iterable[Extra | None]) -> Extra | None:
    """Several energies as one."""
    some = [push for push in pushes if push is not None]

    def together(at: Floats) -> tuple[float, Floats]:
        value, gradient = some[0](at)
        for push in some[1:]:
            more, slope = push(at)
            value, gradient = value + more, gradient + slope
        return value, gradient

    return (some[0] if len(some) == 1 else together) if some else None
