"""`hookwright read`: turn a document into a Markdown pattern."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from .common import STDIN, CannotDo, read_bytes, write_file


def read(
    file: Annotated[str, Parameter(name="FILE")],
    /,
    *,
    output: Annotated[Path | None, Parameter(name=["--output", "-o"])] = None,
    kind: str | None = None,
) -> int:
    """Turn a .docx, .html, .pdf or .txt into a Markdown pattern.

    Parameters
    ----------
    file
        The document, or - for standard input.
    output
        Write the pattern to this file instead of standard output.
    kind
        docx, html, pdf or text, where the name and the first bytes do not tell.
    """
    from ..importing import KINDS, CannotRead, read_document
    from ..importing.bounds import BOUNDS

    if kind is not None and kind not in KINDS.values():
        raise CannotDo(f"There is no kind of document {kind}: docx, html, pdf and text are read.")
    name = "Standard input" if file == STDIN else file
    data = read_bytes(file, BOUNDS.file_bytes)
    try:
        text = read_document(data, name, kind=kind)
    except CannotRead as failure:
        raise CannotDo(str(failure)) from None
    if output is None:
        print(text, end="")
    else:
        if output.exists():
            raise CannotDo(f"{output} is there already: give another name after -o.")
        write_file(output, text)
    return 0
