"""A start where no layout is known or the unrolled one is wrong: a few landmarks placed by their distances, the rest between them.

Coarse to fine: up to `LANDMARKS` nodes, each as far as can be from those before it; the shortest ways between them through the cloth;
classical scaling puts the landmarks where these distances want them, and every other node by its distances to them. Source: landmark
multidimensional scaling (de Silva and Tenenbaum, "Sparse multidimensional scaling using landmark points", 2004; from memory).
"""

from __future__ import annotations

from typing import Final

import numpy as np
from scipy.sparse import csr_array
from scipy.sparse.csgraph import connected_components, dijkstra

from .cloth import Floats, Ints
from .ties import DIAGONAL, Ties

LANDMARKS: Final = 60
_APART: Final = 1.1
"""Pieces that hang together nowhere are set side by side, this many of their widths apart."""


def by_distances(ties: Ties, nodes: int, dims: int) -> Floats:
    """Positions (n x `dims`, cm) from the lengths of ties alone; parts that are not connected stand side by side. Never NaN."""
    graph = _graph(ties, nodes)
    many, piece = connected_components(graph, directed=False)
    at = np.zeros((nodes, dims))
    shift = 0.0
    for k in range(min(many, nodes)):
        mine = np.flatnonzero(piece == k)
        placed = _piece(graph[mine][:, mine], dims) if len(mine) > 1 else np.zeros((1, dims))
        placed[:, 0] += shift - placed[:, 0].min()
        shift = float(placed[:, 0].max()) * _APART + 0.1
        at[mine] = placed
        if k > 200:
            break
    return at


def _graph(ties: Ties, nodes: int) -> csr_array:
    """Neighbours in a row, a stitch and its foot, a stitch and its neighbour's foot, with their lengths."""
    used = np.flatnonzero(ties.kind <= DIAGONAL)
    rows = ties.matrix[used]
    owner = np.repeat(np.arange(len(used)), np.diff(rows.indptr))
    share, node = rows.data, rows.indices
    positive, negative = share > 0, share < 0
    head = np.zeros(len(used), np.int64)
    head[owner[positive]] = node[positive]
    # the foot: the node that holds most of it
    order = np.argsort(share[negative])[::-1]
    foot = np.full(len(used), -1, np.int64)
    foot[owner[negative][order]] = node[negative][order]
    good = (foot >= 0) & (foot != head)
    length = np.maximum(ties.rest[used][good], 1e-6)
    pairs: tuple[Ints, Ints] = (np.minimum(head[good], foot[good]), np.maximum(head[good], foot[good]))
    shortest = np.lexsort((length, pairs[1], pairs[0]))
    a, b, w = pairs[0][shortest], pairs[1][shortest], length[shortest]
    first = np.ones(len(a), dtype=bool)
    first[1:] = (a[1:] != a[:-1]) | (b[1:] != b[:-1])
    return csr_array((w[first], (a[first], b[first])), shape=(nodes, nodes))


def _piece(graph: csr_array, dims: int) -> Floats:
    """One connected piece."""
    n = graph.shape[0]
    want = min(LANDMARKS, n)
    ways = np.zeros((want, n))
    marks = np.zeros(want, np.int64)
    ways[0] = dijkstra(graph, directed=False, indices=0)
    marks[0] = int(ways[0].argmax())
    nearest = np.full(n, np.inf)
    for k in range(want):
        ways[k] = dijkstra(graph, directed=False, indices=int(marks[k]))
        nearest = np.minimum(nearest, ways[k])
        if k + 1 < want:
            marks[k + 1] = int(nearest.argmax())
    return _scaled(ways, marks, dims)


def _scaled(ways: Floats, marks: Ints, dims: int) -> Floats:
    """Classical scaling of the landmarks, and every node by its distances to them."""
    square = ways**2
    among = square[:, marks]
    mean = among.mean(axis=0)
    values, vectors = np.linalg.eigh(-0.5 * (among - mean - mean[:, None] + among.mean()))
    best = np.argsort(values)[::-1][:dims]
    found = np.zeros((ways.shape[1], dims))
    for d, i in enumerate(best):
        if values[i] > 1e-9:
            found[:, d] = -0.5 * (vectors[:, i] @ (square - mean[:, None])) / np.sqrt(values[i])
    return found
