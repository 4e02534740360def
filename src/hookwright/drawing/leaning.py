"""Rounds that give way to one another: posts settle between what they stand on and what stands on them, and lace as regular as it is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import repeat

from .cloth import Line
from .frame import Frame
from .placed import Placed
from .round_room import Room
from .spacing import FAR, settle, spread
from .symmetry import Phases, Symmetry, regular

FAN_UP = 0.78
"""How far a stitch of a fan leans towards what stands on it, against standing straight over its foot."""
LACE_PASSES = 12
"""How often the rounds of lace lean towards their neighbours below and above before they are placed."""
LOOSE = 1.12
"""Stitches of a sector stand at most so much further apart than they must."""
EVEN = 8.0
"""How strongly neighbours in a round are evened out, against standing straight over their feet (1)."""


def leant(
    placed: Placed, rooms: list[Room], phase: Phases, frame: Frame, levels: list[float], symmetry: Symmetry, *, cornered: bool
) -> Phases:
    """Phases of lace: leant towards one another (motifs with corners keep their sides), regular, kept apart, an axis upright."""
    lines = placed.lines
    even, axis = regular(lines, phase if cornered else _relaxed(placed, rooms, phase, frame, levels), symmetry)
    apart = [_kept_apart(*each) for each in zip(rooms, even, lines, levels, repeat(frame))]
    if axis is None or cornered:
        return apart
    turn = _onto_upright(axis, symmetry.whole)
    return [{post: at + turn for post, at in each.items()} for each in apart]


def _relaxed(placed: Placed, rooms: list[Room], phase: list[dict[int, float]], frame: Frame, levels: list[float]) -> list[dict[int, float]]:
    """Phases of lace after every round has leant towards what it stands on and what stands on it, some times over."""
    below = [{post: _rests(placed, line, post) for post in line.posts} for line in placed.lines]
    above: list[dict[int, list[tuple[int, int]]]] = [{} for _ in placed.lines]
    for line in placed.lines:
        for post in line.posts:
            for r, e in below[line.index][post]:
                above[r].setdefault(e, []).append((line.index, post))
    for k in range(LACE_PASSES):
        for line in placed.lines if k % 2 else placed.lines[::-1]:
            i, room = line.index, rooms[line.index]
            if not phase[i] or not any(below[i].values()):
                continue
            turns = [_between(phase, phase[i][post], below[i][post], above[i].get(post, ()), post in room.fanned) for post in room.posts]
            radius = frame.perimeter(levels[i], i) / (2 * math.pi)
            phase[i] = dict(zip(room.posts, settled(room, turns, radius), strict=True))
    return phase


def _kept_apart(room: Room, phase: dict[int, float], line: Line, level: float, frame: Frame) -> dict[int, float]:
    """Phases of one round with its least distances kept (those of the seam are not part of any symmetry)."""
    n = len(room.posts)
    if n < 2 or not phase:
        return phase
    radius = frame.perimeter(level, line.index) / (2 * math.pi)
    whole = 2 * math.pi * radius
    at = [phase[post] * radius for post in room.posts]
    for k in range(1, n):
        at[k] += whole * round((at[k - 1] - at[k]) / whole + 0.25)
    share = min(1.0, whole / room.need)
    gaps = [gap * share for gap in room.gaps]
    run = [x - whole for x in at] + at + [x + whole for x in at]
    settled = spread(run, (gaps * 3)[:-1], room.weights * 3)[n : 2 * n]
    return {post: x / radius for post, x in zip(room.posts, settled, strict=True)}


def _onto_upright(axis: float, sectors: int) -> float:
    """How far to turn a motif so that one of its axes of reflection stands upright: its other axes lie half a sector apart."""
    return -math.remainder(axis - math.pi / 2, math.pi / max(sectors, 1))


def _rests(placed: Placed, line: Line, post: int) -> list[tuple[int, int]]:
    """The posts of lower rounds that a post stands on; for a space the two it hangs between."""
    out: list[tuple[int, int]] = []
    for foot in line.feet[post]:
        if foot.line < 0 or not placed.lines[foot.line].posts:
            continue
        row = placed.lines[foot.line]
        run = row.runs[row.run_of[foot.at]] if foot.at in row.run_of else None
        if run is not None and run.before is not None and run.after is not None:
            out += [(foot.line, run.before), (foot.line, run.after)]
        elif run is None and foot.line < line.index:
            out.append((foot.line, foot.at))
    return out


def _between(
    phase: list[dict[int, float]], here: float, below: Sequence[tuple[int, int]], above: Sequence[tuple[int, int]], fanned: bool
) -> float:
    """A phase between those of what is below and what is above; a stitch of a fan leans mostly towards what stands on it."""
    turn = 0.0
    share = FAN_UP if fanned and above else 0.5
    for others, weight in ((below, 1 - share), (above, share)):
        turns = [math.remainder(phase[r][e] - here, 2 * math.pi) for r, e in others if e in phase[r]]
        if turns:
            turn += sum(turns) / len(turns) * weight
    return here + turn


def settled(room: Room, turns: list[float], radius: float) -> list[float]:
    if room.opens and 2 * math.pi * radius > LOOSE * room.need:
        easy = [FAR if k in room.opens else gap * LOOSE for k, gap in enumerate(room.gaps)]
        return _settle_round(replace(room, easy=easy), turns, radius, seam=False, share=1.0)
    if room.sides or room.easy[-1] >= FAR:
        return _settle_round(room, turns, radius, seam=False)
    return _seam_closed(room, _settle_round(room, _seam_closed(room, turns, radius), radius, seam=True), radius)


def _seam_closed(room: Room, turns: list[float], radius: float) -> list[float]:
    """The gap between last and first stitch keeps its width instead of growing with the circle: the round opens like a fan to meet it."""
    n = len(turns)
    if n < 3 or room.easy[-1] >= FAR:
        return turns
    seam = 2 * math.pi - (turns[-1] - turns[0])
    want = room.gaps[-1] / radius
    if abs(seam - want) < 1e-9 or seam > math.pi:
        return turns
    middle = (turns[0] + turns[-1]) / 2
    grow = (2 * math.pi - want) / (2 * math.pi - seam)
    return [middle + (turn - middle) * grow for turn in turns]


def _settle_round(room: Room, turns: list[float], radius: float, *, seam: bool, share: float | None = None) -> list[float]:
    """Settle a closed round. With a seam it is a line from its first stitch to its last; else it runs on into itself.

    A round without a seam is settled three times in a row and the middle taken: the ends of a line would have room that a circle has not.
    """
    n = len(turns)
    if n == 1:
        return turns
    whole = 2 * math.pi * radius
    at = [turn * radius for turn in turns]
    share = share or max(whole / room.need, 1.0)
    easy = [gap if gap >= FAR else gap * share for gap in room.easy]
    if seam:
        settled = settle(at, room.gaps[:-1], easy[:-1], room.weights, pull=EVEN, push=EVEN)
    else:
        line = [x - whole for x in at] + at + [x + whole for x in at]
        settled = settle(line, (room.gaps * 3)[:-1], (easy * 3)[:-1], room.weights * 3, pull=EVEN, push=EVEN)[n : 2 * n]
    most, far = whole - room.gaps[-1] * 0.98, settled[-1] - settled[0]
    if far > most > 0:
        middle = (settled[0] + settled[-1]) / 2
        settled = [middle + (x - middle) * most / far for x in settled]
    return [x / radius for x in settled]
