"""A placed part: where every element of every line stands. Millimetres, x to the right, y up; nothing is drawn yet.

Rows and rounds share everything that follows once the tops of a line are known: feet in spaces, runs of chains, starting chains,
picots. `Placed.finish_line` does it for both; `out` says which way is outwards at a point (up in rows, away from the centre in rounds).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from ..trade.kinds import closes
from ..working.fabric import How, Role
from .arcs import Oval, Point, along, loop
from .border import Border
from .cloth import Foot, Line, Run
from .slants import low_end, standing_chains, upper_end
from .spacing import CUT_MM, LOW, half_width
from .symbols import CHAIN_HALF_MM, CHAIN_MM, height_mm, plain

UPRIGHT_CHAIN_MM = 2.2
DOT_STEP_MM = 1.6
"""From one slip stitch to the next into the same place."""
NEAR_FEET_MM = 1.3
"""A starting chain whose foot is nearer to the next stitch's steps aside: ovals are wider than stems."""
LONG_LOOP = 8
"""Chains of a loop so long that the stitches worked into it spread along it."""
LEAST_CHORD = 0.7
"""Millimetres of the way for each chain: a shorter way would make the arc a ring."""
ON_DOT_MM = 1.05
"""A starting chain that does not count stands on the dot of the joining slip stitch, so high above its round's base."""


@dataclass(slots=True)
class Placed:
    """Tops, feet and chains of a part. `form` "rows" or "round"; `ring_mm` the radius of the ring at the centre of rounds."""

    lines: list[Line]
    pitch: float
    form: str
    out: Callable[[Point], Point]
    ring_mm: float = 0.0
    top: list[list[Point | None]] = field(default_factory=list)
    """Where that which stands on an element stands."""
    feet: list[dict[int, tuple[Point, ...]]] = field(default_factory=list)
    ovals: list[dict[int, Oval]] = field(default_factory=list)
    """Chains, by element."""
    dots: list[dict[int, Point]] = field(default_factory=list)
    """Slip stitches that join, travel or close a picot."""
    seats: dict[tuple[int, int], list[tuple[int, int]]] = field(default_factory=dict)
    """Space (line, run) → the (line, post) that are worked into it, in worked order."""
    border: Border | None = None
    """The rounds that go all round the rows, when there are any."""
    edging: set[int] = field(default_factory=set)
    """Lines that lie along row ends, beside the rows."""
    begins: dict[int, tuple[Point, Point]] = field(default_factory=dict)
    """Where the numbers of rows stand that lean, and which way the row goes from there."""
    repeats: int = 1
    """How often a motif repeats round its centre."""
    break_mm: list[float] = field(default_factory=list)
    """The room left free at each place where rows are left out: more where the rows on both sides of it reach into one another."""

    def __post_init__(self) -> None:
        for line in self.lines:
            self.top.append([None] * len(line))
            self.feet.append({})
            self.ovals.append({})
            self.dots.append({})
            for post in line.posts:
                for foot in line.feet[post]:
                    run = self.space_of(foot)
                    if run is not None:
                        self.seats.setdefault((foot.line, run), []).append((line.index, post))
        for who in self.seats.values():
            self._turn_seats(who)

    def _turn_seats(self, who: list[tuple[int, int]]) -> None:
        """A round that begins and ends in one space: its last stitches stand before its first."""
        if self.form != "round" or len(who) < 2:
            return
        line = self.lines[who[0][0]]
        if who[0] != (line.index, line.posts[0]) or who[-1] != (line.index, line.posts[-1]):
            return
        at = {post: i for i, post in enumerate(line.posts)}
        leap = max(range(1, len(who)), key=lambda k: at[who[k][1]] - at[who[k - 1][1]])
        who[:] = who[leap:] + who[:leap]

    def space_of(self, foot: Foot) -> int | None:
        """The run of chains that a foot stands in, when it is worked into a space."""
        if foot.line < 0 or foot.how != How.SPACE:
            return None
        return self.lines[foot.line].run_of.get(foot.at)

    def foot_point(self, line: Line, post: int, foot: Foot) -> Point | None:
        """Where a foot stands; None when what it stands on is not drawn (the ring, a row's side)."""
        if foot.line < 0:
            return (0.0, 0.0) if foot.how == How.RING else None
        run = self.space_of(foot)
        if run is not None:
            return self._in_space(foot.line, run, (line.index, post))
        tops = self.top[foot.line]
        here = tops[foot.at]
        if foot.how == How.BETWEEN and here is not None:
            return self._between(self.lines[foot.line], foot.at, here)
        return here

    def _between(self, below: Line, at: int, here: Point) -> Point:
        after = next((p for p in below.posts if p > at), None)
        there = self.top[below.index][after] if after is not None else None
        if there is None:
            return here
        x, y = (here[0] + there[0]) / 2, (here[1] + there[1]) / 2
        return (x, max(here[1], there[1])) if self.form == "rows" else (x, y)

    def _in_space(self, line: int, run: int, who: tuple[int, int]) -> Point | None:
        chains = [self.ovals[line][e] for e in self.lines[line].runs[run].chains if e in self.ovals[line]]
        if not chains:
            return None
        if self.form == "rows" and low_end(self.lines[line], self.lines[line].runs[run]) is not None:
            x, y = upper_end(chains)
            way = 2.0 if self.lines[line].rightwards else -2.0  # seats are counted along the row below, which may run either way
            return x + (self._seat(line, run, who, 2.0) - 0.5) * way, y
        return self._over(chains, self._seat(line, run, who, sum(oval.length for oval in chains)))

    def _seat(self, line: int, run: int, who: tuple[int, int], width: float) -> float:
        """Where in a space a stitch stands, as a share of the space's way."""
        seats = self.seats.get((line, run), [])
        if who not in seats:
            return 0.5
        k, n = seats.index(who), len(seats)
        low = plain(self.lines[who[0]].kinds[who[1]]) in LOW
        if n > 3 and len(self.lines[line].runs[run].chains) >= max(n, LONG_LOOP):
            step = 0.8 / n  # along a long loop each has a place of its own
        else:
            step = 0.5 if self.filled(line, run) else min((0.85 if low else 0.42) * self.pitch, width * 0.8 / n) / width
        against = self.lines[who[0]].rightwards != self.lines[line].rightwards
        return 0.5 + (k - (n - 1) / 2) * step * (-1 if against else 1)

    def seats_wide(self, foot: Foot) -> float:
        """How far the first and last of the stitches that stand in a space stand apart, mm; 0 where a foot is no space."""
        run = self.space_of(foot)
        if run is None:
            return 0.0
        n, width = len(self.seats.get((foot.line, run), ())), len(self.lines[foot.line].runs[run].chains) * CHAIN_MM
        return (n - 1) * min(0.42 * self.pitch, width * 0.8 / n) if n else 0.0

    def filled(self, line: int, run: int) -> bool:
        """Whether a space of two chains holds two stitches: a filled mesh, each stitch over its chain."""
        return len(self.seats.get((line, run), ())) == 2 == len(self.lines[line].runs[run].chains)

    def seat_x(self, line: Line, post: int, below: int, run: int, x: Sequence[float]) -> float:
        """x of a stitch's foot in a space of a row whose elements stand at `x`: two over two chains stand apart, a fan in the middle."""
        chains = self.lines[below].runs[run].chains
        middle = sum(x[e] for e in chains) / len(chains)
        if len(self.seats.get((below, run), ())) > len(chains) or len(chains) < 2:
            return middle
        width = (x[chains[-1]] - x[chains[0]]) * len(chains) / (len(chains) - 1)
        return middle + width * (self._seat(below, run, (line.index, post), abs(width) or 1.0) - 0.5)

    def _over(self, chains: list[Oval], share: float) -> Point:
        """A point just outside a run of chains, at a share of its way."""
        at = share * len(chains) - 0.5
        i = max(0, min(len(chains) - 1, math.floor(at)))
        j = min(len(chains) - 1, i + 1)
        t = at - i
        a, b = chains[i], chains[j]
        if i == j:
            tilt = math.radians(a.angle_deg)
            x, y = a.x + math.cos(tilt) * t * a.length, a.y + math.sin(tilt) * t * a.length
        else:
            x, y = a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t
        tilt = math.radians(a.angle_deg + (b.angle_deg - a.angle_deg + 180) % 360 * t - 180 * t)
        ox, oy = self.out((x, y))
        nx, ny = -math.sin(tilt), math.cos(tilt)
        if nx * ox + ny * oy < 0:
            nx, ny = -nx, -ny
        return x + nx * CHAIN_HALF_MM, y + ny * CHAIN_HALF_MM

    def finish_line(self, line: Line, bow: Callable[[Point, Point], float] | None = None) -> None:
        """Everything of a line that follows from the tops of its posts. `bow`: the least bow of chains between two points."""
        for r in range(len(line.runs)):
            self._lay_run(line, line.runs[r], bow)
        for post, stack in line.stacks.items():
            self._stack(line, post, stack)
        for anchor, elements in line.hanging:
            self._hang(line, anchor, elements)
        for e in line.travel:
            point = next((p for foot in line.feet[e] if (p := self.foot_point(line, e, foot)) is not None), None)
            if point is not None:
                ox, oy = self.out(point)
                # Before another slip stitch into the same place it lies so much further back along the row.
                again = e + 1 < len(line) and line.kinds[e + 1] == "sl st" and line.feet[e + 1] == line.feet[e]
                back = (-DOT_STEP_MM if line.rightwards else DOT_STEP_MM) if again else 0.0
                self.set_small(line, e, (point[0] + ox * 0.8 + oy * back, point[1] + oy * 0.8 - ox * back))
        if self.form != "round":
            self._join_flat(line)

    def _join_flat(self, line: Line) -> None:
        """The joining slip stitch of a round laid flat: past its last stitch."""
        last = next((self.top[line.index][post] for post in reversed(line.posts)), None)
        if last is None:
            return
        way = 1.0 if line.rightwards else -1.0
        for k, e in enumerate(line.joins):
            if line.kinds[e] == "sl st" and self.border is not None and line.index in self.edging:
                first = self.top[line.index][line.posts[0]] or last
                far, near = math.dist(first, last) or 1.0, half_width(line.kinds[line.posts[-1]]) + 0.9 + k * 1.6
                ux, uy = (first[0] - last[0]) / far, (first[1] - last[1]) / far
                self.dots[line.index][e] = (last[0] + ux * near, last[1] + uy * near)
            elif line.kinds[e] == "sl st":
                self.dots[line.index][e] = (last[0] + way * (half_width(line.kinds[line.posts[-1]]) + 0.9 + k * 1.6), last[1] - 0.6)
            elif line.index in self.edging:
                self._lean_in(line, e, last)

    def _lean_in(self, line: Line, e: int, last: Point) -> None:
        """A tall stitch that closes a border's round stands for half a loop: from the round's first stitch towards its last."""
        first = self.top[line.index][line.posts[0]]
        if first is None:
            return
        ox, oy = self.out(last)
        far = math.dist(first, last) or 1.0
        ux, uy = (last[0] - first[0]) / far, (last[1] - first[1]) / far
        share = min(height_mm(line.kinds[e]) * 0.7, far * 0.55)
        self.feet[line.index][e] = ((first[0] + ux * 0.9, first[1] + uy * 0.9),)
        self.top[line.index][e] = (first[0] + ux * share + ox * 2.2, first[1] + uy * share + oy * 2.2)

    def place_the_rest(self, line: Line) -> None:
        """Whatever found no place (its foot is not drawn) is set down past the element worked before it: nothing is lost."""
        i = line.index
        at, step = self._edge_before(line), 0.0
        way = 1.0 if line.rightwards else -1.0
        for e in range(len(line)):
            done = e in self.ovals[i] or e in self.dots[i] or e in self.feet[i] or e in line.hidden
            here = self.top[i][e]
            if done:
                at, step = (here, 0.0) if here is not None else (at, step)
                continue
            step += 1.0
            ox, oy = self.out(at) if self.form == "round" else (0.0, 1.0)
            x, y = at[0] + oy * way * step * self.pitch, at[1] - ox * way * step * self.pitch
            if line.kinds[e] == "ch":
                self.set_chain(line, e, Oval(x, y, math.degrees(math.atan2(-ox, oy)), 2.6))
            elif line.kinds[e] == "sl st":
                self.dots[i][e] = (x, y)
            else:
                tall = height_mm(line.kinds[e])
                self.feet[i][e] = ((x, y),)
                self.top[i][e] = (x + ox * tall, y + oy * tall)

    def _lay_run(self, line: Line, run: Run, bow: Callable[[Point, Point], float] | None) -> None:
        tops = self.top[line.index]
        p = tops[run.before] if run.before is not None else None
        q = tops[run.after] if run.after is not None else None
        n = len(run.chains)
        if p is None or q is None or run.before is None or run.after is None:
            self._lay_open(line, run, p, q)
            return
        low = low_end(line, run) if self.form == "rows" else None
        if low is not None:
            low_top, tall_top = (p, q) if low == run.before else (q, p)
            for e, oval in zip(run.chains, standing_chains(line, run, low, low_top, tall_top), strict=True):
                self.set_chain(line, e, oval)
            return
        if line.past:
            p, q = self._closed_up(line, run.before, p, run.after, q)
        if n * 2.5 < 1.3 * (math.dist(p, q) - 2.9):
            p, q = self._shoulder(line, run.before, p), self._shoulder(line, run.after, q)
        elif n > 1:
            lift = 0.45 if n * 2.3 < 1.8 * (math.dist(p, q) - 2.9) else 1.1
            p, q = self._over_bar(p, lift), self._over_bar(q, lift)
        dx, dy = q[0] - p[0], q[1] - p[1]
        far = math.hypot(dx, dy) or 1e-9
        room = max(far - 0.5, 0.0)
        a, b = half_width(line.kinds[run.before]) + 0.4, half_width(line.kinds[run.after]) + 0.4
        if line.joins and run.after == line.posts[0]:
            b += 1.2 + (1.9 if run.after in line.stacks and line.roles[run.after] != Role.START_TOP else 0.0)
        squeeze = min(1.0, room / (a + b)) if a + b > room * 0.75 else 1.0
        a, b = a * squeeze / far, b * squeeze / far
        start, end = (p[0] + dx * a, p[1] + dy * a), (q[0] - dx * b, q[1] - dy * b)
        middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
        least = max(bow(start, end) if bow else 0.0, self._clearance(line, run, start, end, self.out(middle)))
        for e, oval in zip(run.chains, along(start, end, n, self.out(middle), least_bow=least), strict=True):
            self.set_chain(line, e, oval)

    def _closed_up(self, line: Line, before: int, p: Point, after: int, q: Point) -> tuple[Point, Point]:
        """The ends of a run that lies across a cut, as if the right one stood no further off for it: the cut itself stays free."""
        shift = (line.past[after] - line.past[before]) * CUT_MM
        return (p, (q[0] - shift, q[1])) if shift > 0 else ((p[0] + shift, p[1]), q)

    def _clearance(self, line: Line, run: Run, start: Point, end: Point, out: Point) -> float:
        """How far chains must bow to pass over the tops of the stitches they skip."""
        if run.before is None or run.after is None or not line.feet[run.before] or not line.feet[run.after]:
            return 0.0
        a, b = line.feet[run.before][-1], line.feet[run.after][0]
        if a.line != b.line or a.line < 0 or abs(a.at - b.at) > 40:
            return 0.0
        chord = math.dist(start, end) or 1.0
        nx, ny = -(end[1] - start[1]) / chord, (end[0] - start[0]) / chord
        if nx * out[0] + ny * out[1] < 0:
            nx, ny = -nx, -ny
        most = 0.0
        below = self.lines[a.line]
        for e in range(min(a.at, b.at) + 1, max(a.at, b.at)):
            top = self.top[a.line][e] if e not in below.run_of else None
            if top is not None:
                along_it = ((top[0] - start[0]) * -ny + (top[1] - start[1]) * nx) * (
                    1 if (end[0] - start[0]) * -ny + (end[1] - start[1]) * nx > 0 else -1
                )
                if 0 < along_it < chord:
                    rise = (top[0] - start[0]) * nx + (top[1] - start[1]) * ny + 1.8
                    share = along_it / chord
                    most = max(most, rise / max(4 * share * (1 - share), 0.35))
        return min(most, chord)

    def _shoulder(self, line: Line, post: int, top: Point) -> Point:
        """Where chains leave a post: at the bar of a tall one, at the arms of a low cross."""
        if plain(line.kinds[post]) not in LOW or closes(line.kinds[post]) > 1:
            return top
        ox, oy = self.out(top)
        return top[0] - ox * 1.1, top[1] - oy * 1.1

    def _over_bar(self, top: Point, lift: float) -> Point:
        """Where chains that bow leave a tall post: just above its bar."""
        ox, oy = self.out(top)
        return top[0] + ox * lift, top[1] + oy * lift

    def _lay_open(self, line: Line, run: Run, p: Point | None, q: Point | None) -> None:
        """A run with an open end (an edge chain, a tail): straight on from the post it is tied to."""
        sign = 1.0 if line.rightwards else -1.0
        if p is None and q is not None and self._from_the_edge(line, run, q):
            return
        if p is not None:
            steps, at = [k + 1.0 for k in range(len(run.chains))], p
        elif q is not None:
            steps, at = [k - float(len(run.chains)) for k in range(len(run.chains))], q
        else:
            steps, at = [float(k) for k in range(len(run.chains))], self._edge_before(line)
        for e, k in zip(run.chains, steps, strict=True):
            self.set_chain(line, e, Oval(at[0] + sign * k * self.pitch, at[1] - CHAIN_HALF_MM * 0.5, 0.0, 2.8))

    def _from_the_edge(self, line: Line, run: Run, q: Point) -> bool:
        """Chains that a row begins with: an arc from the edge of the row below to the first stitch, bowing outwards."""
        if self.form == "round" or not line.index or line.index in self.edging or run.after is None or line.ledge:
            return False
        meets = any(e in line.meets for e in run.chains)
        reaches = len(run.chains) * UPRIGHT_CHAIN_MM > height_mm(line.kinds[run.after]) + UPRIGHT_CHAIN_MM
        if plain(line.kinds[run.after]) not in LOW and not meets and not reaches:
            return False
        edge, (ox, oy), n = self._edge_before(line), self.out(q), len(run.chains)
        way = (oy, -ox) if line.rightwards else (-oy, ox)
        if not meets and not LEAST_CHORD * n < math.dist(edge, q) < n * CHAIN_MM + 2.0:
            return False
        side = half_width(line.kinds[run.after]) + 0.5
        end = (q[0] - way[0] * side - ox * 1.1, q[1] - way[1] * side - oy * 1.1)
        start = (edge[0] - way[0] * 0.4 + ox * 0.7, edge[1] - way[1] * 0.4 + oy * 0.7)
        for e, oval in zip(run.chains, along(start, end, n, (ox - way[0], oy - way[1])), strict=True):
            self.set_chain(line, e, oval)
        return True

    def break_room(self, below: Line, line: Line) -> float:
        """How much higher a row is drawn for the breaks between it and a row below."""
        return sum(self.break_mm[below.breaks : line.breaks]) if below.breaks < line.breaks else 0.0

    def _edge_before(self, line: Line) -> Point:
        """Where the row before ended."""
        if line.index:
            for e in reversed(range(len(self.lines[line.index - 1]))):
                point = self.top[line.index - 1][e]
                if point is not None:
                    lift = self.break_room(self.lines[line.index - 1], line) if self.form == "rows" else 0.0
                    return point[0], point[1] + lift
        return (0.0, 0.0)

    def set_chain(self, line: Line, e: int, oval: Oval) -> None:
        """Place one chain; what stands on it stands on its outer side. A stitch among chains that joins another piece stands up there."""
        if e in line.meets:
            self.set_small(line, e, (oval.x, oval.y))
            return
        self.ovals[line.index][e] = oval
        ox, oy = self.out((oval.x, oval.y))
        self.top[line.index][e] = (oval.x + ox * CHAIN_HALF_MM, oval.y + oy * CHAIN_HALF_MM)

    def set_small(self, line: Line, e: int, point: Point) -> None:
        """A slip stitch that travels or closes a picot is a dot; any other stitch in its place stands up there."""
        if line.kinds[e] == "sl st":
            self.dots[line.index][e] = point
            return
        ox, oy = self.out(point)
        tall = height_mm(line.kinds[e])
        self.feet[line.index][e] = (point,)
        self.top[line.index][e] = (point[0] + ox * tall, point[1] + oy * tall)

    def _stack(self, line: Line, post: int, stack: list[int]) -> None:
        """Starting chains stand on end: in the first place when they count, beside the first stitch when not."""
        top, feet = self.top[line.index][post], self.feet[line.index].get(post)
        if top is None or not feet:
            return
        foot = feet[0]
        counted = line.roles[post] == Role.START_TOP
        if not counted and self._up_the_edge(line, post, stack, top):
            return
        if not counted:
            foot, top = self._beside(line, post, foot, top, len(stack))
        else:
            foot = self._aside(line, post, foot)
        n = len(stack)
        dx, dy = top[0] - foot[0], top[1] - foot[1]
        length = math.hypot(dx, dy)
        lead = 0.35 / max(length, 0.3)
        share = (1 - 1.3 * lead) / n
        angle = math.degrees(math.atan2(dy, dx))
        for k, e in enumerate(stack):
            t = lead + share * (k + 0.5)
            oval = Oval(foot[0] + dx * t, foot[1] + dy * t, angle, max(min(3.0, length * share - 0.36), 0.75))
            self.ovals[line.index][e] = oval
            if e != post:
                self.top[line.index][e] = (foot[0] + dx * (t + share / 2), foot[1] + dy * (t + share / 2))

    def _up_the_edge(self, line: Line, post: int, stack: list[int], top: Point) -> bool:
        """Starting chains far longer than their row is high reach from the edge of the row below to the first stitch, bowing outwards."""
        natural = len(stack) * UPRIGHT_CHAIN_MM
        if self.form == "round" or not line.index or line.index in self.edging or natural < 2 * height_mm(line.kinds[post]):
            return False
        edge, (ox, oy) = self._edge_before(line), self.out(top)
        way = (oy, -ox) if line.rightwards else (-oy, ox)
        if not 1.0 < math.dist(edge, top) < len(stack) * CHAIN_MM + 2.0:
            return False
        side = half_width(line.kinds[post]) + 0.5
        end = (top[0] - way[0] * side - ox * 1.1, top[1] - way[1] * side - oy * 1.1)
        for e, oval in zip(stack, along((edge[0] + ox * 0.5, edge[1] + oy * 0.5), end, len(stack), (-way[0], -way[1])), strict=True):
            self.set_chain(line, e, oval)
        return True

    def _aside(self, line: Line, post: int, foot: Point) -> Point:
        """The foot of a counted starting chain moved a little away from the stitch that shares its place: ovals are wider than stems."""
        i = line.posts.index(post)
        after = line.posts[i + 1] if i + 1 < len(line.posts) else None
        near = self.feet[line.index].get(after, ()) if after is not None else ()
        if after is None or len(near) != 1 or math.dist(foot, near[0]) > NEAR_FEET_MM:
            return foot
        top, there = self.top[line.index][post], self.top[line.index][after]
        if top is None or there is None:
            return foot
        far = math.dist(top, there) or 1.0
        return foot[0] + (top[0] - there[0]) / far * 0.9, foot[1] + (top[1] - there[1]) / far * 0.9

    def _beside(self, line: Line, post: int, foot: Point, top: Point, chains: int) -> tuple[Point, Point]:
        """Foot and top of a chain that does not count: one narrow place before the first stitch, and leaning as it does."""
        ux, uy = top[0] - foot[0], top[1] - foot[1]
        far = math.hypot(ux, uy) or 1.0
        ux, uy = ux / far, uy / far
        side = 1.0 if line.rightwards else -1.0
        bx, by = -uy * side, ux * side
        if self.form == "rows" and abs(ux) > abs(uy):  # an edging: its way is along the edge, not along the rows
            ahead = next((at for other in line.posts if other > post and (at := self.top[line.index][other]) is not None), None)
            if ahead is not None and bx * (ahead[0] - top[0]) + by * (ahead[1] - top[1]) > 0:
                bx, by = -bx, -by
        shift = half_width(line.kinds[post]) + 0.95
        tall = max(min(chains * UPRIGHT_CHAIN_MM + 0.4, height_mm(line.kinds[post]) + 0.3), 1.9)
        lift = 0.0
        if self.form == "round" and line.index and self.lines[line.index - 1].joins:
            lift, tall = ON_DOT_MM, max(tall - ON_DOT_MM, 2.0)
        start = (foot[0] + bx * shift + ux * lift, foot[1] + by * shift + uy * lift)
        return start, (start[0] + ux * tall, start[1] + uy * tall)

    def _hang(self, line: Line, anchor: int, elements: list[int]) -> None:
        base = self.top[line.index][anchor]
        if base is None:
            return
        chains = [e for e in elements if line.kinds[e] == "ch"]
        ox, oy = self.out(base)
        for e, oval in zip(chains, loop(base, len(chains), (ox, oy)) if chains else [], strict=True):
            self.ovals[line.index][e] = oval
        for e in elements:
            if line.kinds[e] != "ch":
                self.set_small(line, e, (base[0] + ox * 0.35, base[1] + oy * 0.35))
