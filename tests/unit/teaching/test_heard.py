"""Spoken words held against the rows."""

import pytest

from hookwright.reading import read
from hookwright.teaching import CannotHear, compare, read_captions
from hookwright.working import Fabric, work

PIECE = """US terms

Ch 14.
Row 1: Dc in 4th ch from hook (skipped 3 ch count as dc), dc in each ch across. (12 dc)
Row 2: Ch 3 (counts as dc), turn, dc in each st across. (12 dc)
Row 3: Ch 3 (counts as dc), turn, 2 dc in next st, dc in each st across. (13 dc)
Rows 4-9: Rep Row 2. (13 dc)
Row 10: Ch 1 (does not count as st), turn, sc in each st across. Fasten off. (13 sc)
"""
RIGHT = (
    "0:00 Hello everybody and welcome to my little workshop by the harbour.",
    "0:05 Row one, double crochet in the fourth chain from the hook and across, you should have twelve stitches.",
    "0:40 Row two, chain three, turn and double crochet in each stitch across, that's twelve double crochet.",
    "1:10 Row three, double crochet, two in the next stitch, you now have thirteen double crochet.",
    "1:50 Rows four to nine are the same double crochet again, you have thirteen stitches.",
    "2:20 Row ten, single crochet in each stitch across, you have thirteen single crochet. Fasten off.",
)


@pytest.fixture(scope="module")
def fabric() -> Fabric:
    return work(read(PIECE))


def heard(fabric: Fabric, *lines: str) -> list[tuple[str, str]]:
    return [(h.kind, h.row) for h in compare(fabric, read_captions("\n".join(lines)))]


def changed(k: int, line: str) -> tuple[str, ...]:
    return (*RIGHT[:k], line, *RIGHT[k + 1 :])


def test_what_is_said_rightly_raises_no_alarm(fabric: Fabric) -> None:
    assert heard(fabric, *RIGHT) == []


@pytest.mark.parametrize(
    ("k", "line", "slip"),
    (
        (2, "0:40 Row two, chain three, turn and double crochet across, that's fourteen double crochet.", ("count", "Row 2")),
        (
            2,
            "0:40 roe to chain three turn and double crow shay across you have for teen stitches you have fifteen stitches",
            ("count", "Row 2"),
        ),
        (5, "2:20 Row twelve, single crochet in each stitch across, you have thirteen single crochet.", ("row", "Row 10")),
        (3, "1:10 Row three, treble crochet, two in the next stitch, you now have thirteen stitches.", ("dialect", "Row 3")),
        (5, "2:20 And that is the end of it, well done.", ("row never said", "Row 10")),
    ),
)
def test_planted_slips_are_heard(fabric: Fabric, k: int, line: str, slip: tuple[str, str]) -> None:
    found = compare(fabric, read_captions("\n".join(changed(k, line))))
    assert slip in [(h.kind, h.row) for h in found]
    said = next(h for h in found if (h.kind, h.row) == slip)
    minutes, seconds = line.split()[0].split(":")
    assert said.at is None or abs(said.at - int(minutes) * 60 - int(seconds)) <= 5


def test_rolling_captions_are_said_once(fabric: Fabric) -> None:
    doubled = [line for pair in zip(RIGHT, RIGHT, strict=True) for line in pair]
    assert heard(fabric, *doubled) == []


@pytest.mark.parametrize("text", ("", "no times here", "0:01 Guten Tag\n0:05 heute ist es schoen\n"))
def test_what_cannot_be_used_is_one_sentence(fabric: Fabric, text: str) -> None:
    with pytest.raises(CannotHear) as why:
        compare(fabric, read_captions(text))
    assert str(why.value).endswith((".", "?"))
