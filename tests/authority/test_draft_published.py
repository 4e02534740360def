"""Drafts against published figures: each source stands beside its figure; the trade's facts hold the same (`rules_of_thumb`)."""

import itertools
import math

import pytest

from hookwright.drafting import custom_of, draft, regauged, spread
from hookwright.drafting.families.motifs import circle_counts, polygon_plan, ring_gain
from hookwright.drafting.families.sized import CROWN_TO_EAR
from hookwright.drafting.families.triangles import _legs_out
from hookwright.drafting.spread import rhythm
from hookwright.drafting.stepping import foundation_chains
from hookwright.drafting.stitchpatterns import PATTERNS
from hookwright.pattern import Pattern
from hookwright.reading import read
from hookwright.working import work

IN = 2.54


def test_even_spacing() -> None:
    """140 rows, 36 increases: 4 at every 3rd, 32 at every 4th row (worked by hand; common practice, no source for the rule)."""
    assert (spread(140, 36).few, spread(140, 36).every, spread(140, 36).many) == (4, 3, 32)


@pytest.mark.parametrize(
    "gauge, gain",
    [("20 sc and 21 rows = 10 cm", 6), ("14 hdc and 11 rows = 10 cm", 8), ("14 dc and 7.33 rows = 10 cm", 12)],
)
def test_flat_circle_gain(gauge: str, gain: int) -> None:
    """6 sc, 8 hdc, 12 dc ("Getting your circles flat", craftymaria.blogspot.com, 2009/06), at the h/w each number implies: 2π h/w."""
    assert ring_gain(custom_of(gauge)) == gain


def test_flat_star_counts() -> None:
    """6, 12, 18, 24, 30 (Crea-tiva, crea-tiva.it, star)."""
    assert circle_counts(5, custom_of("20 sc and 21 rows = 10 cm")) == (6, 12, 18, 24, 30)


def test_hat_crown_counts() -> None:
    """8, 16, 24 … 56 hdc (themagikart.blogspot.com, 2014/11)."""
    assert circle_counts(7, custom_of("14 hdc and 11 rows = 10 cm")) == (8, 16, 24, 32, 40, 48, 56)


def test_square_gains_eight_in_sc() -> None:
    """3 sc in each corner, +8 a round: 4, 12, 20 (northeytechnologies.com). Drafted from a ring of 8, the gain is the same."""
    counts, _ = polygon_plan(4, 5, custom_of("20 sc and 20 rows = 10 cm"))
    assert [b - a for a, b in itertools.pairwise(counts)] == [8, 8, 8, 8]


def test_dc_square_gains_sixteen() -> None:
    """7, 11, 15 dc a side, +16 a round (octojellycrochetstudio.com, 2021/02)."""
    counts, _ = polygon_plan(4, 4, custom_of("14 dc and 7 rows = 10 cm"))
    assert {b - a for a, b in itertools.pairwise(counts)} == {16}


def test_sphere_rounds() -> None:
    """Equator 40, square stitches: 20 rounds (tacomagic.wordpress.com, 2011/11/23)."""
    made = draft("sphere", "20 sc and 20 rows = 10 cm", {"diameter": 40 / 2 / 3.14159265})
    assert made.sizes[1].counted == "20 rounds"
    assert made.sizes[0].counted == "40 sc"


def counts_of(pattern: Pattern) -> list[int]:
    return [row.counted.total for row in work(pattern).parts[0].rows if row.counted.total]


def test_sphere_follows_the_sine() -> None:
    """Round i of n: equator × sin(π (i − ½) ÷ n) ("The ideal crochet sphere", mspremiseconclusion.wordpress.com, 2010/03/14; its midpoint
    form worked by hand): within a stitch, but for the second round from either pole, which can at most double a ring of 4."""
    counts = counts_of(draft("sphere", "20 sc and 20 rows = 10 cm", {"diameter": 40 / 2 / math.pi}).pattern)
    ideal = [40 * math.sin(math.pi * (i + 0.5) / len(counts)) for i in range(len(counts))]
    assert (counts[0], counts[1], counts[-2], counts[-1]) == (4, 8, 8, 4)
    assert all(abs(n - w) <= 1.0 for k, (n, w) in enumerate(zip(counts, ideal, strict=True)) if k not in (1, len(counts) - 2))


def test_classic_toy_counts_at_their_own_gauge() -> None:
    """6, 12 … 36, six rounds even, back by 6 a round: the toy ball of the handbooks, "slightly boxy" (tacomagic.wordpress.com,
    2011/11/23). Brought to the gauge it has, it is the same ball, round for round."""
    up = [6 * k for k in range(1, 7)]
    published = [*up, *[36] * 6, *reversed(up[:-1])]
    told = ["Gauge: 24 sc and 24 rows = 10 cm", "", "Rnd 1: 6 sc in magic ring. (6)", "Rnd 2: 2 sc in each st around. (12)"]
    told += [f"Rnd {k}: [sc in next {k - 2} sts, 2 sc in next st] 6 times. ({6 * k})" for k in range(3, 7)]
    told += ["Rnds 7-12: Sc in each st around. (36)"]
    told += [f"Rnd {18 - k}: [sc in next {k - 1} sts, sc2tog] 6 times. ({6 * k})" for k in range(5, 1, -1)]
    told += ["Rnd 17: [sc2tog] 6 times. (6)"]
    toy = read("\n".join(told))
    assert counts_of(toy) == published
    assert counts_of(regauged(toy, "24 sc and 24 rows = 10 cm").pattern) == published


@pytest.mark.parametrize("head_in, crown_in, height_in", [(23, 7.32, 9.2), (13.5, 4.3, 5.4)])
def test_hat_rule(head_in: float, crown_in: float, height_in: float) -> None:
    """Crown = girth ÷ π, height = 4/10 of the girth (hookthatyarn.wordpress.com, 2016/06/09)."""
    assert head_in / 3.14159265 == pytest.approx(crown_in, abs=0.006)
    assert CROWN_TO_EAR * head_in == pytest.approx(height_in)


@pytest.mark.parametrize(
    "stitch, stitches, turning, chains",
    [
        ("sc", 30, None, 31),  # ch 31, sc in 2nd ch, 30 sc (easybreezycrochet.com)
        ("sc", 24, None, 25),  # ch 25, 24 sc (craftideas.info)
        ("dc", 20, "3 counts", 22),  # ch 22, dc in 4th ch, 20 sts (ninasknitandcrochet.blogspot.com)
        ("hdc", 11, "2 counts", 12),  # 12 or 13, both printed (forum.knittinghelp.com, t/72046)
        ("hdc", 11, "2 not counted", 13),
    ],
)
def test_foundation_chain(stitch: str, stitches: int, turning: str | None, chains: int) -> None:
    assert foundation_chains(stitches, custom_of(f"14 {stitch} and 9 rows = 10 cm", turning_chain=turning)) == chains


def test_filet_mesh_of_two() -> None:
    """44 blocks of the 3-dc mesh: 2n + 1 = 89 (bellaonline.com, art30448)."""
    mesh = PATTERNS["mesh"]
    assert 44 * mesh.repeat + mesh.edge == 89


def test_blanket_of_18144() -> None:
    """13 dc and 7.5 rows to 4 in; 50 × 60 in: 162 × 112 = 18,144 (sdrta.net). The source cuts off 162.5 and 112.5; so does this draft's
    rounding of exact halves, to the even number."""
    made = draft("rectangle", "13 dc and 7.5 rows = 4 in", {"width": 50 * IN, "length": 60 * IN})
    stitches, rows = (int(size.counted.split()[0]) for size in made.sizes)
    assert stitches in (162, 163) and rows in (112, 113)
    assert abs(stitches * rows - 18144) <= 276


def test_strip_worked_by_hand() -> None:
    """A strip 20 dc wide and 101 rows long, a stitch a row to a tip of 2 at both ends, all at one edge (worked by hand)."""
    made = draft(
        "bevelled-strip", "13 dc and 6.5 rows = 10 cm", {"width": 20 / 1.3, "length": 101 / 0.65, "bevel": 18.5 / 0.65, "tip": 2 / 1.3}
    )
    assert made.sizes[0].counted == "20 dc" and made.sizes[1].counted == "101 rows"


@pytest.mark.parametrize(
    "gauge, gain", [("20 sc and 20 rows = 10 cm", 4), ("15 hdc and 10 rows = 10 cm", 6), ("14 dc and 7 rows = 10 cm", 8)]
)
def test_triangle_from_the_middle(gauge: str, gain: int) -> None:
    """About 4 in sc, 6 in hdc, 8 in dc a row: 4 × row height ÷ stitch width (own geometry)."""
    custom = custom_of(gauge)
    _, told = _legs_out(rhythm(custom.ratio, 9), custom)
    counts = [row.count or 0 for row in told]
    assert (counts[-1] - counts[0]) / (len(counts) - 1) == pytest.approx(gain, abs=0.51)
