"""The booklet: a tagged PDF (PDF/UA-1) set by typst from the sheet. Text goes in as data; the root holds what we wrote there only."""

from __future__ import annotations

import json
import tempfile
from dataclasses import asdict
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any, Literal, TypeAlias

from .glyphs import STAND_IN, lacks, printable
from .sheet import Drawn, Photo, Sheet, Table

Paper: TypeAlias = Literal["a5", "a4", "letter"]


_LACKING = f"The mark {STAND_IN} stands where the fonts of this booklet have no sign; the page and the plain text have it."


class CannotSet(RuntimeError):
    """The typesetter refused the booklet; the message is the typesetter's."""


@lru_cache(maxsize=1)
def _template() -> bytes:
    return (files(__package__ or __name__) / "data" / "booklet.typ").read_bytes()


def booklet(sheet: Sheet, *, paper: Paper = "a5", large: bool = False) -> tuple[bytes, dict[str, int]]:
    """The PDF, and row anchor → page it stands on (from 1). `large`: black, 22 point, on A4 or letter, for readers who see little.

    Raises CannotSet when the typesetter refuses.
    """
    import typst

    from ..drawing.png import bundled_fonts

    data = _data(sheet, "a4" if large and paper == "a5" else paper, large)
    if lacks(data):
        data["remarks"] = [*data["remarks"], _LACKING]
    inputs = {"sheet": json.dumps(printable(data), ensure_ascii=False)}
    try:
        with tempfile.TemporaryDirectory() as folder:
            main = Path(folder) / "booklet.typ"
            main.write_bytes(_template())
            for photo in sheet.photos:
                (Path(folder) / photo.file).write_bytes(photo.data)
            setter = typst.Compiler(main, root=Path(folder), font_paths=bundled_fonts(), sys_inputs=inputs)
            made = setter.compile(format="pdf", pdf_standards=["ua-1"], timestamp=0)
            rows = json.loads(setter.query("<page-of-row>", field="value"))
    except RuntimeError as failure:
        raise CannotSet(str(failure)) from None
    if not isinstance(made, bytes):
        raise CannotSet("no PDF came back")
    return made, {row["anchor"]: row["page"] for row in rows}


def _data(sheet: Sheet, paper: Paper, large: bool) -> dict[str, Any]:
    edition = sheet.edition
    return {
        "paper": "us-letter" if paper == "letter" else paper,
        "large": large,
        "title": sheet.title,
        "designer": sheet.designer,
        "description": sheet.description,
        "language": sheet.language,
        "stamp": sheet.stamp,
        "line": sheet.line,
        "terms": edition.terms,
        "other": edition.other,
        "terms_line": f"The words are in {edition.terms} terms.",
        "at_a_glance": _glance(sheet),
        "hero": _drawn(sheet.hero) if sheet.hero and not large else None,
        "portrait": _photo(sheet.portrait) if sheet.portrait else None,
        "photos": [_photo(photo) for photo in sheet.photos if photo is not sheet.portrait],
        "materials": sheet.materials,
        "gauge_word": edition.gauge_word,
        "gauge": edition.gauge,
        "measures": _table(sheet.measures),
        "level": sheet.level,
        "skills": sheet.skills,
        "abbreviations": [asdict(short) for short in edition.abbreviations],
        "specials": edition.specials,
        "remarks": sheet.remarks,
        "notes": edition.notes,
        "parts": [asdict(part) for part in edition.parts],
        "finishing": sheet.finishing,
        "drawings": [_drawn(drawn) for drawn in edition.drawings],
        "yarns": _table(sheet.yarns),
        "choices": _table(edition.choices),
        "care": sheet.care,
        "cautions": sheet.cautions,
        "rights": sheet.rights,
    }


def _drawn(drawn: Drawn) -> dict[str, Any]:
    return {key: value for key, value in asdict(drawn).items() if key != "mirror"}


def _photo(photo: Photo) -> dict[str, str]:
    return {"file": photo.file, "alt": photo.alt, "caption": photo.caption}


def _table(table: Table | None) -> dict[str, Any] | None:
    return None if table is None else asdict(table)


def _glance(sheet: Sheet) -> list[tuple[str, str]]:
    """The few lines of the title page."""
    lines: list[tuple[str, str]] = []
    if sheet.measures is not None:
        names = sheet.measures.head[1:]
        if len(names) > 1:
            lines.append(("Sizes", ", ".join(names)))
        else:
            lines.append(("Size", ", ".join(f"{row[0].removeprefix('Finished ')} {row[1]}" for row in sheet.measures.rows)))
    hook = next((which for what, which in sheet.materials if what == "Hook"), "")
    if hook:
        lines.append(("Hook", hook))
    if sheet.edition.gauge:
        lines.append((sheet.edition.gauge_word, sheet.edition.gauge[0]))
    if sheet.level:
        lines.append(("Level", sheet.level))
    return lines
