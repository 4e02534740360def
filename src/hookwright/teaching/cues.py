"""Captions from the script: at most two lines of 42 characters, one to seven seconds, none over another; WebVTT and SRT.

The limits are those of broadcasters' and streaming guides, from memory; they are what issue and trade ask for.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .scenes import Scene
from .speech import aloud

LINE, LINES, SHORTEST, LONGEST = 42, 2, 1.0, 7.0
GAP_S = 0.04
"""Between two captions, so that the eye sees that one has gone (a frame at 25 a second)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue:
    """One caption. Seconds from the beginning of the film; lines of `text` parted by a line feed."""

    start: float
    end: float
    text: str


def captions(scenes: Sequence[Scene]) -> tuple[Cue, ...]:
    """The script as captions, each shown while its words are said; raises nothing, drops nothing: what is long runs on a little."""
    cues: list[Cue] = []
    for scene in scenes:
        blocks = [block for sentence in scene.sentences for block in blocks_of(sentence)]
        cues += _timed(blocks, scene, cues[-1].end + GAP_S if cues else 0.0)
    return tuple(cues)


def _timed(blocks: Sequence[str], scene: Scene, free: float) -> Iterable[Cue]:
    """Blocks shared out over the scene by how long they take to say; a silent rest stays silent."""
    at = max(scene.start, free)
    weights = [len(aloud(block.replace("\n", " "))) for block in blocks]
    room = max(scene.end - at, SHORTEST * len(blocks))
    pace = min(room / max(sum(weights), 1), 0.085)
    for block, weight in zip(blocks, weights, strict=True):
        length = min(LONGEST, max(SHORTEST, weight * pace))
        yield Cue(start=round(at, 3), end=round(at + length - GAP_S if length > SHORTEST + GAP_S else at + length, 3), text=block)
        at += length if length > SHORTEST + GAP_S else length + GAP_S


def blocks_of(sentence: str) -> tuple[str, ...]:
    """A sentence as blocks of at most two lines, the lines of a block about equally long and broken at a comma where one is near.

    >>> blocks_of("Double crochet in each stitch across, then turn.")
    ('Double crochet in each stitch across,\\nthen turn.',)
    """
    words = [word[i : i + LINE] for word in sentence.split() for i in range(0, len(word), LINE)]
    out = []
    while words:
        taken = _fit(words)
        out.append(_balanced(words[:taken]))
        words = words[taken:]
    return tuple(out)


def _fit(words: Sequence[str]) -> int:
    """How many words go into the next block: as many as fit two lines, or to the last comma after half of it."""
    lines, taken = [0], 0
    for word in words:
        need = len(word) + (1 if lines[-1] else 0)
        if lines[-1] + need > LINE:
            if len(lines) == LINES:
                break
            lines.append(0)
            need = len(word)
        lines[-1] += need
        taken += 1
    if taken == len(words):
        return taken
    stops = [k + 1 for k in range(taken // 2, taken) if words[k][-1] in ",;:.?!"]
    return stops[-1] if stops else taken


def _balanced(words: Sequence[str]) -> str:
    whole = " ".join(words)
    if len(whole) <= LINE:
        return whole
    cuts = [(" ".join(words[:k]), " ".join(words[k:])) for k in range(1, len(words))]
    fits = [(a, b) for a, b in cuts if len(a) <= LINE and len(b) <= LINE]
    if not fits:
        return "\n".join(_greedy(words))
    best = min(fits, key=lambda pair: (0 if pair[0][-1] in ",;:" else 1, abs(len(pair[0]) - len(pair[1]))))
    return "\n".join(best)


def _greedy(words: Sequence[str]) -> list[str]:
    lines = [words[0]]
    for word in words[1:]:
        if len(lines[-1]) + 1 + len(word) <= LINE:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def clock(seconds: float, *, mark: str = ".") -> str:
    """The time as captions write it.

    >>> clock(3661.5), clock(2, mark=",")
    ('01:01:01.500', '00:00:02,000')
    """
    ms = round(seconds * 1000)
    return f"{ms // 3_600_000:02}:{ms // 60_000 % 60:02}:{ms // 1000 % 60:02}{mark}{ms % 1000:03}"


def to_vtt(cues: Sequence[Cue]) -> str:
    """WebVTT (W3C, "WebVTT: The Web Video Text Tracks Format")."""
    safe = ((c, c.text.replace("&", "&amp;").replace("<", "&lt;").replace("-->", "—>")) for c in cues)
    return "WEBVTT\n\n" + "\n".join(f"{clock(c.start)} --> {clock(c.end)}\n{text}\n" for c, text in safe)


def to_srt(cues: Sequence[Cue]) -> str:
    """SubRip: numbered, with a comma before the milliseconds."""
    lines = (f"{i}\n{clock(c.start, mark=',')} --> {clock(c.end, mark=',')}\n{c.text}\n" for i, c in enumerate(cues, 1))
    return "\n".join(lines)
