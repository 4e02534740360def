"""Film plan, script, captions and chapters from the worked fabric; what was said against what is written."""

from .heard import CannotHear, Heard, compare, mended, read_captions
from .plan import FilmPlan, Shot, film_plan
from .script import Cue, Scene, captions, chapters, clock, script, to_srt, to_vtt

__all__ = [
    "CannotHear", "Cue", "FilmPlan", "Heard", "Scene", "Shot", "captions", "chapters", "clock", "compare", "film_plan", "mended",
    "read_captions", "script", "to_srt", "to_vtt",
]  # fmt: skip
