"""`hookwright teach`: the film plan, the script and captions; what was said against what is written."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from .common import CannotDo, load, sizes_of, write_folder
from .film_words import checklist_text, film_json
from .publish import worked


def teach(
    file: str,
    /,
    *,
    minutes: float | None = None,
    terms: Literal["US", "UK"] | None = None,
    size: str | None = None,
    left: Annotated[bool, Parameter(negative=())] = False,
    errata: str = "",
    heard: str | None = None,
    doubtful: Annotated[bool, Parameter(negative=())] = False,
    output: Annotated[Path | None, Parameter(name=["--output", "-o"])] = None,
    json_: Annotated[bool, Parameter(name="--json", negative=())] = False,
) -> int:
    """Plan the film of a pattern: shots, script, captions, chapters; or hold spoken captions against it.

    Parameters
    ----------
    file
        A pattern, or - for standard input.
    minutes
        Say what a cut to so many minutes would drop.
    terms
        The terms spoken; the pattern's own when not told. The other names are said at first mention.
    size
        The size on camera, by name or number; the first when not told. Cards show every size.
    left
        Film for left-handers.
    errata
        Where corrections stand, for the text below the film; else the front matter's `errata` or `link`.
    heard
        Captions of a film (.vtt, .srt, .sbv, or lines that begin with a time): lists what was said otherwise than it is written.
    doubtful
        With --heard: list also what is less sure than one half.
    output
        Write script, captions (.vtt, .srt), chapters and the text below the film into this folder.
    json_
        Print the plan, or what was heard, for a program.
    """
    from ..teaching import film_of, film_texts

    _, pattern = load(file)
    fabrics = worked(pattern)
    if not any(not row.foundation for part in fabrics[0].parts for row in part.rows):
        raise CannotDo("There is no row to film in this pattern.")
    chosen = sizes_of(pattern, size)[0] if size else 0
    if heard is not None:
        from .teach_heard import tell_heard

        return tell_heard(fabrics if size is None else [fabrics[chosen]], heard, doubtful=doubtful, as_json=json_)
    film = film_of(pattern, fabrics, size=chosen, terms=terms, left=left, errata=errata)
    if output is not None:
        write_folder(output, film_texts(film))
    print(film_json(film, minutes) if json_ else checklist_text(film, minutes))
    return 0
