"""Parts held together in one solve: the cloths of all of them, seams between their edges, rows that stand on other parts' edges."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np
from scipy.sparse import block_diag, csr_array, vstack

from .apart import Contacts, both
from .cloth import Floats, Ints
from .piece import FITS, TABLE, PartShape, off_the_saddle
from .relax import Extra, edge_error, factor, lengths, relax
from .rims import Feet, Rim
from .skin import pressed_flat, stuffing, triangles
from .stuffed import pressure
from .ties import DIAGONAL, HEIGHT, WEIGHT, Ties, ties_of

JOIN: Final = 5
"""The kind of a tie that a seam makes: no length of the gauge's."""
TRIES: Final = 3
"""Times that parts are looked through for stitches that went into another."""
PARTED: Final = 0.05
"""How firmly fronts and backs are kept from passing through each other, beside the ties, per stitch width (by looking at pictures)."""
MOST: Final = 150_000
"""Nodes beyond which parts are shown each by itself."""


@dataclass(slots=True)
class Whole:
    """Collects parts, where they start (n x 3, cm), and what joins them. Nodes are numbered through all parts."""

    flat: bool
    unit: float
    parts: list[PartShape] = field(default_factory=list)
    starts: list[Floats] = field(default_factory=list)
    first: list[int] = field(default_factory=list)
    on_table: int = 0
    """So many first nodes lie on a table (asked only where the whole is not flat anyway)."""
    stuffed: bool = False
    """Whether its closed parts are stuffed."""
    sides: dict[int, float] = field(default_factory=dict)
    """Parts that lie before (-1) or behind (+1) the middle plane and stay there: fabric does not pass through fabric."""
    outside: list[tuple[int, int]] = field(default_factory=list)
    """(part, other): stitches of the part are kept out of the other's cloth, but for those sewn edge to edge."""
    stood: dict[int, Feet] = field(default_factory=dict)
    _sewn: list[Ints] = field(default_factory=list)
    _nodes: list[Ints] = field(default_factory=list)
    _shares: list[Floats] = field(default_factory=list)
    _lengths: list[Floats] = field(default_factory=list)
    _kinds: list[Ints] = field(default_factory=list)

    @property
    def nodes(self) -> int:
        return self.first[-1] + self.parts[-1].cloth.nodes if self.parts else 0

    @property
    def at(self) -> Floats:
        return np.concatenate(self.starts) if self.starts else np.zeros((0, 3))

    def add(self, part: PartShape, start: Floats) -> int:
        """Take a part in; gives the number of its first node."""
        begins = self.nodes
        self.parts.append(part)
        self.starts.append(np.asarray(start, dtype=np.float64))
        self.first.append(begins)
        return begins

    def sew(self, one: Rim, other: Rim, gap: float) -> None:
        """Join two rims from end to end, stretched or crowded to each other, `gap` cm apart (what the seam adds).

        Which end meets which, and where closed rims meet, follows from where they lie.
        """
        if len(one.nodes) < len(other.nodes):
            one, other = other, one
        if len(other.nodes) < 1 or len(one.nodes) < 2:
            return
        at = self.at
        near, far = at[one.nodes], at[other.nodes]
        share = _shares(one)
        if one.closed and other.closed:
            turned = _turned(near, far)
            rolled = np.roll(other.nodes if turned[0] > 0 else other.nodes[::-1], -turned[1])
            rolled = np.append(rolled, rolled[0])
            places = np.linspace(0.0, 1.0, len(rolled))
        else:
            rolled, places = other.nodes, _shares(other)
            straight = np.linalg.norm(near[0] - far[0]) + np.linalg.norm(near[-1] - far[-1])
            crossed = np.linalg.norm(near[0] - far[-1]) + np.linalg.norm(near[-1] - far[0])
            if crossed < straight:
                rolled, places = rolled[::-1], 1 - places[::-1]
        if len(rolled) < 2:
            rolled, places = np.repeat(rolled, 2), np.array([0.0, 1.0])
        k = np.clip(np.searchsorted(places, share, side="right") - 1, 0, len(rolled) - 2)
        on = np.clip((share - places[k]) / np.maximum(places[k + 1] - places[k], 1e-9), 0.0, 1.0)
        apart = one.inset + other.inset + gap
        self._sewn += [one.nodes, other.nodes]
        self._tie(JOIN, [one.nodes, rolled[k], rolled[k + 1]], [np.ones(len(share)), on - 1, -on], np.full(len(share), apart))
        if apart > 0 and len(share) > 2:  # softly to the neighbours' places as well: a seam with a width does not fold over sideways
            steps = np.hypot(apart, np.diff(one.along - one.along[0]))
            for here, there in ((slice(1, None), slice(None, -1)), (slice(None, -1), slice(1, None))):
                shares = [np.ones(len(steps)), on[there] - 1, -on[there]]
                self._tie(DIAGONAL, [one.nodes[here], rolled[k][there], rolled[k + 1][there]], shares, steps)

    def stand(self, nodes: Ints, feet: Feet, height: Floats) -> None:
        """Tie the stitches of the last part's first row to their feet on another part's rim, so high."""
        self.stood[len(self.parts) - 1] = feet
        self._tie(HEIGHT, [nodes, feet.a, feet.b], [np.ones(len(nodes)), feet.share - 1, -feet.share], height)
        if len(nodes) > 1:  # softly to the neighbour's foot as well, so that the row does not slide along the rim
            apart = np.hypot(height[1:], np.linalg.norm(np.diff(feet.place - height[:, None] * feet.out, axis=0), axis=1))
            for here, there in ((slice(1, None), slice(None, -1)), (slice(None, -1), slice(1, None))):
                n = len(apart)
                self._tie(
                    DIAGONAL, [nodes[here], feet.a[there], feet.b[there]], [np.ones(n), feet.share[there] - 1, -feet.share[there]], apart
                )

    def pin(self, nodes: Ints, to: Ints, gap: float) -> None:
        """Sew each of some stitches to a stitch of another part, `gap` cm apart."""
        n = len(nodes)
        self._tie(JOIN, [nodes, to, to], [np.ones(n), -np.ones(n), np.zeros(n)], np.full(n, gap))

    def _stuffing(self, at: Floats) -> Extra | None:
        """What stuffing does to all closed parts at once."""
        pushes = []
        for part, first in zip(self.parts, self.first, strict=True) if self.stuffed else ():
            if part.measures.lies == "closed":
                mine = slice(first, first + part.cloth.nodes)
                pushes.append((mine, stuffing(part.cloth, triangles(part.cloth), at[mine], pressure=pressure(part.cloth))))

        def push(at: Floats) -> tuple[float, Floats]:
            value, gradient = 0.0, np.zeros_like(at)
            for mine, one in pushes:
                held, slope = one(at[mine])
                value += held
                gradient[mine] += slope
            return value, gradient

        return push if pushes else None

    def _parted(self) -> Extra | None:
        """What keeps fronts before backs: an energy of stitches that have gone through the middle plane, by how far."""
        if not self.sides:
            return None
        side = np.zeros(self.nodes)
        for k, sign in self.sides.items():
            side[self.first[k] : self.first[k] + self.parts[k].cloth.nodes] = sign
        strength = PARTED / self.unit**2

        def push(at: Floats) -> tuple[float, Floats]:
            through = np.minimum(side * (at[:, 1] - at[:, 1].mean()), 0.0)
            gradient = np.zeros_like(at)
            gradient[:, 1] = strength * side * through
            gradient[:, 1] -= gradient[:, 1].mean()  # the plane moves with the whole
            return 0.5 * strength * float(through @ through), gradient

        return push

    def _tie(self, kind: int, nodes: list[Ints], shares: list[Floats], length: Floats) -> None:
        self._nodes.append(np.stack(nodes, axis=1))
        self._shares.append(np.stack(shares, axis=1))
        self._lengths.append(length)
        self._kinds.append(np.full(len(length), kind))

    def ties(self) -> Ties:
        """Every tie of every part and of all that joins them."""
        own = [ties_of(part.cloth, flat=self.flat) for part in self.parts]
        matrix = block_diag([ties.matrix for ties in own], format="csr")
        least, most, weight, kind = (
            np.concatenate([getattr(ties, name) for ties in own]) for name in ("least", "most", "weight", "kind")
        )  # fmt: skip
        if not self._nodes:
            return Ties(csr_array(matrix), least, most, weight, kind)
        nodes, shares, length, kinds = (np.concatenate(each) for each in (self._nodes, self._shares, self._lengths, self._kinds))
        rows = np.repeat(np.arange(len(nodes)), 3)
        more = csr_array((shares.ravel(), (rows, nodes.ravel())), shape=(len(nodes), self.nodes))
        soft = np.where(kinds == DIAGONAL, WEIGHT[DIAGONAL], 1.0) / np.maximum(length, self.unit) ** 2
        return Ties(
            csr_array(vstack([matrix, more], format="csr")), np.concatenate([least, length]), np.concatenate([most, length]),
            np.concatenate([weight, soft]), np.concatenate([kind, kinds]),
        )  # fmt: skip

    def solve(self, *, seconds: float = 20.0) -> Joined:
        """Relax all of it at once, unless it fits as it starts."""
        ties, at = self.ties(), self.at
        begun = edge_error(ties, at)
        if begun <= FITS and self._seam_error(ties, at) <= FITS * self.unit:
            return Joined(whole=self, at=at, start_error=begun, error=begun, gap_cm=0.0, solved=False, settled=True, steps=0)
        start = at[:, :2].copy() if self.flat else off_the_saddle(at)
        table = pressed_flat(TABLE / self.unit**2, np.arange(self.on_table)) if self.on_table and not self.flat else None
        held = np.where(np.arange(self.nodes) < self.on_table, TABLE / self.unit**2, 0.0)
        solver = factor(ties, held) if table is not None else None
        pushed = self._stuffing(start)
        extra = table or pushed or self._parted()
        solver = solver or factor(ties)
        out = relax(ties, np.ascontiguousarray(start), extra=extra, good=3e-3, seconds=seconds, solver=solver, pushes=pushed is not None)
        for _ in range(TRIES if self.outside else 0):
            contacts = self._contacts(out.at)
            if not contacts.inside:
                break
            again = both([extra, contacts.push()])
            more = relax(ties, out.at, extra=again, good=3e-3, seconds=seconds, solver=solver)
            out = replace(more, iterations=out.iterations + more.iterations)
        found = np.column_stack([out.at, np.zeros(len(out.at))]) if self.flat else out.at
        return Joined(
            whole=self, at=found, start_error=begun, error=edge_error(ties, found), gap_cm=self._seam_error(ties, found), solved=True,
            settled=out.settled, steps=out.iterations,
        )  # fmt: skip

    def _contacts(self, at: Floats) -> Contacts:
        """Where stitches of one part lie in the cloth of another that they are to stay out of."""
        found = Contacts(self.unit)
        sewn = np.concatenate(self._sewn) if self._sewn else np.zeros(0, np.int64)
        for k, other in self.outside:
            mine, body = (np.arange(self.first[i], self.first[i] + self.parts[i].cloth.nodes) for i in (k, other))
            found.look(at, np.setdiff1d(mine, sewn), body, triangles(self.parts[other].cloth))
        return found

    def _seam_error(self, ties: Ties, at: Floats) -> float:
        """How far seams lie apart beyond what they are, RMS in cm."""
        seams = ties.kind == JOIN
        if not seams.any():
            return 0.0
        off = lengths(ties.matrix[np.flatnonzero(seams)] @ at) - ties.most[seams]
        return float(np.sqrt(np.mean(off**2)))


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Joined:
    """Parts relaxed together. `at` of all nodes (cm); `error` of rows and heights as for one part; `gap_cm` how far seams gape (RMS)."""

    whole: Whole
    at: Floats
    start_error: float
    error: float
    gap_cm: float
    solved: bool
    settled: bool
    steps: int

    def part_at(self, k: int) -> Floats:
        """Where the k-th part's nodes lie."""
        first = self.whole.first[k]
        return self.at[first : first + self.whole.parts[k].cloth.nodes]

    def feet_of(self, k: int) -> Floats | None:
        """Where the feet of the k-th part's first row stand on another part; None of a part that stands on none."""
        feet = self.whole.stood.get(k)
        return None if feet is None else (1 - feet.share)[:, None] * self.at[feet.a] + feet.share[:, None] * self.at[feet.b]


def _shares(rim: Rim) -> Floats:
    whole = float(rim.along[-1] - rim.along[0])
    if rim.closed:
        return np.arange(len(rim.nodes)) / len(rim.nodes)
    return (rim.along - rim.along[0]) / whole if whole > 0 else np.zeros(len(rim.along))


def _turned(near: Floats, far: Floats) -> tuple[int, int]:
    """(+1 or -1, shift) with which a closed rim's nodes lie nearest to another's: the way round, and where it begins."""
    n, m = len(near), len(far)
    best = (np.inf, 1, 0)
    some = near[np.linspace(0, n - 1, min(n, 24)).astype(int)]
    at = np.linspace(0, n - 1, min(n, 24)).astype(int) / n
    for way in (1, -1):
        line = far if way > 0 else far[::-1]
        for shift in range(m):
            off = np.linalg.norm(some - line[(np.round(at * m).astype(int) + shift) % m], axis=1).sum()
            if off < best[0]:
                best = (float(off), way, shift)
    return best[1], best[2]
