"""Facts from front matter and from prose."""

import pytest

from hookwright.pattern import Facts
from hookwright.reading import read

ROW = "\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"


def front(yaml: str) -> Facts:
    return read(f"---\n{yaml}\n---{ROW}").facts


def test_front_matter_is_taken_with_units() -> None:
    facts = front(
        "title: Net\nhook: H/8\ngauge:\n  - {in: dc, stitches: 14, rows: 7, over: 4 in}\n"
        "yarns:\n  A: {name: Wrack, metres: 180 yd, grams: 100}\n"
        'sizes:\n  names: [S, M]\n  measures: {bust: "32 (36) in"}\n'
        "trims:\n  - {kind: tassel, number: 2, wraps: 24, card: 10 cm, tie: 30 cm}"
    )
    assert facts.hook_mm == 5.0
    assert facts.gauge[0].over_cm == pytest.approx(10.16)
    assert facts.yarns["A"].ball_m == pytest.approx(164.592)
    assert facts.size_measures["bust"] == pytest.approx((81.28, 91.44))
    assert (facts.trims[0].card_cm, facts.trims[0].tie_cm) == (10.0, 30.0)


def test_a_gauge_that_names_no_stitch_is_that_of_the_piece() -> None:
    assert [front(f"gauge: {{{told}stitches: 20, rows: 10}}").gauge[0].stitch for told in ("", "stitch: dc, ", "in: hdc, ")] == [
        "sts",
        "dc",
        "hdc",
    ]


@pytest.mark.parametrize(
    "yaml",
    ("gauge:\n  - {in: dc, stitches: 0}", "gauge:\n  - {in: dc, stitches: many}", "yarns:\n  A: {grams: -5}", "hook: soft", "gauge: 14"),
)
def test_a_value_that_cannot_be_taken_is_told_where_it_stands(yaml: str) -> None:
    pattern = read(f"---\n{yaml}\n---{ROW}")
    troubles = [t for t in pattern.troubles if t.kind == "fact"]
    assert troubles and all(t.span.start > 0 for t in troubles)
    assert pattern.parts


def test_prose_is_taken_where_the_front_matter_is_silent() -> None:
    facts = read(f'Gauge: 13 dc and 6½ rows = 10 cm\nHook: 4.5 mm\nA: Wrack, 215 m / 141 g\nFinished size: 8" x 60"{ROW}').facts
    assert (facts.gauge[0].stitches, facts.gauge[0].rows, facts.gauge[0].stitch) == (13, 6.5, "dc")
    assert facts.hook_mm == 4.5
    assert (facts.yarns["A"].ball_m, facts.yarns["A"].ball_g) == (215, 141)
    assert [(f.what, round(f.cm[0], 1)) for f in facts.finished] == [("width", 20.3), ("length", 152.4)]


def test_uk_prose_gauge_is_in_uk_terms() -> None:
    facts = read(
        "UK terms\nTension: 14 tr and 7 rows to 10 cm\n\nCh 13.\nRow 1: Tr in 4th ch from hook, tr in each ch across. (11 tr)\n"
    ).facts
    assert facts.gauge[0].stitch == "dc"


def test_rows_measured_over_another_length() -> None:
    gauge = read(f"Gauge: 7 sts = 2 inches; 4 rows = 1 inch{ROW}").facts.gauge[0]
    assert gauge.width_cm == pytest.approx(5.08 / 7)
    assert gauge.height_cm == pytest.approx(2.54 / 4)


def test_a_contradiction_is_a_trouble() -> None:
    pattern = read(f"---\nhook: 5 mm\n---\n\nHook: 4 mm{ROW}")
    assert [t.kind for t in pattern.troubles] == ["facts-contradict"]
    assert pattern.facts.hook_mm == 5.0


def test_a_pace_is_in_seconds_with_or_without_its_unit() -> None:
    assert front("pace: {dc: 3.1 s, sc: 2}").pace == {"dc": 3.1, "sc": 2.0}
