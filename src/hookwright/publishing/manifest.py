"""The manifest: what is in the folder, under which stamp, and where each row stands in page and booklet."""

from __future__ import annotations

import json
from collections.abc import Mapping
from hashlib import sha256
from typing import Any

from .sheet import Sheet

NAME = "manifest.json"
SCHEMA = "hookwright/publication/1"


def manifest(
    sheet: Sheet, files: Mapping[str, bytes], pages: Mapping[str, Mapping[str, int]], page_name: str, *, film: dict[str, Any] | None = None
) -> bytes:
    """JSON, keys in a fixed order. `pages`: booklet file → row anchor → page; `film`: its shots and chapters, where there is one."""
    told: dict[str, Any] = {
        "schema": SCHEMA,
        "title": sheet.title,
        "designer": sheet.designer,
        "version": sheet.version,
        "stamp": sheet.stamp,
        "terms": sheet.terms,
        "files": [{"name": name, "bytes": len(data), "sha256": sha256(data).hexdigest()} for name, data in sorted(files.items())],
        "rows": [
            {
                "part": part.heading,
                "label": row.label.replace("\u00a0", " "),
                "count": row.count.replace("\u00a0", " "),
                "page": f"{page_name}#{row.anchor}",
                "booklets": {name: found[row.anchor] for name, found in pages.items() if row.anchor in found},
            }
            for part in sheet.edition.parts
            for row in part.rows
        ],
    }
    if film is not None:
        told["film"] = film
    return (json.dumps(told, ensure_ascii=False, indent=2) + "\n").encode()


def files_of(data: bytes) -> dict[str, str]:
    """File name → sha256, as a manifest lists them; empty for anything else."""
    told = _told(data)
    if told.get("schema") != SCHEMA or not isinstance(told.get("files"), list):
        return {}
    return {
        str(entry["name"]): str(entry["sha256"]) for entry in told["files"] if isinstance(entry, dict) and {"name", "sha256"} <= set(entry)
    }


def _told(data: bytes) -> dict[str, Any]:
    try:
        told = json.loads(data)
    except ValueError:
        return {}
    return told if isinstance(told, dict) else {}
