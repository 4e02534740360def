"""Flat pieces in rounds: circle, oval, square, hexagon, octagon, triangle."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from ...pattern import FinishedSize, Join, Make, Part, Pattern, Place, Sized, Step
from ...proofing import proof
from ...trade import units
from ...working import work
from ..asks import Custom, Refused
from ..compiling import ended, facts_of, foundation, pattern_of
from ..flat import row_count
from ..optimise import Prices, best_counts
from ..outline import Outline
from ..result import Asked, Draft, Family, Maker, Obtained, View
from ..rounds import Run, merged, plan_rounds, ring_steps, round_steps
from ..stepping import IN_CHAIN
from ..telling import Told, tell

RING_MOST = 60
CORNER_MOST = 9
"""The most stitches in one stitch of a corner; where it needs more, its neighbours take their share. Common practice, no source."""
_FEW_ROUNDS = 16
"""Up to so many rounds a polygon is proofed while it is drafted: with more, its whole stitches have come near enough to a steady growth."""
CORNERS = {"square": 4, "hexagon": 6, "octagon": 8, "round-triangle": 3}


def ring_gain(custom: Custom) -> int:
    """The stitches a flat circle gains a round: near 2π × row height ÷ stitch width, a number that is easy to divide where one is as good.

    Fabric takes up a good 10 %: of 12.6, 12 and 13 lie equally flat, and 12 makes the simpler rounds.

    >>> from hookwright.drafting.asks import custom_of
    >>> [ring_gain(custom_of(g)) for g in ("20 sc and 21 rows = 10 cm", "14 hdc and 11 rows = 10 cm", "14 dc and 7.33 rows = 10 cm")]
    [6, 8, 12]
    """
    exact = custom.flat_growth
    near = range(max(1, int(exact * 0.9)), int(exact * 1.1) + 2)
    return min(near, key=lambda n: (abs(n - exact) / exact + (0.0 if n % 6 == 0 else 0.02 if n % 2 == 0 else 0.05), n))


def circle_counts(rounds: int, custom: Custom) -> tuple[int, ...]:
    """The stitches of every round of a flat circle: the same gain in every round, or the best whole numbers where the gain is small."""
    gain = ring_gain(custom)
    if gain > RING_MOST:
        raise Refused(
            f"A flat circle in this gauge begins with {gain} stitches and gains as many a round, more than a ring holds ({RING_MOST}).",
            "Check the row gauge, or work the circle in a shorter stitch.",
        )
    if gain >= 4 and abs(gain - custom.flat_growth) <= 0.12 * custom.flat_growth:
        return tuple(gain * k for k in range(1, rounds + 1))
    wanted = [custom.flat_growth * k for k in range(1, rounds + 1)]
    return best_counts(wanted, first=range(3, 7), least=3, prices=Prices(uneven=1.0)).counts


def circle(asked: Asked, custom: Custom) -> Draft:
    """A flat disc from a ring."""
    diameter = asked.cm("diameter")
    _one_round(diameter, custom)
    rounds = row_count(diameter / 2, custom)
    counts = circle_counts(rounds, custom)
    got = 2 * rounds * custom.height_cm
    plans = plan_rounds(counts, stacked=custom.stacked, plain_first=custom.turning.counts)
    pattern = _rounds_pattern("Circle", counts[0], [p.runs for p in plans[1:]], list(counts), custom, "diameter", got)
    notes = [_flatness(counts, custom)]
    if custom.stacked:
        notes.append(f"Stacked increases draw {ring_gain(custom)} corners.")
    return Draft(
        family="circle",
        pattern=pattern,
        custom=custom,
        sizes=(Obtained("diameter", diameter, got, 2 * custom.height_cm, "round", f"{rounds} rounds, {counts[-1]} {custom.stitch}"),),
        views=(View("Circle", disc(diameter / 2), disc(got / 2)),),
        notes=(*custom.assumed, *notes),
        tolerance=(0.5 if custom.ratio < 1 else 0.5 * custom.ratio, 1.0 if custom.parity else 0.5),
        intended="flat",
    )


def _one_round(across_cm: float, custom: Custom) -> None:
    if across_cm < custom.height_cm:
        raise Refused(
            f"{units.decimal(across_cm)} cm across is less than half of one round ({units.decimal(2 * custom.height_cm)} cm).",
            f"The smallest is {units.decimal(2 * custom.height_cm)} cm.",
        )


def _flatness(counts: tuple[int, ...], custom: Custom) -> str:
    gain = counts[-1] / len(counts)
    return f"Lies flat: gains {gain:.3g} a round where {units.decimal(custom.flat_growth)} would be exact (2π × row height ÷ stitch width)."


def disc(radius: float, steps: int = 96, middle: tuple[float, float] = (0.0, 0.0)) -> Outline:
    return tuple(
        (middle[0] + radius * math.cos(2 * math.pi * k / steps), middle[1] + radius * math.sin(2 * math.pi * k / steps))
        for k in range(steps)
    )


def _rounds_pattern(
    title: str, ring: int, runs: list[tuple[Run, ...]], counts: list[int], custom: Custom, what: str, got: float
) -> Pattern:
    told = [Told(ring_steps(ring, custom), ring, custom.stitch)]
    told += [Told(round_steps(r, custom), n, custom.stitch) for r, n in zip(runs, counts[1:], strict=True)]
    rows = tell(told, made_in=custom.rounds, side=None)
    finished = [FinishedSize(what=what, cm=(round(got, 1),))]
    return pattern_of(facts_of(custom, title, finished, "flat"), [Part(name="Body", rows=ended(rows))])


def polygon_plan(corners: int, rounds: int, custom: Custom) -> tuple[list[int], list[tuple[Run, ...]]]:
    """Counts and runs of a flat polygon in rounds: all growth at its corners, 2 tan(π/n) × row height ÷ stitch width at each.

    A corner stitch takes the whole gain of its corner; the next round's corner stands on the middle one of them.
    """
    growth = 2 * math.tan(math.pi / corners) * custom.ratio
    gains = min((_gains(growth, rounds, begun) for begun in (0.5, 0.4, 0.6, 0.3, 0.7)), key=lambda gains: _unlike_flat(gains, growth))
    if corners * gains[0] > RING_MOST:
        raise Refused(
            f"The first round would need {corners * gains[0]} stitches, more than a ring holds ({RING_MOST}).",
            "Work it in a shorter stitch, or check the row gauge.",
        )
    counts, runs = [corners * gains[0]], []
    room = gains[0]
    head = foot = 0  # plain stitches before the first corner of the round, and after its last
    for gain in gains[1:]:
        group = _corner_group(gain, room)
        lead = (room - len(group)) // 2
        head, foot = head + lead, foot + room - len(group) - lead
        runs.append(_corner_runs(corners, head, foot, group))
        room = gain + len(group)
        counts.append(counts[-1] + corners * gain)
    return counts, runs


def _gains(growth: float, rounds: int, begun: float) -> list[int]:
    """What each corner gains in every round: the whole numbers of a steady growth, never less than one in all."""
    within = [0, *(max(1, int(growth * k + begun)) for k in range(1, rounds + 1))]
    return [b - a for a, b in pairwise(within)]


def _unlike_flat(gains: Sequence[int], growth: float) -> float:
    """How far the last round, and the growth over the outer half, lie from those of a flat piece, in parts of them."""
    rounds, half = len(gains), len(gains) // 2
    last, outer = sum(gains), sum(gains[half:])
    return round(max(abs(last / (growth * rounds) - 1), abs(outer / (growth * (rounds - half)) - 1)) // 0.1 * 0.1, 1)


def _corner_group(gain: int, room: int) -> tuple[int, ...]:
    """What the stitches of a corner hold: all of it in the middle one, or in as many beside it as a large gain needs.

    `room`: the stitches of the corner below, which the group must not outgrow.
    """
    wide = min(room, -(-gain // (CORNER_MOST - 1)) if gain >= CORNER_MOST else 1)
    return tuple(1 + (gain * (k + 1)) // wide - (gain * k) // wide for k in range(wide))


def _corner_runs(corners: int, head: int, foot: int, group: tuple[int, ...]) -> tuple[Run, ...]:
    """One round: `head` stitches to its first corner group, `foot` of them beyond the last, both between two corners."""
    flags: list[Run] = []
    for k in range(corners):
        flags += [Run(times=head + (foot if k else 0)), *(Run(makes=each) for each in group)]
    return merged([*flags, Run(times=foot)])


def polygon_in_rounds(name: str) -> Maker:
    """The maker of one regular polygon."""

    def make(asked: Asked, custom: Custom) -> Draft:
        corners = CORNERS[name]
        side = asked.cm("side")
        apothem = side / 2 / math.tan(math.pi / corners)
        if side < 2 * custom.width_cm:
            raise Refused(f"A side of {side:.1f} cm holds fewer than two stitches.", f"The shortest is {2 * custom.width_cm:.1f} cm.")
        rounds = row_count(apothem, custom)
        title = {"round-triangle": "Triangle in rounds"}.get(name, name.capitalize())
        counts, pattern = _polygon_pattern(title, corners, rounds, custom)
        if rounds <= _FEW_ROUNDS and not _lies_flat(pattern):
            raise Refused(
                f"A round of this gauge is {custom.height_cm:.1f} cm high and a stitch {custom.width_cm:.1f} cm wide: the few rounds of "
                "this piece cannot lie flat, because its ring takes no fewer stitches.",
                _flat_side(title, corners, rounds, custom),
            )
        got = 2 * rounds * custom.height_cm * math.tan(math.pi / corners)
        step = 2 * custom.height_cm * math.tan(math.pi / corners)
        return Draft(
            family=name,
            pattern=pattern,
            custom=custom,
            sizes=(Obtained("side", side, got, step, "round", f"{rounds} rounds, {counts[-1]} {custom.stitch}"),),
            views=(View(title, regular(corners, side), regular(corners, got)),),
            notes=(*custom.assumed, _corner_note(corners, counts, custom)),
            tolerance=_half_a_round(corners, custom),
            intended="flat",
        )

    return make


def _polygon_pattern(title: str, corners: int, rounds: int, custom: Custom) -> tuple[list[int], Pattern]:
    counts, runs = polygon_plan(corners, rounds, custom)
    ring = Told(ring_steps(counts[0], custom), counts[0], custom.stitch)
    told = [ring, *(Told(round_steps(r, custom), n, custom.stitch) for r, n in zip(runs, counts[1:], strict=True))]
    part = Part(name="Body", rows=ended(tell(told, made_in=custom.rounds, side=None)))
    return counts, pattern_of(facts_of(custom, title, (), "flat"), [part])


def _lies_flat(pattern: Pattern) -> bool:
    """Whether proofing, which works it and measures every round, finds that it lies flat."""
    return all(finding.rule != "does-not-lie-flat" for finding in proof(pattern, [work(pattern)]))


def _flat_side(title: str, corners: int, rounds: int, custom: Custom) -> str:
    """The offer of the smallest larger piece that lies flat."""
    for more in range(rounds + 1, 2 * _FEW_ROUNDS):
        if _lies_flat(_polygon_pattern(title, corners, more, custom)[1]):
            return f"The nearest has {more} rounds: --side {units.decimal(2 * more * custom.height_cm * math.tan(math.pi / corners))}cm."
    return "Work it in a taller stitch, or check the row gauge."


def _half_a_round(corners: int, custom: Custom) -> tuple[float, float]:
    """Half a round more or less moves every side by half a row, and every corner by that over cos(π/n), whichever way it points."""
    rows = (1.0 if custom.parity else 0.5) / math.cos(math.pi / corners)
    return max(0.5, rows * custom.ratio), rows


def _corner_note(corners: int, counts: list[int], custom: Custom) -> str:
    exact = 2 * corners * math.tan(math.pi / corners) * custom.ratio
    gain = (counts[-1] - counts[0]) / max(1, len(counts) - 1)
    return f"Lies flat: gains {gain:.3g} stitches a round at {corners} corners where {units.decimal(exact)} would be exact."


def regular(corners: int, side: float) -> Outline:
    """A regular polygon about 0, a side below."""
    radius = side / 2 / math.sin(math.pi / corners)
    turn = -math.pi / 2 - math.pi / corners
    return tuple(
        (radius * math.cos(turn + 2 * math.pi * k / corners), radius * math.sin(turn + 2 * math.pi * k / corners)) for k in range(corners)
    )


def oval(asked: Asked, custom: Custom) -> Draft:
    """Round both sides of a chain: straight sides, half a circle at each end."""
    width, length = asked.cm("width"), asked.cm("length")
    if length < width:
        width, length = length, width
    _one_round(width, custom)
    rounds = row_count(width / 2, custom)
    gain = max(1, round(custom.flat_growth / 2))
    if 2 * gain > RING_MOST:
        raise Refused("An oval in this gauge would gain more stitches at its ends than they hold.", "Check the row gauge.")
    if custom.turning.counts:
        raise Refused(
            "The first round of an oval goes into both ends of its chain, so its starting chain cannot count as a stitch.",
            f'Say --turning-chain "{max(1, custom.turning.chains - 1)} not counted".',
        )
    straight = max(1, round((length - width) / custom.width_cm) - 1)
    told = [_oval_first(straight, gain, custom)]
    told += [_oval_round(straight, gain, k, custom) for k in range(1, rounds)]
    got_w = 2 * rounds * custom.height_cm
    got_l = got_w + (straight + 1) * custom.width_cm
    chains = straight + 2 + custom.turning.chains
    part = Part(name="Body", rows=(foundation(chains), *ended(tell(told, made_in=custom.rounds, side=None))))
    return Draft(
        family="oval",
        pattern=pattern_of(facts_of(custom, "Oval"), [part]),
        custom=custom,
        sizes=(
            Obtained("width", width, got_w, 2 * custom.height_cm, "round", f"{rounds} rounds"),
            Obtained("length", length, got_l, custom.width_cm, custom.stitch, f"{straight} {custom.stitch} on each straight side"),
        ),
        views=(View("Oval", stadium(width, length), stadium(got_w, got_l)),),
        notes=(*custom.assumed, f"Each end gains {gain} stitches a round where {units.decimal(custom.flat_growth / 2)} would be exact."),
        tolerance=(0.5 + 0.5 * custom.ratio, 1.0),
        intended="flat",
    )


def stadium(width: float, length: float) -> Outline:
    """Two half circles and the straight sides between them, the long way across."""
    r, half = width / 2, max(0.0, (length - width) / 2)
    right = [(half + r * math.cos(a), r * math.sin(a)) for a in (math.pi * (k / 48 - 0.5) for k in range(49))]
    left = [(-half + r * math.cos(a), r * math.sin(a)) for a in (math.pi * (k / 48 + 0.5) for k in range(49))]
    return tuple(right + left)


def _oval_first(straight: int, gain: int, custom: Custom) -> Told:
    """Along the chain, round its end, back along its other side, round the end it began at."""
    stitch = custom.stitch
    steps: list[Step] = [
        Make(stitch=stitch, at=Place(where="from_hook", what="ch", nth=custom.turning.chains + 1)),
        Make(stitch=stitch, places=Sized.of(straight), at=IN_CHAIN),
        Make(stitch=stitch, each=Sized.of(gain), at=Place(where="last", what="ch")),
        Make(stitch=stitch, places=Sized.of(straight), at=Place(where="under", what="ch")),
    ]
    if gain > 1:
        steps.append(Make(stitch=stitch, each=Sized.of(gain - 1), at=Place(where="last", what="ch")))
    if custom.rounds == "joined":
        steps.append(Join())
    return Told(tuple(steps), 2 * straight + 2 * gain, stitch)


def _oval_round(straight: int, gain: int, each: int, custom: Custom) -> Told:
    """A round on one whose ends have `each` stitches in every one of `gain` parts: each gains one, in turn at its end or middle."""
    at = each - 1 if custom.stacked or each % 2 else each // 2
    part = [Run(times=at), Run(makes=2), Run(times=each - 1 - at)]
    side = [Run(times=straight)]
    runs = merged([*part, *side, *part * gain, *side, *part * (gain - 1)])
    return Told(round_steps(runs, custom), 2 * straight + 2 * gain * (each + 1), custom.stitch)


FAMILIES = (
    Family(name="circle", what="a flat disc in rounds", make=circle, needs=("diameter",), lengths={"diameter": "across"}),
    Family(
        name="oval",
        what="a flat oval round both sides of a chain",
        make=oval,
        needs=("width", "length"),
        lengths={"width": "across", "length": "the long way"},
    ),
    *(
        Family(
            name=name,
            what=f"a flat {words} in rounds, all growth at its corners",
            make=polygon_in_rounds(name),
            needs=("side",),
            lengths={"side": "of the last round"},
        )
        for name, words in (("square", "square"), ("hexagon", "hexagon"), ("octagon", "octagon"), ("round-triangle", "triangle"))
    ),
)
