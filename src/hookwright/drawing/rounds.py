"""Placing rounds: every symbol stands on its foot and points outwards; motifs with corners are drawn with straight sides.

A place is (phase, level): phase in turns of the round as an angle, level the distance from the centre (for a motif with sides, from the
centre to the side). A round is as far out as its stitches are tall, and further when it needs the room; what is lacking is shared among
the rounds below, so that no round is stretched alone.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from ..working.fabric import Role
from .arcs import Oval, Point
from .cloth import Line
from .corners import Corners, find_corners
from .frame import Frame
from .gores import find_gores
from .leaning import leant, settled
from .levels import DEVIATION, LOWEST
from .onto import on_an_edge
from .oval import Stadium, oval_sides
from .placed import Placed
from .round_room import Room, is_opening, room_of
from .spacing import FAR, LOW, half_width, pitch_of
from .symbols import CHAIN_HALF_MM, CHAIN_MM, height_mm, plain
from .symmetry import find_symmetry

STRETCH = 1.25
"""How much taller than natural a round may be drawn to win room for the rounds outside it."""
STRAIGHT = 0.2
"""How far the rounds of a motif with sides may rise and fall, in heights of their tallest stitch: sides are straight."""
MOST_RING_MM = 6.0
BESIDE_A_CHAIN_MM = 1.75
"""The dot of a joining slip stitch stands so far from a chain that stands for a stitch."""
CORNER_BOW = 0.2
"""Chains round a corner bow out so far towards it, as a share of the way from the straight line between their ends."""
LONGEST_LOW = 1.35
"""Heights of a low stitch that it may be drawn long in the space of a corner."""
BEYOND_MM = 2.6
"""A round that lies behind others stands so far outside their tops."""
START = -math.pi / 2
"""Rounds begin at the foot of the picture."""


def place_rounds(lines: list[Line]) -> Placed:
    """Place a part worked in rounds from a centre.

    Lace is placed twice: between, its rounds settle against one another, so that a fan opens for the loops that are worked into it.
    """
    pitch = pitch_of([kind for line in lines for kind in set(line.kinds)])
    corners = find_corners(lines)
    oval = oval_sides(lines)
    frame: Frame = Frame(corners.sides if corners else 0)
    if oval is not None:
        corners, frame = None, Stadium(0, half=(len(lines[0]) - 1) / 2 * pitch)
    placed = Placed(lines=lines, pitch=pitch, form="round", out=frame.out)
    letters = 2 if len({yarn for line in lines for yarn in line.row.stitches.colours if yarn}) > 1 else 0
    rooms = [room_of(line, pitch, corners, letters) for line in lines]
    if oval is not None:
        for room in rooms:
            room.easy = [FAR] * len(room.easy)
    for room, opens in zip(rooms, find_gores(lines), strict=True):
        room.open_after(opens)
    frame.blend = _blends(lines, corners)
    wanted = _levels_wanted(lines, rooms, frame)
    placed.ring_mm = _ring(lines, wanted)
    given: list[dict[int, float]] = [{} for _ in lines]
    phase = _lay_all(placed, rooms, frame, given, wanted, corners)
    symmetry = find_symmetry(lines)
    if corners:  # a side is not like the stretch over a corner, however alike their stitches
        own = (math.gcd(n, corners.sides) if i >= corners.first else n for i, n in enumerate(symmetry.sectors))
        symmetry = replace(symmetry, sectors=tuple(own))
    placed.repeats = symmetry.whole if oval is None and corners is None else 1
    if oval is None and any(not is_opening(line, run) for line in lines if not line.foundation for run in line.runs):
        levels = [_level_of(placed, line) for line in lines]
        apart = leant(placed, rooms, phase, frame, levels, symmetry, cornered=corners is not None)
        _lay_all(placed, rooms, frame, apart, wanted, corners)
    if corners:
        turn_upright(placed, frame)
    return placed


def _lay_all(
    placed: Placed, rooms: list[Room], frame: Frame, given: list[dict[int, float]], wanted: list[float], corners: Corners | None
) -> list[dict[int, float]]:
    phase: list[dict[int, float]] = [{} for _ in placed.lines]
    for line in placed.lines:
        if isinstance(frame, Stadium) and line.index == 0:
            _lay_chain(placed, line, frame)
        elif line.foundation or not line.posts:
            _lay_ring(placed, line)
        else:
            phase[line.index] = _lay_round(placed, line, rooms[line.index], frame, given[line.index], wanted[line.index], corners)
    return phase


def _level_of(placed: Placed, line: Line) -> float:
    far = [math.hypot(*p) for post in line.posts if (p := placed.top[line.index][post]) is not None]
    return sum(far) / len(far) if far else placed.ring_mm


def _blends(lines: list[Line], corners: Corners | None) -> list[float]:
    """How straight the sides of each round are: 0 round, 1 straight."""
    if corners is None:
        return [0.0] * len(lines)
    return [0.0 if i < corners.first else (0.7 if i == corners.first else 1.0) for i in range(len(lines))]


def _levels_wanted(lines: list[Line], rooms: list[Room], frame: Frame) -> list[float]:
    """The least level of each round: room for its own stitches, and for those outside it without stretching more than STRETCH."""
    wanted = [frame.level_for(room.need, room.sides, room.gaps, i) for i, room in enumerate(rooms)]
    stretch, natural = STRETCH, MOST_RING_MM
    for line in lines:
        if line.posts:
            natural += _mean_height(line)
            stretch = max(stretch, (wanted[line.index] - MOST_RING_MM) / (natural - MOST_RING_MM))
    for line in reversed(lines[1:]):
        if line.posts:
            wanted[line.index - 1] = max(wanted[line.index - 1], wanted[line.index] - stretch * _mean_height(line))
    return wanted


def _mean_height(line: Line) -> float:
    return sum(height_mm(line.kinds[post]) for post in line.posts) / len(line.posts)


def _ring(lines: list[Line], wanted: list[float]) -> float:
    """Radius of the ring in the middle."""
    first = next((line for line in lines if line.posts), None)
    base = 1.7
    if lines and not lines[0].posts:
        n = len(lines[0])
        base = max(2.4, n * (CHAIN_MM + 0.4) / (2 * math.pi) + CHAIN_HALF_MM + 0.2) if n > 3 else 0.6 + 0.9 * n
    if first is None:
        return base
    base = max(base, len(first.posts) * 1.15 / (2 * math.pi))
    return min(max(base, wanted[first.index] - STRETCH * _mean_height(first)), max(MOST_RING_MM, base))


def _lay_ring(placed: Placed, line: Line) -> None:
    """The foundation chain as a ring; two or three chains are the knot that everything is worked into."""
    n = len(line)
    if n <= 3:
        for e in range(n):
            if line.kinds[e] != "ch":
                placed.set_small(line, e, (0.0, (e - (n - 1) / 2) * 1.7))
                continue
            placed.set_chain(line, e, Oval(0.0, (e - (n - 1) / 2) * 1.7, 0.0, 2.0))
            placed.top[line.index][e] = (0.0, 0.0)
        return
    radius = placed.ring_mm - CHAIN_HALF_MM - 0.2
    for e in range(n):
        t = START + 2 * math.pi * (e + 0.5) / n
        x, y = radius * math.cos(t), radius * math.sin(t)
        if line.kinds[e] != "ch":
            placed.set_small(line, e, (x, y))
            continue
        placed.set_chain(line, e, Oval(x, y, math.degrees(t) + 90, min(CHAIN_MM, 2 * math.pi * radius / n - 0.45)))


def _lay_round(
    placed: Placed, line: Line, room: Room, frame: Frame, given: dict[int, float], wanted: float, corners: Corners | None
) -> dict[int, float]:
    """Place one round; answers the phase of each post. `given`: the phases, when they are known already."""
    i = line.index
    feet = {post: _feet(placed, line, post) for post in room.posts}
    if 2 * sum(not points for points in feet.values()) > len(feet):
        feet = dict.fromkeys(feet, ())  # in the ring all stand evenly, also one that is told to stand on a chain of it
    if isinstance(frame, Stadium) and i == 1:
        feet = _feet_on_chain(placed, line, frame)
    below = [frame.level(p, i, side) for post, side in _with_sides(room) for p in feet[post] or ()]
    base = sum(below) / len(below) if below else placed.ring_mm
    level = max(base + _mean_height(line), wanted, _beyond_what_hides_it(placed, line))
    turns = _wanted_phases(line, room, feet, frame, level)
    if corners and i == corners.first:
        frame.set_phase(turns, room.sides, room.gaps)
        turns = _wanted_phases(line, room, feet, frame, level)
    radius = frame.perimeter(level, i) / (2 * math.pi)
    at = [given[post] for post in room.posts] if given else settled(room, turns, radius)
    if isinstance(frame, Stadium):
        at = frame.even_ends(at, room.gaps, level, placed.pitch)
    for post, turn in zip(room.posts, at, strict=True):
        if not feet[post]:
            inner = max(placed.ring_mm, level - _mean_height(line)) if on_an_edge(line, post) else placed.ring_mm
            feet[post] = (frame.at(turn, inner, i),)
        placed.feet[i][post] = feet[post]
    phase = dict(zip(room.posts, at, strict=True))
    _raise(placed, line, room, frame, phase, level)
    placed.finish_line(line, bow=_bow(frame, i))
    _join(placed, line)
    placed.place_the_rest(line)
    return phase


def _beyond_what_hides_it(placed: Placed, line: Line) -> float:
    """The least level of a round worked, for the most part, past the rounds before it (behind petals): outside those, where it is seen."""
    feet = [foot.line for post in line.posts for foot in line.feet[post]]
    low = max(feet, default=-1)
    if low < 1 or low >= line.index - 1 or 2 * sum(foot >= 0 for foot in feet) < len(feet):
        return 0.0
    between = placed.lines[low + 1 : line.index]
    far = max((math.hypot(*p) for before in between for p in placed.top[before.index] if p is not None), default=0.0)
    return far + BEYOND_MM if far else 0.0


def _lay_chain(placed: Placed, line: Line, frame: Stadium) -> None:
    """The foundation chain of an oval: straight, from left to right."""
    for e in range(len(line)):
        placed.set_chain(line, e, Oval(e * placed.pitch - frame.half, 0.0, 0.0, min(CHAIN_MM, placed.pitch - 0.4)))


def _feet_on_chain(placed: Placed, line: Line, frame: Stadium) -> dict[int, tuple[Point, ...]]:
    """Feet of an oval's first round, on both sides and round both ends of the chain."""
    sides = oval_sides(placed.lines) or []
    feet: dict[int, tuple[Point, ...]] = {}
    for post, side in zip(line.posts, sides, strict=True):
        x = line.feet[post][0].at * placed.pitch - frame.half
        feet[post] = (frame.foot_on_chain(x, side, 1 if x > 0 else -1),)
    return feet


def _with_sides(room: Room) -> list[tuple[int, int]]:
    return list(zip(room.posts, room.sides or [0] * len(room.posts), strict=True))


def _feet(placed: Placed, line: Line, post: int) -> tuple[Point, ...]:
    """The drawn feet of a post; none when it stands in the ring."""
    points = tuple(
        p for foot in line.feet[post] if foot.line >= 0 and (p := placed.foot_point(line, post, foot)) is not None and math.hypot(*p) > 0.5
    )
    return points


def _wanted_phases(line: Line, room: Room, feet: dict[int, tuple[Point, ...]], frame: Frame, level: float) -> list[float]:
    """Where each post would stand: straight out from its feet; in the ring, evenly."""
    raw: list[float | None] = []
    for post, side in _with_sides(room):
        points = feet[post]
        if not points:
            raw.append(None)
            continue
        x, y = sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points)
        raw.append(frame.phase_over((x, y), level, line.index, side))
    if all(turn is None for turn in raw):
        return _evenly(room)
    return _unwrapped(raw, room, level)


def _evenly(room: Room) -> list[float]:
    """Posts in the ring: spaced by what each needs, the seam at the foot of the picture."""
    total = room.need
    at = START + math.pi * room.gaps[-1] / total
    turns = []
    for gap in room.gaps:
        turns.append(at)
        at += 2 * math.pi * gap / total
    return turns


def _unwrapped(raw: list[float | None], room: Room, level: float) -> list[float]:
    """Angles made to run on round the circle; posts without feet follow their neighbours."""
    turns: list[float] = []
    for k, turn in enumerate(raw):
        if turn is None:
            turn = turns[-1] + room.gaps[k - 1] / level if turns else next(t for t in raw if t is not None) - room.gaps[0] / level
        if turns:
            turn += 2 * math.pi * math.ceil((turns[-1] - 0.5 - turn) / (2 * math.pi))
        turns.append(turn)
    return turns


def _raise(placed: Placed, line: Line, room: Room, frame: Frame, turn: dict[int, float], level: float) -> None:
    """Tops: every stitch as tall as its kind, the round lifted together where it needs room, great differences flattened."""
    i = line.index
    tall: dict[int, float] = {}
    for post, side in _with_sides(room):
        points = placed.feet[i][post]
        foot = sum(frame.level(p, i, side) for p in points) / len(points)
        x = sum(p[0] for p in points) / len(points)
        y = sum(p[1] for p in points) / len(points)
        height = height_mm(line.kinds[post])
        tx, ty = frame.at(turn[post], foot, i)
        lean = math.hypot(tx - x, ty - y)
        tall[post] = foot + math.sqrt(max(height * height - lean * lean, (LOWEST * height) ** 2))
    others = [y for post, y in tall.items() if post not in room.corner_groups] or list(tall.values())
    mean = sum(others) / len(others)
    for post in tall if isinstance(frame, Stadium) else room.corner_groups:
        tall[post] = mean
    lift = max(level - mean, 0.0)
    straight = frame.sides and frame.blend[i] > 0
    limit = (STRAIGHT if straight else DEVIATION) * max(height_mm(line.kinds[post]) for post in tall)
    for post, y in tall.items():
        top = frame.at(turn[post], mean + lift + limit * math.tanh((y - mean) / limit), i)
        placed.top[i][post] = _kept_low(placed, line, post, top) if straight else top


def _kept_low(placed: Placed, line: Line, post: int, top: Point) -> Point:
    """The top of a low stitch in a corner's space: never drawn out to the corner on a long stem, the corner is rounded instead."""
    points, kind = placed.feet[line.index][post], line.kinds[post]
    if plain(kind) not in LOW or not any(placed.space_of(foot) is not None for foot in line.feet[post]):
        return top
    x, y = sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points)
    share = LONGEST_LOW * height_mm(kind) / (math.dist((x, y), top) or 1.0)
    return (x + (top[0] - x) * share, y + (top[1] - y) * share) if share < 1 else top


def _bow(frame: Frame, i: int) -> Callable[[Point, Point], float]:
    def least_bow(p: Point, q: Point) -> float:
        """Chains follow the round: at least the rise of the circle over the chord."""
        if isinstance(frame, Stadium):
            return 0.0
        radius = (math.hypot(*p) + math.hypot(*q)) / 2
        chord = math.dist(p, q)
        round_bow = (1 - frame.blend[i]) * chord * chord / (8 * max(radius, chord / 2))
        return max(round_bow, CORNER_BOW * frame.blend[i] * frame.corner_beyond(p, q))

    return least_bow


def _join(placed: Placed, line: Line) -> None:
    """The joining slip stitch: on top of the first stitch, at the side the round comes from. A closing tall stitch leans in there."""
    i = line.index
    for e in line.joins:
        target = next((foot.at for foot in line.feet[e] if foot.line == i), line.posts[0])
        top, last = placed.top[i][target], placed.top[i][line.posts[-1]]
        if top is None or last is None:
            continue
        ox, oy = placed.out(top)
        far = math.dist(top, last) or 1.0
        ux, uy = (last[0] - top[0]) / far, (last[1] - top[1]) / far
        if line.kinds[e] == "sl st":
            side = half_width(line.kinds[target]) + 0.55
            shift = side if line.roles[target] != Role.START_TOP else BESIDE_A_CHAIN_MM
            up = 0.8 if target in line.stacks and line.roles[target] != Role.START_TOP else 0.2
            if any(run.after == line.posts[0] for run in line.runs):
                up = -0.6
            after = placed.lines[i + 1] if i + 1 < len(placed.lines) else None
            if after is not None and after.posts and after.posts[0] in after.stacks:
                if after.roles[after.posts[0]] != Role.START_TOP:
                    shift, up = half_width(after.kinds[after.posts[0]]) + 0.95, 0.62
                else:
                    shift = max(shift, BESIDE_A_CHAIN_MM)
            placed.dots[i][e] = (top[0] + ux * shift + ox * up, top[1] + uy * shift + oy * up)
        else:
            placed.feet[i][e] = ((top[0] + ux * 0.9, top[1] + uy * 0.9),)
            share = min(height_mm(line.kinds[e]) * 0.7, far * 0.55)
            placed.top[i][e] = (top[0] + ux * share + ox * 2.2, top[1] + uy * share + oy * 2.2)


def turn_upright(placed: Placed, frame: Frame) -> None:
    """Turn the whole motif so that one of its sides lies flat at the foot of the picture."""
    c, s = frame.upright()

    def turn(p: Point) -> Point:
        return p[0] * c - p[1] * s, p[0] * s + p[1] * c

    angle = math.degrees(math.atan2(s, c))
    for line in placed.lines:
        i = line.index
        placed.top[i] = [None if p is None else turn(p) for p in placed.top[i]]
        placed.feet[i] = {e: tuple(turn(p) for p in points) for e, points in placed.feet[i].items()}
        placed.dots[i] = {e: turn(p) for e, p in placed.dots[i].items()}
        placed.ovals[i] = {e: Oval(*turn((o.x, o.y)), o.angle_deg + angle, o.length) for e, o in placed.ovals[i].items()}
    frame.turned = math.atan2(s, c)
