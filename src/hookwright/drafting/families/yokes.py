"""Garments in the round from the neck down: round yoke, raglan."""

from __future__ import annotations

import math
from itertools import pairwise

from ...pattern import Chain, FinishedSize, Make, Part, Row, Sized, Skip, Step
from ...trade import units
from ..asks import IN_ONE_MOST, Custom, Refused
from ..compiling import ended, facts_of, pattern_of
from ..flat import row_count
from ..optimise import Prices, best_counts
from ..outline import Outline, flare
from ..result import Asked, Draft, Family, Obtained, View
from ..rounds import Run, chain_ring, merged, plan_rounds, round_steps
from ..spread import evenly, rhythm
from ..stepping import start_chain
from ..telling import Told, tell

_EVEN = 60.0
"""The price of an uneven round in a yoke, in squared stitches: its few shaped rounds should be easy to say."""


def round_yoke(asked: Asked, custom: Custom) -> Draft:
    """From the neck to the underarm, increases spread all round; then body and sleeves are divided where an arm is told."""
    neck, yoke, depth = asked.cm("neck"), asked.cm("yoke"), asked.cm("depth")
    if yoke < neck:
        raise Refused(f"A yoke of {yoke:.1f} cm is narrower than its neck of {neck:.1f} cm.", "Exchange them.")
    if yoke - neck > 2 * math.pi * depth:
        raise Refused(
            f"A yoke that grows from {neck:.0f} to {yoke:.0f} cm over {depth:.1f} cm would ruffle: flat cloth grows by 2π × its depth, "
            f"{2 * math.pi * depth:.0f} cm.",
            f"The shallowest is {(yoke - neck) / (2 * math.pi):.1f} cm deep.",
        )
    w, h = custom.width_cm, custom.height_cm
    rounds = row_count(depth, custom)
    first, last = max(3, round(neck / w)), max(3, round(yoke / w))
    counts = yoke_counts(first, last, rounds)
    plans = plan_rounds(counts, stacked=custom.stacked, plain_first=custom.turning.counts)
    told = [Told(round_steps((Run(times=first),), custom, in_chain=True), first, custom.stitch)]
    told += [Told(round_steps(p.runs, custom), p.count, custom.stitch) for p in plans[1:]]
    notes: list[str] = [f"{sum(a != b for a, b in pairwise(counts))} of {rounds} rounds are shaped."]
    rows = list(tell(told, made_in=custom.rounds, side=None))
    if "arm" in asked.lengths:
        divide, words = _divide(counts[-1], asked.cm("arm"), asked.get("underarm", 0.08 * yoke), custom)
        rows += tell([divide], made_in=custom.rounds, first=rounds + 1, side=None)
        notes.append(words)
    sizes = (
        Obtained("neck", neck, first * w, w, custom.stitch, f"{first} {custom.stitch}"),
        Obtained("yoke", yoke, counts[-1] * w, w, custom.stitch, f"{counts[-1]} {custom.stitch}"),
        Obtained("depth", depth, rounds * h, h, "round", f"{rounds} rounds"),
    )
    return _garment("round-yoke", "Round yoke", rows, first, sizes, notes, custom, flare(neck, yoke, depth), flare(
        first * w, counts[-1] * w, rounds * h))  # fmt: skip


def yoke_counts(first: int, last: int, rounds: int) -> tuple[int, ...]:
    """The stitches of every round of a yoke: shaped on one round in four or so, each shaped round by a number that spreads evenly.

    No shaped round gains more than half of what it has; between them the yoke is worked plain.
    """
    if rounds < 2 or first == last:
        return (first,) * rounds
    steepest = max(1, -(-(last - first) // max(1, first // 2)))
    shaped = min(rounds - 1, max(steepest, round((rounds - 1) / 4), 1))
    wanted = [first + (last - first) * k / shaped for k in range(shaped + 1)]
    steps = best_counts(wanted, first=(first,), last=(last,), prices=Prices(uneven=_EVEN)).counts
    gaps = evenly(rounds - 1, shaped)
    counts = [first]
    for gap, now in zip(gaps, steps[1:], strict=True):
        counts += [counts[-1]] * (gap - 1) + [now]
    return tuple(counts)


def _divide(count: int, arm: float, underarm: float, custom: Custom) -> tuple[Told, str]:
    """The round that leaves the sleeves and chains the underarms: half the back first."""
    w = custom.width_cm
    under = max(1, round(underarm / w))
    sleeve = round(arm / w) - under
    body = count - 2 * sleeve
    if sleeve < 1 or body < 4:
        raise Refused(
            f"A yoke of {count} stitches cannot be divided for arms of {arm:.0f} cm.", "Make the yoke wider or the arms narrower."
        )
    back = body // 2
    front = body - back
    half = back // 2
    own = 1 if custom.rounds == "joined" and custom.turning.counts else 0
    stitch = custom.stitch
    gap: tuple[Step, ...] = (Chain(number=Sized.of(under)), Skip(number=Sized.of(sleeve)))
    runs: list[Step] = [Make(stitch=stitch, places=Sized.of(half - own))] if half - own > 0 else []
    runs += [*gap, Make(stitch=stitch, places=Sized.of(front)), *gap, Make(stitch=stitch, places=Sized.of(back - half))]
    steps = ((start_chain(custom),) if custom.rounds == "joined" else ()) + tuple(runs)
    if custom.rounds == "joined":
        from ...pattern import Join

        steps = (*steps, Join())
    words = (
        f"Divided: {body} stitches and 2 × {under} chains of underarm for the body ({units.both_lengths((body + 2 * under) * w)}), "
        f"{sleeve} + {under} for each sleeve ({units.both_lengths((sleeve + under) * w)})."
    )
    return Told(steps, body, stitch), words


def raglan(asked: Asked, custom: Custom) -> Draft:
    """From the neck down, four lines of increases; body and sleeves each at the rate their own widths ask for."""
    neck, chest, arm, depth = asked.cm("neck"), asked.cm("chest"), asked.cm("arm"), asked.cm("depth")
    under = asked.get("underarm", 0.08 * chest / 2)
    w, h = custom.width_cm, custom.height_cm
    rounds = row_count(depth, custom)
    sleeve0 = max(2, round(neck * 0.14 / w))
    body0 = max(2, round((neck / w - 2 * sleeve0) / 2))
    body1, sleeve1 = (chest / 2 - under) / w, (arm - under) / w
    for name, small, large in (("chest", body0, body1), ("arm", sleeve0, sleeve1)):
        if large < small:
            raise Refused(
                f"The {name} is too narrow for a neck of {neck:.0f} cm: its part would have to shrink.", "Make the neck narrower."
            )
    per = [(b - a) / 2 / max(1, rounds - 1) for a, b in ((body0, body1), (sleeve0, sleeve1))]
    if max(per) > IN_ONE_MOST - 1:
        least = max(body1 - body0, sleeve1 - sleeve0) / 2 / (IN_ONE_MOST - 1) * h
        raise Refused(
            f"A raglan {depth:.1f} cm deep would need {max(per):.1f} stitches more at each line in every round.",
            f"The shallowest is {least:.1f} cm.",
        )
    gains = list(zip(rhythm(per[0], rounds - 1), rhythm(per[1], rounds - 1), strict=True))
    body, sleeve = body0, sleeve0
    count = 2 * (body + sleeve)
    start = count
    told = [Told(round_steps((Run(times=count),), custom, in_chain=True), count, custom.stitch)]
    for more_body, more_sleeve in gains:
        runs = (_section(body, more_body), _section(sleeve, more_sleeve)) * 2
        body, sleeve = body + 2 * more_body, sleeve + 2 * more_sleeve
        count = 2 * (body + sleeve)
        told.append(Told(round_steps(merged([run for section in runs for run in section]), custom), count, custom.stitch))
    rows = list(tell(told, made_in=custom.rounds, side=None))
    per_round = 4 * (sum(g[0] + g[1] for g in gains)) / max(1, len(gains))
    notes = [
        f"The lines gain {units.decimal(per_round)} stitches a round on average, as the widths ask; eight is right for one gauge only.",
        f"At the underarm: {body} stitches each for back and front, {sleeve} for each sleeve, {max(1, round(under / w))} chains under "
        "each arm.",
    ]
    sizes = (
        Obtained("neck", neck, start * w, w, custom.stitch, f"{start} {custom.stitch}"),
        Obtained("chest", chest, 2 * (body + max(1, round(under / w))) * w, w, custom.stitch),
        Obtained("arm", arm, (sleeve + max(1, round(under / w))) * w, w, custom.stitch),
        Obtained("depth", depth, rounds * h, h, "round", f"{rounds} rounds"),
    )
    asked_half, got_half = flare(body0 * w, chest / 2 - under, depth), flare(body0 * w, body * w, rounds * h)
    return _garment("raglan", "Raglan from the top", rows, start, sizes, notes, custom, asked_half, got_half)


def _section(width: int, more: int) -> tuple[Run, ...]:
    """One section of a raglan round: `more` stitches gained in its first and in its last stitch."""
    if more == 0:
        return (Run(times=width),)
    return (Run(makes=more + 1), Run(times=width - 2), Run(makes=more + 1))


def _garment(
    family: str, title: str, rows: list[Row], start: int, sizes: tuple[Obtained, ...], notes: list[str], custom: Custom, asked: Outline,
    got: Outline,
) -> Draft:  # fmt: skip
    head = Row(id=0, label="Foundation", steps=chain_ring(start))
    finished = [FinishedSize(what="girth", cm=(round(sizes[1].cm, 1),))]
    return Draft(
        family=family,
        pattern=pattern_of(facts_of(custom, title, finished, "garment"), [Part(name="Yoke", rows=(head, *ended(rows)))]),
        custom=custom,
        sizes=sizes,
        views=(View(title, asked, got),),
        notes=(*custom.assumed, *notes),
        tolerance=(1.0, 1.0 if custom.parity else 0.5),
        intended="garment",
    )


FAMILIES = (
    Family(
        name="round-yoke",
        what="a yoke from the neck down, increases spread all round",
        make=round_yoke,
        needs=("neck", "yoke", "depth"),
        lengths={
            "neck": "round the neck", "yoke": "round body and both arms at the underarm", "depth": "from neck to underarm",
            "arm": "round one arm (adds the round that divides)", "underarm": "width of the chained underarm",
        },
    ),
    Family(
        name="raglan",
        what="a raglan from the neck down, its rates from the gauge",
        make=raglan,
        needs=("neck", "chest", "arm", "depth"),
        lengths={
            "neck": "round the neck", "chest": "round the body", "arm": "round the upper arm", "depth": "from neck to underarm",
            "underarm": "width of the chained underarm",
        },
    ),
)  # fmt: skip
