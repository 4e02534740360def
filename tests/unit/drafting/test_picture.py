"""The picture: well-formed, the same twice, both outlines in it; and the account for programs."""

import xml.etree.ElementTree as ET

import pytest

from hookwright.drafting import draft
from hookwright.drafting.account import account
from hookwright.drafting.picture import picture

GAUGE = "14 dc and 7 rows = 10 cm"


@pytest.mark.parametrize(
    "name, asked",
    [
        ("bevelled-strip", {"width": 24.0, "length": 170.0}),
        ("circle", {"diameter": 20.0}),
        ("sphere", {"diameter": 20.0}),
        ("hat", {"sizes": "46 (52, 58) cm"}),
        ("raglan", {"neck": 50.0, "chest": 96.0, "arm": 32.0, "depth": 22.0}),
    ],
)
def test_drawn(name: str, asked: dict[str, str | float]) -> None:
    made = draft(name, GAUGE, asked)
    svg = picture(made)
    assert svg == picture(draft(name, GAUGE, asked))
    root = ET.fromstring(svg)
    polygons = [e for e in root.iter() if e.tag.endswith("polygon")]
    assert len(polygons) == 2 * len(made.views)
    assert sum("stroke-dasharray" in e.attrib for e in polygons) == len(made.views)


def test_account() -> None:
    told = account(draft("rectangle", GAUGE, {"width": 24.0, "length": 30.0}))
    assert told["schema"] == "hookwright/draft/1"
    assert told["sizes"][0]["counted"] == "34 dc"
    assert set(told) == {"schema", "family", "sizes", "views", "notes", "limited"}
