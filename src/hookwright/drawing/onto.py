"""Parts worked on from another part (a handle on a bag, a heel on a sole), or along an edge that is not drawn with them.

The row that such a part stands on goes before its own rows, so that everything stands where it is worked into; it is drawn in grey and
counts nowhere. Where only an edge is known (row ends of a piece made before), the edge is a grey line.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from ..pattern import FLAT
from ..working.fabric import Fabric, How, RowWork
from .arcs import Point
from .border import edges_of
from .cloth import Line, lines_of
from .marks import Chart, Ghost
from .placed import Placed
from .shapes import Ink

BEYOND = 2
"""So many stitches of the row below are shown past the first and the last that is worked into."""
MOST_ROWS = 60
"""Rows of a piece that are all drawn, in grey, inside its border."""
WORTH_HIDING = 6
"""Stitches beyond these that are not worth drawing."""
EDGE_MM = 1.7
"""How far a line that stands for an edge goes on past the first and last stitch."""
BESIDE = -1
"""The index of a row of another part."""


@dataclass(frozen=True, slots=True)
class Onto:
    """The row of another part that a part is worked on. `row`: as it is there, but for its index.

    `used`: its elements worked into, in the order of the first row."""

    words: str
    row: RowWork
    used: tuple[int, ...]
    closed: bool
    """The row is a round."""
    part: int
    called: str
    """What the key calls that part."""


def stands_on(fabric: Fabric, part: int) -> Onto | None:
    """The row of another part that a part's first row is worked into; None where there is none, or more than one."""
    feet = [on for (p, _, _), on in sorted(fabric.links.items()) if p == part]
    rows = {(other, row) for other, row, _ in feet}
    own = next((row for row in fabric.parts[part].rows if len(row.stitches)), None)
    if len(rows) != 1 or own is None or own.below != BESIDE:
        return None
    ((other, r),) = rows
    row, name = fabric.parts[other].rows[r], fabric.parts[other].name
    made_in = own.made_in if own.made_in in FLAT else row.made_in
    words = f"{row.label} of {name}" if name else f"{row.label} of the part before"
    used = tuple(at for _, _, at in feet)
    below = replace(row, index=BESIDE, below=None, made_in=made_in)
    return Onto(f"{words}, worked into here", below, used, row.made_in not in FLAT, other, name or "the part before")


def framed(fabric: Fabric, onto: Onto, lines: Sequence[Line]) -> list[Line] | None:
    """The lines of a border that goes all round another part, with all of that part's rows before them; None of anything else.

    Those rows have indexes below 0. `lines`: the border's, the one row that it was found to stand on before them.
    """
    rows = fabric.parts[onto.part].rows
    if len(lines) < 2 or edges_of(lines[1]) is None or len(rows) > MOST_ROWS or onto.closed:
        return None
    below = [replace(row, index=row.index - len(rows), below=None if row.below is None else row.below - len(rows)) for row in rows]
    inside = lines_of(replace(fabric.parts[onto.part], rows=tuple(below)))
    top = next((i for i, line in enumerate(inside) if line.row.label == onto.row.label and line.row.number == onto.row.number), -1)
    if top < 0:
        return None
    more = len(inside) - 1
    for line in lines[1:]:
        line.index += more
        line.feet = [tuple(foot._replace(line=_moved(foot.line, top, more)) for foot in feet) for feet in line.feet]
    return [*inside, *lines[1:]]


def _moved(line: int, top: int, more: int) -> int:
    """The index of a line where the one line before the border's has become several."""
    return line if line < 0 else top if line == 0 else line + more


def trim(line: Line, used: Sequence[int], *, closed: bool) -> None:
    """Of the row below hide what lies far from the stitches that are worked into, and what neither stands nor hangs between stitches.

    `closed`: it is a round; laid flat, it is cut open where the stitches worked into it begin, not at its own seam."""
    between = {e for run in line.runs if run.before is not None and run.after is not None for e in run.chains}
    stays = between.union(used, line.posts, *line.stacks.values(), *(elements for _, elements in line.hanging))
    line.hidden.update(e for e in range(len(line)) if e not in stays)
    line.travel, line.joins = [], []
    line.runs = [run for run in line.runs if run.chains[0] in stays]
    line.run_of = {e: r for r, run in enumerate(line.runs) for e in run.chains}
    seats: list[int] = []
    for at in used:
        run = line.runs[line.run_of[at]] if at in line.run_of else None
        seats += [at] if run is None else [post for post in (run.before, run.after) if post is not None]
    seats = [post for post in seats if post in line.posts]
    if not seats:
        return
    if closed:
        _begin_with(line, [line.posts.index(post) for post in seats])
    places = [line.posts.index(post) for post in seats]
    first, last = max(min(places) - BEYOND, 0), min(max(places) + BEYOND, len(line.posts) - 1)
    if len(line.posts) - (last - first + 1) >= WORTH_HIDING:
        line.keep_only(set(line.posts[first : last + 1]))


def _begin_with(line: Line, places: Sequence[int]) -> None:
    """Turn a round's stitches so that it begins (or, walked the other way round, ends) with the one that is worked into first."""
    n = len(line.posts)
    steps = [(b - a) % n for a, b in pairwise(places) if a != b]
    ahead = 2 * sum(step <= n // 2 for step in steps) >= len(steps)
    begin = places[0] if ahead else (places[0] + 1) % n
    line.posts = line.posts[begin:] + line.posts[:begin]


def into_grey(chart: Chart, onto: Onto, *, around: bool = False) -> None:
    """Take the marks of the row below out of the chart's own: they are another piece's."""
    pairs = list(zip(chart.marks, chart.ties, strict=True))
    chart.ghosts += [Ghost(chart.glyphs[mark.glyph], mark.x, mark.y, mark.angle_deg) for mark, _ in pairs if mark.row < 0]
    chart.marks = [mark for mark, _ in pairs if mark.row >= 0]
    chart.ties = [ties for mark, ties in pairs if mark.row >= 0]
    chart.others |= {f"{onto.called}, which this goes round" if around else onto.words: None}


def edge_lines(chart: Chart, placed: Placed) -> None:
    """A grey line under every row that is worked into row ends which are not drawn."""
    for line in placed.lines:
        feet = [placed.feet[line.index][post][0] for post in line.posts if on_an_edge(line, post) and post in placed.feet[line.index]]
        if line.index in placed.edging or 2 * len(feet) <= len(line.posts):
            continue
        shape = _ring(feet) if placed.form == "round" else _straight(chart, feet)
        chart.ghosts.append(Ghost(shape.shape(), 0.0, 0.0, 0.0))
        chart.others |= {"the edge of a piece made before": None}


def on_an_edge(line: Line, post: int) -> bool:
    """Whether a stitch is worked into row ends that belong to nothing drawn."""
    return bool(line.feet[post]) and all(foot.line < 0 and foot.how == How.SIDE for foot in line.feet[post])


def _straight(chart: Chart, feet: list[Point]) -> Ink:
    way = -1.0 if chart.handed == "left" else 1.0
    xs, y = [way * x for x, _ in feet], -min(y for _, y in feet)
    return Ink().line(min(xs) - EDGE_MM, y, max(xs) + EDGE_MM, y)


def _ring(feet: list[Point]) -> Ink:
    far = sum(math.hypot(*p) for p in feet) / len(feet)
    return Ink().arc(0, 0, far, 0, 180).arc(0, 0, far, 180, 360)
