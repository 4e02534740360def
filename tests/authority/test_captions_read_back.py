"""Captions and chapters read back by general libraries: webvtt-py (WebVTT and SubRip), and the rules of the W3C text for timestamps.

Sources: W3C, "WebVTT: The Web Video Text Tracks Format", https://www.w3.org/TR/webvtt1/ (timestamps, cue order); webvtt-py as an
independent reader. The limits of lines and seconds are those of broadcasters' guides, from memory.
"""

import re
from io import StringIO
from pathlib import Path

import pytest
import webvtt

from hookwright.reading import read
from hookwright.teaching import film_of, read_captions, to_srt, to_vtt
from hookwright.teaching.cues import Cue
from hookwright.working import work

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.md"))
TIMESTAMP = re.compile(r"(?:\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3}")
"""W3C WebVTT, section 4.1: hours of two or more figures, minutes and seconds below sixty, three figures of milliseconds."""


def cues_of(path: Path) -> tuple[Cue, ...]:
    pattern = read(path.read_text(encoding="utf-8"))
    return film_of(pattern, [work(pattern, size=size) for size in range(pattern.sizes)]).cues


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_webvtt_is_read_back_whole(path: Path) -> None:
    cues = cues_of(path)
    text = to_vtt(cues)
    back = list(webvtt.from_string(text))
    assert [(c.start_in_seconds * 1000 + c.start_time.milliseconds, c.text) for c in back] == [
        (int(cue.start) * 1000 + round(cue.start % 1 * 1000), cue.text.replace("&", "&amp;").replace("<", "&lt;")) for cue in cues
    ]
    for line in text.splitlines():
        if "-->" in line:
            start, end = line.split(" --> ")
            assert TIMESTAMP.fullmatch(start) and TIMESTAMP.fullmatch(end) and start < end


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_subrip_is_read_back_whole(path: Path) -> None:
    cues = cues_of(path)
    back = list(webvtt.from_buffer(StringIO(to_srt(cues)), format="srt"))
    assert [c.text for c in back] == [cue.text for cue in cues]
    assert [c.end_in_seconds for c in back] == [int(cue.end) for cue in cues]


@pytest.mark.parametrize("write", (to_vtt, to_srt))
def test_our_own_reader_agrees_with_the_general_one(write: object) -> None:
    cues = cues_of(EXAMPLES[0])
    ours = read_captions(write(cues)).cues  # type: ignore[operator]
    assert [" ".join(c.text.split()) for c in ours] == [" ".join(c.text.split()) for c in cues]
    assert [round(c.start, 3) for c in ours] == [c.start for c in cues]


def test_signs_that_would_break_a_cue_are_made_harmless() -> None:
    cues = (Cue(start=0.0, end=2.0, text="a <b> & c --> d"),)
    (back,) = webvtt.from_string(to_vtt(cues))
    assert "-->" not in back.text and "<b>" not in to_vtt(cues)
