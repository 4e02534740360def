"""The child process: a document on standard input, `{"text": …}` or `{"error": …}` on standard output. It writes no file."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable

from .bounds import BOUNDS, Bounds, Refused


def main() -> None:
    """Read standard input with the reader named on the command line."""
    _bind(BOUNDS)
    data = sys.stdin.buffer.read(BOUNDS.file_bytes + 1)
    try:
        text = _reader(sys.argv[1])(data)
        answer = {"text": text[: BOUNDS.characters]}
    except Refused as refusal:
        answer = {"error": str(refusal)}
    except RecursionError:
        answer = {"error": "is nested too deeply to be read."}
    sys.stdout.write(json.dumps(answer))


def _reader(kind: str) -> Callable[[bytes], str]:
    if kind == "docx":
        from .docx import read_docx

        return read_docx
    if kind == "pdf":
        from .pdf import read_pdf

        return read_pdf
    if kind == "html":
        from .html import read_html

        return read_html
    from .text import read_text

    return read_text


def _bind(bounds: Bounds) -> None:
    """Take away more time, memory and files than a document needs (where the system can)."""
    try:
        import resource
    except ImportError:
        return
    for what, most in (
        (resource.RLIMIT_AS, bounds.memory_bytes),
        (resource.RLIMIT_CPU, int(bounds.seconds)),
        (resource.RLIMIT_FSIZE, 0),
        (resource.RLIMIT_CORE, 0),
    ):
        try:
            resource.setrlimit(what, (most, most))
        except (ValueError, OSError):
            continue


if __name__ == "__main__":
    main()
