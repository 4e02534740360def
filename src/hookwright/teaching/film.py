"""Everything of a film at once: plan, script, captions, chapters, text, photographs, cautions. What shells show and write."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ..pattern import Pattern
from ..trade.terms import System
from ..working import Fabric
from .cautions import cautions_of
from .chapter_list import Chapter, chapters, description
from .cues import Cue, captions
from .pacing import row_seconds
from .photos import PhotoShot, photo_list
from .plan import film_plan
from .scenes import Scene, script
from .shots import FilmPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """A film as planned. `plan.shots` last as long as their scenes; `text` is what stands below the film."""

    plan: FilmPlan
    scenes: tuple[Scene, ...]
    cues: tuple[Cue, ...]
    chapters: tuple[Chapter, ...]
    text: str
    photos: tuple[PhotoShot, ...]
    cautions: tuple[str, ...]

    @property
    def minutes(self) -> float:
        return self.scenes[-1].end / 60 if self.scenes else 0.0


def film_of(
    pattern: Pattern,
    fabrics: Sequence[Fabric],
    *,
    size: int = 0,
    terms: System | None = None,
    left: bool = False,
    starts: Mapping[int, float] | None = None,
    stamp: str = "",
    errata: str = "",
) -> Film:
    """The film of a pattern worked in all its sizes. `size` the one on camera (index into `fabrics`); `starts` the times of the shots as
    they were cut, by shot number; `stamp` the version as published, `errata` where corrections stand."""
    fabric = fabrics[size]
    hours = work_hours(pattern, fabric)
    plan = film_plan(pattern, fabric, terms=terms, sizes=fabrics, left=left)
    scenes = script(pattern, fabric, plan, starts=starts, hours=hours)
    plan = plan.timed({scene.shot.number: round(scene.end - scene.start, 1) for scene in scenes})
    found = chapters(scenes)
    return Film(
        plan=plan,
        scenes=scenes,
        cues=captions(scenes),
        chapters=found,
        text=description(pattern, plan, found, stamp=stamp, errata=errata, hours=hours),
        photos=photo_list(pattern, fabric, plan),
        cautions=cautions_of(pattern, hours=hours),
    )


def work_hours(pattern: Pattern, fabric: Fabric) -> float:
    """Hours of hands on the rows of the whole piece, every copy of every part."""
    pace = pattern.facts.pace
    return sum(row_seconds(row, pace) * part.copies for part in fabric.parts for row in part.rows) / 3600
