"""Stitches that reach down past other rows: spikes, mosaic drops, posts two rows below.

Where symbols of the rows between lie on the way, an upright stem runs down beside them, in the free space between two columns, and steps
back to its own foot; a slanting one is broken there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

from ..trade.kinds import closes
from .cloth import Line
from .placed import Placed
from .shapes import Ink, Shape
from .spacing import LOW
from .symbols import BREAK_MM, Cross, Loop, plain, post_of, top_of

LEAST_FREE = 26
"""Tenths of a millimetre: a cross and the step down from it."""
UPRIGHT_MM = 0.7
"""A stem that leans by no more runs down beside its column; one that leans more is broken."""
SIDE_MM = 1.3
"""A symbol this near to a stem, across it, lies in its way."""
CROSS_MM = (2.45, -0.15)
"""A low cross reaches from so far below its top to so far above it (with the free space round it)."""
OVAL_MM = 0.95
"""A chain lying across the way takes so much on either side of its middle."""
BAR_MM = (0.5, -0.45)
"""The same for the bar of a tall stitch."""


def passed_over(placed: Placed, line: Line) -> dict[int, tuple[tuple[float, float], ...]]:
    """For every stitch of a row that stands in a row further down than the one below: the shares of its stem, from the foot, that symbols
    of the rows between lie on."""
    found: dict[int, tuple[tuple[float, float], ...]] = {}
    feet = placed.feet[line.index]
    for post in line.posts:
        deep = line.feet[post][0].line if len(line.feet[post]) == 1 else -1
        if not 0 <= deep < line.index - 1 or len(feet.get(post, ())) != 1 or placed.top[line.index][post] is None:
            continue
        hits = sorted(hit for row in placed.lines[deep + 1 : line.index] for hit in _hits(placed, line, post, row))
        if hits:
            found[post] = tuple(_joined(hits))
    return found


def _hits(placed: Placed, line: Line, post: int, row: Line) -> Iterator[tuple[float, float]]:
    (fx, fy), top = placed.feet[line.index][post][0], placed.top[line.index][post]
    if top is None:
        return
    dx, dy = top[0] - fx, top[1] - fy
    whole = dx * dx + dy * dy or 1e-9
    long = whole**0.5
    for other in row.posts:
        at = placed.top[row.index][other]
        if at is None:
            continue
        share = ((at[0] - fx) * dx + (at[1] - fy) * dy) / whole
        aside = abs((at[0] - fx) * dy - (at[1] - fy) * dx) / long
        if aside < SIDE_MM and 0.0 < share < 1.2:
            low = plain(row.kinds[other]) in LOW and closes(row.kinds[other]) < 2 and not post_of(row.kinds[other])
            below, above = CROSS_MM if low else BAR_MM
            start, end = share - below / long, share - above / long
            if end > 0.03 and start < 0.97:
                yield max(start, 0.0), min(end, 1.0)
        for x, y in placed.feet[row.index].get(other, ()):
            ux, uy = at[0] - x, at[1] - y
            across = dx * uy - dy * ux
            if abs(across) > 1e-9:
                share, theirs = ((x - fx) * uy - (y - fy) * ux) / across, ((x - fx) * dy - (y - fy) * dx) / across
                if 0.03 < share < 0.97 and 0.0 < theirs < 1.0:
                    yield share - BREAK_MM / long, share + BREAK_MM / long
    for e, oval in placed.ovals[row.index].items():
        share = ((oval.x - fx) * dx + (oval.y - fy) * dy) / whole
        aside = abs((oval.x - fx) * dy - (oval.y - fy) * dx) / long
        if e in row.run_of and aside < SIDE_MM and 0.1 < share < 0.9:
            yield share - OVAL_MM / long, share + OVAL_MM / long


@lru_cache(maxsize=1024)
def beside(kind: str, length: int, free: int, side: int, loop: Loop = "", cross: Cross = "plus") -> Shape:
    """The symbol of such a stitch with its stem beside its column: all in tenths of a millimetre.

    `length`: foot to top. `free`: how much of it, from the top, is its own. `side`: how far to the right (left where negative) the stem is.
    """
    ink = Ink()
    tall, own, x = length / 10, min(length, max(free, LEAST_FREE)) / 10, side / 10
    post = post_of(kind)
    step = tall - own
    if post:
        way = 1 if post == "FP" else -1
        ink.arc(x + way * 0.55, -0.65, 0.55, 180 if way > 0 else 0, -20 if way > 0 else 200)
        ink.line(x, -0.65, x, -max(step - 0.6, 0.7))
    else:
        ink.line(x * 0.3, -0.1, x, -1.15)
        ink.line(x, -1.15, x, -max(step - 0.6, 1.2))
    ink.line(x, -max(step - 0.6, 1.2), 0, -(step + 0.5))
    top_of(ink, kind, tall, step + 0.5, cross)
    if loop:
        bow = 0.3 if loop == "front" else -0.3
        ink.curve((x - 1.0, bow), (x - 0.4, -bow), (x + 0.4, -bow), (x + 1.0, bow))
    return ink.shape()


def _joined(hits: Iterable[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    first, last = None, 0.0
    for start, end in hits:
        if first is None:
            first, last = start, end
        elif start <= last:
            last = max(last, end)
        else:
            yield first, last
            first, last = start, end
    if first is not None:
        yield first, last


def breaks(stretches: Iterable[tuple[float, float]], long: float) -> Iterator[float]:
    """Middles of the breaks (shares of a stem `long` millimetres long) that together leave these stretches free."""
    half = BREAK_MM / long
    for start, end in stretches:
        at = start + half
        while at < end - half:
            yield at
            at += 2 * half
        yield max(end - half, start + half)
