"""Starting places, pooling, stripes over unequal widths, sequences as typed."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest
from tests.fabrics import bevelled_strip, fabric, rectangle
from tests.unit.yarn.pieces import BALL, facts, found, striped

from hookwright.pattern import Trim, Yarn
from hookwright.yarn import Plan, Repeat, Wish, YarnError, best_starts, land, planned, pooling, typed
from hookwright.yarn.pools import picture, remedy, repeat_in_stitches, table
from hookwright.yarn.sequence import thirds
from hookwright.yarn.starts import advice
from hookwright.yarn.stripes import matched

SEQ = Repeat.of([("blue", 7.0), ("sand", 5.0), ("rust", 4.0), ("moss", 6.0)])
ENDLESS = {"A": Yarn(id="A", weight="medium")}


def test_the_best_start_gives_both_ends_the_wished_colours() -> None:
    e = found(bevelled_strip(), facts(yarns=ENDLESS))
    best = best_starts(e, "A", SEQ, Wish(last="rust", first_rows=4, last_rows=4))[0]
    assert best.last == "rust"
    rows = [row for row in land(e, "A", SEQ, Plan(pull_off=best.pull_off_m)).rows if not row.thread.row.foundation]
    for end, told in ((rows[:4], best.first), (rows[-4:], best.last)):
        most = Counter(colour for row in end for colour in row.each(SEQ.colours)).most_common(1)[0][0]
        assert SEQ.colours[most] == told


def test_the_best_match_is_no_worse_than_any_start_tried() -> None:
    e = found(rectangle(20, 37), facts(yarns=ENDLESS))
    best = best_starts(e, "A", SEQ, tries=200)[0]
    coarse = best_starts(e, "A", SEQ, tries=20)[0]
    assert best.match >= coarse.match - 0.02
    assert 0 <= best.pull_off_m < SEQ.metres
    assert best.sure <= 1


def test_ends_match_exactly_when_the_length_is_a_whole_number_of_repeats() -> None:
    e = found(rectangle(20, 30), facts(yarns=ENDLESS))
    one = Repeat.of([("blue", e.yarns[0].fabric_m / 8), ("sand", e.yarns[0].fabric_m / 8)])
    best = best_starts(e, "A", one, Wish(first_rows=1, last_rows=1))[0]
    assert best.match >= 0.98
    assert best.first == best.last


def test_least_waste_among_equals() -> None:
    """A start already good at 0 costs nothing."""
    e = found(rectangle(20, 30), facts(yarns=ENDLESS))
    long = Repeat.of([("blue", 10_000.0), ("sand", 10_000.0)])
    best = best_starts(e, "A", long, Wish(first="blue", last="blue"))[0]
    assert best.pull_off_m == 0
    assert best_starts(e, "A", long, Wish(first="blue", last="blue"), begins_m=15_000)[0].pull_off_m == pytest.approx(5_000, abs=30)


def test_the_far_end_is_not_promised_from_an_estimate() -> None:
    e = found(rectangle(20, 100), facts(yarns=ENDLESS))
    starts = best_starts(e, "A", SEQ, Wish(last="blue", first_rows=1, last_rows=1))
    assert starts[0].sure < starts[0].match
    assert "two equal halves by weight" in advice(starts, SEQ)


def test_trims_count_among_the_wishes() -> None:
    e = found(rectangle(20, 30), facts(yarns=ENDLESS, trims=[Trim(kind="tassel", number=1, wraps=10, card_cm=8)]))
    best = best_starts(e, "A", SEQ, Wish(trims="moss"))[0]
    assert best.trims == "moss"


def test_unknown_colours_are_refused() -> None:
    with pytest.raises(YarnError, match="has no pink: it has blue, sand, rust, moss"):
        best_starts(found(rectangle(5, 5), facts()), "A", SEQ, Wish(first="pink"))


@pytest.mark.parametrize(
    ("stitches", "flat", "effect"),
    [
        (40, False, "piles up"),
        (20, True, "piles up"),
        (41, False, "drifts"),
        (39, False, "drifts"),
        (30, False, "scatters"),
        (30, True, "scatters"),
    ],
)
def test_pooling(stitches: int, flat: bool, effect: str) -> None:
    assert pooling(stitches, 40, flat=flat).effect == effect


@pytest.mark.parametrize(("stitches", "flat"), [(40, False), (41, False), (29, False), (20, True), (33, True), (40, True)])
def test_pooling_is_what_the_picture_shows(stitches: int, flat: bool) -> None:
    """Shift the rows of the simulated piece: at the shift foretold, one pass equals the next in nearly every stitch."""
    sequence = Repeat.of([("a", 0.8), ("b", 0.9), ("c", 0.7)])
    each = sequence.metres / 40
    rows = picture(sequence, stitches, 12, each, flat=flat)
    step = 2 if flat else 1
    shift = round(pooling(stitches, 40, flat=flat).shift)
    for r in range(len(rows) - step):
        here, there = rows[r], rows[r + step]
        sign = -1 if not flat or r % 2 == 0 else 1
        pairs = [(here[x], there[x - sign * shift]) for x in range(stitches) if 0 <= x - sign * shift < stitches]
        assert sum(a == b for a, b in pairs) >= 0.95 * len(pairs)


def test_tension_moves_the_pools() -> None:
    tight = pooling(40, 40, flat=False)
    assert tight.at_drift == ("drifts", "piles up", "drifts")
    assert 0 < tight.holds_percent < 2
    assert remedy(tight, 40) and not remedy(pooling(30, 40, flat=False), 40)
    assert [one.effect for one in table(39, 41, 40, flat=False)] == ["drifts", "piles up", "drifts"]
    assert repeat_in_stitches(SEQ, 0.11) == pytest.approx(200)


def test_planned_stripes_carry_their_metres() -> None:
    two = {"A": BALL, "B": Yarn(id="B", ball_m=200, ball_g=100)}
    e = found(fabric(striped("AABBBA")), facts(yarns=two))
    stripes = planned(e)
    assert [(s.yarns, s.first, s.last, s.rows) for s in stripes[-3:]] == [
        (("A",), "Row 1", "Row 2", 2),
        (("B",), "Row 3", "Row 5", 3),
        (("A",), "Row 6", "Row 6", 1),
    ] or (stripes[0].first == "Foundation")
    assert sum(s.metres for s in stripes) == pytest.approx(sum(row.metres for row in e.rows))


def test_unequal_widths_share_their_bands() -> None:
    bands = matched([2.0, 1.5], Repeat.of([("blue", 9), ("sand", 6)]), 3)
    assert [band.rows for band in bands] == [4, 3, 4]
    for band, run in zip(bands, (9, 6, 9), strict=True):
        assert [run - d for d in band.discard] == pytest.approx([band.rows * 2.0, band.rows * 1.5])
    with pytest.raises(YarnError, match="too short for one row"):
        matched([10.0], Repeat.of([("blue", 9)]), 1)


def test_a_typed_sequence() -> None:
    read = typed("deep blue 3 m, shingle grey 1,5 m; rust: 80 cm")
    assert [(run.colour, run.metres) for run in read.runs] == [("deep blue", 3.0), ("shingle grey", 1.5), ("rust", 0.8)]
    for bad in ("blue", "3 m", "blue -3 m", "", "blue 0 m"):
        with pytest.raises(YarnError):
            typed(bad)


def test_sums_over_a_repeat() -> None:
    runs = SEQ.between(3.0, 3.0 + 5 * SEQ.metres)
    assert runs == pytest.approx({"blue": 35, "sand": 25, "rust": 20, "moss": 30})
    assert all(a < b for a, b in pairwise(SEQ.ends))
    assert [colour for _, colour in thirds(66.0, SEQ)] == ["blue", "blue", "blue"]
