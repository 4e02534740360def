"""A part of a fabric as the engraver wants it: lines of elements, each knowing what it stands on, chains gathered into runs.

Rows that are abridged away are left out here; whatever stood on them stands on what they stood on (a plain row is one stitch on one
stitch, so this is exact), or on the row drawn that is worked as they are. Lines are numbered from 0 over the rows kept; `Line.row` says
which row it is.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from types import MappingProxyType
from typing import NamedTuple

from ..pattern import FLAT
from ..working.fabric import How, PartWork, Role, RowWork


class Foot(NamedTuple):
    """What an element is worked into: the line (−1: nothing drawn below, the ring), the element there, and how."""

    line: int
    at: int
    how: How


class Run(NamedTuple):
    """Neighbouring chains that make a space. `before` and `after`: the posts they hang between (None at an open end)."""

    chains: tuple[int, ...]
    before: int | None
    after: int | None


@dataclass(slots=True)
class Line:
    """One row: `posts` are the elements that stand up and offer a top, in worked order; the rest hangs between or on them."""

    row: RowWork
    index: int
    kinds: list[str]
    roles: bytes
    feet: list[tuple[Foot, ...]]
    posts: list[int] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    run_of: dict[int, int] = field(default_factory=dict)
    stacks: dict[int, list[int]] = field(default_factory=dict)
    """Post → the starting chains that stand beside or under it (for a counted chain the post is their last)."""
    hanging: list[tuple[int, list[int]]] = field(default_factory=list)
    """(post or chain it hangs on, its elements): picots."""
    ledge: list[int] = field(default_factory=list)
    """Chains at the row's beginning that later stitches of the same row stand on: they lie on the row's base, beyond the edge."""
    travel: list[int] = field(default_factory=list)
    joins: list[int] = field(default_factory=list)
    meets: list[int] = field(default_factory=list)
    """Stitches worked into another piece as it is joined: each is one of the run of chains it lies in."""
    hidden: set[int] = field(default_factory=set)
    """Elements cut out of a wide chart: not drawn, told in words."""
    past: list[int] = field(default_factory=list)
    """How many cuts lie at the left of each element; empty where nothing was cut."""
    breaks: int = 0
    """Below how many of this part's lines rows are left out, this one and those under it."""
    rightwards: bool = False
    """Worked from left to right (in the round: with the clock) as the chart shows it. A right-hander works leftwards on the side that
    faces her; where the feet say otherwise than the side does, the feet are believed."""

    @property
    def foundation(self) -> bool:
        return self.row.foundation

    @property
    def elsewhere(self) -> bool:
        """A row of another part, shown only because this part is worked on it."""
        return self.row.index < 0

    def __len__(self) -> int:
        return len(self.kinds)

    def keep_only(self, kept: Collection[int]) -> None:
        """Leave out every post that is not in `kept`, and what hangs on it."""
        gone = [post for post in self.posts if post not in kept]
        runs = [run for run in self.runs if run.before in kept and run.after in kept]
        self.hidden.update(gone, *(stack for post, stack in self.stacks.items() if post not in kept))
        self.hidden.update(*(run.chains for run in self.runs if run not in runs))
        self.hidden.update(*(elements for anchor, elements in self.hanging if anchor in self.hidden))
        self.posts = [post for post in self.posts if post in kept]
        self.runs = runs
        self.run_of = {e: r for r, run in enumerate(runs) for e in run.chains}
        self.stacks = {post: stack for post, stack in self.stacks.items() if post in kept}
        self.hanging = [(anchor, elements) for anchor, elements in self.hanging if anchor not in self.hidden]


def lines_of(
    part: PartWork,
    kept: Sequence[int] | None = None,
    joined: Collection[tuple[int, int]] = (),
    like: Mapping[int, int] = MappingProxyType({}),
    onto: RowWork | None = None,
) -> list[Line]:
    """The rows of a part as lines. `kept`: the indexes of the rows to draw (all); every row left out must be plain, or be in `like`: its
    index → that of the row drawn that it equals. `joined`: the (row index, element) of stitches worked into another piece. `onto`: a row of
    another part that the first row is worked on: it goes before all others, as row −1."""
    rows = part.rows
    keep = list(range(len(rows))) if kept is None else list(kept)
    lines: list[Line] = [] if onto is None else [_line_below(onto)]
    line_of = {r: i for i, r in enumerate(keep, len(lines))}
    if onto is not None:
        line_of[onto.index] = 0
    for i, r in enumerate(keep, len(lines)):
        row = rows[r]
        made = row.stitches
        line = Line(row, i, [made.name(e) for e in range(len(made))], made.role, _feet(rows, r, line_of, like))
        line.breaks = lines[-1].breaks + (lines[-1].row.index >= 0 and r > lines[-1].row.index + 1) if lines else 0
        line.meets = [e for e in range(len(line)) if (r, e) in joined] if joined else []
        _sort_out(line)
        _beyond_the_chain(line, lines)
        line.rightwards = _runs_rightwards(line, lines)
        lines.append(line)
    return lines


def _line_below(row: RowWork) -> Line:
    """A row of another part: what it stands on itself is not drawn."""
    made = row.stitches
    line = Line(row, 0, [made.name(e) for e in range(len(made))], made.role, [()] * len(made))
    _sort_out(line)
    line.rightwards = row.side == "WS"
    return line


def _feet(rows: Sequence[RowWork], r: int, line_of: dict[int, int], like: Mapping[int, int]) -> list[tuple[Foot, ...]]:
    made = rows[r].stitches
    feet: list[tuple[Foot, ...]] = []
    starts, backs, ats, hows = made.feet, made.foot_back, made.foot_at, made.foot_how
    for e in range(len(made)):
        feet.append(tuple(_resolved(rows, line_of, like, r - backs[f], ats[f], How(hows[f])) for f in range(starts[e], starts[e + 1])))
    return feet


def _resolved(rows: Sequence[RowWork], line_of: dict[int, int], like: Mapping[int, int], r: int, at: int, how: How) -> Foot:
    """Follow a foot down through rows that are not drawn, or to the like of one left out with its repeat."""
    while at >= 0 and (r >= 0 or r in line_of):
        r = like.get(r, r)
        if r < 0:
            return Foot(line_of[r], at, how)
        if r in line_of:
            return Foot(line_of[r], at, how) if at < len(rows[r].stitches) else Foot(-1, -1, how)
        below = next(rows[r].stitches.feet_of(at), None) if at < len(rows[r].stitches) else None
        if below is None:
            break
        r, at = r - below[0], below[1]
    return Foot(-1, -1, how)


def _sort_out(line: Line) -> None:
    """Give every element its part: post, chain of a run, starting chain, hanging, travelling, joining."""
    stood_on = {foot.at for feet in line.feet for foot in feet if foot.line == line.index}
    leading = True
    stack: list[int] = []
    run: list[int] = []
    for e, role in enumerate(line.roles):
        if role == Role.CHAIN and leading and e in stood_on and line.row.made_in in FLAT:
            line.ledge.append(e)
        elif e in line.meets:
            run = [*stack, *run, e]  # chains that go out to another piece are no starting chain
            stack = []
        elif role in (Role.CHAIN, Role.FOUNDATION):
            run.append(e)
        elif role == Role.START:
            stack.append(e)
        elif role == Role.HANGING:
            _hang(line, e, run)
        elif role == Role.TRAVEL:
            line.travel.append(e)
        elif role == Role.JOIN:
            line.joins.append(e)
        else:
            leading = False
            _close_run(line, run, e)
            run = []
            line.posts.append(e)
            if stack or role == Role.START_TOP:
                line.stacks[e] = [*stack, e] if role == Role.START_TOP else stack
                stack = []
    if stack:
        run = stack + run
    _close_run(line, run, None)
    _close_ring(line)


def _runs_rightwards(line: Line, below: list[Line]) -> bool:
    feet = [line.feet[post][0] for post in line.posts if len(line.feet[post]) == 1 and 0 <= line.feet[post][0].line < len(below)]
    steps = [b.at - a.at for a, b in pairwise(feet) if a.line == b.line and a.at != b.at]
    ahead = sum(1 if step > 0 else -1 for step in steps)
    if not feet or below[feet[0].line].foundation or abs(ahead) * 2 <= len(steps):
        return line.row.side == "WS"
    return below[feet[0].line].rightwards == (ahead > 0)


def _beyond_the_chain(line: Line, below: list[Line]) -> None:
    """Foundation chains that are skipped and count stand up where the chain goes on, beyond the one the first stitch is worked into."""
    if not below or not below[-1].foundation or len(line.posts) < 2 or line.row.made_in not in FLAT:
        return
    first, second = line.posts[0], line.posts[1]
    if line.roles[first] == Role.START_TOP and line.feet[first] == line.feet[second]:
        line.feet[first] = ()


def _hang(line: Line, e: int, run: list[int]) -> None:
    anchor = run[-1] if run else (line.posts[-1] if line.posts else None)
    if anchor is None:
        (line.ledge if line.kinds[e] == "ch" else line.travel).append(e)
        return
    if line.hanging and line.hanging[-1][0] == anchor and line.hanging[-1][1][-1] == e - 1:
        line.hanging[-1][1].append(e)
    else:
        line.hanging.append((anchor, [e]))


def _close_run(line: Line, run: list[int], after: int | None) -> None:
    if not run:
        return
    for e in run:
        line.run_of[e] = len(line.runs)
    line.runs.append(Run(tuple(run), line.posts[-1] if line.posts else None, after))


def _close_ring(line: Line) -> None:
    """In rounds the first and last runs meet: an open end is tied to the round's other end."""
    if line.row.made_in in FLAT or line.row.made_in == "passes" or not line.posts or line.foundation:
        return
    first, last = line.posts[0], line.posts[-1]
    for r, run in enumerate(line.runs):
        if run.before is None or run.after is None:
            line.runs[r] = Run(run.chains, last if run.before is None else run.before, first if run.after is None else run.after)


def walked_backwards(lines: Sequence[Line], line: Line) -> bool:
    """Whether a foundation lies from right to left: the row above walks it the other way round than rows do."""
    if line.index + 1 >= len(lines):
        return False
    above = lines[line.index + 1]
    feet = [foot.at for post in above.posts for foot in above.feet[post][:1] if foot.line == line.index]
    if len(feet) < 2:
        return above.rightwards
    return (feet[-1] > feet[0]) != above.rightwards


def between(line: Line) -> dict[tuple[int, int], int]:
    """Number of chains between neighbouring posts: (post, next post) → chains."""
    return {(run.before, run.after): len(run.chains) for run in line.runs if run.before is not None and run.after is not None}
