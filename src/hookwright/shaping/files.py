"""Meshes as files: GLB (glTF 2.0 binary, Khronos Group specification 2.0.1, section 4.4) and Wavefront OBJ. Bytes out, no file opened."""

from __future__ import annotations

import json
import struct
from typing import Final

import numpy as np

from .cloth import Floats
from .mesh import MarkedAs
from .piece import Shape
from .standing import Standing, standings

MOST_CORNERS: Final = 3_000_000
"""Corners beyond which an OBJ file, which cannot repeat a mesh, shows one copy of a part only."""
_SHADES: Final = ((0.86, 0.80, 0.68), (0.35, 0.49, 0.55), (0.72, 0.42, 0.34), (0.45, 0.53, 0.36), (0.55, 0.42, 0.55), (0.83, 0.66, 0.30))
"""Linear base colours for yarns in the order they come in; patterns name colours in words, so these only tell yarns apart."""

_MARKED: Final[dict[MarkedAs, tuple[float, float, float]]] = {"stretched": (0.80, 0.05, 0.05), "crowded": (0.05, 0.15, 0.80)}
"""Stretched stitches red, crowded ones blue."""


def to_glb(shape: Shape) -> bytes:
    """The relaxed fabric as GLB, in metres: one mesh a part, one primitive a yarn, one node wherever a copy of the part stands.
    Byte-equal for equal shapes."""
    body = bytearray()
    views: list[dict[str, object]] = []
    accessors: list[dict[str, object]] = []
    materials: list[tuple[str, MarkedAs]] = []
    nodes: list[dict[str, object]] = []
    meshes: list[dict[str, object]] = []
    for part in standings(shape):
        primitives = []
        for mesh in part.meshes:
            if (mesh.name, mesh.marked) not in materials:
                materials.append((mesh.name, mesh.marked))
            points = (np.round(mesh.points, 4) / 100).astype("<f4")
            bounds = {"min": points.min(axis=0).tolist(), "max": points.max(axis=0).tolist()}
            position = _add(body, views, accessors, points.tobytes(), 34962, len(points), "VEC3", 5126, bounds)
            unit = (mesh.normals / np.maximum(np.linalg.norm(mesh.normals, axis=1, keepdims=True), 1e-12)).round(4).astype("<f4")
            normal = _add(body, views, accessors, unit.tobytes(), 34962, len(points), "VEC3", 5126, {})
            faces = mesh.faces.astype("<u4").ravel()
            index = _add(body, views, accessors, faces.tobytes(), 34963, len(faces), "SCALAR", 5125, {})
            attributes = {"POSITION": position, "NORMAL": normal}
            primitives.append({"attributes": attributes, "indices": index, "material": materials.index((mesh.name, mesh.marked))})
        for k, place in enumerate((np.round(part.at, 4) / 100).tolist()):
            name = part.name if len(part.at) == 1 else f"{part.name} {k + 1}"
            nodes.append({"mesh": len(meshes), "name": name} | ({"translation": place} if any(place) else {}))
        meshes.append({"name": part.name, "primitives": primitives})
    document: dict[str, object] = {
        "asset": {"version": "2.0", "generator": "Hookwright"},
        "scene": 0,
        "scenes": [{"nodes": [*range(len(nodes))]}],
    }
    if nodes:
        document |= {"nodes": nodes, "meshes": meshes, "materials": [_material(i, *each) for i, each in enumerate(materials)]}
        document |= {"accessors": accessors, "bufferViews": views, "buffers": [{"byteLength": len(body)}]}
    else:
        document["scenes"] = [{}]
    return _container(document, bytes(body))


def _add(
    body: bytearray, views: list[dict[str, object]], accessors: list[dict[str, object]], data: bytes, target: int, count: int, form: str,
    component: int, bounds: dict[str, list[float]],
) -> int:  # fmt: skip
    """Append data (all of it four bytes wide, so that every view begins on a multiple of four); gives the accessor's number."""
    views.append({"buffer": 0, "byteOffset": len(body), "byteLength": len(data), "target": target})
    accessors.append({"bufferView": len(views) - 1, "componentType": component, "count": count, "type": form, **bounds})
    body += data
    return len(accessors) - 1


def _material(i: int, name: str, marked: MarkedAs) -> dict[str, object]:
    shade = [*(_MARKED[marked] if marked else _SHADES[i % len(_SHADES)]), 1.0]
    return {"name": name or "yarn", "pbrMetallicRoughness": {"baseColorFactor": shade, "metallicFactor": 0.0, "roughnessFactor": 0.9}}


def _container(document: dict[str, object], body: bytes) -> bytes:
    text = json.dumps(document, separators=(",", ":")).encode()
    text += b" " * (-len(text) % 4)
    chunks = struct.pack("<I4s", len(text), b"JSON") + text
    if body:
        chunks += struct.pack("<I4s", len(body), b"BIN\0") + body
    return struct.pack("<4sII", b"glTF", 2, 12 + len(chunks)) + chunks


def to_obj(shape: Shape) -> bytes:
    """The relaxed fabric as Wavefront OBJ, in centimetres (said in a comment; the format has no units)."""
    lines = ["# Hookwright; lengths in centimetres"]
    before = 1
    for part in standings(shape):
        for k, place in enumerate(_written(part)):
            lines.append(f"o {_word(part.name)}{f'_{k + 1}' if len(part.at) > 1 else ''}")
            for mesh in part.meshes:
                lines.append(f"g {_word(mesh.name or 'yarn')}")
                lines += _rows("v", mesh.points + place) + _rows("vn", mesh.normals)
                lines += [f"f {a}//{a} {b}//{b} {c}//{c}" for a, b, c in (mesh.faces + before).tolist()]
                before += len(mesh.points)
    return ("\n".join(lines) + "\n").encode()


def _written(part: Standing) -> Floats:
    """The copies that are written out: the format cannot repeat a mesh, so of a large blanket one motif stands for all."""
    corners = sum(len(mesh.points) for mesh in part.meshes)
    return part.at if len(part.at) * corners <= MOST_CORNERS else part.at[:1]


def _rows(key: str, values: Floats) -> list[str]:
    return [f"{key} {x:.4f} {y:.4f} {z:.4f}" for x, y, z in (np.round(values, 4) + 0.0).tolist()]


def _word(name: str) -> str:
    return "_".join(name.split()) or "piece"
