"""An existing pattern changed: it still proofs, and the change is the one asked."""

import pytest

from hookwright.demo import piece
from hookwright.drafting import Draft, Refused, by_repeats, choices_of, draft, graded, largest_for, mirrored_pattern, regauged, table_of
from hookwright.pattern import Pattern
from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work
from hookwright.writing import PLAIN, write

GAUGE = "14 dc and 7 rows = 10 cm"


def written(name: str, asked: dict[str, str | float], gauge: str = GAUGE) -> Pattern:
    return read(write(draft(name, gauge, asked).pattern, style=PLAIN).text)


def clean(pattern: Pattern) -> list[list[int]]:
    """The counts of every row, size by size, after a proof with nothing above a note."""
    again = read(write(pattern, style=PLAIN).text)
    fabrics = [work(again, size=size) for size in range(again.sizes)]
    assert [f.message for f in proof(again, fabrics) if f.severity != "note"] == []
    return [[row.counted.total for part in fabric.parts for row in part.rows if not row.foundation] for fabric in fabrics]


STRIP: dict[str, str | float] = {"width": 24.0, "length": 170.0}


def test_same_size_at_another_gauge() -> None:
    made = regauged(written("bevelled-strip", STRIP), "16 dc and 8 rows = 10 cm")
    counts = clean(made.pattern)[0]
    assert max(counts) == 39 and len(counts) == 136


def test_same_counts_at_another_gauge() -> None:
    before = written("bevelled-strip", STRIP)
    made = regauged(before, "16 dc and 8 rows = 10 cm", keep="counts")
    assert clean(made.pattern) == clean(before)
    assert made.sizes[0].cm == pytest.approx(34 / 1.6)


def test_toy_at_another_gauge_keeps_its_girth() -> None:
    made = regauged(written("sphere", {"diameter": 8.0}, "20 sc and 22 rows = 10 cm"), "26 sc and 28 rows = 10 cm")
    assert max(clean(made.pattern)[0]) == pytest.approx(8 * 3.1416 * 2.6, abs=1)


def test_mirrored_twice_is_the_same() -> None:
    before = written("trapezium", {"width": 40.0, "top": 20.0, "length": 30.0, "lean": "left"})
    once = mirrored_pattern(before)
    twice = mirrored_pattern(read(write(once.pattern, style=PLAIN).text))
    rows = [
        [line.replace(", fasten off", "") for line in write(p, style=PLAIN).text.splitlines() if line.startswith("Row")]
        for p in (before, once.pattern, twice.pattern)
    ]
    assert rows[0] == rows[2] != rows[1]
    assert clean(before) == clean(once.pattern)


@pytest.mark.parametrize("kind, repeat", [("mesh", 2), ("v-stitch", 3), ("shells", 6), ("ripple", 14)])
def test_by_whole_repeats(kind: str, repeat: int) -> None:
    before = written("rectangle", {"width": 60.0, "length": 20.0, "pattern": kind})
    made = by_repeats(before, wider=2, longer=2)
    clean(made.pattern)
    assert made.sizes[0].cm - made.sizes[0].asked_cm == pytest.approx(2 * repeat / 1.4)
    assert made.sizes[1].cm > made.sizes[1].asked_cm


def test_sizes_in_one_text() -> None:
    made = graded(written("rectangle", {"width": 40.0, "length": 60.0}), "38 (42, 46) cm")
    assert "Ch 55 (61, 66)." in write(made.pattern, style=PLAIN).text
    assert [max(counts) for counts in clean(made.pattern)] == [53, 59, 64]


def test_sizes_that_come_out_alike_are_refused() -> None:
    with pytest.raises(Refused, match="come out alike"):
        graded(written("rectangle", {"width": 40.0, "length": 60.0}), "40 (40.1) cm")


def test_to_the_yarn_in_hand() -> None:
    before = written("bevelled-strip", STRIP)
    small, large = largest_for(before, "50 g = 100 m"), largest_for(before, "100 g = 200 m")
    clean(small.pattern)
    assert small.sizes[0].cm < large.sizes[0].cm
    assert any("Half of it is worked at Row" in note for note in large.notes)


def test_a_table_to_print() -> None:
    table = table_of(written("rectangle", {"width": 40.0, "length": 30.0}))
    lines = [line for line in table.splitlines() if line.startswith("|")]
    assert len(lines) >= 8 and all(line.count("|") == 7 for line in lines)
    assert "as written" in table


def test_no_gauge_is_refused() -> None:
    with pytest.raises(Refused, match="states no gauge"):
        mirrored_pattern(read("Ch 12.\nRow 1: Dc in 3rd ch from hook, dc in each ch across, turn. (10 dc)\n"))


SHELLS = """Gauge: 14 dc and 8 rows = 10 cm

Ch 26.
Row 1 (RS): Sc in 2nd ch from hook, [skip 2 ch, 5 dc in next ch, skip 2 ch, sc in next ch] across, turn.
Row 2: Ch 3 (counts as dc), 2 dc in same st, [skip 2 dc, sc in next dc, skip 2 dc, 5 dc in next sc] 3 times, skip 2 dc, sc in next dc, skip 2 dc, 3 dc in last st, turn.
Row 3: Ch 1, sc in first st, [skip 2 dc, 5 dc in next sc, skip 2 dc, sc in next dc] across, turn.
Row 4: Ch 3 (counts as dc), 2 dc in same st, [skip 2 dc, sc in next dc, skip 2 dc, 5 dc in next sc] 3 times, skip 2 dc, sc in next dc, skip 2 dc, 3 dc in last st, turn.
Row 5: Ch 1, sc in first st, [skip 2 dc, 5 dc in next sc, skip 2 dc, sc in next dc] across, turn.
Fasten off.
"""  # noqa: E501

NET = """Gauge: 16 dc and 8 rows = 10 cm

Ch 52.
Row 1: Dc in 6th ch from hook, [ch 1, skip next ch, dc in next ch] across, turn.
Rows 2-20: Ch 4 (counts as dc, ch 1), [dc in next dc, ch 1] across to last st, dc in last st, turn.
Fasten off.
"""

RIBBED = """Gauge: 14 dc and 8 rows = 10 cm

Ch 32.
Row 1 (RS): Dc in 3rd ch from hook and in each ch across, turn. (30 dc)
Row 2: Ch 2, dc2tog, [FPdc in next st, BPdc in next st] to last 2 sts, dc in each of last 2 sts, turn. (29 dc)
Row 3: Ch 2, dc in each st across to last 2 sts, dc2tog, turn. (28 dc)
Rows 4-9: Rep Rows 2 and 3. (22 dc)
Fasten off.
"""


def clean_text(made: Draft) -> str:
    """The text of a changed pattern, which must proof clean."""
    text = write(made.pattern, style=PLAIN).text
    again = read(text)
    fabrics = [work(again, size=size) for size in range(again.sizes)]
    assert [f.message for f in proof(again, fabrics) if f.severity != "note"] == []
    return text


def test_rows_told_one_by_one_come_again() -> None:
    """A stitch pattern whose rows are told one by one grows by the group that comes again, told as a reference."""
    text = clean_text(by_repeats(read(SHELLS), longer=2))
    assert "Rows 4-9: Rep Rows 2 and 3" in text and text.rstrip().endswith("Fasten off.")


def test_five_sizes_of_a_stitch_pattern_are_one_text() -> None:
    made = graded(read(NET), "30 (36, 42, 48, 54) cm")
    assert "Ch 52 (60, 70, 80, 90)." in clean_text(made)
    assert all(abs(size.off_steps) <= 0.5 + 1e-9 for size in made.sizes)


def test_the_mirror_of_a_texture_shows_its_other_side() -> None:
    made = mirrored_pattern(read(RIBBED))
    text = clean_text(made)
    assert "Row 1 (WS)" in text and "* BPdc around next st, FPdc around next st" in text
    for pattern in (SHELLS, NET):
        assert "(WS)" in clean_text(mirrored_pattern(read(pattern)))


def test_the_largest_of_a_stitch_pattern_keeps_its_shape() -> None:
    made = largest_for(read(NET), "100 g = 200 m")
    clean_text(made)
    width, length = (size.cm / size.asked_cm for size in made.sizes)
    assert 1.2 < width < 2.5 and abs(width / length - 1) < 0.2


def test_a_flat_round_is_not_stretched() -> None:
    square = "Gauge: 16 dc and 8 rows = 10 cm\n\nRnd 1: Make a magic ring, 12 dc in ring, join. (12 dc)\nRnd 2: Ch 3, 2 dc in each st around, join. (24 dc)\nRnd 3: Ch 3, [dc in next st, 2 dc in next st] around, join. (36 dc)\n"  # noqa: E501
    for way in ({"wider": 2}, {"longer": 2}):
        with pytest.raises(Refused):
            by_repeats(read(square), **way)


def test_the_table_measures_what_it_lists() -> None:
    lines = table_of(read(NET)).splitlines()
    assert "| as written | 52 | 25 | 20 | 30.6 × 25 cm |" in lines[2]
    assert len(lines) >= 10


@pytest.mark.parametrize(
    "name, asked",
    [
        ("wing", {"length": 120.0, "depth": 35.0}),
        ("kite", {"width": 20.0, "length": 30.0}),
        ("bias", {"width": 12.0}),
        ("triangle", {"width": 60.0, "depth": 25.0, "start": "long-side"}),
        ("triangle", {"width": 60.0, "depth": 25.0, "start": "one-sided"}),
    ],
)
def test_pieces_with_a_point_of_one_stitch_are_drafted_anew(name: str, asked: dict[str, str | float]) -> None:
    """Where a row stands in one stitch, or closes to one, both its ends are the same stitch."""
    before = written(name, asked, "20 sc and 22 rows = 10 cm")
    made = regauged(before, "24 sc and 27 rows = 10 cm")
    clean(made.pattern)
    assert all(abs(size.off_steps) < 1.5 for size in made.sizes)
    assert clean(mirrored_pattern(before).pattern) == clean(before)


SIDEWAYS = read(piece("ebbline-wrap"))
"""Grows at one edge by its rows, in groups of 14, to an edging that wants 4 stitches and one more."""


def test_a_piece_that_grows_with_its_rows_is_regauged_by_them() -> None:
    made = regauged(SIDEWAYS, "18 dc and 9 rows = 10 cm")
    rows = clean(made.pattern)[0]
    assert len(rows) % 2 == 1 and max(rows) % 4 == 1
    assert made.sizes[0].cm == pytest.approx(made.sizes[0].asked_cm, rel=0.03)
    assert made.sizes[1].cm == pytest.approx(made.sizes[1].asked_cm, rel=0.03)
    assert made.pattern.facts.trims[0].number == (max(rows) - 1) // 4


def test_the_nearest_number_of_repeats_that_works_out_is_offered() -> None:
    with pytest.raises(Refused, match="--longer 2"):
        by_repeats(SIDEWAYS, longer=1)
    with pytest.raises(Refused, match="longer instead: --longer 2"):
        by_repeats(SIDEWAYS, wider=1)
    clean(by_repeats(SIDEWAYS, longer=2).pattern)


def test_sizes_of_a_piece_that_grows_with_its_rows() -> None:
    made = graded(SIDEWAYS, "50 (60, 72) cm")
    widths = [max(counts) for counts in clean(made.pattern)]
    assert widths == sorted(widths) and len(set(widths)) == 3
    assert all(abs(size.cm - size.asked_cm) < 4.5 for size in made.sizes)


def test_a_hat_without_repeats_is_not_said_to_keep_its_size() -> None:
    with pytest.raises(Refused, match="in girth"):
        regauged(read(piece("fogbell-hat")), "13 hdc and 9.3 rows = 10 cm")


def test_choices_are_patterns_that_work_out() -> None:
    told = choices_of(SIDEWAYS)
    assert told.lines[0].way.told("US") == "as written" and told.lines[0].stitches == 113
    assert [line.rows for line in told.lines if line.way.words.endswith("longer")] == [141, 169]
    assert any("15 tr and 7.5 rows" in line.way.told("UK") for line in told.lines)
    assert all(line.yarn_m for line in told.lines)
    assert told.left_out("US") == ("wider: Row 1 has nothing in it that could be made wider.",)


COWL = read(
    """---
title: Tide cowl
terms: US
gauge:
  - {in: dc, stitches: 15, rows: 8, over: "10 cm"}
---
Ch 84, join with sl st in first ch to form a ring.
Rnd 1: Ch 3 (counts as dc), dc in each ch around, join with sl st in top of ch-3. (84 dc)
Rnd 2: Ch 4 (counts as dc and ch 1), skip next st, *dc in next st, ch 1, skip next st; rep from * around, join with sl st in 3rd ch of ch-4.
Rnd 3: Ch 3, dc in next ch-1 sp, *dc in next dc, dc in next ch-1 sp; rep from * around, join with sl st in top of ch-3.
Rnds 4-19: Rep Rnds 2 and 3.
Fasten off.
"""
)
SLEEVE = read(
    """---
title: Heron sleeve
terms: US
gauge:
  - {in: dc, stitches: 16, rows: 8, over: "10 cm"}
turning_chains:
  dc: {chains: 3, counts: true}
---
Ch 46.
Row 1 (RS): Dc in 4th ch from hook and in each ch across. (44 dc)
Row 2: Ch 3, turn, 2 dc in next st, dc in each st to last 2 sts, 2 dc in next st, dc in last st. (46 dc)
Row 3: Ch 3, turn, dc in each st across.
Rows 4-9: Rep Rows 2 and 3. (52 dc)
Rows 10-15: Ch 3, turn, dc2tog, dc in each st to last 3 sts, dc2tog, dc in last st. (40 dc)
Fasten off.
"""
)


def test_what_goes_round_is_sized_by_its_girth() -> None:
    """A cowl lies double: its sizes are girths, and two repeats wider are two repeats round it."""
    made = graded(COWL, "50 (56, 62) cm")
    assert [max(counts) for counts in clean(made.pattern)] == [76, 84, 94]
    assert all(size.what.endswith("girth") and abs(size.off_steps) <= 0.51 for size in made.sizes)
    wider = by_repeats(COWL, wider=2)
    assert (wider.sizes[0].what, round(wider.sizes[0].off_steps, 6), wider.sizes[0].counted) == ("girth", 2.0, "88 sts")


def test_shaping_a_stitch_in_from_the_edge_is_shaping_at_the_edge() -> None:
    made = regauged(SLEEVE, "18 dc and 10 rows = 10 cm")
    clean(made.pattern)
    assert all(abs(size.off_steps) <= 0.5 for size in made.sizes) and "stitch or two in" in made.report()
    assert "dc2tog, dc in last st" in write(mirrored_pattern(SLEEVE).pattern, style=PLAIN).text


def test_a_ball_in_sizes_stays_a_ball() -> None:
    made = graded(written("sphere", {"diameter": 6.0}, "20 sc and 22 rows = 10 cm"), "14 (20) cm")
    round_it, up = [size.cm for size in made.sizes[::2]], [size.cm for size in made.sizes[1::2]]
    assert up[1] / up[0] == pytest.approx(round_it[1] / round_it[0], rel=0.1)


BACK = read(
    """---
title: Jetty back
terms: US
sizes: {names: [S, M]}
gauge:
  - {in: hdc, stitches: 14, rows: 11, over: "10 cm"}
---
Ch 58 (64).
Row 1 (RS): Hdc in 3rd ch from hook and in each ch across. [56 (62) hdc]
Rows 2-20 (2-22): Ch 2 (does not count), turn, hdc in each st across.
Next row: Sl st in first 4 sts, ch 2, hdc in each st to last 4 sts, leave rest unworked, turn. [48 (54) hdc]
Next 8 (9) rows: Ch 2, hdc in each st across, turn.
Fasten off.
"""
)


def test_every_size_goes_to_another_gauge_and_to_the_other_side() -> None:
    for made in (regauged(BACK, "18 hdc and 10 rows = 10 cm"), mirrored_pattern(BACK)):
        assert made.pattern.sizes == 2 and len(made.pattern.parts) == 1
        small, large = clean(made.pattern)
        assert max(small) < max(large) and len(small) < len(large)
    clean(regauged(BACK, "18 hdc and 10 rows = 10 cm", keep="counts").pattern)
    with pytest.raises(Refused, match="only one is grown"):
        largest_for(BACK, "100 g = 200 m")
