"""Chapters and the text below the film.

Chapters: the first at 0:00, at least three, in rising order, each at least ten seconds long (9to5google.com, "video chapters", 2020).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..pattern import Pattern
from ..writing.materials import texts
from .cautions import cautions_of
from .naming import title_of, title_told
from .needs import needed
from .scenes import Scene
from .shots import FilmPlan

SHORTEST_CHAPTER_S, FEWEST = 10.0, 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """A chapter: where it begins, its title, the shots in it and the rows they stand for."""

    start: float
    title: str
    shots: tuple[int, ...] = ()

    @property
    def at(self) -> str:
        """The time as chapter lists write it.

        >>> Chapter(start=75.2, title="").at, Chapter(start=3700, title="").at
        ('1:15', '1:01:40')
        """
        whole = int(self.start)
        minutes, seconds = divmod(whole, 60)
        return f"{minutes}:{seconds:02}" if minutes < 60 else f"{minutes // 60}:{minutes % 60:02}:{seconds:02}"


def chapters(scenes: Sequence[Scene]) -> tuple[Chapter, ...]:
    """The chapters of a film; a scene too short for one goes with the one before. Empty where the film is too short for three."""
    found: list[list[Scene]] = []
    for scene in scenes:
        begin = int(scene.start)
        room = scenes[-1].end - begin
        if not found or (begin - int(found[-1][0].start) >= SHORTEST_CHAPTER_S and room >= SHORTEST_CHAPTER_S):
            found.append([scene])
        else:
            found[-1].append(scene)
    if len(found) < FEWEST:
        return ()
    return tuple(
        Chapter(start=0.0 if not k else float(int(group[0].start)), title=_title(group), shots=tuple(s.shot.number for s in group))
        for k, group in enumerate(found)
    )


def _title(group: Sequence[Scene]) -> str:
    """The title of a chapter: its rows, and what is new in them."""
    rows = [scene for scene in group if scene.shot.row is not None]
    if not rows:
        return group[0].shot.title
    first, last = rows[0].shot, rows[-1].shot
    if first is last or first.where != last.where:
        return first.full_title
    title = title_of(_end(first.title, 0), _end(last.title, -1))
    return f"{first.where}: {title}" if first.where else title


def _end(title: str, which: int) -> str:
    """The first or the last row of a shot's title: "Rows 5 to 13" → "Row 5", "Row 13"."""
    noun, _, rest = title.partition(" ")
    numbers = [word for word in rest.split() if word.isdigit()]
    return f"{noun.rstrip('s')} {numbers[which]}" if numbers else title


def chapter_lines(found: Sequence[Chapter]) -> str:
    """The list as it is pasted below a film, a line a chapter."""
    return "\n".join(f"{chapter.at} {chapter.title}" for chapter in found)


def description(
    pattern: Pattern, plan: FilmPlan, found: Sequence[Chapter], *, stamp: str = "", errata: str = "", hours: float = 0.0
) -> str:
    """The text below the film: what it is, materials, chapters, version and where corrections stand, cautions.

    `stamp` the version as published; `errata` the address of the corrections (else the front matter's `errata` or `link`).
    """
    facts = pattern.facts
    about = " ".join(texts(facts.notes.get("description")))
    version = stamp or (f"Version {facts.version}" if facts.version else "")
    link = errata or " ".join(texts(facts.notes.get("errata")) or texts(facts.notes.get("link")))
    what = version.partition(" · ")[0]
    blocks = [
        [title_told(pattern) or "Untitled pattern", *([about] if about else [])],
        [f"Spoken in {plan.terms} terms; the other names at first mention." + (f" On camera: size {plan.size}." if plan.size else "")],
        ["What you need", *(f"{label}: {which}" if label else which for label, which in needed(pattern))],
        ["Chapters", chapter_lines(found)] if found else [],
        [
            *([f"This film shows {version[0].lower()}{version[1:]} of the pattern."] if version else []),
            f"Corrections since {what[0].lower()}{what[1:]}: {link}" if link and what else f"Corrections: {link}" if link
            else "Corrections stand with the pattern.",
        ],
        ["Please note", *cautions_of(pattern, hours=hours)] if cautions_of(pattern, hours=hours) else [],
    ]  # fmt: skip
    return "\n\n".join("\n".join(block) for block in blocks if block).replace("\u00a0", " ") + "\n"
