"""Worked examples and published errors of makers and publishers (authorities/worked_examples.toml): counts to the stitch, sums to the
last printed digit, errors flagged."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from math import pi
from pathlib import Path
from typing import Any

import pytest

from hookwright.pattern import Pattern
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.trade import rules_of_thumb, units
from hookwright.working import Fabric, work
from hookwright.working.counting import number_of

DATA = tomllib.loads((Path(__file__).parents[2] / "authorities" / "worked_examples.toml").read_text(encoding="utf-8"))


def worked(text: str) -> tuple[Pattern, list[Fabric]]:
    pattern = read(text)
    return pattern, [work(pattern, size=size) for size in range(pattern.sizes)]


def test_every_example_names_its_source() -> None:
    for kind in ("pattern", "sized", "error"):
        for example in DATA[kind]:
            assert example["source"] in DATA["sources"], example["id"]


@pytest.mark.parametrize("example", DATA["pattern"], ids=lambda example: example["id"])
def test_counts_come_out_as_printed(example: dict[str, Any]) -> None:
    pattern, (fabric,) = worked(example["text"])
    rows = {row.label: row for part in fabric.parts for row in part.rows}
    for label, kind, number in example["counts"]:
        row = rows[label]
        assert row.read == "whole" and row.worked == "yes", label
        assert (number_of(row.counted.by_kind, kind) if kind else row.counted.total) == number, label
    alarms = [finding for finding in proof(pattern, [fabric]) if finding.severity != "note"]
    assert not alarms


@pytest.mark.parametrize("example", DATA["sized"], ids=lambda example: example["id"])
def test_every_size_comes_out_as_printed(example: dict[str, Any]) -> None:
    def listed(numbers: list[int]) -> str:
        return f"{numbers[0]} ({', '.join(map(str, numbers[1:]))})"

    before, after = example["before"], example["after"]
    names = ", ".join(f"S{n}" for n in range(1, len(before) + 1))
    text = (
        f"---\nsizes:\n  names: [{names}]\n---\n\nRnd 1: Make a magic ring, {listed(before)} hdc in ring. ({listed(before)} hdc)\n"
        "Rnd 2: Hdc in next 10 sts, 2 hdc in each of next 2 sts, hdc in next 30 sts, 2 hdc in each of next 2 sts, hdc in each st to end. "
        f"({listed(after)} hdc)\n"
    )
    pattern, fabrics = worked(text)
    assert [fabric.parts[0].rows[-1].counted.total for fabric in fabrics] == after
    assert not [finding for finding in proof(pattern, fabrics) if finding.severity != "note"]
    wrong = text.replace(f"({listed(after)} hdc)", f"({listed([*after[:5], after[5] + 1, *after[6:]])} hdc)")
    found = proof(*worked(wrong))
    assert [finding.rule for finding in found if finding.severity == "error"] == ["count-differs"]


@pytest.mark.parametrize("example", DATA["error"], ids=lambda example: example["id"])
def test_published_errors_are_flagged(example: dict[str, Any]) -> None:
    found = [finding for finding in proof(*worked(example["text"])) if finding.severity == "error"]
    assert [finding.rule for finding in found] == [example["rule"]]
    assert (found[0].row or "") == example["row"] and found[0].working


# --- units and yarn numbers ---


def test_cotton_count_10_is_worsted_count_15() -> None:
    """ASTM D2260, worked example: published."""
    assert units.convert_count(10, "NeC", "NeW") == pytest.approx(15, abs=1e-9)


def test_30_tex_is_cotton_count_19_7() -> None:
    """ASTM D2260, worked example: published to 0.1."""
    assert round(units.convert_count(30, "tex", "NeC"), 1) == 19.7


def test_cotton_40s_is_148_dtex() -> None:
    """knittingmagic.biz, conversion formulae: published to the whole dtex."""
    assert round(units.convert_count(40, "NeC", "dtex")) == 148


def test_5_oz_a_square_yard_is_170_grams_a_square_metre() -> None:
    """knittingmagic.biz: 170 is printed; exactly 169.53, so the tolerance is the half unit the source rounds by."""
    assert float(5 * units.OUNCE_G / units.YARD_M**2) == pytest.approx(170, abs=0.5)


def test_a_kilometre_of_25_tex_weighs_25_grams() -> None:
    """texsite.info: published definition."""
    assert 100_000 / units.convert_count(25, "tex", "m/100g") == pytest.approx(25)


# --- sums ---


def test_blanket_by_gauge() -> None:
    """sdrta.net: 13 sts and 7.5 rows to 4 in make a blanket of 50 × 60 in: 162 sts, 112 rows, 18,144 stitches (published, rounded down)."""
    across, up = int(Fraction(50) * Fraction(13, 4)), int(Fraction(60) * Fraction(75, 40))
    assert (across, up, across * up) == (162, 112, 18_144)


def test_crown_of_a_hat() -> None:
    """Hook That Yarn: a head of 23 in has a crown of 7.32 in, one of 13.5 in one of 4.3 in (published): girth / π."""
    assert round(23 / pi, 2) == 7.32 and round(13.5 / pi, 1) == 4.3


def test_areas_of_weighed_swatches() -> None:
    """Interweave: areas and square inches a gram as printed."""
    assert round(6.25 * 5.75, 2) == 35.94 and round(6.25 * 5.75 / 19, 2) == 1.89
    assert round(5.75 * 4.75, 2) == 27.31 and round(5.75 * 4.75 / 9, 2) == 3.03
    assert round(5.75 * 3.25, 2) == 18.69 and round(5.75 * 3.25 / 9, 2) == 2.08


def test_starting_chains_by_formula() -> None:
    """Four published chains (easybreezycrochet, craftideas, ninasknitandcrochet, citygirlcrochet) and the forum's two for 11 hdc."""
    assert rules_of_thumb.foundation_chains(30, 2, False) == 31 and rules_of_thumb.foundation_chains(24, 2, False) == 25
    assert rules_of_thumb.foundation_chains(20, 4, True) == 22 and rules_of_thumb.foundation_chains(20, 3, False) == 22
    assert {rules_of_thumb.foundation_chains(11, 3, counts) for counts in (True, False)} == {12, 13}


def test_sphere_rows() -> None:
    """tacomagic: an equator of 40 square stitches makes 20 rows (published)."""
    assert rules_of_thumb.sphere_rows(40) == 20


def test_growth_by_half() -> None:
    """math.techqa.club: 6, 9, 13.5, 20.25 (published)."""
    assert [float(6 * Fraction(3, 2) ** n) for n in range(4)] == [6, 9, 13.5, 20.25]


def test_measured_stitches_give_the_handbook_circle() -> None:
    """Derived: 2π × height / width of four measured swatches lies within 1.2 of the handbook's increases a round (6, 8, 12)."""
    circles = rules_of_thumb.circles()
    for sample in rules_of_thumb.shape_samples():
        assert abs(sample.each_round - circles[sample.stitch].each_round) <= 1.2, sample.id
