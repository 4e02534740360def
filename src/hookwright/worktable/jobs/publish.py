"""Publishing into the folder: everything is made first and put in place in one move, so that a cancel leaves what was there before."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

from ...publishing import MANIFEST, CannotSet
from ...publishing import publish as make
from ..bench import Payload, Refusal, Tell
from ..folder import sentence_for
from ..names import known_name
from .common import fabric_of, session_of

STEPS = {"charts": "Drawing the charts", "yarn": "Reckoning the yarn", "booklet": "Setting the booklet", "page": "Writing the page",
         "text": "Writing the checked text", "pictures": "Making the pictures"}  # fmt: skip
WHAT = {".pdf": "booklet", ".html": "web page", ".txt": "checked text", ".svg": "drawing", ".png": "picture", ".json": "list of files"}


def publish(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Publish the text; what comes back lists the files. Raises `Refusal` where there is nothing to publish or no room."""
    session = session_of(payload)
    fabric_of(payload)
    told: list[str] = []

    def progress(step: str) -> None:
        told.append(step)
        tell({"done": len(told) - 1, "of": len(STEPS) + 1, "words": f"{STEPS.get(step, step.capitalize())} …"})

    terms = payload.get("terms")
    paper = payload.get("paper")
    try:
        made = make(
            session.read,
            session.fabrics,
            terms=terms if terms in ("US", "UK") else None,
            paper=paper if paper in ("a4", "letter") else "a5",
            progress=progress,
        )
    except CannotSet as refused:
        raise Refusal(f"The booklet could not be set: {refused}") from refused
    tell({"done": len(STEPS), "of": len(STEPS) + 1, "words": "Putting everything in its folder …"})
    place = Path(str(payload["folder"])) / "published" / known_name(str(payload["name"]))
    try:
        _put(place, made.files)
    except OSError as trouble:
        raise Refusal(sentence_for(trouble, place.name)) from trouble
    files = sorted(made.files, key=lambda name: (list(WHAT).index(Path(name).suffix) if Path(name).suffix in WHAT else 99, name))
    return {
        "folder": f"published/{place.name}",
        "stamp": getattr(made.sheet, "stamp", "") and str(made.sheet.stamp)[:40],
        "files": [
            {"name": name, "size": len(made.files[name]), "what": WHAT.get(Path(name).suffix, "file")} for name in files if name != MANIFEST
        ],
    }


def _put(place: Path, files: Any) -> None:
    beside = place.with_name(f".{place.name}.part")
    shutil.rmtree(beside, ignore_errors=True)
    for name, content in files.items():
        path = beside / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    before = place.with_name(f".{place.name}.before")
    shutil.rmtree(before, ignore_errors=True)
    if place.exists():
        place.rename(before)
    beside.rename(place)
    shutil.rmtree(before, ignore_errors=True)
