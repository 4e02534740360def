"""Sizes told without the word: a motif's where a gauge would stand, and a bare size under the title."""

from __future__ import annotations

import pytest

from hookwright.measuring import measure, put_together
from hookwright.pattern import FinishedSize
from hookwright.reading import read
from hookwright.reading.facts_motif import motif_cm
from hookwright.working import work

ROUNDS = "\n## Square (make 20)\nRnd 1: 8 sc in magic ring. (8 sc)\nRnd 2: 2 sc in each st around. (16 sc)\n\n"


@pytest.mark.parametrize(
    ("words", "cm"),
    [
        (" Each motif measures 4 inches.", 10.16),
        (" each square should measure 4½ inches across center", 11.43),
        (" One motif = 5 ins [12.5 cm] square", 12.7),
        (" Diameter = 12 cm", 12.0),
        (" 14 dc and 7 rows = 10 cm", None),
    ],
)
def test_size_of_a_motif_after_the_word_gauge(words: str, cm: float | None) -> None:
    assert motif_cm(words) == (None if cm is None else pytest.approx(cm))


def test_a_stitch_gauge_is_not_taken_for_a_motif() -> None:
    facts = read("Gauge: 14 dc and 7 rows = 4 inches over a square\n" + ROUNDS).facts
    assert facts.motif_cm is None and facts.gauge[0].stitches == 14


def test_headings_in_capitals_belong_to_their_facts() -> None:
    facts = read("A HAT\n\nGAUGE: 3 sts = 1 inch\n" + ROUNDS).facts
    assert (facts.gauge[0].stitches, facts.gauge[0].over_cm) == (3, pytest.approx(2.54))


def test_bare_size_under_the_title() -> None:
    facts = read("Herring throw\n32 x 46 inches\n" + ROUNDS).facts
    assert facts.finished == (FinishedSize(what="width", cm=(81.28,)), FinishedSize(what="length", cm=(116.84,)))
    assert read("Herring throw\nSwatch: 32 x 46 inches\n" + ROUNDS).facts.finished == ()


def test_a_motif_of_told_size_makes_a_blanket_of_rows_times_that() -> None:
    text = "Gauge: each square measures 4 inches.\n" + ROUNDS + "Join the squares in 5 rows of 4.\n"
    measures = measure(work(read(text)))
    rounds = measures.parts[0].rounds
    assert rounds is not None and rounds.diameter_cm == pytest.approx(10.16)
    (blanket,) = put_together(measures)
    assert (blanket.width_cm, blanket.length_cm) == (pytest.approx(40.64), pytest.approx(50.8))
    assert "told as the size of Square" in measures.assumed[0]
