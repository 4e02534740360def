"""Reading never raises, and every span slices the very text."""

from __future__ import annotations

import time
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hookwright.pattern import Pattern, Span, Step, Unread
from hookwright.pattern.walking import walk
from hookwright.reading import read
from hookwright.reading.shown import shown

WORDS = (  # noqa: SIM905
    "Row Rnd 1 2 3 12 : . , ; ( ) [ ] * ** - — = sc dc hdc tr ch inc dec sl st sts in next each of the same first last to end across around "  # noqa: E501
    "repeat rep from times x6 turn join skip with A B change to fasten off magic ring (12) [18 sc] = 24 sc shell cl 38 (42, 46) until remain "  # noqa: E501
    "Rows 2-5: Repeat Row 2 ½ BLO FPdc sc2tog evenly and then --- \n \n\n \r\n # Body ** yo insert hook through all loops on hook 🧶 é e\u0301 \ufeff С"  # noqa: E501
).split(" ")
texts = st.lists(st.sampled_from(WORDS), max_size=60).map(" ".join)


def steps_of(pattern: Pattern) -> Iterator[Step]:
    for part in pattern.parts:
        for row in part.rows:
            yield from walk(row.steps)


def check(text: str) -> Pattern:
    pattern = read(text)
    assert pattern.source == text
    spans = [step.span for step in steps_of(pattern)]
    spans += [row.span for part in pattern.parts for row in part.rows] + [
        count.span for part in pattern.parts for row in part.rows for count in row.stated
    ]
    spans += [trouble.span for trouble in pattern.troubles] + list(pattern.notes)
    for span in spans:
        assert 0 <= span.start <= span.end <= len(text)
    return pattern


@given(texts)
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_words_are_read(text: str) -> None:
    check(text)


@given(st.text(max_size=400))
@settings(max_examples=60, deadline=None)
def test_any_characters_are_read(text: str) -> None:
    check(text)


@given(texts, st.sampled_from(("\r\n", "\ufeff", "🧶 ", "e\u0301 ", "\u00a0")))
@settings(max_examples=60, deadline=None)
def test_what_stands_before_only_moves_the_spans(text: str, before: str) -> None:
    check(before + text)


def test_spans_slice_the_words_with_crlf_bom_and_emoji() -> None:
    text = "\ufeff🧶 e\u0301\r\nRow 1: Ch 1, sc in next 3 sts, frobnicate the 3 sts, turn. (3 sc)\r\nRow 2: Ch 1, dc in each st across. (3 dc)\r\n"  # noqa: E501
    pattern = check(text)
    rows = pattern.parts[0].rows
    assert [row.label for row in rows] == ["Row 1", "Row 2"]
    assert rows[0].span.of(text).startswith("Row 1:")
    unread = [step for step in steps_of(pattern) if isinstance(step, Unread)]
    assert [step.span.of(text) for step in unread] == ["frobnicate the 3 sts"]
    assert rows[1].steps[1].span.of(text) == "dc in each st across"
    assert rows[1].stated[0].span.of(text) == "(3 dc)"


def test_ids_are_unique() -> None:
    text = "Row 1: (sc, inc) 6 times, *dc, ch 1; rep from * across.\nRow 2: sc around.\nRow 3: sc around.\n"
    ids = [step.id for step in steps_of(read(text))]
    assert len(ids) == len(set(ids)) and all(ids)


@pytest.mark.parametrize(
    "text",
    [
        "Row 1: " + "(" * 10_000,
        "Row 1: " + "(" * 10_000 + "sc" + ")" * 10_000,
        "Row 1: " + "*" * 20_000,
        "Row 1: " + "[sc " * 3_000,
        "Row 1: (sc) 1000000000 times, sc in next 999999999999 sts",
        "e\u0301" * 30_000,
        "Row 1: " + "1 (" * 5_000,
        "Rows 1-2-3" * 3_000,
    ],
)
def test_strange_texts_end_soon(text: str) -> None:
    start = time.process_time()
    check(text)
    assert time.process_time() - start < 10, "linear work on a short text takes a second or two at most"


def test_time_grows_with_the_text_not_its_square() -> None:
    """CPU time for 8 times the text is well under 64 times the time (a quadratic step would reach it)."""
    line = "sc in next st, inc, (2 dc, ch 1) in next st, "
    times = []
    for number in (100, 800):
        start = time.process_time()
        read("Row 1: " + line * number)
        times.append(max(time.process_time() - start, 0.01))
    assert times[1] < 30 * times[0]


def test_a_very_long_text_is_cut_with_a_trouble() -> None:
    from hookwright.pattern import LIMITS

    text = "x" * (LIMITS.source + 10)
    pattern = read(text)
    assert [trouble.span for trouble in pattern.troubles if trouble.kind == "too-long"] == [Span(LIMITS.source, LIMITS.source + 10)]


@pytest.mark.parametrize(
    "words", ["2 sc in each st and fasten", "2 sc in each st, sc in", "2 sc in each st. Repeat Rows 2 to 5 for", "2 sc in each st and cut"]
)
def test_a_row_that_breaks_off_keeps_what_was_told_before(words: str) -> None:
    step = read(f"Rnd 1: {words}").parts[0].rows[0].steps[0]
    assert shown((step,)) == "2sc×rest"
