"""Symbols against the published keys cited in trade/data/symbols.toml, and inks against WCAG and a colour library's colour-blind eyes.

Graded *published*: the shape is asserted from the description in the data, whose sources are named there. The side of the post hooks and
the way the loop arcs bow are "from memory" in the data, so only that front and back mirror one another is asserted.
"""

from __future__ import annotations

import itertools
import re

import pytest
from coloraide import Color

from hookwright.drawing.inks import YARN_INK
from hookwright.drawing.shapes import Shape
from hookwright.drawing.symbols import SLASHES, chain, dot, gathered, has_symbol, nominal, upright
from hookwright.trade.symbols import symbols


def lines(shape: Shape) -> list[tuple[float, float, float, float]]:
    """The straight strokes of a symbol."""
    return [tuple(float(v) for v in re.split(r"[ L]", found)) for found in re.findall(r"M([-\d. ]+L[-\d. ]+)", shape.markup)]  # type: ignore[misc]


def slashes(shape: Shape) -> int:
    """Strokes that slant across a stem."""
    return sum(1 for x1, y1, x2, y2 in lines(shape) if abs(x2 - x1) > 0.3 and 0.2 < abs(y2 - y1) < 1.2)


def has_bar(shape: Shape) -> bool:
    return any(y1 == y2 and x2 - x1 > 1.5 for x1, y1, x2, y2 in lines(shape))


@pytest.mark.parametrize("kind, wraps", [("hdc", 0), ("dc", 1), ("tr", 2), ("dtr", 3), ("trtr", 4), ("qtr", 5)])
def test_one_slash_for_each_wrap_and_a_bar_on_top(kind: str, wraps: int) -> None:
    """symbols.toml: hdc, dc, tr, dtr, n_slash."""
    shape = nominal(kind)
    assert slashes(shape) == wraps == SLASHES[kind]
    assert has_bar(shape)


def test_a_slip_stitch_is_filled_and_a_chain_is_an_open_oval() -> None:
    """symbols.toml: slip, chain. A filled dot is a thick round-ended stroke, an oval has a rim only."""
    assert 'stroke-linecap="round"' in dot().markup
    assert "ellipse" not in dot().markup
    oval = re.search(r'rx="([\d.]+)" ry="([\d.]+)"', chain(30).markup)
    assert oval is not None
    assert float(oval[1]) > float(oval[2])
    assert "fill" not in chain(30).markup


def test_single_crochet_is_upright_or_slanted() -> None:
    """symbols.toml: sc. Both forms accepted, one form throughout a chart."""
    plus, cross = lines(nominal("sc", "plus")), lines(nominal("sc", "cross"))
    assert all(x1 == x2 or y1 == y2 for x1, y1, x2, y2 in plus)
    assert all(x1 != x2 and y1 != y2 for x1, y1, x2, y2 in cross)
    assert len(plus) == len(cross) == 2


def test_togethers_have_a_leg_for_each_foot_and_one_top() -> None:
    """symbols.toml: dec, cluster_spread."""
    for n in (2, 3, 4, 5):
        feet = tuple((10 * i, 60) for i in range(n))
        shape = gathered(f"dc{n}tog", feet)
        legs = [stroke for stroke in lines(shape) if stroke[0] == stroke[1] == 0 and stroke[3] > 3]
        assert len(legs) == n
        assert slashes(shape) == n
        assert has_bar(shape)
    assert not has_bar(gathered("sc2tog", ((-17, 26), (17, 26))))


def test_a_puff_has_no_slashes_and_a_bobble_has() -> None:
    """symbols.toml: puff, bobble."""
    assert slashes(nominal("puff")) == 0
    assert slashes(nominal("bobble")) > 0
    assert slashes(nominal("cl")) > 0
    assert nominal("cl").markup != nominal("bobble").markup


def test_a_popcorn_is_capped_by_a_hollow_oval() -> None:
    """symbols.toml: popcorn."""
    assert nominal("popcorn").markup.count("<ellipse") == 1


@pytest.mark.parametrize("kind", ["dc", "tr", "hdc", "sc"])
def test_front_and_back_post_mirror_one_another(kind: str) -> None:
    """symbols.toml: fp, bp (sides from memory; that they mirror is published)."""
    front, back = upright(f"FP{kind}", 60), upright(f"BP{kind}", 60)
    assert front.markup != back.markup != upright(kind, 60).markup
    arcs = [[c for c in shape.body if c[0] != c[2] and -2 < c[1] <= 0.1 and -2 < c[3] <= 0.1] for shape in (front, back)]
    ends = [sorted(round(abs(v), 3) for c in side for v in (c[0], c[2])) for side in arcs]
    assert ends[0] == ends[1]


def test_the_loop_arcs_bow_opposite_ways() -> None:
    """symbols.toml: blo, flo."""
    plain, back, front = (upright("sc", 26, loop) for loop in ("", "back", "front"))  # type: ignore[arg-type]
    assert len({plain.markup, back.markup, front.markup}) == 3


def test_crossings_leave_the_front_stem_whole() -> None:
    """symbols.toml: crossed: the uncut stem lies in front."""
    whole, under = upright("dc", 64), upright("dc", 64, "", "plus", (30,), True)
    stems = [[s for s in lines(shape) if s[0] == s[2] == 0] for shape in (whole, under)]
    assert len(stems[0]) == 1
    assert len(stems[1]) == 2


NOT_A_STITCH = {"BLO", "FLO", "FP", "BP", "ring", "spike", "crossed dc", "shell"}
"""Ways of working, and groups of stitches that have symbols of their own."""


def test_every_symbol_of_the_data_is_drawn() -> None:
    """Each symbol that stands for a stitch has a drawing of its own, not the lettered box."""
    stitches = {symbol.stitch for symbol in symbols().values()} - NOT_A_STITCH - {""}
    assert len(stitches) >= 12
    assert [stitch for stitch in sorted(stitches) if stitch != "ch" and not has_symbol(stitch)] == []


def test_no_two_stitches_share_a_symbol() -> None:
    kinds = ["ch", "sl st", "sc", "esc", "hdc", "ehdc", "dc", "edc", "tr", "dtr", "trtr", "qtr", "cl", "bobble", "puff", "popcorn", "star"]
    kinds += [
        "picot",
        "crab",
        "loop st",
        "bullion",
        "solomon",
        "tss",
        "tks",
        "tps",
        "trs",
        "tfs",
        "tes",
        "FPdc",
        "BPdc",
        "FPsc",
        "BPsc",
        "fsc",
    ]
    kinds += ["fhdc", "fdc", "sc2tog", "dc2tog", "dc3tog", "hdc2tog", "tr2tog", "ldc"]
    drawn = [nominal(kind).markup for kind in kinds]
    assert len(set(drawn)) == len(drawn)


def test_inks_have_contrast() -> None:
    """WCAG 2.2, success criterion 1.4.11: graphics at 3 : 1 or better against their ground."""
    for ink in YARN_INK:
        assert Color(ink).contrast("white", method="wcag21") >= 3


@pytest.mark.parametrize("eyes", [None, "protan", "deutan", "tritan"])
def test_inks_are_told_apart(eyes: str | None) -> None:
    """CIEDE2000 of at least 10 between any two inks (about four times what is just noticed), also for colour-blind eyes."""
    for one, other in itertools.combinations(YARN_INK, 2):
        a, b = Color(one), Color(other)
        if eyes:
            a, b = a.filter(eyes), b.filter(eyes)
        assert a.delta_e(b, method="2000") >= 10, (one, other)
