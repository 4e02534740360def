"""Pieces sewn on each other where the words tell: each stands on its host's surface by the rim it is sewn along, and all relax together."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from ..measuring import Assembled, SewnOn
from .cloth import Floats, Ints
from .joined import Whole
from .piece import PartShape, Shape
from .rims import Rim, first_rim, last_rim
from .skin import normals, triangles

SET_IN: Final = 0.5
"""How far a sewn rim stays off the host's stitches, in stitch widths: yarn lies on yarn."""
HANGS: Final = 0.6
"""How far limbs at the sides hang down, over how far they stand out (before they are relaxed; no source)."""
_UP: Final = np.array([0.0, 0.0, 1.0])


def sewn_together(thing: Assembled, shape: Shape) -> tuple[Whole, list[int]] | None:
    """The root piece upright, every other piece on its host; and which part of the fabric each is. None where nothing can be placed."""
    sewn = [each for each in thing.sewn if each.placed]
    hosts = {each.host for each in sewn} - {each.part for each in sewn}
    if not sewn or len(hosts) != 1 or any(shape.parts[k].cloth.nodes < 3 for k in thing.parts):
        return None
    whole, indices = Whole(flat=False, unit=shape.measures.scale.unit_cm, stuffed=True), []
    root = hosts.pop()
    where = {root: [whole.add(shape.parts[root], shape.parts[root].at)]}
    indices.append(root)
    waiting = list(sewn)
    while waiting:
        ready = [each for each in waiting if each.host in where]
        if not ready:
            break
        for each in ready:
            waiting.remove(each)
            where[each.part] = []
            for first in where[each.host][:1]:
                for k in range(shape.parts[each.part].measures.copies):
                    where[each.part].append(_set_on(whole, shape, each, first, k))
                    indices.append(each.part)
    whole.outside = _kept_out(indices, {each.part: each.host for each in sewn})
    return whole, indices


def _kept_out(indices: list[int], host_of: dict[int, int]) -> list[tuple[int, int]]:
    """Which pieces stay out of which: each out of its host, and of two that are no host of each other the later out of the earlier."""
    pairs = [(i, j) for i in range(len(indices)) for j in range(len(indices)) if i != j]
    limbs = [(i, j) for i, j in pairs if i > j and indices[i] in host_of and indices[j] in host_of]
    beside = [(i, j) for i, j in limbs if host_of[indices[i]] != indices[j] and host_of[indices[j]] != indices[i]]
    return [(i, j) for i, j in pairs if host_of.get(indices[i]) == indices[j]] + beside


def _set_on(whole: Whole, shape: Shape, sewn: SewnOn, host_first: int, copy: int) -> int:
    """Put one copy in its place and sew its rim to the stitches of the host beneath it; gives its first node's number."""
    part, host = shape.parts[sewn.part], shape.parts[sewn.host]
    body = whole.at[host_first : host_first + host.cloth.nodes]
    rim = _sewn_rim(part)
    foot, out = _place(sewn, host, body, _radius(part, rim), copy, part.measures.copies)
    centre = part.at[rim.nodes].mean(axis=0)
    axis = part.at.mean(axis=0) - centre
    turn = _turning(axis, out)
    first = whole.add(part, (part.at - centre) @ turn.T + foot)
    at = whole.at
    if sewn.place == "end":
        whole.sew(last_rim(host).shifted(host_first), rim.shifted(first), SET_IN * whole.unit)
        return first
    mine = rim.nodes + first
    near = np.array([int(np.argmin(np.linalg.norm(body - at[node], axis=1))) for node in mine])
    whole.pin(mine, near + host_first, SET_IN * whole.unit)
    return first


def _sewn_rim(part: PartShape) -> Rim:
    """The end that is sewn: its last round; of a tube that ends narrower than it began, its first."""
    rounds = part.measures.rounds
    if rounds is not None and rounds.start_girth_cm > rounds.rounds[-1].girth_cm:
        return first_rim(part)
    return last_rim(part)


def _radius(part: PartShape, rim: Rim) -> float:
    at = part.at[rim.nodes]
    return float(np.linalg.norm(at - at.mean(axis=0), axis=1).mean())


def _place(sewn: SewnOn, host: PartShape, body: Floats, radius: float, copy: int, copies: int) -> tuple[Floats, Floats]:
    """Where on the host a rim's middle goes, and which way is outward there."""
    about = body.mean(axis=0)
    if sewn.place == "end":
        middle = body[last_rim(host).nodes].mean(axis=0)
        return middle, _unit(middle - about)
    out = normals(body, triangles(host.cloth))
    out = np.where(((body - about) * out).sum(axis=1, keepdims=True) < 0, -out, out)
    way = _way(sewn, copy, copies)
    mine: Ints
    if sewn.row is not None:
        mine = np.arange(int(host.cloth.first[sewn.row]), int(host.cloth.first[sewn.row + 1]))
    else:
        mine = _near_an_end(host, body, radius, up=sewn.place == "top", alone=copies == 1)
    if sewn.row is None and sewn.place in ("top", "bottom") and copies == 1:
        sign = 1.0 if sewn.place == "top" else -1.0
        best = int(np.argmax(sign * body[:, 2]))
        return body[best], sign * _UP
    middle = body[mine].mean(axis=0)
    best = int(mine[np.argmax((body[mine] - middle) @ way)])
    if sewn.place == "side":
        return body[best], _unit(_unit(out[best] * [1.0, 1.0, 0.0]) - HANGS * _UP)
    return body[best], _unit(out[best])


def _way(sewn: SewnOn, copy: int, copies: int) -> Floats:
    """The direction from the host's middle: pairs stand left and right, single pieces in front or behind."""
    if sewn.place in ("front", "back") and copies == 1:
        return np.array([0.0, -1.0 if sewn.place == "front" else 1.0, 0.0])
    if copies == 1:
        return np.array([1.0, 0.0, 0.0])
    begin = math.pi / 4 if copies == 4 else 0.0
    turn = begin + math.tau * copy / copies
    if sewn.place in ("front", "back") and copies == 2:  # side by side on that face
        turn = (-math.pi / 2 if sewn.place == "front" else math.pi / 2) + (copy - 0.5) * math.pi / 3
    return np.array([math.cos(turn), math.sin(turn), 0.0])


def _near_an_end(host: PartShape, body: Floats, radius: float, *, up: bool, alone: bool) -> Ints:
    """The round next to the upper or lower end that is wide enough for pieces of this radius to stand beside each other."""
    rows = [r for r, sheet in enumerate(host.cloth.rows) if len(sheet.element) > 2]
    spans = [np.arange(int(host.cloth.first[r]), int(host.cloth.first[r + 1])) for r in rows]
    spans.sort(key=lambda nodes: -float(body[nodes, 2].mean()) if up else float(body[nodes, 2].mean()))
    wide = [float(np.linalg.norm(body[nodes] - body[nodes].mean(axis=0), axis=1).mean()) for nodes in spans]
    return next((nodes for nodes, r in zip(spans, wide, strict=True) if alone or r >= radius), spans[int(np.argmax(wide))])


def _turning(axis: Floats, out: Floats) -> Floats:
    """The turn that brings one direction to another by the shortest way (Rodrigues)."""
    a, b = _unit(axis), _unit(out)
    cross, dot = np.cross(a, b), float(a @ b)
    if dot < -1 + 1e-9:
        return np.diag([1.0, -1.0, -1.0])
    k = np.array([[0.0, -cross[2], cross[1]], [cross[2], 0.0, -cross[0]], [-cross[1], cross[0], 0.0]])
    return np.asarray(np.eye(3) + k + k @ k / (1 + dot))


def _unit(vector: Floats) -> Floats:
    length = float(np.linalg.norm(vector))
    return vector / length if length > 1e-9 else _UP
