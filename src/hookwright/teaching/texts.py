"""The parts of a film that are plain text, as {name: bytes}: script, captions, chapters, the text below it."""

from __future__ import annotations

from .chapter_list import chapter_lines
from .cues import clock, to_srt, to_vtt
from .film import Film


def film_texts(film: Film) -> dict[str, bytes]:
    """`script.txt`, `captions.vtt`, `captions.srt`, `chapters.txt`, `description.txt`, UTF-8, line feeds at line ends."""
    texts = {
        "script.txt": script_text(film),
        "captions.vtt": to_vtt(film.cues),
        "captions.srt": to_srt(film.cues),
        "chapters.txt": chapter_lines(film.chapters) + "\n",
        "description.txt": film.text,
    }
    return {name: text.encode() for name, text in texts.items()}


def script_text(film: Film) -> str:
    """The script to read from: each shot with its time, card and words."""
    blocks = [
        "\n".join((f"{scene.shot.number}. {clock(scene.start)[:8]}  [{scene.card}]", *(f"   {line}" for line in scene.spoken)))
        for scene in film.scenes
    ]
    return "\n\n".join(blocks) + "\n"
