"""Relaxed positions in the plane and in space, how a piece lies, where it is stretched; as yarn-thick meshes, GLB and OBJ."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .files import to_glb, to_obj
    from .mesh import Mesh, yarn_mesh
    from .piece import PartShape, Shape, node_stretch, shape, shape_part
    from .report import shape_json, shape_lines
    from .stretch import RowStretch, stretched_rows

__all__ = [
    "Mesh", "PartShape", "RowStretch", "Shape", "node_stretch", "shape", "shape_json", "shape_lines", "shape_part", "stretched_rows",
    "to_glb", "to_obj", "yarn_mesh",
]  # fmt: skip

_AT = {
    "Mesh": "mesh", "yarn_mesh": "mesh", "PartShape": "piece", "Shape": "piece", "node_stretch": "piece", "shape": "piece",
    "shape_part": "piece", "RowStretch": "stretch", "stretched_rows": "stretch", "shape_json": "report", "shape_lines": "report",
    "to_glb": "files", "to_obj": "files",
}  # fmt: skip


def __getattr__(name: str) -> object:
    """Everything here needs numpy and scipy, so it is imported when first asked for."""
    from importlib import import_module

    if name in _AT:
        return getattr(import_module(f".{_AT[name]}", __name__), name)
    raise AttributeError(name)
