"""Film plan, script, captions, chapters and cautions from the worked fabric; what was said against what is written; what a change touches.

Names are imported when first asked for.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .cautions import cautions_of, subjects_of
    from .chapter_list import Chapter, chapter_lines, chapters, description
    from .checklist import Checklist, CheckRow, checklist_of
    from .cues import Cue, captions, clock, to_srt, to_vtt
    from .drifting import Touched, drift, note_of
    from .film import Film, film_of
    from .glossary import Mended, mend
    from .hearing.caption_files import CannotHear, Captions, read_captions
    from .hearing.compare import compare
    from .hearing.findings import Heard
    from .photos import PhotoShot, photo_list
    from .plan import film_plan
    from .scenes import Card, Scene, script
    from .shorter import Cut, shorter_cut
    from .shots import FilmPlan, Sample, Shot, SkipLine
    from .texts import film_texts
    from .versions import RowChange, row_changes

_HOME = {
    "cues": "Cue captions clock to_srt to_vtt",
    "cautions": "cautions_of subjects_of",
    "chapter_list": "Chapter chapter_lines chapters description",
    "checklist": "CheckRow Checklist checklist_of",
    "drifting": "Touched drift note_of",
    "film": "Film film_of",
    "glossary": "Mended mend",
    "texts": "film_texts",
    "hearing.caption_files": "CannotHear Captions read_captions",
    "hearing.compare": "compare",
    "hearing.findings": "Heard",
    "photos": "PhotoShot photo_list",
    "plan": "film_plan",
    "scenes": "Card Scene script",
    "shorter": "Cut shorter_cut",
    "versions": "RowChange row_changes",
    "shots": "FilmPlan Sample Shot SkipLine",
}
_WHERE = {name: module for module, names in _HOME.items() for name in names.split()}

__all__ = [
    "CannotHear", "Captions", "Card", "Chapter", "CheckRow", "Checklist", "Cue", "Cut", "Film", "FilmPlan", "Heard", "Mended",
    "PhotoShot", "RowChange", "Sample", "Scene", "Shot", "SkipLine", "Touched", "captions", "cautions_of", "chapter_lines", "chapters",
    "checklist_of", "clock", "compare", "description", "drift", "film_of", "film_plan", "film_texts", "mend", "note_of", "photo_list",
    "read_captions", "row_changes", "script", "shorter_cut", "subjects_of", "to_srt", "to_vtt",
]  # fmt: skip


def __getattr__(name: str) -> Any:
    where = _WHERE.get(name)
    if where is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(import_module(f".{where}", __name__), name)
    globals()[name] = value
    return value
