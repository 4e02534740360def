"""A worked pattern → everything one publishes, as {name: bytes}. Nothing is written to disk here, no clock is read."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from ..pattern import Pattern, Picture
from ..working.fabric import Fabric
from .anchors import slug
from .booklet import Paper, booklet
from .film import film_pages, told_in_manifest
from .gather import BOTH, sheet_of
from .manifest import NAME, manifest
from .page import page
from .photos import photos_of
from .pictures import drawings_of, hero_of, picture_files
from .plain import aloud_text, plain_text
from .sheet import Drawn, Sheet, Terms
from .yarns import answer_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Publication:
    """`files` name → bytes, the manifest among them; `sheet` what they all say."""

    sheet: Sheet
    files: Mapping[str, bytes] = field(repr=False)


def publish(
    pattern: Pattern,
    fabrics: Sequence[Fabric],
    *,
    terms: Terms | None = None,
    paper: Paper = "a5",
    pictures: Sequence[tuple[Picture, bytes]] = (),
    choices: bool = False,
    progress: Callable[[str], None] = lambda step: None,
) -> Publication:
    """Booklet, large-print booklet, page, pictures and checked text of a pattern, under one stamp.

    `fabrics`: the pattern worked in each of its sizes, in order; `terms` those shown first (the pattern's own if None); `pictures` the
    photographs that the pattern names, with their bytes; `choices`: with the table of wider, longer and other gauges; `progress` is told
    the name of each step as it begins. The same pattern gives the same bytes. Raises CannotSet when the typesetter refuses the booklet,
    BadPicture for a picture that cannot be read.
    """
    progress("charts")
    drawings: dict[Terms, tuple[Drawn, ...]] = {system: drawings_of(pattern, fabrics, system) for system in BOTH}
    progress("yarn")
    photos = photos_of(pictures)
    sheet = sheet_of(
        pattern,
        fabrics,
        photos=photos,
        terms=terms,
        drawings=drawings,
        hero=hero_of(fabrics, drawings[terms or pattern.terms]),
        yarn=answer_of(pattern, fabrics),
        choices=choices,
    )
    name = slug(sheet.title) or "pattern"
    files: dict[str, bytes] = {}
    pages: dict[str, Mapping[str, int]] = {}
    progress("booklet")
    for file, large in ((f"{name}.pdf", False), (f"{name}-large-print.pdf", True)):
        files[file], pages[file] = booklet(sheet, paper=paper, large=large)
    progress("page")
    files[f"{name}.html"] = page(sheet)
    progress("text")
    for system in BOTH:
        files[f"{name}-{system.lower()}.txt"] = plain_text(sheet, system).encode()
        for words in sheet.editions[system].aloud:
            ending = f"-{slug(words.size) or 'size'}" if words.size else ""
            files[f"aloud/{name}-{system.lower()}{ending}.txt"] = aloud_text(sheet, system, words).encode()
    progress("film")
    pages_of_film, film = film_pages(pattern, fabrics, stamp=sheet.stamp, terms=terms)
    files |= pages_of_film
    progress("pictures")
    files |= picture_files(sheet.edition.drawings)
    files |= {f"pictures/{photo.file}": photo.data for photo in photos}
    files[NAME] = manifest(sheet, files, pages, f"{name}.html", film=told_in_manifest(film))
    return Publication(sheet=sheet, files=files)
