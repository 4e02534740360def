"""What is put together stands put together in the files: motifs in their places, a body on its base, the rest beside."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import shape, to_glb, to_obj
from hookwright.shaping.standing import standings
from hookwright.working import work

from .test_files import parts_of

SQUARE = (
    "Gauge: 16 sc and 20 rows = 10 cm\n\n## {name} (make {n})\nCh 17.\nRow 1: Sc in 2nd ch from hook and in each ch across. (16 sc)\n"
    "Rows 2-20: Ch 1, turn, sc in each st across. (16 sc)\nFasten off.\n\n"
)
BLANKET = SQUARE.format(name="Square", n=12) + "## Finishing\nJoin 12 squares in 4 rows of 3.\n"


def test_motifs_are_one_mesh_in_all_their_places() -> None:
    document, _ = parts_of(to_glb(shape(measure(work(read(BLANKET))))))
    assert len(document["meshes"]) == 1
    nodes = document["nodes"]
    assert [node["mesh"] for node in nodes] == [0] * 12
    places = np.array([node.get("translation", [0.0, 0.0, 0.0]) for node in nodes])
    assert sorted({round(x, 3) for x in places[:, 0]}) == pytest.approx([0.0, 0.1, 0.2], abs=0.002)  # 10 cm squares, in metres
    assert sorted({round(y, 3) for y in places[:, 1]}) == pytest.approx([0.0, 0.1, 0.2, 0.3], abs=0.002)


def test_the_whole_blanket_is_as_large_in_obj() -> None:
    lines = to_obj(shape(measure(work(read(BLANKET))))).decode().splitlines()
    points = np.array([[float(x) for x in line.split()[1:]] for line in lines if line.startswith("v ")])
    assert np.ptp(points[:, 0]) == pytest.approx(30, rel=0.05)
    assert np.ptp(points[:, 1]) == pytest.approx(40, rel=0.05)
    assert sum(line.startswith("o ") for line in lines) == 12


def test_a_part_joined_to_nothing_stands_beside() -> None:
    text = BLANKET.replace(
        "## Finishing",
        "## Strap\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in each st.\n\n## Finishing",
    )
    found = standings(shape(measure(work(read(text)))))
    assert [(part.name, len(part.at)) for part in found] == [("Square", 12), ("Strap", 1)]
    assert found[1].at[0, 0] > 30


def test_a_body_worked_on_from_its_base_is_one_piece() -> None:
    text = (
        "Gauge: 16 sc and 18 rounds = 10 cm\n\n## Base\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
        "Rnd 3: [sc in next st, 2 sc in next st] 6 times. (18)\nRnd 4: [sc in next 2 sts, 2 sc in next st] 6 times. (24)\n\n"
        "## Body\nRnds 5-12: Sc in each st around. (24)\nFasten off.\n"
    )
    found = standings(shape(measure(work(read(text)))))
    assert len(found) == 1 and "Base" in found[0].name and "Body" in found[0].name
    height = max(float(np.ptp(mesh.points[:, 1])) for mesh in found[0].meshes)
    assert height > 3  # 8 rounds of 0.56 cm stand up
