"""What a shorter cut drops: the shots that teach nothing new first, then what words can tell, never the only showing of an action."""

from __future__ import annotations

from dataclasses import dataclass

from .shots import FilmPlan, Shot

_ORDER = ("speed", "gauge", "ending", "finishing", "materials")
"""Kinds of shot in the order in which they are given up (our order)."""
_LOSES = {
    "speed": "the rhythm of {title} at speed; it is shown close elsewhere",
    "gauge": "the swatch; its figures stand below the film",
    "ending": "the look back; the version stands below the film",
    "finishing": "{title}: the words below the film have to do",
    "materials": "what one needs, said aloud; the list stands below the film",
}
TRIMMED = 0.6
"""What is left of a close shot when its hands are shown faster instead of slowed (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A shorter film. `minutes` how long it is then, `reaches` whether that is what was asked; `drops` the shots left out, `loses` what a
    viewer no longer sees (a line a shot), `trims` close shots shown less slowly."""

    asked: float | None
    minutes: float
    reaches: bool
    drops: tuple[Shot, ...]
    trims: tuple[Shot, ...]
    loses: tuple[str, ...]


def shorter_cut(plan: FilmPlan, minutes: float | None = None) -> Cut:
    """What a cut to `minutes` drops; without a figure everything that can go without an action being lost. A shot in which something is
    done behind its row (eyes, stuffing) stays.

    Close shots and skip cards always stay: without them an action is never seen, or nobody knows what they have. Where the minutes cannot
    be reached so, close shots are trimmed, the longest first; `reaches` says whether that was enough.
    """
    left = plan.minutes
    drops: list[Shot] = []
    trims: list[Shot] = []
    for kind in _ORDER if minutes is not None else ("speed",):
        for shot in sorted((s for s in plan.shots if s.kind == kind and not s.does), key=lambda s: (-s.seconds, s.number)):
            if minutes is not None and left <= minutes:
                break
            drops.append(shot)
            left -= shot.minutes
    for shot in sorted((s for s in plan.shots if s.kind == "close"), key=lambda s: (-s.seconds, s.number)):
        if minutes is None or left <= minutes:
            break
        trims.append(shot)
        left -= shot.minutes * (1 - TRIMMED)
    drops.sort(key=lambda s: s.number)
    trims.sort(key=lambda s: s.number)
    loses = (
        *(f"Shot {s.number}: {_LOSES[s.kind].format(title=s.full_title)}" for s in drops),
        *(f"Shot {s.number}: {s.full_title} less slowly" for s in trims),
    )
    return Cut(
        asked=minutes, minutes=round(left, 2), reaches=minutes is None or left <= minutes + 1e-9,
        drops=tuple(drops), trims=tuple(trims), loses=loses,
    )  # fmt: skip
