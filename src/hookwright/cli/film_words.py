"""A film plan for the terminal and for programs."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from .common import CannotDo, read_source

if TYPE_CHECKING:
    from ..teaching import Film


def checklist_text(film: Film, minutes: float | None = None) -> str:
    """The checklist as plain lines to print and tick."""
    return "\n".join(_lines(film, minutes))


def _lines(film: Film, minutes: float | None) -> Iterator[str]:
    from ..teaching import checklist_of

    listed = checklist_of(film, minutes=minutes)
    yield f"{listed.title}: {len(listed.shots)} shots, {listed.total}"
    yield ""
    yield "Ready before the shoot"
    yield from (f"[ ] {sample}" for sample in listed.samples)
    yield ""
    yield f"Rows on camera: {listed.on_camera}"
    yield ""
    for shot in listed.shots:
        head = f"[ ] {shot.number:3}  {shot.minutes:>5}  {shot.how:8}  {shot.card}"
        yield f"{head}  ({shot.before})" if shot.before else head
        for line in (shot.shows, shot.frame):
            if line and (shot.how != "card" or ";" in line):
                yield f"                       {line}"
    yield ""
    yield "A shorter cut"
    yield from (f"    {line}" for line in listed.shorter)
    yield ""
    yield "Photographs for the page"
    yield from (f"[ ] {photo}" for photo in listed.photos)
    for caution in film.cautions:
        yield ""
        yield caution


def film_json(film: Film, minutes: float | None = None) -> str:
    """The film for a program: `hookwright/film/1`."""
    from ..teaching import shorter_cut

    cut = shorter_cut(film.plan, minutes)
    told: dict[str, Any] = {
        "schema": "hookwright/film/1",
        "title": film.plan.title,
        "terms": film.plan.terms,
        "size": film.plan.size or None,
        "minutes": round(film.minutes, 2),
        "samples": [asdict(sample) for sample in film.plan.samples],
        "on_camera": list(film.plan.on_camera),
        "shots": [_shot(film, k) for k in range(len(film.scenes))],
        "shorter": {
            "asked": cut.asked,
            "minutes": cut.minutes,
            "reaches": cut.reaches,
            "drops": [s.number for s in cut.drops],
            "trims": [s.number for s in cut.trims],
            "loses": list(cut.loses),
        },
        "photos": [asdict(photo) for photo in film.photos],
        "captions": [{"start": cue.start, "end": cue.end, "text": cue.text} for cue in film.cues],
        "chapters": [{"start": c.start, "title": c.title, "shots": list(c.shots)} for c in film.chapters],
        "description": film.text,
        "cautions": list(film.cautions),
    }
    return json.dumps(told, ensure_ascii=False, indent=1)


def _shot(film: Film, k: int) -> dict[str, Any]:
    scene, shot = film.scenes[k], film.plan.shots[k]
    return {
        "number": shot.number,
        "kind": shot.kind,
        "part": shot.part,
        "rows": list(shot.rows) if shot.row is not None else [],
        "title": shot.title,
        "new": [action.words(film.plan.terms) for action in shot.new],
        "again": [action.words(film.plan.terms) for action in shot.again],
        "skips": [asdict(line) for line in shot.lines],
        "shows": list(shot.shows),
        "frame": shot.frame,
        "face": shot.side,
        "count": shot.count,
        "counts": list(shot.counts),
        "sample_at": shot.sample_at,
        "start": scene.start,
        "end": scene.end,
        "card": str(scene.card),
        "says": list(scene.spoken),
    }


def shot_times(name: str) -> dict[int, float]:
    """Shot number → seconds, from lines such as "4 1:24". Raises CannotDo for a line that is none, or times that run backward."""
    import re

    source = read_source(name)
    found: dict[int, float] = {}
    for k, line in enumerate(source.text.splitlines(), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        match = re.match(r"^\s*(\d+)[.:)]?\s+(?:(\d+):)?(\d+):(\d\d(?:\.\d+)?)\b", line)
        if match is None:
            raise CannotDo(f"{source.name}, line {k}: write the number of the shot and its time, such as `4 1:24`.")
        found[int(match[1])] = int(match[2] or 0) * 3600 + int(match[3]) * 60 + float(match[4])
    ordered = [found[number] for number in sorted(found)]
    if ordered != sorted(ordered):
        raise CannotDo(f"{source.name}: the times of the shots run backward.")
    return found
