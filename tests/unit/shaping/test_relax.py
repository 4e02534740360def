"""The solver: from a start made for another gauge, with noise, back to what gauge arithmetic says."""

import math
from itertools import pairwise

import numpy as np
import pytest
from scipy.optimize import least_squares, minimize
from tests import fabrics

from hookwright.measuring import PartMeasures, measure
from hookwright.shaping import PartShape, shape_part
from hookwright.shaping.cloth import Floats, cloth_of
from hookwright.shaping.relax import edge_error, energy, factor, metric, relax
from hookwright.shaping.start import unroll
from hookwright.shaping.ties import ties_of
from hookwright.working.fabric import Fabric

TALL = {"dc": (20.0, 10.0)}


def hyperbolic_counts(rounds: int) -> list[int]:
    counts = [6]
    while len(counts) < rounds:
        counts.append(round(counts[-1] * 4 / 3))
    return counts


def sphere(equator: int = 40) -> Fabric:
    counts = [round(equator * math.sin(math.pi * i / 20)) for i in range(1, 20)]
    return fabrics.rounds(fabrics.rounds_of(counts), gauge={"sc": (10.0, 10.0)})


def part_of(made: Fabric) -> PartMeasures:
    return measure(made).parts[0]


def disturbed(part: PartMeasures, *, flat: bool) -> Floats:
    """The unrolled start, 1.25 x 0.8 off, each node moved by a tenth of a stitch's width or so."""
    start = unroll(cloth_of(part), flat=flat)
    noise = np.random.default_rng(7).normal(0.0, 0.1 * part.scale.unit_cm, start.shape)
    if flat:
        noise[:, 2] = 0.0
    return np.asarray(start * [1.25, 0.8, 0.8] + noise)


def solved(made: Fabric, *, flat: bool) -> PartShape:
    part = part_of(made)
    return shape_part(part, start=disturbed(part, flat=flat), flat=flat)


@pytest.mark.parametrize("made", [fabrics.rectangle(30, 40), fabrics.bevelled_strip(gauge={"dc": (13, 6.5)}), fabrics.triangle(30)])
def test_flat_pieces_come_back_to_gauge_arithmetic(made: Fabric) -> None:
    out = solved(made, flat=True)
    assert out.settled
    assert out.error <= 0.01
    assert out.width_cm == pytest.approx(out.measures.width_cm, rel=0.005)
    assert out.length_cm == pytest.approx(out.measures.length_cm, rel=0.005)


def test_a_flat_disc() -> None:
    out = solved(fabrics.disc(12, 10, "dc", stacked=False, gauge=TALL), flat=True)
    assert out.error <= 0.01
    assert out.diameter_cm == pytest.approx(out.measures.width_cm, rel=0.005)


def test_a_ball_keeps_its_girth_and_its_height() -> None:
    part = part_of(sphere())
    out = shape_part(part, start=disturbed(part, flat=False))
    assert out.strain <= 0.01
    assert out.girth_cm == pytest.approx(40.0, rel=0.01)
    # its rounds reach over 19 of the 20 arcs from pole to pole
    assert out.height_cm == pytest.approx(40 / math.pi * (1 + math.cos(math.pi / 20)) / 2, rel=0.06)


@pytest.mark.parametrize(
    "made",
    [
        fabrics.disc(8, 10, "dc", stacked=False, gauge=TALL),
        fabrics.disc(18, 10, "dc", stacked=False, gauge=TALL),
        fabrics.rounds(fabrics.rounds_of(hyperbolic_counts(14)), gauge={"sc": (10.0, 11.0)}),
    ],
)
def test_cups_and_ruffles(made: Fabric) -> None:
    out = solved(made, flat=False)
    assert out.strain <= 0.02
    assert out.girth_cm == pytest.approx(out.measures.rounds.girth_cm, rel=0.01)  # type: ignore[union-attr]


def test_a_cup_is_as_deep_as_a_cone_of_its_growth() -> None:
    """q = girth over 2 pi reach; a cone on the reach as slant height is sqrt(1 - q2) deep (plain geometry)."""
    for per_round in (6, 8, 10):
        out = shape_part(part_of(fabrics.disc(per_round, 10, "dc", stacked=False, gauge=TALL)), solve="always", flat=False)
        q = per_round * 0.5 / math.tau
        assert out.height_cm == pytest.approx(10 * math.sqrt(1 - q * q), rel=0.04)


def test_shapes_order_as_the_arithmetic_does() -> None:
    """From 5 to 22 a round: depth falls to nothing at flat, waves rise from there; the plane's strain orders alike on both sides."""
    shapes = {n: part_of(fabrics.disc(n, 10, "dc", stacked=False, gauge=TALL)) for n in range(5, 23)}
    free = {n: shape_part(part, solve="always", flat=False).height_cm for n, part in shapes.items()}
    pressed = {n: shape_part(part, solve="always", flat=True).strain for n, part in shapes.items()}
    growth = {n: part.rounds.growth_last_half for n, part in shapes.items() if part.rounds is not None}
    cups, ruffles = [n for n in shapes if growth[n] < 1], [n for n in shapes if growth[n] > 1]
    assert all(free[a] > free[b] for a, b in pairwise(cups))
    assert all(free[a] < free[b] for a, b in pairwise(ruffles))
    outside = [n for n in cups if n <= 11]
    assert all(pressed[a] > pressed[b] for a, b in pairwise(outside))
    assert all(pressed[a] < pressed[b] for a, b in pairwise([n for n in ruffles if n >= 14]))
    flat = [n for n, part in shapes.items() if part.lies == "flat"]
    assert flat == [n for n in shapes if pressed[n] < 0.06]


def test_stacked_increases_bulge_more_than_staggered_ones() -> None:
    gauge = {"sc": (10.0, 10.47)}
    uneven = []
    for stacked in (True, False):
        out = shape_part(part_of(fabrics.disc(6, 12, stacked=stacked, gauge=gauge)), solve="always")
        rim = out.at[int(out.cloth.first[-2]) : int(out.cloth.first[-1]), :2]
        far = np.linalg.norm(rim - rim.mean(axis=0), axis=1)
        uneven.append(far.max() / far.min())
    assert uneven[0] - 1 > 2 * (uneven[1] - 1)
    assert uneven[0] > 1.01


def test_scipy_finds_no_lower_place_nearby() -> None:
    """The same energy by scipy.optimize.minimize, L-BFGS-B, from where ours stopped: a strained piece, settled as far as it goes."""
    part = part_of(fabrics.disc(12, 5, "dc", stacked=False, gauge=TALL))
    cloth = cloth_of(part)
    ties = ties_of(cloth, flat=True)
    ours = relax(ties, np.ascontiguousarray(unroll(cloth, flat=True)[:, :2]), good=1e-9, settled=0.0)

    def flat_energy(x: Floats) -> tuple[float, Floats]:
        value, gradient = energy(ties, x.reshape(-1, 2))
        return value, gradient.ravel()

    theirs = minimize(flat_energy, ours.at.ravel(), jac=True, method="L-BFGS-B", options={"maxiter": 1000, "ftol": 1e-12})
    assert energy(ties, ours.at)[0] == pytest.approx(float(theirs.fun), rel=1e-2)


def test_the_gradient_is_that_of_the_energy() -> None:
    part = part_of(fabrics.disc(8, 4, "dc", gauge=TALL))
    cloth = cloth_of(part)
    ties = ties_of(cloth)
    at = unroll(cloth) + np.random.default_rng(3).normal(0, 0.1, (cloth.nodes, 3))
    _, gradient = energy(ties, at)
    step = np.random.default_rng(4).normal(0, 1, at.shape)
    numeric = (energy(ties, at + 1e-6 * step)[0] - energy(ties, at - 1e-6 * step)[0]) / 2e-6
    assert numeric == pytest.approx(float(np.vdot(gradient, step)), rel=1e-5)


def test_the_factor_solves_its_metric() -> None:
    cloth = cloth_of(part_of(fabrics.rectangle(6, 5)))
    ties = ties_of(cloth, flat=True)
    matrix, _ = metric(ties)
    right = np.random.default_rng(5).normal(0, 1, (cloth.nodes, 2))
    assert matrix @ factor(ties)(right) == pytest.approx(right, abs=1e-6)


def test_the_unrolled_start_of_a_plain_piece_is_exact() -> None:
    for made in (fabrics.rectangle(20, 10), fabrics.bevelled_strip()):
        cloth = cloth_of(part_of(made))
        assert edge_error(ties_of(cloth, flat=True), unroll(cloth)) < 1e-9


def test_what_fits_is_not_solved() -> None:
    out = shape_part(part_of(fabrics.rectangle(20, 10)))
    assert not out.solved
    assert "nothing had to be solved" in out.note


def test_a_solved_shape_is_the_same_every_time() -> None:
    part = part_of(fabrics.disc(18, 6, "dc", gauge=TALL))
    assert np.array_equal(shape_part(part, solve="always").at, shape_part(part, solve="always").at)


def test_out_of_time_it_says_so() -> None:
    out = shape_part(part_of(fabrics.disc(18, 10, "dc", gauge=TALL)), solve="always", seconds=0.0)
    assert not out.settled
    assert out.note.startswith("Could not settle")
    assert np.isfinite(out.at).all()


def test_a_ruffled_edge_worked_in_rows_cannot_lie_flat() -> None:
    rows = [fabrics.across(20, "sc")] * 3
    rows += [[("dc", 19 - i // 4) for i in range(80)], [("dc", 79 - i // 2) for i in range(160)]]
    out = shape_part(part_of(fabrics.flat(rows, chains=20)))
    assert out.lies == "ruffles"
    assert out.height_cm > 1.0


def test_twelve_a_round_pressed_flat_is_no_worse_than_the_best_circles() -> None:
    """dc twice as tall as wide: 12 a round are 4.5 % too few for a plane. SciPy finds the least error of round circles."""
    rounds, per, width, height = 10, 12, 0.5, 1.0
    k = np.arange(1, rounds + 1)
    many = np.sqrt(per * k)

    def errors(radius: Floats) -> Floats:
        along = math.tau * radius / (per * k * width) - 1
        up = np.diff(radius, prepend=0.0) / height - 1
        return np.concatenate([many * along, many * up])

    least = least_squares(errors, height * k.astype(float))
    floor = math.sqrt(2 * least.cost / (2 * many @ many))
    part = measure(fabrics.disc(12, rounds, "dc", stacked=False, gauge={"dc": (20.0, 10.0)})).parts[0]
    start = unroll(cloth_of(part), flat=True) * [1.25, 0.8, 0.8]
    pressed = shape_part(part, start=start, flat=True)
    assert 0.015 < floor < 0.019
    assert pressed.strain < 1.01 * floor
    assert pressed.error < 0.005  # beyond the 3 % that the fabric takes up
    assert shape_part(part, start=unroll(cloth_of(part)) * [1.25, 0.8, 0.8], flat=False).strain < 0.003  # left free, nothing is strained
    even = measure(fabrics.disc(12, rounds, "dc", stacked=False, gauge={"dc": (20.0, 20 * math.tau / 12)})).parts[0]
    assert shape_part(even, start=unroll(cloth_of(even), flat=True) * [1.25, 0.8, 0.8], flat=True).strain < 0.005
