"""When a pattern changes: what of its film and its publication still shows the old state, and the note that tells it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..pattern import Pattern
from ..working import Fabric
from .cues import clock
from .film import Film
from .naming import name_of
from .shots import Shot
from .versions import THEN, RowChange, row_changes


@dataclass(frozen=True, slots=True, kw_only=True)
class Touched:
    """What one change touches. `shots` by number, `captions` by number (from 1) with their time, `chapters` by title, `pictures` by file,
    `pages` as "page.html#row-3" and "booklet.pdf, page 4"; `note` the correction as it is pinned below the film."""

    change: RowChange
    note: str
    shots: tuple[int, ...] = ()
    captions: tuple[str, ...] = ()
    chapters: tuple[str, ...] = ()
    pictures: tuple[str, ...] = ()
    pages: tuple[str, ...] = ()


def drift(
    old: Pattern, old_fabrics: Sequence[Fabric], new: Pattern, new_fabrics: Sequence[Fabric], film: Film,
    manifest: Mapping[str, Any] | None = None,
) -> tuple[Touched, ...]:  # fmt: skip
    """Every change between two versions, with what it touches. `film`: the film as made of the old version; `manifest`: the manifest of the
    old publication as read from its folder, for pages and pictures. The same version twice gives nothing."""
    return tuple(
        Touched(
            change=change,
            note=note_of(change, old, new),
            shots=tuple(shot.number for shot in _shots(change, film)),
            captions=tuple(_captions(change, film)),
            chapters=tuple(_chapters(change, film)),
            pictures=tuple(dict.fromkeys(_pictures(change, old, film, manifest))),
            pages=tuple(_pages(change, manifest)),
        )
        for change in row_changes(old, old_fabrics, new, new_fabrics)
    )


def note_of(change: RowChange, old: Pattern, new: Pattern) -> str:
    """ "Row 14: was … / now … / who is affected / since version …"."""
    where = f"{change.part}, {_label(change)}" if change.part and len(new.parts) > 1 else _label(change)
    was = f"“{change.was}”" if change.was else "not there"
    now = f"“{change.now}”" if change.now else "taken out"
    return f"{where}: was {was} / now {now} / {_affected(change, old)} / since version {_version(new)}"


def _label(change: RowChange) -> str:
    label = change.label.replace("\u00a0", " ").replace("Rnd", "Round")
    if len(change.numbers) == 1 and "-" in label:
        return f"{label.split()[0].rstrip('s')} {change.numbers[0]}"
    return label


def _version(pattern: Pattern) -> str:
    return pattern.facts.version or "(give the new version a number)"


def _affected(change: RowChange, old: Pattern) -> str:
    version = f" from version {old.facts.version}" if old.facts.version else " from an earlier copy"
    if change.kind == "words" and not change.sizes and _then(change.was) == _then(change.now):
        return "nobody's stitches change, only the words are clearer"
    who = "everyone" if change.sizes in (("every size",), ()) else f"makers of size {', '.join(change.sizes)}"
    if change.kind == "facts":
        return f"{who} who works{version}, before beginning" if who == "everyone" else f"{who} working{version}"
    if change.kind == "renumbered":
        return f"{who} working{version}: the stitches stay, only the numbers are others"
    if change.kind == "carried":
        return f"{who} working{version}: the words stay, the count differs because a row below changed"
    return f"{who} working{version} who has reached {_label(change)}"


def _then(words: str) -> str:
    """What is told behind a row: the stitches stay when it changes, and the piece does not."""
    return re.sub(r" \([^()]*\)$", "", words.partition(THEN)[2])


def _shots(change: RowChange, film: Film) -> Iterator[Shot]:
    """The shots that stand for the row, say it, or say "as" it."""
    for shot in film.plan.shots:
        if change.kind == "facts":
            wanted = {"Hook": ("materials", "gauge"), "Gauge": ("gauge",), "Yarn": ("materials",), "Materials": ("materials",)}[
                change.label
            ]
            if shot.kind in wanted:
                yield shot
        elif _stands_for(shot, change) or _refers_to(shot, change):
            yield shot


def _stands_for(shot: Shot, change: RowChange) -> bool:
    if shot.row is None or shot.part != change.part:
        return False
    first, last = _number(shot.rows[0]), _number(shot.rows[1])
    if first is None or last is None or not change.shown:
        return change.label in shot.rows
    return any(first <= number <= last for number in change.shown)


def _refers_to(shot: Shot, change: RowChange) -> bool:
    """Whether a skip card says "work Rows 4-13 as Rows 2 and 3" of a changed row."""
    if shot.part != change.part or not change.shown:
        return False
    return any(_in_words(number, line.how) for line in shot.lines for number in change.shown)


def _in_words(number: int, words: str) -> bool:
    figures = [int(piece.strip(",")) for piece in words.split() if piece.strip(",").isdigit()]
    if " to " in words and len(figures) == 2:
        return figures[0] <= number <= figures[1]
    return number in figures


def _number(label: str) -> int | None:
    last = label.split()[-1] if label else ""
    return int(last) if last.isdigit() else None


def _captions(change: RowChange, film: Film) -> Iterator[str]:
    numbers = {shot.number for shot in _shots(change, film)}
    spans = [(scene.start, scene.end) for scene in film.scenes if scene.shot.number in numbers]
    for k, cue in enumerate(film.cues, start=1):
        if any(start - 0.001 <= cue.start < end for start, end in spans):
            yield f"{k} ({clock(cue.start)[:8]})"


def _chapters(change: RowChange, film: Film) -> Iterator[str]:
    numbers = {shot.number for shot in _shots(change, film)}
    for chapter in film.chapters:
        if numbers & set(chapter.shots):
            yield f"{chapter.at} {chapter.title}"


def _pictures(change: RowChange, old: Pattern, film: Film, manifest: Mapping[str, Any] | None) -> Iterator[str]:
    """The designer's photographs of the row, those planned for it, and every drawing of a part whose stitches change."""
    for picture in old.facts.pictures:
        if picture.row and _number(picture.row) in change.shown:
            yield picture.file
    for photo in film.photos:
        if photo.row and _number(photo.row) in change.shown and photo.row.startswith(("Row", "Round", name_of(change.part) or "Row")):
            yield photo.file
    if manifest is None or change.kind == "facts" or (change.kind == "words" and not change.sizes):
        return
    others = [_slug(part.name) for part in old.parts if part.name and part.name != change.part]
    own = _slug(change.part)
    for entry in manifest.get("files", ()):
        name = str(entry.get("name", "")) if isinstance(entry, dict) else ""
        elsewhere = own and own not in name and any(other in name for other in others)
        if name.startswith("pictures/") and not name.startswith("pictures/photo") and not elsewhere:
            yield name


def _slug(name: str) -> str:
    """A part's name as it stands in file names."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


def _pages(change: RowChange, manifest: Mapping[str, Any] | None) -> Iterator[str]:
    if manifest is None:
        return
    for row in manifest.get("rows", ()):
        if not isinstance(row, dict) or not _is_row(row, change):
            continue
        yield str(row.get("page", ""))
        booklets = row.get("booklets")
        if isinstance(booklets, dict):
            yield from (f"{name}, page {page}" for name, page in sorted(booklets.items()))


def _is_row(row: Mapping[str, Any], change: RowChange) -> bool:
    part, label = str(row.get("part", "")), str(row.get("label", ""))
    if change.part and part and not part.startswith(change.part):
        return False
    if not change.shown:
        return label == change.label.replace("\u00a0", " ")
    spans = label.partition(" ")[2].split(" (")[0]
    for piece in spans.split(","):
        first, _, last = piece.strip().partition("-")
        if first.isdigit() and any(int(first) <= n <= (int(last) if last.isdigit() else int(first)) for n in change.shown):
            return True
    return False
