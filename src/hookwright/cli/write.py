"""`hookwright write`: the pattern in US or UK terms."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from .common import CannotDo, load, place, write_file


def write(
    file: str,
    /,
    *,
    terms: Literal["US", "UK"] | None = None,
    language: str = "en",
    counts: Annotated[bool, Parameter(negative=())] = False,
    plain: Annotated[bool, Parameter(negative=())] = False,
    output: Annotated[Path | None, Parameter(name=["--output", "-o"])] = None,
) -> int:
    """Write the pattern in US or UK terms, in one house style, from what was understood of it.

    Parameters
    ----------
    file
        A pattern, or - for standard input.
    terms
        US or UK; the pattern's own when not told.
    language
        The language of the words.
    counts
        Put the worked count at the end of every row.
    plain
        Ordinary spaces instead of no-break spaces between a number and its noun.
    output
        Write to this file instead of the terminal.
    """
    from ..working import work
    from ..writing import HOUSE, LANGUAGES, PLAIN, settled, with_counts
    from ..writing import write as written_from

    if language not in LANGUAGES:
        raise CannotDo(f"The language {language} cannot be written yet; these can: {', '.join(LANGUAGES)}.")
    source, pattern = load(file)
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    pattern = settled(pattern, fabrics)
    if counts:
        pattern = with_counts(pattern, fabrics)
    made = written_from(pattern, terms=terms or pattern.terms, language=language, style=PLAIN if plain else HOUSE)
    if output is None:
        print(made.text, end="")
    else:
        write_file(output, made.text)
    for span in made.quoted:
        line, column = place(source.text, span.start)
        words = " ".join(span.of(source.text).split())
        print(f"{source.name}:{line}:{column}: not understood, kept as it stands: {words}", file=sys.stderr)
    return 0
