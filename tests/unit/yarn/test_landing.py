"""Where colours land: every metre accounted for, edges where they belong, joins, knots, balls met from the other end, two balls in turn."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.fabrics import across, bevelled_strip, disc, fabric, flat_part, rectangle, triangle
from tests.unit.yarn.pieces import BALL, facts, found, striped

from hookwright.pattern import Trim, Yarn
from hookwright.yarn import Estimate, Knot, Landing, Plan, Repeat, YarnError, band_edges, land

SEQ = Repeat.of([("deep blue", 3.0), ("sand", 2.0), ("rust", 1.5)])
ENDLESS = {"A": Yarn(id="A", weight="medium")}


def conserved(e: Estimate, landed: Landing) -> None:
    """Everything on a stitch, chain, tail, join, trim or named waste; stitches and chains are those of the estimate."""
    use = e.yarn(landed.yarn)
    strands = use.supplied.strands
    whole = math.fsum(ball.pulled_off + ball.used + ball.left for ball in landed.balls)
    assert landed.metres == pytest.approx(whole, abs=1e-9)
    assert landed.of("stitches") + landed.of("chains") == pytest.approx(use.fabric_m / strands, abs=1e-9)
    assert landed.of("stitches") == pytest.approx(use.of_which["rows"] / strands, abs=1e-9)
    assert landed.of("trims") == pytest.approx(use.of_which["trims"] / strands, abs=1e-9)
    if use.supplied.ball is not None:
        for ball in landed.balls:
            assert ball.pulled_off + ball.used + ball.left == pytest.approx(use.supplied.ball.metres, abs=1e-9)


@pytest.mark.parametrize(
    "piece", [rectangle(30, 60), bevelled_strip(), disc(12, 12, "dc"), triangle(60)], ids=["flat", "bevel", "disc", "point"]
)
@pytest.mark.parametrize("ball", [None, 90.0, 37.3])
@pytest.mark.parametrize("plan", [Plan(), Plan(match=False, pull_off=2.4), Plan(alternate=2, offset=3.0), Plan(backward=(False, True))])
def test_every_metre_is_somewhere(piece: object, ball: float | None, plan: Plan) -> None:
    yarns = ENDLESS if ball is None else {"A": replace(BALL, ball_m=ball)}
    e = found(piece, facts(yarns=yarns, trims=[Trim(kind="tassel", number=2)]))  # type: ignore[arg-type]
    landed = land(e, "A", SEQ, plan)
    conserved(e, landed)
    if not plan.alternate:
        assert landed.of("tails") == pytest.approx(e.yarns[0].of_which["ends"], abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(
    runs=st.lists(st.tuples(st.sampled_from("abcdef"), st.floats(0.05, 9.0)), min_size=1, max_size=12),
    ball=st.floats(20, 400), start=st.floats(0, 50), off=st.floats(0, 10), tension=st.floats(0.8, 1.25),
)  # fmt: skip
def test_conservation_whatever_the_sequence(runs: list[tuple[str, float]], ball: float, start: float, off: float, tension: float) -> None:
    sequence = Repeat.of(runs)
    if sequence.metres > ball:
        return
    e = found(bevelled_strip(), facts(yarns={"A": replace(BALL, ball_m=ball)}))
    landed = land(e, "A", sequence, Plan(start=start, pull_off=off, tension=tension))
    whole = math.fsum(b.pulled_off + b.used + b.left for b in landed.balls)
    assert landed.metres == pytest.approx(whole, abs=1e-9)
    assert landed.of("stitches") + landed.of("chains") == pytest.approx(e.yarns[0].fabric_m * tension, abs=1e-8)


def test_colours_by_metres_are_those_of_the_sequence() -> None:
    """Without balls, the account by colour is the sequence's own from the first metre to the last."""
    e = found(rectangle(30, 40), facts(yarns=ENDLESS))
    landed = land(e, "A", SEQ, Plan(start=1.0))
    expected = SEQ.between(1.0, 1.0 + landed.metres)
    for colour, kinds in landed.account.items():
        assert math.fsum(kinds.values()) == pytest.approx(expected[colour], abs=1e-9)


def test_edges_stand_in_order_and_name_row_and_stitch() -> None:
    e = found(rectangle(30, 40), facts(yarns=ENDLESS))
    landed = land(e, "A", SEQ)
    edges = list(band_edges(e, landed))
    rows = [int(edge.row.split()[1]) for edge in edges if edge.row != "Foundation"]
    assert rows == sorted(rows)
    assert all(1 <= edge.stitch <= 30 for edge in edges if edge.of)
    assert [edge.colour for edge in edges[:4]] == ["deep blue", "sand", "rust", "deep blue"]


def test_each_stitch_has_the_colour_most_of_it_has() -> None:
    e = found(rectangle(30, 4), facts(yarns=ENDLESS))
    row = land(e, "A", SEQ, Plan(tail_m=0.0)).rows[1]
    per = row.thread.total / 30
    before = e.rows[0].metres
    colours = row.each(SEQ.colours)
    assert len(colours) == 30
    for i, colour in enumerate(colours):
        middle = before + (i + 0.5) * per
        assert SEQ.colours[colour] == SEQ.runs[SEQ.at(middle)].colour


def test_a_second_ball_goes_on_in_the_colour_of_the_first() -> None:
    e = found(rectangle(30, 80), facts(yarns={"A": replace(BALL, ball_m=101.0)}))
    landed = land(e, "A", SEQ)
    assert len(landed.balls) > 2
    joined = {ball.joined_at for ball in landed.balls[:-1]}
    assert all(joined) and len(joined) == len(landed.balls) - 1
    assert all(0 <= ball.pulled_off < SEQ.metres for ball in landed.balls)
    endless = land(e, "A", SEQ, ball_m=2_000)
    assert [row.first for row in landed.rows] == [row.first for row in endless.rows]
    same = sum(a.first == b.first for a, b in zip(landed.rows, land(e, "A", SEQ, Plan(match=False)).rows, strict=True))
    assert same < len(landed.rows)


def test_matching_balls_leave_no_jump_in_the_bands() -> None:
    """With matched balls the bands follow the sequence for ever: each colour is followed by its neighbour."""
    e = found(rectangle(30, 80), facts(yarns={"A": replace(BALL, ball_m=101.0)}))
    after = {"deep blue": "sand", "sand": "rust", "rust": "deep blue"}
    colours = [edge.colour for edge in band_edges(e, land(e, "A", SEQ))]
    assert all(after[a] == b for a, b in pairwise(colours))


def test_a_knot_jumps() -> None:
    e = found(rectangle(30, 20), facts(yarns=ENDLESS))
    plain = land(e, "A", SEQ, Plan(tail_m=0.0))
    knotted = land(e, "A", SEQ, Plan(tail_m=0.0, knots=(Knot(at=20.0, jump=3.0),)))
    a, b = list(band_edges(e, plain)), list(band_edges(e, knotted))
    assert a[:5] == b[:5]
    assert a[-1] != b[-1]
    conserved(e, knotted)


def test_a_ball_met_from_the_other_end_runs_backward() -> None:
    e = found(rectangle(30, 20), facts(yarns=ENDLESS))
    colours = [edge.colour for edge in band_edges(e, land(e, "A", SEQ, Plan(backward=(True,))))]
    assert colours[:4] == ["rust", "sand", "deep blue", "rust"]


def test_two_balls_in_turn() -> None:
    e = found(rectangle(20, 12), facts(yarns=ENDLESS))
    landed = land(e, "A", SEQ, Plan(alternate=2, offset=SEQ.metres / 2, tail_m=0.0))
    rows = [row for row in landed.rows if not row.thread.row.foundation]
    per = rows[0].metres
    first = e.rows[0].metres
    taken = {0: 0.0, 1: SEQ.metres / 2}
    taken[0] += first
    for n, row in enumerate(landed.rows[1:], 1):
        strand = (n // 2) % 2
        assert row.first == SEQ.runs[SEQ.at(taken[strand] + 1e-9)].colour
        taken[strand] += per
    assert {ball.strand for ball in landed.balls} == {0, 1}


def test_only_the_rows_of_the_yarn_are_coloured() -> None:
    two = {"A": BALL, "B": replace(BALL, id="B", colour="sand")}
    e = found(fabric(striped("ABBA")), facts(yarns=two))
    landed = land(e, "B", SEQ)
    assert [row.thread.row.label for row in landed.rows] == ["Row 2", "Row 3"]
    conserved(e, landed)


def test_copies_follow_one_another() -> None:
    e = found(fabric(flat_part([across(10, "dc")] * 3, copies=3)), facts(yarns=ENDLESS))
    landed = land(e, "A", SEQ)
    assert [row.copy for row in landed.rows] == [0] * 3 + [1] * 3 + [2] * 3
    conserved(e, landed)


@pytest.mark.parametrize(
    ("sequence", "plan", "ball", "words"),
    [
        (Repeat.of([("a", 500.0)]), Plan(), 200.0, "longer than the ball"),
        (SEQ, Plan(pull_off=300), 200.0, "cannot be pulled off"),
        (SEQ, Plan(tension=0), 200.0, "Tension"),
        (Repeat.of([("a", 0.2)]), Plan(), 0.5, "too short to work from"),
        (Repeat.of([("a", 0.0001), ("b", 0.0001)]), Plan(), 200.0, "bands of colour"),
    ],
)
def test_plans_that_cannot_be(sequence: Repeat, plan: Plan, ball: float, words: str) -> None:
    e = found(rectangle(20, 20), facts())
    with pytest.raises(YarnError, match=words):
        land(e, "A", sequence, plan, ball_m=ball)


def test_a_sequence_longer_than_its_ball_is_refused_from_the_pattern_too() -> None:
    from hookwright.pattern import ColourRun

    yarn = replace(BALL, sequence=(ColourRun(colour="blue", metres=300.0),))
    with pytest.raises(YarnError, match="longer than its ball of 200 m"):
        found(rectangle(5, 5), facts(yarns={"A": yarn}))
