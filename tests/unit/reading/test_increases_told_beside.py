"""Increases told beside a run, counts told of the round, and how many rows there are in all: whole small pieces with their counts."""

import pytest

from hookwright.proofing import proof
from hookwright.reading import read
from hookwright.working import work

RING = "Rnd 1: 12 sc in magic ring. (12)\n"
PLAIN = "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\nRow 2: Ch 1, turn, sc across. (11 sc)\n"


def _told(text: str) -> tuple[list[int], list[str]]:
    pattern = read(text)
    fabric = work(pattern)
    rows = [row for part in fabric.parts for row in part.rows if not row.foundation]
    assert all(row.worked == "yes" and row.read == "whole" for row in rows)
    return [row.counted.total for row in rows], [f.message for f in proof(pattern, (fabric,)) if f.severity != "note"]


@pytest.mark.parametrize(
    ("words", "total"),
    [
        ("Sc around with 4 increases evenly spaced", 16),
        ("Sc around, with four incs spaced evenly around", 16),
        ("Sc around, having 4 increases evenly spaced", 16),
        ("Sc in each st around with 4 increases", 16),
        ("Work in sc with 6 decreases evenly placed", 6),
        ("Sc around, 2 sc in every 3rd sc", 16),
        ("Sc around, making 2 sc in each 3rd stitch", 16),
        ("2 sc in every 2nd sc around", 18),
        ("2 sc in every 4th st around", 15),
    ],
)
def test_increases_told_beside_the_run(words: str, total: int) -> None:
    assert _told(f"{RING}Rnd 2: {words}. ({total})") == ([12, total], [])


@pytest.mark.parametrize(("total", "made"), [(18, 18), (12, 12)])
def test_the_count_says_whether_those_between_are_worked(total: int, made: int) -> None:
    text = f"Rnd 1: Ch 3 (counts as dc), 11 dc in magic ring, join. (12 dc)\nRnd 2: 2 dc in every 2nd dc around. ({total} dc)"
    assert _told(text) == ([12, made], [])


@pytest.mark.parametrize(
    "words",
    ["; 24 sc in all in this round", ", 24 sc in the round", ": 24 sc on the round", ", making 24 sc in all", "; 24 sc on this round"],
)
def test_a_count_told_of_the_round_is_no_work(words: str) -> None:
    assert _told(f"{RING}Rnd 2: 2 sc in each st{words}.") == ([12, 24], [])


def test_stitches_told_for_a_ring_are_work() -> None:
    assert _told("Ch 4, join in ring.\nRnd 1: Ch 1, 6 sc, 2 sc in the ring. (8)") == ([8], [])


@pytest.mark.parametrize(
    "words",
    [
        "Repeat row 2.\n16 rows in total.",
        "Repeat row 2. (16 rows in total)",
        "Repeat row 2, working 16 rows in all.",
        "Repeat row 2 for a total of 16 rows.",
        "Repeat row 2. You should have 16 rows altogether.",
    ],
)
def test_how_many_rows_in_all(words: str) -> None:
    assert _told(PLAIN + words) == ([11] * 16, [])
