"""Where a colour sequence lands: every metre of the balls on a stitch, a chain, a tail, a join, a trim, or named waste.

The strand is walked row by row. Inside a row only the places where the colour changes are looked up (bisection on the row's loops), so the
cost is that of the bands, not of the stitches. A ball that ends inside a row keeps its last tail for the join; the next ball begins with
one.
"""

from __future__ import annotations

import math
from array import array
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import accumulate, chain, repeat

from .amounts import YarnError
from .estimating import Estimate
from .model import constants
from .sequence import BallOfColour, Knot, Repeat
from .thread import CARRIED_ROWS, RowThread

KINDS = ("stitches", "chains", "tails", "joins", "trims", "pulled off", "left over")
"""What a metre of yarn can be on; the last two are named waste."""


@dataclass(frozen=True, slots=True)
class Change:
    """A change of colour in a row: the element it falls on, how far into that element (0-1), the colour that begins there."""

    element: int
    into: float
    colour: str


@dataclass(frozen=True, slots=True, eq=False)
class RowColours:
    """The colours of one row of one copy: `first`, then its changes in worked order; `strand` which strand it was worked from."""

    part: int
    copy: int
    thread: RowThread
    first: str
    changes: tuple[Change, ...]
    metres: float

    def each(self, colours: Sequence[str]) -> bytes:
        """For every element the index (into `colours`) of the colour that most of it has; elements in other yarns too, as if worked in
        it."""
        index = {name: i for i, name in enumerate(colours)}
        n = len(self.thread.row.stitches)
        out = bytearray([index[self.first]]) * n
        for change in self.changes:
            begins = change.element + (1 if change.into > 0.5 else 0)
            out[begins:] = bytes([index[change.colour]]) * max(0, n - begins)
        return bytes(out)


@dataclass(frozen=True, slots=True, kw_only=True)
class BallUse:
    """One ball as used: where it was begun, pulled off, and joined (label of the row, element), metres used and left over.

    `begins` the colour of its first metre used, `into_run` metres into that run of colour; `phase` the same point in the whole repeat.
    """

    number: int
    strand: int
    begins: str
    into_run: float
    phase: float
    pulled_off: float
    joined_at: tuple[str, int] | None
    used: float
    left: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Landing:
    """A sequence laid over a piece. `account[colour][kind]` in metres, kinds as in KINDS; `rows` in worked order; `balls` as used."""

    yarn: str
    repeat: Repeat
    rows: tuple[RowColours, ...]
    account: dict[str, dict[str, float]]
    balls: tuple[BallUse, ...]

    @property
    def colours(self) -> tuple[str, ...]:
        return self.repeat.colours

    @property
    def metres(self) -> float:
        """Everything accounted for."""
        return math.fsum(metres for kinds in self.account.values() for metres in kinds.values())

    def of(self, kind: str) -> float:
        """Metres of one kind, all colours."""
        return math.fsum(kinds[kind] for kinds in self.account.values())


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """How the yarn is begun and gone on with.

    `start` metres into the repeat at the begun end of every ball, unless `starts` tells it ball by ball; `pull_off` before the first
    stitch;
    `backward`, one flag a ball (the last holds on); `match`: pull off the start of each further ball until its colour goes on; `alternate`:
    change between two balls every so many rows (0: one ball after the other); `offset` metres by which the second of two begins later.
    """

    start: float = 0.0
    starts: tuple[float, ...] = ()
    pull_off: float = 0.0
    backward: tuple[bool, ...] = (False,)
    match: bool = True
    alternate: int = 0
    offset: float = 0.0
    tension: float = 1.0
    knots: tuple[Knot, ...] = ()
    tail_m: float | None = None


@dataclass(slots=True)
class _Ball:
    """A ball being used up: `at` metres from its begun end."""

    of: BallOfColour
    number: int
    at: float
    places: list[float]
    runs: list[int]

    @property
    def left(self) -> float:
        return self.of.metres - self.at

    def colour(self) -> str:
        return self.of.met.runs[self.runs[bisect_right(self.places, self.at) - 1]].colour


@dataclass(slots=True)
class _Strand:
    """One strand: the ball in use, and the balls before it."""

    number: int
    make: Iterator[BallOfColour]
    tail: float
    account: dict[str, dict[str, float]]
    used: list[BallUse] = field(default_factory=list)
    ball: _Ball | None = None
    match: bool = True
    reach: float = 0.0
    count: int = 0

    def take(self, metres: float, kind: str) -> None:
        """Use yarn for something that is no row; goes on to the next ball when this one is at its end."""
        while metres > 1e-12:
            ball = self._with_yarn(None)
            part = min(metres, max(0.0, ball.left))
            for colour, length, _ in self._spans(ball, part):
                self.account[colour][kind] += length
            ball.at += part
            metres -= part

    def row(self, thread: RowThread, upto: array[float], chains: array[float], per_loop: float) -> tuple[str, list[Change]]:
        """Work one row from this strand; answers its first colour and its changes."""
        whole, at, first = upto[-1] * per_loop, 0.0, ""
        changes: list[Change] = []
        while whole - at > 1e-12:
            ball = self._with_yarn((thread.row.label, bisect_right(upto, at / per_loop) - 1))
            part = min(whole - at, ball.left - (self.tail if math.isfinite(ball.of.metres) else 0.0))
            for colour, length, _ in self._spans(ball, part):
                low, high = at, at + length
                on_chains = (_between(upto, chains, high / per_loop) - _between(upto, chains, low / per_loop)) * per_loop
                self.account[colour]["chains"] += on_chains
                self.account[colour]["stitches"] += length - on_chains
                if not first:
                    first = colour
                elif colour != (changes[-1].colour if changes else first):
                    changes.append(_change(upto, low / per_loop, colour))
                at = high
            ball.at += part
        return first or (self.ball.colour() if self.ball else self._with_yarn(None).colour()), changes

    def finish(self) -> None:
        """Close the last ball; what is in it is left over."""
        if self.ball is not None:
            self._close(self.ball, None, left=True)
            self.ball = None

    def _with_yarn(self, place: tuple[str, int] | None) -> _Ball:
        """The ball in use; when it has no more than its tail, it is joined to the next."""
        ball = self.ball
        if ball is not None and (ball.left > self.tail + 1e-9 or math.isinf(ball.of.metres)):
            return ball
        wanted = None
        if ball is not None:
            met = ball.of.phase(ball.at)
            wanted = ball.of.repeat.metres - met if ball.of.backward else met
            self._spend(ball, ball.left, "joins")
            self._close(ball, place, left=False)
        fresh = self._open(wanted)
        if ball is not None:
            self._spend(fresh, min(self.tail, fresh.left), "joins")
        return fresh

    def _open(self, wanted: float | None) -> _Ball:
        of = next(self.make)
        self.count += 1
        if self.count > MOST_BALLS:
            raise YarnError(f"More than {MOST_BALLS:,} balls would be needed: the balls are too short for this piece.")
        if wanted is not None and self.match and math.isfinite(of.metres):
            goal = of.repeat.metres - wanted if of.backward else wanted
            off = (goal - self.tail - of.phase(0.0)) % of.repeat.metres
            off = 0.0 if of.repeat.metres - off < 1e-9 else off
            of = replace(of, pull_off=off if off < of.metres - 4 * self.tail else 0.0)
        reach = of.metres if math.isfinite(of.metres) else self.reach + of.pull_off + 1.0
        ball = _Ball(of, self.count, 0.0, *of.changes(reach))
        self.ball = ball
        self._spend(ball, of.pull_off, "pulled off")
        return ball

    def _spend(self, ball: _Ball, metres: float, kind: str) -> None:
        for colour, length, _ in self._spans(ball, metres):
            self.account[colour][kind] += length
        ball.at += metres

    def _close(self, ball: _Ball, place: tuple[str, int] | None, *, left: bool) -> None:
        rest = ball.left if left and math.isfinite(ball.of.metres) else 0.0
        used = ball.at - ball.of.pull_off
        if rest > 0:
            self._spend(ball, rest, "left over")
        met, phase = ball.of.met, ball.of.phase(ball.of.pull_off)
        run = met.at(phase)
        self.used.append(
            BallUse(
                number=ball.number, strand=self.number, begins=met.runs[run].colour,
                into_run=phase - (met.ends[run - 1] if run else 0.0), phase=phase, pulled_off=ball.of.pull_off,
                joined_at=place, used=used, left=rest,
            )
        )  # fmt: skip

    def _spans(self, ball: _Ball, metres: float) -> Iterator[tuple[str, float, int]]:
        """The next `metres` of a ball as (colour, length, run), in order; the ball itself is not moved."""
        low, high = ball.at, ball.at + metres
        n = bisect_right(ball.places, low) - 1
        runs = ball.of.met.runs
        while low < high:
            end = ball.places[n + 1] if n + 1 < len(ball.places) else math.inf
            stop = min(high, end)
            if stop > low:
                yield runs[ball.runs[n]].colour, stop - low, ball.runs[n]
            low = stop
            n += 1


MOST_BALLS = 5_000


def _between(upto: array[float], chains: array[float], at: float) -> float:
    """Loops of chains within the first `at` loops of a row."""
    i = min(max(bisect_right(upto, at) - 1, 0), len(upto) - 2)
    whole = upto[i + 1] - upto[i]
    return chains[i] + (chains[i + 1] - chains[i]) * ((at - upto[i]) / whole if whole else 0.0)


def _change(upto: array[float], at: float, colour: str) -> Change:
    i = min(max(bisect_right(upto, at + 1e-9) - 1, 0), len(upto) - 2)
    whole = upto[i + 1] - upto[i]
    return Change(i, min(1.0, max(0.0, (at - upto[i]) / whole)) if whole else 0.0, colour)


def land(found: Estimate, yarn: str, sequence: Repeat, plan: Plan = Plan(), *, ball_m: float | None = None) -> Landing:
    """Lay a sequence over the rows worked in `yarn`.

    `ball_m`: metres of a ball (default: the yarn's label; without one the yarn is endless). Raises YarnError for a sequence longer than the
    ball, or a plan that cannot be.
    """
    if plan.tension <= 0:
        raise YarnError("Tension must be greater than nothing.")
    use = found.yarn(yarn)
    metres = ball_m or (use.supplied.ball.metres if use.supplied.ball else math.inf)
    tail = constants().end_m if plan.tail_m is None else plan.tail_m
    account = {colour: dict.fromkeys(KINDS, 0.0) for colour in sequence.colours}
    if metres < 10 * tail:
        raise YarnError(f"A ball of {metres:g} m is too short to work from.")
    strands = use.supplied.strands
    trims = use.of_which["trims"] / strands
    whole = use.fabric_m * plan.tension / strands + trims + 2 * tail * (2 + sum(each.get(yarn, 0) for each in found.ends))
    number = 2 if plan.alternate else 1
    reach = whole + 1.0
    held = [_Strand(n, _balls(sequence, metres, plan, n), tail, account, match=plan.match, reach=reach) for n in range(number)]
    rows = tuple(_rows(found, yarn, plan, held, tail))
    if trims:
        held[0].take(trims, "trims")
    for strand in held:
        strand.finish()
    return Landing(
        yarn=yarn, repeat=sequence, rows=rows, account=account, balls=tuple(ball for strand in held for ball in strand.used)
    )  # fmt: skip


def _balls(sequence: Repeat, metres: float, plan: Plan, strand: int) -> Iterator[BallOfColour]:
    """The balls of one strand, one after the other."""
    later = plan.offset if strand else 0.0
    backward = chain(plan.backward, repeat(plan.backward[-1]))
    starts = chain(plan.starts or (plan.start,), repeat(plan.starts[-1] if plan.starts else plan.start))
    for n, (start, turned) in enumerate(zip(starts, backward, strict=False)):
        off = (plan.pull_off + later) if n == 0 else 0.0
        yield BallOfColour(
            repeat=sequence, metres=metres, start=start, backward=turned, pull_off=off, knots=plan.knots if n == 0 and not strand else ()
        )


def _rows(found: Estimate, yarn: str, plan: Plan, held: Sequence[_Strand], tail: float) -> Iterator[RowColours]:
    cache: dict[int, tuple[array[float], array[float]]] = {}
    strands = found.yarn(yarn).supplied.strands
    for p, part in enumerate(found.threads):
        mine = [row for row in part.rows if row.metres.get(yarn)]
        pairs = found.ends[p].get(yarn, 0) // max(1, part.copies)
        for copy in range(part.copies if mine else 0):
            yield from _copy(found, yarn, plan, held, tail, p, copy, mine, pairs, strands, cache)


def _copy(
    found: Estimate, yarn: str, plan: Plan, held: Sequence[_Strand], tail: float, p: int, copy: int, mine: Sequence[RowThread], pairs: int,
    strands: int, cache: dict[int, tuple[array[float], array[float]]],
) -> Iterator[RowColours]:  # fmt: skip
    """One copy of a part. A yarn that rested too long to be carried was cut: two tails where it comes back."""
    tails = 2 * pairs
    last: int | None = None
    for order, row in enumerate(mine):
        strand = held[(order // plan.alternate) % 2] if plan.alternate else held[0]
        wanted = 1 if last is None else 2 if row.index - last > CARRIED_ROWS else 0
        if plan.alternate and order == plan.alternate:
            held[1].take(tail, "tails")
        now = min(wanted, max(0, tails - 1)) if tails else 0
        if now:
            strand.take(now * tail, "tails")
        tails -= now
        last = row.index
        upto, chains = _loops_of(row, yarn, found, cache)
        first, changes = strand.row(row, upto, chains, row.per_loop[yarn] * plan.tension / strands)
        yield RowColours(p, copy, row, first, tuple(changes), row.metres[yarn] * plan.tension / strands)
    for strand in held:
        strand.take((tails if strand is held[0] else 1) * tail, "tails")


def _loops_of(
    row: RowThread, yarn: str, found: Estimate, cache: dict[int, tuple[array[float], array[float]]]
) -> tuple[array[float], array[float]]:
    """Loops of a row worked in `yarn`, running; other yarns' elements take none of it."""
    st = row.row.stitches
    if len(st.colours) == 1 or len(row.metres) == 1:
        return row.drawn.upto, row.drawn.chains_upto
    if id(st) not in cache:
        mine = [found.yarn_of[name] == yarn for name in st.colours]
        each = [b - a if mine[c] else 0.0 for a, b, c in zip(row.drawn.upto, row.drawn.upto[1:], st.colour, strict=False)]
        chained = [b - a if mine[c] else 0.0 for a, b, c in zip(row.drawn.chains_upto, row.drawn.chains_upto[1:], st.colour, strict=False)]
        cache[id(st)] = (array("d", accumulate(each, initial=0.0)), array("d", accumulate(chained, initial=0.0)))
    return cache[id(st)]


@dataclass(frozen=True, slots=True, kw_only=True)
class BandEdge:
    """Where a colour begins: part, copy, row, the stitch of the row (from 1) and how many the row has."""

    part: str
    copy: int
    row: str
    stitch: int
    of: int
    colour: str


def band_edges(found: Estimate, landing: Landing) -> Iterator[BandEdge]:
    """Every change of colour, in worked order, by row and stitch."""
    before = ""
    for row in landing.rows:
        name = found.threads[row.part].name
        if row.first != before:
            yield BandEdge(part=name, copy=row.copy + 1, row=row.thread.row.label, stitch=1, of=row.thread.drawn.stitches, colour=row.first)
        for change in row.changes:
            yield BandEdge(part=name, copy=row.copy + 1, row=row.thread.row.label, stitch=_stitch_number(row.thread, change.element),
                           of=row.thread.drawn.stitches, colour=change.colour)  # fmt: skip
        before = row.changes[-1].colour if row.changes else row.first


def _stitch_number(thread: RowThread, element: int) -> int:
    role = thread.row.stitches.role[: element + 1]
    return max(1, role.count(0) + role.count(3))
