"""The checklist of a shoot as plain rows: what the printed one, the page and the terminal show, so that they cannot differ."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from .film import Film
from .scenes import Scene
from .shorter import shorter_cut
from .shots import FilmPlan

_DOING = {
    "opening": "show",
    "materials": "show",
    "gauge": "show",
    "close": "close",
    "speed": "at speed",
    "skip": "card",
    "finishing": "close",
    "ending": "show",
}


_SHOWS = {
    "opening": "the result, alone and in use",
    "materials": "yarn, hook, notions laid out",
    "gauge": "the swatch, a ruler laid on it",
    "ending": "the result once more, turned about",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckRow:
    """One line of the checklist. `how` "close", "at speed", "card", "show"; `minutes` as "1:25"; `before` the sample to have at hand."""

    number: int
    how: str
    title: str
    shows: str
    frame: str
    card: str
    face: str
    minutes: str
    before: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Checklist:
    """The whole list: what to set up, samples, shots, photographs, what a shorter cut drops. `total` as "16:49"."""

    title: str
    setup: tuple[str, ...]
    samples: tuple[str, ...]
    shots: tuple[CheckRow, ...]
    photos: tuple[str, ...]
    shorter: tuple[str, ...]
    total: str
    on_camera: str


SETUP = (
    "A smooth yarn of middling thickness in a light, clear colour: very dark and very pale yarn film badly.",
    "The camera fixed above or over the shoulder, so that the hands lie the way the viewer's do; focus locked.",
    "Light from both sides, no glare; the hands never between lens and stitch.",
    "A quiet room; one instruction a shot; two seconds still before and after each.",
)
"""Common practice, no source."""
SETUP_LEFT = "Filmed for left-handers: work left-handed, or mirror the picture; never mirror a picture that holds letters or figures."


def checklist_of(film: Film, *, minutes: float | None = None) -> Checklist:
    """The checklist of a film; `minutes` the length a shorter cut should have (None: all that can go without an action being lost)."""
    plan = film.plan
    return Checklist(
        title=plan.title or "Film",
        setup=(*SETUP, *((SETUP_LEFT,) if plan.left else ())),
        samples=tuple(_samples(film)),
        shots=tuple(_row(scene) for scene in film.scenes),
        photos=tuple(f"{p.file}: {f'{p.row}, ' if p.row else ''}{p.face}: {p.shows}." for p in film.photos),
        shorter=tuple(_shorter(film, minutes)),
        total=span(film.minutes * 60),
        on_camera=_on_camera(plan),
    )


def _on_camera(plan: FilmPlan) -> str:
    """The rows worked on camera, part by part: "Body: Round 1, Round 2; Flipper: Round 1"."""
    shots = [shot for shot in plan.shots if shot.kind in ("close", "speed")]
    parts = [(where, ", ".join(shot.title for shot in run)) for where, run in groupby(shots, key=lambda shot: shot.where)]
    return "; ".join(f"{where}: {titles}" if where else titles for where, titles in parts)


def _row(scene: Scene) -> CheckRow:
    shot = scene.shot
    return CheckRow(
        number=shot.number,
        how=_DOING[shot.kind],
        title=scene.card.row,
        shows="; ".join(shot.shows) or _SHOWS.get(shot.kind, ""),
        frame=shot.frame,
        card=str(scene.card),
        face={"RS": "right side", "WS": "wrong side"}.get(shot.side, ""),
        minutes=span(scene.end - scene.start),
        before=f"have it ready up to {shot.sample_at}" if shot.sample_at else "",
    )


def _samples(film: Film) -> Iterator[str]:
    for sample in film.plan.samples:
        yield (
            f"{sample.part or 'The piece'} up to and with {sample.at}, for shot {sample.shot}: {sample.stitches:,} stitches, "
            f"{_work(sample.minutes)} more than the sample before ({_work(sample.alone)} from the beginning)."
            if sample.alone != sample.minutes
            else f"{sample.part or 'The piece'} up to and with {sample.at}, for shot {sample.shot}: {sample.stitches:,} stitches, "
            f"{_work(sample.minutes)} of work."
        )
    yield "The finished piece, for the first shot and the last."


def _work(minutes: float) -> str:
    return f"{minutes:.0f} min" if minutes < 90 else f"{minutes / 60:.1f} h"


def _shorter(film: Film, minutes: float | None) -> Iterator[str]:
    cut = shorter_cut(film.plan, minutes)
    if minutes is not None:
        verdict = "" if cut.reaches else "; shorter than that no cut shows every action once"
        yield f"To {minutes:g} minutes: {span(cut.minutes * 60)} are left{verdict}."
    elif cut.drops:
        yield f"Without what is shown a second time: {span(cut.minutes * 60)} are left."
    else:
        yield "Nothing is shown twice: a shorter cut would lose an action."
    yield from cut.loses


def span(seconds: float) -> str:
    """A length as "1:25".

    >>> span(85.4), span(3700)
    ('1:25', '61:40')
    """
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02}"
