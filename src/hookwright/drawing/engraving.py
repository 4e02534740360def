"""From placed elements to marks: which symbol, where, turned how far, seen from the right side."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from itertools import pairwise

from ..trade.kinds import closes
from ..working.fabric import How, Role
from .arcs import Point
from .cloth import Line
from .marks import Mark, Ties
from .placed import Placed
from .reaching import UPRIGHT_MM, beside, breaks, passed_over
from .shapes import Shape
from .spacing import LOW
from .symbols import GAP_MM, Cross, Loop, chain, dot, gathered, height_mm, plain, post_of, slug, upright

_LOOPS: dict[How, Loop] = {How.FRONT_LOOP: "front", How.BACK_LOOP: "back", How.THIRD_LOOP: "third"}
_OTHER_LOOP: dict[Loop, Loop] = {"front": "back", "back": "front", "third": "third", "": ""}
FARTHEST_CROSSING = 12
"""How many stitches apart two crossing ones are looked for."""
HOOK_MM = 1.1
"""How far a hook steps aside from a stitch that shares its foot."""
MOST_ASIDE_MM = 3.2
"""A low cross is drawn upright when its top stands no further beside its foot."""
SLASHED_AT, ROOM_FOR_SLASHES_MM = 0.58, 1.9
"""Slashes stand at this share of a stem; where neighbouring stems are no further apart there, they are drawn short and higher."""
LOOP_SUFFIX: dict[Loop, str] = {"front": "-front", "back": "-back", "third": "-third", "": ""}


def as_seen(kind: str, loop: Loop, side: str) -> tuple[str, Loop]:
    """Stitch and loop as they look from the right side: on wrong-side rows front and back exchange (symbols.toml: front_view).

    >>> as_seen("FPdc", "", "WS"), as_seen("sc", "back", "WS"), as_seen("BPdc", "", "RS")
    (('BPdc', ''), ('sc', 'front'), ('BPdc', ''))
    """
    if side == "RS":
        return kind, loop
    post = post_of(kind)
    if post:
        return ("BP" if post == "FP" else "FP") + kind[2:], loop
    return kind, _OTHER_LOOP[loop]


def loop_of(line: Line, e: int) -> Loop:
    """The loop an element is worked into, when it is one only."""
    feet = line.feet[e]
    return _LOOPS.get(feet[0].how, "") if feet and not post_of(line.kinds[e]) else ""


@dataclass(slots=True)
class Engraver:
    """Engraves a placed part. `mirrored`: the left-handed chart; symbols keep their own left and right, their places are mirrored."""

    placed: Placed
    cross: Cross
    mirrored: bool
    yarns: dict[str, int]
    marks: list[Mark] = field(default_factory=list)
    ties: list[Ties] = field(default_factory=list)
    glyphs: dict[str, Shape] = field(default_factory=dict)
    _shared: set[int] = field(default_factory=set)
    """Elements of the line in hand that share their foot with a neighbour."""
    _passed: dict[int, tuple[tuple[float, float], ...]] = field(default_factory=dict)
    """Elements that reach down past other rows, and the stretches (shares of their length) where symbols of those rows lie on their way."""
    _tight: set[int] = field(default_factory=set)
    """Elements that stand so close in one space that their slashes must part."""
    _gathered: dict[tuple[str, tuple[tuple[int, int], ...]], str] = field(default_factory=dict)
    _counts: dict[str, int] = field(default_factory=dict)

    def run(self) -> None:
        """Engrave every line."""
        for line in self.placed.lines:
            crossed = crossings(self.placed, line)
            self._passed = passed_over(self.placed, line)
            self._shared = _sharing(line)
            self._tight = _tight(self.placed, line)
            for e in range(len(line)):
                self._element(line, e, crossed.get(e))

    def paper(self, point: Point) -> Point:
        """A placed point on paper: y down, mirrored for left-handers."""
        return (-point[0] if self.mirrored else point[0]), -point[1]

    def _element(self, line: Line, e: int, crossed: Crossed | None) -> None:
        i = line.index
        if e in self.placed.ovals[i]:
            oval = self.placed.ovals[i][e]
            x, y = self.paper((oval.x, oval.y))
            length = max(round(oval.length * 10), 6)
            turn = oval.angle_deg if self.mirrored else -oval.angle_deg
            self._mark(line, e, f"ch--{length}", "ch", x, y, (turn + 90) % 180 - 90, chain(length))
        elif e in self.placed.dots[i]:
            x, y = self.paper(self.placed.dots[i][e])
            kind = "sl st"
            self._mark(line, e, "sl-st", kind, x, y, self._tangent(self.placed.dots[i][e]), dot())
        elif e in self.placed.feet[i]:
            self._standing(line, e, crossed)

    def _tangent(self, point: Point) -> float:
        ox, oy = self.placed.out(point)
        turn = math.degrees(math.atan2(-ox, oy))
        return (turn if self.mirrored else -turn) % 180

    def _standing(self, line: Line, e: int, crossed: Crossed | None) -> None:
        top = self.placed.top[line.index][e]
        if top is None:
            return
        kind, loop = as_seen(line.kinds[e], loop_of(line, e), line.row.side)
        feet = self.placed.feet[line.index][e]
        if kind == "sl st":
            ox, oy = self.placed.out(feet[0])
            at = (feet[0][0] + ox * 0.75, feet[0][1] + oy * 0.75)
            x, y = self.paper(at)
            self._mark(line, e, "sl-st" + LOOP_SUFFIX[loop], kind, x, y, self._tangent(at), dot())
        elif len(feet) > 1:
            self._together(line, e, kind, loop, top, feet)
        elif closes(kind) > 1:
            self._one_footed(line, e, kind, loop, top, feet[0])
        else:
            self._single(line, e, kind, loop, top, feet[0], crossed)

    def _single(self, line: Line, e: int, kind: str, loop: Loop, top: Point, foot: Point, crossed: Crossed | None) -> None:
        if self.placed.form == "rows" and plain(kind) in LOW and line.index not in self.placed.edging and _low_lean(foot, top):
            foot = (top[0], foot[1])
        elif post_of(kind) and e in self._shared:
            foot = self._hook_aside(line, e, foot, top)
        (fx, fy), (tx, ty) = self.paper(foot), self.paper(top)
        dx, dy = tx - fx, ty - fy
        long = math.hypot(dx, dy) or 1e-6
        gap = min(GAP_MM, long * 0.2)
        length = max(2 * round((long - gap) * 5), 6)
        hits = self._passed.get(e, ())
        if hits and crossed is None and abs(top[0] - foot[0]) < UPRIGHT_MM:
            far, free, side = 2 * round(long * 5), 2 * round((1 - hits[-1][1]) * long * 5), round(self.placed.pitch * 5)
            name = f"{slug(kind)}{LOOP_SUFFIX[loop]}--{far}r{free}"
            self._mark(line, e, name, kind, fx, fy, math.degrees(math.atan2(dx, -dy)), beside(kind, far, free, side, loop, self.cross))
            return
        under = crossed.under if crossed is not None else []
        broken = tuple(sorted({max(2 * round((cut * long - gap) * 5), 2) for cut in (*under, *breaks(hits, long))}))
        lean = math.degrees(math.atan2(dx, -dy))
        fanned = plain(kind) in LOW and e in self._shared
        tight = e in self._tight and not fanned and crossed is None
        free = 2 * round((1 - crossed.highest) * long * 5) if crossed is not None else 0
        tilt = self._from_level(top, lean) if free else 0
        how = f"x{free}a{tilt}".replace("-", "n") if free else "x" if fanned else "t" if tight else ""
        name = f"{slug(kind)}{LOOP_SUFFIX[loop]}--{length}{how}" + "".join(f"u{u}" for u in broken)
        shape = upright(kind, length, loop, self.cross, broken, fanned, tight, free, tilt)
        self._mark(line, e, name, kind, fx + dx / long * gap, fy + dy / long * gap, lean, shape)

    def _from_level(self, top: Point, lean: float) -> int:
        """How many degrees clockwise a stem leans from what is outwards at its top, on paper."""
        ox, oy = self.paper(self.placed.out(top))
        return round(math.remainder(lean - math.degrees(math.atan2(ox, -oy)), 360))

    def _hook_aside(self, line: Line, e: int, foot: Point, top: Point) -> Point:
        """The foot of a post stitch beside another stitch in the same place: the hook stands clear of the other's stem."""
        i = line.posts.index(e)
        for other in line.posts[max(i - 1, 0) : i + 2]:
            there = self.placed.top[line.index][other]
            if other != e and there is not None and line.feet[other] == line.feet[e]:
                far = math.dist(top, there) or 1.0
                return foot[0] + (top[0] - there[0]) / far * HOOK_MM, foot[1] + (top[1] - there[1]) / far * HOOK_MM
        return foot

    def _one_footed(self, line: Line, e: int, kind: str, loop: Loop, top: Point, foot: Point) -> None:
        """A together-stitch whose legs all stand in one place (a space): its legs a little apart at the foot."""
        dx, dy = top[0] - foot[0], top[1] - foot[1]
        long = math.hypot(dx, dy) or 1e-6
        n = closes(kind)
        feet = tuple((foot[0] + dy / long * (k - (n - 1) / 2) * 0.9, foot[1] - dx / long * (k - (n - 1) / 2) * 0.9) for k in range(n))
        self._together(line, e, kind, loop, top, feet)

    def _together(self, line: Line, e: int, kind: str, loop: Loop, top: Point, feet: tuple[Point, ...]) -> None:
        tx, ty = self.paper(top)
        papers = [self.paper(foot) for foot in feet]
        mx, my = sum(p[0] for p in papers) / len(papers) - tx, sum(p[1] for p in papers) / len(papers) - ty
        turn = math.atan2(-mx, my)
        c, s = math.cos(turn), math.sin(turn)
        legs = []
        for px, py in papers:
            dx, dy = px - tx, py - ty
            share = max(0.3, 1 - GAP_MM / (math.hypot(dx, dy) or 1.0))
            legs.append((2 * round((dx * c + dy * s) * share * 5), 2 * round((-dx * s + dy * c) * share * 5)))
        shown = tuple(sorted(legs))
        key = (kind + LOOP_SUFFIX[loop], shown)
        if key not in self._gathered:
            number = self._counts[key[0]] = self._counts.get(key[0], 0) + 1
            self._gathered[key] = f"{slug(key[0])}--v{number}"
        self._mark(line, e, self._gathered[key], kind, tx, ty, math.degrees(turn), gathered(kind, shown, self.cross, loop))

    def _mark(self, line: Line, e: int, glyph: str, kind: str, x: float, y: float, angle: float, shape: Shape) -> None:
        self.glyphs.setdefault(glyph, shape)
        made = line.row.stitches
        yarn = self.yarns[made.colours[made.colour[e]]]
        self.marks.append(Mark(glyph, kind, round(x, 2) + 0.0, round(y, 2) + 0.0, round(angle, 1) + 0.0, line.row.index, e, yarn))
        self.ties.append(self._ties(line, e, (x, y)))

    def _ties(self, line: Line, e: int, at: Point) -> Ties:
        top = self.placed.top[line.index][e]
        drawn = self.placed.feet[line.index].get(e, ())
        feet = []
        for k, foot in enumerate(line.feet[e]):
            if foot.line >= 0:
                row = self.placed.lines[foot.line]
                run = self.placed.space_of(foot)
                place = row.runs[run].chains[0] if run is not None else foot.at
                point = self.paper(drawn[min(k, len(drawn) - 1)]) if drawn else at
                feet.append(((row.row.index, place), point))
        post = next((p for p, stack in line.stacks.items() if e in stack and e != p), None) if line.roles[e] == Role.START else None
        if post is not None and post in self.placed.feet[line.index]:
            feet += [(place, self.paper(self.placed.feet[line.index][post][0])) for place, _ in self._ties(line, post, at).feet]
        if e in line.run_of:
            feet.append(((line.row.index, line.runs[line.run_of[e]].chains[0]), at))
        return Ties(self.paper(top) if top is not None else at, tuple(feet))


def _low_lean(foot: Point, top: Point) -> bool:
    """Whether a low cross leans so little that it is drawn upright beside its foot: in rows a plus sign must not turn into a cross."""
    return abs(top[0] - foot[0]) <= MOST_ASIDE_MM and 1.0 < top[1] - foot[1] < 4.4


def _tight(placed: Placed, line: Line) -> set[int]:
    """Neighbours whose stems stand so close where their slashes are that these would touch."""
    found: set[int] = set()
    feet, tops = placed.feet[line.index], placed.top[line.index]
    for a, b in pairwise(line.posts):
        p, q, r, s = feet.get(a, ()), feet.get(b, ()), tops[a], tops[b]
        if len(p) == len(q) == 1 and r is not None and s is not None:
            near = math.hypot(*((p[0][k] - q[0][k]) * (1 - SLASHED_AT) + (r[k] - s[k]) * SLASHED_AT for k in (0, 1)))
            if near < ROOM_FOR_SLASHES_MM:
                found.update((a, b))
    return found


def _sharing(line: Line) -> set[int]:
    shared: set[int] = set()
    for a, b in pairwise(line.posts):
        if line.feet[a] == line.feet[b] and len(line.feet[a]) == 1 and line.feet[a][0].how not in (How.RING, How.SPACE):
            shared.update((a, b))
    return shared


@dataclass(slots=True)
class Crossed:
    """Where a stem crosses others, in shares of its length from the foot: `under` which it passes, and the `highest` crossing of all."""

    under: list[float] = field(default_factory=list)
    highest: float = 0.0


def crossings(placed: Placed, line: Line) -> dict[int, Crossed]:
    """Stems that cross a neighbour's.

    The stitch worked later lies in front on the side it is worked from, so on wrong-side rows the earlier one does.
    """
    found: dict[int, Crossed] = {}
    feet = placed.feet[line.index]
    posts = [e for e in line.posts if line.roles[e] == Role.STITCH and len(feet.get(e, ())) == 1 and height_mm(line.kinds[e]) > 4.4]
    if not any(line.feet[a] != line.feet[b] and _cut(placed, line, a, b) for a, b in pairwise(posts)):
        return found
    for k, a in enumerate(posts):
        for b in posts[k + 1 : k + FARTHEST_CROSSING]:
            if line.feet[a] == line.feet[b]:
                continue
            cut = _cut(placed, line, a, b)
            if cut is not None:
                below, share = (a, cut[0]) if line.row.side == "RS" else (b, cut[1])
                found.setdefault(below, Crossed()).under.append(share)
                for stem, at in ((a, cut[0]), (b, cut[1])):
                    one = found.setdefault(stem, Crossed())
                    one.highest = max(one.highest, at)
    return found


def _cut(placed: Placed, line: Line, a: int, b: int) -> tuple[float, float] | None:
    """Where the stems of two elements cross, as shares of each; None when they do not."""
    (p,), (q,) = placed.feet[line.index][a], placed.feet[line.index][b]
    r, s = placed.top[line.index][a], placed.top[line.index][b]
    if r is None or s is None:
        return None
    ux, uy, vx, vy = r[0] - p[0], r[1] - p[1], s[0] - q[0], s[1] - q[1]
    across = ux * vy - uy * vx
    if abs(across) < 1e-9:
        return None
    wx, wy = q[0] - p[0], q[1] - p[1]
    t, w = (wx * vy - wy * vx) / across, (wx * uy - wy * ux) / across
    return (t, w) if 0.08 < t < 0.99 and 0.08 < w < 0.99 else None
