"""Edgings that tell one side and leave the others to be worked alike: read, and nobody counts what lies there."""

import pytest

from hookwright.pattern import Make
from hookwright.reading import read
from hookwright.working import work

MAT = "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\nRows 2-6: Ch 1, sc in each sc across, turn. (8 sc)\n"


@pytest.mark.parametrize(
    "words",
    [
        "Border: Work 6 sc evenly along first side, 3 sc in corner, work across other short side in same manner to corner, join.",
        "Border: Sc evenly along side, 3 sc in corner, continue around alike, join.",
        "Border: 2 sc in each row end along side, 3 sc in corner, work remaining sides alike.",
        "Border: Sc in each st across top, 3 sc in corner, continue around in like manner, join.",
        "Border: Sc in each st across top, 3 sc in corner, go round the other sides the same, join.",
        "Border: Sc in each st across top, 3 sc in corner, repeat on the other 3 sides, join.",
        "Border: Work 6 sc along side, 3 sc in corner, work other 3 sides to match, join.",
    ],
)
def test_the_other_sides_go_along_the_edge(words: str) -> None:
    pattern = read(f"{MAT}{words}\n")
    last = work(pattern).parts[-1].rows[-1]
    assert (last.read, last.state) == ("whole", "unstated")
    runs = [step for step in last.written.steps if isinstance(step, Make) and step.at.where == "row_end"]
    assert (runs[-1].places, runs[-1].evenly) == ("rest", True)


@pytest.mark.parametrize(
    ("words", "number"),
    [
        ("Ch 12, go back along it in double crochet.", 10),
        ("Ch 11, work back along the chain in sc.", 10),
        ("Ch 12, turn and work back along it in hdc.", 10),
        ("Make a chain of 11 and go back along it with single crochet.", 10),
        ("Ch 13, come back along the ch in treble.", 10),
        ("Ch 11, sc back along it, turn.", 10),
    ],
)
def test_back_along_a_chain(words: str, number: int) -> None:
    (part,) = work(read(f"US terms\n\n{words}\n")).parts
    assert (part.rows[-1].read, part.rows[-1].worked, part.rows[-1].counted.total) == ("whole", "yes", number)
