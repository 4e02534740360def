"""GLB and OBJ files read back by a library that is not ours (trimesh): units, bounds, closed yarn, normals, every copy in its place."""

from __future__ import annotations

import io

import numpy as np
import pytest
import trimesh

from hookwright.measuring import measure
from hookwright.reading import read
from hookwright.shaping import Shape, shape, to_glb, to_obj
from hookwright.shaping.standing import standings
from hookwright.working import work

PIECES = {
    "panel in two colours": (
        "Ch 17.\nRow 1: With A, sc in 2nd ch from hook and in each ch across. (16 sc)\n"
        "Rows 2-9: Ch 1, turn, sc in each st across. (16 sc)\n"
        "Row 10: With B, ch 1, turn, sc in each st across. (16 sc)\n"
    ),
    "ball": (
        "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\nRnd 3: [sc in next st, 2 sc in next st] 6 times. (18)\n"
        "Rnds 4-6: Sc in each st around. (18)\nRnd 7: [sc in next st, sc2tog] 6 times. (12)\nRnd 8: [sc2tog] 6 times. (6)\n"
    ),
    "blanket": (
        "## Square (make 6)\nCh 17.\nRow 1: Sc in 2nd ch from hook and in each ch across. (16 sc)\n"
        "Rows 2-18: Ch 1, turn, sc in each st across. (16 sc)\nFasten off.\n\n## Joining\nSew 6 squares in 2 rows of 3.\n"
    ),
    "bag": (
        "## Panel\nCh 17.\nRow 1: Sc in 2nd ch from hook and in each ch across. (16 sc)\n"
        "Rows 2-30: Ch 1, turn, sc in each st across. (16 sc)\nFasten off.\n\nFold in half and seam sides.\n"
    ),
}  # fmt: skip


@pytest.fixture(scope="module", params=PIECES)
def shaped(request: pytest.FixtureRequest) -> Shape:
    return shape(measure(work(read("US terms\nGauge: 16 sc and 18 rows = 10 cm\n\n" + PIECES[request.param]))))


def bounds_cm(shaped: Shape) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Least and greatest corner of everything shown, by our own meshes."""
    corners = [mesh.points + place for each in standings(shaped) for mesh in each.meshes for place in each.at]
    return np.array([np.min([c.min(axis=0) for c in corners], axis=0), np.max([c.max(axis=0) for c in corners], axis=0)])


def test_glb_is_in_metres_and_as_large_as_the_piece(shaped: Shape) -> None:
    scene = trimesh.load_scene(io.BytesIO(to_glb(shaped)), file_type="glb")
    assert scene.units == "meters"
    assert scene.bounds == pytest.approx(bounds_cm(shaped) / 100, abs=2e-6)
    assert len(scene.graph.nodes_geometry) == sum(len(each.at) * len(each.meshes) for each in standings(shaped))


def test_obj_has_the_same_shape_in_centimetres(shaped: Shape) -> None:
    mesh = trimesh.load_mesh(io.BytesIO(to_obj(shaped)), file_type="obj", process=False)
    assert mesh.bounds == pytest.approx(bounds_cm(shaped), abs=2e-4)
    assert len(mesh.faces) == sum(len(each.at) * sum(len(m.faces) for m in each.meshes) for each in standings(shaped))


def test_yarn_is_closed_and_faces_outward(shaped: Shape) -> None:
    scene = trimesh.load_scene(io.BytesIO(to_glb(shaped)), file_type="glb", process=False)
    for mesh in scene.geometry.values():
        assert mesh.is_watertight and mesh.is_winding_consistent
        assert mesh.volume > 0
        apart = mesh.face_adjacency_angles  # no face lies doubled back on its neighbour
        assert np.isfinite(apart).all()


def test_normals_point_away_from_the_yarn(shaped: Shape) -> None:
    scene = trimesh.load_scene(io.BytesIO(to_glb(shaped)), file_type="glb", process=False)
    for mesh in scene.geometry.values():
        told = mesh.vertex_normals
        assert np.linalg.norm(told, axis=1) == pytest.approx(1.0, abs=1e-3)
        facing = (told[mesh.faces].mean(axis=1) * mesh.face_normals).sum(axis=1)
        sides = facing[mesh.area_faces > 1e-12]
        assert np.mean(sides > 0.3) > 0.6 and np.mean(sides < -0.1) < 0.01  # a tube's two flat ends face along it
