"""An existing pattern changed: it still proofs, and the change is the one asked."""

import pytest

from hookwright.drafting import Refused, by_repeats, draft, graded, largest_for, mirrored_pattern, regauged, table_of
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
