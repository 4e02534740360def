"""The film's pages: the checklist to print and tick (HTML and PDF), script, captions, chapters, the text below, as {name: bytes}.

Everything is set from the same checklist and scenes, under the pattern's stamp. Text goes into page and PDF as data only.
"""

from __future__ import annotations

import json
import tempfile
from collections.abc import Mapping, Sequence
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..pattern import Pattern
from ..teaching import CheckRow, Film, Scene, checklist_of, clock, film_of, film_texts
from ..working.fabric import Fabric
from .booklet import CannotSet
from .glyphs import printable
from .sheet import Terms

if TYPE_CHECKING:
    from jinja2 import Template

FOLDER = "film"
"""Where the film's pages stand in a publication."""


def film_files(film: Film, *, stamp: str = "", minutes: float | None = None, paper: str = "a4") -> dict[str, bytes]:
    """Every page of a film: `checklist.html`, `checklist.pdf`, `script.txt`, captions, chapters, description.

    `minutes`: the length a shorter cut should have. The same film gives the same bytes. Raises CannotSet when the typesetter refuses.
    """
    data = _data(film, stamp, minutes, paper)
    return {"checklist.html": _page(data), "checklist.pdf": _pdf(data), **film_texts(film)}


def film_pages(
    pattern: Pattern, fabrics: Sequence[Fabric], *, stamp: str, terms: Terms | None = None
) -> tuple[dict[str, bytes], Film | None]:
    """The film's pages as they stand in a publication, under `film/`, and the film; nothing where no row is worked."""
    if not any(not row.foundation for part in fabrics[0].parts for row in part.rows):
        return {}, None
    film = film_of(pattern, fabrics, terms=terms, stamp=stamp)
    return {f"{FOLDER}/{name}": data for name, data in film_files(film, stamp=stamp).items()}, film


def told_in_manifest(film: Film | None) -> dict[str, Any] | None:
    """What the manifest keeps of a film, so that a later version knows what it touches."""
    if film is None:
        return None
    return {
        "minutes": round(film.minutes, 2),
        "shots": [
            {
                "number": scene.shot.number,
                "kind": scene.shot.kind,
                "part": scene.shot.part,
                "rows": list(scene.shot.rows) if scene.shot.row is not None else [],
                "start": scene.start,
                "end": scene.end,
            }
            for scene in film.scenes
        ],
        "chapters": [{"start": chapter.start, "title": chapter.title} for chapter in film.chapters],
    }


def _data(film: Film, stamp: str, minutes: float | None, paper: str) -> dict[str, Any]:
    listed = checklist_of(film, minutes=minutes)
    return {
        "paper": "us-letter" if paper == "letter" else "a4",
        "title": listed.title,
        "stamp": stamp,
        "terms": film.plan.terms,
        "size": film.plan.size,
        "total": listed.total,
        "on_camera": listed.on_camera,
        "setup": listed.setup,
        "samples": listed.samples,
        "shots": [_row(row) for row in listed.shots],
        "photos": [{"file": p.file, "row": p.row, "face": p.face, "shows": p.shows, "alt": p.alt} for p in film.photos],
        "shorter": listed.shorter,
        "scenes": [_scene(scene) for scene in film.scenes],
        "chapters": [[chapter.at, chapter.title] for chapter in film.chapters],
        "text": film.text,
        "cautions": film.cautions,
    }


def _scene(scene: Scene) -> dict[str, Any]:
    at = clock(scene.start)[3:8] if scene.start < 3600 else clock(scene.start)[:8]
    return {"number": scene.shot.number, "at": at, "card": str(scene.card), "says": scene.spoken}


def _row(row: CheckRow) -> Mapping[str, str | int]:
    keys = ("number", "how", "title", "shows", "frame", "card", "face", "minutes", "before")
    return {key: getattr(row, key) for key in keys}


@cache
def _asset(name: str) -> bytes:
    return (files(__package__ or __name__) / "data" / name).read_bytes()


@cache
def _template() -> Template:
    from jinja2 import Environment, StrictUndefined

    setter = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    return setter.from_string(_asset("film.html.j2").decode())


def _page(data: Mapping[str, Any]) -> bytes:
    from .page import _hash

    style = _asset("film.css").decode()
    return _template().render(d=data, style=style, style_hash=_hash(style)).encode()


def _pdf(data: Mapping[str, Any]) -> bytes:
    import typst

    from ..drawing.png import bundled_fonts

    inputs = {"film": json.dumps(printable(dict(data)), ensure_ascii=False)}
    try:
        with tempfile.TemporaryDirectory() as folder:
            main = Path(folder) / "film.typ"
            main.write_bytes(_asset("film.typ"))
            setter = typst.Compiler(main, root=Path(folder), font_paths=bundled_fonts(), sys_inputs=inputs)
            made = setter.compile(format="pdf", pdf_standards=["ua-1"], timestamp=0)
    except RuntimeError as failure:
        raise CannotSet(str(failure)) from None
    if not isinstance(made, bytes):
        raise CannotSet("no PDF came back")
    return made
