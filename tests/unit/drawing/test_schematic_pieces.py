"""The schematics of whole patterns, in every size: no label covers another, none runs over the outline, no figure is missing."""

import re
from itertools import combinations
from pathlib import Path

import pytest
from shapely.geometry import LinearRing, box

from hookwright.drawing.schematic import compose
from hookwright.measuring import PartMeasures, measure
from hookwright.reading import read
from hookwright.working import work

ROOT = Path(__file__).parents[3]
WHOLE = sorted([*(ROOT / "examples").rglob("*.md"), *(ROOT / "tests" / "cases" / "reading").glob("*.md")])
OVER_MM = 0.3
"""An outline may run through a label's box no longer than this (a box is a little wider than its letters)."""


def sizes_of(path: Path) -> list[list[PartMeasures]]:
    """Each part in every size, and once more in its last size alone."""
    pattern = read(path.read_text(encoding="utf-8"))
    made = [measure(work(pattern, size=size)) for size in range(pattern.sizes)]
    parts = [[each.parts[i] for each in made if i < len(each.parts)] for i in range(len(made[0].parts))]
    drawn = [part for part in parts if part[0].right_side_outline()]
    return drawn + [part[-1:] for part in drawn if len(part) > 1]


@pytest.mark.parametrize("path", WHOLE, ids=lambda path: path.stem)
def test_labels_keep_clear_of_each_other_and_of_the_outline(path: Path) -> None:
    for parts in sizes_of(path):
        drawing, sheet = compose(parts, names=[str(n) for n in range(len(parts))] if len(parts) > 1 else [])
        assert "nan" not in drawing and "inf" not in drawing.replace("info", "")
        covered = [(a.lines, b.lines) for a, b in combinations(sheet.labels, 2) if a.box.meets(b.box)]
        assert not covered
        drawn = re.search(r'<polygon[^>]*points="([^"]+)"', sheet.marks[0])
        if drawn is None:
            continue
        numbers = [float(number) for number in re.findall(r"-?[0-9.]+", drawn[1])]
        corners = list(zip(numbers[::2], numbers[1::2], strict=True))
        ring = LinearRing(corners)
        for label in sheet.labels:
            room = label.box
            inked = box(room.x, room.y, room.x + room.width, room.y + room.height)
            assert ring.intersection(inked).length <= OVER_MM, label.lines
