"""Placing rounds: every symbol stands on its foot and points outwards; motifs with corners are drawn with straight sides.

A place is (phase, level): phase in turns of the round as an angle, level the distance from the centre (for a motif with sides, from the
centre to the side). A round is as far out as its stitches are tall, and further when it needs the room; what is lacking is shared among
the rounds below, so that no round is stretched alone.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from ..working.fabric import How, Role
from .arcs import Oval, Point
from .cloth import Line, between
from .corners import Corner, Corners, find_corners
from .frame import Frame
from .oval import Stadium, oval_sides
from .placed import Placed
from .rows import DEVIATION, LOWEST, same_foot, skips_nothing
from .spacing import FAR, chain_room, half_width, least, pitch_of, settle
from .symbols import CHAIN_HALF_MM, CHAIN_MM, height_mm

STRETCH = 1.25
"""How much taller than natural a round may be drawn to win room for the rounds outside it."""
FAN_UP = 0.78
"""How far a stitch of a fan leans towards what stands on it, against standing straight over its foot."""
LACE_PASSES = 12
"""How often the rounds of lace lean towards their neighbours below and above before they are placed."""
MOST_RING_MM = 6.0
EVEN = 8.0
"""How strongly neighbours in a round are evened out, against standing straight over their feet (1)."""
SEAM_MM = 2.6
"""Room for the round's number between its last stitch and its first."""
START = -math.pi / 2
"""Rounds begin at the foot of the picture."""


@dataclass(slots=True)
class Room:
    """What a round needs: its posts counter-clockwise, the distance from each to the next (the last to the first), and weights."""

    posts: list[int]
    gaps: list[float]
    easy: list[float]
    weights: list[float]
    sides: list[int] = field(default_factory=list)
    fanned: set[int] = field(default_factory=set)
    """Posts of fans: four and more in one place."""
    corner_groups: set[int] = field(default_factory=set)

    @property
    def need(self) -> float:
        return sum(self.gaps)


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
    rooms = [_room(line, pitch, corners) for line in lines]
    if oval is not None:
        for room in rooms:
            room.easy = [FAR] * len(room.easy)
    frame.blend = _blends(lines, corners)
    wanted = _levels_wanted(lines, rooms, frame)
    placed.ring_mm = _ring(lines, wanted)
    given: list[dict[int, float]] = [{} for _ in lines]
    phase = _lay_all(placed, rooms, frame, given, wanted, corners)
    if corners is None and any(line.runs for line in lines if not line.foundation):
        levels = [_level_of(placed, line) for line in lines]
        _lay_all(placed, rooms, frame, _relaxed(placed, rooms, phase, frame, levels), wanted, corners)
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


def _room(line: Line, pitch: float, corners: Corners | None) -> Room:
    if not line.posts:
        return Room([], [], [], [])
    posts = line.posts[::-1] if line.rightwards else line.posts
    chains = between(line)
    gaps, easy = [], []
    fans = Counter(line.feet[post] for post in posts)
    for a, b in zip(posts, [*posts[1:], posts[0]], strict=True):
        n = (chains.get((a, b)) or chains.get((b, a)) or 0) if len(posts) > 1 else 0
        gap = least(line.kinds[a], line.kinds[b], n, pitch, fan=_fan(line, a, b), apart=not skips_nothing(line, a, b))
        seam = len(posts) > 1 and {a, b} == {line.posts[0], line.posts[-1]}
        if seam:
            ink = half_width(line.kinds[a]) + half_width(line.kinds[b]) + 0.6
            gap = max(gap + (1.2 if n and line.joins else 0.0), ink + (0.0 if n else SEAM_MM)) + _start_room(line)
        gaps.append(gap)
        free = n > 0 or (_fan(line, a, b) and fans[line.feet[a]] > 3)
        easy.append(gap if not free and (seam or skips_nothing(line, a, b)) else FAR)
    room = Room(posts, gaps, easy, [1.0] * len(posts))
    room.fanned = {post for post in posts if fans[line.feet[post]] > 3 and line.feet[post] and line.feet[post][0].how != How.RING}
    if corners and line.index in corners.of_line:
        _turn_corners(room, line, posts, corners.of_line[line.index])
    return room


def _turn_corners(room: Room, line: Line, posts: list[int], corners: list[Corner]) -> None:
    """Sides of the posts; chains round a corner need less room along the sides, since they bow out into it."""
    room.sides = _sides(line, posts, corners)
    tied = {frozenset((line.runs[c.at].before, line.runs[c.at].after)): len(line.runs[c.at].chains) for c in corners if c.what == "run"}
    for i, a in enumerate(posts):
        b = posts[(i + 1) % len(posts)]
        n = tied.get(frozenset((a, b)))
        if n is not None:
            chord = half_width(line.kinds[a]) + half_width(line.kinds[b]) + 0.9 * chain_room(n)
            if line.joins and line.posts[0] in (a, b):
                chord += 1.2
            room.gaps[i] = chord / math.cos(math.pi / len(corners))
            room.corner_groups.update(p for p in posts if line.feet[p] in (line.feet[a], line.feet[b]) and line.feet[p])


def _fan(line: Line, a: int, b: int) -> bool:
    return same_foot(line, a, b) and line.feet[a][0].how != How.RING


def _start_room(line: Line) -> float:
    """Room beside the first stitch for a starting chain that does not count."""
    first = line.posts[0]
    return 1.9 if first in line.stacks and line.roles[first] != Role.START_TOP else 0.0


def _sides(line: Line, posts: list[int], corners: list[Corner]) -> list[int]:
    """The side each post belongs to (−1 − k: it is corner k itself), counter-clockwise."""
    at = {post: i for i, post in enumerate(posts)}
    forward = not line.rightwards
    ends: list[tuple[int, bool]] = []
    for corner in corners:
        if corner.what == "post":
            ends.append((at[corner.at], True))
            continue
        if corner.what == "run":
            run = line.runs[corner.at]
            before = run.before if forward else run.after
        else:
            k = at[corner.at]
            before = corner.at if forward else posts[k - 1]
        ends.append((at[before] if before is not None else 0, False))
    ends.sort()
    n = len(ends)
    out = []
    for i in range(len(posts)):
        passed = sum(1 for end, is_post in ends if end < i)
        exact = next((k for k, (end, is_post) in enumerate(ends) if end == i and is_post), None)
        out.append(-1 - exact if exact is not None else passed % n)
    return out


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
            placed.set_chain(line, e, Oval(0.0, (e - (n - 1) / 2) * 1.7, 0.0, 2.0))
            placed.top[line.index][e] = (0.0, 0.0)
        return
    radius = placed.ring_mm - CHAIN_HALF_MM - 0.2
    for e in range(n):
        t = START + 2 * math.pi * (e + 0.5) / n
        x, y = radius * math.cos(t), radius * math.sin(t)
        placed.set_chain(line, e, Oval(x, y, math.degrees(t) + 90, min(CHAIN_MM, 2 * math.pi * radius / n - 0.45)))


def _lay_round(
    placed: Placed, line: Line, room: Room, frame: Frame, given: dict[int, float], wanted: float, corners: Corners | None
) -> dict[int, float]:
    """Place one round; answers the phase of each post. `given`: the phases, when they are known already."""
    i = line.index
    feet = {post: _feet(placed, line, post) for post in room.posts}
    if isinstance(frame, Stadium) and i == 1:
        feet = _feet_on_chain(placed, line, frame)
    below = [frame.level(p, i, side) for post, side in _with_sides(room) for p in feet[post] or ()]
    base = sum(below) / len(below) if below else placed.ring_mm
    level = max(base + _mean_height(line), wanted)
    turns = _wanted_phases(line, room, feet, frame, level)
    if corners and i == corners.first:
        frame.set_phase(turns, room.sides, room.gaps)
        turns = _wanted_phases(line, room, feet, frame, level)
    radius = frame.perimeter(level, i) / (2 * math.pi)
    settled = [given[post] for post in room.posts] if given else _settled(room, turns, radius)
    for post, turn in zip(room.posts, settled, strict=True):
        if not feet[post]:
            feet[post] = (frame.at(turn, placed.ring_mm, i),)
        placed.feet[i][post] = feet[post]
    phase = dict(zip(room.posts, settled, strict=True))
    _raise(placed, line, room, frame, phase, level)
    placed.finish_line(line, bow=_bow(frame, i))
    _join(placed, line)
    placed.place_the_rest(line)
    return phase


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


def _settle_round(room: Room, turns: list[float], radius: float, *, seam: bool) -> list[float]:
    """Settle a closed round. With a seam it is a line from its first stitch to its last; else it runs on into itself.

    A round without a seam is settled three times in a row and the middle taken: the ends of a line would have room that a circle has not.
    """
    n = len(turns)
    if n == 1:
        return turns
    whole = 2 * math.pi * radius
    at = [turn * radius for turn in turns]
    share = max(whole / room.need, 1.0)
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
            phase[i] = dict(zip(room.posts, _settled(room, turns, radius), strict=True))
    return phase


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


def _settled(room: Room, turns: list[float], radius: float) -> list[float]:
    if room.sides or room.easy[-1] >= FAR:
        return _settle_round(room, turns, radius, seam=False)
    return _seam_closed(room, _settle_round(room, _seam_closed(room, turns, radius), radius, seam=True), radius)


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
    limit = DEVIATION * max(height_mm(line.kinds[post]) for post in tall)
    for post, y in tall.items():
        placed.top[i][post] = frame.at(turn[post], mean + lift + limit * math.tanh((y - mean) / limit), i)


def _bow(frame: Frame, i: int) -> Callable[[Point, Point], float]:
    def least_bow(p: Point, q: Point) -> float:
        """Chains follow the round: at least the rise of the circle over the chord."""
        if isinstance(frame, Stadium):
            return 0.0
        radius = (math.hypot(*p) + math.hypot(*q)) / 2
        chord = math.dist(p, q)
        return (1 - frame.blend[i]) * chord * chord / (8 * max(radius, chord / 2))

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
            shift = side if line.roles[target] != Role.START_TOP else 1.75
            up = 0.8 if target in line.stacks and line.roles[target] != Role.START_TOP else 0.2
            if any(run.after == line.posts[0] for run in line.runs):
                up = -0.6
            after = placed.lines[i + 1] if i + 1 < len(placed.lines) else None
            if after is not None and after.posts and after.posts[0] in after.stacks and after.roles[after.posts[0]] != Role.START_TOP:
                shift, up = half_width(after.kinds[after.posts[0]]) + 0.95, 0.62
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
