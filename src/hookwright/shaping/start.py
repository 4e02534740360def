"""Where a cloth starts from: rows laid side by side for flat pieces, a surface of revolution for rounds."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from ..measuring.silhouette import profile
from .blocks import cloth_of_blocks
from .cloth import Bools, Cloth, Floats, Ints, Sheet
from .facets import Marks
from .full_rows import fullness
from .stuffed import pressure, stuffed_profile

WAVES = 5
"""Waves round the rim of a piece with too many stitches (their number is nearly free: the ties hardly tell them apart)."""


LEAN = 0.3
"""How far a stitch of a round stands towards its foot from where an even round has it (by trying: least error on balls)."""
TRIES = 90
"""Places along its track that a round of an oval is tried at."""


def unroll(cloth: Cloth, *, flat: bool = False) -> Floats:
    """Positions (n x 3, cm): x from edge A to B, y upward, z = 0 for rows; the axis is z for rounds, the first round lowest.

    `flat`: rounds on a table, each at the radius between what its girth and what the heights inside it would have.
    """
    if cloth.measures.tiles is not None:
        return cloth_of_blocks(cloth.measures, cloth.measures.tiles)[1]
    if cloth.measures.in_rounds:
        return _rounds(cloth, flat)
    return _rows_that_turn(cloth) if cloth.grounds else _rows(cloth)


def _rows(cloth: Cloth) -> Floats:
    at = np.zeros((cloth.nodes, 3))
    placed = cloth.measures.placed
    for r, sheet in enumerate(cloth.rows):
        if len(sheet.element):
            mine = slice(int(cloth.first[r]), int(cloth.first[r + 1]))
            row = placed[r]
            at[mine, 0] = row.start + row.direction * sheet.centre
            at[mine, 1] = row.bottom + row.up * _heights(sheet)
            if cloth.ring >= 0 and cloth.base[r] < 0:
                at[cloth.ring, :2] = (row.low + row.high) / 2, row.bottom
    return at


CLEAR: Final = 0.4
"""A row that closes a wedge starts so much of its height clear of the highest step below (by trying: no mesh starts folded)."""


def _rows_that_turn(cloth: Cloth) -> Floats:
    """Rows straight, each over the one it stands on; one that closes a wedge lies along its steps, and all after it are turned with it."""
    at = _rows(cloth)
    up = np.tile([0.0, 1.0], (len(cloth.rows), 1))
    for r, sheet in enumerate(cloth.rows):
        base, stands = cloth.base[r], np.flatnonzero(sheet.stands)
        if base < 0 or not len(stands) or not len(cloth.rows[base].element):
            continue
        under = at[cloth.under(r, sheet.foot[stands])][:, :, :2]
        share = sheet.share[stands, None]
        feet = (1 - share) * under[:, 0] + share * under[:, 1]
        up[r] = up[base]
        top = feet + sheet.height[stands, None] * up[r]
        if r in cloth.grounds and len(stands) > 2:
            along = feet[-1] - feet[0]
            up[r] = np.array([-along[1], along[0]]) / max(float(np.linalg.norm(along)), 1e-9)
            up[r] *= np.sign(up[r] @ up[base]) or 1.0
            along = along / max(float(np.linalg.norm(along)), 1e-9)
            high = float((feet @ up[r]).max()) + CLEAR * float(sheet.height[stands].mean())
            place = sheet.centre[stands] - sheet.centre[stands].mean() + float((feet @ along).mean())
            top = place[:, None] * along + high * up[r]
        mine = slice(int(cloth.first[r]), int(cloth.first[r + 1]))
        for k in range(2):
            at[mine, k] = np.interp(np.arange(len(sheet.element)), stands, top[:, k])
    return at


def gathered(cloth: Cloth) -> Floats:
    """The start of rows too full to lie flat: each stitch over its foot, the length too much laid in waves across the piece."""
    at = _rows(cloth)
    full = 1.0
    for r, (sheet, own) in enumerate(zip(cloth.rows, fullness(cloth), strict=True)):
        base, n = cloth.base[r], len(sheet.element)
        if not n or base < 0 or not len(cloth.rows[base].element) or not sheet.stands.any():
            continue
        full *= own
        if full < 1.02:
            continue
        mine = slice(int(cloth.first[r]), int(cloth.first[r + 1]))
        under = at[cloth.under(r, sheet.foot)]
        x = (1 - sheet.share) * under[:, 0, 0] + sheet.share * under[:, 1, 0]
        stands = np.flatnonzero(sheet.stands)
        at[mine, 0] = np.interp(np.arange(n), stands, x[stands])
        step = sheet.total / n
        wave = 10 * step
        tall = min(wave / math.tau * math.sqrt(2 * (min(full, 6.0) ** 2 - 1)), 3 * float(sheet.height.max()))
        at[mine, 2] = tall * np.sin(math.tau * sheet.centre / wave)
    return at


def _heights(sheet: Sheet) -> Floats:
    """How high each node stands over its row's foot; chains between stitches bow upward by what they are too long."""
    stands = np.flatnonzero(sheet.stands)
    if not len(stands) or len(stands) == len(sheet.element):
        return sheet.height if len(stands) else np.zeros(len(sheet.element))
    n = len(sheet.element)
    heights = np.interp(np.arange(n), stands, sheet.height[stands])
    before = np.searchsorted(stands, np.arange(n), side="right") - 1
    inside = ~sheet.stands & (before >= 0) & (before < len(stands) - 1)
    i, j = stands[before[inside]], stands[before[inside] + 1]
    span = sheet.centre[j] - sheet.centre[i]
    whole = np.concatenate([[0.0], np.cumsum(sheet.most)])
    length = whole[j] - whole[i]
    share = (sheet.centre[inside] - sheet.centre[i]) / np.maximum(span, 1e-9)
    heights[inside] += np.sqrt(0.375 * span * np.maximum(length - span, 0.0)) * (1 - np.abs(2 * share - 1))
    return heights


def _rounds(cloth: Cloth, flat: bool) -> Floats:
    rounds = cloth.measures.rounds
    at = np.zeros((cloth.nodes, 3))
    if rounds is None:
        return at
    side_view = profile(rounds) if cloth.measures.lies != "closed" else stuffed_profile(rounds, pressure(cloth))
    outline = dict(zip((each.index for each in rounds.rounds), side_view[1:], strict=True))
    reach = {each.index: each.reach_cm for each in rounds.rounds}
    turn_of: dict[int, Floats] = {}
    oval = rounds.spine_cm
    bottom = {each.index for each in rounds.rounds[: rounds.flat_base]} if cloth.marks else set()
    cornered: set[int] = set()
    """Rounds of a bottom with corners, and of the walls on it."""
    rise = before = 0.0
    for r, sheet in enumerate(cloth.rows):
        n = len(sheet.element)
        if not n:
            continue
        if oval and r not in outline:
            at[int(cloth.first[r]) : int(cloth.first[r + 1]), 0] = sheet.centre - (sheet.centre[0] + sheet.centre[-1]) / 2
            continue
        radius, z = outline.get(r, (sheet.total / math.tau, 0.0))
        turns = math.tau * sheet.centre / max(sheet.total, 1e-9)
        if oval:
            mine = slice(int(cloth.first[r]), int(cloth.first[r + 1]))
            bend = reach.get(r, 0.0) if flat else max(0.0, (sheet.total - 2 * oval) / math.tau)
            if not flat:  # an oval's ends are the round piece that its sides draw out
                rise += math.sqrt(max(0.0, float(sheet.height.max(initial=0.0)) ** 2 - (bend - before) ** 2))
                before = bend
            at[mine, :2] = _over_its_feet(cloth, r, at, turns, oval, bend)
            at[mine, 2] = rise
            continue
        turns = turns * _way(sheet.foot, sheet.stands) + _twist(cloth, r, turns, turn_of)
        if not flat:
            turns = _leant(cloth, r, turns, turn_of)
        turn_of[r] = turns
        flat_radius = rounds.start_girth_cm / math.tau + reach.get(r, 0.0)
        mine = slice(int(cloth.first[r]), int(cloth.first[r + 1]))
        if not flat and r in cloth.marks:
            at[mine, :2] = _polygon(cloth.marks[r], sheet, turns, flat_radius)
            cornered.add(r)
            continue
        if not flat and cloth.base[r] in cornered and sheet.stands.any():
            at[mine] = _straight_up(cloth, r, at)
            cornered.add(r)
            continue
        if flat or r in bottom:
            out, lift = np.full(n, _between(radius, flat_radius)), np.zeros(n)
            z = 0.0
            if r in cloth.marks:
                at[mine, :2] = _polygon(cloth.marks[r], sheet, turns, float(out[0]))
                continue
        else:
            out, lift = _rim(turns, radius, min(radius, flat_radius))
        at[mine] = np.stack([out * np.cos(turns), out * np.sin(turns), z + lift], axis=1)
    return at


def _polygon(marks: Marks, sheet: Sheet, turns: Floats, inside: float) -> Floats:
    """A round with corners: its nodes (n x 2) along the sides of a polygon whose sides lie `inside` from the middle."""
    own, whole = np.array(marks.own), sheet.total
    way = float(np.sign(np.sign(np.diff(turns)).sum())) or 1.0
    long = np.mod(np.roll(own, -1) - own, whole)
    side = np.searchsorted(np.cumsum(long), np.mod(sheet.centre - own[0], whole), side="right") % len(own)
    share = (np.mod(sheet.centre - own[side], whole) / np.maximum(long[side], 1e-9))[:, None]
    turn = turns[0] + way * math.tau * (own - sheet.centre[0]) / whole
    corners = inside / math.cos(math.pi / len(own)) * np.stack([np.cos(turn), np.sin(turn)], axis=1)
    return np.asarray((1 - share) * corners[side] + share * corners[(side + 1) % len(own)])


def _straight_up(cloth: Cloth, r: int, at: Floats) -> Floats:
    """A round of walls: every stitch (n x 3) straight up from its foot."""
    sheet = cloth.rows[r]
    stands = np.flatnonzero(sheet.stands)
    under = at[cloth.under(r, sheet.foot[stands])]
    share = sheet.share[stands, None]
    top = (1 - share) * under[:, 0] + share * under[:, 1] + sheet.height[stands, None] * np.array([0.0, 0.0, 1.0])
    n = len(sheet.element)
    return np.stack([np.interp(np.arange(n), stands, top[:, k], period=n) for k in range(3)], axis=1)


def _over_its_feet(cloth: Cloth, r: int, at: Floats, turns: Floats, spine: float, radius: float) -> Floats:
    """A round of an oval, turned along its track to where it stands nearest to its feet."""
    sheet, base = cloth.rows[r], cloth.base[r]
    if base < 0 or not sheet.stands.any():
        return _along_an_oval(turns, spine, radius)
    under = at[cloth.under(r, sheet.foot[sheet.stands]), :2]
    share = sheet.share[sheet.stands, None]
    feet = (1 - share) * under[:, 0] + share * under[:, 1]
    tries = (_along_an_oval(turns + by, spine, radius) for by in np.linspace(0.0, math.tau, TRIES, endpoint=False))
    return min(tries, key=lambda track: float(((track[sheet.stands] - feet) ** 2).sum()))


def _along_an_oval(turns: Floats, spine: float, radius: float) -> Floats:
    """Places (n x 2) on a track round a chain of length `spine`; turn 0 is over the chain's right end, turns go against the clock."""
    arc = math.pi * radius
    way = np.mod(turns / math.tau, 1.0) * 2 * (spine + arc)
    far = way >= spine + arc
    way = np.where(far, way - spine - arc, way)  # the second half of the way is the first, turned half round
    bend = np.maximum(way - spine, 0.0) / max(radius, 1e-9)
    x = spine / 2 - np.minimum(way, spine) - radius * np.sin(bend)
    y = radius * np.cos(bend)
    return np.asarray(np.stack([x, y], axis=1) * np.where(far, -1.0, 1.0)[:, None])


def _between(by_girth: float, by_heights: float) -> float:
    """The radius of equal stiffness along and across, as in measuring: with q their ratio, (q2 + q)/(q2 + 1) times that of the heights."""
    if by_heights <= 0:
        return by_girth
    q = by_girth / by_heights
    return by_heights * (q * q + q) / (q * q + 1)


def _way(foot: Ints, stands: Bools) -> float:
    places = foot[stands, 0]
    return float(np.sign(np.sign(np.diff(places)).sum())) or 1.0


def _twist(cloth: Cloth, r: int, turns: Floats, turn_of: dict[int, Floats]) -> float:
    """The turn that brings a round over its feet."""
    sheet, base = cloth.rows[r], cloth.base[r]
    if base not in turn_of or not sheet.stands.any():
        return 0.0
    below = turn_of[base]
    way = _way(sheet.foot, sheet.stands)
    whole = max(cloth.measures.laid[base].total_cm, 1e-9)
    base_way = np.sign(np.sign(np.diff(below)).sum()) or 1.0
    under = below[0] + base_way * math.tau * (sheet.along[sheet.stands] - cloth.rows[base].centre[0]) / whole
    off = under - way * turns[sheet.stands]
    return float(np.angle(np.exp(1j * off).mean()))


def _leant(cloth: Cloth, r: int, turns: Floats, turn_of: dict[int, Floats]) -> Floats:
    """A round's turns, each stitch most of the way to over its own foot: between increases stitches stand aside from an even round."""
    sheet, base = cloth.rows[r], cloth.base[r]
    if base not in turn_of or not sheet.stands.any():
        return turns
    below = turn_of[base]
    stands = np.flatnonzero(sheet.stands)
    a, b = sheet.foot[stands].T
    step = np.angle(np.exp(1j * (below[b] - below[a])))
    off = np.angle(np.exp(1j * (below[a] + sheet.share[stands] * step - turns[stands])))
    return np.asarray(turns + LEAN * np.interp(np.arange(len(turns)), stands, off, period=len(turns)))


def _rim(turns: Floats, radius: float, flat: float) -> tuple[Floats, Floats]:
    """A round on its circle; one too long for where it lies goes up and down in waves along a circle of the radius it can have."""
    if radius <= flat * 1.02 or flat <= 0:
        return np.full(len(turns), radius), np.zeros(len(turns))
    q = radius / flat
    # a sine wave of amplitude a and k periods on a circle of radius R is about 1 + (a k / 2 R)^2 times as long, for shallow waves
    amplitude = 2 * flat / WAVES * math.sqrt(min(q, 4.0) - 1)
    return np.full(len(turns), flat), amplitude * np.sin(WAVES * turns)
