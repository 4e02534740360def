"""The weighing log: read, refused, followed; drift seen; an odd reading asked about."""

from __future__ import annotations

import random

import pytest
from tests.fabrics import rectangle
from tests.unit.yarn.pieces import facts, found

from hookwright.yarn import YarnError, from_log, read_log, weighing_of_log
from hookwright.yarn.scale_log import forecast

LABELS = [f"Row {n}" for n in range(1, 201)]
EXPECTED = [float(n) for n in range(1, 201)]


def written(pairs: list[tuple[int, float]], head: str = "row,grams left\n") -> str:
    return head + "".join(f"Row {row},{grams:.1f}\n" for row, grams in pairs)


@pytest.mark.parametrize(
    "text",
    ["row,left\nRow 4,96\nRow 8,90.5\n", "Row 4;96\nRow 8;90,5\n", "\ufeff4\t96 g\n8\t90.5 g\n", "Row, g left\r\n4,96\r\n8,90.5\r\n"],
)
def test_read_in_every_custom(text: str) -> None:
    log = read_log(text)
    assert log.left
    assert [reading.grams for reading in log.readings] == [96, 90.5]


def test_the_works_own_weight_is_told_by_its_heading_or_by_growing() -> None:
    assert not read_log("row,work\n4,10\n8,20").left
    assert not read_log("4,10\n8,20").left


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("row,left\nRow 8,90\nRow 4,96", "runs backward: Row 4"),
        ("row,left\nRow 4,90\nRow 8,96", "runs backward: 96 g left"),
        ("row,work\nRow 4,20\nRow 8,10", "runs backward: the work weighs 10 g"),
        ("row,left\nRow 4,-3\nRow 8,2", "less than nothing"),
        ("row,left\nRow 4,heavy", "is not a row and its grams"),
        ("row,left\nRow 4", "no two columns"),
        ("row,left\n", "holds no reading"),
        ("", "holds no reading"),
        ("when,what\n1,2", "must name a row column"),
    ],
)
def test_refused_in_one_sentence(text: str, words: str) -> None:
    with pytest.raises(YarnError, match=words):
        read_log(text)


def test_ratio_follows_the_scale() -> None:
    log = read_log(written([(n, 300 - 1.2 * n) for n in range(10, 120, 10)]))
    told = forecast(log, EXPECTED, LABELS)
    assert told.ratio == pytest.approx(1.2)
    assert not told.odd and not told.drifts


def test_a_misread_weight_is_asked_about_and_set_aside() -> None:
    pairs = [(n, 300 - 1.0 * n) for n in range(10, 130, 10)]
    pairs[6] = (70, 222.0)
    told = forecast(read_log(written(pairs)), EXPECTED, LABELS)
    assert told.odd and "misread" in told.odd[0] and "Row 60" in told.odd[0]
    assert told.ratio == pytest.approx(1.0, abs=0.02)


def test_drift_is_seen_beyond_its_error() -> None:
    rng, left, pairs = random.Random(2), 400.0, []
    for n in range(1, 201):
        left -= 0.8 + 0.4 * n / 200
        if n % 10 == 0:
            pairs.append((n, left + rng.uniform(-0.05, 0.05)))
    told = forecast(read_log(written(pairs)), EXPECTED, LABELS, scale_g=0.1)
    assert told.drifts
    assert told.drift_percent_per_100_rows == pytest.approx(20, abs=3)
    assert "drifts" in told.said[1]


def test_no_drift_is_seen_where_the_scale_is_too_coarse() -> None:
    pairs = [(n, round(300 - n)) for n in range(5, 60, 5)]
    assert not forecast(read_log(written([(r, float(g)) for r, g in pairs])), EXPECTED, LABELS, scale_g=1.0).drifts


def test_log_against_a_pattern_updates_the_hand() -> None:
    e = found(rectangle(30, 80), facts())
    grams = {row.label: row.so_far / 2 for row in e.rows}
    text = "row,left\n" + "".join(f"Row {n},{200 - 1.1 * grams[f'Row {n}']:.2f}\n" for n in range(10, 80, 10))
    told = from_log(e, read_log(text), scale_g=0.1)
    assert told.ratio == pytest.approx(1.1, abs=0.005)
    weighing = weighing_of_log(e, told, scale_g=0.1)
    assert weighing.log_ratio == pytest.approx(0.0953, abs=0.005)


@pytest.mark.parametrize(("text", "words"), [("Row 4,96", "One reading"), ("Row 4,96\nRow 300,90", "no such row")])
def test_logs_that_tell_nothing(text: str, words: str) -> None:
    with pytest.raises(YarnError, match=words):
        forecast(read_log(text), EXPECTED, LABELS)
