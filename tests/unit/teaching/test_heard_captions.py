"""Captions in which each line is a phrase, with commas and no full stops."""

import pytest

from hookwright.reading import read
from hookwright.teaching import compare, read_captions
from hookwright.working import Fabric, work

PIECE = """US terms

Each round is joined.

Rnd 1: In a ring, ch 1, 6 sc. (6 sc)
Rnd 2: Ch 1, 2 sc in each st around. (12 sc)
Rnd 3: Ch 1, sc in each st around. (12 sc)
Rnd 4: Ch 1, [sc in next st, 2 sc in next st] 6 times. (18 sc)
Rnd 5: Ch 1, [sc in next 2 sts, 2 sc in next st] 6 times. (24 sc)
Rnd 6: Ch 1, sc in each st around. (24 sc)
Rnd 7: Ch 1, [sc in next 3 sts, 2 sc in next st] 6 times. (30 sc)
"""
LINES = (
    "good evening, this is a little lid for a jar",
    "round one, a ring, chain one and six single crochet in it",
    "six",
    "join, I won't tell you again that we join",
    "round two, chain one, and two single crochet in each stitch",
    "twelve",
    "it curls, let it curl, mine did before",
    "round three, chain one, one single crochet in each stitch, round you go",
    "so twelve again",
    "four, increases, chain one, single crochet in the next stitch, and two in the one after",
    "six times, that's eighteen",
    "five, chain one, single crochet in the next two, two in the one after that",
    "six times, and now we have twenty-four",
    "six is the easy one, chain one and single crochet in each stitch",
    "still twenty-four",
    "and round seven, chain one, single crochet in the next three, two in the one after",
    "six times, that's thirty",
    "second stitch from the end is the best place to cut, fasten off",
)


@pytest.fixture(scope="module")
def fabric() -> Fabric:
    return work(read(PIECE))


def heard(fabric: Fabric, lines: tuple[str, ...]) -> list[tuple[str, str, float | None]]:
    timed = "\n".join(f"{k * 10 // 60}:{k * 10 % 60:02} {line}" for k, line in enumerate(lines))
    return [(h.kind, h.row, h.at) for h in compare(fabric, read_captions(timed))]


def put(k: int, line: str) -> tuple[str, ...]:
    return (*LINES[:k], line, *LINES[k + 1 :])


def test_what_is_said_rightly_raises_no_alarm(fabric: Fabric) -> None:
    assert heard(fabric, LINES) == []


@pytest.mark.parametrize(
    ("k", "line", "slip"),
    (
        (5, "fourteen", ("count", "Rnd 2")),
        (8, "so fourteen", ("count", "Rnd 3")),
        (12, "six times, and now we have twenty-six", ("count", "Rnd 5")),
        (9, "four, increases, chain one, double crochet in the next stitch, and two in the one after", ("dialect", "Rnd 4")),
        (9, "four, increases, chain one, single crochet in the next stitch, and three in the one after", ("number", "Rnd 4")),
        (16, "six times, that's thirty-two", ("count", "Rnd 7")),
    ),
)
def test_each_caption_ends_its_sentence(fabric: Fabric, k: int, line: str, slip: tuple[str, str]) -> None:
    found = heard(fabric, put(k, line))
    assert [one[:2] for one in found] == [slip]
    assert found[0][2] is not None
    assert abs(found[0][2] - 10 * k) <= 5
