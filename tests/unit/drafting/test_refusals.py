"""What cannot be is refused in one sentence, with the nearest that can."""

import pytest

from hookwright.drafting import Refused, draft, gauge_of, length_cm

GAUGE = "14 dc and 7 rows = 10 cm"


@pytest.mark.parametrize(
    "family, gauge, asked, words",
    [
        ("rectangle", GAUGE, {"width": "24", "length": "10 cm"}, "no unit"),
        ("rectangle", GAUGE, {"width": "-24 cm", "length": "10 cm"}, "greater than nothing"),
        ("rectangle", GAUGE, {"width": "24 g", "length": "10 cm"}, "measures mass"),
        ("rectangle", GAUGE, {"width": "24 cm"}, "needs its length"),
        ("rectangle", GAUGE, {"wide": "24 cm"}, "Did you mean --width"),
        ("rectangle", "0 dc and 7 rows = 10 cm", {"width": "24 cm", "length": "10 cm"}, "more than nothing"),
        ("rectangle", "14 foo and 7 rows = 10 cm", {"width": "24 cm", "length": "10 cm"}, "Choose one of sc"),
        ("rectangle", GAUGE, {"width": "2 mm", "length": "10 cm"}, "narrowest"),
        ("rectangle", GAUGE, {"width": "900 m", "length": "10 cm"}, "4000"),
        ("carpet", GAUGE, {}, "Choose one of rectangle"),
        ("rectangl", GAUGE, {}, "Did you mean rectangle?"),
        ("polygon", GAUGE, {"points": "0 0, 1000000000 0, 20 30 cm"}, "farther apart"),
        ("rectangle", GAUGE, {"width": "nan cm", "length": "10 cm"}, "is not a length"),
        ("tube", GAUGE, {"girth": "3 cm", "length": "5 cm", "multiple": "40"}, "smallest girth that holds one is 28.6 cm"),
        ("rectangle", GAUGE, {"width": "3 cm", "length": "10 cm", "pattern": "ripple"}, "narrowest"),
        ("rectangle", GAUGE, {"width": 1e9, "length": "10 cm"}, "longer than anything"),
        ("rectangle", GAUGE, {"width": float("nan"), "length": "10 cm"}, "greater than nothing"),
        ("polygon", GAUGE, {"points": "0 0, 40 40, 40 0, 0 30 cm"}, "crosses itself"),
        ("polygon", GAUGE, {"points": "0 0, 40 0, 20 30"}, "no unit"),
        ("polygon", GAUGE, {"points": "0 0, 40 0, 40 40, 30 40, 30 10, 10 10, 10 40, 0 40 cm"}, "--turn 90"),
        ("path", GAUGE, {"d": "M0 0 L4"}, "2"),
        ("path", GAUGE, {"d": "M0 0 L4 4 M5 5 L6 6"}, "more than one figure"),
        ("bevelled-strip", GAUGE, {"width": "24 cm", "length": "40 cm", "bevel": "30 cm"}, "longest is 20.0"),
        ("triangle", GAUGE, {"width": "50 cm", "depth": "40 cm", "start": "middle"}, "twice as wide"),
        ("round-yoke", GAUGE, {"neck": "50 cm", "yoke": "200 cm", "depth": "10 cm"}, "ruffle"),
        ("crescent", GAUGE, {"length": "60 cm", "depth": "50 cm"}, "bends back"),
        ("profile", GAUGE, {"pairs": "0 10, 5 8, 3 4 cm"}, "fall"),
        ("circle", GAUGE, {"diameter": "2 mm"}, "less than half of one round"),
        ("square", GAUGE, {"side": "1 cm"}, "fewer than two stitches"),
        ("cone", "33 sc and 4.6 rows = 10 cm", {"girth": "48 cm", "height": "2 cm", "top": "8 cm"}, "no round more than doubles"),
        ("mitred-corner", "36 dc and 4 rows = 10 cm", {"side": "20 cm"}, "highest row that can be mitred is 2.2 cm"),
        (
            "polygon",
            GAUGE,
            {"points": "40 0, 60 0, 100 2.4, 60 4.5, 98 6.5, 60 8, 40 8, 4 4.5 cm"},
            "nearest that rows reach: draft polygon",
        ),
        ("rectangle", "-14 dc and 7 rows = 10 cm", {"width": "24 cm", "length": "10 cm"}, "more than nothing"),
        ("rectangle", "14 htr and 7 rows = 10 cm", {"width": "24 cm", "length": "10 cm"}, "Add --terms UK, or say hdc"),
        ("rectangle", GAUGE, {"width": "5 cm", "length": "10 cm", "multiple": "16 + 3"}, "narrowest is 13.6 cm"),
        ("rectangle", GAUGE, {"width": "50 cm", "length": "10 cm", "multiple": "six"}, 'Write it as "6 + 3"'),
        ("mitten", GAUGE, {"ease": "-30 cm"}, "leaves nothing"),
        ("hat", GAUGE, {"sizes": "58 (52) cm"}, "smallest to the largest"),
        ("hat", "6 dc and 4 rows = 10 cm", {"sizes": "52 (52.5) cm"}, "come out alike"),
    ],
)
def test_refused(family: str, gauge: str, asked: dict[str, str | float], words: str) -> None:
    with pytest.raises(Refused) as refusal:
        draft(family, gauge, asked)
    said = str(refusal.value)
    assert words in said
    assert said.endswith((".", "?")) and "\n" not in said


@pytest.mark.parametrize(
    "text, cm",
    [("9 1/2 in", 24.13), ("1.7m", 170.0), ('10"', 25.4), ("24,5 cm", 24.5), ("2 ft", 60.96), ("5 ft 6 in", 167.64), ("2' 3 1/2\"", 69.85)],
)
def test_lengths(text: str, cm: float) -> None:
    assert length_cm(text) == pytest.approx(cm)


def test_pairs_with_decimal_commas_and_points_are_alike() -> None:
    points, commas = (draft("polygon", GAUGE, {"points": text}) for text in ("0.5 0, 40.5 0, 20 30.5 cm", "0,5 0, 40,5 0, 20 30,5 cm"))
    assert points.pattern == commas.pattern


@pytest.mark.parametrize("text", ["46 (52,58) cm", "46 (52, 58) cm", "46 / 52 / 58 cm"])
def test_sizes_parted_by_a_bare_comma(text: str) -> None:
    assert draft("hat", GAUGE, {"sizes": text}).pattern.facts.size_names == ("46", "52", "58")


@pytest.mark.parametrize(
    "text", ["14 dc and 7 rows = 10 cm", "14 dc x 7 rows = 10 cm", "14 dc, 7 rows = 10cm", "14 dc and 7 rows over 10 cm"]
)
def test_gauges(text: str) -> None:
    gauge = gauge_of(text)
    assert (gauge.stitch, gauge.stitches, gauge.rows, gauge.over_cm) == ("dc", 14, 7, 10)


@pytest.mark.parametrize(
    "said, kind", [("14 tr", "dc"), ("14 htr", "hdc"), ("14 dc", "sc"), ("14 double crochet", "sc"), ("14 trebles", "dc")]
)
def test_gauges_in_uk_words(said: str, kind: str) -> None:
    assert gauge_of(f"{said} and 7 rows = 4 in", terms="UK").stitch == kind


def test_the_account_speaks_as_it_was_asked() -> None:
    made = draft("rectangle", gauge_of("14 tr and 7 rows = 4 in", terms="UK"), {"width": "9.5 in", "length": "1 in"})
    told = made.report("UK", inches=True)
    assert "33 tr" in told and "asked 9.5 in" in told and " cm" not in told and "(2 rows)" in told
    assert "33 dc" in made.report()


def test_the_outline_offered_instead_can_be_drafted() -> None:
    """Corners between two rows where the edge runs out by 30 stitches a row: refused, and its offer is taken."""
    with pytest.raises(Refused) as refusal:
        draft("polygon", GAUGE, {"points": "40 0, 60 0, 100 2.4, 60 4.5, 98 6.5, 60 8, 40 8, 4 4.5 cm"})
    offered = refusal.value.nearest.split('"')[1]
    assert draft("polygon", GAUGE, {"points": offered}).fit <= 1.02


def test_mitred_corner_in_high_rows() -> None:
    """A stitch six times as high as wide loses six on either side of the corner: in one beside it, not thirteen in the corner itself."""
    made = draft("mitred-corner", "36 dc and 6 rows = 10 cm", {"side": "12 cm"})
    assert made.sizes[1].counted == "7 rows"
