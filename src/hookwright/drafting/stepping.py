"""A row plan in steps: what a maker does at the beginning of a row, along it, and at its end.

All steps are said of the row below ("to last 2 sts"), never of a number of plain stitches, so that one instruction serves every row that
is shaped alike, whatever its width.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..pattern import Chain, Leave, Make, Place, Sized, Step, Turn
from .asks import Custom

FIRST, LAST, SAME = Place(where="first"), Place(where="last"), Place(where="same")
IN_CHAIN = Place(what="ch")


@dataclass(frozen=True, slots=True)
class Ends:
    """What a row does at its beginning and at its end: stitches gained (lost when below nothing), cut square or slanted.

    `below`: stitches of the row below, told only where so few that the wording depends on it.
    """

    begin: int = 0
    end: int = 0
    square_begin: bool = False
    square_end: bool = False
    below: int | None = None


def takes(change: int, square: bool) -> int:
    """How many stitches of the row below an end uses up."""
    if square:
        return max(0, -change)
    return 1 - change if change < 0 else (1 if change else 0)


def used_up(begin: int, end: int, square_begin: bool, square_end: bool, custom: Custom) -> int:
    """How many stitches of the row below both ends use; a counted chain that begins a row stands on one."""
    stands = 1 if custom.turning.counts and begin <= 0 else 0
    return takes(begin, square_begin) + takes(end, square_end) + stands


def ends_of(below: int, begin: int, end: int, square_begin: bool, square_end: bool, custom: Custom) -> Ends:
    """The ends of a row; `below` is kept only where both ends use up the whole row below."""
    used = used_up(begin, end, square_begin, square_end, custom)
    return Ends(begin, end, square_begin, square_end, below if below <= used and (begin or end) else None)


def flat_steps(ends: Ends, custom: Custom, *, turn: bool = True) -> tuple[Step, ...]:
    """The steps of a row worked on the row below."""
    small = ends.below is not None
    steps = _small(ends, custom) if small else (*_begin(ends, custom), *_along(ends, custom), *_end(ends, custom))
    return (*steps, Turn()) if turn else steps


def first_row(foundation: int, count: int, custom: Custom) -> tuple[Step, ...]:
    """Row 1, on its foundation chain: plain, or all of it in the one chain that a piece begins at."""
    from_hook = Place(where="from_hook", what="ch", nth=custom.turning.chains + 1)
    own = 1 if custom.turning.counts else 0
    if foundation == 1:
        made = count - own
        steps: tuple[Step, ...] = (Make(stitch=custom.stitch, each=Sized.of(made), at=from_hook),) if made else ()
    elif foundation - own == 1:
        steps = (Make(stitch=custom.stitch, at=from_hook),)
    else:
        steps = (Make(stitch=custom.stitch, at=from_hook), Make(stitch=custom.stitch, at=IN_CHAIN, places="rest"))
    return (*steps, Turn())


def foundation_chains(foundation: int, custom: Custom) -> int:
    """Chains to make for so many stitches: stitches + turning chain, less one where it counts (`foundation_formula` of the facts).

    One stitch is the point a piece begins at: the whole of Row 1 goes into the one chain left beside the turning chain.

    >>> from hookwright.drafting.asks import custom_of
    >>> foundation_chains(30, custom_of("12 sc and 14 rows = 4 in")), foundation_chains(20, custom_of("13 dc and 7 rows = 4 in",
    ...     turning_chain="3 counts"))
    (31, 22)
    """
    return foundation + custom.turning.chains - (1 if custom.turning.counts and foundation > 1 else 0)


def tog(stitch: str, n: int) -> str:
    return f"{stitch}{n}tog"


def start_chain(custom: Custom, extra: int = 0) -> Chain:
    """The turning chain. A counted one says so every time: it takes a stitch's place; an uncounted one is told once, in the notes."""
    counts = custom.turning.counts
    return Chain(
        number=Sized.of(custom.turning.chains + extra), counts=True if counts else None, stands_for=(custom.stitch,) if counts else ()
    )


def _begin(ends: Ends, custom: Custom) -> tuple[Step, ...]:
    change, stitch, counts = ends.begin, custom.stitch, custom.turning.counts
    if ends.square_begin and change > 0:
        return _chained_on(change, custom)
    if ends.square_begin and change < 0:
        return _slipped(-change, custom)
    chain = start_chain(custom)
    if change == 0:
        return (chain,)
    if change > 0:
        return (chain, Make(stitch=stitch, each=Sized.of(change if counts else change + 1), at=SAME if counts else FIRST))
    return (chain, Make(stitch=tog(stitch, 1 - change), closes=1 - change, at=Place() if counts else FIRST))


def _chained_on(more: int, custom: Custom) -> tuple[Step, ...]:
    """Stitches beyond the edge: chained at the end of the row below and worked along."""
    own = 1 if custom.turning.counts else 0
    first = Make(stitch=custom.stitch, at=Place(where="from_hook", what="ch", nth=custom.turning.chains + 1))
    chain = Chain(number=Sized.of(more + custom.turning.chains - own))
    rest = more - own - 1
    if rest < 0:  # the counted chain itself is the stitch beyond the edge; what it stood for is worked beside it
        return (start_chain(custom), Make(stitch=custom.stitch, at=SAME))
    return (chain, first) if rest == 0 else (chain, first, Make(stitch=custom.stitch, places=Sized.of(rest), at=IN_CHAIN))


def _slipped(fewer: int, custom: Custom) -> tuple[Step, ...]:
    """Stitches passed over by slip stitches at the beginning: one more where the chain stands on the last of them."""
    slips = fewer + (1 if custom.turning.counts else 0)
    return (Make(stitch="sl st", places=Sized.of(slips), at=FIRST), start_chain(custom))


def _along(ends: Ends, custom: Custom) -> tuple[Step, ...]:
    return (Make(stitch=custom.stitch, places="rest", but=Sized.of(takes(ends.end, ends.square_end))),)


def _end(ends: Ends, custom: Custom) -> tuple[Step, ...]:
    change, stitch = ends.end, custom.stitch
    if change == 0:
        return ()
    if ends.square_end:
        if change < 0:
            return (Leave(number=Sized.of(-change)),)
        return (Make(stitch=f"f{stitch}", places=Sized.of(change), at=Place(where="hook")),)
    if change > 0:
        return (Make(stitch=stitch, each=Sized.of(change + 1), at=LAST),)
    return (Make(stitch=tog(stitch, 1 - change), closes=1 - change, at=LAST),)


def _small(ends: Ends, custom: Custom) -> tuple[Step, ...]:
    """A row on so few stitches that both ends meet: told stitch by stitch."""
    assert ends.below is not None
    below, count = ends.below, ends.below + ends.begin + ends.end
    own = 1 if custom.turning.counts else 0
    chain = start_chain(custom)
    square = ends.square_begin or ends.square_end
    if not square and below == 1:
        made = count - own
        return (chain, Make(stitch=custom.stitch, each=Sized.of(made), at=SAME if own else FIRST)) if made else (chain,)
    used = used_up(ends.begin, ends.end, ends.square_begin, ends.square_end, custom)
    if below == used or (square and below > used):
        return (*_begin(ends, custom), *_end(ends, custom))
    if count == 1:
        return (chain, Make(stitch=tog(custom.stitch, below), closes=below, at=FIRST))
    return (chain, *_shared(below, count, custom))


def _shared(below: int, count: int, custom: Custom) -> tuple[Step, ...]:
    """`count` stitches on `below`, one after another as evenly as can be; more places than stitches are closed together."""
    own = 1 if custom.turning.counts else 0
    steps: list[Step] = []
    if count >= below:
        for k in range(below):
            each = (count * (k + 1)) // below - (count * k) // below
            if k == 0 and own:
                if each > 1:
                    steps.append(Make(stitch=custom.stitch, each=Sized.of(each - 1), at=SAME))
                continue
            steps.append(Make(stitch=custom.stitch, each=Sized.of(each), at=FIRST if k == 0 else Place()))
        return tuple(steps)
    places, stitches = below - own, count - own
    for k in range(stitches):
        n = (places * (k + 1)) // stitches - (places * k) // stitches
        at = FIRST if k == 0 and not own else Place()
        steps.append(Make(stitch=custom.stitch if n == 1 else tog(custom.stitch, n), closes=n, at=at))
    return tuple(steps)
