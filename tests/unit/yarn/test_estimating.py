"""The estimate of a fabric: sums that agree, ends, copies, strands, hooks, yarns that are not told."""

from __future__ import annotations

import math
from array import array
from dataclasses import replace

import pytest
from tests.fabrics import Piece, across, bevelled_strip, disc, disc_rows, element, fabric, flat_part, rectangle, rounds_part, stitches
from tests.unit.yarn.pieces import BALL, GAUGE, facts, found, striped

from hookwright.pattern import Gauge, Swatch, Trim, Yarn
from hookwright.yarn import Asked, Estimate, YarnError, constants, metres_per_cm2

TWO = {"A": BALL, "B": replace(BALL, id="B", colour="sand")}


def agree(e: Estimate) -> None:
    """Rows, parts, colours and the whole are one sum."""
    by_rows = math.fsum(row.metres * row.copies for row in e.rows)
    fabric_m = math.fsum(use.fabric_m for use in e.yarns)
    assert by_rows == pytest.approx(fabric_m, abs=1e-9)
    for row in e.rows:
        assert math.fsum(row.by_yarn.values()) == pytest.approx(row.metres, abs=1e-9)
    parts = math.fsum(part.metres_each * part.copies for part in e.parts)
    extras = math.fsum(use.of_which["trims"] + use.of_which["joins"] for use in e.yarns)
    assert parts + extras == pytest.approx(e.metres, abs=1e-9)
    for use in e.yarns:
        assert math.fsum(use.of_which.values()) == pytest.approx(use.metres.likely, abs=1e-9)
        name = use.supplied.id
        assert math.fsum(p.by_yarn.get(name, 0.0) * p.copies for p in e.parts) + use.of_which["trims"] + use.of_which["joins"] == (
            pytest.approx(use.metres.likely, abs=1e-9)
        )
        assert (use.metres.low < use.metres.likely < use.metres.high) == (use.fabric_m > 0)
    assert e.rows[-1].so_far <= fabric_m + 1e-9


@pytest.mark.parametrize(
    "piece",
    [
        rectangle(28, 60),
        bevelled_strip(),
        disc(12, 9, "dc"),
        fabric(striped("AABBAABBA")),
        fabric(flat_part([across(12, "sc")], chains=12, name="Square", copies=30), rounds_part(disc_rows(6, 5), name="Edge", copies=2)),
    ],
    ids=["rectangle", "bevel", "disc", "stripes", "copies"],
)
def test_sums_agree(piece: object) -> None:
    agree(found(piece, facts(yarns=TWO, trims=[Trim(kind="tassel", number=4), Trim(kind="fringe", number=10, yarn="B")])))  # type: ignore[arg-type]


def test_total_is_the_areal_model() -> None:
    """A solid rectangle takes area x metres per area, and five times its foundation chain."""
    e = found(rectangle(28, 50), facts())
    area = 28 / 1.4 * 50 / 0.7
    use = e.yarns[0]
    assert e.parts[0].area_cm2 == pytest.approx(area)
    chain = 5 * 20 / 100
    assert use.fabric_m == pytest.approx(area * metres_per_cm2(200, 5) + chain, rel=1e-9)
    assert use.of_which["ends"] == pytest.approx(2 * constants().end_m)


def test_two_yarns_of_unequal_thickness_are_each_estimated_in_their_own() -> None:
    thin = {"A": BALL, "B": replace(BALL, id="B", ball_m=400)}
    e = found(fabric(striped("AB" * 10)), facts(yarns=thin))
    a, b = (sum(row.by_yarn.get(name, 0.0) for row in e.rows if row.number) for name in "AB")
    assert b / a == pytest.approx(2**0.25, rel=1e-9)
    agree(e)


def test_strands_held_together_take_their_metres_each() -> None:
    """Metres of the doubled strand are those of a yarn of half the metres per gram; each of the two takes as many."""
    single = found(rectangle(20, 20), facts()).yarns[0]
    double = found(rectangle(20, 20), facts(yarns={"A": replace(BALL, strands=2)})).yarns[0]
    assert double.of_which["rows"] == pytest.approx(2 * single.of_which["rows"] * 0.5**0.25)
    assert double.of_which["chains"] == pytest.approx(2 * single.of_which["chains"])
    assert double.of_which["ends"] == pytest.approx(2 * single.of_which["ends"])


def test_a_part_may_have_its_own_hook() -> None:
    parts = (flat_part([across(20, "dc")] * 9, name="Body"), flat_part([across(20, "dc")] * 9, name="Edging"))
    e = found(fabric(*parts), facts(notes={"hooks": {"Edging": "4 mm"}}))
    body, edging = (sum(row.metres for row in e.rows if row.part == name) for name in ("Body", "Edging"))
    assert edging / body == pytest.approx(math.sqrt(5 / 4))
    assert e.parts[1].hook_mm == 4


def test_copies_count() -> None:
    one = found(flat_part([across(12, "sc")] * 3, chains=12), facts()).yarns[0]
    many = found(flat_part([across(12, "sc")] * 3, chains=12, copies=7), facts()).yarns[0]
    assert many.fabric_m == pytest.approx(7 * one.fabric_m)
    assert many.of_which["ends"] == pytest.approx(7 * one.of_which["ends"])


def test_a_yarn_that_rests_long_is_cut_and_joined_again() -> None:
    near = found(fabric(striped("AABBAABB")), facts(yarns=TWO))
    far = found(fabric(striped("AABBBBAABB")), facts(yarns=TWO))
    assert near.ends[0] == {"A": 1, "B": 1}
    assert far.ends[0] == {"A": 2, "B": 1}


def test_lace_takes_less_and_relief_more() -> None:
    def mesh(n: int) -> list[object]:
        return [element("dc", i) if k == 0 else element("ch") for i in range(n) for k in range(3)]

    lace = found(flat_part([mesh(20)] * 10), facts())  # type: ignore[list-item]
    posts = found(flat_part([[element("FPdc" if i % 2 else "dc", i) for i in range(20)]] * 10), facts())
    assert lace.parts[0].openness == 1.0
    assert posts.parts[0].relief == 1.0
    plain = metres_per_cm2(200, 5)
    assert lace.yarns[0].fabric_m == pytest.approx(lace.parts[0].area_cm2 * plain * constants().lace)
    assert posts.yarns[0].fabric_m == pytest.approx(posts.parts[0].area_cm2 * plain * constants().relief)
    assert lace.yarns[0].of_which["chains"] == pytest.approx(lace.yarns[0].fabric_m * 2 / 6)


def test_swatch_calibrates_and_narrows() -> None:
    plain = found(rectangle(28, 60), facts())
    area = 20 / 1.4 * 10 / 0.7
    expected = area * metres_per_cm2(200, 5) + 5 * 20 / 1.4 / 100
    swatch = Swatch(yarn="A", stitch="dc", stitches=20, rows=10, grams=expected / 2 * 1.2)
    e = found(rectangle(28, 60), facts(swatches=[swatch]), Asked(scale_g=0.1))
    use = e.yarns[0]
    assert 1.15 < use.hand.factor < 1.2
    assert use.fabric_m == pytest.approx(plain.yarns[0].fabric_m * use.hand.factor)
    assert use.metres.high / use.metres.likely < 1.1 < plain.yarns[0].metres.high / plain.yarns[0].metres.likely
    agree(e)


def test_another_colour_of_the_weighed_yarn_takes_the_same_hand() -> None:
    swatch = Swatch(yarn="A", stitch="dc", stitches=20, rows=10, grams=20)
    e = found(fabric(striped("AABB")), facts(yarns=TWO, swatches=[swatch]))
    assert e.yarn("B").hand == e.yarn("A").hand
    thick = {"A": BALL, "B": replace(BALL, id="B", ball_m=90)}
    e = found(fabric(striped("AABB")), facts(yarns=thick, swatches=[swatch]))
    assert e.yarn("B").hand.weighed == 0


@pytest.mark.parametrize(
    ("yarn", "words"),
    [
        (Yarn(id="A", ball_m=200), "no mass"),
        (Yarn(id="A", ball_g=100), "no length"),
        (Yarn(id="A", ball_m=200, ball_g=-100), "more than nothing"),
        (Yarn(id="A", ball_m=math.nan, ball_g=100), "more than nothing"),
    ],
)
def test_a_ball_that_cannot_be_is_one_sentence(yarn: Yarn, words: str) -> None:
    with pytest.raises(YarnError, match=words) as told:
        found(rectangle(5, 5), facts(yarns={"A": yarn}))
    assert str(told.value).count(".") == 1


def test_what_is_not_told_is_assumed_and_said() -> None:
    e = found(rectangle(10, 10), facts(yarns={}, hook=None))
    assert e.yarns[0].balls is None
    assert any("No hook told" in line for line in e.because)
    assert any("180 m per 100 g" in line for line in e.because)
    e = found(rectangle(10, 10), facts(yarns={"A": Yarn(id="A", weight="bulky")}, hook=8))
    assert any("bulky weight" in line for line in e.because)


def test_a_colour_word_finds_its_yarn_by_letter_name_or_colour() -> None:
    e = found(fabric(striped(["blue", "B", "sand"])), facts(yarns=TWO))
    assert {use.supplied.id for use in e.yarns} == {"A", "B"}
    e = found(fabric(striped(["A", "violet"])), facts(yarns=TWO))
    assert e.yarn("violet").supplied.assumed


def test_sizes_are_shown_before_and_after_blocking_when_both_are_told() -> None:
    both = [replace(GAUGE[0], blocked=False), Gauge(stitch="dc", stitches=13, rows=6.5, blocked=True)]
    e = found(rectangle(14, 14), facts(gauge=both))
    assert sum("blocking" in line for line in e.because) == 2


def test_a_piece_without_stitches_takes_nothing() -> None:
    e = found(Piece().part(), facts())
    assert e.metres == pytest.approx(0, abs=1e-12)
    assert array("d", [row.metres for row in e.rows]) == array("d")


def test_a_colour_word_that_no_stitch_has_takes_no_yarn() -> None:
    """Rows may name colours they do not use, and rows may be empty: neither makes a yarn, neither is an error."""
    part = striped(["A", "A"])
    rows = [replace(row, stitches=replace(row.stitches, colours=("A", "pink"))) for row in part.rows if not row.foundation]
    empty = replace(rows[1], stitches=stitches([]), index=2)
    e = found(fabric(replace(part, rows=(*(replace(row, index=i) for i, row in enumerate(rows)), empty))), facts(yarns=TWO))
    assert [use.supplied.id for use in e.yarns] == ["A"]
    agree(e)
