"""`hookwright teach`: the film plan, the script and captions; what was said against what is written."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from .common import CannotDo, load, sizes_of, write_folder
from .film_words import checklist_text, film_json, shot_times
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
    mend: str | None = None,
    since: str | None = None,
    manifest: str | None = None,
    times: str | None = None,
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
    mend
        Captions made by a machine: writes them with the stitch terms mended, into -o or to the screen, and lists what was changed.
    since
        The pattern as it was when the film was made: lists which shots, captions, chapters, pictures and pages are touched, with a
        correction note for each change.
    manifest
        With --since: the manifest.json of the published folder, for pages and pictures.
    times
        Where the shots begin in the film as it was cut, a line a shot: its number and its time (`4 1:24`).
    doubtful
        With --heard: list also what is less sure than one half.
    output
        Write the checklist (HTML and PDF), script, captions (.vtt, .srt), chapters and the text below the film into this folder.
    json_
        Print the plan, or what was heard, for a program.
    """
    from ..teaching import film_of

    _, pattern = load(file)
    fabrics = worked(pattern)
    if not any(not row.foundation for part in fabrics[0].parts for row in part.rows):
        raise CannotDo("There is no row to film in this pattern.")
    chosen = sizes_of(pattern, size)[0] if size else 0
    if heard is not None:
        from .teach_heard import tell_heard

        return tell_heard(fabrics if size is None else [fabrics[chosen]], heard, doubtful=doubtful, as_json=json_)
    if mend is not None:
        from .teach_mend import tell_mended

        return tell_mended(mend, output, as_json=json_)
    if since is not None:
        from .teach_since import tell_drift

        return tell_drift(since, pattern, fabrics, manifest=manifest, size=chosen, terms=terms, as_json=json_)
    starts = shot_times(times) if times is not None else None
    film = film_of(pattern, fabrics, size=chosen, terms=terms, left=left, errata=errata, starts=starts)
    if output is not None:
        from ..publishing import film_files
        from ..publishing.stamp import stamp_of

        write_folder(output, film_files(film, stamp=stamp_of(pattern), minutes=minutes))
    print(film_json(film, minutes) if json_ else checklist_text(film, minutes))
    return 0
