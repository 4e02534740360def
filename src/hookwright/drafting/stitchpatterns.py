"""Stitch patterns with a multiple: the widths they allow, and their rows. `m × X + Y` is kept; Z, the chains of the first turning chain,
is added to the foundation (the three parts of a starting chain: "Repeats and pattern logic", courses.designcrochet.com)."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from ..pattern import Chain, FinishedSize, Make, Part, Place, Repeat, Sized, Skip, Step, Times, Together, Turn
from .asks import Custom, Refused
from .compiling import ended, facts_of, foundation, pattern_of
from .flat import row_count
from .outline import box
from .result import Draft, Obtained, View
from .stepping import FIRST, IN_CHAIN, LAST, first_row, foundation_chains, start_chain
from .telling import Told, tell

REST = Times(kind="rest")


@dataclass(frozen=True, slots=True, kw_only=True)
class StitchPattern:
    """A pattern of `repeat` stitches and `edge` more. `row`: steps of row k (from 1) over X repeats; `count` of it; `rows`: its row repeat.

    `wide`, `high`: what it does to the width of a stitch and the height of a row (a ripple slants both).
    """

    name: str
    repeat: int
    edge: int
    rows: int
    row: Callable[[int, int, Custom], tuple[Step, ...]]
    count: Callable[[int, int], tuple[tuple[int, str], ...]]
    stitch: str = ""
    slant: bool = False

    def stretch(self, custom: Custom) -> tuple[float, float]:
        """(width, height) factors. A ripple's arms lean by atan(stitch width ÷ row height): one stitch moves on in every row."""
        if not self.slant:
            return 1.0, 1.0
        lean = math.atan(1 / custom.ratio)
        return math.cos(lean), 1 / math.cos(lean)


def repeats_for(width_cm: float, repeat: int, edge: int, stitch_cm: float, what: str) -> int:
    """The whole repeats of `repeat` stitches, and `edge` more, nearest to a width. Refuses less than one; `what` asks for them."""
    wanted = (width_cm / stitch_cm - edge) / repeat
    if wanted < 0.5:
        raise Refused(
            f"{what} needs {repeat} × X{f' + {edge}' if edge else ''} stitches, and {width_cm:.1f} cm holds less than one repeat.",
            f"The narrowest is {(repeat + edge) * stitch_cm:.1f} cm.",
        )
    return max(1, round(wanted))


def multiple_note(what: str, repeat: int, edge: int, repeats: int) -> str:
    """ "Shells: a multiple of 6 + 1 stitches, 5 repeats." """
    return f"{what}: a multiple of {repeat}{f' + {edge}' if edge else ''} stitches, {repeats} repeat{'s' if repeats > 1 else ''}."


def rectangle_in(name: str, width: float, length: float, custom: Custom) -> Draft:
    """A rectangle in a stitch pattern: whole repeats, whole row repeats, its foundation chain."""
    pattern = PATTERNS[name]
    if pattern.stitch and custom.stitch in ("sc", "esc", "hdc"):
        raise Refused(f"{pattern.name.capitalize()} is drafted in dc or tr, and the gauge is in {custom.stitch}.", "Give a gauge in dc.")
    across, along = pattern.stretch(custom)
    repeats = repeats_for(width, pattern.repeat, pattern.edge, custom.width_cm * across, pattern.name.capitalize())
    stitches = repeats * pattern.repeat + pattern.edge
    rows = row_count(length / along, custom)
    plain_first = custom.turning.counts and pattern.name != "shells"
    told = [_row(pattern, k, repeats, stitches, custom, plain_first) for k in range(1, rows + 1)]
    w, h = custom.width_cm * across, custom.height_cm * along
    got = (stitches * w, rows * h)
    chains = stitches + 1 if pattern.name == "shells" else foundation_chains(stitches, custom)
    part = Part(name="Body", rows=(foundation(chains), *ended(tell(told))))
    finished = [FinishedSize(what="width", cm=(round(got[0], 1),)), FinishedSize(what="length", cm=(round(got[1], 1),))]
    if pattern.slant:
        finished = []  # the arms of a ripple lean, so that its size is not stitches × gauge
    note = multiple_note(pattern.name.capitalize(), pattern.repeat, pattern.edge, repeats)
    return Draft(
        family="rectangle",
        pattern=pattern_of(facts_of(custom, f"Rectangle in {pattern.name}", finished, "flat"), [part]),
        custom=custom,
        sizes=(
            Obtained("width", width, got[0], w * pattern.repeat, "repeat", f"{stitches} sts wide"),
            Obtained("length", length, got[1], h, "row", f"{rows} rows"),
        ),
        views=(View("Rectangle", box(width, length), box(*got)),),
        notes=(*custom.assumed, note),
        tolerance=(pattern.repeat / 2 + 0.01, (1.0 if custom.parity else 0.5) * along),
    )


def _row(pattern: StitchPattern, k: int, repeats: int, stitches: int, custom: Custom, plain_first: bool) -> Told:
    """Row k. Where the chain counts, a plain row comes first: the pattern then begins on stitches, and its chain stands for one."""
    if k == 1 and plain_first:
        return Told(first_row(stitches, stitches, custom), stitches, custom.stitch)
    counts = pattern.count(k, repeats)
    counts = tuple((n, custom.stitch if kind == "dc" else kind) for n, kind in counts)
    if k == 2 and plain_first and pattern.name in _ON_STITCHES:
        return Told(_ON_STITCHES[pattern.name](repeats, custom), *_first(counts))
    return Told(pattern.row(min(k, 2) if pattern.rows == 1 else k, repeats, custom), *_first(counts))


def _first(counts: tuple[tuple[int, str], ...]) -> tuple[int, str, tuple[tuple[int, str], ...]]:
    return counts[0][0], counts[0][1], counts[1:]


def _start(custom: Custom, *, first: bool) -> tuple[Step, ...]:
    """The chain and the first stitch of a row: in the chain, in the first stitch, or standing for it."""
    if first:
        return (Make(stitch=custom.stitch, at=Place(where="from_hook", what="ch", nth=custom.turning.chains + 1)),)
    chain = start_chain(custom)
    return (chain,) if custom.turning.counts else (chain, Make(stitch=custom.stitch, at=FIRST))


def _mesh(k: int, repeats: int, custom: Custom) -> tuple[Step, ...]:
    gap: Step = Skip(what="ch") if k == 1 else Skip(what="ch-1 sp")
    into = IN_CHAIN if k == 1 else Place(what=custom.stitch)
    body = (Chain(number=Sized.of(1)), gap, Make(stitch=custom.stitch, at=into))
    return (*_start(custom, first=k == 1), Repeat(body=body, times=REST), Turn())


def _mesh_on_stitches(repeats: int, custom: Custom) -> tuple[Step, ...]:
    body = (Chain(number=Sized.of(1)), Skip(), Make(stitch=custom.stitch))
    return (start_chain(custom), Repeat(body=body, times=REST), Turn())


def _v_on_stitches(repeats: int, custom: Custom) -> tuple[Step, ...]:
    pair = (Make(stitch=custom.stitch), Chain(number=Sized.of(1)), Make(stitch=custom.stitch))
    body = (Skip(), Together(body=pair), Skip())
    return (start_chain(custom), Repeat(body=body, times=Times(kind="to_last")), Make(stitch=custom.stitch, at=LAST), Turn())


_ON_STITCHES = {"mesh": _mesh_on_stitches, "V-stitch": _v_on_stitches}


def _v(k: int, repeats: int, custom: Custom) -> tuple[Step, ...]:
    pair = (Make(stitch=custom.stitch), Chain(number=Sized.of(1)), Make(stitch=custom.stitch))
    if k == 1:
        group = Together(body=pair, at=IN_CHAIN)
        body: tuple[Step, ...] = (Skip(what="ch"), group, Skip(what="ch"))
        whole = Repeat(body=body, times=Times(kind="to_last", what="ch"))
        end = Make(stitch=custom.stitch, at=Place(where="last", what="ch"))
    else:
        whole = Repeat(body=(Together(body=pair, at=Place(what="ch-1 sp")),), times=Times(kind="n", number=Sized.of(repeats)))
        end = Make(stitch=custom.stitch, at=LAST)
    return (*_start(custom, first=k == 1), whole, end, Turn())


def _shells(k: int, repeats: int, custom: Custom) -> tuple[Step, ...]:
    tall, five = custom.stitch, Sized.of(5)
    middle = Place(what=tall)
    if k == 1:
        body: tuple[Step, ...] = (
            Skip(number=Sized.of(2), what="ch"), Make(stitch=tall, each=five, at=IN_CHAIN),
            Skip(number=Sized.of(2), what="ch"), Make(stitch="sc", at=IN_CHAIN),
        )  # fmt: skip
        return (Make(stitch="sc", at=Place(where="from_hook", what="ch", nth=2)), Repeat(body=body, times=REST), Turn())
    if k % 2 == 0:
        chain = Chain(number=Sized.of(3 if tall == "dc" else 4), counts=True, stands_for=(tall,))
        half = Make(stitch=tall, each=Sized.of(2), at=Place(where="same"))
        body = (Skip(number=Sized.of(2), what=tall), Make(stitch="sc", at=middle), Skip(number=Sized.of(2), what=tall))
        inner = (*body, Make(stitch=tall, each=five, at=Place(what="sc")))
        many = (Repeat(body=inner, times=Times(kind="n", number=Sized.of(repeats - 1))),) if repeats > 1 else ()
        return (chain, half, *many, *body, Make(stitch=tall, each=Sized.of(3), at=LAST), Turn())
    body = (
        Skip(number=Sized.of(2), what=tall), Make(stitch=tall, each=five, at=Place(what="sc")),
        Skip(number=Sized.of(2), what=tall), Make(stitch="sc", at=middle),
    )  # fmt: skip
    return (Chain(number=Sized.of(1), counts=False), Make(stitch="sc", at=FIRST), Repeat(body=body, times=REST), Turn())


def _ripple(k: int, repeats: int, custom: Custom) -> tuple[Step, ...]:
    stitch, own = custom.stitch, custom.turning.counts
    at = IN_CHAIN if k == 1 else Place()
    four = Make(stitch=stitch, places=Sized.of(4), at=at)
    closed = Make(stitch=f"{stitch}2tog", closes=2, places=Sized.of(2), at=at)
    opened = Make(stitch=stitch, each=Sized.of(2), places=Sized.of(2), at=at)
    if k == 1:
        nth = Place(where="from_hook", what="ch", nth=custom.turning.chains + 1)
        start: tuple[Step, ...] = (Make(stitch=stitch, each=Sized.of(2), at=nth),)
    elif own:
        start = (start_chain(custom), Make(stitch=stitch, at=Place(where="same")))
    else:
        start = (start_chain(custom), Make(stitch=stitch, each=Sized.of(2), at=FIRST))
    arm = (four, closed, four)
    last = Make(stitch=stitch, each=Sized.of(2), at=Place(where="last", what="ch") if k == 1 else LAST)
    if repeats == 1:
        return (*start, *arm, last, Turn())
    whole = Repeat(body=(*arm, opened), times=Times(kind="n", number=Sized.of(repeats - 1)))
    return (*start, whole, *arm, last, Turn())


def _shell_counts(k: int, repeats: int) -> tuple[tuple[int, str], ...]:
    return ((6 * repeats + 1, "st"),)


PATTERNS: dict[str, StitchPattern] = {
    "mesh": StitchPattern(name="mesh", repeat=2, edge=1, rows=1, row=_mesh, count=lambda k, x: ((x + 1, "dc"), (x, "ch-1 sp"))),
    "v-stitch": StitchPattern(name="V-stitch", repeat=3, edge=2, rows=1, row=_v, count=lambda k, x: ((2 * x + 2, "dc"), (x, "ch-1 sp"))),
    "shells": StitchPattern(name="shells", repeat=6, edge=1, rows=2, row=_shells, count=_shell_counts, stitch="dc"),
    "ripple": StitchPattern(name="ripple", repeat=14, edge=0, rows=1, row=_ripple, count=lambda k, x: ((14 * x, "st"),), slant=True),
}
"""The patterns a draft can be made in. Common practice, no source: the plainest form of each."""
