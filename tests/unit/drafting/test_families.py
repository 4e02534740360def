"""Every family: what is drafted proofs clean, reads back the same, and comes out at the size asked."""

import itertools

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hookwright.drafting import Draft, Refused, custom_of, draft, families
from hookwright.drafting.fit import misfit
from hookwright.pattern import Gauge
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work
from hookwright.writing import PLAIN, write

ASKED: dict[str, dict[str, str | float]] = {
    "rectangle": {"width": 24.0, "length": 30.0},
    "bevelled-strip": {"width": 24.0, "length": 170.0},
    "trapezium": {"width": 40.0, "top": 20.0, "length": 30.0},
    "triangle": {"width": 60.0, "depth": 40.0},
    "kite": {"width": 30.0, "length": 60.0},
    "mitred-corner": {"side": 20.0},
    "crescent": {"length": 150.0, "depth": 35.0},
    "wing": {"length": 160.0, "depth": 40.0},
    "bias": {"width": 30.0, "length": 40.0},
    "polygon": {"points": "0 0, 20 0, 30 15, 20 40, 5 40, -4 20 cm"},
    "path": {"d": "M0 0 C 2 0 5 2 5 5 S 4 9 0 10 Q -3 6 -2 4 Z", "width": 40.0},
    "circle": {"diameter": 20.0},
    "oval": {"width": 12.0, "length": 24.0},
    "square": {"side": 16.0},
    "hexagon": {"side": 10.0},
    "octagon": {"side": 8.0},
    "round-triangle": {"side": 18.0},
    "tube": {"girth": 50.0, "length": 20.0},
    "cone": {"girth": 40.0, "height": 18.0},
    "sphere": {"diameter": 12.0},
    "egg": {"length": 14.0, "girth": 34.0},
    "profile": {"pairs": "0 0, 1 12, 8 30, 14 12 cm"},
    "sleeve": {"cuff": 20.0, "upper-arm": 32.0, "length": 40.0, "cap": 12.0},
    "back": {"width": 50.0, "length": 36.0, "armhole": 20.0},
    "v-neck-front": {"width": 50.0, "length": 36.0, "armhole": 20.0},
    "round-yoke": {"neck": 50.0, "yoke": 110.0, "depth": 22.0, "arm": 32.0},
    "raglan": {"neck": 50.0, "chest": 96.0, "arm": 32.0, "depth": 22.0},
    "hat": {"sizes": "46 (52, 58) cm"},
    "mitten": {"sizes": "15 (18, 21) cm"},
}


def faults(made: Draft) -> list[str]:
    """What proofing finds above a note in the pattern as written and read again, and rows that read back otherwise."""
    text = write(made.pattern, style=PLAIN).text
    again = read(text)
    direct = [work(made.pattern, size=size) for size in range(made.pattern.sizes)]
    back = [work(again, size=size) for size in range(made.pattern.sizes)]
    found = [f"{f.row}: {f.message}" for f in proof(again, back) if f.severity != "note"]
    for one, other in zip(direct, back, strict=True):
        counts = [[[row.counted.total for row in part.rows if not row.foundation] for part in fabric.parts] for fabric in (one, other)]
        if counts[0] != counts[1]:
            found.append("reads back otherwise")
    return found


def test_every_family_is_asked() -> None:
    assert set(ASKED) == set(families())


@pytest.mark.parametrize("turning", [None, "3 counts"])
@pytest.mark.parametrize("name", list(ASKED))
def test_proofs_clean(name: str, turning: str | None) -> None:
    try:
        made = draft(name, "14 dc and 8 rows = 10 cm", ASKED[name], turning_chain=turning)
    except Refused as refusal:
        assert turning and "count" in refusal.sentence
        return
    assert faults(made) == []


@pytest.mark.parametrize("name", list(ASKED))
def test_in_spiral_sc_and_reads_in_uk_terms(name: str) -> None:
    made = draft(name, "20 sc and 22 rows = 10 cm", ASKED[name])
    assert faults(made) == []
    uk = read(write(made.pattern, terms="UK", style=PLAIN).text)
    size = made.pattern.sizes - 1
    here, there = work(made.pattern, size=size), work(uk, size=size)
    assert [r.counted.total for p in here.parts for r in p.rows] == [r.counted.total for p in there.parts for r in p.rows]


gauges = st.builds(
    lambda stitch, sts, ratio: Gauge(stitch=stitch, stitches=sts, rows=max(3.0, min(50.0, round(sts / ratio, 1)))),
    st.sampled_from(["sc", "hdc", "dc", "tr"]),
    st.integers(60, 400).map(lambda n: n / 10),
    st.floats(0.8, 2.6),
)


@given(gauges, st.floats(5, 150), st.floats(5, 150), st.sampled_from(["rectangle", "trapezium", "triangle", "kite", "bias"]))
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_straight_shapes_of_any_size(gauge: Gauge, across: float, along: float, name: str) -> None:
    asked: dict[str, str | float] = {"width": across, "length": along, "top": across * 0.6, "depth": along}
    known = families()[name]
    try:
        made = draft(name, custom_of(gauge), {k: v for k, v in asked.items() if k in known.lengths})
    except Refused:
        return
    assert faults(made) == []
    assert made.fit <= 1.02 or made.limited
    assert misfit(made.views[0], made.custom) <= 2.0 or made.limited


@given(gauges, st.floats(6, 60), st.sampled_from(["circle", "sphere", "square", "hexagon"]))
@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_rounds_of_any_size(gauge: Gauge, size: float, name: str) -> None:
    asked: dict[str, str | float] = {"diameter": size, "side": size}
    known = families()[name]
    try:
        made = draft(name, custom_of(gauge), {k: v for k, v in asked.items() if k in known.lengths})
    except Refused:
        return
    assert faults(made) == []


def test_the_strip_faces_itself() -> None:
    """Both bevels on one edge: edge A stands still, and every shaping lies at edge B, at the end of odd rows and the beginning of even."""
    made = draft("bevelled-strip", "14 dc and 7 rows = 10 cm", {"width": 24.0, "length": 170.0})
    lefts = {round(x, 6) for x, _ in made.views[0].obtained[len(made.views[0].obtained) // 2 :]}
    assert lefts == {0.0}


def test_rows_are_gathered() -> None:
    text = write(draft("bevelled-strip", "14 dc and 7 rows = 10 cm", {"width": 24.0, "length": 170.0}).pattern, style=PLAIN).text
    rows = [line.split(": ", 1)[1] for line in text.splitlines() if line.startswith("Row")]
    assert len(rows) <= 12
    assert all(a.split(" — ")[0] != b.split(" — ")[0] for a, b in itertools.pairwise(rows))


@pytest.mark.parametrize(
    "name, asked, told",
    [
        ("triangle", {"depth": 12.0, "start": "middle"}, "Rows 2-6: Ch 2, 3 dc in first st, dc in each st to center st, 5 dc in "),
        ("mitred-corner", {"side": 12.0}, "Rows 2-8: Ch 2, dc in each st to 2 sts before center st, dc5tog, "),
    ],
)
def test_rows_that_bend_are_told_once(name: str, asked: dict[str, str | float], told: str) -> None:
    """The middle stitch is named, not counted out: one row serves all, with what each gains or loses beside the last count."""
    made = draft(name, "14 dc and 7 rows = 10 cm", asked)
    text = write(made.pattern, style=PLAIN).text
    assert told in text and "creased in each row, " in text
    assert faults(made) == []


def test_the_smallest_hat_may_end_with_its_crown() -> None:
    """Rounds that the smallest size does not have are told for the others only."""
    made = draft("hat", "20 dc and 4 rows = 10 cm", {"sizes": "32 (40, 60) cm", "ease": 2.0})
    text = write(made.pattern, style=PLAIN).text
    assert "(size" in text and "only)" in text and not made.limited
    assert faults(made) == []


def test_staggered_unless_asked() -> None:
    apart = draft("circle", "20 sc and 21 rows = 10 cm", {"diameter": 12.0})
    stacked = draft("circle", "20 sc and 21 rows = 10 cm", {"diameter": 12.0}, stacked=True)
    assert write(apart.pattern).text != write(stacked.pattern).text
    assert any("corners" in note for note in stacked.notes)


def test_the_last_row_shows_the_side_asked() -> None:
    for last, odd in (("right-side", 1), ("wrong-side", 0)):
        made = draft("rectangle", "14 dc and 7 rows = 10 cm", {"width": 24.0, "length": 31.0}, last=last)  # type: ignore[arg-type]
        assert int(made.sizes[1].counted.split()[0]) % 2 == odd


@pytest.mark.parametrize("kind, repeat, edge", [("mesh", 2, 1), ("v-stitch", 3, 2), ("shells", 6, 1), ("ripple", 14, 0)])
@pytest.mark.parametrize("turning", [None, "3 counts"])
def test_multiples_are_kept(kind: str, repeat: int, edge: int, turning: str | None) -> None:
    made = draft("rectangle", "14 dc and 7 rows = 10 cm", {"width": 50.0, "length": 20.0, "pattern": kind}, turning_chain=turning)
    assert (int(made.sizes[0].counted.split()[0]) - edge) % repeat == 0
    assert abs(made.sizes[0].off_steps) <= 0.5 + 1e-9
    assert faults(made) == []


def test_a_multiple_of_her_own_is_kept_in_plain_rows() -> None:
    made = draft("rectangle", "14 dc and 7 rows = 10 cm", {"width": 50.0, "length": 20.0, "multiple": "6 x X + 3"})
    assert (int(made.sizes[0].counted.split()[0]) - 3) % 6 == 0
    assert abs(made.sizes[0].off_steps) <= 0.5
    assert faults(made) == []


def test_an_ease_may_be_nothing_or_less() -> None:
    girths = [
        draft("hat", "14 dc and 7 rows = 10 cm", {"sizes": "52 (58) cm", "ease": ease}).sizes[0].cm for ease in ("2 cm", "0 cm", "-2 cm")
    ]
    assert girths == sorted(set(girths))


@pytest.mark.parametrize("sizes", ["13.7 (21.8) cm", "32.8 (36.7, 43.4, 47.9, 53.1, 60.4) cm"])
@pytest.mark.parametrize("name", ["hat", "mitten"])
def test_rounds_numbered_by_size_read_back(name: str, sizes: str) -> None:
    """Two sizes ("Rnd 22 (35)"), and one round in some sizes where others have several ("Rnds 6 (6-7, 6-9)")."""
    try:
        made = draft(name, "7.9 dc and 4 rows = 10 cm", {"sizes": sizes})
    except Refused as refusal:
        assert name == "hat" and "crown begins" in refusal.sentence
        return
    assert faults(made) == []


@pytest.mark.parametrize("gauge", ["15 dc and 12 rows = 10 cm", "20 dc and 15.3 rows = 10 cm", "23.4 dc and 9.2 rows = 10 cm"])
@pytest.mark.parametrize("name", ["kite", "bias", "crescent", "wing", "path"])
def test_steep_edges_keep_within_half_a_stitch_and_half_a_row(name: str, gauge: str) -> None:
    """Edges that run out by several stitches a row reach their tips, because the rows are laid so that a tip lies in the middle of one."""
    flat: dict[str, dict[str, str | float]] = {
        "kite": {"width": 90.0, "length": 44.0},
        "bias": {"width": 47.0, "length": 83.0},
        "crescent": {"length": 120.0, "depth": 36.0},
        "wing": {"length": 57.0, "depth": 150.0, "sweep": "gentle"},
        "path": {**ASKED["path"], "width": 120.0, "length": 90.0},
    }
    made = draft(name, gauge, flat[name])
    assert made.fit <= 1.02
    assert faults(made) == []


@pytest.mark.parametrize("name", ["square", "hexagon", "octagon", "round-triangle"])
@pytest.mark.parametrize("gauge", ["7.5 hdc and 33 rows = 10 cm", "20 sc and 22 rows = 10 cm", "30 dc and 9 rows = 10 cm"])
def test_corners_stand_straight_above_each_other(name: str, gauge: str) -> None:
    """The middle of every corner group stands on the middle of the corner below, so that the sides of the figure stay straight."""
    from hookwright.measuring import measure
    from hookwright.measuring.corners import fans_of

    made = draft(name, gauge, {"side": 24.0})
    part = work(made.pattern).parts[0]
    below = None
    for lower, upper in itertools.pairwise(row.stitches for row in part.rows):
        if fans := fans_of(upper, lower):
            if below:
                order = list(lower.counted())
                middle = sum(order.index(e) for e in range(below.first, below.last + 1) if e in order) / below.stitches
                stands = sorted(
                    {order.index(at) for i in range(fans[0].first, fans[0].last + 1) for _, at, _ in upper.feet_of(i) if at in order}
                )
                if fans[0].first <= fans[0].last and below.first <= below.last:
                    assert abs(sum(stands) / len(stands) - middle) <= 1.0
            below = fans[0]
        else:
            below = None
    rounds = measure(work(made.pattern)).parts[0].rounds
    assert rounds is not None and rounds.lies == "flat"


def test_open_ends_have_the_girth_asked() -> None:
    made = draft("cone", "20 sc and 10 rows = 10 cm", {"girth": 60.0, "height": 6.0, "top": 20.0})
    counts = [row.counted.total for row in work(made.pattern).parts[0].rows if not row.foundation and row.counted.total]
    assert abs(counts[0] * 0.5 - 20.0) <= 0.25 and abs(counts[-1] * 0.5 - 60.0) <= 0.25


def test_a_round_that_begins_with_a_decrease_beside_a_counted_chain() -> None:
    made = draft("sphere", "14 dc and 8 rows = 10 cm", {"diameter": 20.0}, turning_chain="3 counts")
    assert "does not count" in write(made.pattern, style=PLAIN).text
    assert faults(made) == []
