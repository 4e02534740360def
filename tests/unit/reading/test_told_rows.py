"""Rows, each in words of its own, on a row that is known: read whole, worked without trouble, so many stitches in the last.

A line that begins with ! gives its labels itself, and may tell several rows.

The wordings are ours, after common practice in print and on pages since 1940 (no single source).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from hookwright.pattern import Aside
from hookwright.reading import read
from hookwright.reading.shown import shown
from hookwright.working import work

CASES = Path(__file__).parents[2] / "cases" / "told" / "rows.txt"
RING = "Ch 6, join with sl st to form ring.\n"
BELOW = {
    "sc30": ("Ch 31.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (30 sc)\n", "Row 2"),
    "dc30": ("Ch 32.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (30 dc)\n", "Row 2"),
    "dc24": (RING + "Rnd 1: Ch 3, 23 dc in ring, join. (24 dc)\n", "Rnd 2"),
    "mesh12": (
        RING + "Rnd 1: Ch 1, 12 sc in ring, join. (12 sc)\n"
        "Rnd 2: Ch 5 (counts as dc and ch 2), *dc in next sc, ch 2; repeat from * around, join. (12 dc)\n",
        "Rnd 3",
    ),
    "ring": (RING, "Rnd 1"),
    "petals": (
        RING + "Rnd 1: Ch 6, (dc in ring, ch 3) 5 times, join to 3rd ch of ch-6. (6 dc)\nRnd 2: In each sp work sc, hdc, 3 dc, hdc, sc.\n",
        "Rnd 3",
    ),
    "square": (
        RING + "Rnd 1: Ch 3, 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join. (12 dc)\n"
        "Rnd 2: (Ch 3, dc, ch 2, 2 dc) in same space, * dc in next 3 dc, (2 dc, ch 2, 2 dc) in next ch-2 sp; repeat from * twice more, "
        "dc in next 3 dc, join.\n",
        "Rnd 3",
    ),
    "none": ("", ""),
}
"""What the row stands on, and its label."""


def cases() -> list[tuple[str, str, str]]:
    lines = [line for line in CASES.read_text(encoding="utf-8").splitlines() if line and not line.startswith("#")]
    return [(below, words, stitches) for below, words, stitches in (line.split(" | ") for line in lines)]


@pytest.mark.parametrize(("below", "words", "stitches"), cases())
def test_row_is_read_whole_and_makes_what_it_says(below: str, words: str, stitches: str) -> None:
    before, label = BELOW[below]
    told = words.replace("\\n", "\n")
    text = before + (told.removeprefix("!") if told.startswith("!") else f"{label}: {told}".removeprefix(": "))
    last = [row for part in work(read(f"{text}\n")).parts for row in part.rows][-1]
    total, *kinds = stitches.split()
    assert (last.read, last.worked, last.counted.total) == ("whole", "yes", int(total)), last.troubles
    assert {kind: last.counted.by_kind.get(kind, 0) for kind in kinds[::2]} == dict(zip(kinds[::2], map(int, kinds[1::2]), strict=True))
    assert not [trouble.kind for trouble in last.troubles if trouble.kind != "part-of-repeat"]


def test_there_are_many() -> None:
    assert len(cases()) >= 100


def test_rows_turned_before_rounds_are_rows_however_many_rounds_join() -> None:
    """The border of a mat joins oftener, as it is written, than its one line of rows turns."""
    mat = "Ch 16.\nRow 1: Sc in 2nd ch from hook and in each ch across. (15 sc)\nRows 2-8: Ch 1, turn, sc in each st across. (15 sc)\n"
    first = "Rnd 9: Ch 1{turn}, 3 sc in first st, sc evenly around, join with sl st in first sc.\n"
    for turn, more in ((", turn", ""), ("", "Rnd 10: Ch 1, sc in each st around, join with sl st in first sc.\n")):
        rows = read(mat + first.format(turn=turn) + more).parts[0].rows
        assert {row.made_in for row in rows if row.noun == "row"} == {"rows"}
        assert not {row.made_in for row in rows if row.noun == "round"} & {"rows"}


def test_a_chain_and_a_stitch_behind_units_begun_by_a_chain_go_into_the_same_place() -> None:
    """ "In the same ch, [ch 2, 3 dc] twice, ch 2, 2 dc": the last corner is only half told; a place of its own still keeps it apart."""
    told = "Ch 6.\nRnd 1: 4 dc in 6th ch from hook. In the same ch, [ch 3, 4 dc] 2 times, ch 3, {last}. Join.\n"
    for last, places in (("3 dc", 1), ("dc in next ch", 2)):
        row = read(told.format(last=last)).parts[0].rows[-1]
        steps = shown(row.steps, row.stated)
        assert steps.count("@") == places + 1, steps
    rnd = work(read(told.format(last="3 dc"))).parts[0].rows[-1]
    assert (rnd.read, rnd.worked, rnd.counted.by_kind["dc"]) == ("whole", "yes", 16)


@pytest.mark.parametrize(("words", "trebles"), [("but with 5 tr on each side", 18), ("but 5 tr along each side", 18), ("", 12)])
def test_a_row_as_another_but_with_longer_sides_has_plain_runs_as_long_as_is_told(words: str, trebles: int) -> None:
    kerchief = (
        "Ch 5.\nRow 1: 3 tr in 5th ch from hook, ch 3, 3 tr in same ch, turn.\n"
        "Row 2: Ch 1, 2 tr in first tr, tr in next 2 tr, (2 tr, ch 3, 2 tr) in ch-3 sp, tr in next 2 tr, 2 tr in last tr, turn.\n"
    )
    row = work(read(f"{kerchief}Row 3: As row 2 {words}, fasten off.\n")).parts[0].rows[-1]
    assert (row.read, row.counted.by_kind["tr"]) == ("whole", trebles)


@pytest.mark.parametrize(
    ("words", "cm"),
    [("Hdc in each sc until it measures 4 inches", 10.16), ("Hdc around, both loops, till the cosy is 8 cm high", 8.0)],
)
def test_a_plain_row_until_a_length_is_worked_till_then(words: str, cm: float) -> None:
    row = read(f"{BELOW['sc30'][0]}Row 2: {words}.\n").parts[0].rows[-1]
    assert row.until is not None and row.until.length_cm is not None and row.until.length_cm.values == (cm,)
    assert [type(step).__name__ for step in row.steps if not isinstance(step, Aside)] == ["Make"]
