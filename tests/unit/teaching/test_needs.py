"""What one needs, in whatever words the maker tells it."""

import pytest

from hookwright.reading import read
from hookwright.teaching.needs import needed

ROWS = "\n\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\nRow 2: Ch 1, sc in each st across. (8 sc)\n"


def told(head: str) -> list[str]:
    return [f"{what}: {which}" if what else which for what, which in needed(read(head + ROWS))]


@pytest.mark.parametrize(
    ("head", "things"),
    (
        (
            "# Quay cloth\n\n## Materials\n\n- two balls of cotton DK\n- 4 mm hook\n\nGauge does not matter.",
            ["Two balls of cotton DK", "4 mm hook"],
        ),
        (
            "Quay cloth\n\n**Yarn:** aran wool, 150 m\n**Hook:** 5 mm\n**Cushion pad:** 40 cm square",
            ["Yarn: aran wool, 150 m", "Hook: 5 mm", "Cushion pad: 40 cm square"],
        ),
        ("# Quay cloth\n\nUS terms. One size. Worsted cotton, two balls. 4 mm (G) hook.", ["Worsted cotton, two balls", "4 mm (G) hook"]),
        (
            "# Quay cloth\n\nYou'll need 90 g of sock yarn, a 3 mm hook and a tapestry needle.",
            ["90 g of sock yarn, a 3 mm hook and a tapestry needle"],
        ),
        ("# Quay cloth\n\nI used half a skein of chunky wool and a 7 mm hook.", ["Half a skein of chunky wool and a 7 mm hook"]),
        (
            "# Quay cloth\n\nMaterials\n\nA = night blue (4 balls)\nB = sand (a few metres)\nsc = single crochet\n4.5 mm hook"
            "\n\nAbout 20 cm wide.",
            ["A = night blue (4 balls)", "B = sand (a few metres)", "4.5 mm hook"],
        ),
    ),
)
def test_the_things_are_told_as_the_maker_tells_them(head: str, things: list[str]) -> None:
    assert told(head) == things


def test_what_is_work_or_gauge_is_not_needed() -> None:
    found = told("# Quay cloth\n\n16 sc and 18 rows to 10 cm with a 4 mm hook. Leave a tail of 8 cm of yarn when you cut. Hook: 4 mm.")
    assert not any("tail" in one or "10 cm" in one for one in found)
    assert any("4 mm" in one for one in found)
