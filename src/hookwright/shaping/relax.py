"""Relaxing: the positions in which all ties are as near their lengths as they can be.

Minimises the sum over ties of weight/2 x (what its length is off)^2 by limited-memory BFGS whose first metric is the matrix of the ties
itself, factored once (the global step of projective dynamics: Bouaziz et al. 2014; as a quasi-Newton method: Liu, Bouaziz, Kavan 2017; both
from memory).
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
from scipy.sparse import csc_array, diags_array
from scipy.sparse.linalg import splu

from .cloth import Floats
from .ties import Ties

Solver: TypeAlias = Callable[[Floats], Floats]
Extra: TypeAlias = Callable[[Floats], tuple[float, Floats]]
"""A further energy: positions → (value, gradient)."""

MEMORY: Final = 6
SETTLED: Final = 2.5e-3
"""An RMS error of about 0.25 % is called settled; sizes are then within 0.1 to 0.2 %, far inside what hands differ by."""
_TINY: Final = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """What came out. `error` is the RMS of (length - rest)/rest over row and height ties; `settled` whether it stopped by itself."""

    at: Floats
    error: float
    settled: bool
    iterations: int
    seconds_factor: float
    seconds_run: float


def lengths(across: Floats) -> Floats:
    """Lengths of m vectors (m x 2 or 3)."""
    return np.asarray(np.sqrt(np.einsum("ij,ij->i", across, across)))


def _dot(a: Floats, b: Floats) -> float:
    """The sum of products, in one thread: threads of the linear algebra library cost more than they gain here, and change last digits."""
    return float(np.einsum("i,i->", a.ravel(), b.ravel()))


def edge_error(ties: Ties, at: Floats, give: float = 0.0) -> float:
    """RMS of the relative error of row and height ties (0.01 = 1 %), counted beyond `give`; chains that bow only beyond their length."""
    off = np.abs(stretch(ties, at)[ties.edges])
    return float(math.sqrt(np.mean(np.maximum(off - give, 0.0) ** 2))) if len(off) else 0.0


def stretch(ties: Ties, at: Floats) -> Floats:
    """For every tie, by what share it is too long (+) or too short (-)."""
    return _off(lengths(ties.matrix @ at), ties.least, ties.most) / ties.rest


def _off(length: Floats, least: Floats, most: Floats) -> Floats:
    return length - np.clip(length, least, most)


def metric(ties: Ties) -> tuple[csc_array, float]:
    """The matrix of the ties, sum of weight x a a', with a trifle on the diagonal so that loose parts do not make it singular."""
    weighted = diags_array(ties.weight) @ ties.matrix
    whole = csc_array(ties.matrix.T @ weighted)
    trifle = 1e-6 * float(whole.diagonal().mean() or 1.0)
    return csc_array(whole + diags_array(np.full(whole.shape[0], trifle))), trifle


def factor(ties: Ties, held: Floats | None = None) -> Solver:
    """Factor the metric once (SuperLU, symmetric mode); gives a function that solves for n x d right sides. `held`: what holds each node
    to its place besides (energy per cm2)."""
    matrix, _ = metric(ties)
    if held is not None:
        matrix = csc_array(matrix + diags_array(held))
    solved = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    return lambda right: np.ascontiguousarray(solved.solve(right))


def energy(ties: Ties, at: Floats) -> tuple[float, Floats]:
    """The energy and its gradient at positions (n x d)."""
    across = ties.matrix @ at
    length = np.maximum(lengths(across), _TINY)
    off = _off(length, ties.least, ties.most)
    pull = ties.weight * off
    across *= (pull / length)[:, None]
    return 0.5 * _dot(pull, off), ties.matrix.T @ across


def fit_whole(ties: Ties, start: Floats) -> Floats:
    """`start` stretched as a whole, axis by axis and askew, so that its ties come nearest to their lengths; shape and noise stay.

    Takes a layout made for another gauge most of the way at once. Looks at no more than 20,000 ties.
    """
    every = max(1, len(ties.weight) // 20_000)
    some = slice(None, None, every)
    across = ties.matrix[some] @ start
    heavy = ties.weight[some, None] * across
    least, most = ties.least[some], ties.most[some]
    turn = np.eye(start.shape[1])
    for _ in range(4):
        now = across @ turn
        length = np.maximum(lengths(now), _TINY)
        wanted = now * (np.clip(length, least, most) / length)[:, None]
        turn = np.linalg.pinv(np.einsum("ki,kj->ij", heavy, across)) @ np.einsum("ki,kj->ij", heavy, wanted)
    middle = start.mean(axis=0)
    fitted = (start - middle) @ turn + middle
    return fitted if np.isfinite(fitted).all() and energy(ties, fitted)[0] < energy(ties, start)[0] else start


def relax(
    ties: Ties, start: Floats, *, extra: Extra | None = None, good: float = 1e-2, most: int = 400, seconds: float = 20.0,
    settled: float = SETTLED, fits: float = 0.0, solver: Solver | None = None, pushes: bool = True,
) -> Relaxed:  # fmt: skip
    """Relax from `start` (n x 2 or n x 3), until settled, or three steps running gain less than `good` of the energy, or no step or time
    is left. `fits`: an edge error (RMS) that is good enough whatever the rest of the energy. `pushes`: whether `extra` strives against the
    ties to the end (stuffing); one that only keeps things apart is nothing where they are.

    Never gives a position that is not finite: a step that would is not taken.
    """
    began = time.perf_counter()
    solve = solver or factor(ties)
    factored = time.perf_counter()
    enough = 0.5 * settled**2 * float(ties.edges.sum()) if extra is None or not pushes else 0.0
    at, stopped, n = _descend(ties, fit_whole(ties, start), solve, extra, good, most, began + seconds, enough, fits)
    done = time.perf_counter()
    return Relaxed(
        at=at, error=edge_error(ties, at), settled=stopped, iterations=n, seconds_factor=factored - began, seconds_run=done - factored
    )  # fmt: skip


def _descend(
    ties: Ties, start: Floats, solve: Solver, extra: Extra | None, good: float, most: int, until: float, enough: float, fits: float
) -> tuple[Floats, bool, int]:
    """(positions, whether it stopped by itself, steps taken)."""

    def all_of(at: Floats) -> _State:
        held, gradient = energy(ties, at)
        if extra is None:
            return _State(at, held, gradient, held)
        more, slope = extra(at)
        return _State(at, held + more, gradient + slope, held)

    now = all_of(start.copy())
    history = _History()
    small = 0
    for n in range(most):
        if (enough and now.value <= enough) or (fits and edge_error(ties, now.at) <= fits):
            return now.at, True, n
        if not math.isfinite(now.value) or time.perf_counter() > until:
            return now.at, False, n
        step = _downhill(now, history, solve)
        new = None if step is None else _search(all_of, now, step)
        if new is None:
            if not history.pairs:
                return now.at, True, n
            history.clear()
            continue
        history.add(new.at - now.at, new.gradient - now.gradient)
        small = small + 1 if now.value - new.value < good * now.held else 0
        now = new
        if small >= 3:
            return now.at, True, n + 1
    return now.at, False, most


@dataclass(frozen=True, slots=True, eq=False)
class _State:
    """Positions, the whole energy there with its gradient, and the share of it that the ties hold."""

    at: Floats
    value: float
    gradient: Floats
    held: float


def _downhill(now: _State, history: _History, solve: Solver) -> Floats | None:
    """The next step; None where there is none that leads down."""
    for attempt in range(2):
        step = -history.apply(now.gradient, solve)
        slope = _dot(step, now.gradient)
        if math.isfinite(slope) and -slope > 1e-14 * max(now.held, 1e-9):
            return step
        if attempt == 0 and history.pairs:
            history.clear()
        else:
            break
    return None


def _search(all_of: Callable[[Floats], _State], now: _State, step: Floats) -> _State | None:
    """Halve the step until it gains enough (Armijo)."""
    slope, size = _dot(step, now.gradient), 1.0
    for _ in range(12):
        new = all_of(now.at + size * step)
        if math.isfinite(new.value) and new.value <= now.value + 1e-4 * size * slope:
            return new
        size *= 0.5
    return None


class _History:
    """The last few (step, change of gradient), for the two-loop recursion (Nocedal and Wright, Numerical Optimization, algorithm 7.4)."""

    def __init__(self) -> None:
        self.pairs: list[tuple[Floats, Floats, float]] = []

    def clear(self) -> None:
        self.pairs.clear()

    def add(self, step: Floats, change: Floats) -> None:
        curve = _dot(step, change)
        if curve > 1e-12 * _dot(step, step):
            self.pairs = [*self.pairs[-MEMORY + 1 :], (step, change, 1.0 / curve)]

    def apply(self, gradient: Floats, solve: Solver) -> Floats:
        q = gradient.copy()
        kept: list[float] = []
        for step, change, rho in reversed(self.pairs):
            a = rho * _dot(step, q)
            kept.append(a)
            q -= a * change
        q = solve(q)
        for (step, change, rho), a in zip(self.pairs, reversed(kept), strict=True):
            q += (a - rho * _dot(change, q)) * step
        return q
