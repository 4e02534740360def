"""GLB and OBJ: read back by the formats' own rules."""

import json
import struct

import numpy as np
import pytest
from tests import fabrics

from hookwright.measuring import measure
from hookwright.shaping import Shape, shape, to_glb, to_obj, yarn_mesh


def striped() -> Shape:
    piece = fabrics.Piece().foundation(8)
    for i in range(6):
        piece.row(fabrics.across(8, "dc"), colour="AB"[i // 3])
    return shape(measure(fabrics.fabric(piece.part(), gauge={"dc": (14, 7)})))


def parts_of(glb: bytes) -> tuple[dict[str, list[dict[str, object]]], bytes]:
    magic, version, length = struct.unpack_from("<4sII", glb)
    assert (magic, version, length) == (b"glTF", 2, len(glb))
    size, kind = struct.unpack_from("<I4s", glb, 12)
    assert kind == b"JSON" and size % 4 == 0
    document = json.loads(glb[20 : 20 + size])
    body_size, body_kind = struct.unpack_from("<I4s", glb, 20 + size)
    assert body_kind == b"BIN\0" and body_size % 4 == 0
    return document, glb[28 + size : 28 + size + body_size]


def test_glb_is_whole_and_its_bounds_are_right() -> None:
    document, body = parts_of(to_glb(striped()))
    assert document["buffers"][0]["byteLength"] == len(body)
    for view in document["bufferViews"]:
        assert view["byteOffset"] % 4 == 0  # type: ignore[operator]
        assert view["byteOffset"] + view["byteLength"] <= len(body)  # type: ignore[operator]
    for mesh in document["meshes"]:
        for primitive in mesh["primitives"]:  # type: ignore[attr-defined]
            position = document["accessors"][primitive["attributes"]["POSITION"]]
            view = document["bufferViews"][position["bufferView"]]  # type: ignore[index]
            points = np.frombuffer(body, "<f4", 3 * position["count"], view["byteOffset"]).reshape(-1, 3)  # type: ignore[operator, call-overload]
            assert points.min(axis=0).tolist() == position["min"]
            assert points.max(axis=0).tolist() == position["max"]
            index = document["accessors"][primitive["indices"]]
            view = document["bufferViews"][index["bufferView"]]  # type: ignore[index]
            faces = np.frombuffer(body, "<u4", index["count"], view["byteOffset"])  # type: ignore[call-overload]
            assert faces.max() < position["count"]  # type: ignore[operator]


def test_glb_is_in_metres_with_a_material_for_each_yarn() -> None:
    document, _ = parts_of(to_glb(striped()))
    assert [material["name"] for material in document["materials"]] == ["yarn", "A", "B"]
    highest = max(a["max"][1] for a in document["accessors"] if "max" in a)  # type: ignore[index]
    assert 0.06 < highest < 0.1  # 6 rows of 1.43 cm


def test_files_are_the_same_every_time() -> None:
    assert to_glb(striped()) == to_glb(striped())
    assert to_obj(striped()) == to_obj(striped())


def test_obj_faces_point_at_its_vertices() -> None:
    lines = to_obj(striped()).decode().splitlines()
    vertices = sum(line.startswith("v ") for line in lines)
    assert vertices == sum(line.startswith("vn ") for line in lines)
    faces = [int(word.split("//")[0]) for line in lines if line.startswith("f ") for word in line.split()[1:]]
    assert min(faces) == 1 and max(faces) == vertices


def test_yarn_is_as_thick_as_it_says() -> None:
    part = striped().parts[0]
    for mesh in yarn_mesh(part):
        assert np.linalg.norm(mesh.normals, axis=1) == pytest.approx(1.0, abs=1e-6)
