"""The colour plan: which parts are drawn, that nothing is told by hue alone, that it comes out the same twice."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations
from xml.etree import ElementTree

import pytest
from tests.fabrics import bevelled_strip, disc, fabric, rectangle, triangle
from tests.unit.yarn.pieces import BALL, facts, striped

from hookwright.drawing.colour_key import shown, simulated
from hookwright.drawing.colours import colour_plans
from hookwright.pattern import ColourRun, Facts, Yarn
from hookwright.working import Fabric
from hookwright.yarn.hues import apart

RUNS = (("deep blue", 6.0), ("shingle grey", 4.0), ("samphire", 5.0), ("rust", 3.0))
YARN = replace(BALL, sequence=tuple(ColourRun(colour=c, metres=m) for c, m in RUNS))


def with_facts(piece: Fabric, told: Facts) -> Fabric:
    return fabric(*piece.parts, facts=told)


@pytest.mark.parametrize(
    "piece", [rectangle(30, 30), triangle(40), bevelled_strip(), disc(12, 8, "dc")], ids=["flat", "point", "bevel", "disc"]
)
def test_a_self_striping_piece_with_three_beginnings(piece: Fabric) -> None:
    plans = colour_plans(with_facts(piece, facts(yarns={"A": YARN})))
    (drawing,) = plans.values()
    ElementTree.fromstring(drawing)
    words = re.findall(r"<text[^>]*>([^<]*)</text>", drawing)
    assert "As the ball comes" in words
    assert sum(word.endswith("pulled off") for word in words) == 2
    for colour, _ in RUNS:
        assert any(colour in word for word in words)
    assert drawing == next(iter(colour_plans(with_facts(piece, facts(yarns={"A": YARN}))).values()))
    mirrored = next(iter(colour_plans(with_facts(piece, facts(yarns={"A": YARN})), left_handed=True).values()))
    assert mirrored != drawing


def test_planned_stripes_and_a_plain_piece() -> None:
    two = {"A": BALL, "B": Yarn(id="B", colour="sand", ball_m=200, ball_g=100)}
    (drawing,) = colour_plans(fabric(striped("AABBA"), facts=facts(yarns=two))).values()
    assert "blue" in drawing and "sand" in drawing and "pulled off" not in drawing
    assert colour_plans(with_facts(rectangle(10, 10), facts())) == {}


def test_the_scale_is_kept() -> None:
    """A rectangle of 30 x 14 cm is drawn 30 : 14."""
    two = {"A": BALL, "B": Yarn(id="B", colour="sand", ball_m=200, ball_g=100)}
    (drawing,) = colour_plans(fabric(striped("ABABABABAB", stitches=42), facts=facts(yarns=two))).values()
    outline = re.findall(r'<polygon points="([^"]*)" fill="none"', drawing)[0]
    points = [tuple(map(float, pair.split(","))) for pair in outline.split()]
    wide, high = (max(p[i] for p in points) - min(p[i] for p in points) for i in (0, 1))
    assert wide / high == pytest.approx(30 / (10 / 0.7), rel=0.005)


def test_no_colour_is_told_by_hue_alone() -> None:
    """Every colour has a letter of its own; where two look alike to a reader without red or green cones their textures differ."""
    names = ["red", "moss", "rust", "olive", "teal", "plum", "sand", "navy", "Kittiwake", "Dunlin"]
    colours = list(shown([(name, name) for name in names]).values())
    assert len({colour.letter for colour in colours}) == len(names)
    for one, other in combinations(colours, 2):
        assert one.texture != other.texture
        assert apart(one.rgb, other.rgb) >= 0.05
    alike = [(a, b) for a, b in combinations(colours, 2) if apart(simulated(a.rgb, "deutan"), simulated(b.rgb, "deutan")) < 0.06]
    assert all(a.texture != b.texture for a, b in alike)


def test_hostile_names_stay_words() -> None:
    bad = {"A": replace(BALL, colour="<script>"), "B": Yarn(id="B", colour='"/>&', ball_m=200, ball_g=100)}
    (drawing,) = colour_plans(fabric(striped("ABA"), facts=facts(yarns=bad))).values()
    ElementTree.fromstring(drawing)
    assert "<script>" not in drawing
