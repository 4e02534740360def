"""The trade's facts hang together: hooks end with one loop, terms go both ways, units convert exactly, sources stand beside everything."""

from __future__ import annotations

import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookwright.trade import abbreviations, bodies, cautions, hooks, languages, rules_of_thumb, stitches, symbols, terms, units, weights
from hookwright.trade._load import table
from hookwright.trade.kinds import PLAIN, base

DATA = Path(stitches.__file__).parent / "data"
FILES = sorted(path.stem for path in DATA.glob("*.toml"))


@pytest.mark.parametrize("name", FILES)
def test_every_record_has_a_source(name: str) -> None:
    data = table(name)
    sources = data["sources"]
    for kind, records in data.items():
        if kind == "sources":
            continue
        for record in records:
            assert record["source"] and all(key in sources for key in record["source"]), (kind, record)


def _loops(actions: tuple[str, ...]) -> int:
    """Loops on the hook at the end, from 1: a wrap or a loop drawn up adds one, drawing through n takes n and leaves one."""
    loops = 1
    for action in actions:
        if action in ("yo", "pull_up", "insert_fl", "insert_fl_next"):
            loops += 1
        elif match := re.fullmatch(r"pull_(\d+)", action):
            assert loops >= int(match[1]), "drawn through more loops than there are"
            loops += 1 - int(match[1])
    return loops


@pytest.mark.parametrize("stitch", [s for s in stitches.stitches().values() if s.actions], ids=lambda s: s.id)
def test_every_stitch_ends_with_one_loop(stitch: stitches.Stitch) -> None:
    assert _loops(stitch.actions) == 1


def test_the_loop_count_can_fail() -> None:
    assert _loops(("yo", "insert", "pull_up", "pull_2")) == 2


@pytest.mark.parametrize(
    "kind", [*PLAIN, "FPdc", "BPhdc", "FPtr", "dc2tog", "hdc3tog", "tr4tog", "FPdc2tog", "fsc", "fhdc", "fdc", "puff", "cl"]
)
def test_terms_go_there_and_back(kind: str) -> None:
    for system in ("US", "UK"):
        assert terms.kind_of(terms.abbr(kind, system), system) == kind  # type: ignore[arg-type]
        assert terms.kind_of(terms.name(kind, system), system) in (kind, None)  # type: ignore[arg-type]


def test_uk_names_stand_one_step_higher() -> None:
    ladder = ["sc", "dc", "tr", "dtr"]
    assert [terms.abbr(kind, "UK") for kind in ladder] == ["dc", "tr", "dtr", "trtr"]
    assert [terms.abbr(f"{kind}2tog", "UK") for kind in ladder[:3]] == ["dc2tog", "tr2tog", "dtr2tog"]
    assert (terms.abbr("esc", "UK"), terms.abbr("edc", "UK"), terms.abbr("FPdc", "UK")) == ("edc", "etr", "FPtr")


def test_words_of_one_system_only_mean_something_there_and_nothing_in_the_other() -> None:
    for word in terms.ONLY_US:
        assert terms.kind_of(word, "US") and terms.kind_of(word, "UK") is None, word
    for word in terms.ONLY_UK:
        assert terms.kind_of(word, "UK") and terms.kind_of(word, "US") is None, word


def test_data_and_terms_agree() -> None:
    for stitch in stitches.stitches().values():
        if stitch.id in terms.UK_OF or base(stitch.id) in terms.UK_OF:
            assert stitch.uk_abbr[0] == terms.abbr(stitch.id, "UK"), stitch.id
            assert stitch.us_abbr[0] == stitch.id


def test_ambiguous_hooks_keep_every_meaning() -> None:
    assert {hook.mm for hook in hooks.named("B")} == {2.0, 2.25}
    assert [hook.mm for hook in hooks.named("UK 6")] == [5.0] and [hook.mm for hook in hooks.named("US 6")] == [4.0, 1.8]
    assert [hook.mm for hook in hooks.named("K-10½")] == [6.5] and hooks.named("a crochet hook") == ()
    assert hooks.named("4.1 mm")[0].mm == 4.1


def test_steel_hooks_run_the_other_way() -> None:
    steel = [hook.mm for hook in hooks.hooks() if hook.family == "steel"]
    assert steel == sorted(steel, reverse=True) and len(steel) == 16


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("2 1/2 in", Fraction(5, 2), "in"),
        ('2½"', Fraction(5, 2), "in"),
        ("1,5 cm", Fraction(3, 2), "cm"),
        ('41"', Fraction(41), "in"),
        ("2-1/2 inches", Fraction(5, 2), "in"),
        ("1,200 yds", Fraction(1200), "yd"),
        ("¾ in.", Fraction(3, 4), "in"),
        ("10-cm", Fraction(10), "cm"),
        ("115g", Fraction(115), "g"),
        ("3.5 ozs", Fraction(7, 2), "oz"),
        ("1⁄2 in", Fraction(1, 2), "in"),
        ("2 and 1/2 inches", Fraction(5, 2), "in"),
    ],
)
def test_measures_as_patterns_print_them(text: str, number: Fraction, unit: str) -> None:
    assert units.parse(text) == units.Amount(number, unit)


@given(st.fractions(min_value=0, max_value=10_000, max_denominator=64), st.sampled_from(["mm", "cm", "m", "in", "ft", "yd"]))
def test_conversion_is_exact_both_ways(number: Fraction, unit: str) -> None:
    amount = units.Amount(number, unit)
    for other in ("mm", "cm", "m", "in", "ft", "yd"):
        assert amount.to(other).to(unit) == amount


@given(st.text(max_size=40))
def test_parsing_never_raises(text: str) -> None:
    units.parse(text)
    units.parse_number(text)
    for start, end, amount in units.find(text):
        assert 0 <= start < end <= len(text) and amount.number >= 0
    hooks.named(text)
    weights.named(text)
    terms.kind_of(text, "UK")
    abbreviations.meaning(text, "US")


def test_a_length_is_no_mass() -> None:
    with pytest.raises(ValueError, match="measures length"):
        units.Amount(Fraction(1), "in").to("g")


def test_rounding_is_one_rule() -> None:
    assert units.both_lengths(154.6) == "155 cm (60¾ in)" and units.both_lengths(9.26) == "9.5 cm (3¾ in)"
    assert units.both_yarn_lengths(182.88) == "183 m (200 yd)" and units.both_masses(100) == "100 g (3.5 oz)"


def test_yarn_weights_that_tables_disagree_on_keep_both() -> None:
    assert [weight.number for weight in weights.named("4 ply")] == [1, 2]
    assert [weight.number for weight in weights.named("8-ply")] == [3]
    assert [weight.number for weight in weights.named("chunky")] == [5] and [w.number for w in weights.named("super chunky")] == [6]
    assert [weight.number for weight in weights.weights()] == list(range(8))
    assert weights.likely(215 / 1.41).number == 4


def test_turning_chains_by_custom() -> None:
    assert rules_of_thumb.counts_by_custom("sc", 1) is False and rules_of_thumb.counts_by_custom("dc", 3) is True
    assert rules_of_thumb.counts_by_custom("hdc", 2) is None and rules_of_thumb.counts_by_custom("wool", 3) is None


def test_other_tables_answer() -> None:
    assert symbols.symbols()["dc"].stitch == "dc" and all(symbol.glyph for symbol in symbols.symbols().values())
    assert {caution.id for caution in cautions.cautions_about(["toy"])} >= {"stuffing", "toys"}
    assert len(languages.languages()) == 15 and all("dc" in languages.terms_of(code) for code in languages.languages())
    assert len(bodies.printed("blanket", "crib")) == 2 and abbreviations.older_forms()["d c"] == "dc"


def test_importing_the_package_reads_no_data() -> None:
    """Everything is read when first asked for."""
    modules = "stitches, hooks, weights, symbols, units, cautions, rules_of_thumb, bodies, languages, abbreviations"
    script = f"from hookwright.trade import {modules}; from hookwright.trade._load import table; assert table.cache_info().currsize == 0"
    subprocess.run([sys.executable, "-c", script], check=True, timeout=60)
