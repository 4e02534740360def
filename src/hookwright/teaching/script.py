"""The spoken words of each shot, its card, and the captions and chapters that follow from them."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..pattern import Make, Pattern
from ..trade.terms import name as full_name
from ..working import Fabric, Role, RowWork
from ..writing import SPOKEN, write
from .plan import FilmPlan, Shot

WORDS_A_SECOND = 2.5
"""150 words a minute, a usual pace of narration (common practice, no source)."""
LINE, LINES, SHORTEST, LONGEST = 42, 2, 1.0, 7.0
"""Captions: characters a line, lines, seconds on screen (usual limits of broadcasters' guides, from memory)."""

_OTHER = {"US": "UK", "UK": "US"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """One shot with its words. `start`, `end` in seconds of the film."""

    shot: Shot
    start: float
    end: float
    sentences: tuple[str, ...]
    card: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue:
    start: float
    end: float
    text: str


def script(pattern: Pattern, fabric: Fabric, plan: FilmPlan) -> tuple[Scene, ...]:
    """What is said in each shot, timed one after the other; a shot lasts at least as long as its words."""
    words = {row.id: row for part in write(pattern, terms=pattern.terms, style=SPOKEN).parts for row in part.rows}
    both: set[str] = set()
    scenes: list[Scene] = []
    at = 0.0
    for shot in plan.shots:
        row = words.get(shot.row)
        said = _sentences(pattern, fabric, shot, row.words if row is not None else "", both)
        talk = sum(len(s.split()) for s in said) / WORDS_A_SECOND + 0.4 * len(said)
        length = max(shot.seconds, talk)
        scenes.append(Scene(shot=shot, start=at, end=at + length, sentences=said, card=_card(pattern, shot)))
        at += length
    return tuple(scenes)


def _label(shot: Shot) -> str:
    first, last = shot.rows
    noun = "Rounds" if first.startswith("Rnd") else "Rows"
    if first != last and first.split()[-1].isdigit() and last.split()[-1].isdigit():
        return f"{noun} {first.split()[-1]} to {last.split()[-1]}"
    return first.replace("Rnd", "Round")


def _sentences(pattern: Pattern, fabric: Fabric, shot: Shot, words: str, both: set[str]) -> tuple[str, ...]:
    terms = pattern.terms
    said = [f"{_label(shot)}."]
    for action in shot.shows:
        kind = next((k for k in ("sc", "hdc", "dc", "tr", "dtr") if full_name(k, terms) == action), None)
        if kind is not None and kind not in both:
            both.add(kind)
            said.append(f"This is {action}, {full_name(kind, 'UK' if terms == 'US' else 'US')} in {_OTHER[terms]} terms.")
    if shot.kind == "skip":
        said.append(f"{words.replace(';', '.')}.")
    else:
        said += [part.strip().capitalize() + "." for part in re.split(r"[;,] (?=[a-z0-9])", words) if part.strip()]
        said += _edges(fabric, shot)
    said.append(f"You now have {shot.count}.")
    return tuple(said)


def _edges(fabric: Fabric, shot: Shot) -> list[str]:
    """Where the first stitch goes, when the starting chain decides it, and the slip made there most often."""
    row = next((r for p in fabric.parts for r in p.rows if r.written.id == shot.row and not r.foundation), None)
    if row is None or not len(row.stitches) or row.stitches.role[0] != Role.START or _begins_in_first(row):
        return []
    if Role.START_TOP in row.stitches.role[:8]:
        return [
            "The chain stands in the first stitch, so your next stitch goes in the second; working the first too would add one every row."
        ]
    return ["The chain is only height, so your first stitch goes in the first stitch; missing it would lose one every row."]


def _begins_in_first(row: RowWork) -> bool:
    """Whether the row's own words send a stitch into the first place: then nothing need be said of it."""
    return any(isinstance(s, Make) and s.at.where in ("first", "same", "from_hook") for s in row.written.steps)


def _card(pattern: Pattern, shot: Shot) -> str:
    hook = f" · hook {pattern.facts.hook_mm:g} mm" if pattern.facts.hook_mm else ""
    return f"{_label(shot)} · {shot.count}{hook}"


def captions(scenes: tuple[Scene, ...]) -> tuple[Cue, ...]:
    """The script as captions: at most two lines of 42 characters, one to seven seconds each, none over another."""
    cues: list[Cue] = []
    for scene in scenes:
        at = scene.start
        for block in (b for sentence in scene.sentences for b in _blocks(sentence)):
            length = min(LONGEST, max(SHORTEST, len(block.split()) / WORDS_A_SECOND))
            if at + length > scene.end + 0.01:
                length = max(SHORTEST, scene.end - at)
            cues.append(Cue(start=round(at, 3), end=round(at + length, 3), text=block))
            at += length
    return tuple(_apart(cues))


def _apart(cues: list[Cue]) -> list[Cue]:
    """No caption begins before the one before it ends."""
    out: list[Cue] = []
    for cue in cues:
        start = max(cue.start, out[-1].end if out else 0.0)
        out.append(Cue(start=start, end=max(cue.end, start + SHORTEST), text=cue.text))
    return out


def _blocks(sentence: str) -> list[str]:
    """A sentence as blocks of at most two lines."""
    lines: list[str] = []
    for word in sentence.split():
        if lines and len(lines[-1]) + 1 + len(word) <= LINE:
            lines[-1] += f" {word}"
        else:
            lines += [word[i : i + LINE] for i in range(0, len(word), LINE)]
    return ["\n".join(lines[i : i + LINES]) for i in range(0, len(lines), LINES)]


def chapters(scenes: tuple[Scene, ...]) -> tuple[tuple[float, str], ...]:
    """(start, title): the first at 0:00, each at least ten seconds long; short ones go with the one before."""
    found: list[tuple[float, str]] = []
    for scene in scenes:
        if not found:
            found.append((0.0, _label(scene.shot)))
        elif scene.start - found[-1][0] >= 10 and scenes[-1].end - scene.start >= 10 and scene.shot.kind != "skip":
            found.append((scene.start, _label(scene.shot)))
    return tuple(found)


def clock(seconds: float, *, mark: str = ".") -> str:
    """The time as captions write it.

    >>> clock(3661.5), clock(2, mark=",")
    ('01:01:01.500', '00:00:02,000')
    """
    ms = round(seconds * 1000)
    return f"{ms // 3_600_000:02}:{ms // 60_000 % 60:02}:{ms // 1000 % 60:02}{mark}{ms % 1000:03}"


def to_vtt(cues: tuple[Cue, ...]) -> str:
    """WebVTT (W3C, "WebVTT: The Web Video Text Tracks Format")."""
    safe = ((c, c.text.replace("&", "&amp;").replace("<", "&lt;").replace("-->", "—>")) for c in cues)
    return "WEBVTT\n\n" + "\n".join(f"{clock(c.start)} --> {clock(c.end)}\n{text}\n" for c, text in safe)


def to_srt(cues: tuple[Cue, ...]) -> str:
    """SubRip: numbered, with a comma before the milliseconds."""
    lines = (f"{i}\n{clock(c.start, mark=',')} --> {clock(c.end, mark=',')}\n{c.text}\n" for i, c in enumerate(cues, 1))
    return "\n".join(lines)
