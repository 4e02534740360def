"""Ovals: rounds along both sides of a chain, with straight sides as long as the chain."""

import math

import pytest
from shapely.geometry import Polygon

from hookwright.measuring import PartMeasures, measure
from hookwright.reading import read
from hookwright.shaping.piece import shape_part
from hookwright.working import work

GAUGE = "US terms\nGauge: 15 sc and 15 rows = 10 cm\n\n"
UNIT = 10 / 15


def oval(chains: int, rounds: int, more: int = 6) -> PartMeasures:
    """An oval on `chains` worked-in chains whose ends take `more` increases a round, half of them at each."""
    plain, half = chains - 2, more // 2
    lines = [
        f"Ch {chains + 1}.",
        f"Rnd 1: Sc in 2nd ch from hook, sc in each of next {plain} ch, {half} sc in last ch; working along other side of ch, "
        f"sc in each of next {plain} ch, {half - 1} sc in last ch. ({2 * plain + more} sc)",
    ]
    for n in range(1, rounds):
        between = f"sc in next {n - 1} sts, " if n > 1 else ""
        grow = f"{between}2 sc in next st"
        ends = (grow, f"[{grow}] {half} times", f"[{grow}] {half - 1} times")  # the round begins at the last stitch of an end
        lines.append(f"Rnd {n + 1}: {f', sc in next {plain} sts, '.join(ends)}. ({2 * plain + more * (n + 1)} sc)")
    return measure(work(read(GAUGE + "\n".join(lines) + "\n"))).parts[0]


@pytest.mark.parametrize(("chains", "rounds"), [(5, 4), (14, 4), (30, 6)])
def test_an_oval_is_longer_than_wide_by_its_chain(chains: int, rounds: int) -> None:
    part = oval(chains, rounds)
    assert part.rounds is not None
    assert part.rounds.spine_cm == pytest.approx((chains - 1) * UNIT)
    assert (part.lies, part.rounds.corners) == ("flat", 0)
    by_girth = (part.rounds.girth_cm - 2 * part.rounds.spine_cm) / math.pi
    assert part.length_cm == pytest.approx(2 * rounds * UNIT)  # across the chain as wide as its rounds are high
    assert part.width_cm == pytest.approx((chains - 1) * UNIT + by_girth)  # 6 a round are fewer than 2 pi: its ends are drawn in
    round_it = Polygon(part.right_side_outline())
    across, spine = part.length_cm, part.rounds.spine_cm
    assert round_it.area == pytest.approx(spine * across + math.pi / 4 * across * by_girth, rel=0.01)
    assert round_it.bounds == pytest.approx((0.0, 0.0, part.width_cm, across), abs=0.02)


@pytest.mark.parametrize(("chains", "rounds"), [(14, 4), (14, 8), (30, 6)])
def test_the_solved_oval_is_as_large_as_arithmetic_has_it(chains: int, rounds: int) -> None:
    part = oval(chains, rounds)
    out = shape_part(part, solve="always")
    assert out.flat and out.error < 0.015
    assert (out.width_cm, out.length_cm) == pytest.approx((part.width_cm, part.length_cm), rel=0.035)
    rim = out.at[int(out.cloth.first[-2]) : int(out.cloth.first[-1]), :2]
    rim = rim - rim.mean(axis=0)
    assert part.rounds is not None
    middle = abs(rim[:, 0]) < part.rounds.spine_cm / 4
    assert 2 * abs(rim[middle, 1]).mean() == pytest.approx(part.length_cm, rel=0.01)
    assert Polygon(rim).area == pytest.approx(Polygon(part.right_side_outline()).area, rel=0.06)


def test_with_too_many_at_its_ends_it_ruffles_and_with_none_it_cups() -> None:
    frill = oval(14, 6, more=12)
    assert frill.lies == "ruffles" and frill.rounds is not None
    assert frill.rounds.diameter_cm == pytest.approx(2 * 6 * UNIT)  # it reaches no further than its six rounds are high
    tub = GAUGE + (
        "Ch 15.\nRnd 1: Sc in 2nd ch from hook, sc in each of next 12 ch, 3 sc in last ch; working along other side of ch, "
        "sc in each of next 12 ch, 2 sc in last ch. (30 sc)\nRnds 2-12: Sc in each st around. (30 sc)\n"
    )
    assert measure(work(read(tub))).parts[0].lies in ("cups", "tube")


def test_a_chain_joined_to_a_ring_is_no_oval() -> None:
    text = "Ch 30, join with sl st to form a ring.\nRnd 1: Ch 1, sc in each ch around, join. (30 sc)\n"
    text += "Rnds 2-9: Ch 1, sc in each st around, join. (30 sc)\n"
    part = measure(work(read(GAUGE + text))).parts[0]
    assert part.rounds is not None and part.rounds.spine_cm == 0.0 and part.lies == "tube"
